// The books as the server gives them (handbook/books.md); amounts and money are exact decimals, written as texts.
import { t } from "../../lib/messages.svelte";
import { shown } from "../../lib/measure.svelte";
import { number } from "../data/format";
import { repair, zone } from "../data/known.svelte";
import { roadOfRepair } from "../data/names";

export const KINDS = ["base", "cover_stone", "binder", "water", "spoil", "sign", "cone", "other_device"] as const;
export type Kind = (typeof KINDS)[number];

export interface Item {
  what: Kind;
  which?: string;
}
export type Place =
  | { at: "supplier"; name: string }
  | { at: "depot"; name: string }
  | { at: "truck"; crew: string }
  | { at: "zone"; zone: string }
  | { at: "repair"; repair: string }
  | { at: "waste"; why: string };
export interface Lot {
  number: string;
  use_by?: string | null;
}
export interface Flows {
  opened: string;
  received: string;
  returned: string;
  taken_out: string;
  used: string;
  wasted: string;
  moved_in: string;
  moved_out: string;
  found: string;
  closed: string;
}
export interface Order {
  short_on: string;
  order_by: string;
  late_days: number;
  amount: string;
}
export interface Books {
  period: { from: string; to: string };
  currency: string;
  moves: { event: string; at: string; day: string; told_by: string; from: Place | null; to: Place | null; item: Item; amount: string; value: string; lots: { lot: Lot; amount: string }[] }[];
  balances: { place: Place; item: Item; amount: Flows; value: string; average_price: string | null }[];
  lots: { place: Place; item: Item; lot: Lot; amount: string }[];
  costs: { total: Record<string, string> };
  reorders: { rule: { depot: string; item: Item; safety_stock: string; lead_time_days: number; source: string }; stock: string; needed: string; goes_off: string; order: Order | null; words: string }[];
  goes_off: { depot: string; item: Item; lot: Lot; amount: string; words: string }[];
  findings: { kind: string; day: string; words: string }[];
}

export const TABLES = ["moves", "balances", "totals", "costs", "planned", "lots", "orders", "findings"] as const;

export function itemName({ what, which }: Item): string {
  return which ? `${t(`office-item-${what}`)}, ${which}` : t(`office-item-${what}`);
}

/** An amount in the unit that its kind is counted in. */
export function amountWords(amount: string, what: Kind): string {
  const value = Number(amount);
  if (what === "base" || what === "cover_stone" || what === "spoil") return shown(value, "m3");
  if (what === "binder" || what === "water") return shown(value, "l");
  return number(value, 2);
}

export function placeName(place: Place | null): string {
  if (!place) return t("office-by-count");
  switch (place.at) {
    case "supplier":
    case "depot":
      return place.name;
    case "truck":
      return t("office-truck-of", { crew: place.crew });
    case "zone":
      return `${t("office-zone")} ${zone(place.zone)?.known.road?.value ?? place.zone.slice(-6)}`;
    case "repair": {
      const found = repair(place.repair);
      return `${t("office-repair")} ${(found && roadOfRepair(found.known)) || place.repair.slice(-6)}`;
    }
    case "waste":
      return `${t("office-waste")}: ${place.why}`;
  }
}
