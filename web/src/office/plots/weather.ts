// A day's weather as spans of hours of one kind.
import { hours as hoursOf } from "../data/plan_shapes";
import type { WeatherDay } from "../data/shapes";

export interface Span {
  from: number;
  to: number;
  kind: "good" | "barred" | "unknown";
  why: string;
}

const FIGURE = /-?\d+(\.\d+)?/;
const FIGURES = /-?\d+(\.\d+)?( … -?\d+(\.\d+)?)?/;

/** One reason for two hours, where they differ in a figure only: `too cold, 8 °C` and `too cold, 10 °C` are `too cold, 8 … 10 °C`. */
export function sameReason(before: string, now: string): string | undefined {
  if (before === now) return before;
  const [then, figure] = [FIGURES.exec(before), FIGURE.exec(now)];
  if (!then || !figure || before.replace(FIGURES, "") !== now.replace(FIGURE, "")) return undefined;
  const all = [...then[0].split(" … "), figure[0]].map(Number);
  const [least, most] = [Math.min(...all), Math.max(...all)];
  return before.replace(FIGURES, least === most ? `${least}` : `${least} … ${most}`);
}

/** From the first hour that something is said of to the last; hours without forecast between them are said to be unknown. */
export function spansOf(day: WeatherDay): Span[] {
  const told = day.hours.map(({ at, to, workable, why }): Span => {
    const from = hoursOf(`${at.slice(11, 16)}:00`);
    const end = to ? hoursOf(`${to.slice(11, 16)}:00`) : from + 1;
    return { from, to: end > from ? end : 24, kind: workable ? "good" : "barred", why: workable ? "" : why };
  });
  told.sort((a, b) => a.from - b.from);
  const spans: Span[] = [];
  for (const span of told) {
    const last = spans.at(-1);
    const why = last && last.kind === span.kind && last.to === span.from ? sameReason(last.why, span.why) : undefined;
    if (last && why !== undefined) {
      last.to = span.to;
      last.why = why;
    } else {
      if (last && last.to < span.from) spans.push({ from: last.to, to: span.from, kind: "unknown", why: "" });
      spans.push({ ...span });
    }
  }
  return spans;
}

/** Hours good for work. */
export function workable(day: WeatherDay): number {
  return day.hours.filter(({ workable }) => workable).length;
}
