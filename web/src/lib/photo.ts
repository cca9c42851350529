// A phone's camera makes files of many megabytes; a weak signal takes hours for them. What is kept is sharp enough to measure in.
const LONGEST = 2048;
const QUALITY = 0.85;
/** Bytes that are not worth making fewer. */
const SMALL = 1_000_000;

export async function smaller(file: Blob, longest = LONGEST): Promise<Blob> {
  try {
    const picture = await createImageBitmap(file, { imageOrientation: "from-image" });
    const scale = Math.min(1, longest / Math.max(picture.width, picture.height));
    if (scale === 1 && file.size < SMALL) return file;
    const canvas = document.createElement("canvas");
    canvas.width = Math.round(picture.width * scale);
    canvas.height = Math.round(picture.height * scale);
    canvas.getContext("2d")!.drawImage(picture, 0, 0, canvas.width, canvas.height);
    picture.close();
    return await new Promise((done) => canvas.toBlob((blob) => done(blob ?? file), "image/jpeg", QUALITY));
  } catch {
    // what the browser can't draw is kept as it came
    return file;
  }
}
