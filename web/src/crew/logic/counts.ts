// Materials as the crew counts them (wheelbarrows, buckets), there and back. The size of one comes from the plan.
import type { SiteCount } from "./plan";

export type Good = "base" | "water" | "binder" | "cover_stone" | "spoil";

/** Litres that one holds, as the plan says under "why"; none where it does not. */
export function litresOfOne(count: SiteCount | undefined): number | undefined {
  const found = /\bv = ([0-9]+(?:\.[0-9]+)?) L\b/.exec(count?.count.why ?? "");
  const litres = found ? Number(found[1]) : 0;
  return litres > 0 ? litres : undefined;
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

/** An amount as somebody entered it, in the record's unit. */
export function amountOf(entered: { count: number | undefined; in: "site" | "own" }, good: Good, one: number | undefined): number | undefined {
  if (entered.count === undefined || !Number.isFinite(entered.count) || entered.count < 0) return undefined;
  if (entered.in === "own" || one === undefined) return entered.count;
  const litres = entered.count * one;
  return isLitres(good) ? litres : litres / 1000;
}

/** A decimal as the record takes it: to the millilitre. */
export function decimal(value: number | undefined): string | undefined {
  if (value === undefined) return undefined;
  return value.toFixed(6).replace(/\.?0+$/, "");
}
