import { expect, it } from "vitest";
import { Pace } from "../src/office/map/pace";

/** Frames each so many milliseconds after the one before; after which of them it turns coarse. */
function coarseAfter(pace: Pace, from: number, took: number[]): number | undefined {
  let now = from;
  pace.drawn(now);
  for (const [at, ms] of took.entries()) {
    now += ms;
    if (pace.drawn(now)) return at + 1;
  }
  return undefined;
}

it("leaves a smooth map as it is, also where a single frame is slow", () => {
  const pace = new Pace();
  expect(pace.begins(0)).toBe(false);
  expect(coarseAfter(pace, 0, [16, 17, 300, 16, 33, 200, 16, 16])).toBeUndefined();
  expect(pace.begins(10_000)).toBe(false);
});

it("is coarse where most frames are slow, and at once when it moves again", () => {
  const pace = new Pace();
  pace.begins(0);
  expect(coarseAfter(pace, 0, [80, 16, 80, 80, 16, 80])).toBe(5);
  expect(pace.begins(5_000)).toBe(true);
  expect(pace.drawn(5_016)).toBe(true);
});

it("takes a rest for no slow frame", () => {
  const pace = new Pace();
  pace.begins(0);
  expect(coarseAfter(pace, 0, [5_000, 5_000, 5_000, 5_000, 5_000, 5_000])).toBeUndefined();
});

it("tries all dots again after a while", () => {
  const pace = new Pace();
  pace.begins(0);
  expect(coarseAfter(pace, 0, [80, 80, 80, 80, 80])).toBe(5);
  expect(pace.begins(100_000)).toBe(true);
  expect(pace.begins(200_000)).toBe(false);
  expect(coarseAfter(pace, 200_000, [16, 16, 16, 16, 16])).toBeUndefined();
});
