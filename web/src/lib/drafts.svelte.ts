// Half-filled forms. Whatever is typed or ticked is in the device's database at once; a page that comes back finds it as it was.
import { database } from "./store/database";

const kept = new Map<string, unknown>();

/** Reads what was left half-filled; to be waited for before pages are shown. */
export async function readDrafts(): Promise<void> {
  for (const { key, value } of await database.drafts.toArray()) kept.set(key, value);
}

/** A form of its own: what it holds is kept under the key from the first change on. To be called where a component begins. */
export function useDraft<T extends object>(key: string, initial: T): T {
  const value = $state<T>({ ...initial, ...(kept.get(key) as Partial<T> | undefined) });
  let begun = false;
  $effect(() => {
    const now = $state.snapshot(value);
    if (begun) void keepDraft(key, now);
    begun = true;
  });
  return value;
}

export async function keepDraft(key: string, value: unknown): Promise<void> {
  kept.set(key, value);
  await database.drafts.put({ key, value });
}

export function peekDraft<T>(key: string): T | undefined {
  return kept.get(key) as T | undefined;
}

export async function forgetDraft(key: string): Promise<void> {
  kept.delete(key);
  await database.drafts.delete(key);
}

/** Of all forms. */
export async function forgetDrafts(): Promise<void> {
  kept.clear();
  await database.drafts.clear();
}
