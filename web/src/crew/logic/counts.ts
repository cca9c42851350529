// Materials as the crew counts them (wheelbarrows, buckets), there and back. The size of one comes from the plan.
import type { SiteCount } from "./plan";

export type Good = "base" | "water" | "binder" | "cover_stone" | "spoil";

/** Litres that one holds; none where the plan does not say. */
export function litresOfOne(count: SiteCount | undefined): number | undefined {
  return count?.unit_l !== undefined && count.unit_l > 0 ? count.unit_l : undefined;
}

export function countFor(counts: readonly SiteCount[] | undefined, good: Good): SiteCount | undefined {
  return counts?.find((count) => count.good === good);
}

/** Its word for so many. */
export function countWord(count: SiteCount, number: number): string {
  return number === 1 ? count.unit : count.plural;
}

/** The unit in which the record keeps it: litres of water and binder, cubic metres of the rest. */
export function isLitres(good: Good): boolean {
  return good === "water" || good === "binder";
}

/** An amount as somebody entered it: counted, or in the record's unit. */
export interface Entered {
  count: number | undefined;
  in: "site" | "own";
  /** Litres of one when it was counted: another plan, or none, makes it no other amount. */
  unit_l?: number;
}

/** The same in the record's unit. */
export function amountOf(entered: Entered, good: Good, unit_l: number | undefined): number | undefined {
  if (entered.count === undefined || !Number.isFinite(entered.count) || entered.count < 0) return undefined;
  const one = entered.unit_l ?? unit_l;
  if (entered.in === "own" || one === undefined) return entered.count;
  const litres = entered.count * one;
  return isLitres(good) ? litres : litres / 1000;
}

/** A decimal as the record takes it: to the millilitre. */
export function decimal(value: number | undefined): string | undefined {
  if (value === undefined) return undefined;
  return value.toFixed(6).replace(/\.?0+$/, "");
}
