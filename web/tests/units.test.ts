import { afterEach, describe, expect, it } from "vitest";
import { fromShown, setUnits, shown, toShown, type Measure } from "../src/lib/measure.svelte";

// NIST Special Publication 811, appendix B.8, seven figures, from memory; gallons per square yard are its gallon over its square yard
const NIST: [measure: Measure, unit: string, inSi: number][] = [
  ["mm", "inch", 25.4],
  ["m", "foot", 0.3048],
  ["km", "mile", 1.609344],
  ["m2", "square foot", 0.09290304],
  ["m3", "cubic foot", 0.02831685],
  ["l", "gallon (US)", 3.785412],
  ["kg", "pound", 0.4535924],
  ["l_per_m2", "gallon (US) per square yard", 3.785412 / 0.8361274],
  ["kg_per_m2", "pound per square yard", 0.542492],
];

afterEach(() => setUnits("si"));

describe("US customary units", () => {
  it.each(NIST)("%s: one %s", (measure, _, inSi) => {
    setUnits("us_customary");
    expect(fromShown(1, measure) / inSi).toBeCloseTo(1, 6);
    expect(toShown(inSi, measure)).toBeCloseTo(1, 6);
  });

  it("has water freezing at 32 and boiling at 212 degrees Fahrenheit", () => {
    setUnits("us_customary");
    expect([toShown(0, "c"), toShown(100, "c")]).toEqual([32, 212]);
    expect(fromShown(-40, "c")).toBeCloseTo(-40, 12);
  });

  it("is shown with its unit", () => {
    expect(shown(130, "mm")).toBe("130 mm");
    setUnits("us_customary");
    expect(shown(130, "mm")).toBe("5.1 in");
    expect(shown(10, "c")).toBe("50 °F");
  });
});

it("comes back from either system as it went in", () => {
  for (const units of ["si", "us_customary"] as const) {
    setUnits(units);
    for (const [measure] of [...NIST, ["c"] as [Measure]]) for (const value of [-3.25, 0, 0.007, 41, 12_345.6]) expect(fromShown(toShown(value, measure), measure)).toBeCloseTo(value, 8);
  }
});
