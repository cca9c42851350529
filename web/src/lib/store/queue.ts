// What is told goes into the queue first and to the server when it can.
import { v7 } from "uuid";
import { clockAhead } from "../clock";
import { database, type Event, type Happened, type KeptPhoto, type Told } from "./database";

/** Schema that events are written in. */
export const SCHEMA = 1;

/** Who tells, on what. */
export interface Actor {
  actor: string;
  device: string;
}

/** Tells that something happened: writes it down, and gives what was written. It is sent by `sync`. */
export async function tell(happened: Happened, as: Actor): Promise<Told> {
  return (await tellAll([happened], as))[0]!;
}

/**
 * Tells several things in one go. What hangs on them (`also`: the form that was told, photos) is changed with them: all of it is
 * written down or none, so that a browser that is killed in between tells nothing twice.
 */
export async function tellAll(all: Happened[], { actor, device }: Actor, also?: (told: Told[]) => PromiseLike<unknown>): Promise<Told[]> {
  const tables = also ? [database.told, database.meta, database.drafts, database.photos] : [database.told, database.meta];
  return database.transaction("rw", tables, async () => {
    const ahead = await clockAhead();
    const last = await database.told.orderBy("order").last();
    let order = (last?.order ?? 0) + 1;
    const told = all.map((happened): Told => {
      const event = {
        id: v7(),
        schema: SCHEMA,
        actor,
        device,
        device_time: new Date().toISOString(),
        ...(ahead === 0 ? {} : { clock_ahead_ms: ahead }),
        happened,
      } as Event;
      return { id: event.id, order: order++, event, state: "waiting", about: numbersIn(happened) };
    });
    await database.told.bulkAdd(told);
    await also?.(told);
    return told;
  });
}

const NUMBER = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/;

/** Every number that stands in something told. */
export function numbersIn(value: unknown): string[] {
  const found = new Set<string>();
  const look = (value: unknown): void => {
    if (typeof value === "string") {
      if (NUMBER.test(value)) found.add(value);
    } else if (value && typeof value === "object") Object.values(value).forEach(look);
  };
  look(value);
  return [...found];
}

type Subject = Extract<Happened, { kind: "photo_taken" }>["of"];

/** A photo made ready to be kept: its file with its name. To be waited for before anything is written, since it takes its time. */
export async function photoOf(blob: Blob, of: Subject, note: string): Promise<{ kept: KeptPhoto; taken: Happened }> {
  const digest = await crypto.subtle.digest("SHA-256", await blob.arrayBuffer());
  const sha256 = [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return { kept: { sha256, blob, state: "waiting", about: numbersIn(of) }, taken: { kind: "photo_taken", photo: sha256, of, note } as Happened };
}

/** Keeps a photo and tells that it was taken. */
export async function keepPhoto(blob: Blob, of: Subject, note: string, as: Actor): Promise<string> {
  const { kept, taken } = await photoOf(blob, of, note);
  await tellAll([taken], as, () => database.photos.put(kept));
  return kept.sha256;
}
