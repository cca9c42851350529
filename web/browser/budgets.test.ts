// What the app weighs and how quick it is. Weight is held; times are measured and printed, and kept in bench/README.md.
import type { Browser, Page } from "playwright-core";
import { expect, it } from "vitest";
import { planWeek, type House } from "./house";
import { DESK, Phone, atDesk } from "./pages";
import { inAHouse } from "./stage";

/** Bytes over the wire until the first screen, the map aside. */
const FIRST_LOAD = 300_000;
const HOLES = 10_000;
/** Frames a second that the map is meant to have, and those that it has on a machine busy with much else: fewer, and something is wrong. */
const SMOOTH = 30;
const LEAST = { dragged: 15, zoomed: 8 };

let house: House;
let browser: Browser;

inAHouse(async (opened, started) => {
  [house, browser] = [opened, started];
  await planWeek(house);
});

/** Counts the bytes that come over the wire as the server sends them. */
async function countBytes(page: Page): Promise<() => number> {
  const session = await page.context().newCDPSession(page);
  await session.send("Network.enable");
  let bytes = 0;
  session.on("Network.loadingFinished", (event) => (bytes += event.encodedDataLength));
  return () => bytes;
}

it("loads less than 300 kB before the map, for the office and for the crew", async () => {
  for (const [who, part] of [["mara", "office"], ["idris", "crew"]] as const) {
    const context = await browser.newContext({ viewport: DESK, serviceWorkers: "block" });
    const page = await context.newPage();
    const bytes = await countBytes(page);
    await page.goto(house.address);
    await page.locator("#name").fill(who);
    await page.locator("#password").fill("a long password");
    await page.locator("button.main").click();
    await page.waitForURL(new RegExp(`#/${part}`));
    await page.locator("main h1, header h1").first().waitFor();
    await page.waitForLoadState("networkidle");
    const scripts: number = await page.evaluate(() =>
      performance.getEntriesByType("resource").filter((entry) => !entry.name.includes("/api/")).reduce((sum, entry) => sum + (entry as PerformanceResourceTiming).encodedBodySize, 0),
    );
    console.log(`${part}: ${(scripts / 1000).toFixed(0)} kB of the app, ${(bytes() / 1000).toFixed(0)} kB with what is known`);
    expect(scripts).toBeLessThan(FIRST_LOAD);
    await context.close();
  }
});

it("opens the crew's screen without signal on a slow phone", async () => {
  const phone = new Phone(house);
  const me = (await house.call("idris", "GET", "/api/me")).value;
  const offer = (await house.call("idris", "POST", "/api/enrolments", { account: me.account })).value;
  const page = await phone.enrol(offer.link, "slow phone");
  await page.locator("a.card.next").waitFor({ timeout: 60_000 });
  await page.evaluate(async () => void (await navigator.serviceWorker.ready));
  await page.waitForLoadState("networkidle");
  await phone.signal(false);
  // told by the page itself: what drives it is slowed as well
  await page.addInitScript(() => {
    const look = (): void => {
      if (document.querySelector("a.card.next")) setTimeout(() => performance.mark("next site"));
      else requestAnimationFrame(look);
    };
    requestAnimationFrame(look);
  });
  const session = await page.context().newCDPSession(page);
  await session.send("Emulation.setCPUThrottlingRate", { rate: 4 });
  const times: number[] = [];
  for (let turn = 0; turn < 5; turn++) {
    await page.reload({ waitUntil: "commit" });
    await page.locator("a.card.next").waitFor();
    await page.waitForFunction(() => performance.getEntriesByName("next site").length > 0);
    times.push(await page.evaluate(() => performance.getEntriesByName("next site")[0]!.startTime));
  }
  console.log(`crew's screen without signal, processor slowed 4 times, one start after the other: ${times.map((time) => time.toFixed(0)).join(", ")} ms until the next site can be pressed`);
  // it opens at all, from what the phone has
  expect(times).toHaveLength(5);
  await phone.end();
});

