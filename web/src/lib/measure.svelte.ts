// Lengths, areas, volumes and so on as people read them. The record and the plan are in SI; shown are SI or US customary units.
// Factors: NIST SP 811 (from memory): 1 in = 25.4 mm, 1 ft = 0.3048 m, 1 US gal = 3.785411784 L, 1 lb = 0.45359237 kg, 1 mi = 1.609344 km.
import { isRightToLeft, language } from "./messages.svelte";

export type Units = "si" | "us_customary";

const state = $state<{ units: Units }>({ units: "si" });

export function units(): Units {
  return state.units;
}

export function setUnits(units: Units): void {
  state.units = units;
}

interface Shown {
  factor: number;
  unit: string;
  digits: number;
}

/** What is measured, by the unit that its figures end in. */
export type Measure = "mm" | "m" | "km" | "m2" | "m3" | "l" | "kg" | "c" | "l_per_m2" | "kg_per_m2";

const SHOWN: Record<Units, Record<Measure, Shown>> = {
  si: {
    mm: { factor: 1, unit: "mm", digits: 0 },
    m: { factor: 1, unit: "m", digits: 2 },
    km: { factor: 1, unit: "km", digits: 1 },
    m2: { factor: 1, unit: "m²", digits: 2 },
    m3: { factor: 1, unit: "m³", digits: 3 },
    l: { factor: 1, unit: "L", digits: 1 },
    kg: { factor: 1, unit: "kg", digits: 0 },
    c: { factor: 1, unit: "°C", digits: 0 },
    l_per_m2: { factor: 1, unit: "L/m²", digits: 2 },
    kg_per_m2: { factor: 1, unit: "kg/m²", digits: 1 },
  },
  us_customary: {
    mm: { factor: 1 / 25.4, unit: "in", digits: 1 },
    m: { factor: 1 / 0.3048, unit: "ft", digits: 1 },
    km: { factor: 1 / 1.609344, unit: "mi", digits: 1 },
    m2: { factor: 1 / 0.09290304, unit: "sq ft", digits: 1 },
    m3: { factor: 1 / 0.028316846592, unit: "cu ft", digits: 2 },
    l: { factor: 1 / 3.785411784, unit: "gal", digits: 2 },
    kg: { factor: 1 / 0.45359237, unit: "lb", digits: 0 },
    c: { factor: 1.8, unit: "°F", digits: 0 },
    l_per_m2: { factor: 1 / 3.785411784 / 1.1959900463, unit: "gal/sq yd", digits: 3 },
    kg_per_m2: { factor: 1 / 0.45359237 / 1.1959900463, unit: "lb/sq yd", digits: 1 },
  },
};

/** Marks of a stretch that is read from left to right, by number: as characters they would be warned of in the code. */
const LEFT_TO_RIGHT = String.fromCharCode(0x2066);
const END = String.fromCharCode(0x2069);

/** As shown, with its unit: `shown(130, "mm")` is "130 mm" or "5.1 in". */
export function shown(value: number, measure: Measure): string {
  const text = `${shownNumber(value, measure)} ${unitOf(measure)}`;
  // number and Latin unit stay together and in order amid words from right to left
  return isRightToLeft() ? LEFT_TO_RIGHT + text + END : text;
}

export function shownNumber(value: number, measure: Measure): string {
  const { digits } = SHOWN[state.units][measure];
  return new Intl.NumberFormat(language(), { maximumFractionDigits: digits, minimumFractionDigits: 0 }).format(toShown(value, measure));
}

export function unitOf(measure: Measure): string {
  return SHOWN[state.units][measure].unit;
}

export function toShown(value: number, measure: Measure): number {
  return value * SHOWN[state.units][measure].factor + (measure === "c" && state.units === "us_customary" ? 32 : 0);
}

/** What somebody typed, back in SI. */
export function fromShown(value: number, measure: Measure): number {
  return (value - (measure === "c" && state.units === "us_customary" ? 32 : 0)) / SHOWN[state.units][measure].factor;
}
