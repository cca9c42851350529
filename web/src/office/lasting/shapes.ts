// What the server answers about what lasts and about a month, as far as the office shows it. Durations in days, money in the district's
// currency, amounts in SI.

/** A curve; its lists have one entry for each age at which a life ended, the first for age 0. */
export interface Curve {
  name: string;
  n: number;
  failures: number;
  times: number[];
  survival: number[];
  lower: number[];
  upper: number[];
  median: number | null;
  /** Too few failures to say anything of it. */
  too_few: boolean;
}

/** What the test of all groups comes to, as the server judges it by the rules of the district. */
export type Verdict =
  | { kind: "one_group" }
  /** Named are the groups with too few failures. */
  | { kind: "too_few"; groups: string[] }
  | { kind: "differ"; p: number; pairs: [string, string][] }
  | { kind: "no_difference"; p: number };

export interface LogRank {
  chi2: number;
  df: number;
  p: number;
}

export interface Mean {
  name: string;
  until: number;
  mean: number;
  error: number;
}

export interface Pair {
  groups: [string, string];
  log_rank: LogRank;
  p_corrected: number;
}

export interface Lasts {
  by: string;
  at: string;
  not_opened: number;
  /** New surfaces that lie on no road that is known. */
  resurfaced_nowhere: number;
  groups: Curve[];
  log_rank: LogRank | null;
  restricted_means: Mean[];
  pairs: Pair[];
  verdict: Verdict;
  /** One sentence for each group, in their order, then one for the test where there are several. */
  words: string[];
}

/** Mean, one future in ten below, nine in ten. */
type Spread = [number, number, number];

export interface Stretch {
  road: string;
  /** Number of the section in the road file. */
  section: string;
  from_m: number;
  to_m: number;
  holes_per_year: number;
  holes_seen: number;
  patch_on: Spread;
  renewal: string;
  renewal_price: number;
  renew_now: Spread;
  cheaper: number;
  /** One future in ten by then, half, nine in ten; nothing: not within the years. */
  break_even: [number | null, number | null, number | null];
  best_year: number | null;
}

export interface Working {
  figure: string;
  how: string;
  source: string;
}

export interface Report {
  month: string;
  until: string;
  goes_on: boolean;
  currency: string;
  done: { repairs: number; area_m2: number; with_area: number; repairs_before: number; roads: { road: string; repairs: number; area_m2: number; cost: number }[] };
  cost: { parts: { part: string; money: number }[]; total: number; per_m2: number | null; per_repair: number | null };
  stock: { item: string; unit: string; opening: number; bought: number; used: number; wasted: number; found: number; closing: number; value: number }[];
  left: {
    open: number;
    judged: number;
    overdue: number;
    risk: number;
    by_severity: [string, number][];
    worst: { hole: string; road: string; risk: number; severity: string; due: string | null; overdue: boolean; days_open: number }[];
  };
  lasts: { lives: number; failures: number; parts: { by: string; words: string[] }[] };
  arrivals: { month: string; told: number; mended: number }[];
  planned: { what: string; unit: string; repairs: number; planned: number; actual: number; ratio: number | null }[];
  stop: { nothing: string; years: number; repair_cost: number; stretches: number; past: number; first: Stretch[] };
  workings: Working[];
  limits: string[];
}
