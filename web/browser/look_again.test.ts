// Looks at earlier repairs on a crew's round: told or passed by without signal, with the office after it.
import type { Page } from "playwright-core";
import { afterAll, expect, it } from "vitest";
import { choose } from "./crew";
import { planWeek, today, type House } from "./house";
import { tellLives } from "./lives";
import { Phone, fitsAcross, seriousFindings } from "./pages";
import { say } from "./say";
import { inAHouse } from "./stage";

let house: House;
let phone: Phone;
let page: Page;
let round: any;
/** The looks of the round, as its plan has them. */
let looks: { repair: string; road: string }[];

inAHouse(
  async (opened) => {
    house = opened;
    await tellLives(house);
    await planWeek(house);
    const rounds = (await house.call("mara", "GET", "/api/known/rounds?limit=100")).value.known.map((row: any) => row.known);
    for (const one of rounds.filter((round: any) => round.crew.value === "Crew Fulmar" && round.date.value >= today())) {
      const { value } = await house.call("idris", "GET", `/api/rounds/${one.round}/files/plan.json`);
      if ((value.looks?.length ?? 0) < 3) continue;
      [round, looks] = [one, value.looks];
      break;
    }
    phone = new Phone(house);
    const me = (await house.call("idris", "GET", "/api/me")).value;
    const offer = (await house.call("idris", "POST", "/api/enrolments", { account: me.account })).value;
    page = await phone.enrol(offer.link, "phone that looks");
    await page.evaluate(async () => void (await navigator.serviceWorker.ready));
    await page.goto(`${house.address}/#/crew/round/${round.round}`);
    await page.locator("a.card.look").first().waitFor({ timeout: 60_000 });
    await page.waitForLoadState("networkidle");
    await phone.signal(false);
  },
  { shoulderM: 1.5 },
);
afterAll(() => phone?.end());

const card = (repair: string) => page.getByRole("main").getByRole("listitem").locator(`a[href*="${repair}"]`);
const toRound = () => page.goto(`${house.address}/#/crew/round/${round.round}`);
const known = async (repair: string): Promise<any> => (await house.call("mara", "GET", `/api/known/repairs/${repair}`)).value.known;

it("shows them in the order of the timetable, with where and why", async () => {
  const { value: plan } = await house.call("idris", "GET", `/api/rounds/${round.round}/files/plan.json`);
  const order = plan.round.timetable.filter((stop: any) => stop.kind === "work" || stop.kind === "look").map((stop: any) => (stop.kind === "look" ? "look" : "site"));
  const shown = await page.getByRole("main").getByRole("listitem").locator("a.card").evaluateAll((all) => all.filter((one) => /\/(site|inspect)\//.test(one.getAttribute("href")!)).map((one) => (one.classList.contains("look") ? "look" : "site")));
  expect(shown).toEqual(order);
  await fitsAcross(page);
  expect(await seriousFindings(page)).toEqual([]);
  const look = plan.looks[0];
  await card(look.repair).click();
  await page.getByText(look.why).waitFor();
  await page.getByText(say("crew-caution-look")).waitFor();
  await page.getByText(`${look.place[1].toFixed(5)}, ${look.place[0].toFixed(5)}`).waitFor();
  // what was done there came with what is known
  await page.getByText(say("crew-done-there")).click();
  await page.getByText("CRS-2").waitFor();
  await fitsAcross(page);
  expect(await seriousFindings(page)).toEqual([]);
});

it("keeps a half-filled form when the browser is killed, and tells it without signal", async () => {
  const { repair } = looks[0]!;
  await choose(page, say("crew-found"), say("crew-found-worn"));
  await page.getByLabel(say("crew-note")).fill("stone lost at the near edge");
  await phone.kill();
  page = await phone.start(`#/crew/inspect/${repair}/${round.round}`);
  await phone.signal(false);
  await page.reload();
  await page.getByRole("radio", { name: say("crew-found-worn") }).waitFor();
  expect(await page.getByRole("radio", { name: say("crew-found-worn") }).isChecked()).toBe(true);
  expect(await page.getByLabel(say("crew-note")).inputValue()).toBe("stone lost at the near edge");
  await page.getByRole("button", { name: say("crew-tell-found") }).click();
  await card(repair).getByText(say("crew-found-worn")).waitFor();
  expect((await known(repair)).inspections).toEqual([]);
});

it("is done with where there is no safe place to stop, and tells nothing of it", async () => {
  const { repair } = looks[1]!;
  await card(repair).click();
  await page.getByRole("button", { name: say("crew-look-pass") }).click();
  await card(repair).getByText(say("crew-look-passed")).waitFor();
  await page.reload();
  await card(repair).getByText(say("crew-look-passed")).waitFor();
  // by mistake: it can be put back, and passed by again
  await card(repair).click();
  await page.getByRole("button", { name: say("crew-look-again-on-list") }).click();
  await page.getByRole("button", { name: say("crew-look-pass") }).click();
  await card(repair).getByText(say("crew-look-passed")).waitFor();
});

it("tells of a new hole too where a repair has failed", async () => {
  const { repair } = looks[2]!;
  await card(repair).click();
  await choose(page, say("crew-found"), say("crew-found-failed"));
  await page.getByRole("button", { name: say("crew-tell-found") }).click();
  await card(repair).getByText(say("crew-found-failed")).waitFor();
});

it("is with the office once there is signal, and stays as it was on the phone", async () => {
  await phone.signal(true);
  await page.goto(`${house.address}/#/crew/queue`);
  await page.getByRole("button", { name: say("crew-sync-now") }).click();
  await page.getByText(say("crew-badge-sent"), { exact: true }).first().waitFor();
  const [worn, passed, failed] = await Promise.all(looks.slice(0, 3).map(({ repair }) => known(repair)));
  expect(worn.inspections.map(({ found, note, by }: any) => [found, note, by.actor])).toEqual([["worn", "stone lost at the near edge", "idris"]]);
  expect(passed.inspections).toEqual([]);
  expect([failed.state, failed.inspections.map(({ found }: any) => found)]).toEqual(["failed", ["failed"]]);
  const hole = (await house.call("mara", "GET", `/api/known/holes/${failed.failed_hole}`)).value.known;
  expect(hole.reports[0].source).toBe("crew");
  expect(Math.hypot(hole.position.value.lon - failed.position.lon, hole.position.value.lat - failed.position.lat)).toBeLessThan(1e-6);
  await toRound();
  await page.reload();
  for (const [at, words] of [say("crew-found-worn"), say("crew-look-passed"), say("crew-found-failed")].entries()) await card(looks[at]!.repair).getByText(words).waitFor();
});
