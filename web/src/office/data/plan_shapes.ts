// A plan as the server makes it: `work-plan.json` (handbook/work-plan.md) with the rounds of the record beside it.
import type { Happened } from "../../lib/store/database";

export interface PlanStop {
  kind: "load" | "drive" | "wait" | "work" | "rest" | "tip" | "look";
  from: string;
  to: string;
  road: string;
  at?: string;
  holes: string[];
  place: [number, number] | null;
  site: number | null;
  trip: number | null;
  /** Of a look and of a drive to one: its index in that day's plan. */
  look?: number | null;
  /** The repair looked at. */
  repair?: string | null;
}

export interface PlanLoad {
  trip: number;
  container: string;
  content: string;
  amount: number;
  unit: string;
  words: string;
  suffices: number;
}

export interface PlanRound {
  round: string;
  date: string;
  crew: string;
  truck: string;
  begins: string | null;
  ends: string | null;
  suffices: number | null;
  driving_km: number;
  driving_min?: number;
  line?: [number, number][];
  stops: PlanStop[];
  load?: PlanLoad[];
}

export interface PlanCost {
  risk_until_mended: number;
  risk_left: number;
  crew_time: number;
  driving: number;
  total: number;
}

export interface LeftOut {
  holes: string[];
  road: string;
  reason: string | null;
  why: string;
  place: [number, number];
}

export interface WorkPlan {
  district: string;
  first_day: string;
  days: number;
  currency: string;
  cost: PlanCost;
  rounds: PlanRound[];
  sites: { holes: string[]; road: string; worth: number[]; date: string | null; crew: string | null; why: string }[];
  what_more_brings: { more: string; saves: number; sites: number }[];
  left_out: LeftOut[];
  not_forecast: { date: string; hours: [string, string][] }[];
  problems: { code: string; severity: string; file: string; line: number; column: number; wrong: string; right: string }[];
}

/** What somebody asks for with a site: another day, another crew, or not at all. */
export type Change = { holes: string[]; date?: string; crew?: string } | { holes: string[]; out: true };

export interface Plan {
  work_plan: WorkPlan;
  rounds: Extract<Happened, { kind: "round_planned" }>[];
  refused: (string | { holes: string[]; words: string })[];
  changes?: Change[];
}

export interface Job {
  job: string;
  state: "waiting" | "working" | "done" | "failed" | "stopped";
  asked_by: string;
  asked_at: string;
  ended_at?: string | null;
  progress: number;
  words: string;
  plan?: Plan | null;
  import?: Imported | null;
}

export interface Imported {
  rows: number;
  refused: number;
  added: number;
  known_before: number;
  closed: number;
  reopened: number;
  repeats: number;
  of_known_holes: number;
  columns: { field: string; name: string; is_guessed: boolean }[];
  problems: { code: string; is_refused: boolean; line: number; column: number; subject: string; wrong: string; right: string }[];
  more_problems: number;
  /** Why what came after was not read. */
  stopped_because?: string | null;
}

/** Hours since midnight of `07:45:56`. */
export function hours(clock: string): number {
  const [hour = 0, minute = 0, second = 0] = clock.split(":").map(Number);
  return hour + minute / 60 + second / 3600;
}

/** Seconds of work at sites. */
export function workHours(round: PlanRound): number {
  return round.stops.filter(({ kind }) => (kind ?? "work") === "work").reduce((sum, stop) => sum + hours(stop.to) - hours(stop.from), 0);
}

/** What was left out, by why, the most common first. */
export function byReason(leftOut: LeftOut[]): { why: string; entries: LeftOut[] }[] {
  const groups = new Map<string, LeftOut[]>();
  for (const entry of leftOut) groups.set(entry.why, [...(groups.get(entry.why) ?? []), entry]);
  return [...groups].map(([why, entries]) => ({ why, entries })).sort((a, b) => b.entries.length - a.entries.length);
}

/** Days of a plan, one after the other. */
export function daysOf({ first_day, days }: Pick<WorkPlan, "first_day" | "days">): string[] {
  const first = Date.parse(`${first_day}T00:00:00Z`);
  return Array.from({ length: days }, (_, index) => new Date(first + index * 86_400_000).toISOString().slice(0, 10));
}

/** Puts a change to those there: what is said last of a hole counts. */
export function withChange(changes: Change[], change: Change): Change[] {
  const others = changes.filter((other) => !other.holes.some((hole) => change.holes.includes(hole)));
  return [...others, change];
}
