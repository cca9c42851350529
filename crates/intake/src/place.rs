//! Whether a place that was sent can be meant: nothing is put right silently, all is said.

use jiff::tz::TimeZone;
use model::record::happened::Position;

/// What of a district reports are held against.
#[derive(Debug, Clone)]
pub struct District {
    /// The box around its roads; `None`: anywhere on the globe.
    pub bounds: Option<Bounds>,
    /// Its time, which is taken for times that name no zone.
    pub zone: TimeZone,
}

/// A box of longitudes and latitudes, WGS 84 degrees.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounds {
    /// Western edge.
    pub west: f64,
    /// Southern edge.
    pub south: f64,
    /// Eastern edge; less than the western where the box crosses the meridian of 180 degrees.
    pub east: f64,
    /// Northern edge.
    pub north: f64,
}

/// Why a place can't be meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PlaceFault {
    /// Not a finite number.
    NoNumber,
    /// Longitude 0, latitude 0: what programs write where nothing is known.
    Nowhere,
    /// Longitude and latitude are exchanged: only the other way round it is in the district, or on the globe.
    Exchanged,
    /// Too large for degrees: metres or feet of a projected system.
    OtherSystem,
    /// Not on the globe.
    OffGlobe,
    /// On the globe, but outside of the district.
    Outside,
}

impl Bounds {
    /// Whether the place is inside or on the edge.
    pub fn holds(&self, place: Position) -> bool {
        let along = if self.west <= self.east {
            (self.west..=self.east).contains(&place.lon)
        } else {
            place.lon >= self.west || place.lon <= self.east
        };
        along && (self.south..=self.north).contains(&place.lat)
    }
}

/// Whether a place can be meant.
///
/// # Errors
/// What is wrong with it.
pub fn believed(place: Position, bounds: Option<&Bounds>) -> Result<Position, PlaceFault> {
    let other_way = Position { lon: place.lat, lat: place.lon };
    let within = |place: Position| is_on_globe(place) && bounds.is_none_or(|bounds| bounds.holds(place));
    if !place.lon.is_finite() || !place.lat.is_finite() {
        Err(PlaceFault::NoNumber)
    } else if place.lon == 0.0 && place.lat == 0.0 {
        Err(PlaceFault::Nowhere)
    } else if within(place) {
        Ok(place)
    } else if within(other_way) {
        Err(PlaceFault::Exchanged)
    } else if is_on_globe(place) {
        Err(PlaceFault::Outside)
    } else if place.lon.abs().max(place.lat.abs()) > 1000.0 {
        Err(PlaceFault::OtherSystem)
    } else {
        Err(PlaceFault::OffGlobe)
    }
}

fn is_on_globe(place: Position) -> bool {
    place.lon.abs() <= 180.0 && place.lat.abs() <= 90.0
}

impl PlaceFault {
    /// The code of its problem.
    pub fn code(self) -> &'static str {
        match self {
            PlaceFault::NoNumber => "intake.position.not_a_number",
            PlaceFault::Nowhere => "intake.position.zero",
            PlaceFault::Exchanged => "intake.position.exchanged",
            PlaceFault::OtherSystem => "intake.position.other_system",
            PlaceFault::OffGlobe => "intake.position.off_globe",
            PlaceFault::Outside => "intake.position.outside",
        }
    }

    /// What was wrong with that place, and what would be right.
    pub fn words(self, place: Position) -> (String, String) {
        let Position { lon, lat } = place;
        let told = format!("longitude {lon}, latitude {lat}");
        let degrees = "write decimal degrees (WGS 84), e.g. -28.41230 and 47.31250".to_owned();
        match self {
            PlaceFault::NoNumber => ("longitude or latitude is not a finite number".into(), degrees),
            PlaceFault::Nowhere => (
                format!("{told} stands for a place that is not known"),
                "give the place of the hole; none was made up".into(),
            ),
            PlaceFault::Exchanged => (
                format!("{told} is not in the district, but would be the other way round"),
                format!("they look exchanged: longitude {lat}, latitude {lon}? Nothing was changed"),
            ),
            PlaceFault::OtherSystem => (
                format!("{told} are no degrees; they look like metres or feet of a projected system"),
                "export longitude and latitude in degrees (WGS 84)".into(),
            ),
            PlaceFault::OffGlobe => (
                format!("there is no place at {told}"),
                "longitude is from -180 to 180, latitude from -90 to 90 degrees (WGS 84)".into(),
            ),
            PlaceFault::Outside => (format!("{told} is outside of the district"), "a place in the district".into()),
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    const ISLAND: Bounds = Bounds { west: -28.7, south: 47.1, east: -28.1, north: 47.5 };

    #[test]
    fn what_is_noticed() {
        let cases = [
            ((-28.4, 47.3), Ok(())),
            ((47.3, -28.4), Err(PlaceFault::Exchanged)),
            ((0.0, 0.0), Err(PlaceFault::Nowhere)),
            ((-0.0, 0.0), Err(PlaceFault::Nowhere)),
            ((28.4, 47.3), Err(PlaceFault::Outside)),
            ((512_345.6, 5_238_765.4), Err(PlaceFault::OtherSystem)),
            ((200.0, 47.3), Err(PlaceFault::OffGlobe)),
            ((f64::NAN, 47.3), Err(PlaceFault::NoNumber)),
        ];
        for ((lon, lat), expected) in cases {
            assert_eq!(believed(Position { lon, lat }, Some(&ISLAND)).map(|_| ()), expected, "{lon} {lat}");
        }
        // Without a district only a latitude that is none tells.
        assert!(believed(Position { lon: 47.3, lat: -28.4 }, None).is_ok());
        assert_eq!(believed(Position { lon: 47.3, lat: -128.4 }, None), Err(PlaceFault::Exchanged));
    }

    #[test]
    fn a_district_across_the_meridian_of_180_degrees() {
        let bounds = Bounds { west: 179.0, south: -20.0, east: -179.0, north: -10.0 };
        assert!(
            bounds.holds(Position { lon: -179.5, lat: -15.0 }) && bounds.holds(Position { lon: 179.5, lat: -15.0 })
        );
        assert!(!bounds.holds(Position { lon: 0.5, lat: -15.0 }));
    }

    proptest! {
        #[test]
        fn what_is_taken_is_in_the_district_as_written(lon in any::<f64>(), lat in any::<f64>()) {
            let place = Position { lon, lat };
            if let Ok(taken) = believed(place, Some(&ISLAND)) {
                prop_assert!(taken == place && ISLAND.holds(place));
            }
        }

        #[test]
        fn exchanged_places_of_the_district_are_all_noticed(lon in -28.7..-28.1, lat in 47.1..47.5) {
            prop_assert_eq!(believed(Position { lon: lat, lat: lon }, Some(&ISLAND)), Err(PlaceFault::Exchanged));
        }
    }
}
