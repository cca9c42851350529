// Chromium for the tests: pages at a desk and on a phone, findings of the accessibility checker, pictures compared.
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import pixelmatch from "pixelmatch";
import { chromium, type Browser, type BrowserContext, type Page } from "playwright-core";
import { PNG } from "pngjs";
import { expect } from "vitest";
import { PASSWORD, type House } from "./house";

/** No calls home of the browser's own; WebGL and the page drawn in software, as on any machine without a graphics card. */
const ARGUMENTS = ["--no-sandbox", "--disable-background-networking", "--disable-component-update", "--disable-sync", "--enable-unsafe-swiftshader"];

const EXECUTABLE = process.env["CHROMIUM"] ?? "/usr/bin/chromium";

export const DESK = { width: 1440, height: 900 };
export const PHONE = { width: 360, height: 740 };

/** The program under test. */
export function program(): string {
  const path = process.env["LENGTHSMAN"];
  if (!path || !existsSync(path)) throw new Error("LENGTHSMAN names no program; `cargo xtask test` sets it");
  return path;
}

export function openBrowser(): Promise<Browser> {
  return chromium.launch({ executablePath: EXECUTABLE, args: ARGUMENTS });
}

interface Desk {
  language?: string;
  dark?: boolean;
  size?: { width: number; height: number };
  /** The day that it is for the page, whatever day it is. */
  day?: string;
}

/** A page at a desk, signed in; everything that it asks of other hosts is a failure. */
export async function atDesk(browser: Browser, house: House, who: string, { language = "en", dark = false, size = DESK, day }: Desk = {}): Promise<Page> {
  const context = await browser.newContext({
    viewport: size,
    locale: language,
    colorScheme: dark ? "dark" : "light",
    reducedMotion: "reduce",
    // what a service worker asks for can't be changed
    ...(day ? { serviceWorkers: "block" as const, timezoneId: "Atlantic/South_Georgia" } : {}),
  });
  if (day) await fixDay(context, day);
  const page = await context.newPage();
  watch(page, house);
  await page.goto(house.address);
  await page.locator("#name").fill(who);
  await page.locator("#password").fill(PASSWORD);
  await page.locator("button.main").click();
  await page.locator("#name").waitFor({ state: "detached" });
  return page;
}

/** Lets it be eight in the morning of a day: the page's clock stands, and what the server says of its own clock is put back. */
async function fixDay(context: BrowserContext, day: string): Promise<void> {
  const now = `${day}T10:00:00Z`;
  await context.clock.setFixedTime(now);
  await context.route("**/api/**", async (route) => {
    const answer = await route.fetch();
    if (!/json/.test(answer.headers()["content-type"] ?? "")) return route.fulfill({ response: answer });
    const text = await answer.text();
    const body = text.replaceAll(/"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d[.\d]*Z"/g, `"${now}"`).replace(/"today":"[-\d]+"/, `"today":"${day}"`);
    return route.fulfill({ response: answer, body });
  });
}

/** A phone: a browser whose folder outlives its being killed. */
export class Phone {
  private context: BrowserContext | undefined;
  private readonly folder = mkdtempSync(join(tmpdir(), "lengthsman-phone-"));

  constructor(
    private readonly house: House,
    private readonly language = "en",
  ) {}

  /** Starts it, or starts it again; the page is at `place` of the app. */
  async start(place = ""): Promise<Page> {
    this.context ??= await chromium.launchPersistentContext(this.folder, {
      executablePath: EXECUTABLE,
      args: ARGUMENTS,
      viewport: PHONE,
      deviceScaleFactor: 2,
      hasTouch: true,
      isMobile: true,
      locale: this.language,
      reducedMotion: "reduce",
      geolocation: { longitude: -28.4012, latitude: 47.3005, accuracy: 6 },
      permissions: ["geolocation"],
    });
    const page = this.context.pages()[0] ?? (await this.context.newPage());
    watch(page, this.house);
    await page.goto(`${this.house.address}/${place}`);
    return page;
  }

  /** Scans a code: opens its link and names the phone. */
  async enrol(link: string, name: string): Promise<Page> {
    const page = await this.start(new URL(link).hash);
    await page.locator("#name").fill(name);
    await page.locator("button.main").click();
    await page.locator("#name").waitFor({ state: "detached" });
    return page;
  }

