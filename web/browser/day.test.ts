// A day of the district: planned and printed in the office, worked on the road without signal, seen again in the office and in the stock.
import jsqr from "jsqr";
import type { Browser, Page } from "playwright-core";
import { PNG } from "pngjs";
import { afterAll, describe, expect, it } from "vitest";
import { choose, closeZone, enter, forward, openZone, photograph, tickAll } from "./crew";
import { today, type House } from "./house";
import { Phone, atDesk, fitsAcross, seriousFindings } from "./pages";
import { say } from "./say";
import { inAHouse } from "./stage";

let house: House;
let browser: Browser;
let phone: Phone;
let second: Phone;
/** The round, site and repair that the phones work on. */
let round: any;
let zone: string;
let repair: string;
const BASE = "crushed rock 0/20, Gannet pit";

inAHouse(async (opened, started) => {
  [house, browser] = [opened, started];
  phone = new Phone(house);
  second = new Phone(house);
});
afterAll(async () => {
  await phone?.end();
  await second?.end();
});

/** Reads the code on a desk's screen as a phone's camera would. */
async function scan(desk: Page, person: string): Promise<string> {
  await desk.goto(`${house.address}/#/office/people`);
  await desk.locator("#enrol-who").selectOption({ label: person });
  await desk.getByRole("button", { name: say("office-show-code") }).click();
  const picture = desk.getByRole("img", { name: say("office-code-alt", { name: person }) });
  await picture.waitFor();
  const png = PNG.sync.read(await picture.screenshot());
  const read = jsqr(new Uint8ClampedArray(png.data), png.width, png.height);
  expect(read?.data).toContain("#device=");
  return read!.data;
}

/** What the server knows of the repair. */
async function known(): Promise<any> {
  return (await house.call("mara", "GET", `/api/known/repairs/${repair}`)).value.known;
}

/** Waits until everything told on a phone is with the server. */
async function sent(page: Page): Promise<void> {
  await page.goto(`${house.address}/#/crew/queue`);
  await page.getByRole("button", { name: say("crew-sync-now") }).click();
  await page.getByText(say("crew-badge-sent"), { exact: true }).first().waitFor();
}

