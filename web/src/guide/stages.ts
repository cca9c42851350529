// What is shown of each stage.
import type { Component } from "svelte";
import { shown } from "../lib/measure.svelte";
import type { DrawingProps } from "./drawings/marks";
import type { StageName } from "./names";
import CleanUp from "./drawings/CleanUp.svelte";
import Compact from "./drawings/Compact.svelte";
import CutOut from "./drawings/CutOut.svelte";
import Fill from "./drawings/Fill.svelte";
import MarkOut from "./drawings/MarkOut.svelte";
import Seal from "./drawings/Seal.svelte";
import TrafficIn from "./drawings/TrafficIn.svelte";
import TrafficOut from "./drawings/TrafficOut.svelte";

export type Caution = "traffic" | "services" | "dust" | "plant" | "lifting" | "binder" | "vapour" | "drains" | "heat";

export interface StageFacts {
  drawing: Component<DrawingProps>;
  /** How many numbers the drawing has, things to do and checks there are. */
  marks: number;
  todo: number;
  checks: number;
  cautions: Caution[];
  /** Where the facts are from. */
  source: "practice" | "order" | "layers" | "cold";
}

export const FACTS: Record<StageName, StageFacts> = {
  "traffic-out": { drawing: TrafficOut, marks: 5, todo: 3, checks: 2, cautions: ["traffic"], source: "order" },
  "mark-out": { drawing: MarkOut, marks: 5, todo: 3, checks: 2, cautions: ["traffic", "services"], source: "practice" },
  "cut-out": { drawing: CutOut, marks: 5, todo: 3, checks: 2, cautions: ["services", "dust", "plant"], source: "practice" },
  fill: { drawing: Fill, marks: 4, todo: 3, checks: 2, cautions: ["lifting", "heat"], source: "layers" },
  compact: { drawing: Compact, marks: 4, todo: 3, checks: 2, cautions: ["plant", "traffic"], source: "practice" },
  seal: { drawing: Seal, marks: 5, todo: 3, checks: 2, cautions: ["binder", "vapour"], source: "cold" },
  "clean-up": { drawing: CleanUp, marks: 5, todo: 3, checks: 2, cautions: ["dust", "drains", "traffic"], source: "practice" },
  "traffic-in": { drawing: TrafficIn, marks: 5, todo: 3, checks: 2, cautions: ["traffic"], source: "order" },
};

/** Check values of common practice, SI (rules/repair and rules/markout); an agency's own come with the plan. */
export const PRACTICE = { farMm: 100, layerMm: 150, halfMm: 75, overlapMm: 80, crownMm: 7, stoneMm: 20, coldC: 10, still: 2, least: 10, most: 12 } as const;

/** Figures that the words carry, in the units that are shown. */
export function figures(): Record<string, string | number> {
  return {
    far: shown(PRACTICE.farMm, "mm"),
    layer: shown(PRACTICE.layerMm, "mm"),
    half: shown(PRACTICE.halfMm, "mm"),
    overlap: shown(PRACTICE.overlapMm, "mm"),
    crown: shown(PRACTICE.crownMm, "mm"),
    stone: shown(PRACTICE.stoneMm, "mm"),
    cold: shown(PRACTICE.coldC, "c"),
    still: PRACTICE.still,
    least: PRACTICE.least,
    most: PRACTICE.most,
  };
}
