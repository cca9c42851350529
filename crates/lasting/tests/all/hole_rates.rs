//! New holes by road and season.

use lasting::hole_rates::{RoadMonth, hole_rates};
use rand::{RngExt, SeedableRng};

use crate::support::assert_near;

fn month(road: &str, month: i8, holes: u32) -> RoadMonth {
    RoadMonth { road: road.into(), km: 2.0, days: 365.25 / 12.0, month, holes }
}

/// 24 holes on 2 km in a year are 12 a kilometre and year.
#[test]
fn by_hand() {
    let months: Vec<RoadMonth> = (1..=12).map(|at| month("Mill Lane", at, 2)).collect();
    let rates = hole_rates(&months, 0.95).unwrap();
    assert_eq!((rates.holes, rates.roads.len()), (24, 1));
    assert_near(rates.km_years, 2.0, 1e-9, "kilometre-years");
    assert_near(rates.per_km_year, 12.0, 1e-9, "rate");
    assert_near(rates.roads[0].per_km_year[0], 12.0, 1e-6, "one road is the district");
    // every season has six holes in as many days
    assert!(rates.seasons.iter().all(|season| season.holes == 6 && (season.times[0] - 1.0).abs() < 1e-6));
    assert!(hole_rates(&[month("Mill Lane", 1, 0)], 0.95).is_err(), "no hole tells no rate");
    assert!(hole_rates(&[], 0.95).is_err());
}

#[test]
fn one_month_tells_no_season_and_zero_lengths_count_for_nothing() {
    let mut months = vec![month("Mill Lane", 5, 4), month("Tern Road", 5, 0)];
    months.push(RoadMonth { km: 0.0, holes: 9, ..month("Sedge Road", 5, 0) });
    let rates = hole_rates(&months, 0.95).unwrap();
    assert!(rates.holes == 4 && rates.seasons.is_empty() && rates.least_season.is_none());
    assert_eq!(rates.roads.iter().map(|road| road.holes).sum::<u32>(), 4);
}

/// Made so that winter has three times as many holes as the rest of the year, and one road in ten three times as many as others.
#[test]
fn what_was_put_in_is_found() {
    let mut chance = rand_pcg::Pcg64::seed_from_u64(3);
    let mut months = Vec::new();
    for road in 0..40 {
        for at in 0..36 {
            let number = at % 12 + 1;
            let winter = if matches!(number, 12 | 1 | 2) { 3.0 } else { 1.0 };
            let own = if road % 10 == 0 { 3.0 } else { 1.0 };
            let mean: f64 = 0.8 * winter * own;
            // Poisson by counting exponential waits
            let (mut holes, mut waited) = (0, 0.0);
            while waited < mean {
                waited -= (1.0 - chance.random::<f64>()).ln();
                holes += u32::from(waited < mean);
            }
            months.push(month(&format!("road {road}"), number, holes));
        }
    }
    let rates = hole_rates(&months, 0.99).unwrap();
    let of = |name: &str| rates.seasons.iter().find(|season| season.season == name).unwrap().times;
    let least = rates.least_season.unwrap();
    assert_ne!(least, "December to February");
    let winter = of("December to February");
    assert!(winter[1] < 3.0 && 3.0 < winter[2], "{winter:?}");
    assert_eq!(rates.holes, months.iter().map(|month| month.holes).sum::<u32>());
    assert!(rates.roads.windows(2).all(|pair| pair[0].per_km_year[0] >= pair[1].per_km_year[0]));
    let worst: Vec<&str> = rates.roads.iter().take(4).map(|road| road.road.as_str()).collect();
    assert!(worst.iter().all(|road| road.ends_with('0')), "{worst:?}");
    assert!(
        rates
            .roads
            .iter()
            .all(|road| road.per_km_year[1] <= road.per_km_year[0] && road.per_km_year[0] <= road.per_km_year[2])
    );
}
