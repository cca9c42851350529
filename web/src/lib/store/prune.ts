// Throws away what the server has confirmed and the device needs no more. What waits or was refused is never touched. Times are common practice,
// no source.
import { smaller } from "../photo";
import { database, type KeptPhoto } from "./database";

const DAY_MS = 86_400_000;
/** Photos are looked at again while the crew is at the site; a small picture does for the days after. */
export const PHOTO_DAYS = 1;
/** So long what was sent can be taken back from the queue. */
export const SENT_DAYS = 14;
/** Rounds are shown for four days after theirs. */
export const FILE_DAYS = 7;

/** When all that is known had been fetched last. */
export const FETCHED = "known-fetched";
const EVERY_MS = 3_600_000;
const SMALL = 160;

let last = -Infinity;

/** Does it, at most once an hour. */
export async function prune(): Promise<void> {
  if (Math.abs(Date.now() - last) < EVERY_MS) return;
  last = Date.now();
  await pruneNow(last);
}

export async function pruneNow(now: number, shrink: (photo: Blob) => Promise<Blob> = (photo) => smaller(photo, SMALL)): Promise<void> {
  await stampOlder(now);
  await prunePhotos(now, shrink);
  await pruneEvents(now);
  await pruneFiles(now);
}

/** What an older version of the app sent has no time: its days begin now, and its photos are confirmed once more. */
async function stampOlder(now: number): Promise<void> {
  await database.told.where("state").equals("sent").and(({ confirmed }) => confirmed === undefined).modify({ confirmed: now });
  await database.photos.where("state").equals("sent").and(({ confirmed }) => confirmed === undefined).modify({ state: "waiting" });
}

function isOlder(confirmed: number | undefined, days: number, now: number): boolean {
  return confirmed !== undefined && confirmed < now - days * DAY_MS;
}

/** Names of photos of which an event has not been taken by the server. */
async function openPhotos(): Promise<Set<string>> {
  const open = await database.told.where("state").anyOf("waiting", "refused").toArray();
  return new Set(open.flatMap(({ event: { happened } }) => (happened.kind === "photo_taken" ? [happened.photo] : [])));
}

/** The bytes first: they take most of the room. */
async function prunePhotos(now: number, shrink: (photo: Blob) => Promise<Blob>): Promise<void> {
  const open = await openPhotos();
  const sent = (await database.photos.where("state").equals("sent").toArray()).filter(({ sha256 }) => !open.has(sha256));
  for (const { sha256, blob, confirmed, small } of sent) {
    if (isOlder(confirmed, SENT_DAYS, now)) await change(sha256, () => database.photos.delete(sha256));
    else if (!small && isOlder(confirmed, PHOTO_DAYS, now)) {
      const picture = await shrink(blob);
      await change(sha256, (photo) => database.photos.put({ ...photo, blob: picture, small: true }));
    }
  }
}

/** The same photo may have been taken in again meanwhile, and waits: then it stays. */
async function change(sha256: string, work: (photo: KeptPhoto) => PromiseLike<unknown>): Promise<void> {
  await database.transaction("rw", database.photos, async () => {
    const photo = await database.photos.get(sha256);
    if (photo?.state === "sent") await work(photo);
  });
}

/** Events go once the rows that have them were fetched: until then only the queue knows of them here. */
async function pruneEvents(now: number): Promise<void> {
  const fetched = ((await database.meta.get(FETCHED))?.value as number | undefined) ?? -Infinity;
  const photos = new Set(await database.photos.toCollection().primaryKeys());
  await database.told
    .where("state")
    .equals("sent")
    .and(({ confirmed, event: { happened } }) => isOlder(confirmed, SENT_DAYS, now) && confirmed! < fetched && !(happened.kind === "photo_taken" && photos.has(happened.photo)))
    .delete();
}

/** Files of rounds that are long over or known no more; the server has them. */
async function pruneFiles(now: number): Promise<void> {
  const rounds = (await database.files.orderBy("round").uniqueKeys()) as string[];
  const rows = await database.known.bulkGet(rounds.map((round) => `rounds/${round}`));
  const oldest = new Date(now - FILE_DAYS * DAY_MS).toISOString().slice(0, 10);
  const over = rounds.filter((_, at) => {
    const date = (rows[at]?.row.known as { date?: { value: string } | null } | undefined)?.date?.value;
    return date === undefined || date < oldest;
  });
  await database.files.where("round").anyOf(over).delete();
}
