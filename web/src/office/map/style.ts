// How the map is drawn: the district's own roads, and nothing of anybody else. Letters are drawn by the browser itself, so no file of
// letters is fetched either.
import type * as GeoJSON from "geojson";
import type { LayerSpecification, StyleSpecification } from "maplibre-gl";
import { CREW_LINES, SURFACE_COLOUR, ZONE_COLOUR } from "./signs";

const FONT = ["Noto Sans Bold", "sans-serif"];

const MAIN = ["motorway", "trunk", "primary"];
const MIDDLE = ["secondary", "tertiary"];

export const EMPTY: GeoJSON.FeatureCollection = { type: "FeatureCollection", features: [] };

/** Layers of signs that a click looks at, the topmost first. */
export const SIGN_LAYERS = ["stops", "holes", "hole-groups", "depots", "zones", "surface-ends", "surfaces"];

export function mapStyle(isDark: boolean, crews: string[]): StyleSpecification {
  const look = isDark
    ? { ground: "#14191a", edge: "#0a0d0e", road: "#5d6a69", main: "#93a09c", letters: "#e4e1d8", halo: "#14191a", group: "#2f4744", groupLine: "#8fd0c4" }
    : { ground: "#f1ede3", edge: "#8f8672", road: "#ffffff", main: "#ffdf8a", letters: "#38403f", halo: "#fffdf8", group: "#d8e8e4", groupLine: "#0d5552" };
  const isMain = ["in", ["get", "class"], ["literal", MAIN]];
  const isMiddle = ["in", ["get", "class"], ["literal", MIDDLE]];
  const width = (main: number, middle: number, small: number, more: number): unknown => [
    "interpolate",
    ["exponential", 1.5],
    ["zoom"],
    9,
    ["case", isMain, 2.2 + more, isMiddle, 1.4 + more, 0.7 + more],
    16,
    ["case", isMain, main + more * 2, isMiddle, middle + more * 2, small + more * 2],
  ];
  const crewOf = (index: number): unknown => ["==", ["get", "crew"], crews[index] ?? ""];
  const night = isDark ? "dark" : "light";
  const layers = [
    { id: "ground", type: "background", paint: { "background-color": look.ground } },
    { id: "roads-edge", type: "line", source: "roads", "source-layer": "roads", layout: { "line-cap": "round", "line-join": "round" }, paint: { "line-color": look.edge, "line-width": width(13, 10, 7, 0.8) } },
    { id: "roads", type: "line", source: "roads", "source-layer": "roads", layout: { "line-cap": "round", "line-join": "round" }, paint: { "line-color": ["case", isMain, look.main, look.road], "line-width": width(13, 10, 7, 0) } },
    ...CREW_LINES.map((line, index) => ({
      id: `ways-${index}`,
      type: "line",
      source: "ways",
      filter: crewOf(index),
      layout: { "line-join": "round" },
      paint: { "line-color": line[night], "line-width": ["interpolate", ["linear"], ["zoom"], 9, 2.5, 15, 6], "line-offset": 2 + 4 * index, "line-opacity": 0.85, ...(line.dash.length > 1 ? { "line-dasharray": line.dash } : {}) },
    })),
    { id: "surfaces", type: "line", source: "surfaces", filter: ["==", ["geometry-type"], "LineString"], paint: { "line-color": SURFACE_COLOUR[night], "line-width": 2.5, "line-dasharray": [2, 2] } },
    { id: "surface-ends", type: "circle", source: "surfaces", filter: ["==", ["geometry-type"], "Point"], paint: { "circle-radius": 9, "circle-color": SURFACE_COLOUR[night], "circle-stroke-width": 2, "circle-stroke-color": isDark ? "#14191a" : "#fffdf8" } },
    { id: "surface-letters", type: "symbol", source: "surfaces", filter: ["==", ["geometry-type"], "Point"], layout: { "text-field": ["get", "letter"], "text-font": FONT, "text-size": 12.5, "text-allow-overlap": true, "text-ignore-placement": true }, paint: { "text-color": isDark ? "#14191a" : "#fffdf8" } },
    { id: "zones", type: "line", source: "zones", layout: { "line-cap": "butt" }, paint: { "line-color": ZONE_COLOUR[night], "line-width": ["interpolate", ["linear"], ["zoom"], 9, 5, 15, 11], "line-dasharray": [0.7, 0.5] } },
    {
      id: "road-names",
      type: "symbol",
      source: "roads",
      "source-layer": "roads",
      minzoom: 11.5,
      layout: { "symbol-placement": "line", "symbol-spacing": 340, "text-field": ["get", "name"], "text-font": FONT, "text-size": 12.5, "text-max-angle": 30, "text-padding": 12 },
      paint: { "text-color": look.letters, "text-halo-color": look.halo, "text-halo-width": 1.6 },
    },
    {
      id: "hole-groups",
      type: "circle",
      source: "holes",
      filter: ["has", "point_count"],
      paint: { "circle-color": look.group, "circle-stroke-color": look.groupLine, "circle-stroke-width": 2, "circle-radius": ["interpolate", ["linear"], ["log10", ["get", "point_count"]], 0.3, 13, 2, 19, 3.5, 27] },
    },
    { id: "hole-group-counts", type: "symbol", source: "holes", filter: ["has", "point_count"], layout: { "text-field": ["get", "point_count_abbreviated"], "text-font": FONT, "text-size": 13, "text-allow-overlap": true }, paint: { "text-color": isDark ? "#f1efe8" : "#0b3f3c" } },
    { id: "holes", type: "symbol", source: "holes", filter: ["!", ["has", "point_count"]], layout: { "icon-image": ["concat", "hole-", ["get", "state"]], "icon-allow-overlap": true, "icon-ignore-placement": true } },
    { id: "depots", type: "symbol", source: "depots", layout: { "icon-image": ["concat", "depot-", ["get", "kind"]], "icon-allow-overlap": true, "text-field": ["step", ["zoom"], "", 9.5, ["get", "name"]], "text-font": FONT, "text-size": 12.5, "text-offset": [0, 1.3], "text-anchor": "top", "text-optional": true }, paint: { "text-color": look.letters, "text-halo-color": look.halo, "text-halo-width": 1.6 } },
    { id: "stop-grounds", type: "circle", source: "stops", paint: { "circle-radius": 11, "circle-color": isDark ? "#f1efe8" : "#1c2324", "circle-stroke-width": 1.5, "circle-stroke-color": isDark ? "#14191a" : "#fffdf8", "circle-translate": [13, -13] } },
    { id: "stops", type: "symbol", source: "stops", layout: { "text-field": ["get", "number"], "text-font": FONT, "text-size": 12.5, "text-allow-overlap": true, "text-ignore-placement": true }, paint: { "text-color": isDark ? "#14191a" : "#fffdf8", "text-translate": [13, -13] } },
    { id: "chosen", type: "circle", source: "chosen", paint: { "circle-radius": 19, "circle-color": "rgba(0,0,0,0)", "circle-stroke-width": 4, "circle-stroke-color": isDark ? "#f2c15c" : "#1e4f86" } },
  ];
  const geojson = (more = {}): unknown => ({ type: "geojson", data: EMPTY, ...more });
  return {
    version: 8,
    sources: {
      roads: { type: "vector", tiles: [`${location.origin}/api/tiles/roads/{z}/{x}/{y}`], minzoom: 0, maxzoom: 16 },
      holes: geojson({ cluster: true, clusterRadius: 42, clusterMaxZoom: 12 }),
      zones: geojson(),
      surfaces: geojson(),
      ways: geojson(),
      stops: geojson(),
      depots: geojson(),
      chosen: geojson(),
    },
    layers: layers as unknown as LayerSpecification[],
  } as StyleSpecification;
}
