//! Cells of a twentieth of a degree, by which what is known is found by its place.
//!
//! An index by the place itself is written at a random page for nearly every hole that comes in. Few cells are written at a
//! time, and in each what is new comes at the end, since numbers are in the order of time.

use crate::store::Backend;

/// Cells of a degree, along a meridian and along a parallel.
const OF_A_DEGREE: f64 = 20.0;

/// From a cell to the one north of it: more than go round the earth.
const ROW: i64 = 10_000;

/// The cell of a row of what is known, letter for letter as the index has it, so that the database sees that it is the same.
pub(crate) fn cell_of_row(backend: Backend) -> &'static str {
    match backend {
        Backend::Sqlite => {
            "CAST((MIN(MAX(lat, -90.0), 90.0) + 90.0) * 20.0 AS INTEGER) * 10000 \
             + CAST((MIN(MAX(lon, -180.0), 180.0) + 180.0) * 20.0 AS INTEGER)"
        }
        Backend::Postgres => {
            "CAST(FLOOR((LEAST(GREATEST(lat, -90.0), 90.0) + 90.0) * 20.0) AS BIGINT) * 10000 \
             + CAST(FLOOR((LEAST(GREATEST(lon, -180.0), 180.0) + 180.0) * 20.0) AS BIGINT)"
        }
    }
}

/// Cells that are looked into one by one, at most.
const FEW: usize = 128;

/// Cells of a box.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Cells {
    /// These.
    Few(Vec<i64>),
    /// Some of those from the first to the last.
    Between(i64, i64),
}

/// The cells of a box: west, south, east, north, degrees. West of east goes across the 180th meridian.
pub(crate) fn cells([west, south, east, north]: [f64; 4]) -> Cells {
    let rows = row(south)..=row(north);
    let last = column(180.0);
    let columns: Vec<i64> = if west <= east {
        (column(west)..=column(east)).collect()
    } else {
        (column(west)..=last).chain(0..=column(east)).collect()
    };
    if columns.len().saturating_mul(rows.clone().count()) > FEW {
        return Cells::Between(rows.start() * ROW, rows.end() * ROW + last);
    }
    Cells::Few(rows.flat_map(|row| columns.iter().map(move |column| row * ROW + column)).collect())
}

fn row(lat: f64) -> i64 {
    ((lat.clamp(-90.0, 90.0) + 90.0) * OF_A_DEGREE) as i64
}

fn column(lon: f64) -> i64 {
    ((lon.clamp(-180.0, 180.0) + 180.0) * OF_A_DEGREE) as i64
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        /// Whatever lies in a box lies in one of its cells.
        #[test]
        fn what_is_in_a_box_is_in_its_cells(
            (lon, lat) in (-185.0..185.0_f64, -95.0..95.0_f64),
            (west, east) in (0.0..3.0_f64, 0.0..3.0_f64),
            (south, north) in (0.0..3.0_f64, 0.0..3.0_f64),
            turn in prop::bool::ANY,
        ) {
            // across the 180th meridian: all but a strip
            let (west, east) = if turn { (lon - west, lon - west - 0.01) } else { (lon - west, lon + east) };
            let at = row(lat) * ROW + column(lon);
            match cells([west, lat - south, east, lat + north]) {
                Cells::Few(few) => prop_assert!(few.contains(&at)),
                Cells::Between(first, last) => prop_assert!((first..=last).contains(&at)),
            }
        }
    }

    #[test]
    fn cells_by_hand() {
        assert_eq!(row(-90.0) * ROW + column(-180.0), 0);
        assert_eq!(row(90.0) * ROW + column(180.0), 3600 * ROW + 7200);
        assert_eq!(row(0.0) * ROW + column(0.06), 1800 * ROW + 3601);
        let few = |first: i64, columns: &[i64]| columns.iter().map(|column| first * ROW + column).collect::<Vec<_>>();
        assert_eq!(cells([0.01, 0.01, 0.06, 0.02]), Cells::Few(few(1800, &[3600, 3601])));
        assert_eq!(cells([179.99, 0.0, -179.99, 0.0]), Cells::Few(few(1800, &[7199, 7200, 0])));
        assert_eq!(cells([-10.0, 0.0, 10.0, 1.0]), Cells::Between(1800 * ROW, 1820 * ROW + 7200));
        // nothing lies in a box upside down
        assert_eq!(cells([0.0, 1.0, 1.0, 0.0]), Cells::Few(Vec::new()));
    }
}
