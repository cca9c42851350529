// What a form has told, so that telling it again puts right what was told before and counts nothing twice. It is kept with the form,
// written together with the events themselves.
import { database, type Happened, type Told } from "./database";
import { tell, tellAll, type Actor } from "./queue";

/** An event that a form told, and what it says by now, after corrections; nothing: that it did not happen. */
export interface Telling {
  event: string;
  now: Happened | undefined;
}

/** By the name of what was told. */
export type Tellings = Record<string, Telling[]>;

export interface ToTell {
  /** Under which it is found when it is told again; without one it is told each time. */
  name?: string;
  /**
   * It adds up in the books (an amount moved, time): there is one of it, which is corrected. All else is told anew, as a later look at
   * the same thing; only what is said no more is taken out of what was told.
   */
  adds?: boolean;
  /** Nothing: taken back, where it was told. */
  happened: Happened | undefined;
}

/** What goes into the queue for it. */
interface Step {
  happened: Happened;
  name?: string;
  /** Event that it corrects. */
  corrects?: string;
  now: Happened | undefined;
}

/** What has to be told so that the record says `all`, after what was told before. */
export function stepsFor(all: readonly ToTell[], before: Tellings): Step[] {
  return all.flatMap(({ name, adds, happened }): Step[] => {
    const told = name === undefined ? [] : (before[name] ?? []);
    const as = name === undefined ? {} : { name };
    const first = told[0];
    if (adds && first) return same(first.now, happened) ? [] : [correction(first.event, happened, name)];
    if (happened === undefined) return [];
    const steps = told.flatMap(({ event, now }): Step[] => {
      const kept = now && without(now, happened);
      return kept === now ? [] : [correction(event, kept, name)];
    });
    const last = steps.at(-1)?.corrects === told.at(-1)?.event ? steps.at(-1)?.now : told.at(-1)?.now;
    return last && same(last, happened) ? steps : [...steps, { ...as, happened, now: happened }];
  });
}

function correction(event: string, now: Happened | undefined, name: string | undefined): Step {
  const happened = { kind: "corrected", event, ...(now === undefined ? {} : { instead: now }), why: now === undefined ? "taken back" : "told again" } as unknown as Happened;
  return { ...(name === undefined ? {} : { name }), happened, corrects: event, now };
}

/** What was told, without what is said no more, also inside of it (a hole's size); the same one where there is no such thing. */
function without<T extends object>(told: T, now: T): T {
  let isLess = false;
  const kept = Object.entries(told).flatMap(([field, value]) => {
    const says = (now as Record<string, unknown>)[field];
    if (says === undefined) isLess = true;
    if (!isObject(value) || !isObject(says)) return says === undefined ? [] : [[field, value]];
    const inside = without(value, says);
    if (inside !== value) isLess = true;
    return [[field, inside]];
  });
  return isLess ? (Object.fromEntries(kept) as T) : told;
}

function isObject(value: unknown): value is object {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function same(a: Happened | undefined, b: Happened | undefined): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}

const PREFIX = "told-of/";

async function keptOf(form: string): Promise<Tellings> {
  return ((await database.drafts.get(PREFIX + form))?.value as Tellings | undefined) ?? {};
}

/** What a form told and what of it stands, by what is known here: what was refused is nothing. */
export async function tellingsOf(form: string): Promise<Tellings> {
  const now: Tellings = {};
  for (const [name, told] of Object.entries(await keptOf(form))) {
    const standing: Telling[] = [];
    for (const one of told) {
      const [row, corrections] = [await database.told.get(one.event), await correctionsOf(one.event)];
      if (row?.state === "refused") continue;
      const last = corrections.filter(({ state }) => state !== "refused").at(-1);
      if (last) standing.push({ event: one.event, now: insteadOf(last) });
      // of what was sent long ago only the form still knows
      else standing.push(row ? { event: one.event, now: row.event.happened } : one);
    }
    if (standing.length > 0) now[name] = standing;
  }
  return now;
}

async function correctionsOf(event: string): Promise<Told[]> {
  const about = await database.told.where("about").equals(event).sortBy("order");
  return about.filter(({ event: { happened } }) => happened.kind === "corrected" && happened.event === event);
}

function insteadOf({ event: { happened } }: Told): Happened | undefined {
  return happened.kind === "corrected" ? ((happened.instead ?? undefined) as Happened | undefined) : undefined;
}

/** Tells what a form says. What was refused of the same before is replaced by it, and what hangs on it (`also`) is changed with it. */
export async function tellForm(form: string, all: readonly ToTell[], as: Actor, also?: () => PromiseLike<unknown>): Promise<void> {
  await database.transaction("rw", database.told, database.meta, database.drafts, database.photos, async () => {
    const before = await tellingsOf(form);
    const kept = await keptOf(form);
    for (const { name } of all) for (const { event } of kept[name ?? ""] ?? []) await deleteRefused(event);
    const steps = stepsFor(all, before);
    const told = await tellAll(steps.map(({ happened }) => happened), as);
    const now = structuredClone(before);
    steps.forEach(({ name, corrects, now: says }, at) => {
      if (name === undefined) return;
      const list = (now[name] ??= []);
      const corrected = list.find(({ event }) => event === corrects);
      if (corrected) corrected.now = says;
      else list.push({ event: told[at]!.id, now: says });
    });
    await database.drafts.put({ key: PREFIX + form, value: now });
    await also?.();
  });
}

/** An event that was refused, and what was to correct it or was refused as its correction: none of it is in the record. */
async function deleteRefused(event: string): Promise<void> {
  const isRefused = (await database.told.get(event))?.state === "refused";
  const corrections = await correctionsOf(event);
  const gone = corrections.filter(({ state }) => state === "refused" || (isRefused && state === "waiting"));
  await database.told.bulkDelete([...gone.map(({ id }) => id), ...(isRefused ? [event] : [])]);
}

/** Drops what was refused for good. What was told in its place afterwards stands: it is told as if it were the first. */
export async function dropRefused(refused: Told, as: Actor): Promise<void> {
  await database.transaction("rw", database.told, database.meta, database.drafts, async () => {
    const after = (await correctionsOf(refused.id)).filter(({ state }) => state !== "refused").at(-1);
    const instead = after && insteadOf(after);
    await deleteRefused(refused.id);
    const anew = instead && (await tell(instead, as)).id;
    for (const { key, value } of await database.drafts.where("key").startsWith(PREFIX).toArray()) {
      const tellings = Object.entries(value as Tellings);
      if (!tellings.some(([, told]) => told.some(({ event }) => event === refused.id))) continue;
      const now = tellings.map(([name, told]) => [name, told.flatMap((one) => (one.event !== refused.id ? [one] : anew ? [{ event: anew, now: instead }] : []))]);
      await database.drafts.put({ key, value: Object.fromEntries(now) });
    }
  });
}
