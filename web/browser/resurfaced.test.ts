// A stretch of road got a new surface: told in the office, on the map and by typing, seen in the record, put right.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { today, type House } from "./house";
import { DESK, PHONE, atDesk, fitsAcross, seriousFindings } from "./pages";
import { say } from "./say";
import { inAHouse } from "./stage";

let house: House;
let browser: Browser;
/** A stretch of the demo's roads with a hole on it. */
let road: { name: string; from: [number, number]; to: [number, number]; hole: string };

inAHouse(async (opened, started) => {
  [house, browser] = [opened, started];
  road = await stretchWithHole();
});

async function stretchWithHole(): Promise<typeof road> {
  const roads = JSON.parse(readFileSync(join(house.folder, "roads.geojson"), "utf8")).features;
  const { known } = (await house.call("pell", "GET", `/api/known/holes/${house.holes.get("H018")}`)).value;
  const { lon, lat } = known.position.value;
  let best = { far: Infinity, line: [] as [number, number][], at: 0, name: "" };
  for (const { geometry, properties } of roads) {
    (geometry.coordinates as [number, number][]).forEach(([x, y], at, line) => {
      const far = Math.hypot(x - lon, y - lat);
      if (far < best.far) best = { far, line, at, name: [properties.ref, properties.name].filter(Boolean).join(" ") };
    });
  }
  const { line, at, name } = best;
  return { name, from: line[Math.max(0, at - 4)]!, to: line[Math.min(line.length - 1, at + 4)]!, hole: known.hole };
}

const group = (page: Page, field: string) => page.getByRole("group", { name: say(`office-field-${field}`), exact: true });
async function type(page: Page, field: "from" | "to", [lon, lat]: [number, number]): Promise<void> {
  await group(page, field).getByLabel(say("office-field-lat")).fill(String(lat));
  await group(page, field).getByLabel(say("office-field-lon")).fill(String(lon));
}
/** What the page's database has of a half-filled form. */
const kept = (page: Page, key: string): Promise<unknown> =>
  page.evaluate(
    (key) =>
      new Promise((done) => {
        const opening = indexedDB.open("lengthsman");
        opening.onsuccess = () => {
          const asked = opening.result.transaction("drafts").objectStore("drafts").get(key);
          asked.onsuccess = () => done(asked.result?.value);
          opening.result.close();
        };
      }),
    key,
  );
const known = async (): Promise<any[]> => (await house.call("pell", "GET", "/api/known/resurfacings")).value.known.map((row: any) => row.known);

