// Whether the map moves smoothly enough. Without a graphics card, drawing takes as long as there are dots to draw: while the map moves it is then
// drawn with fewer, and sharp again as soon as it rests. Where there is a card nothing of this is noticed.

/** Frames slower than this are no smooth movement: 30 in a second. */
const SMOOTH_MS = 1_000 / 30;
/** So many frames are looked at; a single slow one, such as of a tile that comes in, says nothing. */
const LOOKED_AT = 5;
/** Longer than this between two frames: nothing was to be drawn. */
const STILL_MS = 1_000;
/** After so long it is tried again with all dots: the machine may have been busy with something else. */
const TRIED_AGAIN_MS = 120_000;
/** Dots along a side, as a share of all, while a slow map moves. */
export const COARSE = 0.5;

export class Pace {
  private last: number | undefined;
  private frames: number[] = [];
  private slowSince: number | undefined;

  /** The map begins to move: whether it has to be coarse from the first frame on. */
  begins(now: number): boolean {
    this.last = undefined;
    this.frames = [];
    if (this.slowSince !== undefined && now - this.slowSince > TRIED_AGAIN_MS) this.slowSince = undefined;
    return this.slowSince !== undefined;
  }

  /** A frame of a moving map was drawn: whether it has to be coarse from now on. */
  drawn(now: number): boolean {
    const took = this.last === undefined ? undefined : now - this.last;
    this.last = now;
    if (took === undefined || took > STILL_MS || this.slowSince !== undefined) return this.slowSince !== undefined;
    this.frames = [...this.frames, took].slice(-LOOKED_AT);
    const middle = [...this.frames].sort((a, b) => a - b)[Math.floor(LOOKED_AT / 2)];
    if (this.frames.length === LOOKED_AT && middle! > SMOOTH_MS) this.slowSince = now;
    return this.slowSince !== undefined;
  }
}
