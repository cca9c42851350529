// Looks at earlier repairs on a round: where each comes among the sites, what became of it, what is told of it.
import { v7 } from "uuid";
import type { Happened } from "../../lib/store/database";
import type { KnownRepair, Of, Position } from "./known";
import { drivenTo, type Plan, type PlanLook } from "./plan";
import type { SiteOf } from "./round";

export type Found = Of<"inspected">["found"];
export const FOUND: readonly Found[] = ["holds", "worn", "failed"];

export interface LookOf {
  repair: string;
  planned: PlanLook;
  /** Times of the plan, `08:30:00`. */
  from: string | undefined;
  to: string | undefined;
  drive: { distance_m: number; travel_s: number; from: string } | undefined;
  /** Indexes of the plan's sites that are worked at before it, the last first. */
  after: number[];
}

/** The looks of a plan, in the order in which they are made. */
export function looksOf(plan: Plan | undefined): LookOf[] {
  const timetable = plan?.round.timetable ?? [];
  const looks = (plan?.looks ?? []).map((planned, index): { at: number; look: LookOf } => {
    const at = timetable.findIndex((stop) => stop.kind === "look" && stop.look === index);
    const drive = timetable.findIndex((stop) => stop.kind === "drive" && stop.look === index);
    const way = plan && drive >= 0 ? drivenTo(plan, drive) : undefined;
    const look: LookOf = {
      repair: planned.repair,
      planned,
      from: timetable[at]?.from,
      to: timetable[at]?.to,
      drive: way ? { ...way, from: timetable[drive]!.from } : undefined,
      after: timetable.slice(0, Math.max(0, at)).flatMap((stop) => (stop.kind === "work" && stop.site !== null ? [stop.site] : [])).reverse(),
    };
    return { at, look };
  });
  return looks.sort((a, b) => a.at - b.at).map(({ look }) => look);
}

export type StopOf = { site: SiteOf; look?: undefined } | { look: LookOf; site?: undefined };

/** Sites and looks in the order in which they come: a look behind the site that is worked at before it and is still there. */
export function stopsOf(sites: readonly SiteOf[], looks: readonly LookOf[]): StopOf[] {
  const behind = new Map<SiteOf | undefined, LookOf[]>();
  for (const look of looks) {
    const index = look.after.find((index) => sites.some((site) => site.index === index));
    const site = index === undefined ? undefined : sites.find((site) => site.index === index);
    behind.set(site, [...(behind.get(site) ?? []), look]);
  }
  const of = (site: SiteOf | undefined): StopOf[] => (behind.get(site) ?? []).map((look) => ({ look }));
  return [...of(undefined), ...sites.flatMap((site): StopOf[] => [{ site }, ...of(site)])];
}

/** `open`: nobody looked; `passed`: there was no safe place to stop; else what was found. */
export type LookState = "open" | "passed" | Found;

/** What became of a look: only what was seen since it was planned says so. */
export function lookState(planned: string | undefined, repair: KnownRepair | undefined, passed: boolean): LookState {
  const since = planned === undefined ? -Infinity : Date.parse(planned);
  const seen = (repair?.inspections ?? []).filter(({ by }) => Date.parse(by.at) >= since).sort((a, b) => Date.parse(a.by.at) - Date.parse(b.by.at));
  const last = seen.at(-1);
  if (last) return last.found;
  if (repair?.failed) return "failed";
  return passed ? "passed" : "open";
}

/**
 * The stop that comes next: nothing, when all is done. A look that the crew has driven past, having begun at a site behind it, is not
 * asked for again; it stays in the list.
 */
export function nextStop(stops: readonly { state: string; isLook: boolean }[]): number | undefined {
  const begun = stops.findLastIndex(({ state, isLook }) => !isLook && state !== "planned");
  const next = stops.findIndex(({ state, isLook }, at) => (isLook ? state === "open" && at > begun : state !== "done"));
  return next < 0 ? undefined : next;
}

/** How keys begin under which that is kept. */
export const PASSED = "look-passed/";

/** Under which it is kept on this phone that nobody could stop for a look. */
export function passedKey(round: string, repair: string): string {
  return `${PASSED}${round}/${repair}`;
}

/** What is told of a repair that was looked at. One that has failed is a hole again, to be judged and planned as any other. */
export function toTellOfLook(repair: string, found: Found, note: string, position: Position | undefined, today: string): Happened[] {
  const said = note.trim();
  const all = [{ kind: "inspected", repair, found, note: said } as Happened];
  if (found !== "failed") return all;
  const hole = position ? v7() : undefined;
  if (hole) all.push({ kind: "hole_reported", hole, position, size: {}, seen: today, note: said || "a repair has failed", source: "crew" } as unknown as Happened);
  all.push({ kind: "failed", repair, ...(hole ? { hole } : {}), how: said } as Happened);
  return all;
}