it("can be put on a phone's home screen", async () => {
  const context = await browser.newContext({ viewport: { width: 360, height: 740 } });
  const page = await context.newPage();
  await page.goto(house.address);
  await page.evaluate(async () => void (await navigator.serviceWorker.ready));
  const session = await context.newCDPSession(page);
  const { installabilityErrors } = await session.send("Page.getInstallabilityErrors");
  // a private window, as tests have, never offers it
  expect(installabilityErrors.map((error) => error.errorId).filter((id) => id !== "in-incognito")).toEqual([]);
  const { errors } = await session.send("Page.getAppManifest");
  expect(errors).toEqual([]);
  await context.close();
});

it("draws 10,000 holes on the map", async () => {
  const rows = ["case id,opened,lon,lat,length,width,depth"];
  for (let row = 0; row < HOLES; row++) {
    const lon = -28.52 + 0.0024 * (row % 100);
    const lat = 47.235 + 0.0017 * Math.floor(row / 100);
    rows.push(`${row},2026-03-01T10:00:00Z,${lon.toFixed(5)},${lat.toFixed(5)},0.5 m,0.4 m,80 mm`);
  }
  const cookie = house.cookie("mara");
  const sent = await fetch(`${house.address}/api/imports`, { method: "POST", headers: { "x-lengthsman": "1", "content-type": "text/csv", cookie }, body: rows.join("\n") });
  const path = sent.headers.get("location")!;
  await expect.poll(async () => (await house.call("mara", "GET", path)).value.state, { timeout: 90_000, interval: 500 }).toBe("done");
  const page = await atDesk(browser, house, "mara");
  await page.goto(`${house.address}/#/office/map`);
  await page.locator("canvas.maplibregl-canvas").waitFor({ timeout: 60_000 });
  await page.waitForLoadState("networkidle");
  await page.waitForTimeout(3_000);
  const box = (await page.locator("canvas.maplibregl-canvas").boundingBox())!;
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  const dragged = await framesWhile(page, async () => {
    await page.mouse.move(x, y);
    await page.mouse.down();
    // as often as a mouse tells where it is
    for (let at = 0; at < 240; at++) {
      await page.mouse.move(x + 120 * Math.sin(at / 24), y + 80 * Math.cos(at / 24));
      await page.waitForTimeout(10);
    }
    await page.mouse.up();
  });
  const zoomed = await framesWhile(page, async () => {
    for (let at = 0; at < 60; at++) {
      await page.mouse.wheel(0, at < 30 ? -120 : 120);
      await page.waitForTimeout(60);
    }
  });
  console.log(`map with ${HOLES} holes, drawn in software: ${dragged.toFixed(1)} frames a second dragged about, ${zoomed.toFixed(1)} zoomed in and out; wanted are ${SMOOTH}`);
  expect(dragged).toBeGreaterThan(LEAST.dragged);
  expect(zoomed).toBeGreaterThan(LEAST.zoomed);
  // drawn with fewer dots only as long as it moves
  await expect.poll(() => page.locator("canvas.maplibregl-canvas").evaluate((canvas) => (canvas as HTMLCanvasElement).width / canvas.clientWidth)).toBeCloseTo(1, 2);
  await page.context().close();
});

/** Frames a second that the page draws while something is done. */
async function framesWhile(page: Page, work: () => Promise<void>): Promise<number> {
  await page.evaluate(() => {
    const counted = { frames: 0, begin: performance.now(), runs: true };
    (globalThis as any).counted = counted;
    const step = (): void => {
      counted.frames += 1;
      if (counted.runs) requestAnimationFrame(step);
    };
    requestAnimationFrame(step);
  });
  await work();
  return page.evaluate(() => {
    const { counted } = globalThis as any;
    counted.runs = false;
    return (counted.frames / (performance.now() - counted.begin)) * 1000;
  });
}
