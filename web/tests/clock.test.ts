// How far a clock is ahead is told with what is told, as long as it can still be so.
import "fake-indexeddb/auto";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { api } from "../src/lib/api";
import { clockAhead, clockCompared, holds } from "../src/lib/clock";
import { database } from "../src/lib/store/database";
import { tell } from "../src/lib/store/queue";

const HOUR = 3_600_000;
const SERVER = Date.parse("2026-06-09T08:00:00Z");
/** What the device's clock says, and one that nobody can set. */
let wall = SERVER;
let steady = 0;
const pass = (ms: number): void => {
  wall += ms;
  steady += ms;
};

beforeEach(async () => {
  await Promise.all(database.tables.map((table) => table.clear()));
  wall = SERVER;
  steady = 0;
  vi.spyOn(Date, "now").mockImplementation(() => wall);
  vi.spyOn(performance, "now").mockImplementation(() => steady);
});
afterEach(() => {
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
});

const told = async (): Promise<number | undefined> => ((await tell({ kind: "opened_to_traffic", repair: "r" } as never, { actor: "a", device: "d" })).event as { clock_ahead_ms?: number }).clock_ahead_ms;
const compared = (ahead: number): Promise<void> => clockCompared(new Date(wall - ahead).toUTCString(), wall, wall);

describe("what is told without signal", () => {
  it("says how far the clock was ahead", async () => {
    await compared(2 * HOUR);
    pass(HOUR);
    expect(await told()).toBe(2 * HOUR);
  });

  it("says nothing of it once the clock is put right", async () => {
    await compared(2 * HOUR);
    pass(HOUR);
    wall -= 2 * HOUR;
    expect(await told()).toBeUndefined();
    // nor when it was looked at again since
    pass(60_000);
    expect(await told()).toBeUndefined();
  });

  it("says nothing of it a day later", async () => {
    await compared(2 * HOUR);
    for (let hours = 0; hours < 24; hours++) {
      pass(HOUR);
      expect(await clockAhead()).toBe(2 * HOUR);
    }
    pass(60_000);
    expect(await told()).toBeUndefined();
  });

  it("says nothing where the clock is right", async () => {
    await compared(2 * HOUR);
    await compared(12_000);
    expect(await told()).toBeUndefined();
  });
});

describe("what was known of the clock", () => {
  const kept = (ahead_ms: number) => ({ ahead_ms, at: SERVER, seen: SERVER });
  const at = (wall: number, steady: number) => ({ wall: SERVER + wall, steady });
  it.each([
    ["time goes on", 2 * HOUR, at(0, 0), at(HOUR, HOUR), true],
    ["the device slept", 2 * HOUR, at(0, 0), at(HOUR, 1_000), true],
    ["a clock that was ahead is put right", 2 * HOUR, at(HOUR, HOUR), at(HOUR - 2 * HOUR + 60_000, HOUR + 60_000), false],
    ["a clock that was ahead is set back a little, long after", 2 * HOUR, at(5 * HOUR, 5 * HOUR), at(3 * HOUR, 5 * HOUR), false],
    ["a clock that was behind is put right", -2 * HOUR, at(0, 0), at(2 * HOUR, 1_000), false],
    ["a clock that was behind goes on", -2 * HOUR, at(0, 0), at(2 * HOUR, 2 * HOUR), true],
    ["the app was begun anew, the clock is where it was", 2 * HOUR, undefined, at(HOUR, 0), true],
    ["the app was begun anew, the clock was set back", 2 * HOUR, undefined, at(-HOUR, 0), false],
  ])("%s", (_, ahead, before, now, still) => expect(holds(kept(ahead), before, now)).toBe(still));
});

it("is taken from any answer of the server, anew each time", async () => {
  let server = wall - 2 * HOUR;
  vi.stubGlobal("fetch", async () => new Response(JSON.stringify({ known: [], matched: 0 }), { headers: { "content-type": "application/json", date: new Date(server).toUTCString() } }));
  const ask = () => api.GET("/api/known/{what}", { params: { path: { what: "holes" } } });
  await ask();
  expect(await clockAhead()).toBe(2 * HOUR);
  server = wall;
  await ask();
  expect(await clockAhead()).toBe(0);
});

it("is not taken from an answer that came late, or across a jump", async () => {
  await clockCompared(new Date(wall - 2 * HOUR).toUTCString(), wall - 60_000, wall);
  await clockCompared(new Date(wall - 2 * HOUR).toUTCString(), wall + 60_000, wall);
  await clockCompared(null, wall, wall);
  expect(await clockAhead()).toBe(0);
});
