// What is known of one thing, with what was told on this phone and is not in the record yet. The rules are the record's: the later one
// counts, another device's value is kept beside it, a device that tells again corrects itself.
import type { Event, Happened, Told as Queued } from "../../lib/store/database";
import { happenedAt, inForce, putRight } from "../../lib/in_force";
import { noHole, noRepair, noZone, type KnownHole, type KnownLayer, type KnownRepair, type KnownZone, type Teller, type Told } from "./known";

/** Events of the queue that a row, worked out after a position of the record, does not have: nothing refused. */
export function notYetIn(position: number, queue: readonly Queued[]): Event[] {
  return queue.filter((told) => told.state === "waiting" || (told.state === "sent" && (told.position ?? Infinity) > position)).map((told) => told.event);
}

type Row = Record<string, any>;

/** Takes in a value told at any time, before or after what is there. */
export function tellInto(row: Row, field: string, value: unknown, by: Teller): void {
  if (value === undefined || value === null) return;
  const told = row[field] as Told<unknown> | null | undefined;
  if (!told) {
    row[field] = { value, by, otherwise: [] };
    return;
  }
  if (told.by.event === by.event) return;
  const others = told.otherwise.filter((other) => other.by.device !== by.device);
  if (later(by, told.by)) {
    if (!same(told.value, value)) {
      if (told.by.device !== by.device) others.unshift({ value: told.value, by: told.by });
      row[field] = { value, by, otherwise: others.filter((other) => !same(other.value, value)) };
    } else row[field] = { ...told, otherwise: others };
    return;
  }
  // older than what counts: it stands beside it, unless its own device has said something since
  const since = told.otherwise.find((other) => other.by.device === by.device);
  if (told.by.device === by.device || same(told.value, value) || (since && !later(by, since.by))) return;
  row[field] = { ...told, otherwise: [...others, { value, by }].sort((a, b) => (later(a.by, b.by) ? -1 : 1)) };
}

function later(a: Teller, b: Teller): boolean {
  const by = Date.parse(a.at) - Date.parse(b.at);
  return by > 0 || (by === 0 && a.event > b.event);
}

function same(a: unknown, b: unknown): boolean {
  // decimals are told as text: "0.10" is 0.1
  if (typeof a === "string" && typeof b === "string" && a !== "" && b !== "" && Number.isFinite(Number(a))) return Number(a) === Number(b);
  return JSON.stringify(a) === JSON.stringify(b);
}

/** Takes out what was told in events that did not happen, or happened otherwise. */
function withdraw(value: any, events: Set<string>): any {
  if (Array.isArray(value)) return value.filter((one) => !(one?.by && events.has(one.by.event))).map((one) => withdraw(one, events));
  if (!value || typeof value !== "object") return value;
  if (typeof value.event === "string" && "device" in value) return events.has(value.event) ? null : value;
  if ("value" in value && "by" in value && "otherwise" in value) {
    const otherwise = value.otherwise.filter((other: { by: Teller }) => !events.has(other.by.event));
    if (!events.has(value.by.event)) return { ...value, otherwise };
    const [next, ...rest] = otherwise;
    return next ? { ...next, otherwise: rest } : null;
  }
  return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, withdraw(one, events)]));
}

interface Step {
  happened: Happened;
  by: Teller;
}

/** What to put on top of a row, in order; and the row without what was corrected. */
function steps<T>(row: T, events: readonly Event[]): { row: T; steps: Step[] } {
  const corrected = putRight(events);
  const clean = withdraw(structuredClone(row), new Set(corrected.map((one) => one.event))) as T;
  const all = inForce(events).map(({ event, told, happened }) => ({ happened, by: teller(told, happenedAt(event)) }));
  for (const { told, instead } of corrected) if (instead) all.push({ happened: instead, by: teller(told, happenedAt(told)) });
  return { row: clean, steps: all };
}

function teller(told: Event, at: number): Teller {
  return { event: told.id, actor: told.actor, device: told.device, at: new Date(at).toISOString() };
}

function first(row: Row, field: string, by: Teller): void {
  const there = row[field] as Teller | null | undefined;
  if (!there || later(there, by)) row[field] = by;
}

function addAll(list: string[], more: readonly string[]): void {
  for (const one of more) if (!list.includes(one)) list.push(one);
}

function addPhoto(row: { photos: any[] }, happened: Extract<Happened, { kind: "photo_taken" }>, by: Teller): void {
  if (!row.photos.some((photo) => photo.photo === happened.photo)) row.photos.push({ photo: happened.photo, by, position: happened.position ?? null, note: happened.note ?? "" });
}

function about(of: unknown, what: string, id: string): boolean {
  return (of as Record<string, string>)[what] === id;
}

export function repairWith(id: string, known: KnownRepair | undefined, events: readonly Event[]): KnownRepair | undefined {
  const { row, steps: all } = steps(known ?? noRepair(id, ""), events);
  let touched = known !== undefined;
  for (const { happened, by } of all) {
    if (!repairStep(id, row, happened, by)) continue;
    touched = true;
    if (row.last_told < by.at) row.last_told = by.at;
  }
  if (!touched) return undefined;
  row.state = repairState(row);
  return row;
}

