//! Fills of one stop.

#[path = "support/gathered.rs"]
mod gathered;
mod support;

use std::fs;

use insta::assert_snapshot;
use intake::sites::{Fill, Site, sites_of};
use jiff::Timestamp;
use jiff::tz::TimeZone;
use model::record::happened::Position;
use proptest::prelude::*;
use support::{rules, shared_data};

/// Minutes after eight, metres north and east of the middle of the invented island.
fn fill(minute: f64, north_m: f64, east_m: f64) -> Fill {
    let begin: Timestamp = "2026-06-09T08:00:00Z".parse().expect("a moment");
    let at = begin.checked_add(jiff::SignedDuration::from_secs((minute * 60.0) as i64)).expect("a moment");
    let metres_per_degree = 111_195.0;
    let lat = 47.3 + north_m / metres_per_degree;
    let lon = -28.4 + east_m / metres_per_degree / 47.3_f64.to_radians().cos();
    Fill { position: Position { lon, lat }, at }
}

#[test]
fn fills_a_minute_apart_at_one_spot_are_one_site() {
    let rows = [
        fill(0.0, 0.0, 0.0),
        fill(1.0, 3.0, 1.0),
        // At the same time elsewhere: another crew.
        fill(1.0, 900.0, 0.0),
        fill(2.0, 903.0, 0.0),
        fill(3.0, 6.0, 2.0),
        // On along the road: too far from the site's first.
        fill(4.0, 21.0, 0.0),
        fill(6.0, 30.0, 0.0),
        // The same spot after the break.
        fill(40.0, 0.0, 0.0),
    ];
    let sites = sites_of(&rows, &rules().one_stop);
    let shown: Vec<String> = sites.iter().map(|site| format!("{:?}: {}", site.fills, site.why)).collect();
    assert_snapshot!("one_stop", shown.join("\n"));
}

/// The real list, where it is there. What is expected is worked out anew here, by a scan over all pairs.
#[test]
fn a_citys_fills() {
    let Some(data) = shared_data() else { return };
    let bytes = fs::read(data.join("syracuse/potholes_filled_2016.csv")).expect("the list");
    let mut options = gathered::options();
    options.district.bounds = None;
    options.district.zone = TimeZone::get("America/New_York").expect("a known zone");
    let (_, gathered) = gathered::read_with(&bytes, &options, usize::MAX);
    let rows: Vec<Fill> =
        gathered.rows.iter().filter_map(|row| Some(Fill { position: row.position, at: row.at? })).collect();
    assert_eq!(rows.len(), 7392);
    let rules = rules().one_stop;
    let sites = sites_of(&rows, &rules);
    holds(&rows, &sites, rules.within_m.value, rules.within_min.value).expect("the laws of sites");
    let several: Vec<&Site> = sites.iter().filter(|site| site.fills.len() > 1).collect();
    let holes: usize = several.iter().map(|site| site.fills.len()).sum();
    assert_snapshot!(
        "citys_sites",
        format!("{} sites; {} of several holes, {holes} holes in them", sites.len(), several.len())
    );
    // The list's first two rows: 1.3 m and a minute apart.
    let first = sites.iter().find(|site| site.fills.contains(&0)).expect("a site");
    assert!(first.fills.starts_with(&[0, 1]), "{first:?}");
    assert!(first.why.starts_with("2 holes of one stop: filled within 1 min"), "{}", first.why);
}

/// Metres by the great circle.
fn apart(a: &Fill, b: &Fill) -> f64 {
    let half = |degrees: f64| (degrees.to_radians() / 2.0).sin().powi(2);
    let (a, b) = (a.position, b.position);
    let chord = half(b.lat - a.lat) + a.lat.to_radians().cos() * b.lat.to_radians().cos() * half(b.lon - a.lon);
    2.0 * 6_371_008.8 * chord.sqrt().asin()
}

/// Each fill in one site; none too far or too late; no two sites of which one could have gone on with the other's first.
fn holds(rows: &[Fill], sites: &[Site], within_m: f64, within_min: f64) -> Result<(), TestCaseError> {
    let mut all: Vec<usize> = sites.iter().flat_map(|site| site.fills.clone()).collect();
    all.sort_unstable();
    prop_assert_eq!(all, (0..rows.len()).collect::<Vec<_>>());
    let minutes = |a: usize, b: usize| rows[b].at.duration_since(rows[a].at).as_secs_f64() / 60.0;
    for site in sites {
        for pair in site.fills.windows(2) {
            prop_assert!((0.0..=within_min).contains(&minutes(pair[0], pair[1])));
        }
        for (place, &a) in site.fills.iter().enumerate() {
            for &b in &site.fills[place + 1..] {
                prop_assert!(apart(&rows[a], &rows[b]) <= within_m + 0.01);
            }
        }
    }
    Ok(())
}

fn any_fills() -> impl Strategy<Value = Vec<Fill>> {
    let one = (0u32..30, 0.0f64..60.0, 0.0f64..30.0);
    prop::collection::vec(one.prop_map(|(minute, north, east)| fill(f64::from(minute), north, east)), 0..40)
}

proptest! {
    #[test]
    fn laws_of_sites(rows in any_fills()) {
        let rules = rules().one_stop;
        holds(&rows, &sites_of(&rows, &rules), rules.within_m.value, rules.within_min.value)?;
    }

    #[test]
    fn the_order_of_the_rows_does_not_matter(rows in any_fills()) {
        let rules = rules().one_stop;
        let places = |rows: &[Fill]| {
            let name = |index: &usize| (rows[*index].at, rows[*index].position.lat.to_bits(), rows[*index].position.lon.to_bits());
            let mut sites: Vec<Vec<_>> =
                sites_of(rows, &rules).iter().map(|site| site.fills.iter().map(name).collect()).collect();
            sites.sort();
            sites
        };
        let turned: Vec<Fill> = rows.iter().rev().copied().collect();
        prop_assert_eq!(places(&rows), places(&turned));
    }
}
