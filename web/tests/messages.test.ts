// The catalogue is one: every language has the same messages with the same variables, nothing was left in English, and what the app asks for is there.
import { FluentParser, Visitor, type Message, type Pattern, type VariableReference } from "@fluent/syntax";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";

const LOCALES = fileURLToPath(new URL("../../locales", import.meta.url));
const SOURCE = fileURLToPath(new URL("../src", import.meta.url));
const OTHERS = ["es", "fr", "pt", "ar"];

interface Said {
  text: string;
  variables: string[];
}

class Variables extends Visitor {
  names = new Set<string>();
  override visitVariableReference(node: VariableReference): void {
    this.names.add(node.id.name);
  }
}

function variablesOf(pattern: Pattern): string[] {
  const found = new Variables();
  found.visit(pattern);
  return [...found.names].sort();
}

/** Messages of a file; what can't be parsed fails here. */
function read(language: string, file: string): Map<string, Said> {
  const text = readFileSync(join(LOCALES, language, file), "utf8");
  const resource = new FluentParser({ withSpans: true }).parse(text);
  const junk = resource.body.filter((entry) => entry.type === "Junk");
  expect(junk.map((entry) => (entry as { content: string }).content), `${language}/${file}`).toEqual([]);
  const messages = resource.body.filter((entry): entry is Message => entry.type === "Message" && (entry as Message).value !== null);
  expect(new Set(messages.map((message) => message.id.name)).size, `${language}/${file} has a message twice`).toBe(messages.length);
  return new Map(
    messages.map((message) => {
      const { start, end } = message.value!.span!;
      return [message.id.name, { text: text.slice(start, end).trim(), variables: variablesOf(message.value!) }];
    }),
  );
}

const files = readdirSync(join(LOCALES, "en")).filter((file) => file.endsWith(".ftl"));

describe.each(files)("%s", (file) => {
  const english = read("en", file);

  it.each(OTHERS)("says the same in %s", (language) => {
    const other = read(language, file);
    expect([...other.keys()].sort()).toEqual([...english.keys()].sort());
    const variables = (said: Map<string, Said>): string[] => [...said].map(([key, { variables }]) => `${key}: ${variables.join(", ")}`).sort();
    expect(variables(other)).toEqual(variables(english));
  });

  it.each(OTHERS)("is not left in English in %s", (language) => {
    const left = [...read(language, file)].filter(([key, { text }]) => text === english.get(key)?.text && letters(text) > 12).map(([key, { text }]) => `${key} = ${text}`);
    expect(left).toEqual([]);
  });
});

it("has each message in one file only", () => {
  const keys = files.flatMap((file) => [...read("en", file).keys()]);
  expect(keys.filter((key, at) => keys.indexOf(key) !== at)).toEqual([]);
});

it("has every message that the app asks for", () => {
  const keys = new Set(files.flatMap((file) => [...read("en", file).keys()]));
  const missing: string[] = [];
  let asked = 0;
  for (const path of sources(SOURCE)) {
    const text = withoutComments(readFileSync(path, "utf8"));
    for (const [, key] of text.matchAll(/\bt\(\s*"([^"]+)"/g)) {
      asked += 1;
      if (!keys.has(key!)) missing.push(`${path.slice(SOURCE.length + 1)}: ${key}`);
    }
    // put together: there are messages that begin so
    for (const [, start] of text.matchAll(/\bt\(\s*`([^`$]+)\$\{/g)) {
      asked += 1;
      if (![...keys].some((key) => key.startsWith(start!))) missing.push(`${path.slice(SOURCE.length + 1)}: ${start}…`);
    }
  }
  expect(missing).toEqual([]);
  expect(asked).toBeGreaterThan(50);
});

/** Letters of the words themselves, without what stands in braces. */
function letters(text: string): number {
  return text.replace(/\{[^}]*\}/g, "").replace(/[^\p{L}]/gu, "").length;
}

function withoutComments(code: string): string {
  return code.replace(/\/\*[\s\S]*?\*\/|^\s*\/\/.*$|<!--[\s\S]*?-->/gm, "");
}

function sources(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile() && /\.(svelte|ts)$/.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name));
}
