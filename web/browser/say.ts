// Words as the app says them, so that tests find what people read.
import { FluentBundle, FluentResource, type FluentVariable } from "@fluent/bundle";
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const LOCALES = fileURLToPath(new URL("../../locales", import.meta.url));
const bundles = new Map<string, FluentBundle>();

export function say(key: string, values?: Record<string, FluentVariable>, language = "en"): string {
  let bundle = bundles.get(language);
  if (!bundle) {
    bundle = new FluentBundle(language);
    const folder = join(LOCALES, language);
    for (const file of readdirSync(folder)) bundle.addResource(new FluentResource(readFileSync(join(folder, file), "utf8")));
    bundles.set(language, bundle);
  }
  const pattern = bundle.getMessage(key)?.value;
  if (!pattern) throw new Error(`${language} has no message ${key}`);
  return bundle.formatPattern(pattern, values ?? null);
}
