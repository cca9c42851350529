// Where two devices told different things of the same: somebody has to look.
import type { Told } from "./shapes";

export interface Conflict {
  field: string;
  told: Told<unknown>;
}

function isTold(value: unknown): value is Told<unknown> {
  return typeof value === "object" && value !== null && "otherwise" in value && Array.isArray((value as Told<unknown>).otherwise);
}

/** Fields of which something was told otherwise; of a layer: `layers.2.water_l`. */
export function conflictsOf(known: object, before = ""): Conflict[] {
  return Object.entries(known).flatMap(([field, value]): Conflict[] => {
    if (isTold(value)) return value.otherwise.length > 0 ? [{ field: before + field, told: value }] : [];
    if (field === "layers" && Array.isArray(value)) return (value as { layer: number }[]).flatMap((layer) => conflictsOf(layer, `layers.${layer.layer}.`));
    return [];
  });
}
