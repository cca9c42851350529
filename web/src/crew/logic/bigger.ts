// "It is bigger than planned": layers and fill at once, from the plan's own table and rates. The office works it out anew; until then
// the crew can go on. Nothing of the trade is worked out here: rows of the plan are scaled by area.
import type { Deeper, Plan, PlanRepair } from "./plan";

export interface Bigger {
  area_m2: number;
  depth_m: number;
  /** Row of the plan that was taken: the first that is as deep. */
  row: Deeper;
  /** Deeper than the plan's table goes: amounts are the last row's in proportion to depth, layers as thick as its at most. */
  beyond: boolean;
  layer_count: number;
  layer_thickness_m: number;
  base_loose_m3: number;
  water_l: number;
  binder_l: number;
  cover_stone_m3: number;
  spoil_m3: number;
  /** What is needed beyond the plan's amounts. */
  more: { base_loose_m3: number; water_l: number; binder_l: number; cover_stone_m3: number; spoil_m3: number };
}

/** The plan's rows, the planned depth first, by depth. */
export function rows(repair: PlanRepair): Deeper[] {
  const planned: Deeper = {
    depth_m: repair.depth_m.value,
    layer_count: repair.layer_count.value,
    layer_thickness_m: repair.layer_thickness_m.value,
    fill_volume_m3: 0,
    loose_volume_m3: repair.loose_volume_m3.value,
    water_to_add_kg: repair.water_to_add_kg.value,
  };
  return [planned, ...repair.deeper].sort((a, b) => a.depth_m - b.depth_m);
}

export function bigger(repair: PlanRepair, now: { depth_m: number; area_m2: number }): Bigger {
  const all = rows(repair);
  const last = all[all.length - 1]!;
  // a hair's breadth is no reason for the next row
  const row = all.find((row) => row.depth_m >= now.depth_m - 1e-6) ?? last;
  const beyond = now.depth_m > last.depth_m + 1e-6;
  const area = now.area_m2 / repair.cut_area_m2.value;
  const deep = beyond ? now.depth_m / last.depth_m : 1;
  const thickest = Math.max(...all.map((row) => row.layer_thickness_m));
  const layer_count = beyond ? Math.max(last.layer_count, Math.ceil(now.depth_m / thickest - 1e-6)) : row.layer_count;
  const amounts = {
    base_loose_m3: row.loose_volume_m3 * area * deep,
    water_l: row.water_to_add_kg * area * deep,
    binder_l: repair.binder_volume_hot_l.value * area,
    cover_stone_m3: repair.cover_volume_m3.value * area,
    spoil_m3: repair.spoil_volume_m3.value * area * (now.depth_m / repair.depth_m.value),
  };
  return {
    ...now,
    row,
    beyond,
    layer_count,
    layer_thickness_m: now.depth_m / layer_count,
    ...amounts,
    more: {
      base_loose_m3: amounts.base_loose_m3 - repair.loose_volume_m3.value,
      water_l: amounts.water_l - repair.water_to_add_kg.value,
      binder_l: amounts.binder_l - repair.binder_volume_hot_l.value,
      cover_stone_m3: amounts.cover_stone_m3 - repair.cover_volume_m3.value,
      spoil_m3: amounts.spoil_m3 - repair.spoil_volume_m3.value,
    },
  };
}

/** Seconds after the last stone before which no traffic runs, for a surface: the plan's row for the warmest that is not warmer. */
export function openAfter(repair: PlanRepair, surface_c: number | undefined): number | undefined {
  const table = [...repair.opening.by_temperature].sort((a, b) => a.surface_c - b.surface_c);
  if (table.length === 0 || surface_c === undefined) return repair.opening.open_after_s.value;
  return table.filter((row) => row.surface_c <= surface_c).pop()?.open_after_s;
}

export type Loaded = "base_loose_m3" | "water_l" | "binder_l" | "cover_stone_m3";

/** What the truck carries on a site's trip beyond what the holes of the trip were planned to take; nothing for a site in no trip. */
export function spareOnTruck(plan: Plan, site: number): Record<Loaded, number> | undefined {
  const trip = plan.round.trips.findIndex((sites) => sites.includes(site));
  const load = plan.loads[trip]?.total;
  if (!load) return undefined;
  const repairs = plan.round.trips[trip]!.flatMap((one) => plan.sites[one]?.jobs ?? []).flatMap((job) => plan.jobs[job]?.repair ?? []);
  const planned = (of: (repair: PlanRepair) => number): number => repairs.reduce((sum, repair) => sum + of(repair), 0);
  return {
    base_loose_m3: load.base_volume_m3 - planned((repair) => repair.loose_volume_m3.value),
    water_l: load.water_volume_l - planned((repair) => repair.water_to_add_kg.value),
    binder_l: load.binder_volume_l - planned((repair) => repair.binder_volume_hot_l.value),
    cover_stone_m3: load.cover_volume_m3 - planned((repair) => repair.cover_volume_m3.value),
  };
}
