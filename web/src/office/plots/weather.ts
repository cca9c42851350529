// A day's weather as spans of hours of one kind.
import { hours as hoursOf } from "../data/plan_shapes";
import type { WeatherDay } from "../data/shapes";

export interface Span {
  from: number;
  to: number;
  kind: "good" | "barred" | "unknown";
  why: string;
}

/** From the first hour that something is said of to the last; hours without forecast between them are said to be unknown. */
export function spansOf(day: WeatherDay): Span[] {
  const told = day.hours.map(({ at, workable, why }): Span => {
    const from = hoursOf(`${at.slice(11, 16)}:00`);
    return { from, to: from + 1, kind: workable ? "good" : "barred", why: workable ? "" : why };
  });
  told.sort((a, b) => a.from - b.from);
  const spans: Span[] = [];
  for (const span of told) {
    const last = spans.at(-1);
    if (last && last.kind === span.kind && last.why === span.why && last.to === span.from) last.to = span.to;
    else {
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
