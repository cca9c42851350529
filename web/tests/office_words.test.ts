import { readFileSync, readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { FluentParser, serializeExpression, type Pattern } from "@fluent/syntax";
import { describe, expect, test } from "vitest";

const LANGUAGES = ["en", "es", "fr", "pt", "ar"];
const at = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

function messages(language: string): Map<string, string> {
  const parsed = new FluentParser({ withSpans: false }).parse(readFileSync(at(`../../locales/${language}/office.ftl`), "utf8"));
  expect(parsed.body.filter(({ type }) => type === "Junk")).toEqual([]);
  return new Map(parsed.body.flatMap((entry) => (entry.type === "Message" && entry.value ? [[entry.id.name, values(entry.value)]] : [])));
}

/** Names of the values that a message wants. */
function values(pattern: Pattern): string {
  return pattern.elements.flatMap((element) => (element.type === "Placeable" ? [serializeExpression(element.expression)] : [])).sort().join(" ");
}

describe("words of the office", () => {
  const english = messages("en");

  test.each(LANGUAGES)("are the same messages with the same values in %s", (language) => {
    expect(Object.fromEntries(messages(language))).toEqual(Object.fromEntries(english));
  });

  test("that pages ask for are all there", () => {
    const folder = at("../src/office");
    const texts = readdirSync(folder, { recursive: true, encoding: "utf8" }).filter((name) => /\.(svelte|ts)$/.test(name)).map((name) => readFileSync(`${folder}/${name}`, "utf8")).join("\n");
    const asked = [...texts.matchAll(/["`](office-[a-z0-9_-]+)["`]/g)].map(([, key]) => key!);
    expect(asked.length).toBeGreaterThan(200);
    expect(asked.filter((key) => !english.has(key))).toEqual([]);
  });
});
