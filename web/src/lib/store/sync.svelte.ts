// Sends what waits and fetches what is new, whenever there is signal; safe to break off anywhere, since telling twice is the same as once.
import type { components } from "../../api/schema";
import { Answered, api, ownHeaders, patience, words } from "../api";
import { clockAhead } from "../clock";
import { askForRoom } from "../room";
import { ask, isDevice, me } from "../session.svelte";
import { troubleOf, type Trouble } from "../trouble";
import { FETCHED, prune } from "./prune";
import { database, type KeptFile, type KeptPhoto, type KnownWhat, type Told } from "./database";

/** Events in one batch: small enough for a weak signal. */
const BATCH = 100;
/** Bytes of a photo sent in one piece. */
const PIECE = 256 * 1024;
/** How often it looks by itself, milliseconds. */
const EVERY = 20_000;

const WHAT: KnownWhat[] = ["rounds", "repairs", "zones", "holes", "resurfacings"];

const state = $state({ running: false, waiting: 0, waitingPhotos: 0, refused: 0, lastDone: undefined as Date | undefined, trouble: "" as Trouble | "", said: "" });

export function syncState(): Readonly<typeof state> {
  return state;
}

/** Counts what waits, for the eyes. */
export async function count(): Promise<void> {
  state.waiting = await database.told.where("state").equals("waiting").count();
  state.refused = await database.told.where("state").equals("refused").count();
  state.waitingPhotos = await database.photos.where("state").equals("waiting").count();
}

let again = false;

/** Held by who sends and fetches, and by who clears the device: one at a time, also of several windows. */
export const LOCK = "lengthsman-sync";

/** Does it as the only one; where the browser has no locks, or another window is at it, as far as that goes. */
async function alone(work: () => Promise<void>): Promise<void> {
  if (!globalThis.navigator?.locks) return work();
  await navigator.locks.request(LOCK, { ifAvailable: true }, (lock) => (lock ? work() : undefined));
}

/** Does all of it once; when one is under way, once more after it. */
export async function sync(): Promise<void> {
  if (state.running) {
    again = true;
    return;
  }
  state.running = true;
  try {
    await alone(async () => {
      do {
        again = false;
        await clockAhead();
        await sendEvents();
        await fetchKnown();
        await fetchFiles();
        await sendPhotos();
        await prune().catch((error: unknown) => console.warn("nothing was thrown away:", error));
        state.lastDone = new Date();
        state.trouble = state.said = "";
      } while (again);
    });
  } catch (error) {
    state.trouble = troubleOf(error);
    state.said = words(error);
    // in a browser somebody has to sign in again; a device keeps what it has and is made known anew
    if (state.trouble === "session" && !isDevice()) void ask();
  } finally {
    state.running = false;
    await count();
  }
}

/** Looks by itself from now on. */
export function keepInSync(): () => void {
  const look = (): void => void sync();
  void askForRoom();
  const timer = setInterval(look, EVERY);
  window.addEventListener("online", look);
  document.addEventListener("visibilitychange", look);
  void count();
  look();
  return () => {
    clearInterval(timer);
    window.removeEventListener("online", look);
    document.removeEventListener("visibilitychange", look);
  };
}

/** What waits and is for the person who is there to send, the oldest first: what another told here waits for that person. */
async function toSend(): Promise<Told[]> {
  const teller = me();
  const waiting = await database.told.where("state").equals("waiting").sortBy("order");
  const own = waiting.filter(({ event }) => teller === undefined || event.actor === teller.name).slice(0, BATCH);
  // the same phone under a name that it was given since
  return own.map((told) => (teller === undefined ? told : { ...told, event: { ...told.event, device: teller.device } }));
}

/** Sends what waits, the oldest first. */
export async function sendEvents(): Promise<void> {
  for (;;) {
    const waiting = await toSend();
    if (waiting.length === 0) return;
    const { data, error, response } = await api.POST("/api/events", { body: { events: waiting.map((told) => told.event) as unknown as Record<string, never>[] }, signal: patience() });
    if (!data) throw new Answered(response.status, error);
    const ahead = Date.now() - Date.parse(data.now);
    const judged = waiting.map((told, index): Told => {
      const answer = data.events[index];
      if (answer?.outcome !== "refused") return { ...told, state: "sent", confirmed: Date.now(), ...(typeof answer?.position === "number" ? { position: answer.position } : {}) };
      // told by a clock that was wrong: once more with what is known of the clock now
      if (told.event.clock_ahead_ms === undefined && Math.abs(ahead) >= 30_000) return { ...told, event: { ...told.event, clock_ahead_ms: Math.round(ahead) } };
      return { ...told, state: "refused", why: answer.why ?? "" };
    });
    await database.told.bulkPut(judged);
    await count();
    if (judged.every((told) => told.state === "waiting")) return;
  }
}

/** Fetches what changed since last time. */
export async function fetchKnown(): Promise<void> {
  for (const what of WHAT) {
    const key = `position/${what}`;
    const since = ((await database.meta.get(key))?.value as number | undefined) ?? 0;
    let after: string | undefined;
    let position: number | undefined;
    do {
      const { data, error, response } = await api.GET("/api/known/{what}", {
        signal: patience(),
        params: { path: { what }, query: { changed_after: since, limit: 1_000, ...(after === undefined ? {} : { after }) } },
      });
      if (!data) throw new Answered(response.status, error);
      const rows = data.known;
      await forgetGone(what, data.gone ?? []);
      await database.known.bulkPut(rows.map((row) => ({ key: `${what}/${numberOf(what, row)}`, what, id: numberOf(what, row), row })));
      // of the first page only: what changes while the others are read is asked for again
      position ??= Math.max(since, ...rows.map((row) => row.position));
      after = data.next_after ?? undefined;
    } while (after !== undefined);
    if (position !== undefined && position > since) await database.meta.put({ key, value: position });
  }
  await database.meta.put({ key: FETCHED, value: Date.now() });
}

