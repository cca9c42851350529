// Why the device is not in step with the server, so that people know what to do about it.
import Dexie from "dexie";
import { Answered } from "./api";

/** There is no network; the server does not answer, or not as it should; it does not know the sign-in any more; it refuses; the device can't read or write. */
export type Trouble = "network" | "server" | "session" | "refused" | "device";

const NOT_NOW = [408, 425, 429];

export function troubleOf(error: unknown): Trouble {
  if (error instanceof Answered) {
    if (error.status === 401) return "session";
    return error.status >= 500 || NOT_NOW.includes(error.status) ? "server" : "refused";
  }
  if (error instanceof Dexie.DexieError || (error as Error | undefined)?.name === "QuotaExceededError") return "device";
  return globalThis.navigator?.onLine === false ? "network" : "server";
}
