// Words that the record knows, in the order in which they are offered.
import type { components } from "../api/schema";

type Schemas = components["schemas"];

export const WETNESS: readonly Schemas["Wetness"][] = ["dry", "damp", "wet", "seepage", "pumping"];
export const LANE_POSITIONS: readonly Schemas["LanePosition"][] = ["lane", "wheel_path", "edge", "shoulder", "centre"];
export const HAND_FEELS: readonly Schemas["HandFeel"][] = ["falls_apart", "keeps_shape", "oozes"];
