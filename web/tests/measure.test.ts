import { describe, expect, it } from "vitest";
import { around, lieOf, openness } from "../src/measure/board";
import { fitted, type Light } from "../src/measure/edges";
import { homographyOf, inverse, mapped, type Point } from "../src/measure/homography";
import { BOARD_ERROR_M, TAP_ERROR_PX, measured, type Tapped } from "../src/measure/measured";
import { areaOf, besideSide, crossesItself, extentsOf, perimeterOf } from "../src/measure/outline";
import opencv from "./homography.opencv.json";
import { chance, colour, corners, hole, lookedAt, normal, painted, seen, type Camera } from "./road_picture";

const BOARD = { lengthM: 1, widthM: 0.5 };
const PICTURE = { width: 2048, height: 1536 };

function camera(next: () => number, tiltDeg: number): Camera {
  return {
    picture: PICTURE,
    // 22 mm to 35 mm on film of 36 mm
    focal: (0.62 + 0.35 * next()) * PICTURE.width,
    heightM: 1.4 + 0.8 * next(),
    tiltDeg,
    headingDeg: 360 * next(),
    rollDeg: 20 * (next() - 0.5),
    at: { x: 0.5, y: 0.6 },
  };
}

function picture(seed: number, tiltDeg: number, spread: number): { tapped: Tapped; truth: Point[]; looks: Camera; light: Light } {
  const next = chance(seed);
  const looks = camera(next, tiltDeg);
  const truth = hole(next, { x: 0.5 + 0.2 * (next() - 0.5), y: 0.95 }, 0.5 + 0.5 * next(), 0.4 + 0.3 * next());
  const tap = (point: Point): Point => {
    const { x, y } = seen(looks, point);
    return { x: x + spread * normal(next), y: y + spread * normal(next) };
  };
  return { tapped: { picture: PICTURE, board: BOARD, corners: corners(BOARD).map(tap), outline: truth.map(tap) }, truth, looks, light: lightOf(looks, truth) };
}

/** The painted picture, pixel by pixel as a camera has it, and blurred as its lens does. */
function lightOf(looks: Camera, truth: Point[]): Light {
  return (x, y) => {
    const grey = (dx: number, dy: number): number => {
      const [red, green, blue] = colour(looks, BOARD, truth, { x: Math.floor(x) + 0.5 + dx, y: Math.floor(y) + 0.5 + dy });
      return 0.299 * red + 0.587 * green + 0.114 * blue;
    };
    return (grey(0, 0) * 2 + grey(1, 0) + grey(-1, 0) + grey(0, 1) + grey(0, -1)) / 6;
  };
}

const share = (values: number[], of: number): number => [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(of * values.length))]!;

describe("homography", () => {
  it.each(opencv.rows)("agrees with OpenCV's %#", ({ board, picture, matrix }) => {
    const points = (rows: number[][]): Point[] => rows.map(([x, y]) => ({ x: x!, y: y! }));
    const found = homographyOf(points(picture), points(board))!;
    const reference = (p: Point): Point => {
      const w = matrix[6]! * p.x + matrix[7]! * p.y + matrix[8]!;
      return { x: (matrix[0]! * p.x + matrix[1]! * p.y + matrix[2]!) / w, y: (matrix[3]! * p.x + matrix[4]! * p.y + matrix[5]!) / w };
    };
    // OpenCV takes the corners in single precision
    for (const p of [...points(picture), { x: picture[0]![0]! + 30, y: picture[0]![1]! + 40 }]) {
      expect(mapped(found, p)!.x).toBeCloseTo(reference(p).x, 5);
      expect(mapped(found, p)!.y).toBeCloseTo(reference(p).y, 5);
    }
    const there = mapped(inverse(found)!, { x: 0.1, y: 0.2 })!;
    expect(mapped(found, there)!.x).toBeCloseTo(0.1, 10);
    expect(mapped(found, there)!.y).toBeCloseTo(0.2, 10);
  });

  it("is refused where three corners lie in a line", () => {
    const line = [0, 1, 2].map((x) => ({ x, y: 2 * x }));
    expect(homographyOf([...line, { x: 5, y: 0 }], corners(BOARD))).toBeUndefined();
    expect(openness([...line, { x: 5, y: 0 }])).toBeLessThan(0.01);
  });

  it("gives nothing beyond the horizon", () => {
    const trapezoid = [{ x: 0, y: 100 }, { x: 100, y: 100 }, { x: 60, y: 20 }, { x: 40, y: 20 }];
    const h = homographyOf(trapezoid, corners(BOARD))!;
    // the long sides meet at y = 0
    expect(mapped(h, { x: 50, y: 1 })).toBeDefined();
    expect(mapped(h, { x: 50, y: -1 })).toBeUndefined();
  });
});

