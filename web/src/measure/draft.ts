// What was tapped so far, kept so that a killed browser loses nothing.
import { database } from "../lib/store/database";
import type { Point } from "./homography";

export type Step = "board" | "corners" | "outline" | "result";

export interface Draft {
  step: Step;
  lengthM: number;
  widthM: number;
  photo?: Blob;
  corners: Point[];
  outline: Point[];
  check: Point[];
  checkM?: number;
  depthMm?: number;
  /** Corners stay where they were tapped. */
  asTapped: boolean;
}

const BOARD = "measure/board";

/** A plain board as a crew may have aboard. Common practice, no source. */
const USUAL = { lengthM: 1, widthM: 0.5 };

export function draftKey(hole: string | undefined): string {
  return `measure/${hole ?? "new"}`;
}

export async function readDraft(hole: string | undefined): Promise<Draft> {
  const kept = (await database.drafts.get(draftKey(hole)))?.value as Draft | undefined;
  if (kept) return kept;
  const board = ((await database.meta.get(BOARD))?.value as typeof USUAL | undefined) ?? USUAL;
  return { step: "board", ...board, corners: [], outline: [], check: [], asTapped: false };
}

export async function keepDraft(hole: string | undefined, draft: Draft): Promise<void> {
  await database.drafts.put({ key: draftKey(hole), value: draft });
  if (draft.lengthM > 0 && draft.widthM > 0) await database.meta.put({ key: BOARD, value: { lengthM: draft.lengthM, widthM: draft.widthM } });
}

export async function dropDraft(hole: string | undefined): Promise<void> {
  await database.drafts.delete(draftKey(hole));
}
