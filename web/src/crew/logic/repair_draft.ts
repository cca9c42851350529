// A repair as it is filled in stage by stage, and what is told of it at the end of each stage.
import type { Happened } from "../../lib/store/database";
import type { ToTell } from "../../lib/store/tellings";
import { amountOf, countFor, decimal, litresOfOne, type Entered, type Good } from "./counts";
import type { Drainage, HandFeel, SealingWeather, Wetness } from "./known";
import type { SiteCount } from "./plan";
import type { Stage } from "./stages";

export interface LayerDraft {
  thickness_mm: number | undefined;
  moisture: HandFeel | undefined;
  /** Kind or source of the base; forms of an older app do not have it. */
  kind?: string;
  base: Entered;
  water: Entered;
  passes_still: number | undefined;
  passes_vibrating: number | undefined;
}

export interface RepairDraft {
  stage: Stage | undefined;
  checks: Record<string, boolean>;
  length_mm: number | undefined;
  width_mm: number | undefined;
  depths_mm: (number | undefined)[];
  bottom_firm: boolean | undefined;
  sides_upright: boolean | undefined;
  wetness: Wetness | undefined;
  drainage: Drainage | undefined;
  spoil: Entered;
  /** Which layer is being worked on, from 0. */
  layer: number;
  layers: LayerDraft[];
  dry: boolean | undefined;
  binder: string;
  binder_used: Entered;
  stone: Entered;
  sealed_area_m2: number | undefined;
  crown_mm: number | undefined;
  surface_c: number | undefined;
  weather: SealingWeather | undefined;
  air_c: number | undefined;
  people: number | undefined;
  minutes: number | undefined;
  /** When work on it began on this phone, milliseconds. */
  begun: number | undefined;
  note: string;
}

export function emptyLayer(): LayerDraft {
  return { thickness_mm: undefined, moisture: undefined, base: { count: undefined, in: "site" }, water: { count: undefined, in: "site" }, passes_still: undefined, passes_vibrating: undefined };
}

export function emptyRepair(): RepairDraft {
  return {
    stage: undefined,
    checks: {},
    length_mm: undefined,
    width_mm: undefined,
    depths_mm: [undefined, undefined, undefined],
    bottom_firm: undefined,
    sides_upright: undefined,
    wetness: undefined,
    drainage: undefined,
    spoil: { count: undefined, in: "site" },
    layer: 0,
    layers: [emptyLayer()],
    dry: undefined,
    binder: "",
    binder_used: { count: undefined, in: "own" },
    stone: { count: undefined, in: "site" },
    sealed_area_m2: undefined,
    crown_mm: undefined,
    surface_c: undefined,
    weather: undefined,
    air_c: undefined,
    people: undefined,
    minutes: undefined,
    begun: undefined,
    note: "",
  };
}

export interface Around {
  repair: string;
  holes: string[];
  zone: string | undefined;
  crew: string;
  counts: SiteCount[] | undefined;
}

function of(entered: Entered, good: Good, counts: SiteCount[] | undefined): string | undefined {
  return decimal(amountOf(entered, good, litresOfOne(countFor(counts, good))));
}

/** Without what is not known. */
function known<T extends object>(value: T): T {
  return Object.fromEntries(Object.entries(value).filter(([, one]) => one !== undefined && one !== "")) as T;
}

export function measuredArea(draft: RepairDraft): number | undefined {
  return draft.length_mm && draft.width_mm ? Number(((draft.length_mm * draft.width_mm) / 1e6).toFixed(4)) : undefined;
}

/** What stands in the record at the end of a stage; nothing where a stage has no event of its own. */
export function toTell(stage: Stage, draft: RepairDraft, around: Around): ToTell[] {
  const { repair } = around;
  switch (stage) {
    case "cut": {
      const depths = draft.depths_mm.filter((depth) => depth !== undefined);
      const cut = known({
        kind: "hole_cut",
        repair,
        holes: around.holes,
        zone: around.zone,
        area_m2: measuredArea(draft),
        depths_mm: depths.length > 0 ? depths : undefined,
        bottom_firm: draft.bottom_firm,
        sides_upright: draft.sides_upright,
        wetness: draft.wetness,
        drainage: draft.drainage,
      }) as Happened;
      const spoil = of(draft.spoil, "spoil", around.counts);
      const moved = { kind: "stock_moved", from: { at: "repair", repair }, to: { at: "truck", crew: around.crew }, item: { what: "spoil" }, amount: spoil } as unknown as Happened;
      return [
        { name: "cut", happened: cut },
        { name: "spoil", adds: true, happened: Number(spoil ?? 0) > 0 && around.crew ? moved : undefined },
      ];
    }
    case "compact": {
      const layer = draft.layers[draft.layer];
      if (!layer) return [];
      const placed = known({
        kind: "layer_placed",
        repair,
        layer: draft.layer + 1,
        thickness_mm: layer.thickness_mm,
        base: layer.kind?.trim(),
        base_loose_m3: of(layer.base, "base", around.counts),
        water_l: of(layer.water, "water", around.counts),
        moisture: layer.moisture,
        passes_still: layer.passes_still,
        passes_vibrating: layer.passes_vibrating,
      }) as Happened;
      return [{ name: `layer/${draft.layer + 1}`, happened: placed }];
    }
    case "seal":
      return [
        {
          name: "sealed",
          happened: known({
            kind: "sealed",
            repair,
            binder: draft.binder.trim(),
            binder_l: of(draft.binder_used, "binder", around.counts),
            cover_stone_m3: of(draft.stone, "cover_stone", around.counts),
            area_m2: draft.sealed_area_m2,
            crown_mm: draft.crown_mm,
            dry: draft.dry,
            weather: draft.weather,
            air_temperature_c: draft.air_c,
          }) as Happened,
        },
      ];
    case "clean_up":
      return [{ name: "opened", happened: { kind: "opened_to_traffic", repair } as Happened }];
    default:
      return [];
  }
}

/** What is told when somebody answers for the repair: the time, and the signature with what was not ticked. */
export function toSign(draft: RepairDraft, around: Around, unticked: string[], role: string): ToTell[] {
  const labour = decimal((draft.minutes ?? 0) * (draft.people ?? 1));
  const time = { kind: "time_booked", on: { repair: around.repair }, crew: around.crew, labour_min: labour, plant_min: decimal(draft.minutes) } as Happened;
  const note = [draft.note.trim(), ...unticked].filter((part) => part !== "").join("; ");
  return [
    { name: "time", adds: true, happened: draft.minutes && around.crew ? time : undefined },
    { happened: known({ kind: "signed", of: { repair: around.repair }, role, note }) as Happened },
  ];
}

/** Under which what a repair's form told is found. */
export function repairForm(repair: string): string {
  return `repair/${repair}`;
}
