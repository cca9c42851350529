// What a form has told before, followed as the phone's database has it.
import { liveQuery } from "dexie";
import { tellingsOf, type Tellings } from "../lib/store/tellings";

/** To be called where a component begins; nothing until it is read. */
export function toldBefore(form: string): () => Tellings | undefined {
  let now = $state.raw<Tellings | undefined>(undefined);
  $effect(() => {
    const following = liveQuery(() => tellingsOf(form)).subscribe((read) => (now = read));
    return () => following.unsubscribe();
  });
  return () => now;
}
