// Times, lengths and places in words.
import { language, t } from "../lib/messages.svelte";
import { shown } from "../lib/measure.svelte";

/** `08:30:00` or a moment, as people read it. */
export function clock(time: string | Date | number): string {
  if (typeof time === "string" && /^\d\d:\d\d/.test(time)) return time.slice(0, 5);
  return new Intl.DateTimeFormat(language(), { hour: "2-digit", minute: "2-digit", hourCycle: "h23" }).format(new Date(time));
}

export function day(date: string): string {
  return new Intl.DateTimeFormat(language(), { weekday: "long", day: "numeric", month: "long", timeZone: "UTC" }).format(new Date(`${date}T12:00:00Z`));
}

/** With its year, for what lies long ago. */
export function date(date: string): string {
  return new Intl.DateTimeFormat(language(), { day: "numeric", month: "long", year: "numeric", timeZone: "UTC" }).format(new Date(`${date}T12:00:00Z`));
}

export function moment(time: string | number): string {
  return new Intl.DateTimeFormat(language(), { day: "numeric", month: "short", hour: "2-digit", minute: "2-digit", hourCycle: "h23" }).format(new Date(time));
}

export function minutes(seconds: number): string {
  return t("crew-minutes", { n: Math.max(1, Math.round(seconds / 60)) });
}

/** Far lengths in kilometres or miles, near ones in metres or feet. */
export function far(metres: number): string {
  return metres >= 950 ? shown(metres / 1000, "km") : shown(metres < 1 ? metres : Math.round(metres), "m");
}

export function percent(share: number): string {
  return new Intl.NumberFormat(language(), { style: "percent", maximumFractionDigits: 0 }).format(share);
}

export function bytes(size: number): string {
  const [value, unit] = size < 1_000_000 ? [size / 1000, "kilobyte"] : size < 1_000_000_000 ? [size / 1_000_000, "megabyte"] : [size / 1_000_000_000, "gigabyte"];
  return new Intl.NumberFormat(language(), { style: "unit", unit, maximumFractionDigits: value < 10 ? 1 : 0 }).format(value);
}

/** Words of their own direction amid others. */
export function apart(words: string): string {
  return `\u2068${words}\u2069`;
}
