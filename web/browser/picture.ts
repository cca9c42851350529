// A picture that no camera took: grey road with noise, another for each seed.
import { PNG } from "pngjs";

export function roadPicture(seed: number, width = 320, height = 240): Buffer {
  const png = new PNG({ width, height });
  let state = seed * 2_654_435_761;
  for (let at = 0; at < width * height; at++) {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    const grey = 90 + (state >>> 26);
    png.data.set([grey, grey, grey, 255], at * 4);
  }
  return PNG.sync.write(png);
}
