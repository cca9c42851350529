// Repairs with known lives, told to a server as crews and inspectors would have told them over the last year.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { House } from "./house";

const DAY = 86_400_000;
const CREWS = ["Crew Fulmar", "Crew Petrel"] as const;
/** Of each crew's repairs, every so manieth fails. */
const FAILS = { "Crew Fulmar": 4, "Crew Petrel": 2 } as const;

export interface ToldLives {
  repairs: Record<(typeof CREWS)[number], number>;
  failures: Record<(typeof CREWS)[number], number>;
}

let count = 0;
/** A number of version 7: the time, then a count. */
function numberAt(at: number): string {
  count += 1;
  const ms = Math.floor(at).toString(16).padStart(12, "0");
  return `${ms.slice(0, 8)}-${ms.slice(8)}-7000-8000-${count.toString(16).padStart(12, "0")}`;
}

/** Sixteen rounds of three repairs, two of three at wet holes; what fails is found by a look 40 days and more after opening. */
export async function tellLives(house: House, now = Date.now()): Promise<ToldLives> {
  const roads = JSON.parse(readFileSync(join(house.folder, "roads.geojson"), "utf8")).features.filter((one: any) => one.properties.surface === "chipseal");
  const told: ToldLives = { repairs: { "Crew Fulmar": 0, "Crew Petrel": 0 }, failures: { "Crew Fulmar": 0, "Crew Petrel": 0 } };
  const events: object[] = [];
  const tell = (at: number, happened: object): void => void events.push({ id: numberAt(at), schema: 1, actor: "mara", device: "browser", device_time: new Date(at).toISOString(), happened });
  for (let round = 0; round < 16; round += 1) {
    const crew = CREWS[round % 2]!;
    const begin = now - (340 - round * 20) * DAY;
    const sites = [0, 1, 2].map((at) => {
      const road = roads[round * 3 + at];
      const [lon, lat] = road.geometry.coordinates[Math.floor(road.geometry.coordinates.length / 2)];
      return { hole: numberAt(begin), repair: numberAt(begin), road: road.properties.name ?? "", position: { lon, lat }, wet: at < 2 };
    });
    for (const { hole, position } of sites) tell(begin - 5 * DAY, { kind: "hole_reported", hole, position, size: { length_mm: 700, width_mm: 500, depth_mm: 90 }, source: "patrol" });
    const number = numberAt(begin);
    const repairs = sites.map(({ hole, repair, road }) => ({ repair, holes: [hole], road, area_m2: 0.8, base_loose_m3: "0.100", water_l: "4", binder_l: "1.7", cover_stone_m3: "0.010", minutes: "40" }));
    tell(begin - DAY, { kind: "round_planned", round: number, date: new Date(begin).toISOString().slice(0, 10), crew, repairs });
    sites.forEach(({ hole, repair, wet }, at) => {
      const start = begin + at * 3_600_000;
      tell(start, { kind: "hole_cut", repair, holes: [hole], area_m2: 0.8, depths_mm: [110], bottom_firm: true, sides_upright: true, wetness: wet ? "wet" : "dry" });
      tell(start + 900_000, { kind: "layer_placed", repair, layer: 1, thickness_mm: 100, base_loose_m3: "0.110", water_l: "4.5", moisture: "keeps_shape", passes_still: 2, passes_vibrating: 6 });
      tell(start + 1_800_000, { kind: "sealed", repair, binder_l: "1.8", binder: "CRS-2", cover_stone_m3: "0.011", area_m2: 0.8, dry: true });
      tell(start + 2_400_000, { kind: "opened_to_traffic", repair });
      told.repairs[crew] += 1;
      const looked = start + (40 + round + 7 * at) * DAY;
      if (looked < now && told.repairs[crew] % FAILS[crew] === 0) {
        tell(looked, { kind: "inspected", repair, found: "failed" });
        told.failures[crew] += 1;
      }
    });
    tell(begin + 4 * 3_600_000, { kind: "time_booked", on: { round: number }, crew, labour_min: "720", plant_min: "240" });
  }
  const { status, value } = await house.call("mara", "POST", "/api/events", { events });
  const refused = (value.events ?? []).filter((one: any) => one.outcome !== "recorded");
  if (status !== 200 || refused.length > 0) throw new Error(`${status}: ${JSON.stringify(refused[0] ?? value)}`);
  return told;
}
