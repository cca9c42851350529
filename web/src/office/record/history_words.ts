// What an event says, in a line.
import { t } from "../../lib/messages.svelte";
import type { Happened } from "../../lib/store/database";
import { fieldName, valueWords } from "../data/names";
import { differences, fieldsOf } from "./correct";

const NOT_SAID = new Set(["kind", "repair", "hole", "holes", "zone", "round", "of", "on", "repairs", "zones", "stretches", "photo", "contact", "plan", "event", "instead", "resurfacing"]);
const MEASURED = /_(mm|m2|m3|l|c)$|^(wetness|drainage|weather|base|date|work|side|from|to|moisture|bottom_firm|sides_upright|dry|binder|note|why|how|found|devices_out|devices_in|road|layout|layer|passes_still|passes_vibrating|lane_position|role|labour_min|plant_min|crew|source|reference)$/;
const SAYS_ITSELF = new Set(["crew", "note", "why", "how", "road", "layout", "date", "work"]);

export function details(happened: Happened): string {
  const flat = { ...happened, ...("size" in happened ? happened.size : {}) } as Record<string, unknown>;
  const said = Object.entries(flat)
    .filter(([key, value]) => !NOT_SAID.has(key) && MEASURED.test(key) && value !== "" && value !== null && !(Array.isArray(value) && value.length === 0))
    .map(([key, value]) => (SAYS_ITSELF.has(key) ? valueWords(key, value) : `${fieldName(key)} ${valueWords(key, value)}`));
  if (happened.kind === "stock_moved" || happened.kind === "stock_counted") said.unshift(`${t(`office-item-${(happened.item as { what: string }).what}`)} ${amount(happened, happened.amount)}`);
  return said.join("; ");
}

/** Amounts have the unit of what it is of. */
function amount(happened: Happened, value: unknown): string {
  const measure = fieldsOf(happened).find(({ path }) => path === "amount")?.measure;
  return valueWords(measure ? `_${measure}` : "", measure ? value : Number(value));
}

/** What one telling says otherwise than another, field by field. */
export function differenceWords(was: Happened, now: Happened): string[] {
  return differences(was, now).map(({ path, was: before, now: after }) => {
    const field = path.split(".").pop()!;
    const name = /^(from|to)\./.test(path) ? path : field;
    const say = (value: unknown): string => (value === undefined || value === null || value === "" ? "–" : field === "amount" ? amount(was, value) : valueWords(field, value));
    return t("office-was-now", { field: fieldName(name), was: say(before), now: say(after) });
  });
}