/** Takes out what nothing is known of any more: withdrawn, all of it. */
async function forgetGone(what: KnownWhat, gone: string[]): Promise<void> {
  const keys = gone.map((id) => `${what}/${id}`);
  await database.transaction("rw", database.known, database.meta, async () => {
    // the server may say it more than once
    const there = await database.known.where("key").anyOf(keys).primaryKeys();
    if (there.length === 0) return;
    await database.known.bulkDelete(there);
    // whoever has read all of them reads anew; their position may be the same
    const key = `position/${what}/gone`;
    await database.meta.put({ key, value: (((await database.meta.get(key))?.value as number | undefined) ?? 0) + there.length });
  });
}

function numberOf(what: KnownWhat, row: components["schemas"]["KnownRow"]): string {
  return (row.known as unknown as Record<string, string>)[what.slice(0, -1)]!;
}

/** Rounds whose files are wanted on the device: set by the crew's pages. */
let wantedRounds: string[] = [];

export function wantFiles(rounds: string[]): void {
  const isNew = rounds.some((round) => !wantedRounds.includes(round));
  wantedRounds = rounds;
  // at once: the phone may be out of reach by the time it looks by itself
  if (isNew) void sync();
}

/** Fetches the files of the wanted rounds that are new; those of one round all together, so that list and drawings are of one plan. */
export async function fetchFiles(): Promise<void> {
  for (const round of wantedRounds) {
    const listed = await fetch(`/api/rounds/${round}/files`, { headers: ownHeaders(), signal: patience() });
    if (!listed.ok) continue;
    const files = ((await listed.json()) as { name: string; sha256: string }[]).filter(({ name }) => !name.endsWith(".pdf"));
    const kept = new Map((await database.files.where("round").equals(round).toArray()).map((file) => [file.key, file.sha256]));
    const fresh: KeptFile[] = [];
    for (const { name, sha256 } of files) {
      const key = `${round}/${name}`;
      if (kept.get(key) === sha256) continue;
      const answer = await fetch(`/api/rounds/${round}/files/${name}`, { headers: ownHeaders(), signal: patience() });
      if (!answer.ok) throw new Answered(answer.status, { detail: `${name}: ${answer.status}` });
      fresh.push({ key, round, sha256, blob: await answer.blob() });
    }
    const gone = [...kept.keys()].filter((key) => !files.some(({ name }) => key === `${round}/${name}`));
    if (fresh.length === 0 && gone.length === 0) continue;
    await database.transaction("rw", database.files, async () => {
      await database.files.bulkDelete(gone);
      await database.files.bulkPut(fresh);
    });
  }
}

/** Answers that no second try changes: the file itself is not taken. */
const NOT_TAKEN = [400, 413, 415, 422];
/** What came is not the file of that name. */
const OTHER_CONTENT = 422;

/** Sends photos that wait, in pieces, from where they broke off. One that is not taken keeps no other back. */
export async function sendPhotos(): Promise<void> {
  for (const photo of await database.photos.where("state").equals("waiting").toArray()) {
    const state = await sendPhoto(photo);
    await database.photos.update(photo.sha256, { state, ...(state === "sent" ? { confirmed: Date.now() } : {}) });
    await count();
  }
}

async function sendPhoto({ sha256, blob }: KeptPhoto): Promise<"sent" | "refused"> {
  const path = `/api/photos/${sha256}`;
  const head = await fetch(path, { method: "HEAD", headers: ownHeaders(), signal: patience() });
  let from = head.ok ? Number(head.headers.get("upload-offset") ?? 0) : 0;
  for (let tries = 0, anew = 0; ; ) {
    // all of it may be there and not be looked through yet: the last byte once more brings the answer to that
    from = Math.max(0, Math.min(from, blob.size - 1));
    const to = Math.min(from + PIECE, blob.size);
    const answer = await fetch(path, {
      method: "PUT",
      headers: { ...ownHeaders(), "content-type": blob.type || "image/jpeg", "content-range": `bytes ${from}-${to - 1}/${blob.size}` },
      body: blob.slice(from, to),
      signal: patience(),
    });
    if (answer.status === OTHER_CONTENT && from > 0 && anew++ === 0) {
      // pieces that came before are spoilt, and thrown away there
      from = 0;
      continue;
    }
    if (NOT_TAKEN.includes(answer.status)) return "refused";
    if (answer.ok) {
      const { bytes, complete } = (await answer.json()) as components["schemas"]["Received"];
      if (complete) return "sent";
      if ((bytes <= from || bytes >= blob.size) && ++tries > 3) throw new Error(`${path}: ${bytes}`);
      from = bytes;
      continue;
    }
    // another piece is there than was thought: go on from where the server says, a few times
    const offset = answer.headers.get("upload-offset");
    if (answer.status !== 409 || offset === null || ++tries > 3) throw new Answered(answer.status, await answer.json().catch(() => undefined));
    from = Number(offset);
  }
}
