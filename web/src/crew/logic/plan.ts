// Of a round's `plan.json` and `numbers.json` what the phone shows; the shape is the handbook's (plan-json.schema.json).

export interface Figure {
  value: number;
  p10: number | null;
  p50: number | null;
  p90: number | null;
  why: string;
}

export interface SiteCount {
  /** `base`, `water`, `binder`, `cover_stone` or `spoil`. */
  good: string;
  unit: string;
  plural: string;
  /** Litres that one holds; plans made by older programs do not say. */
  unit_l?: number;
  count: Figure;
  words: string;
}

export interface Deeper {
  depth_m: number;
  layer_count: number;
  layer_thickness_m: number;
  fill_volume_m3: number;
  loose_volume_m3: number;
  water_to_add_kg: number;
}

export interface PlanRepair {
  depth_m: Figure;
  cut_area_m2: Figure;
  layer_count: Figure;
  layer_thickness_m: Figure;
  loose_layer_thickness_m: Figure;
  layers: { number: number; compactor: string; thickness_m: number; loose_thickness_m: number; loose_volume_m3: number; static_passes: number; vibrating_passes: number; lanes: number }[];
  crown: { middle_m: Figure };
  loose_volume_m3: Figure;
  water_to_add_kg: Figure;
  water_to_dry_kg: Figure;
  seal_area_m2: Figure;
  binder_volume_hot_l: Figure;
  cover_volume_m3: Figure;
  spoil_volume_m3: Figure;
  site_counts: SiteCount[];
  compactor: string;
  static_passes: Figure;
  vibrating_passes: Figure;
  duration_s: Figure;
  deeper: Deeper[];
  remarks: string[];
  opening: { by_temperature: { surface_c: number; open_after_s: number }[]; open_after_s: Figure; speed_km_per_h: Figure; slow_for_s: Figure; sweep_after_s: Figure };
  cautions: string[];
}

export interface PlanJob {
  holes: number[];
  site: number;
  centre: [number, number];
  cut: { length_m: number; width_m: number; cut_area_m2: Figure; perimeter_m: Figure; remarks: string[] };
  repair: PlanRepair;
}

export interface Device {
  kind: string;
  designation: string;
  legend: string;
  approach: string;
  chainage_m: number;
  across_m: number;
  spacing_m: number;
  why: string;
}

export interface CrewMove {
  step: string;
  devices: number[];
  driven_m: number;
  walked_m: number;
  turns: number;
}

export interface WorkZone {
  layout_name: string;
  layout_reason: string;
  duration_class: string;
  travel: string;
  side: string;
  work_from_m: number;
  work_to_m: number;
  devices: Device[];
  flaggers: Figure;
  control: { method: string; reason: string };
  out: CrewMove[];
  back: CrewMove[];
  set_up_s: Figure;
  take_in_s: Figure;
  remarks: string[];
  not_laid_out?: string | null;
}

export interface PlanSite {
  jobs: number[];
  place: [number, number];
  chainage_from: string;
  chainage_towards: string;
  windows: [string, string][];
  zone: WorkZone;
}

/** A look at an earlier repair, a short stop on the way. */
export interface PlanLook {
  repair: string;
  place: [number, number];
  road: string;
  chainage_m: number;
  /** Where that counts from, and towards what; plans made by older programs do not say. */
  chainage_from?: string;
  chainage_towards?: string;
  due: boolean;
  why: string;
  stop_s: number;
  detour_s: number;
  detour_m: number;
}

export interface Stop {
  kind: string;
  site: number | null;
  trip: number | null;
  /** Plans made by older programs do not have it. */
  look?: number | null;
  from: string;
  to: string;
}

export interface Plan {
  district: { name: string; time_zone: string; depot: string; depot_place: [number, number]; crew: string; people: number; load_confidence: number };
  date: string;
  daylight?: { sunrise: string; sunset: string };
  holes: { id: string; note: string; place: [number, number]; road: { label: string }; chainage_m: number; side: string }[];
  jobs: PlanJob[];
  sites: PlanSite[];
  /** Plans made by older programs have none. */
  looks?: PlanLook[];
  round: { trips: number[][]; timetable: Stop[]; ways: { travel_s: number; distance_m: number; line: [number, number][] }[] };
  loads: {
    total: { base_volume_m3: number; cover_volume_m3: number; binder_volume_l: number; water_volume_l: number };
    suffices: number;
    suffices_by_material: Record<string, number>;
    nearest: { what: string; place: string; travel_s: number }[];
    lines: { container: string; content: string; volume_m3: number; mass_kg: number; site_count: SiteCount | null }[];
    signs: number;
    cones: number;
  }[];
}

export interface Numbers {
  round: string;
  repairs: { job: number; repair: string; holes: string[] }[];
  zones: { site: number; zone: string; holes: string[] }[];
}

/** Reads a plan; nothing where it is none of ours. */
export function readPlan(text: string): Plan | undefined {
  try {
    const plan = JSON.parse(text) as Plan;
    return Array.isArray(plan.jobs) && Array.isArray(plan.sites) && plan.round ? plan : undefined;
  } catch {
    return undefined;
  }
}

/** How far the thing driven to a stop lies, metres: the ways are those between the places of the timetable, in order. */
export function drivenTo(plan: Plan, stop: number): { distance_m: number; travel_s: number } | undefined {
  const way = plan.round.timetable.slice(0, stop + 1).filter((one) => one.kind === "drive").length - 1;
  return plan.round.timetable[stop]?.kind === "drive" ? plan.round.ways[way] : undefined;
}

/** Where a device stands, seen by its own traffic: metres before the work (negative: past its beginning). */
export function beforeWork(zone: WorkZone, device: Device): number {
  return device.approach === "backward" ? device.chainage_m - zone.work_to_m : zone.work_from_m - device.chainage_m;
}