describe("a new surface", () => {
  it("is told with the keyboard, with the holes that are gone with it", async () => {
    const desk = await atDesk(browser, house, "pell");
    await desk.goto(`${house.address}/#/office/record/resurfacings`);
    await desk.getByRole("link", { name: say("office-resurface") }).click();
    const tell = desk.getByRole("button", { name: say("office-resurface-tell") });
    await type(desk, "from", road.from);
    await desk.getByLabel(say("office-field-work")).selectOption("reseal");
    await desk.getByLabel(say("office-field-date"), { exact: true }).fill(today());
    // half-filled it stays over a reload, and says what is missing
    await expect.poll(() => kept(desk, "office/resurfaced")).toMatchObject({ date: today() });
    await desk.reload();
    await tell.click();
    await desk.getByText(say("office-resurface-fault-to")).waitFor();
    await type(desk, "to", road.to);
    await desk.getByLabel(say("office-road"), { exact: true }).fill(road.name);
    await desk.getByRole("checkbox", { name: /H018/ }).check();
    await tell.click();
    await desk.getByText(say("office-told-sent")).waitFor();
    const [one, ...more] = await known();
    expect(more).toEqual([]);
    expect([one.work.value, one.date.value, one.road.value, one.side, one.holes]).toEqual(["reseal", today(), road.name, null, [road.hole]]);
    expect([one.from.value.lon, one.from.value.lat]).toEqual([expect.closeTo(road.from[0], 6), expect.closeTo(road.from[1], 6)]);
    const hole = (await house.call("pell", "GET", `/api/known/holes/${road.hole}`)).value.known;
    expect([hole.state, hole.resurfaced.value]).toEqual(["resurfaced", one.resurfacing]);
    // the form is empty again
    expect(await group(desk, "from").getByLabel(say("office-field-lat")).inputValue()).toBe("");
    await desk.context().close();
  });

  it("stands in the record and with its hole, and is put right with a reason", async () => {
    const desk = await atDesk(browser, house, "pell");
    await desk.goto(`${house.address}/#/office/record/holes/${road.hole}`);
    await desk.getByText(say("office-hole-resurfaced")).first().waitFor();
    await desk.goto(`${house.address}/#/office/record/resurfacings`);
    await desk.getByRole("rowheader", { name: road.name }).getByRole("link").click();
    await desk.getByRole("button", { name: say("office-put-right") }).click();
    await desk.getByLabel(say("office-field-side")).selectOption("right");
    await desk.getByLabel(say("office-field-to-of", { what: say("office-field-lat") })).fill("99x");
    await desk.getByLabel(say("office-why"), { exact: true }).fill("only the right side was done");
    await desk.getByRole("button", { name: say("office-correct"), exact: true }).click();
    await desk.getByRole("alert").waitFor();
    await desk.getByLabel(say("office-field-to-of", { what: say("office-field-lat") })).fill(String(road.to[1]));
    await desk.getByRole("button", { name: say("office-correct"), exact: true }).click();
    await expect.poll(async () => (await known())[0].side?.value).toBe("right");
    await desk.getByText("only the right side was done").waitFor();
    expect(await seriousFindings(desk)).toEqual([]);
    await desk.context().close();
  });

  it("takes its ends and the road's name from the map, and nothing beside a road", async () => {
    const desk = await atDesk(browser, house, "mara");
    await desk.goto(`${house.address}/#/office/map/resurface`);
    const canvas = desk.locator("canvas.maplibregl-canvas");
    await canvas.waitFor({ timeout: 60_000 });
    await desk.waitForLoadState("networkidle");
    const box = (await canvas.boundingBox())!;
    const lat = (field: string) => group(desk, field).getByLabel(say("office-field-lat")).inputValue();
    await desk.mouse.click(box.x + 60, box.y + box.height - 80);
    await desk.getByText(say("office-resurface-no-road")).waitFor();
    expect(await lat("from")).toBe("");
    for (const [field, across] of [["from", 0.4], ["to", 0.6]] as const) {
      // down a line until it crosses a road
      for (let down = 0.2; down < 0.9 && (await lat(field)) === ""; down += 0.01) await desk.mouse.click(box.x + box.width * across, box.y + box.height * down);
      expect(Number(await lat(field))).toBeGreaterThan(47);
    }
    expect((await desk.getByLabel(say("office-road"), { exact: true }).inputValue()).length).toBeGreaterThan(3);
    await desk.context().close();
  });

  it("is told by nobody who does not plan", async () => {
    const desk = await atDesk(browser, house, "sorrel");
    await desk.goto(`${house.address}/#/office/record/resurfacings`);
    await desk.getByRole("rowheader", { name: road.name }).waitFor();
    expect(await desk.getByRole("link", { name: say("office-resurface") }).count()).toBe(0);
    await desk.goto(`${house.address}/#/office/map/resurface`);
    await desk.locator("canvas.maplibregl-canvas").waitFor({ timeout: 60_000 });
    expect(await desk.getByRole("button", { name: say("office-resurface-tell") }).count()).toBe(0);
    await desk.context().close();
  });
});

it.each([
  { name: "desk", size: DESK, language: "es", dark: true },
  { name: "phone", size: PHONE, language: "fr", dark: false },
  { name: "phone from right to left", size: PHONE, language: "ar", dark: true },
])("fits, and keeps nobody out: at a $name", async ({ size, language, dark }) => {
  const page = await atDesk(browser, house, "mara", { size, language, dark });
  const [{ resurfacing }] = await known();
  for (const path of ["map/resurface", `map/resurfacing/${resurfacing}`, "record/resurfacings", `record/resurfacings/${resurfacing}`]) {
    await page.goto(`${house.address}/#/office/${path}`);
    await page.locator("main section.sheet, main table").first().waitFor();
    await page.waitForLoadState("networkidle");
    await fitsAcross(page);
    expect(await seriousFindings(page), path).toEqual([]);
  }
  await page.context().close();
});
