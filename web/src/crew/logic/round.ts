// A crew's rounds as the phone shows them: sites in the order of work, with what the plan's files say of each where they are there.
import { v5 } from "uuid";
import type { KnownRepair, KnownRound, KnownZone, PlannedRepair, PlannedZone } from "./known";
import { drivenTo, type Numbers, type Plan, type PlanJob, type PlanSite } from "./plan";

export interface RepairOf {
  repair: string;
  planned: PlannedRepair;
  /** Index into the plan's jobs. */
  job: number | undefined;
  plan: PlanJob | undefined;
}

export interface SiteOf {
  /** Its place in the order of work, from 0. */
  at: number;
  zone: string;
  planned: PlannedZone;
  road: string;
  repairs: RepairOf[];
  /** Index into the plan's sites. */
  index: number | undefined;
  plan: PlanSite | undefined;
  /** Times of the plan, `08:30:00`. */
  from: string | undefined;
  to: string | undefined;
  drive: { distance_m: number; travel_s: number; from: string } | undefined;
}

/** The zone's number: made of the round and its holes, so that every phone and the plan's own files have the same. */
export function zoneNumber(round: string, holes: readonly string[]): string {
  return v5(`lengthsman:zone ${round} ${holes.join(" ")}`, v5.URL);
}

export function sitesOf(round: KnownRound, plan: Plan | undefined, numbers: Numbers | undefined): SiteOf[] {
  const planned = (round.repairs?.value ?? []) as PlannedRepair[];
  const left = new Map(planned.map((one) => [one.repair, one]));
  // a round of an older program has no zones: each repair is then a site
  const zones: PlannedZone[] = round.planned_zones?.length ? round.planned_zones : planned.map((one) => ({ holes: one.holes, road: one.road ?? "" }) as PlannedZone);
  const sites = zones.map((zone, at): SiteOf => {
    const mine = [...left.values()].filter((one) => one.holes.some((hole) => zone.holes.includes(hole)));
    for (const one of mine) left.delete(one.repair);
    return site(round.round, at, zone, mine, plan, numbers);
  });
  for (const one of left.values()) {
    sites.push(site(round.round, sites.length, { holes: one.holes, road: one.road ?? "" } as PlannedZone, [one], plan, numbers));
  }
  return sites;
}

function site(round: string, at: number, planned: PlannedZone, repairs: PlannedRepair[], plan: Plan | undefined, numbers: Numbers | undefined): SiteOf {
  const known = numbers?.zones.find((zone) => zone.holes.join() === planned.holes.join());
  const index = known?.site;
  const timetable = plan?.round.timetable ?? [];
  const work = timetable.find((stop) => stop.kind === "work" && stop.site === index && index !== undefined);
  const drive = timetable.findIndex((stop) => stop.kind === "drive" && stop.site === index && index !== undefined);
  const way = plan && drive >= 0 ? drivenTo(plan, drive) : undefined;
  return {
    at,
    zone: known?.zone ?? zoneNumber(round, planned.holes),
    planned,
    road: planned.road || repairs[0]?.road || "",
    repairs: repairs.map((one): RepairOf => {
      const job = numbers?.repairs.find((number) => number.repair === one.repair)?.job;
      return { repair: one.repair, planned: one, job, plan: job === undefined ? undefined : plan?.jobs[job] };
    }),
    index,
    plan: index === undefined ? undefined : plan?.sites[index],
    from: work?.from,
    to: work?.to,
    drive: way ? { ...way, from: timetable[drive]!.from } : undefined,
  };
}

export type SiteState = "planned" | "open" | "mended" | "done";

/** How far a site has come: done is mended with its devices back in. */
export function siteState(site: SiteOf, zone: KnownZone | undefined, repairs: ReadonlyMap<string, KnownRepair>): SiteState {
  const mended = site.repairs.length > 0 && site.repairs.every(({ repair }) => ["open", "failed"].includes(repairs.get(repair)?.state ?? "planned"));
  if (zone?.closed) return mended ? "done" : "planned";
  if (mended) return zone?.opened ? "mended" : "done";
  return zone?.opened || site.repairs.some(({ repair }) => (repairs.get(repair)?.state ?? "planned") !== "planned") ? "open" : "planned";
}

/** Rounds of a crew by day, the first first. */
export function roundsOf(crew: string, rounds: readonly KnownRound[]): KnownRound[] {
  return rounds.filter((round) => round.crew?.value === crew && round.date && (round.repairs?.value as PlannedRepair[] | undefined)?.length).sort((a, b) => (String(a.date!.value) < String(b.date!.value) ? -1 : 1));
}

export interface Change {
  what: "added" | "removed" | "amounts" | "order";
  road: string;
  repair: string;
  /** The day on which it is now, where another round has it. */
  now?: string;
}

/** What is different from the plan that was seen before, plainly. */
export function changes(before: readonly PlannedRepair[], now: readonly PlannedRepair[], elsewhere: ReadonlyMap<string, string> = new Map()): Change[] {
  const found: Change[] = [];
  for (const one of now) {
    const old = before.find((other) => other.repair === one.repair);
    if (!old) found.push({ what: "added", road: one.road ?? "", repair: one.repair });
    else if (differs(old, one)) found.push({ what: "amounts", road: one.road ?? "", repair: one.repair });
  }
  for (const old of before) {
    if (now.some((one) => one.repair === old.repair)) continue;
    const day = elsewhere.get(old.repair);
    found.push({ what: "removed", road: old.road ?? "", repair: old.repair, ...(day === undefined ? {} : { now: day }) });
  }
  const stayed = (list: readonly PlannedRepair[], other: readonly PlannedRepair[]): string => list.map((one) => one.repair).filter((repair) => other.some((two) => two.repair === repair)).join();
  if (stayed(before, now) !== stayed(now, before)) found.push({ what: "order", road: "", repair: "" });
  return found;
}

function differs(a: PlannedRepair, b: PlannedRepair): boolean {
  const close = (x: unknown, y: unknown): boolean => Math.abs(Number(x) - Number(y)) <= 0.01 * Math.max(Math.abs(Number(x)), Math.abs(Number(y)));
  return !(["area_m2", "base_loose_m3", "water_l", "binder_l", "cover_stone_m3"] as const).every((field) => close(a[field], b[field]));
}

/** Today where the district lies. */
export function todayIn(zone: string | undefined, now = new Date()): string {
  try {
    return new Intl.DateTimeFormat("en-CA", { ...(zone ? { timeZone: zone } : {}), year: "numeric", month: "2-digit", day: "2-digit" }).format(now);
  } catch {
    return todayIn(undefined, now);
  }
}

/** Metres between two places on the globe, near enough for "near by". */
export function metresBetween(a: { lon: number; lat: number }, b: { lon: number; lat: number }): number {
  const radians = Math.PI / 180;
  const x = (b.lon - a.lon) * radians * Math.cos(((a.lat + b.lat) / 2) * radians);
  return Math.hypot(x, (b.lat - a.lat) * radians) * 6_371_000;
}
