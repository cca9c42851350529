// What groups and figures are called: the server's words in the reader's language, where they are not names.
import { language, t } from "../../lib/messages.svelte";
import { shown, type Measure } from "../../lib/measure.svelte";
import { number } from "../data/format";
import type { Working } from "./shapes";

/** By what repairs can be grouped, in the order in which a district asks. */
export const PROPERTIES = ["crew", "wetness", "drainage", "moisture", "surface", "weather", "temperature", "rules", "layers", "binder", "material", "season", "month", "traffic", "road-class", "road"] as const;

const WORDS: Record<string, string> = {
  "not known": "lasting-not-known",
  "dry surface": "lasting-sealed-dry",
  "wet surface": "lasting-sealed-wet",
  "by the rules": "lasting-by-rules-kept",
  "not by the rules": "lasting-not-by-rules",
  "falls apart": "office-word-falls_apart",
  "keeps its shape": "office-word-keeps_shape",
  oozes: "office-word-oozes",
  "ditch works": "office-word-ditch_works",
  "ditch blocked": "office-word-ditch_blocked",
  "kerb and gully": "office-word-kerb_and_gully",
  "gully blocked": "office-word-gully_blocked",
  "verge higher than the road": "office-word-high_verge",
  "no drainage": "office-word-no_drainage",
  "standing water": "office-word-standing_water",
  "dry weather": "lasting-weather-dry",
  "dew, fog or drizzle": "lasting-weather-damp",
  "rain within a day": "office-word-rain_within_a_day",
  "frost by night": "office-word-frost",
};
/** First and last month. */
const SEASONS: Record<string, [number, number]> = { "March to May": [3, 5], "June to August": [6, 8], "September to November": [9, 11], "December to February": [12, 2] };

export function groupName(by: string, name: string): string {
  const word = WORDS[name];
  if (word) return t(word);
  if (by === "wetness" && ["dry", "damp", "wet", "seepage", "pumping"].includes(name)) return t(`office-word-${name}`);
  const month = /^month (\d\d)$/.exec(name);
  if (month) return monthName(Number(month[1]));
  const season = SEASONS[name];
  if (season) return t("lasting-months", { from: monthName(season[0]), to: monthName(season[1]) });
  const layers = /^(\d+) layers?$/.exec(name);
  if (layers) return t("lasting-layers", { count: Number(layers[1]) });
  const air = /^(?:under (-?\d+)|(-?\d+) to (-?\d+)|(-?\d+)) °C(?: and more)?$/.exec(name);
  if (air) {
    const [under, from, to, least] = air.slice(1).map((celsius) => (celsius === undefined ? "" : shown(Number(celsius), "c")));
    if (under) return t("lasting-temperature-under", { most: under });
    if (least) return t("lasting-temperature-from", { least });
    return t("lasting-temperature-between", { from: from!, to: to! });
  }
  const traffic = /^(?:under (\d+)|(\d+) to (\d+)|(\d+)) a day(?: and more)?$/.exec(name);
  if (traffic) {
    const [, under, from, to, least] = traffic;
    if (under) return t("lasting-traffic-under", { most: number(Number(under)) });
    if (least) return t("lasting-traffic-from", { least: number(Number(least)) });
    return t("lasting-traffic-between", { from: number(Number(from)), to: number(Number(to)) });
  }
  return name;
}

function monthName(month: number): string {
  return new Intl.DateTimeFormat(language(), { month: "long", timeZone: "UTC" }).format(new Date(Date.UTC(2026, month - 1, 15)));
}

/** `June 2026` of `2026-06`. */
export function monthWords(month: string, length: "long" | "short" = "long"): string {
  return new Intl.DateTimeFormat(language(), { month: length, year: "numeric", timeZone: "UTC" }).format(new Date(`${month.slice(0, 7)}-15T12:00:00Z`));
}

/** Months up to the one of a day, the last first. */
export function monthsUntil(day: string, count: number): string[] {
  const [year, month] = [Number(day.slice(0, 4)), Number(day.slice(5, 7))];
  return Array.from({ length: count }, (_, at) => new Date(Date.UTC(year, month - 1 - at, 1)).toISOString().slice(0, 7));
}

export const DAYS_A_YEAR = 365.25;

/** `870 days`, `2.4 years`. */
export function age(days: number, unit: "day" | "year", decimals = 1): string {
  const value = unit === "day" ? days : days / DAYS_A_YEAR;
  const digits = unit === "day" ? 0 : decimals;
  return new Intl.NumberFormat(language(), { style: "unit", unit, unitDisplay: "long", minimumFractionDigits: digits, maximumFractionDigits: digits }).format(value);
}

/** So many of a hundred cases. */
export function ofHundred(p: number): string {
  return p < 0.001 ? t("lasting-less-than", { value: number(0.1, 1) }) : number(100 * p, 1);
}

const PLANNED: Record<string, string> = {
  "area cut": "area_m2",
  "base, loose": "base_loose_m3",
  water: "water_l",
  binder: "binder_l",
  "cover stone": "cover_stone_m3",
};
export function quantityName(what: string): string {
  const field = PLANNED[what];
  if (what === "time at the zone") return t("lasting-zone-time");
  return field ? t(`office-field-${field}`) : what;
}

const PARTS = new Set(["labour", "plant", "base", "cover_stone", "binder", "water", "other_material", "wasted", "count_difference", "price_difference"]);
export function costPart(part: string): string {
  const key = part.replaceAll(" ", "_");
  return PARTS.has(key) ? t(`office-part-${key}`) : part;
}

const MEASURES: Record<string, Measure> = { "m²": "m2", "m³": "m3", l: "l", L: "l" };
export function measureOf(unit: string): Measure | undefined {
  return MEASURES[unit];
}

/** Parts of the month's report, and how the figures begin that are worked out for each. */
const FIGURES = {
  done: ["Repairs, area"],
  cost: ["Cost"],
  stock: ["Stock"],
  planned: ["Planned against actual"],
  left: ["Risk points"],
  lasts: ["Lives of repairs", "What lasts"],
  stop: ["Stop patching"],
};
export type Part = keyof typeof FIGURES | "rest";

/** How figures were worked out, each with the part that it stands in; what fits none is the rest's, and none is lost. */
export function workingsOf(workings: Working[]): Record<Part, Working[]> {
  const of: Record<Part, Working[]> = { done: [], cost: [], stock: [], planned: [], left: [], lasts: [], stop: [], rest: [] };
  for (const working of workings) {
    const part = (Object.keys(FIGURES) as (keyof typeof FIGURES)[]).find((part) => FIGURES[part].some((start) => working.figure.startsWith(start)));
    of[part ?? "rest"].push(working);
  }
  return of;
}