  async signal(is: boolean): Promise<void> {
    await this.context!.setOffline(!is);
  }

  /** Ends the browser in the midst of what it does. */
  async kill(): Promise<void> {
    await this.context?.close();
    this.context = undefined;
  }

  async end(): Promise<void> {
    await this.kill();
    rmSync(this.folder, { recursive: true, force: true });
  }
}

/** What a page must never do: ask other hosts, break the content security policy, throw. */
function watch(page: Page, house: House): void {
  if (watched.has(page)) return;
  watched.add(page);
  page.on("close", () => watched.delete(page));
  page.on("request", (request) => {
    const url = new URL(request.url());
    if (/^https?:$/.test(url.protocol) && url.origin !== house.address) faults.push(`asked ${request.url()}`);
  });
  page.on("pageerror", (error) => faults.push(`threw ${error.stack ?? error.message}`));
  page.on("console", (message) => {
    if (message.type() === "error" && /Content Security Policy|Refused to/.test(message.text())) faults.push(message.text());
  });
}

const faults: string[] = [];
const watched = new Set<Page>();

/** For `afterEach`: fails where a page did what it must not; what every page shows after a failure is kept in `browser/seen`. */
export async function noFaults({ task }: { task: { name: string; result?: { state: string } } }): Promise<void> {
  if (task.result?.state === "fail") {
    mkdirSync(SEEN, { recursive: true });
    const name = task.name.replaceAll(/[^a-z]+/gi, "-").slice(0, 40);
    for (const [at, page] of [...watched].entries()) await page.screenshot({ path: join(SEEN, `failed-${name}-${at}.png`) }).catch(() => undefined);
  }
  expect(faults.splice(0)).toEqual([]);
}

/** Findings of the accessibility checker that are serious or worse. */
export async function seriousFindings(page: Page): Promise<string[]> {
  const script = readFileSync(fileURLToPath(new URL("../node_modules/axe-core/axe.min.js", import.meta.url)), "utf8");
  await page.evaluate(script);
  const violations: { id: string; impact: string; nodes: { html: string; failureSummary: string }[] }[] = await page.evaluate(
    async () => (await (globalThis as any).axe.run(document, { resultTypes: ["violations"] })).violations,
  );
  return violations
    .filter(({ impact }) => impact === "serious" || impact === "critical")
    .map(({ id, nodes }) => `${id}: ${nodes.map((node) => `${node.html} ${node.failureSummary}`).join("; ")}`);
}

/** No part of a page is wider than its window. */
export async function fitsAcross(page: Page): Promise<void> {
  expect(await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth), page.url()).toBeLessThanOrEqual(0);
}

const PICTURES = fileURLToPath(new URL("./pictures/", import.meta.url));
const SEEN = fileURLToPath(new URL("./seen/", import.meta.url));

/**
 * Compares what is seen with the kept picture; `KEEP_PICTURES=1` keeps it. Letters come with the app, but other machines smooth them a
 * little otherwise, so that a share of the pixels may differ.
 */
export async function looksAsKept(page: Page, name: string, { share = 0.02, mask = [] as string[] } = {}): Promise<void> {
  const png = await page.screenshot({ animations: "disabled", caret: "hide", mask: mask.map((selector) => page.locator(selector)), scale: "css" });
  mkdirSync(SEEN, { recursive: true });
  writeFileSync(join(SEEN, `${name}.png`), png);
  const kept = join(PICTURES, `${name}.png`);
  if (process.env["KEEP_PICTURES"]) {
    mkdirSync(PICTURES, { recursive: true });
    writeFileSync(kept, png);
    return;
  }
  expect(existsSync(kept), `${kept} is kept`).toBe(true);
  const [was, is] = [PNG.sync.read(readFileSync(kept)), PNG.sync.read(png)];
  expect([is.width, is.height], name).toEqual([was.width, was.height]);
  const differing = pixelmatch(was.data, is.data, undefined, is.width, is.height, { threshold: 0.2 });
  expect(differing / (is.width * is.height), `${name}: see browser/seen/${name}.png`).toBeLessThan(share);
}
