// The board on the road: which of the tapped corners is which, and how the camera looked at it.
import { homographyOf, type Homography, type Point } from "./homography";
import { cross } from "./outline";

/** Sides of the board in metres. The longer lies along the road. */
export interface Board {
  lengthM: number;
  widthM: number;
}

/** Width and height of the picture in pixels. */
export interface Size {
  width: number;
  height: number;
}

/** How the board lies in the picture. */
export interface Lie {
  /** The four corners, in the order of `boardCorners`. */
  corners: Point[];
  /** From metres on the road to pixels. */
  toPicture: Homography;
  /** How far the view is from straight down, degrees. */
  tiltDeg: number;
  /** How badly sides and corners of the board as entered fit to the picture, about as a share: 0.1 is a side one tenth wrong. */
  misfit: number;
}

/** Focal lengths that a telephone or a camera may have, in longer sides of the picture: 13 mm to 105 mm on film of 36 mm, from memory. */
const FOCAL_LEAST = 0.36;
const FOCAL_MOST = 3;

/** The board's corners in metres: along the road, and across to the right. */
export function boardCorners({ lengthM, widthM }: Board): Point[] {
  return [
    { x: 0, y: 0 },
    { x: lengthM, y: 0 },
    { x: lengthM, y: widthM },
    { x: 0, y: widthM },
  ];
}

/** Corners in the order around their middle, the way round in which x turns to y in a picture. */
export function around(corners: readonly Point[]): Point[] {
  const x = corners.reduce((sum, corner) => sum + corner.x, 0) / corners.length;
  const y = corners.reduce((sum, corner) => sum + corner.y, 0) / corners.length;
  return [...corners].sort((a, b) => Math.atan2(a.y - y, a.x - x) - Math.atan2(b.y - y, b.x - x));
}

/** How much the least of the four triangles of corners is of the whole: 0.5 for a rectangle, 0 or less where three lie in a line or one lies
    inside the others. */
export function openness(corners: readonly Point[]): number {
  const [a, b, c, d] = around(corners) as [Point, Point, Point, Point];
  const whole = cross(a, b, c) + cross(a, c, d);
  return Math.min(cross(a, b, c), cross(b, c, d), cross(c, d, a), cross(d, a, b)) / Math.max(whole, Number.MIN_VALUE);
}

/** How the board lies. Corners may be tapped in any order: of both ways to lay the longer side, the one that fits a camera better is taken. */
export function lieOf(tapped: readonly Point[], board: Board, picture: Size): Lie | undefined {
  const corners = around(tapped);
  const turned = [...corners.slice(1), corners[0]!];
  const lies = [corners, turned].map((corners) => {
    const toPicture = homographyOf(boardCorners(board), corners);
    return toPicture && { corners, toPicture, ...view(toPicture, picture) };
  });
  const [one, other] = lies;
  if (!one || !other) return undefined;
  const better = other.misfit < one.misfit ? other : one;
  // half a turn does not change the fit: the road's direction is taken to the right in the picture, or downwards
  const [a, b] = better.corners as [Point, Point];
  const backwards = Math.abs(b.x - a.x) > Math.abs(b.y - a.y) ? b.x < a.x : b.y < a.y;
  if (!backwards) return better;
  const halfTurned = [...better.corners.slice(2), ...better.corners.slice(0, 2)];
  const toPicture = homographyOf(boardCorners(board), halfTurned);
  return toPicture && { ...better, corners: halfTurned, toPicture };
}

/** Tilt and misfit of a view. Pixels are taken to be square and the lens to look through the middle of the picture; the focal length is the one that
    fits best. The first two columns of the map, seen with the right focal length, are two equally long vectors at a right angle
    (Hartley and Zisserman, section 8.8, from memory). */
export function view(toPicture: Homography, picture: Size): { tiltDeg: number; misfit: number } {
  const scale = Math.max(picture.width, picture.height);
  const column = (index: 0 | 1): [number, number, number] => {
    const w = toPicture[6 + index]!;
    return [(toPicture[index]! - (w * picture.width) / 2) / scale, (toPicture[3 + index]! - (w * picture.height) / 2) / scale, w];
  };
  const [along, across] = [column(0), column(1)];
  const seen = (focal: number): { misfit: number; tiltDeg: number } => {
    const a = [along[0] / focal, along[1] / focal, along[2]] as const;
    const b = [across[0] / focal, across[1] / focal, across[2]] as const;
    const [sizeA, sizeB] = [Math.hypot(...a), Math.hypot(...b)];
    const cosine = (a[0] * b[0] + a[1] * b[1] + a[2] * b[2]) / (sizeA * sizeB);
    const normal = [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]] as const;
    return {
      misfit: Math.hypot(Math.asin(Math.max(-1, Math.min(1, cosine))), Math.log(sizeA / sizeB)),
      tiltDeg: (Math.acos(Math.min(1, Math.abs(normal[2]) / Math.hypot(...normal))) * 180) / Math.PI,
    };
  };
  const steps = 120;
  let best = seen(FOCAL_LEAST);
  for (let step = 1; step <= steps; step++) {
    const now = seen(FOCAL_LEAST * (FOCAL_MOST / FOCAL_LEAST) ** (step / steps));
    if (now.misfit < best.misfit) best = now;
  }
  return best;
}
