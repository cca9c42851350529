// What lasts: the curves and their table as the server works them out of what was told, by keyboard too, and the month's report.
import type { Browser, Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { today, type House } from "./house";
import { tellLives, type ToldLives } from "./lives";
import { DESK, PHONE, atDesk, fitsAcross, seriousFindings } from "./pages";
import { say } from "./say";
import { inAHouse } from "./stage";

let house: House;
let browser: Browser;
let told: ToldLives;

inAHouse(async (opened, started) => {
  [house, browser] = [opened, started];
  told = await tellLives(house);
});

const row = (page: Page, name: string) => page.getByRole("row").filter({ has: page.getByRole("rowheader", { name, exact: true }) });
/** The month before this one. */
const lastMonth = (): string => new Date(Date.UTC(Number(today().slice(0, 4)), Number(today().slice(5, 7)) - 2, 1)).toISOString().slice(0, 7);

describe("what lasts", () => {
  it("shows each crew's curve, with the figures that were told", async () => {
    const desk = await atDesk(browser, house, "sorrel");
    await desk.getByRole("link", { name: say("office-page-lasting") }).click();
    await desk.getByRole("img", { name: say("lasting-plot-label") }).waitFor();
    for (const crew of ["Crew Fulmar", "Crew Petrel"] as const) {
      expect(told.failures[crew]).toBeGreaterThan(4);
      const cells = await row(desk, crew).getByRole("cell").allTextContents();
      expect(cells.slice(1, 3), crew).toEqual([String(told.repairs[crew]), String(told.failures[crew])]);
      // its name stands at its curve's end
      await desk.locator("svg .label").filter({ hasText: crew }).waitFor();
    }
    expect(await desk.locator("svg .steps").count()).toBe(2);
    await desk.context().close();
  });

  it("is compared by something else, and drawn as asked, with the keyboard alone", async () => {
    const desk = await atDesk(browser, house, "mara");
    await desk.goto(`${house.address}/#/office/lasting/curves/crew`);
    await row(desk, "Crew Petrel").waitFor();
    await desk.locator("#lasting-by").focus();
    await desk.locator("#lasting-by").selectOption("wetness");
    const wet = row(desk, say("office-word-wet"));
    await wet.waitFor();
    expect(await wet.getByRole("cell").nth(1).textContent()).toBe("32");
    expect(await desk.locator("svg .steps").count()).toBe(1);
    // few failures at dry holes: not drawn until asked for, and then thin
    const dry = row(desk, say("office-word-dry"));
    await dry.getByText(say("lasting-too-few")).waitFor();
    const box = dry.getByRole("checkbox");
    await box.focus();
    await desk.keyboard.press("Space");
    expect(await box.isChecked()).toBe(true);
    await desk.locator("svg .few .steps").waitFor();
    expect(await desk.locator("svg .steps").count()).toBe(2);
    // another age: the column says what holds then
    await desk.locator("#lasting-at").focus();
    await desk.keyboard.press("Home");
    await desk.locator("#lasting-unit").selectOption("day");
    expect(await wet.getByRole("cell").nth(6).textContent()).toBe("100%");
    await desk.context().close();
  });

  it("says plainly where there are too few to tell", async () => {
    const desk = await atDesk(browser, house, "mara");
    await desk.goto(`${house.address}/#/office/lasting/curves/road`);
    await desk.getByText(say("lasting-too-few-words")).waitFor();
    expect(await desk.getByRole("cell", { name: say("lasting-too-few") }).count()).toBeGreaterThan(5);
    await desk.context().close();
  });

  it("is not for crews", async () => {
    const desk = await atDesk(browser, house, "pell");
    await desk.getByRole("link", { name: say("office-page-today") }).waitFor();
    expect(await desk.getByRole("link", { name: say("office-page-lasting") }).count()).toBe(0);
    await desk.goto(`${house.address}/#/office/lasting`);
    await desk.getByText(say("lasting-roles")).waitFor();
    await desk.context().close();
  });
});

describe("the month's report", () => {
  it("shows the month's figures, each with its working, and leads to paper and page", async () => {
    const desk = await atDesk(browser, house, "mara");
    await desk.goto(`${house.address}/#/office/lasting/month/${lastMonth()}`);
    await desk.getByText(say("lasting-engineer")).first().waitFor();
    const { value: report } = await house.call("mara", "GET", `/api/reports/${lastMonth()}`);
    expect(report.done.repairs).toBeGreaterThan(0);
    expect(await desk.locator(".figures li strong").first().textContent()).toBe(String(report.done.repairs));
    for (const { how } of report.workings) expect(await desk.getByText(how).count(), how).toBe(1);
    for (const limit of report.limits) expect(await desk.getByText(limit).count(), limit).toBe(1);
    const stretches = desk.getByRole("list", { name: say("lasting-break-even-title") });
    expect(await stretches.getByRole("listitem").count()).toBe(report.stop.first.length);
    expect(report.stop.first.length).toBeGreaterThan(0);
    for (const [kind, begins] of [["pdf", "%PDF-"], ["html", "<!doctype html>"]] as const) {
      const href = (await desk.getByRole("link", { name: say(`lasting-as-${kind}`) }).getAttribute("href"))!;
      const answer = await desk.request.get(house.address + href);
      expect([answer.status(), (await answer.text()).slice(0, begins.length).toLowerCase()]).toEqual([200, begins.toLowerCase()]);
    }
    await desk.locator("#report-month").selectOption(today().slice(0, 7));
    await desk.waitForURL(new RegExp(`month/${today().slice(0, 7)}`));
    await desk.getByText(say("lasting-limits")).waitFor();
    await desk.context().close();
  });
});

describe.each([
  { name: "desk", size: DESK, language: "en", dark: false },
  { name: "phone", size: PHONE, language: "fr", dark: false },
  { name: "phone from right to left", size: PHONE, language: "ar", dark: true },
])("at a $name", ({ size, language, dark }) => {
  it.each(["curves/crew", "curves/road", `month/${lastMonth()}`])("fits, and keeps nobody out: %s", async (path) => {
    const page = await atDesk(browser, house, "mara", { size, language, dark });
    await page.goto(`${house.address}/#/office/lasting/${path}`);
    await page.locator("main section.sheet").first().waitFor();
    await page.waitForLoadState("networkidle");
    for (const summary of await page.locator("main details > summary").all()) await summary.click();
    await fitsAcross(page);
    expect(await seriousFindings(page)).toEqual([]);
    // labels of curves don't stand on each other
    const boxes = await page.locator("svg .label").evaluateAll((all) => all.map((one) => one.getBoundingClientRect().toJSON()).sort((a, b) => a.top - b.top));
    for (const [at, box] of boxes.slice(1).entries()) expect(box.top - boxes[at]!.top).toBeGreaterThan(12);
    await page.context().close();
  });
});
