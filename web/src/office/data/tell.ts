// The office tells as a phone does: into the queue, then to the server. Here somebody waits for the answer.
import { words } from "../../lib/api";
import { t } from "../../lib/messages.svelte";
import { me } from "../../lib/session.svelte";
import { database, type Happened } from "../../lib/store/database";
import { tellAll } from "../../lib/store/queue";
import { dropRefused } from "../../lib/store/tellings";
import { sync, syncState } from "../../lib/store/sync.svelte";

export interface Outcome {
  outcome: "sent" | "waiting" | "refused";
  why: string;
}

/**
 * Tells, and says what was wrong when it was refused, or that it waits for signal. What hangs on it (`also`: the form) is changed with
 * it. What was refused is not kept in the queue: who told it is told so here, and has the form still.
 */
export async function record(happened: Happened[], also?: () => PromiseLike<unknown>): Promise<Outcome> {
  const { name, device } = me()!;
  const as = { actor: name, device };
  let told;
  try {
    told = await tellAll(happened, as, also);
  } catch (error) {
    return { outcome: "refused", why: words(error) };
  }
  const ids = told.map(({ id }) => id);
  // one that is under way already takes it along at its end
  for (let tries = 0; tries < 40; tries += 1) {
    await sync();
    const now = await database.told.bulkGet(ids);
    const refused = now.filter((one) => one?.state === "refused");
    for (const one of refused) await dropRefused(one!, as);
    if (refused.length > 0) return { outcome: "refused", why: refused[0]?.why ?? "" };
    if (now.every((one) => one?.state === "sent")) return { outcome: "sent", why: "" };
    if (syncState().trouble) break;
    await new Promise((done) => setTimeout(done, 250));
  }
  return { outcome: "waiting", why: syncState().trouble ? t(`trouble-${syncState().trouble}`) : "" };
}
