import { describe, expect, test } from "vitest";
import { byReason, daysOf, hours, withChange, workHours, type LeftOut, type PlanRound, type PlanStop } from "../src/office/data/plan_shapes";
import { readEvents } from "../src/office/data/server";
import { dropName, placeOf } from "../src/office/plan/drag.svelte";

const stop = (kind: PlanStop["kind"], from: string, to: string): PlanStop => ({ kind, from, to, road: "", holes: [], place: null, site: null, trip: null });

describe("times of a plan", () => {
  test.each([
    ["07:00:00", 7],
    ["15:45:36", 15.76],
    ["24:00", 24],
  ])("%s is %d hours", (clock, value) => expect(hours(clock)).toBeCloseTo(value, 6));

  test("only work counts as work", () => {
    const round = { stops: [stop("load", "07:00:00", "07:20:00"), stop("work", "08:00:00", "09:30:00"), stop("rest", "12:00:00", "12:30:00"), stop("work", "13:00:00", "13:15:00")] } as PlanRound;
    expect(workHours(round)).toBeCloseTo(1.75, 6);
  });

  test("days go over the end of a month and of a year", () => {
    expect(daysOf({ first_day: "2026-12-30", days: 4 })).toEqual(["2026-12-30", "2026-12-31", "2027-01-01", "2027-01-02"]);
  });
});

describe("changes", () => {
  test("what is said last of a hole counts, other changes stay", () => {
    const first = withChange([], { holes: ["a", "b"], date: "2026-06-09" });
    const second = withChange(first, { holes: ["c"], out: true });
    expect(withChange(second, { holes: ["b"], crew: "Crew Petrel" })).toEqual([{ holes: ["c"], out: true }, { holes: ["b"], crew: "Crew Petrel" }]);
  });

  test("a drop's name comes back as it was, with any crew's name", () => {
    expect(placeOf(dropName("2026-06-09", "Crew | One"))).toEqual({ date: "2026-06-09", crew: "Crew | One" });
    expect(placeOf("out")).toBe("out");
  });
});

test("left out, the most common reason first", () => {
  const entry = (why: string, hole: string): LeftOut => ({ holes: [hole], road: "", reason: null, why, place: [0, 0] });
  const groups = byReason([entry("far", "1"), entry("full", "2"), entry("full", "3")]);
  expect(groups.map(({ why, entries }) => [why, entries.length])).toEqual([
    ["full", 2],
    ["far", 1],
  ]);
});

describe("server-sent events", () => {
  test("are read as far as they have come; the rest waits", () => {
    const { jobs, rest } = readEvents('event: progress\ndata: {"job":"1","progress":0.5}\n\n: still there\n\nevent: progress\ndata: {"job":"1","pro');
    expect(jobs).toEqual([{ job: "1", progress: 0.5 }]);
    expect(rest).toBe('event: progress\ndata: {"job":"1","pro');
  });

  test("with carriage returns and several lines of data", () => {
    expect(readEvents('data: {"job":\r\ndata: "2"}\r\n\r\n').jobs).toEqual([{ job: "2" }]);
  });
});
