// Pages that show days and times, on a day that stays the same: they look as they were kept.
import type { Browser, Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { FIXED_DAY, planWeek, type House } from "./house";
import { DESK, PHONE, atDesk, fitsAcross, looksAsKept } from "./pages";
import { inAHouse } from "./stage";

let house: House;
let browser: Browser;
let round: any;

inAHouse(
  async (opened, started) => {
    [house, browser] = [opened, started];
    await planWeek(house, { date: FIXED_DAY });
    const rounds = (await house.call("mara", "GET", "/api/known/rounds?limit=100")).value.known.map((row: any) => row.known);
    round = rounds.find((round: any) => round.crew.value === "Crew Fulmar" && round.date.value === FIXED_DAY);
  },
  { forecast: FIXED_DAY },
);

const LOOKS = [
  { name: "desk", size: DESK, language: "en" },
  { name: "desk-arabic", size: DESK, language: "ar" },
  { name: "phone", size: PHONE, language: "en" },
  { name: "phone-arabic", size: PHONE, language: "ar" },
];

/** Goes somewhere and waits until nothing more comes. */
async function at(page: Page, place: string, seen: string): Promise<void> {
  await page.goto(`${house.address}/#/${place}`);
  await page.locator(seen).first().waitFor();
  await page.waitForLoadState("networkidle");
  await page.evaluate(() => document.fonts.ready);
  await page.mouse.move(0, 0);
  await fitsAcross(page);
}

describe.each(LOOKS)("on a day that stays, at $name", ({ name, size, language }) => {
  it("the crew's pages look as kept", async () => {
    const page = await atDesk(browser, house, "idris", { size, language, day: FIXED_DAY });
    await at(page, "crew/round", "a.card.next");
    // the sketch of the way comes with the files of the round
    await page.locator("main svg").first().waitFor();
    await looksAsKept(page, `round-${name}`, { share: 0.03 });
    const site = await page.locator("a.card.next").getAttribute("href");
    await at(page, site!.slice(2), "main h2");
    await looksAsKept(page, `site-${name}`, { share: 0.03 });
    await at(page, `crew/repair/${round.repairs.value[0].repair}`, "#stage");
    await looksAsKept(page, `stage-${name}`, { share: 0.03 });
    await at(page, "crew/queue", "header h1");
    await looksAsKept(page, `queue-${name}`, { share: 0.03 });
    await page.context().close();
  });

  it("the office's pages look as kept", async () => {
    const page = await atDesk(browser, house, "mara", { size, language, day: FIXED_DAY });
    await at(page, "office/today", "main h1");
    await page.getByText("Crew Petrel").first().waitFor();
    await looksAsKept(page, `today-${name}`, { share: 0.03 });
    await at(page, "office/plan", "button.site");
    await looksAsKept(page, `plan-${name}`, { share: 0.03 });
    await at(page, "office/stock", "main h1");
    await looksAsKept(page, `stock-${name}`, { share: 0.03 });
    expect(await page.evaluate(() => document.documentElement.dir)).toBe(language === "ar" ? "rtl" : "ltr");
    await page.context().close();
  });
});
