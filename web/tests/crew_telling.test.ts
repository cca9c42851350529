// What adds up is told once, however often the stage is told.
import "fake-indexeddb/auto";
import { beforeEach, expect, test, vi } from "vitest";

vi.mock("../src/lib/store/sync.svelte", () => ({ sync: async () => undefined, wantFiles: () => undefined }));
vi.mock("../src/lib/session.svelte", () => ({ me: () => ({ name: "idris", device: "phone 1", crew: "Crew Fulmar" }) }));

const { database } = await import("../src/lib/store/database");
const { tellThese } = await import("../src/crew/telling");
const { emptyRepair, toTell } = await import("../src/crew/logic/repair_draft");
const { inForce } = await import("../src/crew/logic/in_force");

const AROUND = { repair: "00000000-0000-4000-8000-0000000000aa", holes: ["00000000-0000-4000-8000-0000000000bb"], zone: undefined, crew: "Crew Fulmar", counts: undefined };

beforeEach(() => database.told.clear());

test("spoil told three times is on the truck once, with what was told last", async () => {
  let events: Record<string, string> = {};
  for (const count of [0.2, 0.3, 0.25]) events = await tellThese(toTell("cut", { ...emptyRepair(), spoil: { count, in: "own" } }, AROUND), events);
  const told = await database.told.orderBy("order").toArray();
  expect(told).toHaveLength(6);
  expect(told.every(({ event }) => event.actor === "idris" && event.device === "phone 1")).toBe(true);
  const moves = inForce(told.map(({ event }) => event)).filter(({ happened }) => happened.kind === "stock_moved");
  expect(moves.map(({ happened }) => (happened as { amount: string }).amount)).toEqual(["0.25"]);
  // a correction is found with the repair that it is about
  expect(await database.told.where("about").equals(AROUND.repair).count()).toBe(6);
});
