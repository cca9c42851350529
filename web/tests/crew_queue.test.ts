// On a phone of several people each sees what is theirs.
import { expect, test } from "vitest";
import { photosIn, queuesOf } from "../src/crew/logic/queue";
import type { Told } from "../src/lib/store/database";

const told = (actor: string, state: Told["state"], happened: object = { kind: "opened_to_traffic", repair: "r" }): Told => ({ id: `${actor} ${state}`, state, event: { actor, happened } }) as unknown as Told;

test("one's own is listed, of others only how much is not with the office yet", () => {
  const queue = [told("idris", "sent"), told("wren", "sent"), told("idris", "waiting"), told("wren", "waiting"), told("tamsin", "refused"), told("wren", "refused")];
  const { own, others } = queuesOf("idris", queue);
  expect(own.map(({ id }) => id)).toEqual(["idris sent", "idris waiting"]);
  expect(others).toEqual([
    { who: "tamsin", count: 1 },
    { who: "wren", count: 2 },
  ]);
  expect(queuesOf("idris", []).others).toEqual([]);
});

test("photos are one's own that one told of", () => {
  const of = (actor: string, photo: string): Told => told(actor, "sent", { kind: "photo_taken", photo, of: { repair: "r" } });
  expect([...photosIn(queuesOf("idris", [of("idris", "a"), of("wren", "b")]).own)]).toEqual(["a"]);
});
