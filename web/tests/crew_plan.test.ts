// Bigger than planned, site counts, sites of a round, what changed, the stage's events.
import { describe, expect, test } from "vitest";
import { basesTold } from "../src/crew/logic/bases";
import { bigger, openAfter, spareOnTruck } from "../src/crew/logic/bigger";
import { amountOf, decimal, litresOfOne } from "../src/crew/logic/counts";
import { nextDevice, outThere } from "../src/crew/logic/devices";
import { beforeWork, readPlan, type CrewMove, type Plan, type PlanRepair, type SiteCount, type WorkZone } from "../src/crew/logic/plan";
import { emptyRepair, toSign, toTell, type Around } from "../src/crew/logic/repair_draft";
import { changes, metresBetween, sitesOf, siteState, todayIn, zoneNumber } from "../src/crew/logic/round";
import { doneByRecord, stageByRecord } from "../src/crew/logic/stages";
import type { Told as Queued } from "../src/lib/store/database";
import type { KnownRepair, KnownRound, KnownZone, PlannedRepair } from "../src/crew/logic/known";

const figure = (value: number): { value: number; p10: null; p50: null; p90: null; why: string } => ({ value, p10: null, p50: null, p90: null, why: "" });
const row = (depth_m: number, layer_count: number, loose: number, water: number): PlanRepair["deeper"][number] => ({ depth_m, layer_count, layer_thickness_m: depth_m / layer_count, fill_volume_m3: 0, loose_volume_m3: loose, water_to_add_kg: water });
/** A repair as a plan of the invented district has it: 0.825 m², 195 mm. */
const REPAIR = {
  depth_m: figure(0.195),
  cut_area_m2: figure(0.825),
  layer_count: figure(2),
  layer_thickness_m: figure(0.0975),
  loose_volume_m3: figure(0.224),
  water_to_add_kg: figure(9.5),
  binder_volume_hot_l: figure(1.77),
  cover_volume_m3: figure(0.011),
  spoil_volume_m3: figure(0.209),
  deeper: [row(0.2, 2, 0.23, 9.73), row(0.25, 2, 0.286, 12.1), row(0.3, 2, 0.343, 14.5), row(0.325, 3, 0.371, 15.7)],
  opening: { open_after_s: figure(3600), by_temperature: [{ surface_c: 20, open_after_s: 3600 }, { surface_c: 10, open_after_s: 7200 }, { surface_c: 30, open_after_s: 1800 }] },
} as unknown as PlanRepair;

describe("bigger than planned", () => {
  test.each([
    // depth, area, row taken, layers, loose base
    [0.195, 0.825, 0.195, 2, 0.224],
    [0.196, 0.825, 0.2, 2, 0.23],
    [0.245, 0.825, 0.25, 2, 0.286],
    [0.31, 0.825, 0.325, 3, 0.371],
    [0.195, 1.65, 0.195, 2, 0.448],
    [0.25, 1.65, 0.25, 2, 0.572],
  ])("%f m deep and %f m² takes the row of %f m", (depth_m, area_m2, taken, layers, base) => {
    const now = bigger(REPAIR, { depth_m, area_m2 });
    expect([now.row.depth_m, now.layer_count, now.beyond]).toEqual([taken, layers, false]);
    expect(now.base_loose_m3).toBeCloseTo(base, 9);
    expect(now.layer_thickness_m * now.layer_count).toBeCloseTo(depth_m, 9);
    expect(now.binder_l).toBeCloseTo((1.77 * area_m2) / 0.825, 9);
    expect(now.more.base_loose_m3).toBeCloseTo(base - 0.224, 9);
  });

  test("beyond the table it says so, in proportion to depth, no layer thicker than the table's thickest", () => {
    const now = bigger(REPAIR, { depth_m: 0.5, area_m2: 0.825 });
    expect([now.beyond, now.layer_count]).toEqual([true, 4]);
    expect(now.base_loose_m3).toBeCloseTo((0.371 * 0.5) / 0.325, 9);
    expect(now.layer_thickness_m).toBeLessThanOrEqual(0.15);
  });

  test.each([
    [undefined, 3600],
    [9, undefined],
    [10, 7200],
    [22, 3600],
    [41, 1800],
  ])("traffic after a surface of %s °C", (surface, after) => expect(openAfter(REPAIR, surface)).toBe(after));
});