describe("outline", () => {
  it("has the area and length of known shapes", () => {
    // 3-4-5 triangle; an L of 1.6 by 1.2 without 1.0 by 0.7
    expect(areaOf([{ x: 0, y: 0 }, { x: 3, y: 0 }, { x: 0, y: 4 }])).toBe(6);
    expect(perimeterOf([{ x: 0, y: 0 }, { x: 3, y: 0 }, { x: 0, y: 4 }])).toBe(12);
    const l = [[0, 0], [1.6, 0], [1.6, 0.5], [0.6, 0.5], [0.6, 1.2], [0, 1.2]].map(([x, y]) => ({ x: x!, y: y! }));
    expect(areaOf(l)).toBeCloseTo(1.22, 12);
    expect(areaOf([...l].reverse())).toBeCloseTo(1.22, 12);
    expect(extentsOf(l)).toEqual({ length: 1.6, width: 1.2 });
    expect(crossesItself(l)).toBe(false);
    expect(crossesItself([l[0]!, l[2]!, l[1]!, l[5]!])).toBe(true);
  });
});

describe("a new point of an outline", () => {
  const square = [{ x: 0, y: 0 }, { x: 10, y: 0 }, { x: 10, y: 10 }, { x: 0, y: 10 }];
  it.each([
    [{ x: 5, y: 0.5 }, 1],
    [{ x: 10.5, y: 4 }, 2],
    [{ x: 4, y: 9.5 }, 3],
    [{ x: -0.5, y: 5 }, 4],
    [{ x: 5, y: 5 }, 4],
    [{ x: 5, y: 40 }, 4],
  ])("goes into the side it lies on: %o at %i", (point, at) => expect(besideSide(square, point, 1)).toBe(at));
});

