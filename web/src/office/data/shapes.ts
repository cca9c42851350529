// What is known of holes, repairs, zones, rounds and new surfaces, as the office reads it. The document of the server numbers the kinds of told values;
// here they have one generic name.
import type { components } from "../../api/schema";

type Schemas = components["schemas"];
export type Teller = Schemas["Teller"];
export type Position = Schemas["Position"];
export type PlannedRepair = Schemas["PlannedRepair"];
export type PlannedZone = Schemas["PlannedZone"];
export type ZoneStretch = Schemas["ZoneStretch"];
export type PhotoFile = Schemas["PhotoFileShown"];
export type HoleState = Schemas["HoleState"];
export type RepairState = Schemas["RepairState"];

/** A value that counts, with what others told of the same. */
export interface Told<T> {
  value: T;
  by: Teller;
  otherwise: { value: T; by: Teller }[];
}
export type Maybe<T> = Told<T> | null;

export interface Photo {
  photo: string;
  by: Teller;
  note: string;
  position?: Position | null;
}
export interface Signature {
  by: Teller;
  role: string;
  note: string;
}

export interface Hole {
  hole: string;
  state: HoleState;
  position: Maybe<Position>;
  length_mm: Maybe<number>;
  width_mm: Maybe<number>;
  depth_mm: Maybe<number>;
  lane_position: Maybe<string>;
  wetness: Maybe<string>;
  seen: string | null;
  reports: { by: Teller; note: string; source: string; reference: string; contact: string | null }[];
  same_as: Maybe<string>;
  merged: string[];
  dismissed: Maybe<string>;
  /** The new surface that it is gone with. */
  resurfaced: Maybe<string>;
  repairs: string[];
  photos: Photo[];
  last_told: string;
}

export interface Layer {
  layer: number;
  base: Maybe<string>;
  thickness_mm: Maybe<number>;
  base_loose_m3: Maybe<string>;
  water_l: Maybe<string>;
  moisture: Maybe<string>;
  passes_still: Maybe<number>;
  passes_vibrating: Maybe<number>;
}

export interface Repair {
  repair: string;
  state: RepairState;
  holes: string[];
  position: Position | null;
  zone: Maybe<string>;
  round: Maybe<string>;
  planned: Maybe<PlannedRepair>;
  area_m2: Maybe<number>;
  depths_mm: Maybe<number[]>;
  bottom_firm: Maybe<boolean>;
  sides_upright: Maybe<boolean>;
  wetness: Maybe<string>;
  drainage: Maybe<string>;
  weather: Maybe<string>;
  air_temperature_c: Maybe<number>;
  layers: Layer[];
  binder_l: Maybe<string>;
  binder: Maybe<string>;
  cover_stone_m3: Maybe<string>;
  sealed_area_m2: Maybe<number>;
  crown_mm: Maybe<number>;
  dry: Maybe<boolean>;
  cut: Teller | null;
  sealed: Teller | null;
  opened: Teller | null;
  inspections: { by: Teller; found: string; note: string }[];
  failed: Teller | null;
  failed_how: string;
  failed_hole: string | null;
  labour_min: string;
  plant_min: string;
  photos: Photo[];
  signatures: Signature[];
  last_told: string;
}

export interface Zone {
  zone: string;
  round: Maybe<string>;
  holes: string[];
  position: Maybe<Position>;
  road: Maybe<string>;
  layout: Maybe<string>;
  devices_out: Maybe<number>;
  stretches: Maybe<ZoneStretch[]>;
  devices_in: Maybe<number>;
  opened: Teller | null;
  closed: Teller | null;
  photos: Photo[];
  signatures: Signature[];
  last_told: string;
}

export interface Round {
  round: string;
  date: Maybe<string>;
  crew: Maybe<string>;
  repairs: Maybe<PlannedRepair[]>;
  planned_zones: PlannedZone[];
  plan: Maybe<string>;
  zones: string[];
  labour_min: string;
  plant_min: string;
  signatures: Signature[];
  last_told: string;
}

/** A stretch of road that got a new surface. */
export interface Resurfacing {
  resurfacing: string;
  told: Teller;
  date: Told<string>;
  from: Told<Position>;
  to: Told<Position>;
  road: Maybe<string>;
  side: Maybe<string>;
  work: Told<string>;
  holes: string[];
  note: string;
  photos: Photo[];
  signatures: Signature[];
  last_told: string;
}

export interface Row<K> {
  position: number;
  place?: Position | null;
  photo_files?: PhotoFile[];
  known: K;
}

export interface KnownKinds {
  holes: Hole;
  repairs: Repair;
  zones: Zone;
  rounds: Round;
  resurfacings: Resurfacing;
}

/** The office's words for a district: who works, where, by what measures. */
export interface District {
  name: string;
  language: string;
  units: "si" | "us_customary";
  driving_side: "right" | "left";
  time_zone: string;
  today: string;
  currency: string;
  bounds: [number, number, number, number] | null;
  has_district_file: boolean;
  /** What must be said wherever the roads are drawn. */
  road_attribution?: string | null;
  crews: { name: string; people: number; shift_start: string; shift_end: string; truck: string }[];
  depots: { name: string; position: Position; kind: "depot" | "stockpile" | "tip" }[];
  binders: string[];
}

export interface WeatherHour {
  at: string;
  to?: string;
  temperature_c: number;
  rain_mm: number;
  workable: boolean;
  why: string;
}
export interface WeatherDay {
  date: string;
  sunrise: string | null;
  sunset: string | null;
  hours: WeatherHour[];
  not_forecast: [string, string][];
}
