// What measuring from a photo gives, as far as the crew's forms take it: sizes into their fields, area and outline beside them.
import { figureOf, type Cut } from "../../measure/cut";
import { extentsOf } from "../../measure/outline";
import type { MeasureResult } from "../../measure/result";

/** A size as a form has it. */
interface Sides {
  length_mm: number;
  width_mm: number;
}

export interface FromPhoto extends Sides {
  area_m2: number;
  area_plus_minus_m2: number;
  /** Metres, along the road and across to the right: a cut can be asked for later. */
  outline: [number, number][];
  /** How it was measured, in words. */
  note: string;
  /** The cut that was proposed for it. */
  cut?: Sides & { area_m2: number };
}

/** Under which a form for a bigger or new hole is kept. */
export function bigKey(repair: string): string {
  return repair ? `bigger/${repair}` : "new-hole";
}

/** Sizes of a form go in steps of 5 mm: a photo tells no finer. */
function rounded(mm: number): number {
  return Math.round(mm / 5) * 5;
}

export function fromPhoto({ length_mm, width_mm, area_m2, area_plus_minus_m2, outline, note, cut }: MeasureResult): FromPhoto {
  const hole = { length_mm: rounded(length_mm), width_mm: rounded(width_mm), area_m2, area_plus_minus_m2, outline, note };
  return cut ? withCut(hole, cut) : hole;
}

export function withCut(photo: FromPhoto, cut: Cut): FromPhoto {
  const { length, width } = extentsOf(cut.corners.map(([x, y]) => ({ x, y })));
  const area = figureOf(cut, "cut_area_m2")?.value;
  return area === undefined ? photo : { ...photo, cut: { length_mm: rounded(length * 1000), width_mm: rounded(width * 1000), area_m2: area } };
}

/** Sides of the cut, where one was proposed, else of the hole. */
export function sidesOf(photo: FromPhoto): Sides {
  const { length_mm, width_mm } = photo.cut ?? photo;
  return { length_mm, width_mm };
}

/** The area that a form is about: of the cut proposed as long as its sides are as proposed, else by the sides. */
export function areaM2(sides: Partial<Sides>, photo: FromPhoto | undefined): number | undefined {
  const { length_mm, width_mm } = sides;
  if (!length_mm || !width_mm) return undefined;
  const cut = photo?.cut;
  return cut && cut.length_mm === length_mm && cut.width_mm === width_mm ? cut.area_m2 : (length_mm * width_mm) / 1e6;
}