describe("a day of the district", () => {
  it("is planned at a desk, taken as the crews' rounds, and printed", async () => {
    const desk = await atDesk(browser, house, "pell");
    await desk.goto(`${house.address}/#/office/plan`);
    await desk.locator("#plan-date").fill(today());
    await desk.locator("#plan-days").fill("2");
    await desk.getByRole("button", { name: say("office-ask-plan") }).click();
    await desk.getByRole("button", { name: say("office-take") }).click({ timeout: 90_000 });
    await desk.getByText(say("office-is-taken")).waitFor();
    const rounds = (await house.call("pell", "GET", `/api/known/rounds?state=${today()}`)).value.known;
    expect(rounds.length).toBe(2);
    round = rounds.map((row: any) => row.known).find((one: any) => one.crew.value === "Crew Fulmar");
    const files = (await house.call("pell", "GET", `/api/rounds/${round.round}/files`)).value;
    const pack = files.find((file: any) => file.name === "job-pack.pdf");
    expect(pack.bytes).toBeGreaterThan(50_000);
    await desk.getByText(say("office-loads-packs")).waitFor();
    await desk.locator("details").filter({ hasText: "Crew Fulmar" }).first().locator("summary").click();
    const print = desk.getByRole("link", { name: say("office-print-pack") }).first();
    const href = (await print.getAttribute("href"))!;
    const answer = await desk.request.get(house.address + href);
    expect([answer.status(), answer.headers()["content-type"]]).toEqual([200, "application/pdf"]);
    expect((await answer.body()).subarray(0, 5).toString()).toBe("%PDF-");
    expect(await seriousFindings(desk)).toEqual([]);
    await desk.context().close();
  });

  it("can be changed by hand with the cost shown before it is accepted", async () => {
    const desk = await atDesk(browser, house, "pell");
    await desk.goto(`${house.address}/#/office/plan`);
    const sites = desk.locator("button.site");
    await sites.first().waitFor();
    // the first site, dragged onto the line of the other crew on the same day
    const lines = desk.locator(".line[data-drop]");
    const own = await sites.first().evaluate((site) => site.closest("[data-drop]")!.getAttribute("data-drop"));
    const others = await lines.evaluateAll((lines) => lines.map((line) => line.getAttribute("data-drop")));
    const from = (await sites.first().boundingBox())!;
    const to = { box: (await lines.nth(others.findIndex((other) => other !== own)).boundingBox())! };
    await desk.mouse.move(from.x + 20, from.y + from.height / 2);
    await desk.mouse.down();
    await desk.mouse.move(from.x + 40, from.y + from.height, { steps: 4 });
    await desk.mouse.move(to.box.x + 300, to.box.y + to.box.height / 2, { steps: 8 });
    await desk.mouse.up();
    await desk.getByText(say("office-change-noted", { count: 1 })).waitFor();
    await desk.getByRole("button", { name: say("office-what-cost") }).click();
    const verdict = desk.locator(".verdict");
    await verdict.waitFor({ timeout: 90_000 });
    expect(await verdict.textContent()).toMatch(/\d/);
    // seen before it is accepted: the rounds are still those of the first plan
    expect((await house.call("pell", "GET", `/api/known/rounds/${round.round}`)).value.known.repairs).toEqual(round.repairs);
    await desk.getByRole("button", { name: say("office-discard") }).click();
    await desk.locator(".verdict").waitFor({ state: "detached" });
    await desk.context().close();
  });

  it("makes a phone known by the code on the screen", async () => {
    const desk = await atDesk(browser, house, "mara");
    const page = await phone.enrol(await scan(desk, "idris"), "phone of the truck");
    await page.getByText("Crew Fulmar").first().waitFor();
    // drawings and lists are on the phone before it goes out of reach
    await page.getByText(say("crew-suffices", { chance: "" }).split("\u2068")[0]!.trim()).first().waitFor({ timeout: 30_000 });
    await fitsAcross(page);
    expect(await seriousFindings(page)).toEqual([]);
    await desk.context().close();
  });

  it("is worked without signal: devices, a whole repair with photos, the browser killed in mid-stage", async () => {
    let page = await phone.start("#/crew/round");
    // the service worker has the app by now
    await page.evaluate(async () => void (await navigator.serviceWorker.ready));
    await phone.signal(false);
    await page.reload();
    await page.locator("a.card.next").click();
    zone = new URL(page.url()).hash.split("/").at(-1)!;
    await fitsAcross(page);
    await page.getByRole("button", { name: say("crew-devices-out") }).click();
    const out = await openZone(page);
    expect(out).toBeGreaterThan(5);
    await page.getByRole("button", { name: say("crew-next-hole") }).click();
    await page.locator("#stage").waitFor();
    repair = new URL(page.url()).hash.split("/").at(-1)!;
    await tickAll(page);
    await photograph(page, 1);
    await forward(page); // cut
    await tickAll(page);
    await enter(page, say("crew-depth-n", { n: 1 }), 121);
    await enter(page, say("crew-depth-n", { n: 2 }), 127);

    await phone.kill();
    await phone.start();
    await phone.signal(false);
    page = await phone.start();
    await page.locator("#stage").waitFor();
    expect(await page.locator("#stage").textContent()).toContain(say("crew-stage-cut"));
    expect(await page.getByRole("textbox", { name: say("crew-depth-n", { n: 2 }), exact: true }).inputValue()).toBe("127");

    await choose(page, say("crew-bottom-firm"), say("crew-yes"));
    await choose(page, say("crew-sides-upright"), say("crew-yes"));
    await choose(page, say("crew-wetness"), say("crew-wetness-damp"));
    await choose(page, say("crew-drainage"), say("crew-drainage-ditch-blocked"));
    await enter(page, say("crew-spoil"), 2);
    await photograph(page, 2);
    await forward(page);
    for (let layer = 1; (await page.locator("#stage").textContent())!.includes(say("crew-stage-fill")); layer++) {
      await tickAll(page);
      if (layer === 1) await page.getByLabel(say("crew-base-kind")).fill(BASE);
      // told before: one press
      else await page.getByRole("button", { name: BASE }).click();
      await enter(page, say("crew-base-used"), 4);
      await enter(page, say("crew-water-used"), 1);
      await forward(page);
      await tickAll(page);
      await enter(page, say("crew-passes-vibrating"), 6);
      await enter(page, say("crew-layer-thickness"), 62);
      await page.locator(".actions button.main").click();
      await page.waitForTimeout(300);
      expect(layer).toBeLessThan(5);
    }
    await tickAll(page);
    await choose(page, say("crew-surface-dry"), say("crew-yes"));
    await enter(page, say("crew-binder-used"), 2);
    await enter(page, say("crew-stone-used"), 1);
    await enter(page, say("crew-crown"), 6);
    await choose(page, say("crew-weather"), say("crew-weather-damp"));
    await enter(page, say("crew-air-temperature"), -2);
    await photograph(page, 3);
    await forward(page);
    await tickAll(page);
    await forward(page);
    await page.getByRole("button", { name: say("crew-sign-now", { name: "idris" }) }).click();
    await page.getByText(/idris/).first().waitFor();
    // nothing of it has reached the office
    expect((await known()).state).toBe("planned");
    await page.goto(`${house.address}/#/crew/queue`);
    await page.getByText(say("crew-told-waiting")).first().waitFor();
  });

  it("is seen in the office and in the stock once there is signal", async () => {
    const page = await phone.start("#/crew/queue");
    await phone.signal(true);
    await sent(page);
    const repaired = await known();
    expect(repaired.state).toBe("open");
    expect(repaired.depths_mm.value).toEqual([121, 127]);
    expect(repaired.crown_mm.value).toBe(6);
    expect([repaired.drainage.value, repaired.weather.value, repaired.air_temperature_c.value]).toEqual(["ditch_blocked", "damp", -2]);
    expect(repaired.layers.every(({ base }: any) => base.value === BASE)).toBe(true);
    expect(repaired.signatures[0].by.actor).toBe("idris");
    expect(repaired.photos.length).toBe(3);
    const row = (await house.call("mara", "GET", `/api/known/repairs/${repair}`)).value;
    expect(row.photo_files.length).toBe(3);

    const desk = await atDesk(browser, house, "mara");
    await desk.goto(`${house.address}/#/office/record/repairs/${repair}`);
    await desk.getByText(say("office-planned-actual")).waitFor();
    expect(await seriousFindings(desk)).toEqual([]);
    await desk.goto(`${house.address}/#/office/stock`);
    await desk.getByRole("table").first().waitFor();
    const books = (await house.call("sorrel", "GET", `/api/books?from=${today(-1)}&to=${today(1)}`)).value;
    expect(JSON.stringify(books)).toContain("Crew Fulmar");
    await desk.context().close();
  });

  it("is put right in the office: half-filled over a reload, with both values seen, and taken back", async () => {
    const desk = await atDesk(browser, house, "mara");
    await desk.goto(`${house.address}/#/office/record/repairs/${repair}`);
    const history = desk.getByRole("region", { name: say("office-history") });
    const sealed = history.getByRole("listitem").filter({ hasText: say("office-event-sealed") });
    await sealed.getByRole("button", { name: say("office-put-right") }).click();
    const crown = sealed.getByLabel(new RegExp(say("office-field-crown_mm")));
    expect(await crown.inputValue()).toBe("6");
    await crown.fill("8");
    await sealed.getByLabel(say("office-why")).fill("read from the wrong end");
    await desk.reload();
    await crown.waitFor();
    expect([await crown.inputValue(), await sealed.getByLabel(say("office-why")).inputValue()]).toEqual(["8", "read from the wrong end"]);
    expect(await seriousFindings(desk)).toEqual([]);
    await fitsAcross(desk);
    await sealed.getByRole("button", { name: say("office-correct") }).click();
    await sealed.getByText(say("office-was-now", { field: say("office-field-crown_mm"), was: "6 mm", now: "8 mm" })).waitFor();
    await sealed.getByText(say("office-counts"), { exact: true }).waitFor();
    expect((await known()).crown_mm.value).toBe(8);
    // the form does not come again
    await desk.reload();
    await sealed.getByText("read from the wrong end").waitFor();
    expect(await crown.count()).toBe(0);

    await sealed.getByRole("button", { name: say("office-take-back") }).click();
    await sealed.getByLabel(say("office-why")).fill("it was right at first");
    await sealed.getByRole("button", { name: say("office-take-back") }).click();
    await sealed.getByText(say("office-correction-taken-back")).waitFor();
    expect((await known()).crown_mm.value).toBe(6);
    await desk.context().close();
  });

  it("has spoil once though the phone dies right after it is told again, and none once it is taken back", async () => {
    const cut = async (spoil: string): Promise<Page> => {
      const page = await phone.start(`#/crew/repair/${repair}`);
      await page.reload();
      await page.locator(".stages button").nth(2).click();
      const field = page.getByRole("textbox", { name: say("crew-spoil"), exact: true });
      await field.fill(spoil);
      await field.press("Tab");
      const tell = page.getByRole("button", { name: say("crew-tell-cut") });
      await tell.click();
      await page.locator("#stage").filter({ hasText: say("crew-stage-fill") }).waitFor();
      return page;
    };
    /** Amounts of spoil that stand in the record; its last correction counts. */
    const spoil = async (): Promise<(string | undefined)[]> => {
      const events: any[] = (await house.call("mara", "GET", `/api/known/repairs/${repair}/events`)).value.map((one: any) => one.event);
      const moves = events.filter(({ happened }) => happened.kind === "stock_moved");
      return moves.map(({ id, happened }) => {
        const last = events.filter((one) => one.happened.kind === "corrected" && one.happened.event === id).at(-1);
        return last ? last.happened.instead?.amount : happened.amount;
      });
    };
    const first = await spoil();
    expect(first).toEqual([expect.any(String)]);
    await cut("3");
    await phone.kill();
    await sent(await cut("4"));
    const last = await spoil();
    expect(last).toEqual([expect.any(String)]);
    expect(Number(last[0])).toBeCloseTo(Number(first[0]) * 2, 6);
    await sent(await cut(""));
    expect(await spoil()).toEqual([undefined]);
  });

  it("has two phones on one site, and both values where they differ", async () => {
    const desk = await atDesk(browser, house, "mara");
    const other = await second.enrol(await scan(desk, "idris"), "phone in the cab");
    await desk.context().close();
    await other.goto(`${house.address}/#/crew/repair/${repair}`);
    await other.locator("#stage").waitFor();
    await other.locator(".stages button").nth(5).click();
    await enter(other, say("crew-crown"), 9);
    await other.locator(".actions button.main").click();
    await sent(other);
    expect((await known()).crown_mm.otherwise.length).toBe(1);
    const page = await phone.start(`#/crew/repair/${repair}`);
    await page.evaluate(() => window.dispatchEvent(new Event("online")));
    await page.getByText(/phone in the cab/).first().waitFor();
    // the second phone takes the devices in that the first put out
    await other.goto(`${house.address}/#/crew/zone/${zone}`);
    await closeZone(other);
    await sent(other);
    expect((await house.call("mara", "GET", `/api/known/zones/${zone}`)).value.known.closed).toBeTruthy();
  });

  it("says on a phone that was ended what that is, and keeps what it told", async () => {
    const devices = (await house.call("mara", "GET", "/api/devices")).value;
    const cab = devices.find((device: any) => device.name === "phone in the cab");
    await house.call("mara", "DELETE", `/api/devices/${cab.device}`);
    const page = await second.start(`#/crew/repair/${repair}`);
    await page.locator(".stages button").nth(5).click();
    await enter(page, say("crew-crown"), 7);
    await page.locator(".actions button.main").click();
    await page.goto(`${house.address}/#/crew/queue`);
    await page.getByText(say("crew-badge-trouble-queued", { trouble: say("trouble-session"), count: 1 }), { exact: true }).first().waitFor();
    await page.getByText(say("trouble-session-do")).waitFor();
    await page.getByText(say("crew-told-waiting")).first().waitFor();
    await fitsAcross(page);
    expect(await seriousFindings(page)).toEqual([]);
  });
});
