// The cut that the server proposes for an outline.
import { ownHeaders } from "../lib/api";
import type { Measure } from "../lib/measure.svelte";
import type { Point } from "./homography";

export interface Figure {
  value: number;
  /** One in ten, half, nine in ten turn out lower; where it has a spread. */
  p10?: number | null;
  p50?: number | null;
  p90?: number | null;
  why?: string;
}

export interface Cut {
  corners: [number, number][];
  layers: { number: number; thickness_mm: number; loose_volume_m3: number }[];
  why?: Record<string, string>;
  svg?: string;
  [figure: string]: unknown;
}

/** Figures that are shown, in this order, with what they are measured in; `min` are minutes. */
export const FIGURES: [name: string, measure: Measure | "min"][] = [
  ["cut_area_m2", "m2"],
  ["perimeter_m", "m"],
  ["wasted_m2", "m2"],
  ["base_loose_m3", "m3"],
  ["water_l", "l"],
  ["binder_l", "l"],
  ["cover_stone_m3", "m3"],
  ["spoil_m3", "m3"],
  ["duration_min", "min"],
];

/** What went wrong while asking: no signal, nobody signed in, or in the server's words. */
export type CutTrouble = { kind: "no-signal" } | { kind: "not-signed-in" } | { kind: "refused"; words: string };

export async function askCut(outline: readonly Point[], depthMm: number): Promise<Cut | CutTrouble> {
  let answer: Response;
  try {
    answer = await fetch("/api/cut", {
      method: "POST",
      headers: { ...ownHeaders(), "content-type": "application/json" },
      // to the millimetre
      body: JSON.stringify({ outline: outline.map(({ x, y }) => [Math.round(x * 1000) / 1000, Math.round(y * 1000) / 1000]), depth_mm: depthMm }),
    });
  } catch {
    return { kind: "no-signal" };
  }
  if (answer.status === 401) return { kind: "not-signed-in" };
  const value = (await answer.json().catch(() => undefined)) as Cut | { detail?: string; title?: string } | undefined;
  if (answer.ok && value && "corners" in value) return value as Cut;
  // a proxy that has no server behind it, or a server too old to know of cuts
  if (!value || answer.status >= 502) return { kind: "no-signal" };
  const { detail, title } = value as { detail?: string; title?: string };
  return { kind: "refused", words: detail ?? title ?? String(answer.status) };
}

/** A figure of the answer, with its spread where it has one. */
export function figureOf(cut: Cut, name: string): Figure | undefined {
  const value = cut[name];
  const why = cut.why?.[name];
  if (typeof value === "number") return { value, ...(why ? { why } : {}) };
  if (value && typeof value === "object" && "value" in value) return { ...(why ? { why } : {}), ...(value as Figure) };
  return undefined;
}
