// Where tests of a file begin and end: a house and a browser of their own, and no page that did what it must not.
import type { Browser } from "playwright-core";
import { afterAll, afterEach, beforeAll } from "vitest";
import { openHouse, type House, type HouseOptions } from "./house";
import { noFaults, openBrowser, program } from "./pages";

/** Opens both before the first test and ends them after the last, also where what `begin` does has failed. */
export function inAHouse(begin: (house: House, browser: Browser) => Promise<unknown>, options: HouseOptions = {}): void {
  let house: House | undefined;
  let browser: Browser | undefined;
  beforeAll(async () => {
    house = await openHouse(program(), 0, options);
    browser = await openBrowser();
    await begin(house, browser);
  });
  afterAll(async () => {
    await browser?.close();
    await house?.end();
  });
  afterEach(noFaults);
}
