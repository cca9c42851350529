// Room on the device: how much of it is taken, and the browser's word that it will not throw away what lies here when it wants room.
import { database } from "./store/database";

const ASKED = "asked-for-room";

/** Asks for that word, once by itself: some browsers ask their person in turn. */
export async function askForRoom(): Promise<void> {
  if (!globalThis.navigator?.storage?.persist || (await isKept()) || (await database.meta.get(ASKED))) return;
  await database.meta.put({ key: ASKED, value: true });
  await keepRoom();
}

/** Asks for it; whether it was given. */
export async function keepRoom(): Promise<boolean> {
  return (await navigator.storage?.persist?.().catch(() => false)) ?? false;
}

/** Whether the browser has given its word; nothing where it does not say. */
export async function isKept(): Promise<boolean | undefined> {
  return navigator.storage?.persisted?.().catch(() => undefined);
}

/** Bytes that the app takes, and could take; nothing where the browser does not say. */
export async function room(): Promise<{ taken: number; of: number } | undefined> {
  const { usage, quota } = (await navigator.storage?.estimate?.().catch(() => undefined)) ?? {};
  return usage === undefined || quota === undefined ? undefined : { taken: usage, of: quota };
}
