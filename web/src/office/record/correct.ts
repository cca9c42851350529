// What of an event can be put right in a form, and the event that says so. Whose it is, and of what, stays.
import type { Event, Happened } from "../../lib/store/database";
import { inOrder, judged } from "../../lib/in_force";
import { fromShown, toShown, type Measure } from "../../lib/measure.svelte";
import { DRAINAGE, HAND_FEELS, LANE_POSITIONS, SEALING_WEATHER, STRETCH_SIDES, SURFACE_WORKS, WETNESS } from "../../lib/record_words";

export interface Field {
  /** `size.depth_mm`. */
  path: string;
  as: "number" | "whole" | "decimal" | "list" | "yes" | "words" | "text" | "date";
  measure?: Measure;
  words?: readonly string[];
  /** The event is none without it. */
  needed?: boolean;
  /** May be below nothing. */
  below?: boolean;
}

const mm = (path: string): Field => ({ path, as: "number", measure: "mm" });
const amount = (path: string, measure: Measure): Field => ({ path, as: "decimal", measure });
const text = (path: string, needed = false): Field => ({ path, as: "text", needed });
const yes = (path: string): Field => ({ path, as: "yes" });
const whole = (path: string, needed = false): Field => ({ path, as: "whole", needed });
const WET: Field = { path: "wetness", as: "words", words: WETNESS };
const place = (...paths: string[]): Field[] => paths.map((path) => ({ path, as: "number", needed: true, below: true }));
const PLACE = place("position.lat", "position.lon");
const SIZE: Field[] = [
  mm("size.length_mm"),
  mm("size.width_mm"),
  mm("size.depth_mm"),
  { path: "size.lane_position", as: "words", words: LANE_POSITIONS },
  { ...WET, path: "size.wetness" },
];

const FIELDS: Partial<Record<Happened["kind"], Field[]>> = {
  hole_reported: [...SIZE, ...PLACE, { path: "seen", as: "date" }, text("note")],
  hole_measured: [...SIZE, text("note")],
  holes_merged: [text("why", true)],
  hole_dismissed: [text("why", true), yes("dealt_with")],
  zone_opened: [whole("devices_out"), text("road"), text("layout"), ...PLACE],
  zone_closed: [whole("devices_in")],
  hole_cut: [{ path: "area_m2", as: "number", measure: "m2" }, { path: "depths_mm", as: "list", measure: "mm" }, yes("bottom_firm"), yes("sides_upright"), WET, { path: "drainage", as: "words", words: DRAINAGE }],
  layer_placed: [whole("layer", true), mm("thickness_mm"), text("base"), amount("base_loose_m3", "m3"), amount("water_l", "l"), { path: "moisture", as: "words", words: HAND_FEELS }, whole("passes_still"), whole("passes_vibrating")],
  sealed: [amount("binder_l", "l"), text("binder"), amount("cover_stone_m3", "m3"), { path: "area_m2", as: "number", measure: "m2" }, { ...mm("crown_mm"), below: true }, yes("dry"), { path: "weather", as: "words", words: SEALING_WEATHER }, { path: "air_temperature_c", as: "number", measure: "c", below: true }],
  inspected: [{ path: "found", as: "words", words: ["holds", "worn", "failed"], needed: true }, text("note")],
  failed: [text("how")],
  road_resurfaced: [
    { path: "date", as: "date", needed: true },
    { path: "work", as: "words", words: SURFACE_WORKS, needed: true },
    text("road"),
    { path: "side", as: "words", words: STRETCH_SIDES },
    ...place("from.lat", "from.lon", "to.lat", "to.lon"),
    text("note"),
  ],
  time_booked: [
    { path: "labour_min", as: "decimal", needed: true },
    { path: "plant_min", as: "decimal", needed: true },
  ],
  photo_taken: [text("note")],
};

/** What can be put right of it; a signature, a plan, an opening either happened or did not. */
export function fieldsOf(happened: Happened): Field[] {
  if (happened.kind === "stock_moved" || happened.kind === "stock_counted") {
    const { what } = happened.item as { what: string };
    const measure: Measure | undefined = what === "binder" || what === "water" ? "l" : what === "base" || what === "cover_stone" || what === "spoil" ? "m3" : undefined;
    return [{ path: "amount", as: "decimal", needed: true, ...(measure ? { measure } : {}) }];
  }
  return FIELDS[happened.kind] ?? [];
}

export function valueAt(happened: Happened, path: string): unknown {
  return path.split(".").reduce<any>((value, part) => value?.[part], happened);
}