describe("a hole measured from a photo", () => {
  it("is exact where every tap is", () => {
    for (let seed = 1; seed <= 40; seed++) {
      const { tapped, truth } = picture(seed, seed, 0);
      const found = measured(tapped)!;
      expect(found.areaM2).toBeCloseTo(areaOf(truth), 9);
      expect(found.perimeterM).toBeCloseTo(perimeterOf(truth), 9);
      expect(found.lengthM).toBeCloseTo(extentsOf(truth).length, 9);
      expect(found.widthM).toBeCloseTo(extentsOf(truth).width, 9);
      expect(found.tiltDeg).toBeGreaterThan(seed - 2);
      expect(found.tiltDeg).toBeLessThan(seed + 2);
      expect(found.doubts).toEqual([]);
    }
  });

  it.each([0, 15, 30, 45])("is within 3 %% at a tilt of %i degrees with taps 1.5 pixels off, corners fitted to the board's edges", (tiltDeg) => {
    const off = { tapped: [] as number[], fitted: [] as number[] };
    const corner: number[] = [];
    for (let seed = 1; seed <= 60; seed++) {
      const { tapped, truth, looks, light } = picture(seed, tiltDeg, 1.5);
      const found = fitted(around(tapped.corners), light)!;
      expect(found, `seed ${seed}`).toBeDefined();
      const exact = around(corners(BOARD).map((point) => seen(looks, point)));
      exact.forEach((point, index) => corner.push(Math.hypot(point.x - found[index]!.x, point.y - found[index]!.y)));
      off.tapped.push(Math.abs(measured(tapped)!.areaM2 / areaOf(truth) - 1));
      off.fitted.push(Math.abs(measured({ ...tapped, fitted: found })!.areaM2 / areaOf(truth) - 1));
    }
    const told = (values: number[]): string => [0.5, 0.95, 1].map((of) => `${(100 * share(values, of)).toFixed(2)} %`).join(", ");
    console.log(
      `tilt ${tiltDeg}, area off by (half, 19 of 20, all of 60): as tapped ${told(off.tapped)}; fitted ${told(off.fitted)}; corners off by ${share(corner, 0.5).toFixed(2)}, ${share(corner, 1).toFixed(2)} px`,
    );
    expect(Math.max(...off.fitted)).toBeLessThan(0.03);
    expect(share(off.fitted, 0.95)).toBeLessThan(share(off.tapped, 0.95));
  });

  it("leaves the corners as tapped where no edge is plain", () => {
    const { tapped } = picture(1, 20, 1);
    const next = chance(4);
    expect(fitted(around(tapped.corners), () => 120 + 30 * next())).toBeUndefined();
    expect(fitted(around(tapped.corners), () => 120)).toBeUndefined();
  });

  it("says how far it may be off: as often as it says, and as chance over many tries", () => {
    let within = 0;
    const tries = 600;
    for (let seed = 1; seed <= tries; seed++) {
      const { tapped, truth } = picture(seed, (seed * 7) % 46, TAP_ERROR_PX);
      const next = chance(seed + 10_000);
      // a board that is not quite as long as entered
      const board = { lengthM: BOARD.lengthM + BOARD_ERROR_M * normal(next), widthM: BOARD.widthM + BOARD_ERROR_M * normal(next) };
      const found = measured({ ...tapped, board })!;
      if (Math.abs(found.areaM2 - areaOf(truth)) <= found.areaPlusMinusM2) within += 1;
    }
    // 0.95, three standard errors of a share of 600: 0.027
    expect(within / tries).toBeGreaterThan(0.92);
    expect(within / tries).toBeLessThan(0.98);
  });

  it("does not depend on which corner came first, or which way round", () => {
    for (let seed = 1; seed <= 60; seed++) {
      const { tapped } = picture(seed, (seed * 11) % 50, 1);
      const once = measured(tapped)!;
      const [a, b, c, d] = tapped.corners as [Point, Point, Point, Point];
      for (const order of [[b, c, d, a], [c, d, a, b], [d, c, b, a], [a, c, b, d]]) {
        const again = measured({ ...tapped, corners: order })!;
        expect(again.areaM2).toBeCloseTo(once.areaM2, 9);
        expect(again.lengthM).toBeCloseTo(once.lengthM, 9);
        expect(again.outline[0]!.x).toBeCloseTo(once.outline[0]!.x, 9);
      }
      const turned = measured({ ...tapped, outline: [...tapped.outline.slice(5), ...tapped.outline.slice(0, 5)].reverse() })!;
      expect(turned.areaM2).toBeCloseTo(once.areaM2, 9);
    }
  });

  it("grows with the board and not with the picture", () => {
    for (let seed = 1; seed <= 20; seed++) {
      const { tapped } = picture(seed, 2 * seed, 1);
      const once = measured(tapped)!;
      const doubled = measured({ ...tapped, board: { lengthM: 2, widthM: 1 } })!;
      expect(doubled.areaM2).toBeCloseTo(4 * once.areaM2, 8);
      expect(doubled.perimeterM).toBeCloseTo(2 * once.perimeterM, 8);
      const scaled = (points: Point[]): Point[] => points.map(({ x, y }) => ({ x: x / 2, y: y / 2 }));
      const small = measured({ ...tapped, picture: { width: 1024, height: 768 }, corners: scaled(tapped.corners), outline: scaled(tapped.outline) })!;
      expect(small.areaM2).toBeCloseTo(once.areaM2, 9);
      expect(small.tiltDeg).toBeCloseTo(once.tiltDeg, 6);
      // half the pixels, twice the error of a tap
      expect(small.areaPlusMinusM2).toBeGreaterThan(1.2 * once.areaPlusMinusM2);
    }
  });

  it("has the area that the pixels of a painted hole have", () => {
    const looks: Camera = { picture: { width: 512, height: 384 }, focal: 370, heightM: 1.6, tiltDeg: 35, headingDeg: 20, rollDeg: 4, at: { x: 0.5, y: 0.6 } };
    const truth = hole(chance(5), { x: 0.5, y: 0.95 }, 0.8, 0.6);
    const pixels = painted(looks, BOARD, truth);
    const tapped = { picture: looks.picture, board: BOARD, corners: corners(BOARD).map((p) => seen(looks, p)), outline: truth.map((p) => seen(looks, p)) };
    const found = measured(tapped)!;
    const toRoad = inverse(found.toPicture)!;
    // brown: more red than blue by far
    let area = 0;
    for (let row = 0; row < 384; row++)
      for (let column = 0; column < 512; column++) {
        const at = (row * 512 + column) * 4;
        if (pixels[at]! - pixels[at + 2]! < 35) continue;
        const square = [[0, 0], [1, 0], [1, 1], [0, 1]].map(([x, y]) => mapped(toRoad, { x: column + x!, y: row + y! })!);
        area += areaOf(square);
      }
    expect(area / found.areaM2).toBeGreaterThan(0.99);
    expect(area / found.areaM2).toBeLessThan(1.01);
    expect(lookedAt(looks, seen(looks, { x: 0.3, y: 0.9 })).x).toBeCloseTo(0.3, 10);
  });
});

