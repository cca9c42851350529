// What the server has confirmed goes from the device in time; what it has not stays, however old.
import "fake-indexeddb/auto";
import { beforeEach, describe, expect, it } from "vitest";
import { database, type Happened, type KeptPhoto, type Told } from "../src/lib/store/database";
import { FETCHED, pruneNow } from "../src/lib/store/prune";

const DAY = 86_400_000;
const NOW = Date.parse("2026-06-20T12:00:00Z");
const ago = (days: number): number => NOW - days * DAY;
const small = async (): Promise<Blob> => new Blob(["small"]);

const told = (id: string, state: Told["state"], confirmed?: number, happened: object = { kind: "opened_to_traffic", repair: "r" }): Told =>
  ({ id, order: Number(id), state, about: [], event: { id, happened: happened as Happened }, ...(confirmed === undefined ? {} : { confirmed }) }) as unknown as Told;
const photo = (sha256: string, state: KeptPhoto["state"], confirmed?: number): KeptPhoto => ({ sha256, state, blob: new Blob(["a whole photo"]), about: [], ...(confirmed === undefined ? {} : { confirmed }) });
const events = async () => (await database.told.orderBy("order").primaryKeys()).map(String);
const photos = async () => Object.fromEntries(await Promise.all((await database.photos.toArray()).map(async ({ sha256, state, blob, small }) => [sha256, `${state} ${small ? "small" : blob.size}`])));

beforeEach(async () => {
  await Promise.all(database.tables.map((table) => table.clear()));
  await database.meta.put({ key: FETCHED, value: NOW });
});

describe("events", () => {
  it("that were confirmed long ago go; those that wait or were refused stay", async () => {
    await database.told.bulkPut([told("1", "sent", ago(15)), told("2", "sent", ago(13)), told("3", "waiting"), told("4", "refused"), told("5", "sent", ago(40))]);
    await pruneNow(NOW, small);
    expect(await events()).toEqual(["2", "3", "4"]);
  });

  it("stay until the rows that have them were fetched", async () => {
    await database.told.put(told("1", "sent", ago(15)));
    await database.meta.put({ key: FETCHED, value: ago(16) });
    await pruneNow(NOW, small);
    expect(await events()).toEqual(["1"]);
  });

  it("that an older version sent begin their days now", async () => {
    await database.told.put(told("1", "sent"));
    await pruneNow(NOW, small);
    expect(await database.told.get("1")).toMatchObject({ confirmed: NOW });
    await database.meta.put({ key: FETCHED, value: NOW + 20 * DAY });
    await pruneNow(NOW + 15 * DAY, small);
    expect(await events()).toEqual([]);
  });
});

describe("photos", () => {
  const taken = (id: string, sha256: string, state: Told["state"]): Told => told(id, state, state === "sent" ? ago(20) : undefined, { kind: "photo_taken", photo: sha256, of: { repair: "r" } });

  it("become small pictures a day after the server has them, and go with their events", async () => {
    await database.photos.bulkPut([photo("new", "sent", ago(0.5)), photo("old", "sent", ago(2)), photo("oldest", "sent", ago(15)), photo("waits", "waiting"), photo("refused", "refused")]);
    await database.told.bulkPut([taken("1", "old", "sent"), taken("2", "oldest", "sent")]);
    await pruneNow(NOW, small);
    expect(await photos()).toEqual({ new: "sent 13", old: "sent small", waits: "waiting 13", refused: "refused 13" });
    // what shows the small one needs its event
    expect(await events()).toEqual(["1"]);
  });

  it("stay whole while the server has not taken what they belong to", async () => {
    await database.photos.bulkPut([photo("a", "sent", ago(20)), photo("b", "sent", ago(20))]);
    await database.told.bulkPut([taken("1", "a", "waiting"), taken("2", "b", "refused")]);
    await pruneNow(NOW, small);
    expect(await photos()).toEqual({ a: "sent 13", b: "sent 13" });
  });

  it("that an older version sent are confirmed once more before anything of them goes", async () => {
    await database.photos.put(photo("a", "sent"));
    await pruneNow(NOW, small);
    expect(await photos()).toEqual({ a: "waiting 13" });
  });

  it("taken again while they are made small stay whole", async () => {
    await database.photos.put(photo("a", "sent", ago(2)));
    await pruneNow(NOW, async () => {
      await database.photos.put(photo("a", "waiting"));
      return small();
    });
    expect(await photos()).toEqual({ a: "waiting 13" });
  });
});

it("files of rounds long over, or known no more, go", async () => {
  const round = (id: string, date: string) => ({ key: `rounds/${id}`, what: "rounds" as const, id, row: { position: 1, known: { round: id, date: { value: date } } } as never });
  await database.known.bulkPut([round("today", "2026-06-20"), round("last week", "2026-06-14"), round("long ago", "2026-06-12")]);
  for (const id of ["today", "last week", "long ago", "known no more"]) await database.files.put({ key: `${id}/plan.json`, round: id, sha256: "", blob: new Blob(["{}"]) });
  await pruneNow(NOW, small);
  expect((await database.files.toArray()).map((file) => file.round).sort()).toEqual(["last week", "today"]);
});
