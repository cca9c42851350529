import { describe, expect, test } from "vitest";
import { conflictsOf } from "../src/office/data/conflicts";
import type { Layer, Maybe, Repair, Teller, WeatherDay } from "../src/office/data/shapes";
import { spansOf, workable } from "../src/office/plots/weather";
import { compared, ofLayers } from "../src/office/record/compared";
import { pageOf, sought } from "../src/office/record/pages";
import { lastHeard } from "../src/office/today/heard";

const by = (device: string, at = "2026-06-09T09:00:00Z"): Teller => ({ event: `${device}-${at}`, actor: "idris", device, at });
const told = <T>(value: T, ...others: T[]): Maybe<T> => ({ value, by: by("one"), otherwise: others.map((other) => ({ value: other, by: by("two") })) });
const layer = (number: number, more: Partial<Layer>): Layer => ({ layer: number, base: null, thickness_mm: null, base_loose_m3: null, water_l: null, moisture: null, passes_still: null, passes_vibrating: null, ...more });

describe("told differently", () => {
  test("is found in fields and in layers, and only there", () => {
    const known = { area_m2: told(1, 2), dry: told(true), wetness: null, layers: [layer(2, { water_l: told("1.0", "1.4") })], holes: ["a"] };
    expect(conflictsOf(known).map(({ field }) => field)).toEqual(["area_m2", "layers.2.water_l"]);
  });
});

describe("planned against actual", () => {
  test("what nobody told is not known, not nothing", () => {
    expect(ofLayers([layer(1, {}), layer(2, {})], "water_l")).toBeUndefined();
    expect(ofLayers([layer(1, { water_l: told("1.25") }), layer(2, {}), layer(3, { water_l: told("0.5") })], "water_l")).toBeCloseTo(1.75, 9);
  });

  test("a repair with a plan that nobody began", () => {
    const known = { planned: told({ repair: "", holes: [], area_m2: 0.5, base_loose_m3: "0.06", water_l: "2", binder_l: "0.9", cover_stone_m3: "0.006", minutes: "40" }), area_m2: null, layers: [], binder_l: null, cover_stone_m3: null, plant_min: "0" } as unknown as Repair;
    const rows = compared(known);
    expect(rows.map(({ planned }) => planned)).toEqual([0.5, 0.06, 2, 0.9, 0.006, 40]);
    expect(rows.every(({ actual }) => actual === undefined)).toBe(true);
  });

  test("material told as zero is nothing, not unknown", () => {
    const known = { planned: null, area_m2: null, layers: [], binder_l: told("0"), cover_stone_m3: null, plant_min: "12" } as unknown as Repair;
    expect(compared(known).find(({ name }) => name === "binder_l")!.actual).toBe(0);
    expect(compared(known).find(({ name }) => name === "minutes")!.actual).toBe(12);
  });
});

describe("tables", () => {
  test("every word that is sought has to stand in it, in any order and case", () => {
    expect(sought(["Quay Parade H053", "Quay Street", "Parade"], "parade QUAY", (row) => row)).toEqual(["Quay Parade H053"]);
    expect(sought(["a"], "  ", (row) => row)).toEqual(["a"]);
  });

  test("pages hold every row once", () => {
    const rows = Array.from({ length: 101 }, (_, index) => index);
    const pages = [0, 1, 2].map((page) => pageOf(rows, page));
    expect(pages.flatMap((page) => page.rows)).toEqual(rows);
    expect(pages[0]!.pages).toBe(3);
    expect(pageOf(rows, 99).page).toBe(2);
    expect(pageOf([], 4)).toEqual({ rows: [], page: 0, pages: 1 });
  });
});

test("a device was last heard of when it last told anything anywhere", () => {
  const known = [{ a: { by: by("phone", "2026-06-09T07:00:00Z") } }, { b: [{ otherwise: [{ by: by("phone", "2026-06-09T10:00:00Z") }] }, { by: by("other", "2026-06-08T10:00:00Z") }] }];
  expect([...lastHeard(known)].sort()).toEqual([
    ["other", "2026-06-08T10:00:00Z"],
    ["phone", "2026-06-09T10:00:00Z"],
  ]);
});

describe("weather", () => {
  const hour = (at: string, workable: boolean, why = ""): WeatherDay["hours"][number] => ({ at: `2026-06-09T${at}`, temperature_c: 12, rain_mm: 0, workable, why });
  const day = (...hours: WeatherDay["hours"]): WeatherDay => ({ date: "2026-06-09", sunrise: null, sunset: null, hours, not_forecast: [] });

  test("hours of a kind stand together, a gap is said to be unknown", () => {
    const spans = spansOf(day(hour("09:00", true), hour("07:00", false, "cold"), hour("08:00", false, "cold"), hour("12:00", true)));
    expect(spans).toEqual([
      { from: 7, to: 9, kind: "barred", why: "cold" },
      { from: 9, to: 10, kind: "good", why: "" },
      { from: 10, to: 12, kind: "unknown", why: "" },
      { from: 12, to: 13, kind: "good", why: "" },
    ]);
  });

  test("hours barred for different reasons stand apart", () => {
    expect(spansOf(day(hour("07:00", false, "cold"), hour("08:00", false, "rain"))).map(({ why }) => why)).toEqual(["cold", "rain"]);
  });

  test("of reasons that differ in a figure the range is said", () => {
    const spans = spansOf(day(hour("05:00", false, "too cold, 8 °C"), hour("06:00", false, "too cold, -1.5 °C"), hour("07:00", false, "too cold, 10 °C"), hour("08:00", false, "rain, 1 mm")));
    expect(spans.map(({ from, to, why }) => [from, to, why])).toEqual([
      [5, 8, "too cold, -1.5 … 10 °C"],
      [8, 9, "rain, 1 mm"],
    ]);
  });

  test("an hour ends when it is said to", () => {
    expect(spansOf(day({ ...hour("21:00", true), to: "2026-06-10T00:00" }))).toEqual([{ from: 21, to: 24, kind: "good", why: "" }]);
  });

  test("no hours, no spans", () => {
    expect(spansOf(day())).toEqual([]);
    expect(workable(day(hour("07:00", true), hour("08:00", false)))).toBe(1);
  });
});
