// From what was tapped in a photo to a hole in metres, with how far off it may be.
import { boardCorners, lieOf, openness, type Board, type Size } from "./board";
import { homographyOf, inverse, mapped, type Homography, type Point } from "./homography";
import { areaOf, crossesItself, distance, extentsOf, perimeterOf } from "./outline";

/** What was tapped, in pixels of the picture. */
export interface Tapped {
  picture: Size;
  board: Board;
  corners: Point[];
  /** Corners that were found where the board's edges meet, in place of the tapped ones. */
  fitted?: Point[];
  outline: Point[];
  /** Two points and how far apart they are on the road, where somebody measured that too. */
  check?: { points: Point[]; lengthM: number };
}

/** What makes the figures doubtful. */
export type Doubt = "in-line" | "oblique" | "tiny" | "misfit" | "far" | "crossed" | "check-off";

export interface Measured {
  /** In metres: along the road, across to the right. */
  outline: Point[];
  areaM2: number;
  /** Nineteen times in twenty the area is off by no more. */
  areaPlusMinusM2: number;
  perimeterM: number;
  lengthM: number;
  widthM: number;
  tiltDeg: number;
  /** What the check distance comes out as. */
  checkM?: number;
  doubts: Doubt[];
  /** From metres back to the picture, to draw a cut on it. */
  toPicture: Homography;
}

/** Standard error of one tapped coordinate, pixels: with the magnifier. Common practice, no source. */
export const TAP_ERROR_PX = 2;
/** The same of a corner where the board's edges were found to meet: seen in synthetic pictures. */
export const FITTED_ERROR_PX = 0.4;
/** Standard error of a board's side, metres: sawn and measured with a tape. Common practice, no source. */
export const BOARD_ERROR_M = 0.002;
/** Beyond this tilt a pixel off counts too much, degrees. */
const OBLIQUE_DEG = 60;
/** Least open board, shortest side in pixels, worst fit, farthest point of the outline in board diagonals, worst check distance as a share. */
const OPEN_LEAST = 0.1;
const SIDE_LEAST_PX = 80;
const MISFIT_MOST = 0.1;
const FAR_MOST = 2;
const CHECK_MOST = 0.05;

/** Measures; nothing where the corners make no board, or part of the outline lies beyond the horizon of the board's plane. */
export function measured(tapped: Tapped): Measured | undefined {
  if (tapped.corners.length !== 4 || tapped.outline.length < 3 || !(tapped.board.lengthM > 0 && tapped.board.widthM > 0)) return undefined;
  const corners = tapped.fitted ?? tapped.corners;
  if (openness(corners) <= 0) return undefined;
  const lie = lieOf(corners, tapped.board, tapped.picture);
  const toRoad = lie && inverse(lie.toPicture);
  const outline = toRoad && onRoad(toRoad, tapped.outline);
  if (!lie || !outline) return undefined;
  const areaM2 = areaOf(outline);
  const check = tapped.check?.points.length === 2 ? onRoad(toRoad, tapped.check.points) : undefined;
  const checkM = check && distance(check[0]!, check[1]!);
  return {
    outline,
    areaM2,
    areaPlusMinusM2: 1.96 * areaError(lie.corners, tapped, areaM2),
    perimeterM: perimeterOf(outline),
    lengthM: extentsOf(outline).length,
    widthM: extentsOf(outline).width,
    tiltDeg: lie.tiltDeg,
    ...(checkM === undefined ? {} : { checkM }),
    doubts: doubtsOf(tapped, lie, outline, checkM),
    toPicture: lie.toPicture,
  };
}

function onRoad(toRoad: Homography, points: readonly Point[]): Point[] | undefined {
  const found = points.map((point) => mapped(toRoad, point));
  return found.every((point) => point !== undefined) ? found : undefined;
}

/** Standard error of the area: every tapped coordinate and both sides of the board moved by a little, first order. */
function areaError(corners: Point[], { board, outline, fitted }: Tapped, areaM2: number): number {
  const areaWith = (corners: readonly Point[], outline: readonly Point[]): number => {
    const toRoad = homographyOf(corners, boardCorners(board));
    const found = toRoad && onRoad(toRoad, outline);
    return found ? areaOf(found) : Number.NaN;
  };
  const step = 0.25;
  const slopes = (points: readonly Point[], area: (points: readonly Point[]) => number): number[] =>
    points.flatMap((_, index) =>
      (["x", "y"] as const).map((axis) => {
        const moved = (by: number): Point[] => points.map((point, other) => (other === index ? { ...point, [axis]: point[axis] + by } : point));
        return (area(moved(step)) - area(moved(-step))) / (2 * step);
      }),
    );
  const byCorner = slopes(corners, (moved) => areaWith(moved, outline));
  const byTap = slopes(outline, (moved) => areaWith(corners, moved));
  // the area goes with both sides of the board
  const byBoard = [areaM2 / board.lengthM, areaM2 / board.widthM];
  return Math.hypot(...byCorner.map((slope) => slope * (fitted ? FITTED_ERROR_PX : TAP_ERROR_PX)), ...byTap.map((slope) => slope * TAP_ERROR_PX), ...byBoard.map((slope) => slope * BOARD_ERROR_M));
}

function doubtsOf(tapped: Tapped, lie: { corners: Point[]; tiltDeg: number; misfit: number }, outline: readonly Point[], checkM: number | undefined): Doubt[] {
  const { board, check } = tapped;
  const middle = { x: board.lengthM / 2, y: board.widthM / 2 };
  const shortest = Math.min(...lie.corners.map((corner, index) => distance(corner, lie.corners[(index + 1) % 4]!)));
  const doubts: [Doubt, boolean][] = [
    ["in-line", openness(lie.corners) < OPEN_LEAST],
    ["oblique", lie.tiltDeg > OBLIQUE_DEG],
    ["tiny", shortest < SIDE_LEAST_PX],
    ["misfit", lie.misfit > MISFIT_MOST],
    ["far", Math.max(...outline.map((point) => distance(point, middle))) > FAR_MOST * Math.hypot(board.lengthM, board.widthM)],
    ["crossed", crossesItself(tapped.outline)],
    ["check-off", check !== undefined && checkM !== undefined && Math.abs(checkM / check.lengthM - 1) > CHECK_MOST],
  ];
  return doubts.filter(([, is]) => is).map(([doubt]) => doubt);
}
