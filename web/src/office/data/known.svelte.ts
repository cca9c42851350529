// Everything that is known, in memory: read once from the device's own database, and again of what has changed. So a list or a map of ten
// thousand holes is drawn without asking the server.
import { liveQuery } from "dexie";
import { database, type KnownWhat } from "../../lib/store/database";
import type { Hole, KnownKinds, Repair, Resurfacing, Round, Row, Zone } from "./shapes";

const WHAT: KnownWhat[] = ["holes", "repairs", "zones", "rounds", "resurfacings"];

class All<K> {
  /** Newest first. */
  rows = $state.raw<Row<K>[]>([]);
  byId = $state.raw<ReadonlyMap<string, Row<K>>>(new Map());
}

const all = { holes: new All<Hole>(), repairs: new All<Repair>(), zones: new All<Zone>(), rounds: new All<Round>(), resurfacings: new All<Resurfacing>() };
const state = $state({ isRead: false });

/** Whether the first reading is over. */
export function isRead(): boolean {
  return state.isRead;
}
export const holes = (): Row<Hole>[] => all.holes.rows;
export const repairs = (): Row<Repair>[] => all.repairs.rows;
export const zones = (): Row<Zone>[] => all.zones.rows;
export const rounds = (): Row<Round>[] => all.rounds.rows;
export const resurfacings = (): Row<Resurfacing>[] => all.resurfacings.rows;
export const hole = (id: string): Row<Hole> | undefined => all.holes.byId.get(id);
export const repair = (id: string): Row<Repair> | undefined => all.repairs.byId.get(id);
export const zone = (id: string): Row<Zone> | undefined => all.zones.byId.get(id);
export const round = (id: string): Row<Round> | undefined => all.rounds.byId.get(id);
export const resurfacing = (id: string): Row<Resurfacing> | undefined => all.resurfacings.byId.get(id);

async function read<W extends KnownWhat>(what: W): Promise<void> {
  const kept = await database.known.where("what").equals(what).toArray();
  const rows = kept.map(({ row }) => row as unknown as Row<KnownKinds[W]>);
  rows.sort((a, b) => (a.known.last_told < b.known.last_told ? 1 : -1));
  const place = all[what] as unknown as All<KnownKinds[W]>;
  place.rows = rows;
  const id = what.slice(0, -1);
  place.byId = new Map(rows.map((row) => [(row.known as unknown as Record<string, string>)[id]!, row]));
}

/** Reads, and reads again whenever new things have come from the server; until the answer is called. */
export function keepReading(): () => void {
  const positions = new Map<string, unknown>();
  const watched = liveQuery(() => database.meta.where("key").startsWith("position/").toArray()).subscribe({
    next: async (now) => {
      const changed = WHAT.filter((what) => {
        const valueOf = (name: string): unknown => now.find(({ key }) => key === name)?.value ?? 0;
        const position = `${valueOf(`position/${what}`)} ${valueOf(`position/${what}/gone`)}`;
        const isNew = positions.get(what) !== position;
        positions.set(what, position);
        return isNew;
      });
      await Promise.all(changed.map((what) => read(what)));
      state.isRead = true;
    },
  });
  return () => watched.unsubscribe();
}
