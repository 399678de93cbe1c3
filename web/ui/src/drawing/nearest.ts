// Which item an arrow key leads to: the nearest one in that direction, as the eye would take it.

export interface Dot {
  id: string;
  x: number;
  y: number;
}

export type Way = "left" | "right" | "up" | "down";

export function nearest(dots: readonly Dot[], from: Dot, way: Way): Dot | null {
  const along = { left: [-1, 0], right: [1, 0], up: [0, -1], down: [0, 1] }[way] as [number, number];
  let best: Dot | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const dot of dots) {
    if (dot.id === from.id) continue;
    const dx = dot.x - from.x;
    const dy = dot.y - from.y;
    const ahead = dx * along[0] + dy * along[1];
    const aside = Math.abs(dx * along[1] + dy * along[0]);
    if (!(ahead > 0) || aside > 2 * ahead + 1) continue;
    const cost = ahead + 2 * aside;
    if (cost < least) {
      least = cost;
      best = dot;
    }
  }
  return best;
}
