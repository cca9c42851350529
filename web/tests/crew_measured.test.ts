import { describe, expect, it } from "vitest";
import { areaM2, fromPhoto, sidesOf, withCut } from "../src/crew/logic/measured";
import type { Cut } from "../src/measure/cut";
import type { MeasureResult } from "../src/measure/result";

const RESULT: MeasureResult = {
  length_mm: 803,
  width_mm: 598,
  area_m2: 0.37,
  area_plus_minus_m2: 0.01,
  perimeter_m: 2.3,
  outline: [[0, 0], [0.803, 0.1], [0.4, 0.598]],
  doubts: [],
  note: "From a photo",
  photo: new Blob(),
};
/** With a notch: its area is not that of its sides. */
const CUT = { corners: [[-0.1, -0.1], [0.9, -0.1], [0.9, 0.4], [0.5, 0.4], [0.5, 0.7], [-0.1, 0.7]], layers: [], cut_area_m2: { value: 0.68 } } as unknown as Cut;

describe("a hole measured from a photo", () => {
  it("gives its own sides as long as no cut is proposed", () => {
    const photo = fromPhoto(RESULT);
    expect(sidesOf(photo)).toEqual({ length_mm: 805, width_mm: 600 });
    expect(photo.outline).toEqual(RESULT.outline);
    expect(areaM2(sidesOf(photo), photo)).toBeCloseTo(0.483, 9);
  });

  it("gives sides and area of the cut proposed, at once or later", () => {
    const photo = fromPhoto({ ...RESULT, cut: CUT });
    expect(photo).toEqual(withCut(fromPhoto(RESULT), CUT));
    expect(sidesOf(photo)).toEqual({ length_mm: 1000, width_mm: 800 });
    expect(areaM2(sidesOf(photo), photo)).toBe(0.68);
  });

  it("goes by the sides once somebody changed them", () => {
    const photo = fromPhoto({ ...RESULT, cut: CUT });
    expect(areaM2({ length_mm: 1200, width_mm: 800 }, photo)).toBeCloseTo(0.96, 9);
    expect(areaM2({ length_mm: 1000 }, photo)).toBeUndefined();
  });
});
