// What the record knows of each thing, as the server gives it and as the phone works it out further.
import type { components } from "../../api/schema";
import type { Happened } from "../../lib/store/database";

type Schemas = components["schemas"];

export type Teller = Schemas["Teller"];
export type KnownHole = Schemas["KnownHole"];
export type KnownRepair = Schemas["KnownRepair"];
export type KnownZone = Schemas["KnownZone"];
export type KnownRound = Schemas["KnownRound"];
export type KnownLayer = Schemas["KnownLayer"];
export type PlannedRepair = Schemas["PlannedRepair"];
export type PlannedZone = Schemas["PlannedZone"];
export type Position = Schemas["Position"];
export type Drainage = Schemas["Drainage"];
export type SealingWeather = Schemas["SealingWeather"];
export type Wetness = Schemas["Wetness"];
export type LanePosition = Schemas["LanePosition"];
export type HandFeel = Schemas["HandFeel"];
export type Of<K extends Happened["kind"]> = Extract<Happened, { kind: K }>;

/** A value that counts, with what others told of the same. */
export interface Told<T> {
  value: T;
  by: Teller;
  otherwise: { value: T; by: Teller }[];
}

export function noRepair(repair: string, at: string): KnownRepair {
  return {
    repair,
    state: "planned",
    holes: [],
    layers: [],
    inspections: [],
    failed_how: "",
    labour_min: "0",
    plant_min: "0",
    photos: [],
    signatures: [],
    last_told: at,
  } as unknown as KnownRepair;
}

export function noZone(zone: string, at: string): KnownZone {
  return { zone, holes: [], photos: [], signatures: [], stretches: null, last_told: at } as unknown as KnownZone;
}

export function noHole(hole: string, at: string): KnownHole {
  return { hole, state: "reported", reports: [], merged: [], repairs: [], photos: [], last_told: at } as unknown as KnownHole;
}
