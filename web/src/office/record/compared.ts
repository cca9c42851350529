// One repair as planned and as it came. What nobody told is not known, not nothing.
import type { Measure } from "../../lib/measure.svelte";
import type { Layer, Maybe, Repair } from "../data/shapes";

export interface Compared {
  name: string;
  measure: Measure | "min";
  planned: number | undefined;
  actual: number | undefined;
}

const numberOf = (value: string | number | undefined | null): number | undefined => (value === undefined || value === null ? undefined : Number(value));

/** What was told of the layers, all together; of none told: not known. */
export function ofLayers(layers: Layer[], field: "base_loose_m3" | "water_l"): number | undefined {
  const told = layers.flatMap((layer) => {
    const value: Maybe<string> = layer[field];
    return value ? [Number(value.value)] : [];
  });
  return told.length === 0 ? undefined : told.reduce((sum, value) => sum + value, 0);
}

export function compared(known: Repair): Compared[] {
  const planned = known.planned?.value;
  const plant = Number(known.plant_min);
  return [
    { name: "area_m2", measure: "m2", planned: planned?.area_m2, actual: numberOf(known.area_m2?.value) },
    { name: "base_loose_m3", measure: "m3", planned: numberOf(planned?.base_loose_m3), actual: ofLayers(known.layers, "base_loose_m3") },
    { name: "water_l", measure: "l", planned: numberOf(planned?.water_l), actual: ofLayers(known.layers, "water_l") },
    { name: "binder_l", measure: "l", planned: numberOf(planned?.binder_l), actual: numberOf(known.binder_l?.value) },
    { name: "cover_stone_m3", measure: "m3", planned: numberOf(planned?.cover_stone_m3), actual: numberOf(known.cover_stone_m3?.value) },
    { name: "minutes", measure: "min", planned: numberOf(planned?.minutes), actual: plant > 0 ? plant : undefined },
  ];
}
