// Words that the record knows, in the order in which they are offered.
import type { components } from "../api/schema";

type Schemas = components["schemas"];

export const WETNESS: readonly Schemas["Wetness"][] = ["dry", "damp", "wet", "seepage", "pumping"];
export const LANE_POSITIONS: readonly Schemas["LanePosition"][] = ["lane", "wheel_path", "edge", "shoulder", "centre"];
/** Those that take water away first. */
export const DRAINAGE: readonly Schemas["Drainage"][] = ["ditch_works", "kerb_and_gully", "ditch_blocked", "gully_blocked", "high_verge", "no_drainage", "standing_water"];
/** Where several are so, the last of them counts. */
export const SEALING_WEATHER: readonly Schemas["SealingWeather"][] = ["dry", "damp", "rain_within_a_day", "frost"];
export const SURFACE_WORKS: readonly Schemas["SurfaceWork"][] = ["reseal", "thin_overlay", "overlay", "new_base_and_seal", "other"];
export const STRETCH_SIDES: readonly Schemas["StretchSide"][] = ["left", "right"];
export const HAND_FEELS: readonly Schemas["HandFeel"][] = ["falls_apart", "keeps_shape", "oozes"];
