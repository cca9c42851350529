// The map between two views of a plane. Normalised direct linear transform: R. Hartley and A. Zisserman, Multiple View Geometry in
// Computer Vision, 2nd edition, algorithm 4.2 and section 4.4.4, from memory. With four points the system is exact, so its null vector
// is found by elimination in place of a singular value decomposition.

export interface Point {
  x: number;
  y: number;
}

/** Row by row, 3 x 3; only its ratios count. */
export type Homography = readonly [number, number, number, number, number, number, number, number, number];

/** The homography that takes four points to four others; none where three of them lie in a line. */
export function homographyOf(from: readonly Point[], to: readonly Point[]): Homography | undefined {
  if (from.length !== 4 || to.length !== 4) throw new Error("a homography is found from four points and their four places");
  const a = normalising(from);
  const b = normalising(to);
  if (!a || !b) return undefined;
  const rows: number[][] = [];
  for (let index = 0; index < 4; index++) {
    const p = mapped(a, from[index]!)!;
    const q = mapped(b, to[index]!)!;
    rows.push([0, 0, 0, -p.x, -p.y, -1, q.y * p.x, q.y * p.y, q.y]);
    rows.push([p.x, p.y, 1, 0, 0, 0, -q.x * p.x, -q.x * p.y, -q.x]);
  }
  const h = nullVector(rows);
  if (!h) return undefined;
  const whole = product(inverse(b)!, product(h as unknown as Homography, a));
  return inverse(whole) && signed(whole, from);
}

/** Where a point goes; nothing for points on the far side of the horizon. */
export function mapped(h: Homography, { x, y }: Point): Point | undefined {
  const w = h[6] * x + h[7] * y + h[8];
  if (!(w > 1e-12)) return undefined;
  return { x: (h[0] * x + h[1] * y + h[2]) / w, y: (h[3] * x + h[4] * y + h[5]) / w };
}

/** The way back, signed so that what was in front of the horizon stays there. */
export function inverse(h: Homography): Homography | undefined {
  const [a, b, c, d, e, f, g, i, j] = h;
  const minors: Homography = [e * j - f * i, c * i - b * j, b * f - c * e, f * g - d * j, a * j - c * g, c * d - a * f, d * i - e * g, b * g - a * i, a * e - b * d];
  const determinant = a * minors[0] + b * minors[3] + c * minors[6];
  const size = Math.hypot(...h);
  if (!(Math.abs(determinant) > 1e-14 * size ** 3)) return undefined;
  return minors.map((value) => value / determinant) as unknown as Homography;
}

export function product(p: Homography, q: Homography): Homography {
  const at = (row: number, column: number): number => p[row * 3]! * q[column]! + p[row * 3 + 1]! * q[3 + column]! + p[row * 3 + 2]! * q[6 + column]!;
  return [at(0, 0), at(0, 1), at(0, 2), at(1, 0), at(1, 1), at(1, 2), at(2, 0), at(2, 1), at(2, 2)];
}

/** Moves points to their middle and scales them to a mean distance of the square root of two. */
function normalising(points: readonly Point[]): Homography | undefined {
  const x = points.reduce((sum, point) => sum + point.x, 0) / points.length;
  const y = points.reduce((sum, point) => sum + point.y, 0) / points.length;
  const distance = points.reduce((sum, point) => sum + Math.hypot(point.x - x, point.y - y), 0) / points.length;
  if (!(distance > 0)) return undefined;
  const scale = Math.SQRT2 / distance;
  return [scale, 0, -scale * x, 0, scale, -scale * y, 0, 0, 1];
}

/** The sign with which all four points are in front of the horizon; none where the horizon runs between them. */
function signed(h: Homography, points: readonly Point[]): Homography | undefined {
  const sides = points.map(({ x, y }) => h[6] * x + h[7] * y + h[8]);
  if (sides.every((w) => w > 0)) return h;
  if (sides.every((w) => w < 0)) return h.map((value) => -value) as unknown as Homography;
  return undefined;
}

/** What eight rows of nine numbers take to nothing: elimination with complete pivoting. */
function nullVector(rows: number[][]): number[] | undefined {
  const columns = rows[0]!.map((_, index) => index);
  for (let step = 0; step < rows.length; step++) {
    let [bestRow, bestColumn, best] = [step, step, 0];
    for (let row = step; row < rows.length; row++)
      for (let column = step; column < columns.length; column++)
        if (Math.abs(rows[row]![columns[column]!]!) > best) [bestRow, bestColumn, best] = [row, column, Math.abs(rows[row]![columns[column]!]!)];
    // three of the points lie in a line
    if (best < 1e-9) return undefined;
    [rows[step], rows[bestRow]] = [rows[bestRow]!, rows[step]!];
    [columns[step], columns[bestColumn]] = [columns[bestColumn]!, columns[step]!];
    const pivotRow = rows[step]!;
    for (let row = 0; row < rows.length; row++) {
      if (row === step) continue;
      const share = rows[row]![columns[step]!]! / pivotRow[columns[step]!]!;
      if (share !== 0) for (const column of columns) rows[row]![column]! -= share * pivotRow[column]!;
    }
  }
  const free = columns.at(-1)!;
  const found = new Array<number>(columns.length).fill(0);
  found[free] = 1;
  rows.forEach((row, step) => (found[columns[step]!] = -row[free]! / row[columns[step]!]!));
  return found;
}
