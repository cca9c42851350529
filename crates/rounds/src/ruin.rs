//! Ruin: strings of neighbouring sites are taken out of the round.
//!
//! Symbols and values from memory: Christiaens and Vanden Berghe (2020): average number of sites removed `c_avg`,
//! greatest string length `L_max`, share of split strings `alpha`, depth of splits `beta`. A single crew has few trips, so
//! unlike there a trip may lose more than one string.

use rand::RngExt;
use rand_pcg::Pcg64Mcg;

use crate::instance::{DEPOT, Instance};
use crate::solution::Day;

/// `c_avg` of the paper.
const AVERAGE_REMOVED: f64 = 10.0;
/// `L_max` of the paper.
const LONGEST_STRING: f64 = 10.0;
/// `alpha` of the paper: share of strings that keep some sites in their midst.
const SPLIT_SHARE: f64 = 0.5;
/// `beta` of the paper: chance that the kept midst stops growing.
const SPLIT_STOP: f64 = 0.01;

/// Share of steps that take out a whole trip before the strings, so that loads can be put together anew.
const TRIP_SHARE: f64 = 0.1;

/// Takes strings near a random site out of the round.
pub(crate) fn remove_strings(instance: &Instance, day: &mut Day, random: &mut Pcg64Mcg) {
    let sites = day.route().iter().filter(|&&place| place != DEPOT).count();
    if sites == 0 {
        return;
    }
    let mut route = day.route().to_vec();
    let trips = route.iter().filter(|&&place| place == DEPOT).count() - 1;
    let longest = LONGEST_STRING.min(sites as f64 / trips as f64).max(1.0);
    let most_strings = (4.0 * AVERAGE_REMOVED.min(sites as f64) / (1.0 + longest) - 1.0).max(1.0);
    let strings = random.random_range(1.0..=most_strings + 1.0) as usize;
    let seed = instance.candidates[random.random_range(0..instance.candidates.len())];
    if trips > 1 && random.random::<f64>() < TRIP_SHARE {
        remove_trip(&mut route, random.random_range(0..trips));
    }
    let mut removed = 0;
    for &near in std::iter::once(&seed).chain(&instance.neighbours[seed as usize]) {
        if removed == strings {
            break;
        }
        let Some(at) = route.iter().position(|&place| place == near) else { continue };
        remove_string(&mut route, at, longest, random);
        removed += 1;
    }
    day.set_route(instance, &route);
}

/// Takes out all sites of a trip.
fn remove_trip(route: &mut Vec<u32>, trip: usize) {
    let mut depots = 0;
    route.retain(|&place| {
        depots += usize::from(place == DEPOT);
        place == DEPOT || depots != trip + 1
    });
}

/// Takes one string out of the trip around `at`, which it contains.
fn remove_string(route: &mut Vec<u32>, at: usize, longest: f64, random: &mut Pcg64Mcg) {
    let first = route[..at].iter().rposition(|&p| p == DEPOT).map_or(0, |depot| depot + 1);
    let end = route[at..].iter().position(|&p| p == DEPOT).map_or(route.len(), |depot| at + depot);
    let trip = end - first;
    let length = (random.random_range(1.0..=longest.min(trip as f64) + 1.0) as usize).min(trip);
    let kept = if length > 1 && length < trip && random.random::<f64>() < SPLIT_SHARE {
        kept_midst(trip - length, random)
    } else {
        0
    };
    // any position of the string such that it contains `at` and lies in the trip
    let span = length + kept;
    let earliest = first.max((at + 1).saturating_sub(span));
    let latest = at.min(end - span);
    let begin = random.random_range(earliest..=latest);
    let keep_from = if kept > 0 { begin + random.random_range(1..length) } else { begin + span };
    let keep_to = keep_from + kept;
    let mut index = 0;
    route.retain(|_| {
        let inside = (begin..begin + span).contains(&index) && !(keep_from..keep_to).contains(&index);
        index += 1;
        !inside
    });
}

/// Length of the midst that a split string keeps.
fn kept_midst(most: usize, random: &mut Pcg64Mcg) -> usize {
    let mut kept = 1;
    while kept < most && random.random::<f64>() > SPLIT_STOP {
        kept += 1;
    }
    kept
}
