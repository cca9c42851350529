// A hole of known size measured from a photo as somebody would. It needs no signing in.
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { openApp } from "./app";
import { PHONE, fitsAcross, openBrowser, seriousFindings } from "./pages";
import { choose, tap } from "./photo_taps";
import { roadPhoto } from "./road_photo";

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

const area = async (page: Page): Promise<number> => Number(await page.locator("[data-area]").getAttribute("data-area"));

it("measures a hole from a photo with taps", async () => {
  const page = await browser.newPage({ viewport: PHONE, locale: "en" });
  const photo = roadPhoto();
  await choose(page, photo, `${app.address}/#/guide/measure`);
  await tap(page, photo, photo.corners);
  await page.locator("main .note.good").waitFor();
  expect(await seriousFindings(page)).toEqual([]);
  await page.locator(".way .main").click();
  await tap(page, photo, photo.outline);
  expect(await seriousFindings(page)).toEqual([]);
  await page.locator(".way .main").click();
  const found = await area(page);
  expect(Math.abs(found / photo.areaM2 - 1)).toBeLessThan(0.03);
  expect(await page.locator("[data-area]").innerText()).toContain("±");
  expect(await seriousFindings(page)).toEqual([]);
  await fitsAcross(page);

  // what was tapped is there again when the page was killed; the photo was packed in between
  await page.reload();
  await expect.poll(() => area(page)).toBeCloseTo(found, 3);
  await page.close();
});

it("measures with the keyboard alone", async () => {
  const page = await browser.newPage({ viewport: PHONE, locale: "en" });
  const photo = roadPhoto();
  await choose(page, photo, `${app.address}/#/guide/measure`);
  const add = page.getByRole("button", { name: "Add a point" });
  const moved = async (points: { x: number; y: number }[], name: string): Promise<void> => {
    for (const [index, to] of points.entries()) {
      const point = page.locator(".photo button").nth(index);
      // pressed again where the page, still coming, took the focus away before the key was down
      await expect
        .poll(
          async () => {
            if ((await point.count()) === 0) await add.press("Enter");
            return point.count();
          },
          { interval: 1_000 },
        )
        .toBe(1);
      await expect.poll(() => point.evaluate((button) => button === document.activeElement)).toBe(true);
      expect(await point.getAttribute("aria-label")).toContain(name);
      for (const [side, size, less, more] of [
        ["inset-inline-start", photo.size.width, "ArrowLeft", "ArrowRight"],
        ["inset-block-start", photo.size.height, "ArrowUp", "ArrowDown"],
      ] as const) {
        const share = await point.evaluate((button, side) => Number.parseFloat((button as HTMLElement).style.getPropertyValue(side)) / 100, side);
        const by = Math.round((side === "inset-inline-start" ? to.x : to.y) - share * size);
        const key = by < 0 ? less : more;
        for (let step = 0; step < Math.floor(Math.abs(by) / 20); step++) await page.keyboard.press(`Shift+${key}`);
        for (let step = 0; step < Math.abs(by) % 20; step++) await page.keyboard.press(key);
      }
    }
  };
  await moved(photo.corners, "Corner");
  await page.getByRole("button", { name: "Go on" }).press("Enter");
  await moved(photo.outline, "Point");
  await page.getByRole("button", { name: "Go on" }).press("Enter");
  expect(Math.abs((await area(page)) / photo.areaM2 - 1)).toBeLessThan(0.03);
  await page.close();
});
