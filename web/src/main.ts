import { mount } from "svelte";
import App from "./App.svelte";
import "./ui/fonts.css";
import "./ui/base.css";
import { keepOffline } from "./lib/offline";
import { startMessages } from "./lib/messages.svelte";
import { startLook } from "./lib/look.svelte";
import { startSession } from "./lib/session.svelte";
import { watchPlace } from "./lib/router.svelte";

watchPlace();
// the page needs words and who is there before anything is drawn; both come from the device itself, so no signal is needed
await Promise.all([startLook(), startMessages(), startSession()]);
mount(App, { target: document.getElementById("app")! });
keepOffline();
