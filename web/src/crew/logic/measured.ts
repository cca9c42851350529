/** What measuring from a photo gives, as far as the crew's forms take it. */
export interface Measured {
  length_mm?: number;
  width_mm?: number;
  depth_mm?: number;
  photo?: Blob;
}

/** Under which a form for a bigger or new hole is kept. */
export function bigKey(repair: string): string {
  return repair ? `bigger/${repair}` : "new-hole";
}
