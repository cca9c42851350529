// Every language has every message of the crew's phone, with the same values in it.
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";

const LOCALES = fileURLToPath(new URL("../../locales", import.meta.url));
const SOURCES = fileURLToPath(new URL("../src/crew", import.meta.url));

function messages(language: string): Map<string, string[]> {
  const text = readFileSync(join(LOCALES, language, "crew.ftl"), "utf8");
  const found = new Map<string, string[]>();
  for (const part of text.split(/\n(?=[a-z])/)) {
    const key = /^([a-z][a-z0-9-]*) =/.exec(part)?.[1];
    if (key) found.set(key, [...new Set(part.match(/\$[a-z]+/g) ?? [])].sort());
  }
  return found;
}

const english = messages("en");

// a plural form may say "one hole" without the number
test.each(["es", "fr", "pt", "ar"])("%s says the same", (language) => expect(messages(language)).toEqual(english));

test("what the pages say is in the catalogue", () => {
  const files = readdirSync(SOURCES, { recursive: true, encoding: "utf8" }).filter((name) => /\.(svelte|ts)$/.test(name));
  const said = files.flatMap((name) => [...readFileSync(join(SOURCES, name), "utf8").matchAll(/\bt\("(crew-[a-z0-9-]+)"/g)].map((match) => match[1]!));
  expect(said.length).toBeGreaterThan(100);
  expect(said.filter((key) => !english.has(key))).toEqual([]);
});
