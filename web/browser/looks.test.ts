// Every page in every look: nothing wider than its window, nothing that keeps people out, and what stays the same looks as it was kept.
import type { Browser, Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { planWeek, type House } from "./house";
import { DESK, PHONE, atDesk, fitsAcross, looksAsKept, seriousFindings } from "./pages";
import { inAHouse } from "./stage";

let house: House;
let browser: Browser;

inAHouse(async (opened, started) => {
  [house, browser] = [opened, started];
  await planWeek(house);
});

/** Pages of the office; those that show days and times are compared with pictures in `days.test.ts`. */
const OFFICE = [
  { path: "today" },
  { path: "plan" },
  { path: "record" },
  { path: "record/holes" },
  { path: "record/rounds" },
  { path: "stock" },
  { path: "lasting/curves" },
  { path: "lasting/month" },
  { path: "people" },
  { path: "exchange" },
];
const CREW = [{ path: "round" }, { path: "new-hole" }, { path: "nearby" }, { path: "queue" }];

const LOOKS = [
  { name: "desk", size: DESK, language: "en", dark: false },
  { name: "desk-dark", size: DESK, language: "es", dark: true },
  { name: "phone", size: PHONE, language: "fr", dark: false },
  { name: "phone-arabic", size: PHONE, language: "ar", dark: true },
];

async function look(page: Page, places: { path: string }[], part: string): Promise<void> {
  for (const { path } of places) {
    await page.goto(`${house.address}/#/${part}/${path}`);
    await page.locator("main h1, main h2, header h1").first().waitFor();
    await page.waitForLoadState("networkidle");
    await fitsAcross(page);
    expect(await seriousFindings(page), `${part}/${path}`).toEqual([]);
  }
}

describe.each(LOOKS)("at $name", ({ name, size, language, dark }) => {
  it("shows the door", async () => {
    const context = await browser.newContext({ viewport: size, locale: language, colorScheme: dark ? "dark" : "light", reducedMotion: "reduce" });
    const page = await context.newPage();
    await page.goto(house.address);
    await page.locator("#name").waitFor();
    await page.evaluate(() => document.fonts.ready);
    expect(await page.evaluate(() => document.documentElement.dir)).toBe(language === "ar" ? "rtl" : "ltr");
    expect(await seriousFindings(page)).toEqual([]);
    await looksAsKept(page, `door-${name}`);
    await context.close();
  });

  it("shows the office", async () => {
    const page = await atDesk(browser, house, "mara", { size, language, dark });
    await look(page, OFFICE, "office");
    await page.goto(`${house.address}/#/office/people`);
    await page.locator("td, th").filter({ hasText: "idris" }).first().waitFor();
    await page.waitForLoadState("networkidle");
    await looksAsKept(page, `people-${name}`, { share: 0.03 });
    await page.context().close();
  });

  it("shows the crew's pages", async () => {
    const page = await atDesk(browser, house, "idris", { size, language, dark });
    await look(page, CREW, "crew");
    await page.goto(`${house.address}/#/crew/new-hole`);
    await page.locator("header h1").waitFor();
    await looksAsKept(page, `new-hole-${name}`, { share: 0.03 });
    await page.context().close();
  });
});
