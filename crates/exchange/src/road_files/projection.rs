//! From the coordinates of a `.prj` to WGS 84 degrees.

use model::place::LonLat;
use proj4rs::Proj;
use proj4rs::transform::transform;

use super::findings::guarded;

/// A way to WGS 84 degrees.
pub(super) struct ToLonLat {
    from: Option<(Proj, Proj)>,
    /// The datum of the source is not WGS 84's and no shift is given: places may be off by up to some hundred metres.
    pub(super) shift_unknown: bool,
}

impl ToLonLat {
    /// The coordinates are degrees already.
    pub(super) fn degrees() -> Self {
        ToLonLat { from: None, shift_unknown: false }
    }

    /// By the text of a `.prj` (well-known text of a coordinate system).
    pub(super) fn by_wkt(wkt: &str) -> Result<Self, String> {
        let wkt = wkt.trim().trim_start_matches('\u{FEFF}').trim_end_matches('\0').trim();
        let definition = guarded(|| proj4wkt::wkt_to_projstring(wkt))?.map_err(|error| error.to_string())?;
        let from =
            guarded(|| Proj::from_proj_string(&definition))?.map_err(|error| format!("{error} in {definition}"))?;
        let to = Proj::from_proj_string("+proj=longlat +datum=WGS84 +no_defs").map_err(|error| error.to_string())?;
        let shift_unknown = !["+towgs84=", "+datum=", "+nadgrids="].iter().any(|part| definition.contains(part));
        Ok(ToLonLat { from: Some((from, to)), shift_unknown })
    }

    /// One place; `None` where it has no image on the globe.
    pub(super) fn lon_lat(&self, x: f64, y: f64) -> Option<LonLat> {
        let (lon, lat) = match &self.from {
            None => (x, y),
            Some((from, to)) => {
                if !(x.is_finite() && y.is_finite()) {
                    return None;
                }
                // The library speaks radians where a system is geographic.
                let mut point = if from.is_latlong() { (x.to_radians(), y.to_radians(), 0.0) } else { (x, y, 0.0) };
                guarded(|| transform(from, to, &mut point)).ok()?.ok()?;
                (point.0.to_degrees(), point.1.to_degrees())
            }
        };
        on_globe(lon, lat).then_some(LonLat { lon, lat })
    }
}

/// Whether a pair of degrees is a place.
pub(super) fn on_globe(lon: f64, lat: f64) -> bool {
    (-180.0..=180.0).contains(&lon) && (-90.0..=90.0).contains(&lat)
}
