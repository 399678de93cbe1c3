import { describe, expect, it } from "vitest";
import { nearest } from "./nearest";
import { spread } from "./numbers";
import { caught, distinct } from "./snap";
import { steps, telling } from "./strip";
import { fit, pan, toScene, toScreen, zoom } from "./viewport";

describe("snapping", () => {
  it("catches the nearer of two sides on a line within reach", () => {
    expect(caught({ lo: 100, hi: 200 }, 45, [250, 400], 8)).toEqual({ by: 50, line: 250 });
    expect(caught({ lo: 100, hi: 200 }, 30, [250], 8)).toEqual({ by: 30, line: null });
  });
  it("has no line twice", () => {
    expect(distinct([5, 1, 5.00001, 3])).toEqual([1, 3, 5]);
  });
});

describe("nearest", () => {
  const dots = [
    { id: "a", x: 0, y: 0 },
    { id: "b", x: 10, y: 1 },
    { id: "c", x: 6, y: 30 },
    { id: "d", x: -4, y: 0 },
  ];
  it("takes the one straight ahead before a nearer one aside", () => {
    expect(nearest(dots, { id: "a", x: 0, y: 0 }, "right")?.id).toBe("b");
    expect(nearest(dots, { id: "a", x: 0, y: 0 }, "down")?.id).toBe("c");
    expect(nearest(dots, { id: "a", x: 0, y: 0 }, "up")).toBeNull();
    expect(nearest(dots, { id: "a", x: 0, y: 0 }, "left")?.id).toBe("d");
  });
});

describe("viewport", () => {
  const port = fit({ x0: 0, y0: 0, x1: 6000, y1: 2000 }, 1220, 820);
  it("shows all of a rectangle, in the middle", () => {
    expect(port.k).toBeCloseTo(0.2, 9);
    expect(toScreen(port, 3000, 1000)).toEqual([610, 410]);
  });
  it("keeps the point under the pointer while zooming", () => {
    const before = toScene(port, 300, 200);
    const after = toScene(zoom(port, 2, 300, 200, 0.01, 10), 300, 200);
    expect(after[0]).toBeCloseTo(before[0], 6);
    expect(after[1]).toBeCloseTo(before[1], 6);
  });
  it("moves with the hand", () => {
    const [x, y] = toScreen(pan(port, 15, -5), 0, 0);
    const [x0, y0] = toScreen(port, 0, 0);
    expect(x - x0).toBeCloseTo(15, 9);
    expect(y - y0).toBeCloseTo(-5, 9);
  });
});

describe("numbers", () => {
  it("never touch each other, and the largest thing comes first", () => {
    const box = { x0: 0, y0: 0, x1: 1000, y1: 1000 };
    const placed = spread(
      Array.from({ length: 40 }, (_, nth) => ({ box: { ...box, x1: 1000 - nth }, words: String(nth) })),
      0.1,
    );
    expect(placed.length).toBeGreaterThan(3);
    expect(placed.length).toBeLessThanOrEqual(9);
    expect(placed[0]?.words).toBe("0");
  });
  it("are left out where they do not fit", () => {
    expect(spread([{ box: { x0: 0, y0: 0, x1: 50, y1: 50 }, words: "12" }], 0.1)).toEqual([]);
  });
});

it("the level lines of the strip are round, reach over all values and have nought among them", () => {
  expect(steps(10, 33)).toEqual([0, 20, 40]);
  expect(steps(0, 300)).toEqual([0, 100, 200, 300]);
  expect(steps(-969, -527)).toEqual([-1000, -500, 0]);
  expect(steps(0, 0)).toEqual([0]);
});

it("words stand at the ends of the curve and where another limit takes over", () => {
  const points = ["total", "total", "rear", "rear", "rear"].map((ends, x) => ({ x, ends }));
  expect(telling(points).map((point) => point.x)).toEqual([0, 2, 4]);
});
