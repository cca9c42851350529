// Where the app is looked at without signing in: in a house of its own, or, with LENGTHSMAN_APP, wherever it is served already.
import { openHouse } from "./house";
import { program } from "./pages";

export async function openApp(): Promise<{ address: string; end(): Promise<void> }> {
  const served = process.env["LENGTHSMAN_APP"];
  return served ? { address: served, end: () => Promise.resolve() } : openHouse(program());
}
