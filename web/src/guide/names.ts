/** The eight stages of a repair, in the order they are done. */
export const STAGES = ["traffic-out", "mark-out", "cut-out", "fill", "compact", "seal", "clean-up", "traffic-in"] as const;
export type StageName = (typeof STAGES)[number];

export function isStage(word: string | undefined): word is StageName {
  return STAGES.includes(word as StageName);
}
