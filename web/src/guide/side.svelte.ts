// Which side traffic keeps to: the drawings of the road are turned over for the left.
import { database } from "../lib/store/database";

export type Side = "right" | "left";

const KEY = "guide/traffic_keeps";
const state = $state<{ side: Side }>({ side: "right" });

export function trafficKeeps(): Side {
  return state.side;
}

export async function setTrafficKeeps(side: Side): Promise<void> {
  state.side = side;
  await database.meta.put({ key: KEY, value: side });
}

export async function readTrafficKeeps(): Promise<void> {
  state.side = ((await database.meta.get(KEY))?.value as Side | undefined) ?? "right";
}
