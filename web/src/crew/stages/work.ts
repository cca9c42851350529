// What every stage of a repair is given, by its page.
import { getContext, setContext } from "svelte";
import type { RoundView } from "../data.svelte";
import type { RepairDraft } from "../logic/repair_draft";
import type { KnownRepair, KnownZone } from "../logic/known";
import type { PlanJob } from "../logic/plan";
import type { RepairOf, SiteOf } from "../logic/round";

export interface Work {
  repair: string;
  view: RoundView;
  site: SiteOf;
  of: RepairOf;
  plan: PlanJob | undefined;
  known: KnownRepair | undefined;
  zone: KnownZone | undefined;
  /** Layers that it takes, as planned or as the hole turned out. */
  layers: number;
  draft: RepairDraft;
}

const KEY = "crew-work";

/** For the page. */
export function giveWork(work: () => Work): void {
  setContext(KEY, work);
}

/** For a stage: to be called where it begins. */
export function takeWork(): () => Work {
  return getContext<() => Work>(KEY);
}
