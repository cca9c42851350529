// Days, times, money and numbers as the reader's language writes them.
import { shown, toShown, unitOf, type Measure } from "../../lib/measure.svelte";
import { language } from "../../lib/messages.svelte";
import { district } from "./district.svelte";

export function number(value: number, digits = 0): string {
  return new Intl.NumberFormat(language(), { maximumFractionDigits: digits }).format(value);
}

/** As `shown`, but with what tells small amounts apart: below ten with two decimals. */
export function precise(value: number, measure: Measure): string {
  const inUnits = toShown(value, measure);
  return measure === "l" && Math.abs(inUnits) < 10 ? `${number(inUnits, 2)} ${unitOf(measure)}` : shown(value, measure);
}

export function percent(share: number): string {
  return new Intl.NumberFormat(language(), { style: "percent", maximumFractionDigits: 0 }).format(share);
}

/** `XTS 1,234`: the code, since a sign may be of several currencies. */
export function money(value: number, digits = 0): string {
  return `${number(value, digits)} ${district()?.currency ?? ""}`.trim();
}

/** `Tue, 9 Jun`. */
export function day(date: string, length: "short" | "long" = "short"): string {
  const parts: Intl.DateTimeFormatOptions = { weekday: length, day: "numeric", month: length, ...(length === "long" ? { year: "numeric" } : {}), timeZone: "UTC" };
  return new Intl.DateTimeFormat(language(), parts).format(new Date(`${date}T12:00:00Z`));
}

/** A moment, where the district lies. */
export function moment(at: string, withDay = true): string {
  const zone = district()?.time_zone;
  const parts: Intl.DateTimeFormatOptions = { ...(withDay ? { day: "numeric", month: "short" } : {}), hour: "2-digit", minute: "2-digit" };
  try {
    return new Intl.DateTimeFormat(language(), { ...parts, ...(zone ? { timeZone: zone } : {}) }).format(new Date(at));
  } catch {
    return new Intl.DateTimeFormat(language(), parts).format(new Date(at));
  }
}

/** `07:45` of `07:45:56`, in the reader's digits. */
export function clock(time: string | null | undefined): string {
  if (!time) return "–";
  return new Intl.DateTimeFormat(language(), { hour: "2-digit", minute: "2-digit", hourCycle: "h23", timeZone: "UTC" }).format(new Date(`2026-01-01T${time.slice(0, 5)}:00Z`));
}

export function minutes(value: number): string {
  return new Intl.NumberFormat(language(), { style: "unit", unit: "minute", maximumFractionDigits: 0 }).format(value);
}

export function ago(at: string, now = Date.now()): string {
  const seconds = (Date.parse(at) - now) / 1000;
  const format = new Intl.RelativeTimeFormat(language(), { numeric: "auto" });
  if (Math.abs(seconds) < 3600) return format.format(Math.round(seconds / 60), "minute");
  if (Math.abs(seconds) < 86_400 * 2) return format.format(Math.round(seconds / 3600), "hour");
  return format.format(Math.round(seconds / 86_400), "day");
}

/** The first of a number, enough for people to tell two apart. */
export function short(id: string): string {
  return id.slice(-6);
}
