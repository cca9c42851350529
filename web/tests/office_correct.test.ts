// Putting an event right in the office: what was typed, what was told first, what counts.
import { afterEach, describe, expect, it, test } from "vitest";
import { setUnits } from "../src/lib/measure.svelte";
import type { Event, Happened } from "../src/lib/store/database";
import { differences, fieldsOf, insteadOf, saysInstead, storiesOf, textOf, valueAt } from "../src/office/record/correct";
import { mayTell, mayWithdraw } from "../src/office/record/may_tell";

const CUT = { kind: "hole_cut", repair: "r", holes: ["h"], zone: "z", area_m2: 0.8251234, depths_mm: [120.4, 131], bottom_firm: true, wetness: "damp" } as unknown as Happened;
const SEALED = { kind: "sealed", repair: "r", binder_l: "2.10", crown_mm: 6 } as unknown as Happened;

describe("what is typed", () => {
  afterEach(() => setUnits("si"));

  it.each([
    ["nothing", CUT, {}, CUT],
    ["the same", CUT, { area_m2: "0.8251", depths_mm: "120.4 131" }, CUT],
    ["another depth", CUT, { depths_mm: "120 140,5" }, { ...CUT, depths_mm: [120, 140.5] }],
    ["a word and an answer", CUT, { wetness: "wet", bottom_firm: "false" }, { ...CUT, wetness: "wet", bottom_firm: false }],
    ["decimals stay decimals", SEALED, { binder_l: "2.35", crown_mm: "-4" }, { ...SEALED, binder_l: "2.35", crown_mm: -4 }],
    ["a size, inside of another", { kind: "hole_reported", hole: "h", position: { lon: 1, lat: 2 }, size: {} } as unknown as Happened, { "size.depth_mm": "90", "position.lat": "-2.5" }, { kind: "hole_reported", hole: "h", position: { lon: 1, lat: -2.5 }, size: { depth_mm: 90 } }],
  ])("%s", (_, happened, typed, instead) => expect(insteadOf(happened, typed)).toEqual({ instead }));

  it("and emptied is not known any more", () => {
    const { wetness: _, area_m2: __, ...rest } = CUT as any;
    expect(insteadOf(CUT, { wetness: "", area_m2: " " })).toEqual({ instead: rest });
  });

  it("is in the reader's units", () => {
    setUnits("us_customary");
    const [crown] = fieldsOf(SEALED).filter(({ path }) => path === "crown_mm");
    expect(textOf(crown!, 6)).toBe("0.2362");
    expect(insteadOf(SEALED, { crown_mm: "0.2362" })).toEqual({ instead: SEALED });
    expect(insteadOf(SEALED, { crown_mm: "0.5" })).toEqual({ instead: { ...SEALED, crown_mm: 12.7 } });
  });

  it.each([
    [CUT, { area_m2: "much" }, "area_m2"],
    [CUT, { area_m2: "-1" }, "area_m2"],
    [CUT, { depths_mm: "120 x" }, "depths_mm"],
    [CUT, { depths_mm: "50,60" }, "depths_mm"],
    [{ kind: "zone_closed", zone: "z", devices_in: 8 } as unknown as Happened, { devices_in: "7.5" }, "devices_in"],
    [{ kind: "stock_moved", item: { what: "base" }, amount: "1.5" } as unknown as Happened, { amount: "" }, "amount"],
  ])("that can't be is said by its field", (happened, typed, wrong) => expect(insteadOf(happened, typed)).toEqual({ wrong }));

  it("leaves what was told alone", () => {
    const before = structuredClone(CUT);
    insteadOf(CUT, { depths_mm: "1", wetness: "" });
    expect(CUT).toEqual(before);
  });
});

test("an amount has the unit of what it is of", () => {
  const moved = (what: string): Happened => ({ kind: "stock_moved", item: { what }, amount: "3" }) as unknown as Happened;
  expect(["base", "spoil", "binder", "cone"].map((what) => fieldsOf(moved(what))[0]!.measure)).toEqual(["m3", "m3", "l", undefined]);
});

test("both values are told, of what is different", () => {
  expect(differences(CUT, { ...CUT, depths_mm: [140], bottom_firm: true, zone: undefined } as unknown as Happened)).toEqual([{ path: "depths_mm", was: [120.4, 131], now: [140] }]);
  const { wetness: _, ...dry } = CUT as any;
  expect(differences(CUT, dry)).toEqual([{ path: "wetness", was: "damp", now: undefined }]);
  expect(valueAt(CUT, "size.depth_mm")).toBeUndefined();
});

describe("what became of an event", () => {
  let number = 0;
  const event = (id: string, happened: object): Event => ({ id, actor: "idris", device: "phone", device_time: new Date(Date.parse("2026-06-09T08:00:00Z") + ++number * 60_000).toISOString(), happened }) as unknown as Event;
  const corrected = (id: string, of: string, instead?: object): Event => event(id, { kind: "corrected", event: of, ...(instead ? { instead } : {}), why: "typed wrong" });
  const told = event("1", SEALED);
  const right = corrected("2", "1", { ...SEALED, crown_mm: 9 });
  const seen = (events: Event[]): unknown => storiesOf(events).map(({ event, counts, now, corrections }) => [event.id, counts, (now as any)?.crown_mm, corrections.map(({ event, decides }) => `${event.id}${decides ? " decides" : ""}`)]);

  it.each([
    ["told", [told], [["1", true, 6, []]]],
    ["put right", [told, right], [["1", false, 9, ["2 decides"]]]],
    ["put right twice", [told, right, corrected("3", "1", { ...SEALED, crown_mm: 7 })], [["1", false, 7, ["2", "3 decides"]]]],
    ["withdrawn", [told, right, corrected("4", "1")], [["1", false, undefined, ["2", "4 decides"]]]],
    ["put right, and that taken back", [told, right, corrected("5", "2")], [["1", true, 6, ["2", "5"]]]],
    ["a correction of what is not here", [corrected("6", "elsewhere", SEALED)], [["6", true, undefined, []]]],
  ])("%s", (_, events, stories) => {
    expect(seen(events)).toEqual(stories);
    expect(seen([...events].reverse())).toEqual(stories);
  });

  it("says what happened instead, however deep", () => {
    expect(saysInstead(right.happened)).toMatchObject({ crown_mm: 9 });
    expect(saysInstead({ kind: "corrected", event: "2", instead: right.happened, why: "" } as unknown as Happened)).toMatchObject({ crown_mm: 9 });
    expect(saysInstead(corrected("7", "1").happened)).toBeUndefined();
  });
});

test("who may tell what is the server's rule", () => {
  const signed = (role: string): Happened => ({ kind: "signed", of: { repair: "r" }, role }) as unknown as Happened;
  const correcting = (instead?: Happened): Happened => ({ kind: "corrected", event: "e", ...(instead ? { instead } : {}), why: "" }) as unknown as Happened;
  const may = (happened: Happened): string[] => ["crew", "planner", "storekeeper", "engineer", "auditor"].filter((role) => mayTell(role, happened));
  expect(may(CUT)).toEqual(["crew", "engineer"]);
  expect(may(correcting(CUT))).toEqual(["crew", "engineer"]);
  expect(may(correcting())).toEqual(["crew", "planner", "storekeeper", "engineer"]);
  expect(may(signed("engineer"))).toEqual(["engineer"]);
  expect(may(signed("crew leader"))).toEqual(["crew", "planner", "storekeeper", "engineer"]);
  expect([mayWithdraw("auditor"), mayWithdraw(""), mayWithdraw("planner")]).toEqual([false, false, true]);
});
