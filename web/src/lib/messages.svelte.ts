// Words in the reader's language, from the catalogue that the whole program shares (Fluent).
import { FluentBundle, FluentResource, type FluentVariable } from "@fluent/bundle";
import { database } from "./store/database";

export const LANGUAGES = ["en", "es", "fr", "pt", "ar"] as const;
export type Language = (typeof LANGUAGES)[number];

/** Names of languages in themselves. */
export const NAMES: Record<Language, string> = { en: "English", es: "Español", fr: "Français", pt: "Português", ar: "العربية" };

const FILES = import.meta.glob<string>("../../../locales/*/{web,office,lasting,crew,guide,measure}.ftl", { query: "?raw", import: "default" });

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

/** Files of the catalogue that are wanted: those of the parts that are looked at. */
const wanted = new Set(["web"]);
const loading = new Map<string, Promise<void>>();

/** Reads the wanted files of a language that are not read yet. */
async function load(code: Language): Promise<void> {
  const bundle = (bundles[code] ??= new FluentBundle(code));
  await Promise.all(
    [...wanted].map((file) => {
      const path = `../../../locales/${code}/${file}.ftl`;
      if (!loading.has(path)) {
        const read = FILES[path]!().then((text) => void bundle.addResource(new FluentResource(text)));
        read.catch(() => loading.delete(path));
        loading.set(path, read);
      }
      return loading.get(path);
    }),
  );
}

let chosen: () => void;
/** Words are read once it is known in which language. */
const known = new Promise<void>((done) => (chosen = done));

/** Reads the words of a part, and from now on in every language that is spoken. */
export async function wantWords(...files: string[]): Promise<void> {
  for (const file of files) wanted.add(file);
  await known;
  await load(state.language);
  fallBack();
}

/** What a language lacks is said in English; nobody waits for that. */
function fallBack(): void {
  if (state.language !== "en") load("en").catch(() => undefined);
}

async function show(code: Language): Promise<void> {
  await load(code);
  state.language = code;
  state.ready += 1;
  chosen();
  fallBack();
  document.documentElement.lang = code;
  document.documentElement.dir = isRightToLeft() ? "rtl" : "ltr";
}

/** Speaks a language, from now on. */
export async function speak(code: Language): Promise<void> {
  await show(code);
  await database.meta.put({ key: "language", value: code });
}

/** The language chosen before, or the browser's first that is spoken here. */
export async function startMessages(): Promise<void> {
  const kept = (await database.meta.get("language"))?.value as Language | undefined;
  const wished = navigator.languages.map((tag) => tag.slice(0, 2) as Language);
  await show(kept ?? wished.find((code) => LANGUAGES.includes(code)) ?? "en");
}