describe("doubts", () => {
  const plain = (): Tapped => picture(3, 20, 0).tapped;

  it("are told of a view that is too oblique", () => {
    const looks: Camera = { picture: PICTURE, focal: 1500, heightM: 1.2, tiltDeg: 66, headingDeg: 10, rollDeg: 0, at: { x: 0.5, y: 0.6 } };
    const tapped = { ...plain(), corners: corners(BOARD).map((p) => seen(looks, p)), outline: hole(chance(1), { x: 0.5, y: 0.9 }, 0.5, 0.4).map((p) => seen(looks, p)) };
    expect(measured(tapped)!.doubts).toContain("oblique");
  });

  it("are told of a board that is small in the picture", () => {
    const looks: Camera = { picture: PICTURE, focal: 1400, heightM: 12, tiltDeg: 10, headingDeg: 10, rollDeg: 0, at: { x: 0.5, y: 0.6 } };
    const tapped = { ...plain(), corners: corners(BOARD).map((p) => seen(looks, p)), outline: hole(chance(1), { x: 0.5, y: 0.9 }, 0.5, 0.4).map((p) => seen(looks, p)) };
    expect(measured(tapped)!.doubts).toContain("tiny");
  });

  it("are told of a board of another shape than entered, and of one that leans", () => {
    expect(measured({ ...plain(), board: { lengthM: 1, widthM: 0.7 } })!.doubts).toEqual(["misfit"]);
    // one end lifted by 0.25 m: its corners are seen where points of the road further out are
    const looks: Camera = { picture: PICTURE, focal: 1400, heightM: 1.6, tiltDeg: 5, headingDeg: 0, rollDeg: 0, at: { x: 0.5, y: 0.6 } };
    const lifted = corners(BOARD).map((p) => (p.x === 0 ? p : { x: Math.sqrt(1 - 0.25 ** 2), y: p.y, up: 0.25 }));
    const tapped = lifted.map((p) => {
      const up = "up" in p ? p.up : 0;
      const eye = { x: looks.at.x, y: looks.at.y - looks.heightM * Math.tan((5 * Math.PI) / 180) };
      const out = looks.heightM / (looks.heightM - up);
      return seen(looks, { x: eye.x + (p.x - eye.x) * out, y: eye.y + (p.y - eye.y) * out });
    });
    // pitch of the board alone can't be told from a tilt of the camera; its size is what is off then
    expect(lieOf(tapped, BOARD, PICTURE)!.tiltDeg).toBeGreaterThan(9);
  });

  it("are told of an outline far from the board, one that crosses itself, a check that is off, corners nearly in a line", () => {
    const tapped = plain();
    const looks = camera(chance(3), 20);
    const far = hole(chance(2), { x: 4, y: 0.9 }, 0.5, 0.4).map((p) => seen(looks, p));
    expect(measured({ ...tapped, outline: far })!.doubts).toContain("far");
    const [a, b, ...rest] = tapped.outline as [Point, Point, ...Point[]];
    expect(measured({ ...tapped, outline: [b, rest[3]!, a, ...rest] })!.doubts).toContain("crossed");
    const points = [seen(looks, { x: 0, y: 1 }), seen(looks, { x: 0.8, y: 1 })];
    expect(measured({ ...tapped, check: { points, lengthM: 0.8 } })!.doubts).toEqual([]);
    expect(measured({ ...tapped, check: { points, lengthM: 0.8 } })!.checkM).toBeCloseTo(0.8, 9);
    expect(measured({ ...tapped, check: { points, lengthM: 0.7 } })!.doubts).toEqual(["check-off"]);
    const [c, d, e] = tapped.corners as [Point, Point, Point];
    const inLine = { x: (c.x + e.x) / 2 + 0.06 * (c.x + e.x - 2 * d.x), y: (c.y + e.y) / 2 + 0.06 * (c.y + e.y - 2 * d.y) };
    expect(measured({ ...tapped, corners: [c, d, e, inLine] })?.doubts ?? ["in-line"]).toContain("in-line");
    // one corner inside the others is no board
    expect(measured({ ...tapped, corners: [c, d, e, { x: (c.x + d.x + e.x) / 3, y: (c.y + d.y + e.y) / 3 }] })).toBeUndefined();
  });
});
