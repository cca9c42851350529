// What is known with what was told on this phone: any order, told twice, corrected.
import { describe, expect, test } from "vitest";
import { inForce } from "../src/lib/in_force";
import { disagreements, holeWith, notYetIn, repairWith, zoneWith } from "../src/crew/logic/merge";
import { noRepair, type KnownRepair } from "../src/crew/logic/known";
import type { Event, Happened, Told } from "../src/lib/store/database";

const REPAIR = "00000000-0000-4000-8000-0000000000aa";
const HOLE = "00000000-0000-4000-8000-0000000000bb";
const ZONE = "00000000-0000-4000-8000-0000000000cc";

function event(number: number, minute: number, happened: object, device = "phone 1"): Event {
  return { id: `00000000-0000-7000-8000-${String(number).padStart(12, "0")}`, schema: 1, actor: device === "phone 1" ? "idris" : "wren", device, device_time: `2026-06-09T08:${String(minute).padStart(2, "0")}:00Z`, happened: happened as Happened } as Event;
}
const cut = (depth: number): object => ({ kind: "hole_cut", repair: REPAIR, holes: [HOLE], zone: ZONE, depths_mm: [depth], bottom_firm: true });
const layer = (n: number, base: string): object => ({ kind: "layer_placed", repair: REPAIR, layer: n, base_loose_m3: base });
const sealed = { kind: "sealed", repair: REPAIR, binder_l: "2.1" };
const opened = { kind: "opened_to_traffic", repair: REPAIR };

function shuffles<T>(list: T[]): T[][] {
  if (list.length <= 1) return [list];
  return list.flatMap((one, at) => shuffles([...list.slice(0, at), ...list.slice(at + 1)]).map((rest) => [one, ...rest]));
}

function rowOf(events: Event[]): KnownRepair {
  return repairWith(REPAIR, undefined, events)!;
}

describe("a repair", () => {
  test("is the same whatever order its events come in", () => {
    const events = [event(1, 1, cut(200)), event(2, 2, layer(1, "0.18")), event(3, 3, layer(2, "0.12")), event(4, 4, cut(210)), event(5, 5, sealed)];
    const straight = rowOf(events);
    expect(straight.state).toBe("sealed");
    expect(straight.depths_mm?.value).toEqual([210]);
    expect(straight.layers.map((one) => [one.layer, one.base_loose_m3?.value])).toEqual([
      [1, "0.18"],
      [2, "0.12"],
    ]);
    for (const other of shuffles(events)) expect(rowOf(other)).toEqual(straight);
  });

  test("knows what was seen around the work, and what another phone saw otherwise", () => {
    const events = [
      event(1, 1, { ...cut(200), drainage: "ditch_works" }),
      event(2, 2, { ...layer(1, "0.1"), base: "crushed rock" }),
      event(3, 3, { ...sealed, weather: "damp", air_temperature_c: 0 }),
      event(4, 4, { ...cut(200), drainage: "ditch_blocked" }, "phone 2"),
      event(5, 5, layer(1, "0.1")),
    ];
    const row = rowOf(events);
    expect([row.drainage?.value, row.layers[0]?.base?.value, row.weather?.value, row.air_temperature_c?.value]).toEqual(["ditch_blocked", "crushed rock", "damp", 0]);
    expect(disagreements(row).map(({ field }) => field)).toEqual(["drainage"]);
  });

  test("an event given twice counts once", () => {
    const time = { kind: "time_booked", on: { repair: REPAIR }, crew: "Crew Fulmar", labour_min: "400", plant_min: "80" };
    const once = [event(1, 1, cut(200)), event(2, 2, time), event(3, 3, { kind: "photo_taken", photo: "ab", of: { repair: REPAIR } })];
    expect(rowOf([...once, ...once])).toEqual(rowOf(once));
    expect(rowOf(once).labour_min).toBe("400");
  });

  test.each([
    ["nothing", [], undefined],
    ["cut", [event(1, 1, cut(200))], "cut_out"],
    ["a layer", [event(1, 1, cut(200)), event(2, 2, layer(1, "0.1"))], "filling"],
    ["opened", [event(1, 1, cut(200)), event(3, 3, opened)], "open"],
    ["failed at a look", [event(3, 3, opened), event(4, 4, { kind: "inspected", repair: REPAIR, found: "failed" })], "failed"],
    ["of another", [event(1, 1, { ...cut(1), repair: HOLE })], undefined],
  ])("has the state of its last stage: %s", (_, events, state) => {
    expect(repairWith(REPAIR, undefined, events)?.state).toBe(state);
  });

  test("what another phone told otherwise stands beside it", () => {
    const known = rowOf([event(1, 5, cut(200), "phone 2")]);
    const later = repairWith(REPAIR, known, [event(2, 9, cut(240))])!;
    expect(later.depths_mm).toMatchObject({ value: [240], otherwise: [{ value: [200], by: { device: "phone 2" } }] });
    // told before the other, but come in after it: the other counts
    const earlier = repairWith(REPAIR, known, [event(2, 1, cut(240))])!;
    expect(earlier.depths_mm).toMatchObject({ value: [200], otherwise: [{ value: [240], by: { device: "phone 1" } }] });
    expect(earlier.cut?.device).toBe("phone 1");
    expect(disagreements(earlier).map(({ field }) => field)).toEqual(["depths_mm"]);
    // both measure the same in the end
    expect(disagreements(repairWith(REPAIR, later, [event(3, 10, cut(200))])!)).toEqual([]);
  });

  test("decimals that are the same number are no disagreement", () => {
    const known = rowOf([event(1, 1, layer(1, "0.180"), "phone 2")]);
    expect(disagreements(repairWith(REPAIR, known, [event(2, 2, layer(1, "0.18"))])!)).toEqual([]);
  });

  test("a device that tells again corrects itself", () => {
    const row = rowOf([event(1, 1, cut(200)), event(2, 2, cut(220))]);
    expect(row.depths_mm).toMatchObject({ value: [220], otherwise: [] });
  });

  test("a correction that waits takes out what the record has", () => {
    const known = rowOf([event(1, 1, cut(200)), event(2, 2, sealed)]);
    const withdrawn = repairWith(REPAIR, known, [event(3, 3, { kind: "corrected", event: event(2, 2, sealed).id, why: "told by mistake" })])!;
    expect(withdrawn.sealed).toBeNull();
    expect(withdrawn.binder_l).toBeNull();
    expect(withdrawn.state).toBe("cut_out");
    const instead = repairWith(REPAIR, known, [event(3, 3, { kind: "corrected", event: event(2, 2, sealed).id, why: "typed wrong", instead: { ...sealed, binder_l: "3" } })])!;
    expect(instead.binder_l?.value).toBe("3");
    expect(instead.state).toBe("sealed");
    // the row that was given is left as it was
    expect(known.binder_l?.value).toBe("2.1");
  });

  test("a correction of what waits too", () => {
    const spoilt = event(2, 2, layer(1, "18"));
    const row = rowOf([event(1, 1, cut(200)), spoilt, event(3, 3, { kind: "corrected", event: spoilt.id, why: "typed wrong", instead: layer(1, "0.18") })]);
    expect(row.layers[0]!.base_loose_m3?.value).toBe("0.18");
    expect(row.layers).toHaveLength(1);
  });
});