test("what the truck carries beyond the plan of the trip", () => {
  const plan = {
    jobs: [{ repair: REPAIR }, { repair: REPAIR }, { repair: REPAIR }],
    sites: [{ jobs: [0] }, { jobs: [1] }, { jobs: [2] }],
    round: { trips: [[2], [0, 1]] },
    loads: [{}, { total: { base_volume_m3: 0.6, water_volume_l: 20, binder_volume_l: 3.54, cover_volume_m3: 0.03 } }],
  } as unknown as Plan;
  const spare = spareOnTruck(plan, 1)!;
  expect(spare.base_loose_m3).toBeCloseTo(0.152, 9);
  expect(spare.water_l).toBeCloseTo(1, 9);
  expect(spare.binder_l).toBeCloseTo(0, 9);
  expect(spare.cover_stone_m3).toBeCloseTo(0.008, 9);
  expect(spareOnTruck(plan, 7)).toBeUndefined();
});

const COUNT = { good: "base", unit: "wheelbarrow", plural: "wheelbarrows", unit_l: 60, words: "", count: { ...figure(4), why: "v = 50.0 L" } } as SiteCount;

test("site counts are turned into the record's units by the plan's own size", () => {
  expect(litresOfOne(COUNT)).toBe(60);
  const { unit_l: _, ...older } = COUNT;
  expect([litresOfOne(older), litresOfOne({ ...COUNT, unit_l: 0 }), litresOfOne(undefined)]).toEqual([undefined, undefined, undefined]);
  expect(amountOf({ count: 3, in: "site" }, "base", 60)).toBeCloseTo(0.18, 9);
  expect(amountOf({ count: 2.5, in: "site" }, "water", 5)).toBeCloseTo(12.5, 9);
  expect(amountOf({ count: 0.2, in: "own" }, "base", 60)).toBe(0.2);
  expect(amountOf({ count: undefined, in: "site" }, "base", 60)).toBeUndefined();
  // counted by a plan of other wheelbarrows, or one that is not on the phone any more
  for (const now of [undefined, 80]) expect(amountOf({ count: 3, in: "site", unit_l: 60 }, "base", now)).toBeCloseTo(0.18, 9);
  expect(amountOf({ count: -1, in: "own" }, "base", 60)).toBeUndefined();
  expect([decimal(0.1 + 0.2), decimal(12), decimal(100), decimal(0), decimal(undefined)]).toEqual(["0.3", "12", "100", "0", undefined]);
});

const planned = (repair: string, holes: string[], base = "0.2"): PlannedRepair => ({ repair, holes, road: `Road of ${repair}`, area_m2: 1, base_loose_m3: base, water_l: "9", binder_l: "2", cover_stone_m3: "0.01", minutes: "60" }) as PlannedRepair;
const round = (repairs: PlannedRepair[], zones: object[] = []): KnownRound => ({ round: "8c0f3f0e-9c9a-5a43-9b0e-2d5f5f5a0001", date: { value: "2026-06-09" }, crew: { value: "Crew Fulmar" }, repairs: { value: repairs }, planned_zones: zones, zones: [], signatures: [] }) as unknown as KnownRound;

