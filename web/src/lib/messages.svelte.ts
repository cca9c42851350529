// Words in the reader's language, from the catalogue that the whole program shares (Fluent).
import { FluentBundle, FluentResource, type FluentVariable } from "@fluent/bundle";
import { database } from "./store/database";

export const LANGUAGES = ["en", "es", "fr", "pt", "ar"] as const;
export type Language = (typeof LANGUAGES)[number];

/** Names of languages in themselves. */
export const NAMES: Record<Language, string> = { en: "English", es: "Español", fr: "Français", pt: "Português", ar: "العربية" };

const FILES = import.meta.glob<string>("../../../locales/*/{web,office,crew,guide,measure}.ftl", { query: "?raw", import: "default" });

const bundles: Partial<Record<Language, FluentBundle>> = {};
const state = $state<{ language: Language; ready: number }>({ language: "en", ready: 0 });

export function language(): Language {
  return state.language;
}

export function isRightToLeft(): boolean {
  return state.language === "ar";
}

/** A message: `t("holes-waiting", { count: 3 })`. What a language lacks is said in English; what nobody has, by its key. */
export function t(key: string, values?: Record<string, FluentVariable>): string {
  void state.ready;
  for (const code of [state.language, "en"] as const) {
    const bundle = bundles[code];
    const pattern = bundle?.getMessage(key)?.value;
    if (bundle && pattern) return bundle.formatPattern(pattern, values ?? null);
  }
  return key;
}

async function load(code: Language): Promise<void> {
  if (bundles[code]) return;
  const bundle = new FluentBundle(code);
  const texts = Object.entries(FILES).filter(([path]) => path.includes(`/locales/${code}/`));
  for (const text of await Promise.all(texts.map(([, read]) => read()))) bundle.addResource(new FluentResource(text));
  bundles[code] = bundle;
}

export async function speak(code: Language): Promise<void> {
  await Promise.all([load("en"), load(code)]);
  state.language = code;
  state.ready += 1;
  document.documentElement.lang = code;
  document.documentElement.dir = isRightToLeft() ? "rtl" : "ltr";
  await database.meta.put({ key: "language", value: code });
}

/** The language chosen before, or the browser's first that is spoken here. */
export async function startMessages(): Promise<void> {
  const kept = (await database.meta.get("language"))?.value as Language | undefined;
  const wished = navigator.languages.map((tag) => tag.slice(0, 2) as Language);
  await speak(kept ?? wished.find((code) => LANGUAGES.includes(code)) ?? "en");
}