test("a clock that was ahead is taken back before it counts", () => {
  const ahead = { ...event(1, 30, cut(200)), clock_ahead_ms: 25 * 60_000 };
  expect(rowOf([ahead, event(2, 10, cut(210))]).depths_mm?.value).toEqual([210]);
});

test("corrections in a circle count for nothing", () => {
  const a = event(1, 1, { kind: "corrected", event: event(2, 2, {}).id, why: "" });
  const b = event(2, 2, { kind: "corrected", event: a.id, why: "" });
  expect(inForce([a, b, event(3, 3, opened)]).map(({ happened }) => happened.kind)).toEqual(["opened_to_traffic"]);
});

test("a withdrawn correction leaves what was told first", () => {
  const first = event(1, 1, sealed);
  const wrong = event(2, 2, { kind: "corrected", event: first.id, why: "x" });
  const back = event(3, 3, { kind: "corrected", event: wrong.id, why: "y" });
  expect(inForce([first, wrong]).length).toBe(0);
  expect(inForce([back, first, wrong]).map(({ happened }) => happened.kind)).toEqual(["sealed"]);
});

test("a zone is opened and closed, with its counts", () => {
  const open = { kind: "zone_opened", zone: ZONE, holes: [HOLE], position: { lon: -28, lat: 47 }, devices_out: 26 };
  const row = zoneWith(ZONE, undefined, [event(2, 9, { kind: "zone_closed", zone: ZONE, devices_in: 25 }), event(1, 1, open)])!;
  expect([row.devices_out?.value, row.devices_in?.value, row.opened?.actor, row.closed?.actor]).toEqual([26, 25, "idris", "idris"]);
  expect(zoneWith(ZONE, undefined, [event(1, 1, { ...open, zone: HOLE })])).toBeUndefined();
});

test("a hole told of here is there before the record has it, and bigger once it is measured", () => {
  const told = { kind: "hole_reported", hole: HOLE, position: { lon: -28, lat: 47 }, size: { depth_mm: 90 }, note: "on the way" };
  const row = holeWith(HOLE, undefined, [event(1, 1, told), event(2, 2, { kind: "hole_measured", hole: HOLE, size: { depth_mm: 140 } }), event(3, 3, cut(140))])!;
  expect([row.depth_mm?.value, row.state, row.repairs, row.reports.length]).toEqual([140, "begun", [REPAIR], 1]);
});

test("only what the row can't have yet is put on top of it", () => {
  const queue = [
    { id: "1", state: "sent", position: 7, event: event(1, 1, cut(1)) },
    { id: "2", state: "sent", position: 9, event: event(2, 2, cut(2)) },
    { id: "3", state: "waiting", event: event(3, 3, cut(3)) },
    { id: "4", state: "refused", event: event(4, 4, cut(4)) },
  ] as Told[];
  expect(notYetIn(8, queue).map((one) => one.id)).toEqual([queue[1]!.event.id, queue[2]!.event.id]);
});

test("a row without anything told is given back as it is", () => {
  const known = { ...noRepair(REPAIR, "2026-06-09T08:00:00Z"), state: "planned" } as KnownRepair;
  expect(repairWith(REPAIR, known, [])).toEqual(known);
});