describe("a round", () => {
  test("has its sites by zones, repairs left over at the end, and works without files", () => {
    const sites = sitesOf(round([planned("a", ["1"]), planned("b", ["2"]), planned("c", ["3"])], [{ holes: ["2", "1"], road: "Quay Parade" }]), undefined, undefined);
    expect(sites.map((site) => [site.road, site.repairs.map((one) => one.repair)])).toEqual([
      ["Quay Parade", ["a", "b"]],
      ["Road of c", ["c"]],
    ]);
    expect(sitesOf(round([planned("a", ["1"])]), undefined, undefined)).toHaveLength(1);
  });

  test("two phones make the same number of a zone, with and without files", () => {
    // checked with Python: uuid.uuid5(uuid.NAMESPACE_URL, "lengthsman:zone r h1 h2")
    expect(zoneNumber("r", ["h1", "h2"])).toBe("cf98e031-5736-51e3-b790-b3733c58ece5");
    const zones = [{ holes: ["1"], road: "" }];
    const with_files = sitesOf(round([planned("a", ["1"])], zones), undefined, { round: "", repairs: [], zones: [{ site: 0, zone: "z", holes: ["1"] }] });
    expect(with_files[0]!.zone).toBe("z");
  });

  test("a site is done when it is mended and its devices are in", () => {
    const site = sitesOf(round([planned("a", ["1"])], [{ holes: ["1"] }]), undefined, undefined)[0]!;
    const open = new Map([["a", { state: "open" } as KnownRepair]]);
    const zone = (opened: boolean, closed: boolean): KnownZone => ({ opened: opened ? {} : null, closed: closed ? {} : null }) as unknown as KnownZone;
    expect(siteState(site, undefined, new Map())).toBe("planned");
    expect(siteState(site, zone(true, false), new Map())).toBe("open");
    expect(siteState(site, zone(true, false), open)).toBe("mended");
    expect(siteState(site, zone(true, true), open)).toBe("done");
    expect(siteState(site, zone(true, true), new Map())).toBe("planned");
  });

  test("what has changed is said", () => {
    const before = [planned("a", ["1"]), planned("b", ["2"]), planned("c", ["3"])];
    expect(changes(before, before)).toEqual([]);
    const now = [planned("c", ["3"]), planned("a", ["1"], "0.4"), planned("d", ["4"])];
    expect(changes(before, now, new Map([["b", "2026-06-10"]])).map(({ what, repair, now }) => [what, repair, now])).toEqual([
      ["amounts", "a", undefined],
      ["added", "d", undefined],
      ["removed", "b", "2026-06-10"],
      ["order", "", undefined],
    ]);
  });

  test("today is the district's day", () => {
    const late = new Date("2026-06-09T01:00:00Z");
    expect([todayIn("Etc/GMT+2", late), todayIn("UTC", late)]).toEqual(["2026-06-08", "2026-06-09"]);
    expect(todayIn("no such zone", late)).toMatch(/^2026-06-0[89]$/);
  });

  test("a degree of latitude is some 111 km", () => expect(metresBetween({ lon: 0, lat: 47 }, { lon: 0, lat: 48 })).toBeCloseTo(111_195, -1));
});

const AROUND: Around = { repair: "r", holes: ["h"], zone: "z", crew: "Crew Fulmar", counts: [COUNT, { ...COUNT, good: "spoil" }] };

describe("what is told of a stage", () => {
  test("the cut, with spoil as a move to the truck; nothing that is not known", () => {
    const draft = { ...emptyRepair(), depths_mm: [200, undefined, 210], length_mm: 1100, width_mm: 750, bottom_firm: false, spoil: { count: 2, in: "site" as const } };
    expect(toTell("cut", draft, AROUND)).toEqual([
      { name: "cut", happened: { kind: "hole_cut", repair: "r", holes: ["h"], zone: "z", area_m2: 0.825, depths_mm: [200, 210], bottom_firm: false } },
      { name: "spoil", adds: true, happened: { kind: "stock_moved", from: { at: "repair", repair: "r" }, to: { at: "truck", crew: "Crew Fulmar" }, item: { what: "spoil" }, amount: "0.12" } },
    ]);
    expect(toTell("cut", emptyRepair(), { ...AROUND, zone: undefined })).toEqual([
      { name: "cut", happened: { kind: "hole_cut", repair: "r", holes: ["h"] } },
      { name: "spoil", adds: true, happened: undefined },
    ]);
  });

  test("a layer carries its own base: no move into the repair beside it", () => {
    const draft = emptyRepair();
    draft.layers[0] = { ...draft.layers[0]!, base: { count: 3, in: "site" }, moisture: "keeps_shape", passes_vibrating: 12 };
    expect(toTell("compact", draft, AROUND)).toEqual([{ name: "layer/1", happened: { kind: "layer_placed", repair: "r", layer: 1, base_loose_m3: "0.18", moisture: "keeps_shape", passes_vibrating: 12 } }]);
  });

  test("what is seen around the work is told where somebody said it, and left out where nobody did", () => {
    const draft = { ...emptyRepair(), drainage: "ditch_blocked" as const, weather: "damp" as const, air_c: -2 };
    draft.layers[0] = { ...draft.layers[0]!, kind: " crushed rock 0/20 " };
    const of = (stage: "cut" | "compact" | "seal", filled: ReturnType<typeof emptyRepair>): object => toTell(stage, filled, AROUND)[0]!.happened!;
    expect(of("cut", draft)).toMatchObject({ drainage: "ditch_blocked" });
    expect(of("compact", draft)).toEqual({ kind: "layer_placed", repair: "r", layer: 1, base: "crushed rock 0/20" });
    expect(of("seal", draft)).toEqual({ kind: "sealed", repair: "r", weather: "damp", air_temperature_c: -2 });
    draft.layers[0]!.kind = "  ";
    expect(of("compact", draft)).toEqual({ kind: "layer_placed", repair: "r", layer: 1 });
    // a form that was filled in before there was such a question
    const { kind: _, ...older } = emptyRepair().layers[0]!;
    expect(of("compact", { ...emptyRepair(), layers: [older] })).toEqual({ kind: "layer_placed", repair: "r", layer: 1 });
    expect(of("seal", emptyRepair())).toEqual({ kind: "sealed", repair: "r" });
  });

  test("kinds of base told before are offered: those told here last first, each once, a few", () => {
    const told = (order: number, happened: object): Queued => ({ order, event: { happened } }) as unknown as Queued;
    const queue = [
      told(1, { kind: "layer_placed", base: "gravel" }),
      told(3, { kind: "corrected", instead: { kind: "layer_placed", base: "crushed rock" } }),
      told(2, { kind: "layer_placed" }),
      told(4, { kind: "corrected" }),
    ];
    const known = (base: string, at: string): KnownRepair => ({ layers: [{ base: { value: base, by: { at } } }, { base: null }] }) as unknown as KnownRepair;
    expect(basesTold([known("old", "2025-01-01T00:00:00Z"), known("gravel", "2026-01-01T00:00:00Z"), known("slag", "2026-02-01T00:00:00Z")], queue)).toEqual(["crushed rock", "gravel", "slag"]);
    expect(basesTold([], [])).toEqual([]);
  });

  test("stages without an event tell nothing", () => {
    for (const stage of ["traffic_out", "mark_out", "fill", "traffic_in"] as const) expect(toTell(stage, emptyRepair(), AROUND)).toEqual([]);
  });

  test("time is that of all people", () => {
    const all = toSign({ ...emptyRepair(), minutes: 80, people: 5, note: " good " }, AROUND, ["not ticked"], "crew leader");
    expect(all).toEqual([
      { name: "time", adds: true, happened: { kind: "time_booked", on: { repair: "r" }, crew: "Crew Fulmar", labour_min: "400", plant_min: "80" } },
      { happened: { kind: "signed", of: { repair: "r" }, role: "crew leader", note: "good; not ticked" } },
    ]);
  });
});

