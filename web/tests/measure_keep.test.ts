import "fake-indexeddb/auto";
import { beforeEach, describe, expect, it } from "vitest";
import { becomeDevice } from "../src/lib/session.svelte";
import { database, forgetEverything } from "../src/lib/store/database";
import { dropDraft, keepDraft, readDraft } from "../src/measure/draft";
import { keepWithHole, type MeasureResult } from "../src/measure/result";

const HOLE = "019a0000-0000-7000-8000-000000000001";
const RESULT: MeasureResult = {
  length_mm: 760,
  width_mm: 610,
  depth_mm: 120,
  area_m2: 0.375,
  area_plus_minus_m2: 0.01,
  perimeter_m: 2.27,
  outline: [[0, 0.6], [0.8, 0.6], [0.4, 1.2]],
  doubts: [],
  note: "From a photo",
  photo: new Blob(["picture"], { type: "image/jpeg" }),
};

beforeEach(async () => {
  await forgetEverything();
  await becomeDevice("token", { account: "019a0000-0000-7000-8000-0000000000aa", name: "idris", role: "crew", crew: "Crew Fulmar", device: "phone 3" });
});

describe("what was measured", () => {
  it("is told with the hole and its photo, and the outline stays on the device", async () => {
    await keepWithHole(HOLE, RESULT, "Photo of the hole");
    const told = await database.told.orderBy("order").toArray();
    expect(told.map(({ event }) => event.happened)).toEqual([
      { kind: "hole_measured", hole: HOLE, size: { length_mm: 760, width_mm: 610, depth_mm: 120 }, note: "From a photo" },
      // SHA-256 of "picture", by sha256sum
      expect.objectContaining({ kind: "photo_taken", of: { hole: HOLE }, photo: "2cea274d0bedc39ec4ab6ba9e59ec889e3ed6fb56a1cf088a64d9b383378dc97", note: "Photo of the hole" }),
    ]);
    expect(told.every(({ event, state }) => event.actor === "idris" && event.device === "phone 3" && state === "waiting")).toBe(true);
    expect(await database.photos.count()).toBe(1);
    expect((await database.drafts.get(`measured/${HOLE}`))?.value).toMatchObject({ outline: RESULT.outline, area_m2: 0.375 });
  });

  it("is there again half way, for each hole by itself, and the board is the last one's", async () => {
    const draft = await readDraft(HOLE);
    expect(draft).toMatchObject({ step: "board", lengthM: 1, widthM: 0.5, corners: [] });
    await keepDraft(HOLE, { ...draft, step: "corners", lengthM: 1.2, widthM: 0.6, corners: [{ x: 3, y: 4 }] });
    expect(await readDraft(HOLE)).toMatchObject({ step: "corners", corners: [{ x: 3, y: 4 }] });
    expect(await readDraft(undefined)).toMatchObject({ step: "board", lengthM: 1.2, widthM: 0.6, corners: [] });
    await dropDraft(HOLE);
    expect(await readDraft(HOLE)).toMatchObject({ step: "board", corners: [] });
  });
});
