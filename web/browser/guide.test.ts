// The pocket guide: without signing in, in every look, and on paper.
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { STAGES } from "../src/guide/names";
import { openApp } from "./app";
import { DESK, PHONE, fitsAcross, openBrowser, seriousFindings } from "./pages";

let app: Awaited<ReturnType<typeof openApp>>;
let browser: Browser;

beforeAll(async () => {
  app = await openApp();
  browser = await openBrowser();
});

afterAll(async () => {
  await browser?.close();
  await app?.end();
});

it.each([
  { locale: "en", viewport: PHONE, colorScheme: "light" as const },
  { locale: "ar", viewport: PHONE, colorScheme: "dark" as const },
  { locale: "fr", viewport: DESK, colorScheme: "dark" as const },
])("is read without signing in: $locale, $viewport.width px, $colorScheme", async (look) => {
  const page = await browser.newPage({ ...look, reducedMotion: "reduce" });
  await page.goto(`${app.address}/#/guide`);
  await page.locator("ol.all > li").first().waitFor();
  expect(await page.locator("ol.all > li").count()).toBe(STAGES.length);
  expect(await seriousFindings(page)).toEqual([]);
  await fitsAcross(page);
  // from stage to stage to the last
  await page.locator("ol.all > li a").first().click();
  for (const stage of STAGES) {
    await expect.poll(() => page.url()).toContain(`#/guide/${stage}`);
    await page.locator("main article").waitFor();
    expect(await seriousFindings(page), stage).toEqual([]);
    await fitsAcross(page);
    if (stage !== STAGES.at(-1)) await page.locator("nav .main").click();
  }
  await page.close();
});

it.each(["en", "es", "fr", "pt", "ar"])("is two sides of A4 with four cards each: %s", async (locale) => {
  const page = await browser.newPage({ locale, colorScheme: "dark" });
  await page.goto(`${app.address}/#/guide`);
  await page.locator("ol.all > li").first().waitFor();
  const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
  const sizes = [...pdf.matchAll(/\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/g)].map(([, width, height]) => [Number(width), Number(height)]);
  expect(sizes).toHaveLength(2);
  for (const [width, height] of sizes) {
    // 210 by 297 mm in points
    expect(width).toBeCloseTo(595.3, -1);
    expect(height).toBeCloseTo(841.9, -1);
  }
  // no card is fuller than its place: the last line ends above the foot
  await page.emulateMedia({ media: "print" });
  const over = await page.locator(".card").evaluateAll((cards) =>
    cards.map((card) => card.querySelector(".foot")!.getBoundingClientRect().top - card.querySelector(".source")!.getBoundingClientRect().bottom).filter((room) => room < 0),
  );
  expect(over).toEqual([]);
  await page.close();
});
