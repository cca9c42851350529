// Keeps a map smooth: coarser while it moves where that is needed, sharp at rest.
import type { Map as GlMap } from "maplibre-gl";
import { COARSE, Pace } from "./pace";

/** How long the map has to rest before it is drawn sharp: wheel and fingers move it in many small steps. */
const REST_MS = 180;

/** Begins to watch; until the answer is called. */
export function keepSmooth(gl: GlMap): () => void {
  const pace = new Pace();
  let isCoarse = false;
  let isSlow = false;
  let moves = false;
  let timer: ReturnType<typeof setTimeout> | undefined;

  function setCoarse(coarse: boolean): void {
    if (coarse === isCoarse) return;
    isCoarse = coarse;
    // what `setPixelRatio` does, but for ending the movement that is under way
    gl._overridePixelRatio = coarse ? window.devicePixelRatio * COARSE : undefined;
    gl._resizeInternal();
  }

  gl.on("movestart", () => {
    clearTimeout(timer);
    if (!moves) isSlow = pace.begins(performance.now());
    moves = true;
  });
  // before the frame is drawn: a canvas that changes its size is empty
  gl.on("move", () => setCoarse(isSlow));
  gl.on("render", () => {
    if (moves && gl.isMoving()) isSlow = pace.drawn(performance.now());
  });
  gl.on("moveend", () => {
    clearTimeout(timer);
    timer = setTimeout(() => {
      moves = false;
      if (!isCoarse) return;
      setCoarse(false);
      gl.redraw();
    }, REST_MS);
  });
  return () => clearTimeout(timer);
}
