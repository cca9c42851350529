// Office, crew and guide are read when they are looked at, each with its words: a phone need not wait for the office's map.
import type { Component } from "svelte";
import { wantWords } from "./lib/messages.svelte";

interface Module {
  default: Component;
}

const PARTS = {
  office: { read: (): Promise<Module> => import("./office/Office.svelte"), words: ["office", "lasting"] },
  crew: { read: (): Promise<Module> => import("./crew/Crew.svelte"), words: ["crew"] },
  guide: { read: (): Promise<Module> => import("./guide/Guide.svelte"), words: ["guide", "measure"] },
} as const;

export type Part = keyof typeof PARTS;

export function isPart(name: string | undefined): name is Part {
  return name !== undefined && name in PARTS;
}

/** Where somebody of this role begins. */
export function partOf(role: string): Part {
  return role === "crew" ? "crew" : "office";
}

const reading = new Map<Part, Promise<Module>>();

/** A part with its words; what is being read already is not read twice. */
export function readPart(part: Part): Promise<Module> {
  let module = reading.get(part);
  if (!module) {
    const { read, words } = PARTS[part];
    module = Promise.all([read(), wantWords(...words)]).then(([module]) => module);
    // what failed is tried again the next time
    module.catch(() => reading.delete(part));
    reading.set(part, module);
  }
  return module;
}
