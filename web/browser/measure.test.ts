// A hole of known size measured from a photo as somebody would, with taps. It needs no signing in and no signal once the app is there.
import { chromium, type Browser, type Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { openHouse, type House } from "./house";
import { roadPhoto } from "./road_photo";

/** Measures on the page of an app that lies at an address; gives the area shown. */
export async function measureByTaps(page: Page, address: string): Promise<{ areaM2: number; truthM2: number }> {
  const photo = roadPhoto();
  await page.goto(`${address}/#/guide/measure`);
  await page.setInputFiles("input[data-choose]", { name: "road.png", mimeType: "image/png", buffer: photo.file });
  const tap = async (points: { x: number; y: number }[]): Promise<void> => {
    for (const { x, y } of points) {
      const box = (await page.locator(".photo > img").boundingBox())!;
      const scale = box.width / photo.size.width;
      // a finger is a screen pixel off, now to one side, now to the other
      await page.mouse.click(box.x + Math.round(x * scale), box.y + Math.round(y * scale));
    }
  };
  await page.locator(".photo").waitFor();
  await tap(photo.corners);
  await page.locator(".way .main").click();
  await tap(photo.outline);
  await page.locator(".way .main").click();
  return { areaM2: Number(await page.locator("[data-area]").getAttribute("data-area")), truthM2: photo.areaM2 };
}

let house: House | undefined;
let browser: Browser;

beforeAll(async () => {
  // an app that is served already, or a house of its own
  if (!process.env["LENGTHSMAN_APP"]) house = await openHouse(process.env["LENGTHSMAN"]!);
  browser = await chromium.launch({
    executablePath: process.env["CHROMIUM"] ?? "/usr/bin/chromium",
    args: ["--no-sandbox", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
  });
}, 120_000);

afterAll(async () => {
  await browser.close();
  await house?.end();
});

it("measures a hole from a photo with taps", async () => {
  const page = await browser.newPage({ viewport: { width: 360, height: 740 }, locale: "en" });
  const { areaM2, truthM2 } = await measureByTaps(page, house?.address ?? process.env["LENGTHSMAN_APP"]!);
  expect(Math.abs(areaM2 / truthM2 - 1)).toBeLessThan(0.03);
  await expect(page.locator("[data-area]").innerText()).resolves.toContain("±");

  // what was tapped is there again when the page was killed; the photo was packed in between
  await page.reload();
  await expect.poll(async () => Number(await page.locator("[data-area]").getAttribute("data-area"))).toBeCloseTo(areaM2, 3);
  await page.close();
}, 60_000);
