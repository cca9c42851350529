// What the crew's pages show: rows of the record on this phone, what was told here and is not there yet, and the files of the rounds.
// It follows the phone's database, so a page is right whatever changed it: this page, another one, or the sync.
import { liveQuery } from "dexie";
import { me } from "../lib/session.svelte";
import { database, type Told } from "../lib/store/database";
import { wantFiles } from "../lib/store/sync.svelte";
import { looksOf, lookState, PASSED, passedKey, stopsOf, type LookOf, type LookState, type StopOf } from "./logic/looks";
import { readPlan, type Numbers, type Plan } from "./logic/plan";
import { queuesOf, type Queues } from "./logic/queue";
import { holeWith, notYetIn, repairWith, zoneWith } from "./logic/merge";
import { roundsOf, sitesOf, todayIn, type SiteOf } from "./logic/round";
import type { KnownHole, KnownRepair, KnownRound, KnownZone, PlannedRepair } from "./logic/known";

export interface RoundView {
  round: KnownRound;
  date: string;
  sites: SiteOf[];
  /** The sites, and looks at earlier repairs between them. */
  stops: StopOf[];
  plan: Plan | undefined;
  /** Names of its files that are on the phone. */
  files: Set<string>;
}

interface Data {
  ready: boolean;
  crew: string;
  /** Crews that have rounds, where the person belongs to none. */
  crews: string[];
  today: string;
  rounds: RoundView[];
  holes: Map<string, KnownHole>;
  repairs: Map<string, KnownRepair>;
  zones: Map<string, KnownZone>;
  /** Keys of looks for which there was no place to stop. */
  passed: Set<string>;
  queue: Told[];
}

const NOTHING: Data = { ready: false, crew: "", crews: [], today: "", rounds: [], holes: new Map(), repairs: new Map(), zones: new Map(), passed: new Set(), queue: [] };
let data = $state.raw<Data>(NOTHING);

export function crewData(): Data {
  return data;
}

const queues = $derived(queuesOf(me()?.name, data.queue));

/** The queue by whose it is. What is known is worked out from all of it: two people with one phone see the same. */
export function whoseQueue(): Queues {
  return queues;
}

/** Days back and forth whose rounds are shown and whose files are kept. */
const DAYS = 4;
/** So many of what was told last are looked at. */
const QUEUE = 1_000;

const plans = new Map<string, { sha256: string; value: unknown }>();

async function parsed<T>(key: string, read: (text: string) => T | undefined): Promise<T | undefined> {
  const file = await database.files.get(key);
  if (!file) return undefined;
  const kept = plans.get(key);
  if (kept?.sha256 === file.sha256) return kept.value as T | undefined;
  const value = read(await Promise.resolve(file.blob.text()));
  plans.set(key, { sha256: file.sha256, value });
  return value;
}

function readNumbers(text: string): Numbers | undefined {
  try {
    return JSON.parse(text) as Numbers;
  } catch {
    return undefined;
  }
}