/** As it stands in the form, in the reader's units. */
export function textOf(field: Field, value: unknown): string {
  if (value === undefined || value === null) return "";
  if (Array.isArray(value)) return value.map((one) => textOf({ ...field, as: "number" }, one)).join(" ");
  if (field.measure) return String(Number(toShown(Number(value), field.measure).toFixed(4)));
  return String(value);
}

/** What was typed, as the record keeps it; `undefined` where nothing stands there. Throws what is no such value. */
function valueOf(field: Field, typed: string): unknown {
  const words = typed.trim();
  if (words === "") {
    if (field.needed) throw new Error(field.path);
    return undefined;
  }
  if (field.as === "text" || field.as === "words" || field.as === "date") return words;
  if (field.as === "yes") return words === "true";
  // "50,60" may be two numbers or one: who typed it says which, with a space
  if (field.as === "list" && /\d,\d\d/.test(words)) throw new Error(field.path);
  if (field.as === "list") return words.split(/[\s;]+/).map((one) => valueOf({ ...field, as: "number" }, one));
  const number = Number(words.replace(",", "."));
  if (!Number.isFinite(number) || (number < 0 && !field.below) || (field.as === "whole" && !Number.isInteger(number))) throw new Error(field.path);
  const value = Number((field.measure ? fromShown(number, field.measure) : number).toFixed(6));
  return field.as === "decimal" ? value.toFixed(6).replace(/\.?0+$/, "") : value;
}

/** What happened instead, with what was typed in place of what was told; the path of the first field that is not right. */
export function insteadOf(happened: Happened, typed: Readonly<Record<string, string>>): { instead: Happened } | { wrong: string } {
  const instead = structuredClone(happened) as Record<string, any>;
  for (const field of fieldsOf(happened)) {
    const now = typed[field.path];
    // what was not touched stays to the last digit
    if (now === undefined || now === textOf(field, valueAt(happened, field.path))) continue;
    let value: unknown;
    try {
      value = valueOf(field, now);
    } catch {
      return { wrong: field.path };
    }
    const parts = field.path.split(".");
    const last = parts.pop()!;
    const inside = parts.reduce<Record<string, any>>((at, part) => (at[part] ??= {}), instead);
    if (value === undefined) delete inside[last];
    else inside[last] = value;
  }
  return { instead: instead as Happened };
}

export interface Difference {
  path: string;
  was: unknown;
  now: unknown;
}

/** What two tellings of the same say differently, of what a form can put right. */
export function differences(was: Happened, now: Happened): Difference[] {
  return fieldsOf(was).flatMap(({ path }) => {
    const [before, after] = [valueAt(was, path), valueAt(now, path)];
    return JSON.stringify(before ?? null) === JSON.stringify(after ?? null) ? [] : [{ path, was: before, now: after }];
  });
}

/** An event with all that was said of it afterwards. */
export interface Story {
  event: Event;
  corrections: { event: Event; decides: boolean }[];
  /** Whether it counts as it was told first. */
  counts: boolean;
  /** What counts; nothing: it did not happen. */
  now: Happened | undefined;
}

/** Events with their corrections, and those of corrections, in the order in which they happened. */
export function storiesOf(events: readonly Event[]): Story[] {
  const all = new Map(events.map((event) => [event.id, event]));
  const rootOf = (event: Event): string => {
    const seen = new Set<string>();
    let at = event;
    while (at.happened.kind === "corrected" && !seen.has(at.id)) {
      seen.add(at.id);
      const target = all.get(at.happened.event);
      if (!target) return at.happened.event;
      at = target;
    }
    return at.id;
  };
  const corrections = events.filter(({ happened }) => happened.kind === "corrected").sort(inOrder);
  const stories = judged(events).map(({ event, told, happened }): Story => ({
    event,
    now: happened,
    counts: told.id === event.id,
    corrections: corrections.filter((one) => rootOf(one) === event.id).map((one) => ({ event: one, decides: one.id === told.id })),
  }));
  // corrections of what is not among them are seen all the same
  const loose = corrections.filter((one) => !all.has(rootOf(one)) || all.get(rootOf(one))!.happened.kind === "corrected");
  return [...stories, ...loose.map((event): Story => ({ event, now: event.happened, counts: true, corrections: [] }))].sort((a, b) => inOrder(a.event, b.event));
}

/** What a correction says happened instead, whatever it corrects; nothing: it did not happen. */
export function saysInstead(correction: Happened): Happened | undefined {
  if (correction.kind !== "corrected") return correction;
  return correction.instead ? saysInstead(correction.instead as Happened) : undefined;
}
