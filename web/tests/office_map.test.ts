import { describe, expect, test } from "vitest";
import type { PlanRound } from "../src/office/data/plan_shapes";
import type { Hole, Round, Row } from "../src/office/data/shapes";
import { boundsOf, holeFeatures, wayFeatures, wayOf } from "../src/office/map/features";
import { CREW_LINES, HOLE_SIGNS, HOLE_STATES, PATHS } from "../src/office/map/signs";

const round = { round: "r", crew: { value: "Crew Fulmar" }, planned_zones: [{ holes: ["a"], road: "Quay Parade" }, { holes: ["unknown", "b"], road: "Well Street" }], repairs: null } as unknown as Round;
const places: Record<string, [number, number]> = { a: [1, 2], b: [3, 4] };

describe("ways of rounds", () => {
  test("are the plan's where there is one, with its work numbered in order", () => {
    const planned = {
      line: [[0, 0], [1, 2], [0, 0]],
      stops: [
        { kind: "drive", place: [1, 2], road: "Quay Parade", from: "07:00:00" },
        { kind: "work", place: [1, 2], road: "Quay Parade", from: "07:30:00" },
        { kind: "work", place: [3, 4], road: "Well Street", from: "10:00:00" },
      ],
    } as unknown as PlanRound;
    const way = wayOf(round, planned, () => undefined);
    expect(way.line).toHaveLength(3);
    expect(way.stops.map(({ number, road }) => [number, road])).toEqual([[1, "Quay Parade"], [2, "Well Street"]]);
  });

  test("without a plan go straight between the places that are known", () => {
    const way = wayOf(round, undefined, (hole) => places[hole]);
    expect(way.line).toEqual([[1, 2], [3, 4]]);
    expect(wayFeatures([way]).stops.features.map(({ properties }) => properties!["number"])).toEqual(["1", "2"]);
  });

  test("of one place only is no line", () => {
    const way = wayOf(round, undefined, (hole) => (hole === "a" ? [1, 2] : undefined));
    expect(wayFeatures([way]).ways.features).toEqual([]);
    expect(wayFeatures([way]).stops.features).toHaveLength(1);
  });
});

test("a hole whose place nobody knows is not on the map", () => {
  const row = (hole: string, place: Row<Hole>["place"]): Row<Hole> => ({ position: 1, place, known: { hole, state: "reported" } as Hole });
  expect(holeFeatures([row("a", { lon: 1, lat: 2 }), row("b", null)]).features.map(({ properties }) => properties!["id"])).toEqual(["a"]);
});

test("the box around places", () => {
  expect(boundsOf([[1, 5], [-2, 7], [0, -1]])).toEqual([-2, -1, 1, 7]);
  expect(boundsOf([])).toBeUndefined();
});

describe("signs", () => {
  /** Relative luminance and contrast, WCAG 2.2. */
  const luminance = (hex: string): number => {
    const parts = [1, 3, 5].map((at) => parseInt(hex.slice(at, at + 2), 16) / 255).map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
    return 0.2126 * parts[0]! + 0.7152 * parts[1]! + 0.0722 * parts[2]!;
  };
  const contrast = (a: string, b: string): number => {
    const [low, high] = [luminance(a), luminance(b)].sort((x, y) => x - y);
    return (high! + 0.05) / (low! + 0.05);
  };

  test("every state has a shape of its own", () => {
    const shapes = HOLE_STATES.map((state) => HOLE_SIGNS[state].shape);
    expect(new Set(shapes).size).toBe(shapes.length);
    expect(shapes.every((shape) => PATHS[shape].length > 0)).toBe(true);
  });

  test("ways stand out from the ground by 3 to 1, by day and by night", () => {
    for (const { light, dark } of CREW_LINES) {
      expect(contrast(light, "#f1ede3")).toBeGreaterThanOrEqual(3);
      expect(contrast(dark, "#14191a")).toBeGreaterThanOrEqual(3);
    }
  });
});
