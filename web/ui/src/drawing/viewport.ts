// Which part of the paper is in sight: pure. A port says which scene point stands at the upper left
// corner of the window and how many pixels a millimetre takes.

export interface Port {
  x: number;
  y: number;
  k: number;
}

export interface Rect {
  x0: number;
  y0: number;
  x1: number;
  y1: number;
}

/** fit shows all of a rectangle in a window of w by h pixels, with some pixels left around it. */
export function fit(rect: Rect, w: number, h: number, around = 10): Port {
  const wide = rect.x1 - rect.x0;
  const high = rect.y1 - rect.y0;
  if (!(wide > 0 && high > 0 && w > 2 * around && h > 2 * around)) return { x: rect.x0, y: rect.y0, k: 0.1 };
  const k = Math.min((w - 2 * around) / wide, (h - 2 * around) / high);
  return { x: rect.x0 - (w / k - wide) / 2, y: rect.y0 - (h / k - high) / 2, k };
}

/** zoom keeps the scene point under the pixel px, py where it is. */
export function zoom(port: Port, by: number, px: number, py: number, least: number, most: number): Port {
  const k = Math.max(least, Math.min(most, port.k * by));
  return { x: port.x + px / port.k - px / k, y: port.y + py / port.k - py / k, k };
}

export function pan(port: Port, dx: number, dy: number): Port {
  return { ...port, x: port.x - dx / port.k, y: port.y - dy / port.k };
}

export const toScreen = (port: Port, x: number, y: number): [number, number] => [
  (x - port.x) * port.k,
  (y - port.y) * port.k,
];

export const toScene = (port: Port, px: number, py: number): [number, number] => [
  px / port.k + port.x,
  py / port.k + port.y,
];
