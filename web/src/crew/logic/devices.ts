// Ticking off devices: out in the order in which traffic meets them, back in the reverse order of the plan.
import type { CrewMove, WorkZone } from "./plan";

export interface Ticks {
  out: number[];
  back: number[];
}

/** Steps with devices, in order. */
export function steps(moves: readonly CrewMove[]): CrewMove[] {
  return moves.filter((move) => move.devices.length > 0);
}

/** The next device in an order that is not ticked. */
export function nextDevice(moves: readonly CrewMove[], ticked: readonly number[], among?: readonly number[]): number | undefined {
  return moves.flatMap((move) => move.devices).find((device) => !ticked.includes(device) && (among === undefined || among.includes(device)));
}

/** Devices that went out and are not back. */
export function stillOut(ticks: Ticks): number[] {
  return ticks.out.filter((device) => !ticks.back.includes(device));
}

/** What counts as out for the way back: what was ticked here; all, where another phone put them out. */
export function outThere(zone: WorkZone, ticks: Ticks): number[] {
  return ticks.out.length > 0 ? ticks.out : zone.devices.map((_, index) => index);
}
