// A photo as it is measured in: the right way up, not larger than needed, with its light at every place.
import type { Size } from "./board";
import type { Light } from "./edges";

/** Longest side in pixels. */
const LONGEST = 2048;
const QUALITY = 0.9;

export interface Picture {
  blob: Blob;
  size: Size;
  light: Light;
}

/** Reads a photo from the camera or a file; the browser turns it as the camera was held. */
export async function readPicture(file: Blob): Promise<Picture> {
  const bitmap = await createImageBitmap(file, { imageOrientation: "from-image" });
  const scale = Math.min(1, LONGEST / Math.max(bitmap.width, bitmap.height));
  const size = { width: Math.round(bitmap.width * scale), height: Math.round(bitmap.height * scale) };
  const canvas = document.createElement("canvas");
  Object.assign(canvas, size);
  const context = canvas.getContext("2d", { willReadFrequently: true })!;
  context.imageSmoothingQuality = "high";
  context.drawImage(bitmap, 0, 0, size.width, size.height);
  bitmap.close();
  const { data } = context.getImageData(0, 0, size.width, size.height);
  const blob = scale === 1 && file.type === "image/jpeg" ? file : await new Promise<Blob>((done) => canvas.toBlob((made) => done(made ?? file), "image/jpeg", QUALITY));
  return { blob, size, light: lightOf(data, size) };
}

/** Between the middles of four pixels; outside as at the rim. */
function lightOf(data: Uint8ClampedArray, { width, height }: Size): Light {
  const grey = (column: number, row: number): number => {
    const at = (Math.min(height - 1, Math.max(0, row)) * width + Math.min(width - 1, Math.max(0, column))) * 4;
    return 0.299 * data[at]! + 0.587 * data[at + 1]! + 0.114 * data[at + 2]!;
  };
  return (x, y) => {
    const [column, row] = [Math.floor(x - 0.5), Math.floor(y - 0.5)];
    const [right, down] = [x - 0.5 - column, y - 0.5 - row];
    const above = grey(column, row) * (1 - right) + grey(column + 1, row) * right;
    const below = grey(column, row + 1) * (1 - right) + grey(column + 1, row + 1) * right;
    return above * (1 - down) + below * down;
  };
}