async function look(): Promise<Data> {
  // side by side: a slow phone waits for the database, not for itself
  const [rows, [chosen, zoneKept], waiting, last, passed] = await Promise.all([
    database.known.where("what").equals("rounds").toArray(),
    database.meta.bulkGet(["crew", "time_zone"]),
    database.told.where("state").anyOf("waiting", "refused").toArray(),
    database.told.orderBy("order").reverse().limit(QUEUE).toArray(),
    database.drafts.where("key").startsWith(PASSED).primaryKeys(),
  ]);
  const all = rows.map(({ row }) => row.known as unknown as KnownRound);
  const crew = me()?.crew || (chosen?.value as string | undefined) || "";
  const zone = zoneKept?.value as string | undefined;
  const today = todayIn(zone);
  const near = roundsOf(crew, all).filter((round) => Math.abs(Date.parse(String(round.date!.value)) - Date.parse(today)) <= DAYS * 86_400_000);
  const queue = [...new Map([...last, ...waiting].map((told) => [told.id, told])).values()].sort((a, b) => a.order - b.order);

  const rounds = await Promise.all(
    near.map(async (round): Promise<RoundView> => {
      const [keys, plan, numbers] = await Promise.all([
        database.files.where("round").equals(round.round).primaryKeys(),
        parsed(`${round.round}/plan.json`, readPlan),
        parsed(`${round.round}/numbers.json`, readNumbers),
      ]);
      if (plan && plan.district.time_zone !== zone) rememberZone(plan.district.time_zone);
      const files = new Set(keys.map((key) => String(key).slice(round.round.length + 1)));
      const sites = sitesOf(round, plan, numbers);
      return { round, date: String(round.date!.value), sites, stops: stopsOf(sites, looksOf(plan)), plan, files };
    }),
  );
  const sites = rounds.flatMap((view) => view.sites);
  const repairIds = new Set(sites.flatMap((site) => site.repairs.map((one) => one.repair)));
  for (const { look } of rounds.flatMap((view) => view.stops)) if (look) repairIds.add(look.repair);
  const zoneIds = new Set(sites.map((site) => site.zone));
  const holeIds = new Set(sites.flatMap((site) => site.planned.holes));
  // what was told here of holes beside the round
  for (const told of queue) {
    const happened = told.event.happened;
    if (happened.kind === "hole_reported") holeIds.add(happened.hole);
    if (happened.kind === "inspected") repairIds.add(happened.repair);
  }
  const [holes, repairs, zones] = await Promise.all([
    merged("holes", holeIds, queue, holeWith),
    merged("repairs", repairIds, queue, repairWith),
    merged("zones", zoneIds, queue, zoneWith),
  ]);
  return {
    ready: true,
    crew,
    crews: [...new Set(all.map((round) => String(round.crew?.value ?? "")).filter((name) => name !== ""))].sort(),
    today,
    rounds,
    holes,
    repairs,
    zones,
    passed: new Set(passed.map(String)),
    queue,
  };
}

function rememberZone(zone: string): void {
  // not within the query that is being followed, which only reads
  setTimeout(() => void database.meta.put({ key: "time_zone", value: zone }), 0);
}

async function merged<T>(what: "holes" | "repairs" | "zones", ids: Set<string>, queue: Told[], by: (id: string, known: T | undefined, events: Told["event"][]) => T | undefined): Promise<Map<string, T>> {
  const list = [...ids];
  const rows = await database.known.bulkGet(list.map((id) => `${what}/${id}`));
  const found = new Map<string, T>();
  list.forEach((id, index) => {
    const row = rows[index]?.row;
    const own = notYetIn(row?.position ?? 0, queue.filter((told) => told.about.includes(id) || told.event.happened.kind === "corrected"));
    const known = by(id, row?.known as T | undefined, own);
    if (known) found.set(id, known);
  });
  return found;
}

/** One repair that is in no round near by, with what was told here. */
export async function repairNow(id: string): Promise<KnownRepair | undefined> {
  return (await merged("repairs", new Set([id]), data.queue, repairWith)).get(id);
}

/** Begins to follow. */
export function followData(): () => void {
  const following = liveQuery(look).subscribe({
    next: (now) => {
      data = now;
      wantFiles(now.rounds.filter((view) => view.date >= now.today).map((view) => view.round.round));
    },
    error: (error: unknown) => console.error(error),
  });
  return () => following.unsubscribe();
}

export async function chooseCrew(crew: string): Promise<void> {
  await database.meta.put({ key: "crew", value: crew });
}

/** Who tells. */
export function teller(): { actor: string; device: string } {
  return { actor: me()?.name ?? "", device: me()?.device ?? "" };
}

/** The site and the repair of a number, whatever round it is in; the latest round first. */
export function findRepair(repair: string): { view: RoundView; site: SiteOf; planned: PlannedRepair } | undefined {
  for (const view of [...data.rounds].reverse()) {
    for (const site of view.sites) {
      const one = site.repairs.find((one) => one.repair === repair);
      if (one) return { view, site, planned: one.planned };
    }
  }
  return undefined;
}

export function findSite(zone: string): { view: RoundView; site: SiteOf } | undefined {
  for (const view of data.rounds) {
    const site = view.sites.find((site) => site.zone === zone);
    if (site) return { view, site };
  }
  return undefined;
}

/** The look of a round at a repair. */
export function findLook(round: string, repair: string): { view: RoundView; look: LookOf; state: LookState } | undefined {
  const view = data.rounds.find((view) => view.round.round === round);
  const look = view?.stops.find((stop) => stop.look?.repair === repair)?.look;
  return view && look ? { view, look, state: stateOfLook(view, look) } : undefined;
}

export function stateOfLook({ round }: RoundView, { repair }: LookOf): LookState {
  return lookState(round.date?.by.at, data.repairs.get(repair), data.passed.has(passedKey(round.round, repair)));
}
