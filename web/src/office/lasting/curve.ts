// Curves of what lasts as lines on paper: steps, bands, ticks, and labels that don't stand on each other. No figure is worked out here;
// what is drawn is what the server answered.
import type { Curve, Lasts } from "./shapes";

export type Scale = (value: number) => number;

/** From `[from, to]` of what is measured to `[start, end]` of the paper; an end before the start draws from right to left. */
export function scale(from: number, to: number, start: number, end: number): Scale {
  const span = to - from || 1;
  return (value) => start + ((value - from) / span) * (end - start);
}

const point = (x: number, y: number): string => `${round(x)},${round(y)}`;
const round = (value: number): number => Math.round(value * 10) / 10;

/** Steps: level until the next time, then straight down. */
export function steps(times: number[], values: number[], x: Scale, y: Scale): string {
  let path = "";
  let last: number | undefined;
  times.forEach((time, at) => {
    const value = values[at]!;
    if (at === 0) path = `M${point(x(time), y(value))}`;
    else if (value !== last) path += `H${round(x(time))}V${round(y(value))}`;
    else if (at === times.length - 1) path += `H${round(x(time))}`;
    last = value;
  });
  return path;
}

/** What lies between two curves of steps. */
export function band({ times, lower, upper }: Curve, x: Scale, y: Scale): string {
  if (times.length < 2) return "";
  const back: [number, number][] = [];
  times.forEach((time, at) => {
    if (at > 0) back.push([time, lower[at - 1]!]);
    back.push([time, lower[at]!]);
  });
  back.reverse();
  return `${steps(times, upper, x, y)}${back.map(([time, value]) => `L${point(x(time), y(value))}`).join("")}Z`;
}

/** What stands at a time, and nothing after the curve's end: nobody was watched longer. */
export function valueAt(times: number[], values: number[], time: number): number | undefined {
  const last = times.at(-1);
  if (last === undefined || time < 0 || time > last + 1e-6) return undefined;
  let value: number | undefined;
  for (let at = 0; at < times.length && times[at]! <= time + 1e-6; at += 1) value = values[at];
  return value;
}

/** Ages of repairs that were whole when last heard of, where none failed at the same age; those too near on paper to tell apart once. */
export function watchedUntil({ times, survival }: Curve, x: Scale, apart: number): { time: number; value: number }[] {
  const marks: { time: number; value: number }[] = [];
  let last: number | undefined;
  times.forEach((time, at) => {
    if (at === 0 || survival[at] !== survival[at - 1]) return;
    if (last !== undefined && Math.abs(x(time) - last) < apart) return;
    last = x(time);
    marks.push({ time, value: survival[at]! });
  });
  return marks;
}

/** Round numbers from 0 to `most`, about so many. */
export function ticks(most: number, about: number): number[] {
  if (!(most > 0)) return [0];
  const rough = most / Math.max(1, about);
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((factor) => factor * power).find((one) => one >= rough * 0.999)!;
  return Array.from({ length: Math.floor(most / step + 1e-9) + 1 }, (_, at) => Number((at * step).toPrecision(12)));
}

/** Heights for labels: each as near to where it belongs as `least` from the next allows, in the same order, between `top` and `bottom`;
 * nearer to each other only where there is no room. */
export function apart(wanted: number[], least: number, top: number, bottom: number): number[] {
  const gap = Math.min(least, (bottom - top) / Math.max(1, wanted.length - 1));
  const order = wanted.map((_, at) => at).sort((a, b) => wanted[a]! - wanted[b]! || a - b);
  // what would overlap moves together, around the middle of where its labels belong
  const blocks: { first: number; count: number; middle: number }[] = [];
  order.forEach((label, at) => {
    let block = { first: at, count: 1, middle: wanted[label]! };
    for (let before = blocks.at(-1); before && before.middle + ((before.count + block.count) / 2) * gap > block.middle; before = blocks.at(-1)) {
      const count = before.count + block.count;
      block = { first: before.first, count, middle: (before.middle * before.count + block.middle * block.count) / count };
      blocks.pop();
    }
    blocks.push(block);
  });
  const heights = blocks.flatMap(({ count, middle }) => Array.from({ length: count }, (_, at) => middle + (at - (count - 1) / 2) * gap));
  for (let at = 0; at < heights.length; at += 1) heights[at] = Math.max(heights[at]!, top + at * gap);
  for (let at = heights.length - 1, up = 0; at >= 0; at -= 1, up += 1) heights[at] = Math.min(heights[at]!, bottom - up * gap);
  const placed = new Array<number>(wanted.length);
  order.forEach((label, at) => (placed[label] = heights[at]!));
  return placed;
}

/** So many curves can be told apart by their dashes. */
export const MOST_DRAWN = 6;

/** Curves drawn at first: those that say something, the ones with most failures before others; all of them where none does. */
export function drawnAtFirst(lasts: Lasts): string[] {
  const all = lasts.groups.filter(({ n }) => n > 0);
  const telling = all.filter(({ too_few }) => !too_few);
  const chosen = [...(telling.length > 0 ? telling : all)].sort((a, b) => b.failures - a.failures || b.n - a.n).slice(0, MOST_DRAWN);
  return lasts.groups.filter((group) => chosen.includes(group)).map(({ name }) => name);
}
