// What somebody taps in a photo of a hole.
import type { Page } from "playwright-core";
import type { RoadPhoto } from "./road_photo";
import { say } from "./say";

/** Chooses the photo, and stands before its corners; where a page is given, there. */
export async function choose(page: Page, photo: RoadPhoto, at?: string): Promise<void> {
  if (at) await page.goto(at);
  await page.setInputFiles("input[data-choose]", { name: "road.png", mimeType: "image/png", buffer: photo.file });
  await page.locator(".photo").waitFor();
}

/** Taps points of the photo. */
export async function tap(page: Page, photo: RoadPhoto, points: { x: number; y: number }[]): Promise<void> {
  for (const { x, y } of points) {
    const box = (await page.locator(".photo > img").boundingBox())!;
    const scale = box.width / photo.size.width;
    // to the screen's pixel, as a finger
    await page.mouse.click(box.x + Math.round(x * scale), box.y + Math.round(y * scale));
  }
}

/** Measures all of it: corners, outline, depth in millimetres. */
export async function measureAll(page: Page, photo: RoadPhoto, depthMm: number): Promise<void> {
  await choose(page, photo);
  await tap(page, photo, photo.corners);
  await page.locator("main .note.good").waitFor();
  await page.locator(".way .main").click();
  await tap(page, photo, photo.outline);
  await page.locator(".way .main").click();
  await page.getByLabel(say("measure-depth", { unit: "mm" })).fill(String(depthMm));
  await page.keyboard.press("Tab");
}
