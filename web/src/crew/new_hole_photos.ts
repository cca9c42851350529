// Photos of a new hole wait here until the hole has its number.
import { database } from "../lib/store/database";

const NEW_HOLE_PHOTOS = "new-hole-photos";

export async function newHolePhotos(): Promise<Blob[]> {
  return ((await database.drafts.get(NEW_HOLE_PHOTOS))?.value as Blob[] | undefined) ?? [];
}

export async function addNewHolePhoto(blob: Blob): Promise<void> {
  await database.drafts.put({ key: NEW_HOLE_PHOTOS, value: [...(await newHolePhotos()), blob] });
}

export async function forgetNewHolePhotos(): Promise<void> {
  await database.drafts.delete(NEW_HOLE_PHOTOS);
}
