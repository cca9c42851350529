// Curves of what lasts: steps as paths, scales, ticks, labels that don't overlap, which are drawn at first, names of groups.
import { describe, expect, it } from "vitest";
import { apart, band, drawnAtFirst, scale, steps, ticks, valueAt, watchedUntil } from "../src/office/lasting/curve";
import type { Curve, Lasts } from "../src/office/lasting/shapes";
import { costPart, groupName, monthsUntil, workingsOf } from "../src/office/lasting/words";

const x = scale(0, 100, 0, 200);
const y = scale(0, 1, 100, 0);

function curve(name: string, parts: Partial<Curve> = {}): Curve {
  return { name, n: 10, failures: 6, times: [0, 10, 20, 40], survival: [1, 0.9, 0.9, 0.5], lower: [1, 0.7, 0.7, 0.2], upper: [1, 0.97, 0.97, 0.8], median: null, too_few: false, ...parts };
}

function lasts(groups: Curve[]): Lasts {
  return { by: "crew", at: "2026-07-01T00:00:00Z", not_opened: 0, resurfaced_nowhere: 0, groups, log_rank: { chi2: 1, df: groups.length - 1, p: 0.3 }, restricted_means: [], pairs: [], verdict: { kind: "no_difference", p: 0.3 }, words: [] };
}

describe("a curve of steps", () => {
  it("stays level until the next failure, falls straight down, and reaches to the last time", () => {
    expect(steps([0, 10, 20, 40], [1, 0.9, 0.9, 0.5], x, y)).toBe("M0,0H20V10H80V50");
    expect(steps([0, 10, 90], [1, 0.5, 0.5], x, y)).toBe("M0,0H20V50H180");
    expect(steps([], [], x, y)).toBe("");
  });

  it("runs from right to left on a scale that does", () => {
    expect(steps([0, 10], [1, 0.5], scale(0, 100, 200, 0), y)).toBe("M200,0H180V50");
  });

  it("has a band that goes out along the upper ends and back along the lower", () => {
    const path = band(curve("one", { times: [0, 50], upper: [1, 0.8], lower: [1, 0.4] }), x, y);
    expect(path).toBe("M0,0H100V20L100,60L100,0L0,0Z");
    expect(band(curve("one", { times: [0], upper: [1], lower: [1] }), x, y)).toBe("");
  });

  it.each([
    [0, 1],
    [9.9, 1],
    [10, 0.9],
    [39.9, 0.9],
    [40, 0.5],
    [40.1, undefined],
    [-1, undefined],
  ])("stands at age %d at %s", (time, value) => {
    expect(valueAt([0, 10, 20, 40], [1, 0.9, 0.9, 0.5], time)).toBe(value);
  });

  it("marks ages at which repairs were only watched so long, but not closer than can be told apart", () => {
    const one = curve("one", { times: [0, 10, 20, 21, 40, 60], survival: [1, 0.9, 0.9, 0.9, 0.5, 0.5] });
    expect(watchedUntil(one, x, 1)).toEqual([
      { time: 20, value: 0.9 },
      { time: 21, value: 0.9 },
      { time: 60, value: 0.5 },
    ]);
    expect(watchedUntil(one, x, 5).map(({ time }) => time)).toEqual([20, 60]);
  });
});

it.each([
  [870, 7, [0, 200, 400, 600, 800]],
  [2.38, 4, [0, 1, 2]],
  [2.38, 7, [0, 0.5, 1, 1.5, 2]],
  [20, 4, [0, 5, 10, 15, 20]],
  [0, 4, [0]],
])("has round ticks up to %d, about %d of them", (most, about, expected) => {
  expect(ticks(most, about)).toEqual(expected);
});

