// A stretch of road with a new surface: as somebody fills it in, as it is told, as it stands on the map.
import type * as GeoJSON from "geojson";
import { v7 } from "uuid";
import type { Happened } from "../../lib/store/database";
import { holeWaits } from "../data/names";
import type { Hole, Position, Resurfacing, Row } from "../data/shapes";

/** The form; places are texts as typed, `47.31` or nothing. */
export interface Stretch {
  date: string;
  work: string;
  road: string;
  side: string;
  from: { lat: string; lon: string };
  to: { lat: string; lon: string };
  holes: string[];
  note: string;
}

export type End = "from" | "to";

export function emptyStretch(): Stretch {
  return { date: "", work: "", road: "", side: "", from: { lat: "", lon: "" }, to: { lat: "", lon: "" }, holes: [], note: "" };
}

/** A place that was typed, where it is one. */
export function placeOf({ lat, lon }: { lat: string; lon: string }): Position | undefined {
  const [y, x] = [lat, lon].map((text) => (text.trim() === "" ? NaN : Number(text.trim().replace(",", "."))));
  return Number.isFinite(y) && Number.isFinite(x) && Math.abs(y!) <= 90 && Math.abs(x!) <= 180 ? { lon: x!, lat: y! } : undefined;
}

/** To the centimetre, well enough. */
export function typed({ lon, lat }: Position): { lat: string; lon: string } {
  return { lat: lat.toFixed(6), lon: lon.toFixed(6) };
}

/** The end that the next press on the map sets: the first that is missing, then the second again. */
export function nextEnd(stretch: Stretch): End {
  return placeOf(stretch.from) ? "to" : "from";
}

export type Fault = "from" | "to" | "same" | "later";

/** What keeps it from being told. */
export function faultOf(stretch: Stretch, today: string): Fault | undefined {
  const [from, to] = [placeOf(stretch.from), placeOf(stretch.to)];
  if (!from) return "from";
  if (!to) return "to";
  if (metres(from, to) < 1) return "same";
  return stretch.date > today ? "later" : undefined;
}

/** What is told of it; it has no fault. */
export function toTell(stretch: Stretch): Happened {
  const some = { road: stretch.road.trim(), side: stretch.side, holes: stretch.holes, note: stretch.note.trim() };
  return {
    kind: "road_resurfaced",
    resurfacing: v7(),
    date: stretch.date,
    from: placeOf(stretch.from),
    to: placeOf(stretch.to),
    work: stretch.work,
    ...Object.fromEntries(Object.entries(some).filter(([, value]) => value.length > 0)),
  } as unknown as Happened;
}

const DEGREE_M = 111_200;

function metres(a: Position, b: Position): number {
  return Math.hypot((a.lat - b.lat) * DEGREE_M, (a.lon - b.lon) * DEGREE_M * Math.cos((a.lat * Math.PI) / 180));
}

/** How much longer than straight a road may be between its ends, and metres beyond them: common practice, no source. */
const BENDS = 1.25;
const BEYOND_M = 60;

/** Holes that wait and may lie on a stretch: somebody says which of them do. */
export function holesBetween(rows: readonly Row<Hole>[], from: Position, to: Position): Row<Hole>[] {
  const most = BENDS * metres(from, to) + BEYOND_M;
  return rows
    .filter(({ known, place }) => place && holeWaits(known.state) && metres(from, place) + metres(place, to) <= most)
    .sort((a, b) => metres(from, a.place!) - metres(from, b.place!));
}

/** The place on lines nearest to another; nothing without a line. */
export function nearestOn(lines: readonly GeoJSON.Position[][], { lon, lat }: Position): Position | undefined {
  const squeeze = Math.cos((lat * Math.PI) / 180);
  let best: { at: Position; far: number } | undefined;
  for (const line of lines) {
    line.slice(1).forEach(([x2, y2], index) => {
      const [x1, y1] = line[index]!;
      const [dx, dy] = [(x2! - x1!) * squeeze, y2! - y1!];
      const along = dx === 0 && dy === 0 ? 0 : Math.min(1, Math.max(0, ((lon - x1!) * squeeze * dx + (lat - y1!) * dy) / (dx * dx + dy * dy)));
      const at = { lon: x1! + along * (x2! - x1!), lat: y1! + along * (y2! - y1!) };
      const far = metres(at, { lon, lat });
      if (!best || far < best.far) best = { at, far };
    });
  }
  return best?.at;
}

interface Ends {
  id: string;
  from: Position | undefined;
  to: Position | undefined;
}

/** Ends of stretches with a straight line between: where the road bends, it only says what belongs together. */
export function stretchFeatures(rows: readonly Row<Resurfacing>[], filled?: Stretch): GeoJSON.FeatureCollection {
  const all: Ends[] = rows.map(({ known }) => ({ id: known.resurfacing, from: known.from.value, to: known.to.value }));
  if (filled) all.push({ id: "", from: placeOf(filled.from), to: placeOf(filled.to) });
  const features = all.flatMap(({ id, from, to }): GeoJSON.Feature[] => {
    const end = (at: Position | undefined, letter: string): GeoJSON.Feature[] => (at ? [{ type: "Feature", geometry: { type: "Point", coordinates: [at.lon, at.lat] }, properties: { id, letter } }] : []);
    const line: GeoJSON.Feature[] = from && to ? [{ type: "Feature", geometry: { type: "LineString", coordinates: [[from.lon, from.lat], [to.lon, to.lat]] }, properties: { id } }] : [];
    return [...line, ...end(from, "A"), ...end(to, "B")];
  });
  return { type: "FeatureCollection", features };
}
