// What adds up is told once, however often the stage is told; what is taken back is taken back in the record; the form and its events
// are written together.
import "fake-indexeddb/auto";
import { beforeEach, describe, expect, test, vi } from "vitest";

vi.mock("../src/lib/store/sync.svelte", () => ({ sync: async () => undefined, wantFiles: () => undefined }));
vi.mock("../src/lib/session.svelte", () => ({ me: () => ({ name: "idris", device: "phone 1", crew: "Crew Fulmar" }) }));

const { database } = await import("../src/lib/store/database");
const { tell } = await import("../src/lib/store/queue");
const { dropRefused, stepsFor, tellingsOf } = await import("../src/lib/store/tellings");
const { tellAgain, tellThese } = await import("../src/crew/telling");
const { emptyRepair, repairForm, toSign, toTell } = await import("../src/crew/logic/repair_draft");
const { holeWith, repairWith } = await import("../src/crew/logic/merge");
const { inForce } = await import("../src/lib/in_force");
type Draft = ReturnType<typeof emptyRepair>;

const REPAIR = "00000000-0000-4000-8000-0000000000aa";
const AROUND = { repair: REPAIR, holes: ["00000000-0000-4000-8000-0000000000bb"], zone: undefined, crew: "Crew Fulmar", counts: undefined };
const FORM = repairForm(REPAIR);
const ME = { actor: "idris", device: "phone 1" };

const cut = (more: Partial<Draft>): Promise<void> => tellAgain(FORM, toTell("cut", { ...emptyRepair(), ...more }, AROUND));
const sign = (more: Partial<Draft>): Promise<void> => tellAgain(FORM, toSign({ ...emptyRepair(), ...more }, AROUND, [], "crew leader"));
const spoil = (count: number | undefined): Partial<Draft> => ({ spoil: { count, in: "own" } });
const told = () => database.told.orderBy("order").toArray();
/** What the record has of it, once all that was not refused has come in. */
async function standing(kind: string): Promise<any[]> {
  const events = (await told()).filter(({ state }) => state !== "refused").map(({ event }) => event);
  return inForce(events).flatMap(({ happened }) => (happened.kind === kind ? [happened] : []));
}
const amounts = async () => (await standing("stock_moved")).map(({ amount }) => amount);

beforeEach(() => Promise.all(database.tables.map((table) => table.clear())));

describe("what adds up", () => {
  test("spoil told three times is on the truck once, with what was told last", async () => {
    for (const count of [0.2, 0.3, 0.25]) await cut({ ...spoil(count), depths_mm: [count * 1000] });
    expect(await told()).toHaveLength(6);
    expect((await told()).every(({ event }) => event.actor === "idris" && event.device === "phone 1")).toBe(true);
    expect(await amounts()).toEqual(["0.25"]);
    // a correction is found with the repair that it is about
    expect(await database.told.where("about").equals(REPAIR).count()).toBe(6);
  });

  test.each([[0], [undefined]])("spoil set to %s after it was told is taken back, and can be told again", async (nothing) => {
    await cut(spoil(0.2));
    await cut(spoil(nothing));
    expect(await amounts()).toEqual([]);
    await cut(spoil(nothing));
    expect(await told()).toHaveLength(3);
    await cut(spoil(0.4));
    expect(await amounts()).toEqual(["0.4"]);
  });

  test("time that is taken out is taken back", async () => {
    await sign({ minutes: 80, people: 5 });
    await sign({ minutes: undefined, people: 5 });
    expect(await standing("time_booked")).toEqual([]);
    expect(await standing("signed")).toHaveLength(2);
  });

  test("nothing is told of what is as it was told", async () => {
    await cut(spoil(0.2));
    expect(stepsFor(toTell("cut", { ...emptyRepair(), ...spoil(0.2) }, AROUND), await tellingsOf(FORM))).toEqual([]);
    await cut(spoil(0.2));
    expect(await told()).toHaveLength(2);
  });
});

test("a measure that is taken back is in the record no more; when it was cut stays", async () => {
  await cut({ depths_mm: [120, 130], length_mm: 900, width_mm: 800 });
  await cut({ depths_mm: [140], length_mm: 900, width_mm: 800 });
  await cut({ length_mm: 900, width_mm: 800 });
  const events = (await told()).map(({ event }) => event);
  const row = repairWith(REPAIR, undefined, events)!;
  expect([row.depths_mm, row.area_m2?.value]).toEqual([undefined, 0.72]);
  // a time that counts, e.g. from when traffic may run over a seal, is that of the first telling
  const cutAt = (all: typeof events) => repairWith(REPAIR, undefined, all)!.cut!.at;
  expect(cutAt(events)).toBe(cutAt(events.slice(0, 1)));
});

