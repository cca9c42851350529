// What the phone has to know of the district: its units, its day, its binders. Kept, so that it is known without signal.
import { ownHeaders } from "../lib/api";
import { setUnits, type Units } from "../lib/measure.svelte";
import { database } from "../lib/store/database";

interface District {
  units: Units;
  time_zone: string;
  binders: string[];
}

let known = $state.raw<District | undefined>(undefined);

/** Names of binders as the books have them. */
export function binders(): readonly string[] {
  return known?.binders ?? [];
}

/** As it was known last; then as the server says, where it can be asked. */
export async function startDistrict(): Promise<void> {
  const kept = (await database.meta.get("district"))?.value as District | undefined;
  if (kept) take(kept);
  try {
    const answer = await fetch("/api/district", { headers: ownHeaders() });
    if (!answer.ok) return;
    const { units, time_zone, binders } = (await answer.json()) as District;
    const now = { units, time_zone, binders };
    take(now);
    await database.meta.bulkPut([
      { key: "district", value: now },
      { key: "time_zone", value: time_zone },
    ]);
  } catch {
    // without signal it stays as it was known
  }
}

function take(district: District): void {
  known = district;
  setUnits(district.units === "us_customary" ? "us_customary" : "si");
}
