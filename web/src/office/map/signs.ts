// Signs of the map: each state has a shape besides its colour. Colours: Okabe and Ito, "Color Universal Design" (2008), eight colours that
// most people tell apart whatever colours their eyes see; by night the same hues, lighter where they would sink into the ground.
import type { HoleState } from "../data/shapes";

export type Shape = "triangle" | "square" | "diamond" | "disc" | "ring" | "cross" | "bars" | "house" | "heap" | "tip";

export interface Sign {
  shape: Shape;
  light: string;
  dark: string;
}

export const HOLE_STATES: HoleState[] = ["reported", "planned", "begun", "mended", "same_as_other", "dismissed", "resurfaced"];

export const HOLE_SIGNS: Record<HoleState, Sign> = {
  reported: { shape: "triangle", light: "#D55E00", dark: "#F08A3C" },
  planned: { shape: "square", light: "#0072B2", dark: "#56B4E9" },
  begun: { shape: "diamond", light: "#E69F00", dark: "#F0C24A" },
  mended: { shape: "disc", light: "#009E73", dark: "#3CC9A0" },
  same_as_other: { shape: "ring", light: "#6B6B6B", dark: "#B5B5B5" },
  dismissed: { shape: "cross", light: "#6B6B6B", dark: "#B5B5B5" },
  resurfaced: { shape: "bars", light: "#6B6B6B", dark: "#B5B5B5" },
};

export const DEPOT_SIGNS: Record<"depot" | "stockpile" | "tip", Sign> = {
  depot: { shape: "house", light: "#1c2324", dark: "#f1efe8" },
  stockpile: { shape: "heap", light: "#1c2324", dark: "#f1efe8" },
  tip: { shape: "tip", light: "#1c2324", dark: "#f1efe8" },
};

/** Ways of crews: colour and dashes. */
export const CREW_LINES: { light: string; dark: string; dash: number[] }[] = [
  { light: "#0072B2", dark: "#56B4E9", dash: [1] },
  { light: "#A8456F", dark: "#E7A3C7", dash: [3, 1.2] },
  { light: "#00775A", dark: "#3CC9A0", dash: [1, 1] },
  { light: "#9A6A00", dark: "#F0C24A", dash: [5, 1, 1, 1] },
];

/** Stretches with a new surface. */
export const SURFACE_COLOUR = { light: "#5b3f8f", dark: "#c4aef5" };
export const ZONE_COLOUR = { light: "#9c1f1f", dark: "#ff9d8c" };

/** Outline of a shape in a square of 24, as an SVG path: for the legend's pictures and, drawn by a canvas, for the map's. */
export const PATHS: Record<Shape, string> = {
  triangle: "M12 3.5 21.5 20.5 2.5 20.5Z",
  square: "M4 4H20V20H4Z",
  diamond: "M12 2 22 12 12 22 2 12Z",
  disc: "M12 3A9 9 0 1 1 11.99 3Z",
  ring: "M12 4A8 8 0 1 1 11.99 4ZM12 8A4 4 0 1 0 12.01 8Z",
  cross: "M5 2 12 9 19 2 22 5 15 12 22 19 19 22 12 15 5 22 2 19 9 12 2 5Z",
  bars: "M2 4H22V10H2ZM2 14H22V20H2Z",
  house: "M12 2 23 11H20V22H4V11H1Z",
  heap: "M2 20C6 20 9 6 12 6S18 20 22 20Z",
  tip: "M3 4H21L18 21H6Z",
};
