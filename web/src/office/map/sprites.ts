// Pictures of the map's signs, drawn here: no sprite file is fetched.
import { DEPOT_SIGNS, HOLE_SIGNS, PATHS, type Sign } from "./signs";

/** Dots of a picture for one dot of the page. */
export const RATIO = 2;

export interface Picture {
  id: string;
  data: ImageData;
}

function drawn(size: number, draw: (pen: CanvasRenderingContext2D) => void): ImageData {
  const canvas = document.createElement("canvas");
  canvas.width = canvas.height = size * RATIO;
  const pen = canvas.getContext("2d")!;
  pen.scale(RATIO, RATIO);
  draw(pen);
  return pen.getImageData(0, 0, canvas.width, canvas.height);
}

function sign({ shape, light, dark }: Sign, isDark: boolean, size: number): ImageData {
  return drawn(size, (pen) => {
    const path = new Path2D(PATHS[shape]);
    pen.scale((size - 4) / 24, (size - 4) / 24);
    pen.translate(2.6, 2.6);
    pen.lineJoin = "round";
    pen.lineWidth = 4.4;
    pen.strokeStyle = isDark ? "#14191a" : "#fffdf8";
    pen.stroke(path);
    pen.fillStyle = isDark ? dark : light;
    pen.fill(path, "evenodd");
    pen.lineWidth = 1.2;
    pen.strokeStyle = isDark ? "#000" : "#1c2324";
    pen.stroke(path);
  });
}

/** Pictures of all signs. */
export function pictures(isDark: boolean): Picture[] {
  return [
    ...Object.entries(HOLE_SIGNS).map(([state, look]) => ({ id: `hole-${state}`, data: sign(look, isDark, 24) })),
    ...Object.entries(DEPOT_SIGNS).map(([kind, look]) => ({ id: `depot-${kind}`, data: sign(look, isDark, 30) })),
  ];
}
