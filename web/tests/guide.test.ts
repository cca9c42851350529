import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { BACK, FRONT } from "../src/guide/cards";
import { STAGES, isStage } from "../src/guide/names";
import { FACTS, PRACTICE } from "../src/guide/stages";

const from = (path: string): string => readFileSync(fileURLToPath(new URL(`../../${path}`, import.meta.url)), "utf8");

describe("the pocket guide", () => {
  it("has the stages of a repair, in their order", () => {
    // the names as the Rust side writes them, in the order of the enumeration
    const listed = /pub enum Stage \{([\s\S]*?)\n\}/.exec(from("crates/model/src/repair.rs"))?.[1] ?? "";
    const names = [...listed.matchAll(/^\s+([A-Z]\w+),/gm)].map(([, name]) => name!.replace("TrafficControl", "Traffic").replace(/(?<!^)([A-Z])/g, "-$1").toLowerCase());
    expect(names).toEqual([...STAGES]);
    expect(isStage("seal")).toBe(true);
    expect(isStage("paint")).toBe(false);
  });

  it("has the figures of the rules", () => {
    const repair = from("rules/repair/common-practice.toml");
    const markout = from("rules/markout/common-practice.toml");
    const value = (text: string, name: string, table = ""): number => {
      const after = table === "" ? text : text.slice(text.indexOf(`[${table}]`));
      return Number(new RegExp(`^${name} = \\{ value = ([\\d.]+)`, "m").exec(after)?.[1]);
    };
    const mm = (metres: number): number => Math.round(metres * 1e6) / 1000;
    expect(PRACTICE).toEqual({
      farMm: mm(value(markout, "far_limit_m")),
      layerMm: mm(value(repair, "greatest_layer_m", "compactor.pedestrian_roller")),
      halfMm: mm(value(repair, "greatest_layer_m", "compactor.hand_tamper")),
      overlapMm: mm(value(repair, "overlap_m", "seal")),
      crownMm: mm(value(repair, "crown_m", "fill")),
      stoneMm: mm(value(repair, "greatest_stone_m", "seal")),
      coldC: value(repair, "least_surface_c"),
      still: value(repair, "static_passes", "compactor.pedestrian_roller"),
      least: value(repair, "vibrating_passes_least", "compactor.pedestrian_roller"),
      most: value(repair, "vibrating_passes_most", "compactor.pedestrian_roller"),
    });
  });

  it("says as much of each stage as its page asks for, and no more", () => {
    const keys = [...from("locales/en/guide.ftl").matchAll(/^([\w-]+) =/gm)].map(([, key]) => key!);
    for (const stage of STAGES) {
      const { marks, todo, checks } = FACTS[stage];
      const upTo = (what: string, count: number): string[] => Array.from({ length: count }, (_, index) => `guide-${stage}-${what}-${index + 1}`);
      const wanted = [`guide-${stage}`, ...["short", "alt", "skipped"].map((what) => `guide-${stage}-${what}`), ...upTo("mark", marks), ...upTo("todo", todo), ...upTo("check", checks)];
      expect(keys.filter((key) => key === `guide-${stage}` || key.startsWith(`guide-${stage}-`)).sort()).toEqual(wanted.sort());
    }
    const cautions = new Set(STAGES.flatMap((stage) => FACTS[stage].cautions.map((caution) => `guide-caution-${caution}`)));
    expect(keys.filter((key) => key.startsWith("guide-caution-")).sort()).toEqual([...cautions].sort());
  });

  it("prints cards with a stage and the next on their back", () => {
    FRONT.forEach((stage, place) => {
      // on the sheet turned over along its long edge the same card lies in the other column
      const behind = BACK[place % 2 === 0 ? place + 1 : place - 1]!;
      expect(STAGES.indexOf(behind)).toBe(STAGES.indexOf(stage) + 1);
    });
    expect(new Set([...FRONT, ...BACK]).size).toBe(STAGES.length);
  });
});
