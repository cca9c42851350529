// Kinds of base that were told before, to be pressed instead of typed.
import type { Told as Queued } from "../../lib/store/database";
import type { KnownRepair } from "./known";

/** So many fit above the field. */
const MOST = 3;

/** Those told last on this phone first, then those of the repairs that it knows. */
export function basesTold(repairs: readonly KnownRepair[], queue: readonly Queued[]): string[] {
  const here = [...queue].sort((a, b) => b.order - a.order).flatMap(({ event: { happened } }) => {
    const said = happened.kind === "corrected" ? (happened.instead as typeof happened | undefined) : happened;
    return said?.kind === "layer_placed" && said.base ? [said.base] : [];
  });
  const known = repairs
    .flatMap(({ layers }) => layers.flatMap(({ base }) => (base ? [base] : [])))
    .sort((a, b) => Date.parse(b.by.at) - Date.parse(a.by.at))
    .map(({ value }) => value);
  return [...new Set([...here, ...known])].slice(0, MOST);
}
