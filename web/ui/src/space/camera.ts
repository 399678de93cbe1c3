// Where the view in space is looked at from: pure. Angles in radians, lengths in millimetres of the van.

export interface Eye {
  /** the point looked at */
  x: number;
  y: number;
  z: number;
  /** round the upright axis; 0 looks from the rear forwards */
  round: number;
  /** above the horizon */
  up: number;
  far: number;
}

const most = Math.PI / 2 - 0.01;

export const orbit = (eye: Eye, dx: number, dy: number): Eye => ({
  ...eye,
  round: eye.round - dx * 0.008,
  up: Math.max(-0.4, Math.min(most, eye.up + dy * 0.008)),
});

export const nearer = (eye: Eye, by: number): Eye => ({
  ...eye,
  far: Math.max(300, Math.min(40_000, eye.far / by)),
});

/** slide moves the point looked at by so many pixels of a window h pixels high, along the picture. */
export function slide(eye: Eye, dx: number, dy: number, h: number, fov: number): Eye {
  const mm = (2 * eye.far * Math.tan(fov / 2)) / Math.max(1, h);
  const [s, c] = [Math.sin(eye.round), Math.cos(eye.round)];
  const [us, uc] = [Math.sin(eye.up), Math.cos(eye.up)];
  const along = { x: -s, y: c };
  const above = { x: -c * us, y: -s * us, z: uc };
  return {
    ...eye,
    x: eye.x - along.x * dx * mm + above.x * dy * mm,
    y: eye.y - along.y * dx * mm + above.y * dy * mm,
    z: eye.z + above.z * dy * mm,
  };
}

/** stand is where the eye is. */
export function stand(eye: Eye): [number, number, number] {
  const level = eye.far * Math.cos(eye.up);
  return [
    eye.x + level * Math.cos(eye.round),
    eye.y + level * Math.sin(eye.round),
    eye.z + eye.far * Math.sin(eye.up),
  ];
}

/** around looks at a box from where the eye is, near enough to see it whole. */
export function around(
  eye: Eye,
  box: { lo: [number, number, number]; hi: [number, number, number] },
  fov: number,
): Eye {
  const middle = [0, 1, 2].map((k) => ((box.lo[k] ?? 0) + (box.hi[k] ?? 0)) / 2);
  const wide = Math.hypot(...[0, 1, 2].map((k) => (box.hi[k] ?? 0) - (box.lo[k] ?? 0)));
  return {
    ...eye,
    x: middle[0] ?? 0,
    y: middle[1] ?? 0,
    z: middle[2] ?? 0,
    far: Math.max(900, (wide / 2 / Math.tan(fov / 2)) * 1.02),
  };
}
