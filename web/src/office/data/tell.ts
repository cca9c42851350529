// The office tells as a phone does: into the queue, then to the server. Here somebody waits for the answer.
import { words } from "../../lib/api";
import { t } from "../../lib/messages.svelte";
import { me } from "../../lib/session.svelte";
import { database, type Happened } from "../../lib/store/database";
import { tellAll } from "../../lib/store/queue";
import { sync, syncState } from "../../lib/store/sync.svelte";

/** Tells, and says what was wrong when it was refused, or that it waits for signal. */
export async function record(...happened: Happened[]): Promise<{ outcome: "sent" | "waiting" | "refused"; why: string }> {
  const { name, device } = me()!;
  let told;
  try {
    told = await tellAll(happened, { actor: name, device });
  } catch (error) {
    return { outcome: "refused", why: words(error) };
  }
  const ids = told.map(({ id }) => id);
  // one that is under way already takes it along at its end
  for (let tries = 0; tries < 40; tries += 1) {
    await sync();
    const now = await database.told.bulkGet(ids);
    const refused = now.find((one) => one?.state === "refused");
    if (refused) return { outcome: "refused", why: refused.why ?? "" };
    if (now.every((one) => one?.state === "sent")) return { outcome: "sent", why: "" };
    if (syncState().trouble) break;
    await new Promise((done) => setTimeout(done, 250));
  }
  return { outcome: "waiting", why: syncState().trouble ? t(`trouble-${syncState().trouble}`) : "" };
}
