// The crew measures from a photo: the cut comes from the server, with signal at once, without it later.
import type { Browser } from "playwright-core";
import { expect, it } from "vitest";
import { planWeek, today, type House } from "./house";
import { PHONE, Phone, atDesk, fitsAcross, seriousFindings } from "./pages";
import { measureAll } from "./photo_taps";
import { roadPhoto } from "./road_photo";
import { say } from "./say";
import { inAHouse } from "./stage";

let house: House;
let browser: Browser;

inAHouse(async (opened, started) => {
  [house, browser] = [opened, started];
  await planWeek(house);
});

/** What was told of a kind, as the server has it. */
async function told(kind: string): Promise<any[]> {
  const { events } = (await house.call("mara", "GET", "/api/events?limit=1000")).value;
  return events.map((stored: any) => (stored.event ?? stored).happened).filter((happened: any) => happened.kind === kind);
}

it("takes the cut proposed into the request to plan anew", async () => {
  const rounds = (await house.call("mara", "GET", "/api/known/rounds?limit=100")).value.known.map((row: any) => row.known);
  const { repair } = rounds.find((round: any) => round.crew.value === "Crew Fulmar" && round.date.value === today()).repairs.value[0];
  const page = await atDesk(browser, house, "idris", { size: PHONE });
  await page.goto(`${house.address}/#/crew/bigger/${repair}`);
  await page.getByRole("link", { name: say("crew-measure-photo") }).click();
  const photo = roadPhoto();
  await measureAll(page, photo, 150);
  await page.getByRole("heading", { name: say("measure-cut") }).waitFor();
  expect(await seriousFindings(page)).toEqual([]);
  await page.getByRole("button", { name: say("measure-use") }).click();
  await page.waitForURL(/#\/crew\/bigger\//);
  const cut = Number(await page.locator("[data-cut]").getAttribute("data-cut"));
  // around the hole, and not much more
  expect(cut).toBeGreaterThan(photo.areaM2 * 0.97);
  expect(cut).toBeLessThan(photo.areaM2 * 3);
  // the table below is worked out for that area
  const area = new Intl.NumberFormat("en", { maximumFractionDigits: 2 }).format(cut);
  await expect.poll(() => page.locator("main section", { has: page.locator("table") }).innerText()).toContain(area);
  await fitsAcross(page);
  expect(await seriousFindings(page)).toEqual([]);
  await page.getByRole("button", { name: say("crew-ask-replan") }).click();
  await expect.poll(async () => (await told("hole_measured")).map(({ note }) => note)).toEqual([expect.stringContaining("From a photo")]);
  const [{ size }] = await told("hole_measured");
  expect(size.length_mm * size.width_mm).toBeGreaterThanOrEqual(cut * 1e6 - 15_000);
  expect(size.depth_mm).toBe(150);
  await page.context().close();
});

it("keeps the outline without signal, and has the cut proposed once there is some", async () => {
  const phone = new Phone(house);
  const me = (await house.call("idris", "GET", "/api/me")).value;
  const offer = (await house.call("idris", "POST", "/api/enrolments", { account: me.account })).value;
  const page = await phone.enrol(offer.link, "phone that measures");
  // what the measuring page is made of is on the phone
  await page.evaluate(async () => void (await navigator.serviceWorker.ready));
  await page.waitForLoadState("networkidle");
  await page.goto(`${house.address}/#/crew/measure`);
  await page.locator("input[data-choose]").waitFor({ state: "attached" });
  await phone.signal(false);
  await measureAll(page, roadPhoto(), 120);
  await page.getByText(say("measure-cut-no-signal")).waitFor();
  await page.getByRole("button", { name: say("measure-use") }).click();
  await page.waitForURL(/#\/crew\/new-hole/);
  await page.getByText(say("crew-photo-no-signal")).waitFor();
  // also when the browser was closed in between
  await page.reload();
  await page.getByText(say("crew-photo-no-signal")).waitFor();
  expect(await page.locator("[data-cut]").count()).toBe(0);
  await phone.signal(true);
  await page.locator("[data-cut]").waitFor();
  expect(await seriousFindings(page)).toEqual([]);
  await phone.end();
});
