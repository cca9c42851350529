// Sends what waits and fetches what is new, whenever there is signal; safe to break off anywhere, since telling twice is the same as once.
import type { components } from "../../api/schema";
import { api, ownHeaders, words } from "../api";
import { database, type KnownWhat, type Told } from "./database";

/** Events in one batch: small enough for a weak signal. */
const BATCH = 100;
/** Bytes of a photo sent in one piece. */
const PIECE = 256 * 1024;
/** How often it looks by itself, milliseconds. */
const EVERY = 20_000;

const WHAT: KnownWhat[] = ["rounds", "repairs", "zones", "holes"];

const state = $state({ running: false, waiting: 0, waitingPhotos: 0, refused: 0, lastDone: undefined as Date | undefined, trouble: "" });

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

/** Does all of it once; when one is under way, once more after it. */
export async function sync(): Promise<void> {
  if (state.running) {
    again = true;
    return;
  }
  state.running = true;
  try {
    do {
      again = false;
      await sendEvents();
      await fetchKnown();
      await fetchFiles();
      await sendPhotos();
      state.lastDone = new Date();
      state.trouble = "";
    } while (again);
  } catch (error) {
    state.trouble = words(error);
  } finally {
    state.running = false;
    await count();
  }
}

/** Looks by itself from now on. */
export function keepInSync(): () => void {
  const look = (): void => void sync();
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

/** Sends what waits, the oldest first. */
export async function sendEvents(): Promise<void> {
  for (;;) {
    const waiting = (await database.told.where("state").equals("waiting").sortBy("order")).slice(0, BATCH);
    if (waiting.length === 0) return;
    const { data, error } = await api.POST("/api/events", { body: { events: waiting.map((told) => told.event) as unknown as Record<string, never>[] } });
    if (!data) throw error;
    const ahead = Date.now() - Date.parse(data.now);
    await database.meta.put({ key: "clock_ahead_ms", value: Math.abs(ahead) < 30_000 ? 0 : Math.round(ahead) });
    const judged = waiting.map((told, index): Told => {
      const answer = data.events[index];
      if (answer?.outcome !== "refused") return { ...told, state: "sent", ...(typeof answer?.position === "number" ? { position: answer.position } : {}) };
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
    let position = since;
    do {
      const { data, error } = await api.GET("/api/known/{what}", {
        params: { path: { what }, query: { changed_after: since, limit: 1_000, ...(after === undefined ? {} : { after }) } },
      });
      if (!data) throw error;
      const rows = data.known;
      await database.known.bulkPut(rows.map((row) => ({ key: `${what}/${numberOf(what, row)}`, what, id: numberOf(what, row), row })));
      position = Math.max(position, ...rows.map((row) => row.position));
      after = data.next_after ?? undefined;
    } while (after !== undefined);
    if (position > since) await database.meta.put({ key, value: position });
  }
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

/** Fetches the files of the wanted rounds that are new. */
export async function fetchFiles(): Promise<void> {
  for (const round of wantedRounds) {
    const listed = await fetch(`/api/rounds/${round}/files`, { headers: ownHeaders() });
    if (!listed.ok) continue;
    const files = (await listed.json()) as { name: string; sha256: string }[];
    for (const { name, sha256 } of files) {
      if (name.endsWith(".pdf")) continue;
      const key = `${round}/${name}`;
      if ((await database.files.get(key))?.sha256 === sha256) continue;
      const answer = await fetch(`/api/rounds/${round}/files/${name}`, { headers: ownHeaders() });
      if (answer.ok) await database.files.put({ key, round, sha256, blob: await answer.blob() });
    }
  }
}

/** Sends photos that wait, in pieces, from where they broke off. */
export async function sendPhotos(): Promise<void> {
  for (const photo of await database.photos.where("state").equals("waiting").toArray()) {
    const path = `/api/photos/${photo.sha256}`;
    const head = await fetch(path, { method: "HEAD", headers: ownHeaders() });
    let from = head.ok ? Number(head.headers.get("upload-offset") ?? 0) : 0;
    while (from < photo.blob.size) {
      const to = Math.min(from + PIECE, photo.blob.size);
      const answer = await fetch(path, {
        method: "PUT",
        headers: { ...ownHeaders(), "content-type": photo.blob.type || "image/jpeg", "content-range": `bytes ${from}-${to - 1}/${photo.blob.size}` },
        body: photo.blob.slice(from, to),
      });
      if (!answer.ok && answer.status !== 409) throw await answer.json().catch(() => new Error(`${answer.status}`));
      const received = (await answer.json().catch(() => undefined)) as { bytes: number } | undefined;
      if (answer.status === 409 && (received?.bytes ?? from) === from) throw new Error("the server has another piece of this photo");
      from = received?.bytes ?? to;
    }
    await database.photos.update(photo.sha256, { state: "sent" });
    await count();
  }
}
