import { mount } from "svelte";
import App from "./App.svelte";
import "./ui/fonts.css";
import "./ui/base.css";
import { keepOffline } from "./lib/offline";
import { startMessages } from "./lib/messages.svelte";
import { startLook } from "./lib/look.svelte";
import { isDevice, me, startSession } from "./lib/session.svelte";
import { place, watchPlace } from "./lib/router.svelte";
import { isPart, partOf, readPart } from "./parts";

watchPlace();
// what will be looked at is read while the rest is looked up
const first = place().path[0];
if (isPart(first)) readPart(first).catch(() => undefined);
// the page needs words and who is there before anything is drawn; both come from the device itself, so no signal is needed
await Promise.all([startLook(), startMessages(), startSession().then(readFirst)]);
mount(App, { target: document.getElementById("app")! });
keepOffline();

/** A device opened from its home screen begins where its person works. */
function readFirst(): void {
  if (isDevice() && !place().link && place().path.length === 0) readPart(partOf(me()!.role)).catch(() => undefined);
}
