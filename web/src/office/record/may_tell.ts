// Who may tell what: the server's own rule (it decides), so that nobody fills in a form that it refuses.
import type { Happened } from "../../lib/store/database";

const BY: Partial<Record<Happened["kind"], readonly string[]>> = {
  hole_reported: ["crew", "planner", "storekeeper"],
  hole_measured: ["crew", "planner", "storekeeper"],
  photo_taken: ["crew", "planner", "storekeeper"],
  holes_merged: ["planner"],
  hole_dismissed: ["planner"],
  round_planned: ["planner"],
  road_resurfaced: ["planner"],
  zone_opened: ["crew"],
  zone_closed: ["crew"],
  hole_cut: ["crew"],
  layer_placed: ["crew"],
  sealed: ["crew"],
  opened_to_traffic: ["crew"],
  inspected: ["crew", "planner"],
  failed: ["crew", "planner"],
  time_booked: ["crew", "planner"],
  stock_moved: ["crew", "storekeeper"],
  stock_counted: ["storekeeper"],
};

export function mayTell(role: string, happened: Happened): boolean {
  if (happened.kind === "corrected") return happened.instead ? mayTell(role, happened.instead as Happened) : mayWithdraw(role);
  if (happened.kind === "signed") return role === "engineer" || (role !== "auditor" && happened.role !== "engineer");
  return role === "engineer" || (BY[happened.kind]?.includes(role) ?? false);
}

/** Who may tell that something did not happen at all. */
export function mayWithdraw(role: string): boolean {
  return role !== "auditor" && role !== "";
}
