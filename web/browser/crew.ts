// What a crew does with its phone, step by step, by what stands on the screen.
import type { Page } from "playwright-core";
import { roadPicture } from "./picture";
import { say } from "./say";

const button = (page: Page, name: string | RegExp) => page.getByRole("button", { name });

/** Ticks whatever there is to tick on the page. */
export async function tickAll(page: Page): Promise<void> {
  for (const box of await page.getByRole("main").getByRole("checkbox").all()) await box.check();
}

/** Puts all devices out in placing order and opens the zone. */
export async function openZone(page: Page): Promise<number> {
  let out = 0;
  const next = page.locator(".actions button.one");
  await next.waitFor();
  while ((await next.count()) > 0) {
    await next.click();
    out += 1;
    if (out > 200) throw new Error("devices without end");
  }
  await page.getByRole("checkbox", { name: say("crew-agreed") }).check();
  await button(page, say("crew-open-zone")).click();
  return out;
}

/** Takes all devices in and closes the zone. */
export async function closeZone(page: Page): Promise<void> {
  const next = page.locator(".actions button.one");
  await next.waitFor();
  while ((await next.count()) > 0) await next.click();
  await button(page, say("crew-close-zone")).click();
  await page.waitForURL(/#\/crew\/site\//);
}

/** Enters a number into a field by its label. */
export async function enter(page: Page, label: string, value: number): Promise<void> {
  const field = page.getByRole("textbox", { name: label, exact: true });
  await field.fill(String(value));
  await field.press("Tab");
}

export async function choose(page: Page, question: string, answer: string): Promise<void> {
  await page.getByRole("group", { name: question }).getByText(answer, { exact: true }).click();
}

export async function photograph(page: Page, seed: number): Promise<void> {
  const before = await page.locator(".photos img").count();
  await page.locator("input[type=file]").setInputFiles({ name: "road.png", mimeType: "image/png", buffer: roadPicture(seed) });
  await page.locator(".photos img").nth(before).waitFor();
}

/** Goes on to the next stage, telling what this one has to tell. */
export async function forward(page: Page): Promise<void> {
  const from = await page.locator("#stage").textContent();
  await page.locator(".actions button.main").click();
  await page.waitForFunction((from) => document.querySelector("#stage")?.textContent !== from || !document.querySelector("#stage"), from);
}
