// Pictures of a road with a board and a hole on it whose size is known: a pinhole camera of its own, apart from what is tested.
import type { Board, Size } from "../src/measure/board";
import type { Point } from "../src/measure/homography";

export interface Camera {
  picture: Size;
  /** Pixels. */
  focal: number;
  heightM: number;
  /** From straight down, degrees. */
  tiltDeg: number;
  /** Which way it looks, degrees from the road's direction. */
  headingDeg: number;
  /** Turned in the hand, degrees. */
  rollDeg: number;
  /** Where on the road its middle looks. */
  at: Point;
}

/** Where a point of the road is in the picture: turned, pushed away, divided by its depth. */
export function seen(camera: Camera, point: Point): Point {
  const [tilt, heading, roll] = [camera.tiltDeg, camera.headingDeg, camera.rollDeg].map((degrees) => (degrees * Math.PI) / 180) as [number, number, number];
  const [east, north] = [point.x - camera.at.x, point.y - camera.at.y];
  const right = east * Math.cos(heading) + north * Math.sin(heading);
  const ahead = -east * Math.sin(heading) + north * Math.cos(heading);
  // the middle of the picture is looked at from the height over the cosine of the tilt
  const depth = camera.heightM / Math.cos(tilt) + ahead * Math.sin(tilt);
  const down = ahead * Math.cos(tilt);
  const [u, v] = [(camera.focal * right) / depth, (camera.focal * down) / depth];
  return {
    x: camera.picture.width / 2 + u * Math.cos(roll) - v * Math.sin(roll),
    y: camera.picture.height / 2 + u * Math.sin(roll) + v * Math.cos(roll),
  };
}

/** The other way, by walking: the point of the road seen at a pixel. */
export function lookedAt(camera: Camera, pixel: Point): Point {
  const [tilt, heading, roll] = [camera.tiltDeg, camera.headingDeg, camera.rollDeg].map((degrees) => (degrees * Math.PI) / 180) as [number, number, number];
  const [x, y] = [pixel.x - camera.picture.width / 2, pixel.y - camera.picture.height / 2];
  const u = (x * Math.cos(roll) + y * Math.sin(roll)) / camera.focal;
  const v = (-x * Math.sin(roll) + y * Math.cos(roll)) / camera.focal;
  const distance = camera.heightM / Math.cos(tilt);
  const ahead = (v * distance) / (Math.cos(tilt) - v * Math.sin(tilt));
  const right = u * (distance + ahead * Math.sin(tilt));
  return { x: camera.at.x + right * Math.cos(heading) - ahead * Math.sin(heading), y: camera.at.y + right * Math.sin(heading) + ahead * Math.cos(heading) };
}

/** A number that looks like chance, the same each time: Mulberry32, from memory. */
export function chance(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** Normal with unit spread (Box and Muller). */
export function normal(next: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next());
}

/** An uneven hole, metres. */
export function hole(next: () => number, at: Point, length: number, width: number, points = 14): Point[] {
  return Array.from({ length: points }, (_, index) => {
    const angle = (2 * Math.PI * index) / points;
    const out = 0.8 + 0.4 * next();
    return { x: at.x + (length / 2) * out * Math.cos(angle), y: at.y + (width / 2) * out * Math.sin(angle) };
  });
}

export function corners({ lengthM, widthM }: Board): Point[] {
  return [
    { x: 0, y: 0 },
    { x: lengthM, y: 0 },
    { x: lengthM, y: widthM },
    { x: 0, y: widthM },
  ];
}

export function inside(outline: readonly Point[], { x, y }: Point): boolean {
  let is = false;
  outline.forEach((a, index) => {
    const b = outline[(index + 1) % outline.length]!;
    if (a.y > y !== b.y > y && x < a.x + ((y - a.y) / (b.y - a.y)) * (b.x - a.x)) is = !is;
  });
  return is;
}

/** Colour of the picture at a place in pixels: grey road with stones, a light board, a brown hole. */
export function colour(camera: Camera, board: Board, outline: readonly Point[], pixel: Point): [number, number, number] {
  const place = lookedAt(camera, pixel);
  const rough = 0.7 * grain(place, 0.008) + 0.3 * grain(place, 0.05);
  if (place.x >= 0 && place.x <= board.lengthM && place.y >= 0 && place.y <= board.widthM) return [214 + 24 * rough, 206 + 24 * rough, 184 + 24 * rough];
  if (inside(outline, place)) return [96 + 70 * rough, 74 + 60 * rough, 50 + 46 * rough];
  return [92 + 56 * rough, 92 + 56 * rough, 94 + 56 * rough];
}

function grain({ x, y }: Point, size: number): number {
  return chance(Math.imul(Math.floor(x / size) + 90_000, 73_856_093) ^ Math.imul(Math.floor(y / size) + 90_000, 19_349_663))();
}

/** The whole picture, four bytes a pixel. */
export function painted(camera: Camera, board: Board, outline: readonly Point[]): Uint8Array {
  const { width, height } = camera.picture;
  const bytes = new Uint8Array(width * height * 4);
  for (let row = 0; row < height; row++)
    for (let column = 0; column < width; column++) bytes.set([...colour(camera, board, outline, { x: column + 0.5, y: row + 0.5 }), 255], (row * width + column) * 4);
  return bytes;
}