function repairStep(id: string, row: KnownRepair, happened: Happened, by: Teller): boolean {
  switch (happened.kind) {
    case "hole_cut":
      if (happened.repair !== id) return false;
      addAll(row.holes, happened.holes);
      first(row, "cut", by);
      for (const field of ["zone", "area_m2", "bottom_firm", "sides_upright", "wetness", "drainage"] as const) tellInto(row, field, happened[field], by);
      if (happened.depths_mm?.length) tellInto(row, "depths_mm", happened.depths_mm, by);
      return true;
    case "layer_placed": {
      if (happened.repair !== id) return false;
      let layer = row.layers.find((layer) => layer.layer === happened.layer);
      if (!layer) {
        layer = { layer: happened.layer } as unknown as KnownLayer;
        row.layers.push(layer);
        row.layers.sort((a, b) => a.layer - b.layer);
      }
      for (const field of ["thickness_mm", "base_loose_m3", "water_l", "moisture", "passes_still", "passes_vibrating"] as const) tellInto(layer, field, happened[field], by);
      if (happened.base) tellInto(layer, "base", happened.base, by);
      return true;
    }
    case "sealed":
      if (happened.repair !== id) return false;
      first(row, "sealed", by);
      for (const field of ["binder_l", "cover_stone_m3", "crown_mm", "dry", "weather", "air_temperature_c"] as const) tellInto(row, field, happened[field], by);
      tellInto(row, "sealed_area_m2", happened.area_m2, by);
      if (happened.binder) tellInto(row, "binder", happened.binder, by);
      return true;
    case "opened_to_traffic":
      if (happened.repair !== id) return false;
      first(row, "opened", by);
      return true;
    case "inspected":
      if (happened.repair !== id) return false;
      if (happened.found === "failed") first(row, "failed", by);
      row.inspections.push({ by, found: happened.found, note: happened.note ?? "" });
      return true;
    case "failed":
      if (happened.repair !== id) return false;
      first(row, "failed", by);
      row.failed_how ||= happened.how ?? "";
      row.failed_hole ??= happened.hole ?? null;
      return true;
    case "time_booked":
      if (!about(happened.on, "repair", id)) return false;
      row.labour_min = String(Number(row.labour_min) + Number(happened.labour_min));
      row.plant_min = String(Number(row.plant_min) + Number(happened.plant_min));
      return true;
    case "photo_taken":
      if (!about(happened.of, "repair", id)) return false;
      addPhoto(row, happened, by);
      return true;
    case "signed":
      if (!about(happened.of, "repair", id)) return false;
      row.signatures.push({ by, role: happened.role, note: happened.note ?? "" });
      return true;
    default:
      return false;
  }
}

export function repairState(row: KnownRepair): KnownRepair["state"] {
  if (row.failed) return "failed";
  if (row.opened) return "open";
  if (row.sealed) return "sealed";
  if (row.layers.length > 0) return "filling";
  return row.cut ? "cut_out" : "planned";
}

export function zoneWith(id: string, known: KnownZone | undefined, events: readonly Event[]): KnownZone | undefined {
  const { row, steps: all } = steps(known ?? noZone(id, ""), events);
  let touched = known !== undefined;
  for (const { happened, by } of all) {
    if (happened.kind === "zone_opened" && happened.zone === id) {
      addAll(row.holes, happened.holes);
      for (const field of ["round", "position", "devices_out"] as const) tellInto(row, field, happened[field], by);
      if (happened.road) tellInto(row, "road", happened.road, by);
      if (happened.layout) tellInto(row, "layout", happened.layout, by);
      if (happened.stretches?.length) tellInto(row, "stretches", happened.stretches, by);
      first(row, "opened", by);
    } else if (happened.kind === "zone_closed" && happened.zone === id) {
      tellInto(row, "devices_in", happened.devices_in, by);
      first(row, "closed", by);
    } else if (happened.kind === "photo_taken" && about(happened.of, "zone", id)) addPhoto(row, happened, by);
    else continue;
    touched = true;
    if (row.last_told < by.at) row.last_told = by.at;
  }
  return touched ? row : undefined;
}

export function holeWith(id: string, known: KnownHole | undefined, events: readonly Event[]): KnownHole | undefined {
  const { row, steps: all } = steps(known ?? noHole(id, ""), events);
  let touched = known !== undefined;
  for (const { happened, by } of all) {
    if ((happened.kind === "hole_reported" || happened.kind === "hole_measured") && happened.hole === id) {
      tellInto(row, "position", happened.position, by);
      for (const field of ["length_mm", "width_mm", "depth_mm", "lane_position", "wetness"] as const) tellInto(row, field, happened.size?.[field], by);
      if (happened.kind === "hole_reported" || happened.note) {
        row.reports.push({ by, note: happened.note ?? "", source: "source" in happened ? (happened.source ?? "") : "", reference: "", contact: null } as KnownHole["reports"][number]);
      }
    } else if (happened.kind === "photo_taken" && about(happened.of, "hole", id)) addPhoto(row, happened, by);
    else if (happened.kind === "hole_cut" && happened.holes.includes(id)) {
      addAll(row.repairs, [happened.repair]);
      if (row.state === "reported" || row.state === "planned" || row.state === "dismissed") row.state = "begun";
    } else continue;
    touched = true;
    if (row.last_told < by.at) row.last_told = by.at;
  }
  return touched ? row : undefined;
}

/** Everything of a row that was told differently on different devices, by its field (`layers.1.thickness_mm`). */
export function disagreements(row: object): { field: string; told: Told<unknown> }[] {
  const found: { field: string; told: Told<unknown> }[] = [];
  const look = (value: any, field: string): void => {
    if (!value || typeof value !== "object") return;
    if ("otherwise" in value && "by" in value) {
      if (value.otherwise.length > 0) found.push({ field, told: value });
      return;
    }
    for (const [key, one] of Object.entries(value)) look(one, Array.isArray(value) ? `${field}.${(one as KnownLayer)?.layer ?? key}` : field === "" ? key : `${field}.${key}`);
  };
  look(row, "");
  return found;
}
