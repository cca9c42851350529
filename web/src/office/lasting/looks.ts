// How curves are told apart: each has dashes and a letter besides its colour, so that they stay apart in print and for every eye.
export const DASHES = ["none", "9 4", "2 3", "12 3 2 3", "5 2", "16 4 4 4"];
export const COLOURS = ["var(--press)", "var(--red)", "var(--blue)", "var(--amber)", "var(--green)", "var(--ink)"];
export const LETTERS = ["A", "B", "C", "D", "E", "F"];
