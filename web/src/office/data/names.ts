// What holes and repairs are called, and how far they have come, in words.
import { t } from "../../lib/messages.svelte";
import { shown, shownNumber, type Measure } from "../../lib/measure.svelte";
import { day, number, precise, short } from "./format";
import { hole, repair } from "./known.svelte";
import type { Hole, HoleState, Repair, Zone } from "./shapes";

/** By what people know it: the number in the list it came from, or the end of its own. */
export function holeName(hole: Hole): string {
  return hole.reports.find(({ reference }) => reference !== "")?.reference ?? short(hole.hole);
}

/** The road that a repair of it was planned on, where one was. */
export function roadOf(hole: Hole): string {
  for (const id of hole.repairs) {
    const road = repair(id)?.known.planned?.value.road;
    if (road) return road;
  }
  return "";
}

export function roadOfRepair(known: Repair): string {
  return known.planned?.value.road ?? "";
}

export function sizeWords(hole: Hole): string {
  const { length_mm, width_mm, depth_mm } = hole;
  const side = (told: Hole["length_mm"]): string => (told ? shownNumber(told.value, "mm") : "?");
  if (!length_mm && !width_mm && !depth_mm) return t("office-not-measured");
  const unit = shown(0, "mm").replace(/^\S+\s/, "");
  return `${side(length_mm)} × ${side(width_mm)} × ${side(depth_mm)} ${unit}`;
}

/** Holes in the server's words by the names that people know. */
export function withNames(words: string): string {
  return words.replace(/[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}/g, (id) => {
    const found = hole(id);
    return found ? holeName(found.known) : short(id);
  });
}

/** Whether something that a plan goes by was told of a hole after that time; that it was put into a round is none of it. */
export function isOtherSince(known: Hole, at: string): boolean {
  if (known.state !== "planned" && known.last_told > at) return true;
  const { position, length_mm, width_mm, depth_mm, wetness, lane_position } = known;
  return [position, length_mm, width_mm, depth_mm, wetness, lane_position].some((told) => told !== null && told.by.at > at);
}

export function holeWaits(state: HoleState): boolean {
  return state === "reported" || state === "planned" || state === "begun";
}

export function stateOfZone(zone: Zone): "standing" | "closed" | "planned" {
  if (zone.closed) return "closed";
  return zone.opened ? "standing" : "planned";
}

const MEASURES: [RegExp, Measure][] = [
  [/_mm$/, "mm"],
  [/_m2$/, "m2"],
  [/_m3$/, "m3"],
  [/_l$/, "l"],
  [/_c$/, "c"],
];

/** Any value told, in words: its measure is in the name of its field. */
export function valueWords(field: string, value: unknown): string {
  const name = field.split(".").pop()!;
  const measure = MEASURES.find(([end]) => end.test(name))?.[1];
  if (Array.isArray(value)) return value.map((one) => valueWords(name, one)).join(", ");
  if (typeof value === "boolean") return t(value ? "office-yes" : "office-no");
  if (value && typeof value === "object") {
    if ("lon" in value && "lat" in value) return `${number(Number(value.lat), 5)}, ${number(Number(value.lon), 5)}`;
    return JSON.stringify(value);
  }
  if (measure && value !== null && value !== "") return precise(Number(value), measure);
  if (typeof value === "number") return number(value, name === "lat" || name === "lon" ? 5 : 2);
  if (name === "date" && typeof value === "string" && value !== "") return day(value, "long");
  if (typeof value === "string" && ["wetness", "lane_position", "moisture", "found", "drainage", "weather", "side", "work"].includes(name)) return t(`office-word-${value}`);
  return String(value ?? "");
}

/** What a field is called. */
export function fieldName(field: string): string {
  const [first, layer, name] = field.split(".");
  if (first === "from" || first === "to") return layer ? t(`office-field-${first}-of`, { what: t(`office-field-${layer}`) }) : t(`office-field-${first}`);
  return first === "layers" ? `${t("office-layer", { number: layer! })}: ${t(`office-field-${name}`)}` : t(`office-field-${field}`);
}
