import { afterEach, describe, expect, it, vi } from "vitest";
import { askCut, figureOf, type Cut } from "../src/measure/cut";

const OUTLINE = [
  { x: 0, y: 0 },
  { x: 0.80004, y: 0 },
  { x: 0.4, y: 0.6 },
];
const CUT = { corners: [[0, 0]], layers: [], cut_area_m2: { value: 0.6, p10: null, p90: null, why: "A = l * w" }, perimeter_m: 3.2, why: { perimeter_m: "P" } } as unknown as Cut;

function answers(status: number, body: unknown): ReturnType<typeof vi.fn> {
  const asked = vi.fn(async (_path: string, _request: RequestInit) => new Response(typeof body === "string" ? body : JSON.stringify(body), { status }));
  vi.stubGlobal("fetch", asked);
  return asked;
}

afterEach(() => vi.unstubAllGlobals());

describe("asking for a cut", () => {
  it("sends the outline in metres to the millimetre", async () => {
    const asked = answers(200, CUT);
    expect(await askCut(OUTLINE, 120)).toEqual(CUT);
    const [path, request] = asked.mock.calls[0] as [string, RequestInit];
    expect(path).toBe("/api/cut");
    expect(JSON.parse(request.body as string)).toEqual({ outline: [[0, 0], [0.8, 0], [0.4, 0.6]], depth_mm: 120 });
  });

  it("tells no signal, nobody signed in, and what the server says apart", async () => {
    vi.stubGlobal("fetch", async () => Promise.reject(new TypeError("failed")));
    expect(await askCut(OUTLINE, 120)).toEqual({ kind: "no-signal" });
    answers(502, "bad gateway");
    expect(await askCut(OUTLINE, 120)).toEqual({ kind: "no-signal" });
    answers(401, { title: "who" });
    expect(await askCut(OUTLINE, 120)).toEqual({ kind: "not-signed-in" });
    answers(422, { title: "unusable", detail: "too deep" });
    expect(await askCut(OUTLINE, 120)).toEqual({ kind: "refused", words: "too deep" });
  });

  it("gives figures with and without a spread, with their why", () => {
    expect(figureOf(CUT, "cut_area_m2")).toMatchObject({ value: 0.6, why: "A = l * w" });
    expect(figureOf(CUT, "perimeter_m")).toEqual({ value: 3.2, why: "P" });
    expect(figureOf(CUT, "water_l")).toBeUndefined();
  });
});