test("a phone without a draft begins where the record is", () => {
  const repair = (state: string, layers = 0): KnownRepair => ({ state, layers: Array.from({ length: layers }, () => ({})), cut: {}, sealed: state === "sealed" ? {} : null }) as unknown as KnownRepair;
  expect([stageByRecord(undefined, false, 2), stageByRecord(undefined, true, 2), stageByRecord(repair("cut_out"), true, 2)]).toEqual(["traffic_out", "mark_out", "fill"]);
  expect([stageByRecord(repair("filling", 1), true, 2), stageByRecord(repair("filling", 2), true, 2), stageByRecord(repair("sealed"), true, 2)]).toEqual(["fill", "seal", "clean_up"]);
  expect([...doneByRecord(repair("sealed", 1), { opened: true, closed: false }, 2)]).toEqual(["traffic_out", "mark_out", "cut", "fill", "compact", "seal"]);
});

describe("devices", () => {
  const move = (devices: number[]): CrewMove => ({ step: "lane", devices, driven_m: 0, walked_m: 0, turns: 0 });
  test("the next is the first in order that is not ticked", () => {
    expect(nextDevice([move([0, 1]), move([2])], [0])).toBe(1);
    expect(nextDevice([move([2]), move([1, 0])], [2, 1], [2, 1])).toBeUndefined();
  });
  test("where another phone put them out, all count as out", () => {
    const zone = { devices: [{}, {}, {}] } as unknown as WorkZone;
    expect(outThere(zone, { out: [], back: [] })).toEqual([0, 1, 2]);
    expect(outThere(zone, { out: [1], back: [] })).toEqual([1]);
  });
  test("a sign stands before the work as its own traffic sees it", () => {
    const zone = { work_from_m: 1000, work_to_m: 1026 } as WorkZone;
    const at = (approach: string, chainage_m: number): number => beforeWork(zone, { approach, chainage_m } as WorkZone["devices"][number]);
    expect([at("forward", 370), at("backward", 1690), at("forward", 1030)]).toEqual([630, 664, -30]);
  });
});

test("what is no plan is none", () => {
  expect(readPlan("{")).toBeUndefined();
  expect(readPlan("{}")).toBeUndefined();
});
