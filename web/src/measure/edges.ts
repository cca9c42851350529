// Taps are a few pixels off, and what lies beyond the board feels that most. So the board's straight edges are looked for beside the tapped
// lines, and the corners are where they meet.
import type { Point } from "./homography";

/** How light a picture is at a place in pixels, 0 to 255. */
export type Light = (x: number, y: number) => number;

/** How far from the tapped line an edge is looked for, pixels: three times the error of a tap. */
const REACH_PX = 6;
/** Profiles across each side, and the share of the side left out at either end. */
const PROFILES = 36;
const MARGIN = 0.1;
/** Pixels to both sides that are held against each other. */
const BLUR_PX = 4;
/** An edge that is fainter, grey levels, is none. */
const FAINT = 12;
/** Pixels that an edge may be off the line through it, and the share of profiles that must not be further off. */
const OFF_PX = 0.8;
const AGREE_LEAST = 0.5;

interface Line {
  at: Point;
  along: Point;
}

/** Corners, in order around the board, moved to where its edges meet; nothing where one of its edges is not plain to see. */
export function fitted(corners: readonly Point[], light: Light): Point[] | undefined {
  const lines = corners.map((corner, index) => edgeBeside(corner, corners[(index + 1) % corners.length]!, light));
  const found = corners.map((_, index) => meeting(lines[(index + corners.length - 1) % corners.length], lines[index]));
  return found.every((point) => point !== undefined) ? found : undefined;
}

function edgeBeside(from: Point, to: Point, light: Light): Line | undefined {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  if (length < 4 * REACH_PX) return undefined;
  const along = { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
  const across = { x: -along.y, y: along.x };
  const spots: { s: number; off: number }[] = [];
  for (let profile = 0; profile < PROFILES; profile++) {
    const s = length * (MARGIN + ((1 - 2 * MARGIN) * (profile + 0.5)) / PROFILES);
    const off = strongest((off) => light(from.x + along.x * s + across.x * off, from.y + along.y * s + across.y * off));
    if (off !== undefined) spots.push({ s, off });
  }
  const line = throughMost(spots);
  if (!line) return undefined;
  const place = (s: number): Point => ({ x: from.x + along.x * s + across.x * (line.off + line.slope * s), y: from.y + along.y * s + across.y * (line.off + line.slope * s) });
  const [start, end] = [place(0), place(length)];
  return { at: start, along: { x: end.x - start.x, y: end.y - start.y } };
}

/** Where the light changes most across a profile, to a part of a pixel. */
function strongest(light: (off: number) => number): number | undefined {
  const step = 0.5;
  const half = Math.round((REACH_PX + BLUR_PX) / step);
  const values = Array.from({ length: 2 * half + 1 }, (_, index) => light((index - half) * step));
  const blur = Math.round(BLUR_PX / step);
  const change = (at: number): number => {
    let sum = 0;
    for (let by = 1; by <= blur; by++) sum += values[at + by]! - values[at - by]!;
    return Math.abs(sum) / blur;
  };
  let [best, most] = [0, 0];
  for (let at = blur; at < values.length - blur; at++) if (change(at) > most) [best, most] = [at, change(at)];
  if (most < FAINT) return undefined;
  const [before, after] = [best > blur ? change(best - 1) : 0, best < values.length - blur - 1 ? change(best + 1) : 0];
  const bend = before - 2 * most + after;
  return (best - half + (bend < 0 ? (before - after) / (2 * bend) : 0)) * step;
}

/** The straight line that most spots agree on, by least squares through those. */
function throughMost(spots: readonly { s: number; off: number }[]): { off: number; slope: number } | undefined {
  let agreed: typeof spots = [];
  for (const a of spots)
    for (const b of spots) {
      if (b.s - a.s <= 0) continue;
      const slope = (b.off - a.off) / (b.s - a.s);
      const near = spots.filter(({ s, off }) => Math.abs(a.off + slope * (s - a.s) - off) < OFF_PX);
      if (near.length > agreed.length) agreed = near;
    }
  if (agreed.length < AGREE_LEAST * PROFILES) return undefined;
  const mean = (values: number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
  const [s, off] = [mean(agreed.map((spot) => spot.s)), mean(agreed.map((spot) => spot.off))];
  const slope = agreed.reduce((sum, spot) => sum + (spot.s - s) * (spot.off - off), 0) / agreed.reduce((sum, spot) => sum + (spot.s - s) ** 2, 0);
  return { off: off - slope * s, slope };
}

function meeting(one: Line | undefined, other: Line | undefined): Point | undefined {
  if (!one || !other) return undefined;
  const turn = one.along.x * other.along.y - one.along.y * other.along.x;
  if (Math.abs(turn) < 1e-6) return undefined;
  const share = ((other.at.x - one.at.x) * other.along.y - (other.at.y - one.at.y) * other.along.x) / turn;
  return { x: one.at.x + share * one.along.x, y: one.at.y + share * one.along.y };
}
