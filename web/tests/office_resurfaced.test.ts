// A stretch with a new surface: what is filled in, what keeps it from being told, which holes lie near, the place pressed on a road.
import { describe, expect, it } from "vitest";
import type { Hole, Resurfacing, Row } from "../src/office/data/shapes";
import { fieldName, valueWords } from "../src/office/data/names";
import { fieldsOf, insteadOf } from "../src/office/record/correct";
import { mayTell } from "../src/office/record/may_tell";
import { emptyStretch, faultOf, holesBetween, nearestOn, nextEnd, placeOf, stretchFeatures, toTell, typed, type Stretch } from "../src/office/resurfaced/stretch";

const A = { lon: -28.41, lat: 47.31 };
const B = { lon: -28.4, lat: 47.31 };
const filled = (more: Partial<Stretch> = {}): Stretch => ({ ...emptyStretch(), date: "2026-06-09", work: "reseal", from: typed(A), to: typed(B), ...more });

it.each([
  ["47.31", "-28.41", { lat: 47.31, lon: -28.41 }],
  [" 47,31 ", "-28,41", { lat: 47.31, lon: -28.41 }],
  ["", "-28.41", undefined],
  ["north", "-28.41", undefined],
  ["91", "0", undefined],
  ["0", "181", undefined],
])("what is typed as %s, %s is the place %o", (lat, lon, place) => {
  expect(placeOf({ lat, lon })).toEqual(place);
});

it.each([
  ["from", filled({ from: { lat: "", lon: "" } })],
  ["to", filled({ to: { lat: "x", lon: "1" } })],
  ["same", filled({ to: typed(A) })],
  ["later", filled({ date: "2026-06-10" })],
  [undefined, filled()],
])("%s keeps it from being told", (fault, stretch) => {
  expect(faultOf(stretch, "2026-06-09")).toBe(fault);
});

describe("what is told", () => {
  it("leaves out what nobody filled in", () => {
    const told = toTell(filled()) as any;
    expect(Object.keys(told).sort()).toEqual(["date", "from", "kind", "resurfacing", "to", "work"]);
    expect([told.from, told.to, told.work]).toEqual([A, B, "reseal"]);
    expect(told.resurfacing).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7/);
  });

  it("has all that was filled in", () => {
    const told = toTell(filled({ road: " Fennow Road ", side: "left", holes: ["h"], note: " two days " })) as any;
    expect([told.road, told.side, told.holes, told.note]).toEqual(["Fennow Road", "left", ["h"], "two days"]);
  });

  it("can be put right in every field but its holes, and only by who plans", () => {
    const told = toTell(filled({ road: "Fennow Road" }));
    expect(fieldsOf(told).map(({ path }) => path)).toEqual(["date", "work", "road", "side", "from.lat", "from.lon", "to.lat", "to.lon", "note"]);
    const now = insteadOf(told, { "from.lon": "-28.42", side: "right", work: "overlay" }) as { instead: any };
    expect(now.instead).toEqual({ ...told, from: { lon: -28.42, lat: 47.31 }, side: "right", work: "overlay" });
    expect(insteadOf(told, { "to.lat": "" })).toEqual({ wrong: "to.lat" });
    expect(["planner", "engineer", "crew", "storekeeper", "auditor"].filter((role) => mayTell(role, told))).toEqual(["planner", "engineer"]);
  });
});

it("is said as people read it: places to the metre, the day with its year", () => {
  expect([valueWords("lat", 47.300533), valueWords("lon", -28.4), valueWords("date", "2026-06-09")]).toEqual(["47.30053", "-28.4", "Tuesday, June 9, 2026"]);
  // without a catalogue a message is its key
  expect([fieldName("from"), fieldName("to.lat")]).toEqual(["office-field-from", "office-field-to-of"]);
});

it("the next press sets the end that is missing", () => {
  expect([nextEnd(emptyStretch()), nextEnd(filled({ to: { lat: "", lon: "" } })), nextEnd(filled())]).toEqual(["from", "to", "to"]);
});

it("holes that wait near the stretch are asked about, from its begin on; those mended, far off or without a place are not", () => {
  const row = (hole: string, lon: number, lat: number, state = "reported"): Row<Hole> => ({ place: { lon, lat }, known: { hole, state } }) as unknown as Row<Hole>;
  const rows = [
    row("at the end", -28.4001, 47.31),
    row("near the begin", -28.409, 47.3103),
    // 200 m beside the middle: the road may bend so far, but not 600 m
    row("bend", -28.405, 47.3118),
    row("off", -28.405, 47.3155),
    row("mended", -28.405, 47.31, "mended"),
    row("beyond", -28.397, 47.31),
    { place: null, known: { hole: "nowhere", state: "reported" } } as unknown as Row<Hole>,
  ];
  expect(holesBetween(rows, A, B).map(({ known }) => known.hole)).toEqual(["near the begin", "bend", "at the end"]);
});

describe("a press on the map", () => {
  it.each([
    ["beside the middle", { lon: 0.5, lat: 0.1 }, { lon: 0.5, lat: 0 }],
    ["beyond the end", { lon: 2, lat: 0.1 }, { lon: 1, lat: 0 }],
    ["near the other line", { lon: 0.5, lat: 0.9 }, { lon: 0.5, lat: 1 }],
    ["near a line of one place twice", { lon: 5, lat: 5 }, { lon: 5, lat: 5.1 }],
  ])("%s is taken to the road", (_, pressed, at) => {
    const lines = [[[0, 0], [1, 0]], [[0, 1], [1, 1]], [[5, 5.1], [5, 5.1]]];
    const found = nearestOn(lines, pressed)!;
    expect([found.lon, found.lat]).toEqual([expect.closeTo(at.lon, 9), expect.closeTo(at.lat, 9)]);
  });

  it("is no place without a road", () => {
    expect(nearestOn([], A)).toBeUndefined();
    expect(nearestOn([[[0, 0]]], A)).toBeUndefined();
  });

  it("squeezes degrees of longitude as the globe does", () => {
    // at 60° a degree of longitude is half as long: the foot on a line at 45° lies elsewhere than on a square grid
    const found = nearestOn([[[0, 60], [1, 61]]], { lon: 1, lat: 60 })!;
    expect(found.lon).toBeCloseTo(0.2, 2);
  });
});

it("stands on the map with its ends and a line between, the one being filled in as far as it goes", () => {
  const row = { known: { resurfacing: "r", from: { value: A }, to: { value: B } } } as unknown as Row<Resurfacing>;
  const { features } = stretchFeatures([row], filled({ to: { lat: "", lon: "" } }));
  expect(features.map(({ geometry, properties }) => [geometry.type, properties!["id"], properties!["letter"]])).toEqual([
    ["LineString", "r", undefined],
    ["Point", "r", "A"],
    ["Point", "r", "B"],
    ["Point", "", "A"],
  ]);
});
