import { expect, test } from "vitest";
import { around, type Eye, nearer, orbit, slide, stand } from "./camera";

const eye: Eye = { x: 0, y: 0, z: 0, round: 0.7, up: 0.4, far: 5000 };

test("orbiting keeps the distance and the point looked at", () => {
  const there = orbit(eye, 120, -60);
  const [x, y, z] = stand(there);
  expect(Math.hypot(x, y, z)).toBeCloseTo(5000, 6);
  expect(orbit(there, -120, 60)).toEqual(eye);
});

test("sliding moves square to the line of sight and back again", () => {
  const there = slide(eye, 40, 25, 600, 0.5);
  const sight = stand(eye);
  const by = [there.x, there.y, there.z];
  expect(by.reduce((sum, v, k) => sum + v * (sight[k] ?? 0), 0)).toBeCloseTo(0, 6);
  const back = slide(there, -40, -25, 600, 0.5);
  for (const v of [back.x, back.y, back.z]) expect(v).toBeCloseTo(0, 6);
});

test("going nearer stops before it is through", () => {
  expect(nearer(eye, 1000).far).toBe(300);
  expect(nearer(eye, 0.0001).far).toBe(40000);
});

test("a box is looked at from where it is seen whole", () => {
  const there = around(eye, { lo: [1000, -500, 0], hi: [2000, 500, 2000] }, 0.5);
  expect([there.x, there.y, there.z]).toEqual([1500, 0, 1000]);
  expect(2 * there.far * Math.tan(0.25)).toBeGreaterThan(2000);
});
