// Light or dark: as the device has it, unless somebody chose.
import { database } from "./store/database";

export type Look = "device" | "light" | "dark";

const state = $state<{ look: Look }>({ look: "device" });

export function look(): Look {
  return state.look;
}

export async function setLook(look: Look): Promise<void> {
  state.look = look;
  show();
  await database.meta.put({ key: "look", value: look });
}

export async function startLook(): Promise<void> {
  state.look = ((await database.meta.get("look"))?.value as Look | undefined) ?? "device";
  window.matchMedia("(prefers-color-scheme: dark)").addEventListener("change", show);
  show();
}

export function isDark(): boolean {
  return state.look === "dark" || (state.look === "device" && window.matchMedia("(prefers-color-scheme: dark)").matches);
}

function show(): void {
  document.documentElement.dataset["look"] = isDark() ? "dark" : "light";
}
