// Tells what a stage says; what adds up (spoil, time) is corrected when it is told again, so that the books have it once.
import type { Happened } from "../lib/store/database";
import { tellAll } from "../lib/store/queue";
import { sync } from "../lib/store/sync.svelte";
import { teller } from "./data.svelte";
import type { ToTell } from "./logic/repair_draft";

/** Does it once though it is pressed twice: a second press while the first is written down does nothing. */
export function once(work: () => Promise<void>): () => Promise<void> {
  let busy = false;
  return async () => {
    if (busy) return;
    busy = true;
    try {
      await work();
    } finally {
      busy = false;
    }
  };
}

/** Gives the events by their names, for those that add up. */
export async function tellThese(all: ToTell[], before: Record<string, string>): Promise<Record<string, string>> {
  const events = all.map(({ adds, happened }) => {
    const earlier = adds === undefined ? undefined : before[adds];
    return earlier === undefined ? happened : ({ kind: "corrected", event: earlier, instead: happened, why: "told again" } as unknown as Happened);
  });
  const told = await tellAll(events, teller());
  void sync();
  const now = { ...before };
  // the first event stays the one that corrections speak of
  all.forEach(({ adds }, index) => {
    if (adds !== undefined) now[adds] ??= told[index]!.id;
  });
  return now;
}
