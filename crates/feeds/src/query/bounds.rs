//! The parameters `bbox` and `bbox-crs` (OGC 17-069r4, 7.15.3; OGC 18-058, 6.2.2).

use model::place::LonLat;

use super::Wrong;
use crate::crs::Crs;
use crate::lon_lat_box::LonLatBox;

/// Steps along each border of a box of a grid: straight borders there are bent on the globe.
const STEPS: u32 = 16;

/// Reads four numbers, or six with heights, which say nothing here since nothing has a height.
pub(super) fn read(text: &str, crs: Crs) -> Result<LonLatBox, Wrong> {
    let numbers: Option<Vec<f64>> =
        text.split(',').map(|part| part.trim().parse::<f64>().ok().filter(|number| number.is_finite())).collect();
    let right = "four numbers with commas between: the lower corner, then the upper one, in the axes of `bbox-crs` (west, south, \
                 east, north without it); or six, with heights";
    let numbers = numbers.ok_or_else(|| (format!("{text:?} has something else than numbers"), right.to_owned()))?;
    let (lower, upper) = match *numbers.as_slice() {
        [a, b, c, d] => ([a, b], [c, d]),
        [a, b, low, c, d, high] => {
            if low > high {
                return Err((format!("the lower height {low} is above the upper one {high}"), right.to_owned()));
            }
            ([a, b], [c, d])
        }
        _ => return Err((format!("{} numbers", numbers.len()), right.to_owned())),
    };
    let north = usize::from(crs.east_first());
    if lower[north] > upper[north] {
        return Err((
            format!("the southern border {} is north of the northern one {}", lower[north], upper[north]),
            right.to_owned(),
        ));
    }
    match crs {
        Crs::Crs84 => Ok(degrees(lower, upper)),
        Crs::Epsg4326 => Ok(degrees([lower[1], lower[0]], [upper[1], upper[0]])),
        Crs::WebMercator => crs
            .place(lower)
            .zip(crs.place(upper))
            .map(|(a, b)| LonLatBox { west: a.lon, south: a.lat, east: b.lon, north: b.lat })
            .ok_or_else(|| (format!("{text:?} is off the map"), right.to_owned())),
        Crs::Utm { .. } => grid(crs, lower, upper).map_err(|wrong| (wrong, right.to_owned())),
    }
}

/// Clients that show more than the whole globe ask for more than the whole globe.
fn degrees([west, south]: [f64; 2], [east, north]: [f64; 2]) -> LonLatBox {
    let (south, north) = (south.clamp(-90.0, 90.0), north.clamp(-90.0, 90.0));
    let on_globe = |lon: f64| (-180.0..=180.0).contains(&lon);
    let (west, east) = if on_globe(west) && on_globe(east) {
        (west, east)
    } else if east - west >= 360.0 {
        (-180.0, 180.0)
    } else {
        (turned(west), turned(east))
    };
    LonLatBox { west, south, east, north }
}

/// The same meridian between -180 and 180.
fn turned(lon: f64) -> f64 {
    if (-180.0..=180.0).contains(&lon) { lon } else { (lon + 180.0).rem_euclid(360.0) - 180.0 }
}

/// The box on the globe around a box of a grid.
fn grid(crs: Crs, lower: [f64; 2], upper: [f64; 2]) -> Result<LonLatBox, String> {
    if lower[0] > upper[0] {
        return Err(format!("the western border {} is east of the eastern one {}", lower[0], upper[0]));
    }
    let between =
        |axis: usize, step: u32| lower[axis] + (upper[axis] - lower[axis]) * f64::from(step) / f64::from(STEPS);
    let border = (0..=STEPS).flat_map(|step| {
        let (x, y) = (between(0, step), between(1, step));
        [[x, lower[1]], [x, upper[1]], [lower[0], y], [upper[0], y]]
    });
    let places: Option<Vec<LonLat>> = border.map(|corner| crs.place(corner)).collect();
    let places = places.ok_or_else(|| "a border is beyond what the grid can show".to_owned())?;
    let around = LonLatBox::around(places).ok_or_else(|| "it has no border".to_owned())?;
    // Where a bent border bulges between two steps: less than the sixteenth part squared of all that it bulges.
    let part = |whole: f64| whole / f64::from(STEPS * STEPS);
    let tall = part(around.north - around.south);
    let wide = part((around.east - around.west).rem_euclid(360.0));
    Ok(LonLatBox {
        west: turned(around.west - wide),
        south: (around.south - tall).max(-90.0),
        east: turned(around.east + wide),
        north: (around.north + tall).min(90.0),
    })
}
