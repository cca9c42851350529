//! The coordinate reference systems that features are given in, by reference (OGC 18-058).

use model::place::LonLat;
use proj4rs::Proj;
use proj4rs::transform::transform;

/// A coordinate reference system. Its axes are in the order of its definition.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Crs {
    /// WGS 84, longitude before latitude: the default of the standard, and what everything is kept in.
    Crs84,
    /// WGS 84, latitude before longitude.
    Epsg4326,
    /// The square map of the web, metres.
    WebMercator,
    /// A zone of the universal transverse Mercator grid on WGS 84, metres.
    Utm {
        /// 1 to 60, eastwards from 180 degrees west.
        zone: u8,
        /// North of the equator, or south.
        north: bool,
    },
}

/// How far from its central meridian the grid's zone is used here, metres; proper zones are a third of it.
const UTM_EAST_MOST_M: f64 = 1_000_000.0;
/// From the equator to a pole, metres, rounded up.
const QUADRANT_M: f64 = 10_010_000.0;
/// False easting and, on the southern half, false northing of the grid, metres.
const UTM_FALSE_EAST_M: f64 = 500_000.0;
const UTM_FALSE_NORTH_M: f64 = 10_000_000.0;
/// Radius of the web's sphere, metres.
const WEB_RADIUS_M: f64 = 6_378_137.0;
const WEB_MOST_M: f64 = WEB_RADIUS_M * std::f64::consts::PI;

impl Crs {
    /// The systems that are offered: those of everybody, and the grid's zone at the middle of the district.
    pub fn offered(middle: Option<LonLat>) -> Vec<Crs> {
        let mut offered = vec![Crs::Crs84, Crs::Epsg4326, Crs::WebMercator];
        offered.extend(middle.and_then(Crs::local_grid));
        offered
    }

    /// The zone of the grid that a place is in, by its meridian alone (the odd zones of Norway and Svalbard are left out); `None` near
    /// the poles, where the grid is not used.
    pub fn local_grid(place: LonLat) -> Option<Crs> {
        let inside = (-80.0..=84.0).contains(&place.lat) && (-180.0..=180.0).contains(&place.lon);
        let zone = (((place.lon + 180.0) / 6.0).floor() as u8).min(59) + 1;
        inside.then_some(Crs::Utm { zone, north: place.lat >= 0.0 })
    }

    /// Its name on the web.
    pub fn uri(self) -> String {
        match self.epsg() {
            None => "http://www.opengis.net/def/crs/OGC/1.3/CRS84".to_owned(),
            Some(code) => format!("http://www.opengis.net/def/crs/EPSG/0/{code}"),
        }
    }

    /// Its number in the EPSG register; CRS84 has none.
    pub fn epsg(self) -> Option<u32> {
        match self {
            Crs::Crs84 => None,
            Crs::Epsg4326 => Some(4326),
            Crs::WebMercator => Some(3857),
            Crs::Utm { zone, north } => Some(if north { 32600 } else { 32700 } + u32::from(zone)),
        }
    }

    /// A place in this system, in the order of its axes; `None` where it has no image of it.
    pub fn coordinates(self, place: LonLat) -> Option<[f64; 2]> {
        let LonLat { lon, lat } = place;
        let valid = (-180.0..=180.0).contains(&lon) && (-90.0..=90.0).contains(&lat);
        if !valid {
            return None;
        }
        match self {
            Crs::Crs84 => Some([lon, lat]),
            Crs::Epsg4326 => Some([lat, lon]),
            Crs::WebMercator => {
                // EPSG operation method 1024.
                let x = WEB_RADIUS_M * lon.to_radians();
                let y = WEB_RADIUS_M * (std::f64::consts::FRAC_PI_4 + lat.to_radians() / 2.0).tan().ln();
                (lat.abs() < 90.0 && y.is_finite()).then(|| [millimetres(x), millimetres(y)])
            }
            Crs::Utm { zone, north } => {
                // On the far side of the globe the series does not hold.
                let away = (lon - central_meridian(zone) + 540.0).rem_euclid(360.0) - 180.0;
                if away.abs() > 60.0 {
                    return None;
                }
                let mut point = (lon.to_radians(), lat.to_radians(), 0.0);
                transform(&degrees()?, &grid(zone, north)?, &mut point).ok()?;
                let finite = point.0.is_finite() && point.1.is_finite();
                finite.then(|| [millimetres(point.0), millimetres(point.1)])
            }
        }
    }

    /// The place of coordinates of this system, in the order of its axes; `None` where there is none. Longitudes are between -180 and
    /// 180.
    pub fn place(self, [first, second]: [f64; 2]) -> Option<LonLat> {
        if !(first.is_finite() && second.is_finite()) {
            return None;
        }
        let place = match self {
            Crs::Crs84 => LonLat { lon: first, lat: second },
            Crs::Epsg4326 => LonLat { lon: second, lat: first },
            Crs::WebMercator => {
                let lon = (first / WEB_RADIUS_M).to_degrees();
                let lat = 2.0 * (second / WEB_RADIUS_M).exp().atan() - std::f64::consts::FRAC_PI_2;
                // Clients ask for the whole map with a little more than it has.
                LonLat {
                    lon: if first.abs() > WEB_MOST_M { 180.0_f64.copysign(lon) } else { lon },
                    lat: lat.to_degrees(),
                }
            }
            Crs::Utm { zone, north } => {
                let northing = if north { second } else { second - UTM_FALSE_NORTH_M };
                if (first - UTM_FALSE_EAST_M).abs() > UTM_EAST_MOST_M || northing.abs() > QUADRANT_M {
                    return None;
                }
                let mut point = (first, second, 0.0);
                transform(&grid(zone, north)?, &degrees()?, &mut point).ok()?;
                LonLat { lon: point.0.to_degrees(), lat: point.1.to_degrees() }
            }
        };
        let valid = (-180.0..=180.0).contains(&place.lon) && (-90.0..=90.0).contains(&place.lat);
        valid.then_some(place)
    }

    /// Whether its first axis points east.
    pub(crate) fn east_first(self) -> bool {
        self != Crs::Epsg4326
    }
}

fn central_meridian(zone: u8) -> f64 {
    f64::from(zone) * 6.0 - 183.0
}

fn degrees() -> Option<Proj> {
    Proj::from_proj_string("+proj=longlat +datum=WGS84 +no_defs").ok()
}

fn grid(zone: u8, north: bool) -> Option<Proj> {
    let south = if north { "" } else { " +south" };
    Proj::from_proj_string(&format!("+proj=utm +zone={zone}{south} +datum=WGS84 +units=m +no_defs")).ok()
}

fn millimetres(metres: f64) -> f64 {
    (metres * 1000.0).round() / 1000.0
}
