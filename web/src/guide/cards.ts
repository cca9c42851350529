// Which stage is on which card: two columns, two rows, front and back of one sheet.
import type { StageName } from "./names";

export const FRONT: StageName[] = ["traffic-out", "cut-out", "compact", "clean-up"];
/** Turned over along the long edge, left is right. */
export const BACK: StageName[] = ["fill", "mark-out", "traffic-in", "seal"];
