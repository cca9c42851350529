// The eight stages of a repair, and where somebody is in them.
import type { KnownRepair } from "./known";

export const STAGES = ["traffic_out", "mark_out", "cut", "fill", "compact", "seal", "clean_up", "traffic_in"] as const;
export type Stage = (typeof STAGES)[number];

/** Checks of each stage, by the end of their message's key. */
export const CHECKS: Record<Stage, readonly string[]> = {
  traffic_out: ["agreed", "seen-through", "vest"],
  mark_out: ["cleaned", "sound", "straight", "services"],
  cut: ["centre-out", "spoil-off"],
  fill: ["same-kind", "spread"],
  compact: ["edges", "corners-first", "proud"],
  seal: ["swept", "overlap", "one-layer", "bedded"],
  clean_up: ["swept-up", "drains", "tools"],
  traffic_in: ["reverse", "nothing-left"],
};

/** Where the guide shows it. */
export const GUIDE: Record<Stage, string> = {
  traffic_out: "traffic-out",
  mark_out: "mark-out",
  cut: "cut-out",
  fill: "fill",
  compact: "compact",
  seal: "seal",
  clean_up: "clean-up",
  traffic_in: "traffic-in",
};

/** The stage that comes next by what the record knows: where a phone without a draft of its own begins. */
export function stageByRecord(repair: KnownRepair | undefined, zoneOpen: boolean, layers: number): Stage {
  if (!repair || repair.state === "planned") return zoneOpen ? "mark_out" : "traffic_out";
  if (repair.state === "cut_out") return "fill";
  if (repair.state === "filling") return repair.layers.length < layers ? "fill" : "seal";
  if (repair.state === "sealed") return "clean_up";
  return "traffic_in";
}

/** Which stages the record says are done. */
export function doneByRecord(repair: KnownRepair | undefined, zone: { opened: boolean; closed: boolean }, layers: number): Set<Stage> {
  const done = new Set<Stage>();
  if (zone.opened) done.add("traffic_out");
  if (repair?.cut) {
    done.add("mark_out");
    done.add("cut");
  }
  const placed = repair?.layers.length ?? 0;
  if (placed >= layers || repair?.sealed) {
    done.add("fill");
    done.add("compact");
  }
  if (repair?.sealed) done.add("seal");
  if (repair?.opened) done.add("clean_up");
  if (zone.closed) done.add("traffic_in");
  return done;
}
