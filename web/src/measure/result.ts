// What measuring gives, and how it is told.
import type { Happened } from "../lib/store/database";
import { database } from "../lib/store/database";
import { keepPhoto, tell } from "../lib/store/queue";
import { me } from "../lib/session.svelte";
import type { Cut } from "./cut";
import type { Doubt } from "./measured";

export interface MeasureResult {
  /** Along and across the road. */
  length_mm: number;
  width_mm: number;
  /** Where somebody entered it. */
  depth_mm?: number;
  area_m2: number;
  /** Nineteen times in twenty the area is off by no more. */
  area_plus_minus_m2: number;
  perimeter_m: number;
  /** Metres, along the road and across to the right. */
  outline: [number, number][];
  doubts: Doubt[];
  /** The cut that was proposed; without signal there is none. */
  cut?: Cut;
  /** How it was measured, in words. */
  note: string;
  photo: Blob;
}

/** Keeps it with a hole: measured, with the photo, and the outline for the cut later. */
export async function keepWithHole(hole: string, result: MeasureResult, photoNote: string): Promise<void> {
  const who = me();
  if (!who) throw new Error("nobody is signed in");
  const as = { actor: who.name, device: who.device ?? "" };
  const { photo, note, length_mm, width_mm, depth_mm } = result;
  await tell({ kind: "hole_measured", hole, size: { length_mm, width_mm, ...(depth_mm === undefined ? {} : { depth_mm }) }, note } as Happened, as);
  await keepPhoto(photo, { hole }, photoNote, as);
  await database.drafts.put({ key: `measured/${hole}`, value: { ...result, photo: undefined } });
}
