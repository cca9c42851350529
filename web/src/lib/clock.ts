// How far the device's clock is ahead of the server's. It is taken from every answer of the server, and kept for what is told without signal
// until it is too old, or somebody sets the clock: what was ahead before says nothing of the clock now.
import { database } from "./store/database";

interface Kept {
  ahead_ms: number;
  /** When that was so, by the device's clock, milliseconds. */
  at: number;
  /** What the clock said when it was looked at last. */
  seen: number;
}

/** What the clock says, and what a clock says that nobody can set; that one stands still while the device sleeps. */
interface Moment {
  wall: number;
  steady: number;
}

/** Less is none: answers take their time, and the server tells whole seconds. */
const TOLERANCE_MS = 30_000;
/** An answer that took longer says too little of the time. */
const SLOW_MS = 20_000;
/** Common practice, no source: a day without signal is worked with what was known in the morning. */
const OLDEST_MS = 24 * 3_600_000;
const KEY = "clock";

let before: Moment | undefined;

/** Whether what was known of the clock can still be so. */
export function holds(kept: Kept, before: Moment | undefined, now: Moment): boolean {
  if (now.wall - kept.at > OLDEST_MS || now.wall < kept.seen - TOLERANCE_MS) return false;
  const jumped = before ? now.wall - before.wall - (now.steady - before.steady) : 0;
  if (jumped < -TOLERANCE_MS) return false;
  // forward: the device slept, or a clock that was behind was put right
  return !(jumped > TOLERANCE_MS && kept.ahead_ms < 0);
}

/** How far the clock is ahead, as far as that is known: 0 where it is not. To be asked often, to see when the clock is set. */
export async function clockAhead(): Promise<number> {
  const kept = (await database.meta.get(KEY))?.value as Kept | undefined;
  const now = { wall: Date.now(), steady: performance.now() };
  const was = before;
  before = now;
  if (!kept) return 0;
  if (!holds(kept, was, now)) {
    await database.meta.delete(KEY);
    return 0;
  }
  await database.meta.put({ key: KEY, value: { ...kept, seen: now.wall } });
  return kept.ahead_ms;
}

/** Takes in what the server's clock said in an answer that was asked for and came at these times of the device. */
export async function clockCompared(server: string | null, asked: number, came: number): Promise<void> {
  const said = Date.parse(server ?? "");
  if (Number.isNaN(said) || came < asked || came - asked > SLOW_MS) return;
  const ahead_ms = Math.round((asked + came) / 2 - said);
  before = { wall: came, steady: performance.now() };
  if (Math.abs(ahead_ms) >= TOLERANCE_MS) await database.meta.put({ key: KEY, value: { ahead_ms, at: came, seen: came } satisfies Kept });
  else if (await database.meta.get(KEY)) await database.meta.delete(KEY);
}
