// The browser's offer to install the app, shown once.
import { keepRoom } from "../lib/room";
import { database } from "../lib/store/database";

interface Offer extends Event {
  prompt(): Promise<unknown>;
}

let offer = $state.raw<Offer | undefined>(undefined);

export function installOffer(): boolean {
  return offer !== undefined;
}

export function watchInstall(): () => void {
  const keep = (event: Event): void => {
    event.preventDefault();
    void database.meta.get("install-offered").then((done) => {
      if (!done) offer = event as Offer;
    });
  };
  window.addEventListener("beforeinstallprompt", keep);
  return () => window.removeEventListener("beforeinstallprompt", keep);
}

export async function answerOffer(install: boolean): Promise<void> {
  const now = offer;
  offer = undefined;
  await database.meta.put({ key: "install-offered", value: true });
  if (!install) return;
  await now?.prompt();
  // browsers keep more readily what is installed
  await keepRoom();
}