test("a size of a hole that is taken back is taken out of it; the rest of it stays", async () => {
  const hole = "00000000-0000-4000-8000-0000000000bb";
  const measured = (size: object) => tellAgain("bigger", [{ name: "measured", happened: { kind: "hole_measured", hole, size, note: "bigger" } as never }]);
  await measured({ depth_mm: 200, length_mm: 900 });
  await measured({ length_mm: 950 });
  const row = holeWith(hole, undefined, (await told()).map(({ event }) => event))!;
  expect([row.depth_mm, row.length_mm?.value]).toEqual([undefined, 950]);
  expect((await standing("hole_measured")).map(({ size }) => size)).toEqual([{ length_mm: 900 }, { length_mm: 950 }]);
});

describe("a browser that is killed", () => {
  test("in the midst of telling has told all of it, with the form, or nothing", async () => {
    const fails = (): never => {
      throw new Error("killed");
    };
    database.drafts.hook("creating", fails);
    await expect(cut(spoil(0.2))).rejects.toThrow("killed");
    await expect(tellThese([{ kind: "opened_to_traffic", repair: REPAIR }], () => database.drafts.put({ key: "x", value: 1 }))).rejects.toThrow("killed");
    database.drafts.hook("creating").unsubscribe(fails);
    expect(await told()).toEqual([]);
  });

  test("right after telling knows what it told", async () => {
    // no more of the page's own doing than the telling itself
    await cut(spoil(0.2));
    await sign({ minutes: 60 });
    await cut(spoil(0.3));
    await sign({ minutes: 70 });
    expect(await amounts()).toEqual(["0.3"]);
    expect((await standing("time_booked")).map(({ labour_min }) => labour_min)).toEqual(["70"]);
  });
});

describe("what was refused", () => {
  const judged = async (kind: string, state: "sent" | "refused"): Promise<void> => {
    for (const one of await told()) if (one.event.happened.kind === kind && one.state === "waiting") await database.told.update(one.id, { state });
  };
  const first = async (kind: string) => (await told()).find(({ event }) => event.happened.kind === kind)!;

  test("and dropped is no event that a later telling could correct", async () => {
    await cut(spoil(200));
    await judged("stock_moved", "refused");
    await dropRefused(await first("stock_moved"), ME);
    expect(await tellingsOf(FORM)).not.toHaveProperty("spoil");
    await cut(spoil(0.2));
    expect((await told()).map(({ event }) => event.happened.kind)).toEqual(["hole_cut", "stock_moved"]);
    expect(await amounts()).toEqual(["0.2"]);
  });

  test("is replaced by what is told instead", async () => {
    await cut(spoil(200));
    await judged("stock_moved", "refused");
    await cut(spoil(0.2));
    expect((await told()).filter(({ state }) => state === "refused")).toEqual([]);
    expect(await amounts()).toEqual(["0.2"]);
  });

  test("and corrected before that was known: what was told last stands when it is dropped", async () => {
    await cut(spoil(200));
    await cut(spoil(0.2));
    await judged("stock_moved", "refused");
    await judged("corrected", "sent");
    expect(await amounts()).toEqual([]);
    await dropRefused(await first("stock_moved"), ME);
    expect(await amounts()).toEqual(["0.2"]);
    await cut(spoil(0.3));
    expect(await amounts()).toEqual(["0.3"]);
  });

  test("as a correction leaves what it was to correct", async () => {
    await cut(spoil(0.2));
    await judged("stock_moved", "sent");
    await cut(spoil(200));
    await judged("corrected", "refused");
    expect((await tellingsOf(FORM))["spoil"]).toMatchObject([{ now: { amount: "0.2" } }]);
    await cut(spoil(0.3));
    expect(await amounts()).toEqual(["0.3"]);
    expect((await told()).filter(({ state }) => state === "refused")).toEqual([]);
  });
});

test("what was taken back by hand is told anew when its stage is told again", async () => {
  await cut(spoil(0.2));
  for (const { id } of await told()) await tell({ kind: "corrected", event: id, why: "told by mistake" } as never, ME);
  expect([await amounts(), await standing("hole_cut")]).toEqual([[], []]);
  await cut(spoil(0.2));
  expect([await amounts(), (await standing("hole_cut")).length]).toEqual([["0.2"], 1]);
});

test("what was sent so long ago that only the form knows of it is still corrected", async () => {
  await cut(spoil(0.2));
  const [, moved] = await told();
  await database.told.clear();
  await cut(spoil(0));
  expect((await told()).map(({ event }) => event.happened)).toMatchObject([{ kind: "corrected", event: moved!.id }]);
});
