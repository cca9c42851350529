// What lies on the device: the queue of what was told, photos, what is known, files of rounds, half-filled forms. Everything is written
// here before it is shown, so that a killed browser loses nothing.
import Dexie, { type EntityTable } from "dexie";
import type { components } from "../../api/schema";

export type Event = components["schemas"]["Event"];
export type Happened = components["schemas"]["Happened"];
export type KnownWhat = "holes" | "repairs" | "zones" | "rounds" | "resurfacings";

/** One thing told on this device. */
export interface Told {
  /** The event's number; makes telling twice the same as once. */
  id: string;
  /** In the order of telling. */
  order: number;
  event: Event;
  state: "waiting" | "sent" | "refused";
  /** What the server said to it. */
  why?: string;
  /** Its place in the record, once it is there: rows of what is known that are older do not have it yet. */
  position?: number;
  /** When the server had confirmed it, milliseconds. */
  confirmed?: number;
  /** Numbers of holes, repairs, zones and rounds that it is about, to find it. */
  about: string[];
}

export interface KeptPhoto {
  /** SHA-256 of the file, hexadecimal: its name. */
  sha256: string;
  blob: Blob;
  /** Refused: the server takes no such file; it stays here. Sent: the server said that all of it has come. */
  state: "waiting" | "sent" | "refused";
  /** When the server had confirmed it, milliseconds. */
  confirmed?: number;
  /** The file is only a small picture of it any more, to be seen here. */
  small?: boolean;
  about: string[];
}

export interface KeptKnown {
  /** `holes/…number…` */
  key: string;
  what: KnownWhat;
  id: string;
  row: components["schemas"]["KnownRow"];
}

export interface KeptFile {
  /** `…round…/plan.json` */
  key: string;
  round: string;
  sha256: string;
  blob: Blob;
}

export interface Draft {
  key: string;
  value: unknown;
}

export const database = new Dexie("lengthsman") as Dexie & {
  meta: EntityTable<{ key: string; value: unknown }, "key">;
  told: EntityTable<Told, "id">;
  photos: EntityTable<KeptPhoto, "sha256">;
  known: EntityTable<KeptKnown, "key">;
  files: EntityTable<KeptFile, "key">;
  drafts: EntityTable<Draft, "key">;
};

database.version(1).stores({
  meta: "key",
  told: "id, order, state, *about",
  photos: "sha256, state, *about",
  known: "key, what, id",
  files: "key, round",
  drafts: "key",
});

export async function forgetEverything(): Promise<void> {
  await Promise.all(database.tables.map((table) => table.clear()));
}
