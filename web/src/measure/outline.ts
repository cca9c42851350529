// What can be told of an outline: a closed line of points.
import type { Point } from "./homography";

/** Area inside, by the shoelace formula, in the square of the points' unit; positive whichever way round. */
export function areaOf(outline: readonly Point[]): number {
  return Math.abs(signedAreaOf(outline));
}

/** As the area, negative where the points go the other way round. */
export function signedAreaOf(outline: readonly Point[]): number {
  // from the first point, so that points far from the origin lose nothing
  const start = outline[0];
  if (!start) return 0;
  return sides(outline).reduce((sum, [a, b]) => sum + (a.x - start.x) * (b.y - start.y) - (b.x - start.x) * (a.y - start.y), 0) / 2;
}

export function perimeterOf(outline: readonly Point[]): number {
  return sides(outline).reduce((sum, [a, b]) => sum + distance(a, b), 0);
}

export function distance(a: Point, b: Point): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}

/** Length along the first axis and width along the second. */
export function extentsOf(outline: readonly Point[]): { length: number; width: number } {
  const span = (values: number[]): number => Math.max(...values) - Math.min(...values);
  return { length: span(outline.map((point) => point.x)), width: span(outline.map((point) => point.y)) };
}

/** Whether two of its sides cross: then it has no area to speak of. */
export function crossesItself(outline: readonly Point[]): boolean {
  const all = sides(outline);
  return all.some(([a, b], first) =>
    all.some(([c, d], second) => {
      const apart = Math.abs(first - second);
      return apart > 1 && apart < all.length - 1 && cross(a, b, c) * cross(a, b, d) < 0 && cross(c, d, a) * cross(c, d, b) < 0;
    }),
  );
}

/** Where in a closed line a new point belongs: into the side that it lies within `reach` of, else at the end. */
export function besideSide(outline: readonly Point[], point: Point, reach: number): number {
  if (outline.length < 3) return outline.length;
  const gaps = sides(outline).map(([a, b]) => {
    const length = distance(a, b) || 1;
    const along = Math.max(0, Math.min(1, ((point.x - a.x) * (b.x - a.x) + (point.y - a.y) * (b.y - a.y)) / length ** 2));
    return distance(point, { x: a.x + along * (b.x - a.x), y: a.y + along * (b.y - a.y) });
  });
  const least = Math.min(...gaps);
  return least < reach ? gaps.indexOf(least) + 1 : outline.length;
}

/** Twice the area of a triangle, positive where it turns from x to y. */
export function cross(a: Point, b: Point, c: Point): number {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

function sides(outline: readonly Point[]): [Point, Point][] {
  return outline.map((point, index) => [point, outline[(index + 1) % outline.length]!]);
}