describe("labels", () => {
  it.each([
    { wanted: [50], placed: [50] },
    { wanted: [20, 80], placed: [20, 80] },
    { wanted: [50, 50], placed: [45, 55] },
    { wanted: [80, 20, 22], placed: [80, 16, 26] },
    // at the edge they go inwards
    { wanted: [0, 1], placed: [0, 10] },
    { wanted: [99, 100], placed: [90, 100] },
    // three pushed together, then a fourth that they reach
    { wanted: [50, 50, 50, 62], placed: [38, 48, 58, 68] },
  ])("that belong at $wanted stand at $placed", ({ wanted, placed }) => {
    expect(apart(wanted, 10, 0, 100).map(Math.round)).toEqual(placed);
  });

  it("never overlap, keep their order and stay on the paper, wherever they belong", () => {
    let seed = 7;
    const chance = (): number => (seed = (seed * 48_271) % 2_147_483_647) / 2_147_483_647;
    for (let round = 0; round < 400; round += 1) {
      const wanted = Array.from({ length: 1 + Math.floor(chance() * 6) }, () => chance() ** 3 * 100);
      const placed = apart(wanted, 16, 0, 100);
      const order = wanted.map((_, at) => at).sort((a, b) => wanted[a]! - wanted[b]! || a - b);
      const heights = order.map((at) => placed[at]!);
      expect(Math.min(...heights)).toBeGreaterThanOrEqual(-1e-9);
      expect(Math.max(...heights)).toBeLessThanOrEqual(100 + 1e-9);
      heights.slice(1).forEach((height, at) => expect(height - heights[at]!).toBeGreaterThanOrEqual(16 - 1e-9));
    }
  });

  it("move nearer to each other where there is no room", () => {
    expect(apart([5, 5, 5], 80, 0, 100)).toEqual([0, 50, 100]);
  });
});

describe("at first are drawn", () => {
  const few = curve("Few", { n: 4, failures: 1, too_few: true });
  const fewer = curve("Fewer", { n: 2, failures: 1, too_few: true });
  const many = curve("Many", { failures: 40 });
  const some = curve("Some", { failures: 9 });
  const roads = Array.from({ length: 9 }, (_, at) => curve(`road ${at}`, { failures: 10 + at }));
  it.each([
    ["those that say something", [few, many, some], ["Many", "Some"]],
    ["others where none does", [fewer, few], ["Fewer", "Few"]],
    ["of many those with most failures, in the server's order", roads, ["road 3", "road 4", "road 5", "road 6", "road 7", "road 8"]],
    ["none without a repair", [curve("Empty", { n: 0 })], []],
  ])("%s", (_, groups, drawn) => {
    expect(drawnAtFirst(lasts(groups))).toEqual(drawn);
  });
});

describe("words", () => {
  // without a catalogue a message is its key
  it.each([
    ["surface", "wet surface", "lasting-sealed-wet"],
    ["moisture", "falls apart", "office-word-falls_apart"],
    ["wetness", "seepage", "office-word-seepage"],
    ["rules", "not known", "lasting-not-known"],
    ["month", "month 03", "March"],
    ["season", "June to August", "lasting-months"],
    ["layers", "2 layers", "lasting-layers"],
    ["traffic", "under 200 a day", "lasting-traffic-under"],
    ["traffic", "200 to 1000 a day", "lasting-traffic-between"],
    ["traffic", "4000 a day and more", "lasting-traffic-from"],
    ["temperature", "under 10 °C", "lasting-temperature-under"],
    ["temperature", "10 to 20 °C", "lasting-temperature-between"],
    ["temperature", "30 °C and more", "lasting-temperature-from"],
    ["drainage", "verge higher than the road", "office-word-high_verge"],
    ["weather", "dry weather", "lasting-weather-dry"],
    ["weather", "rain within a day", "office-word-rain_within_a_day"],
    ["crew", "Crew Fulmar", "Crew Fulmar"],
    ["road", "dry", "dry"],
  ])("of %s: %s is %s", (by, name, words) => {
    expect(groupName(by, name)).toBe(words);
  });

  it("name parts of the cost where they are known", () => {
    expect([costPart("cover stone"), costPart("tolls")]).toEqual(["office-part-cover_stone", "tolls"]);
  });

  it("go back over the turn of the year", () => {
    expect(monthsUntil("2026-02-10", 4)).toEqual(["2026-02", "2026-01", "2025-12", "2025-11"]);
  });

  it("give every figure's working a place, and lose none", () => {
    const figures = ["Repairs, area", "Cost", "Stop patching: price of one repair", "Risk points, severity, due day", "Something new"];
    const of = workingsOf(figures.map((figure) => ({ figure, how: "", source: "" })));
    expect(of.stop.map(({ figure }) => figure)).toEqual(["Stop patching: price of one repair"]);
    expect(of.rest.map(({ figure }) => figure)).toEqual(["Something new"]);
    expect(Object.values(of).flat()).toHaveLength(figures.length);
  });
});
