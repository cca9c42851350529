// A photo of a road with a board and a hole of known size, and where to tap in it.
import { PNG } from "pngjs";
import type { Point } from "../src/measure/homography";
import { areaOf } from "../src/measure/outline";
import { chance, corners, hole, painted, seen, type Camera } from "../tests/road_picture";

export interface RoadPhoto {
  file: Buffer;
  size: { width: number; height: number };
  corners: Point[];
  outline: Point[];
  areaM2: number;
}

/** As a phone takes it, held upright. */
export function roadPhoto(tiltDeg = 30): RoadPhoto {
  const board = { lengthM: 1, widthM: 0.5 };
  const camera: Camera = { picture: { width: 960, height: 1280 }, focal: 930, heightM: 1.7, tiltDeg, headingDeg: 8, rollDeg: 3, at: { x: 0.5, y: 0.62 } };
  const outline = hole(chance(11), { x: 0.5, y: 0.98 }, 0.8, 0.6, 12);
  const picture = new PNG(camera.picture);
  picture.data = Buffer.from(painted(camera, board, outline));
  return {
    file: PNG.sync.write(picture),
    size: camera.picture,
    corners: corners(board).map((point) => seen(camera, point)),
    outline: outline.map((point) => seen(camera, point)),
    areaM2: areaOf(outline),
  };
}
