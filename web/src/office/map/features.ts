// Rows of the record as features of the map.
import type * as GeoJSON from "geojson";
import type { PlanRound } from "../data/plan_shapes";
import type { District, Hole, Round, Row, Zone } from "../data/shapes";

type Features = GeoJSON.FeatureCollection;

const collection = (features: GeoJSON.Feature[]): Features => ({ type: "FeatureCollection", features });

const point = (coordinates: GeoJSON.Position, properties: Record<string, unknown>): GeoJSON.Feature => ({
  type: "Feature",
  geometry: { type: "Point", coordinates },
  properties,
});

export function holeFeatures(rows: Row<Hole>[]): Features {
  return collection(rows.flatMap(({ place, known }) => (place ? point([place.lon, place.lat], { id: known.hole, state: known.state }) : [])));
}

/** Zones that stand, as lines where their stretches are known. */
export function zoneFeatures(rows: Row<Zone>[]): Features {
  return collection(
    rows.flatMap(({ known }) =>
      (known.stretches?.value ?? []).map(({ line }) => ({
        type: "Feature" as const,
        geometry: { type: "LineString" as const, coordinates: line.map(({ lon, lat }) => [lon, lat]) },
        properties: { id: known.zone },
      })),
    ),
  );
}

export function depotFeatures(district: District | undefined): Features {
  return collection((district?.depots ?? []).map(({ name, kind, position }) => point([position.lon, position.lat], { name, kind })));
}

export interface Way {
  round: string;
  crew: string;
  line: GeoJSON.Position[];
  stops: { place: GeoJSON.Position; number: number; road: string; at: string }[];
}

/** The way of a round as its plan has it; without a plan straight from repair to repair, as far as places are known. */
export function wayOf(round: Round, planned: PlanRound | undefined, placeOf: (hole: string) => GeoJSON.Position | undefined): Way {
  const crew = round.crew?.value ?? "";
  if (planned?.line && planned.line.length > 1) {
    const work = planned.stops.filter(({ kind, place }) => kind === "work" && place !== null);
    return { round: round.round, crew, line: planned.line, stops: work.map(({ place, road, from }, index) => ({ place: place!, number: index + 1, road, at: from })) };
  }
  const stops = (round.planned_zones.length > 0 ? round.planned_zones : (round.repairs?.value ?? [])).flatMap(({ holes, road }) => {
    const place = holes.map(placeOf).find((found) => found !== undefined);
    return place ? [{ place, road: road ?? "" }] : [];
  });
  return { round: round.round, crew, line: stops.map(({ place }) => place), stops: stops.map(({ place, road }, index) => ({ place, number: index + 1, road, at: "" })) };
}

export function wayFeatures(ways: Way[]): { ways: Features; stops: Features } {
  return {
    ways: collection(ways.filter(({ line }) => line.length > 1).map(({ crew, round, line }) => ({ type: "Feature", geometry: { type: "LineString", coordinates: line }, properties: { crew, round } }))),
    stops: collection(ways.flatMap(({ round, stops }) => stops.map(({ place, number }) => point(place, { round, number: String(number) })))),
  };
}

/** The box around all places, or nothing. */
export function boundsOf(places: GeoJSON.Position[]): [number, number, number, number] | undefined {
  if (places.length === 0) return undefined;
  const lon = places.map(([x]) => x!);
  const lat = places.map(([, y]) => y!);
  return [Math.min(...lon), Math.min(...lat), Math.max(...lon), Math.max(...lat)];
}
