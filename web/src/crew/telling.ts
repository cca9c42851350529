// Tells what the crew's forms say.
import type { Happened } from "../lib/store/database";
import { tellAll } from "../lib/store/queue";
import { sync } from "../lib/store/sync.svelte";
import { tellForm, type ToTell } from "../lib/store/tellings";
import { teller } from "./data.svelte";

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

/** Tells these; what hangs on them (`also`: the form, photos) is changed with them. */
export async function tellThese(all: Happened[], also?: () => PromiseLike<unknown>): Promise<void> {
  await tellAll(all, teller(), also);
  void sync();
}

/** Tells what a form says, which may have told it before. */
export async function tellAgain(form: string, all: ToTell[], also?: () => PromiseLike<unknown>): Promise<void> {
  await tellForm(form, all, teller(), also);
  void sync();
}
