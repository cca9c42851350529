// Looks at earlier repairs on a round: their place among the sites, what became of them, what is told.
import { describe, expect, it } from "vitest";
import { lookState, looksOf, nextStop, stopsOf, toTellOfLook } from "../src/crew/logic/looks";
import type { KnownRepair } from "../src/crew/logic/known";
import type { Plan, PlanLook, Stop } from "../src/crew/logic/plan";
import type { SiteOf } from "../src/crew/logic/round";

const planned = (repair: string): PlanLook => ({ repair, place: [-28.4, 47.3], road: "Quay Parade", chainage_m: 230, due: true, why: "30 days after it was opened", stop_s: 300, detour_s: 60, detour_m: 900 });
/** `load drive0 work0 drive>0 look>0`: what it is, and of which site or look. */
function timetable(words: string): Stop[] {
  return words.split(" ").map((word, at): Stop => {
    const [, kind, isLook, index] = /^([a-z]+)(>?)(\d*)$/.exec(word)!;
    const of = index === "" ? null : Number(index);
    const time = `0${at}:00:00`;
    return { kind: kind!, site: isLook ? null : of, look: isLook ? of : null, trip: null, from: time, to: time };
  });
}
function plan(words: string, looks: PlanLook[]): Plan {
  const drives = words.split(" ").filter((word) => word.startsWith("drive")).length;
  return { looks, round: { trips: [], timetable: timetable(words), ways: Array.from({ length: drives }, (_, at) => ({ travel_s: 60 * at, distance_m: 1000 * at, line: [] })) } } as unknown as Plan;
}
const site = (index: number | undefined, at: number): SiteOf => ({ index, at, zone: `z${at}` }) as unknown as SiteOf;
const order = (sites: SiteOf[], words: string, looks: PlanLook[]): string => stopsOf(sites, looksOf(plan(words, looks))).map((stop) => (stop.site ? stop.site.zone : stop.look.repair)).join(" ");

describe("looks stand among the sites", () => {
  it.each([
    ["between two", "load drive0 work0 drive>0 look>0 drive1 work1 drive tip", "z0 a z1"],
    ["before all", "load drive>0 look>0 drive0 work0 drive1 work1 drive tip", "a z0 z1"],
    ["on the way home", "load drive0 work0 drive1 work1 drive>0 look>0 drive tip", "z0 z1 a"],
    // the site before it is not the crew's any more
    ["behind the one before", "load drive0 work0 drive5 work5 drive>0 look>0 drive1 work1 drive tip", "z0 a z1"],
  ])("%s", (_, words, expected) => {
    expect(order([site(0, 0), site(1, 1)], words, [planned("a")])).toBe(expected);
  });

  it("two after each other keep their order, and each has its own times and way", () => {
    const words = "load drive1 work1 drive>1 look>1 drive>0 look>0 drive0 work0 drive tip";
    expect(order([site(1, 0), site(0, 1)], words, [planned("a"), planned("b")])).toBe("z0 b a z1");
    const [second, first] = looksOf(plan(words, [planned("a"), planned("b")]));
    expect([first!.drive?.distance_m, first!.from, first!.drive?.from]).toEqual([2000, "06:00:00", "05:00:00"]);
    expect([second!.drive?.distance_m, second!.from]).toEqual([1000, "04:00:00"]);
  });

  it("a plan of an older program has none", () => {
    const { looks: _, ...older } = plan("load drive0 work0 drive tip", []);
    expect([looksOf(older as Plan), looksOf(undefined)]).toEqual([[], []]);
    expect(stopsOf([site(0, 0)], []).map((stop) => stop.site?.zone)).toEqual(["z0"]);
  });
});

describe("what became of a look", () => {
  const repair = (...seen: [string, string][]): KnownRepair => ({ inspections: seen.map(([at, found]) => ({ by: { at, event: at }, found, note: "" })), failed: null }) as unknown as KnownRepair;
  const AT = "2026-06-08T16:00:00Z";
  it.each([
    ["nobody knows of it", undefined, false, "open"],
    ["seen only before it was planned", repair(["2026-05-01T09:00:00Z", "holds"]), false, "open"],
    ["seen since", repair(["2026-05-01T09:00:00Z", "worn"], ["2026-06-09T09:00:00.5Z", "holds"]), false, "holds"],
    ["the last seen counts, whatever their order", repair(["2026-06-09T10:00:00Z", "worn"], ["2026-06-09T09:00:00Z", "holds"]), false, "worn"],
    ["passed by", repair(["2026-05-01T09:00:00Z", "holds"]), true, "passed"],
    ["passed by, then looked at", repair(["2026-06-09T09:00:00Z", "holds"]), true, "holds"],
    ["failed meanwhile", { ...repair(), failed: { at: AT } } as unknown as KnownRepair, false, "failed"],
  ])("%s", (_, known, passed, state) => {
    expect(lookState(AT, known, passed)).toBe(state);
  });
});

describe("the next stop", () => {
  const stop = (word: string): { state: string; isLook: boolean } => ({ isLook: word.startsWith(">"), state: word.replace(">", "") });
  it.each([
    ["planned >open planned", 0],
    ["done >open planned", 1],
    ["done >passed planned", 2],
    ["done >holds planned", 2],
    // driven past: not asked for again
    ["done >open open", 2],
    [">open done planned", 2],
    ["done done >open", 2],
    ["done >open done", undefined],
    ["mended >open", 0],
    ["", undefined],
  ])("of %s is %s", (words, next) => {
    expect(nextStop(words === "" ? [] : words.split(" ").map(stop))).toBe(next);
  });
});

describe("what is told of a look", () => {
  const at = { lon: -28.4, lat: 47.3 };
  it("is what was found and the remark", () => {
    expect(toTellOfLook("r", "worn", "  edge open ", at, "2026-06-09")).toEqual([{ kind: "inspected", repair: "r", found: "worn", note: "edge open" }]);
  });

  it("is also a new hole, when it has failed, which the failure names", () => {
    const [seen, hole, failed, ...more] = toTellOfLook("r", "failed", "", at, "2026-06-09") as any[];
    expect(more).toEqual([]);
    expect([seen.found, hole.kind, hole.position, hole.seen, hole.note]).toEqual(["failed", "hole_reported", at, "2026-06-09", "a repair has failed"]);
    expect(failed).toEqual({ kind: "failed", repair: "r", hole: hole.hole, how: "" });
  });

  it("is no hole without a place", () => {
    expect(toTellOfLook("r", "failed", "gone", undefined, "2026-06-09").map(({ kind }) => kind)).toEqual(["inspected", "failed"]);
  });
});
