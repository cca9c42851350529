//! Lives from a list of fills; a city's own list, when it is there.

use std::collections::{BTreeMap, HashMap};

use jiff::civil::DateTime;
use lasting::groups::what_lasts;
use lasting::life_table::LifeTable;
use lasting::product_limit::SurvivalCurve;
use lasting::refills::{Fill, RefillLife, RefillRules, refill_lives};
use model::life::{LifeRow, LifeRows};

use crate::support::{rules, shared_data};

const RULES: RefillRules = RefillRules { same_place_m: 10.0, same_repair_days: 1.0, watched_days: 180.0 };

/// Metres north of a place.
fn fill(north_m: f64, day: f64) -> Fill {
    Fill { lon: -30.0, lat: 10.0 + north_m / 111_195.0, day }
}

#[test]
fn by_hand() {
    let fills = [
        fill(0.0, 0.0),
        // the same stop
        fill(4.0, 0.01),
        // twelve metres on: another repair
        fill(12.0, 0.02),
        // the first is filled again after 20 days, and that once more after 200
        fill(3.0, 20.01),
        fill(3.0, 220.01),
        Fill { lon: f64::NAN, ..fill(0.0, 1.0) },
    ];
    let lives = refill_lives(&fills, RULES, 230.0).unwrap();
    let told: Vec<(usize, usize, f64, bool)> =
        lives.iter().map(|life| (life.fill, life.fills, (life.days * 100.0).round() / 100.0, life.failed)).collect();
    assert_eq!(told, [(0, 2, 20.0, true), (2, 1, 180.0, false), (3, 1, 180.0, false), (4, 1, 9.99, false)]);
    assert!(refill_lives(&fills, RULES, 100.0).is_err(), "a fill after the last day");
}

struct City {
    fills: Vec<Fill>,
    streets: Vec<String>,
    months: Vec<i8>,
    last_day: f64,
}

fn city(folder: &std::path::Path) -> City {
    let mut city = City { fills: Vec::new(), streets: Vec::new(), months: Vec::new(), last_day: 0.0 };
    let begin: DateTime = "2016-01-01T00:00".parse().unwrap();
    for row in csv::Reader::from_path(folder.join("potholes_filled_2016.csv")).unwrap().records() {
        let row = row.unwrap();
        let at: DateTime = row[5].split('.').next().unwrap().replace(' ', "T").parse().unwrap();
        let day = at.duration_since(begin).as_secs_f64() / 86_400.0;
        let degrees = |cell: &str| cell.parse().unwrap_or(f64::NAN);
        city.fills.push(Fill { lat: degrees(&row[7]), lon: degrees(&row[8]), day });
        city.streets.push(row[6].to_owned());
        city.months.push(at.month());
        city.last_day = city.last_day.max(day);
    }
    city
}

/// Every fill against every repair that stands.
fn plainly(fills: &[Fill], last_day: f64) -> Vec<(usize, usize, bool)> {
    let metres = |a: &Fill, b: &Fill| {
        let shrink = f64::midpoint(a.lat, b.lat).to_radians().cos();
        ((a.lon - b.lon) * shrink).hypot(a.lat - b.lat) * 111_195.0
    };
    let mut order: Vec<usize> = (0..fills.len()).filter(|at| fills[*at].lat.is_finite()).collect();
    order.sort_by(|a, b| fills[*a].day.total_cmp(&fills[*b].day));
    let mut standing: Vec<(usize, usize, f64)> = Vec::new();
    let mut ended = Vec::new();
    for at in order {
        let near = standing.iter().enumerate().map(|(i, site)| (metres(&fills[at], &fills[site.0]), i));
        let nearest = near.filter(|(away, _)| *away <= 10.0).min_by(|a, b| a.0.total_cmp(&b.0));
        if let Some((_, index)) = nearest {
            let (first, count, last) = standing[index];
            if fills[at].day - last <= 1.0 {
                standing[index] = (first, count + 1, fills[at].day);
                continue;
            }
            standing.remove(index);
            ended.push((first, count, fills[at].day - last <= 180.0));
        }
        standing.push((at, 1, fills[at].day));
    }
    assert!(last_day >= 0.0);
    ended.extend(standing.into_iter().map(|(first, count, _)| (first, count, false)));
    ended.sort_unstable();
    ended
}

fn grouped(lives: &[RefillLife], of: impl Fn(&RefillLife) -> Option<String>) -> LifeRows {
    let mut by_name: BTreeMap<String, Vec<RefillLife>> = BTreeMap::new();
    for life in lives {
        if let Some(name) = of(life) {
            by_name.entry(name).or_default().push(*life);
        }
    }
    let rows = by_name.values().zip(0..).flat_map(|(lives, group)| {
        lives.iter().map(move |life| LifeRow { duration: life.days, failed: life.failed, group })
    });
    LifeRows { rows: rows.collect(), groups: by_name.into_keys().collect() }
}

/// `cargo nextest run -p lasting a_city --no-capture` prints the report.
#[test]
fn a_city_filled_holes_again() {
    let Some(data) = shared_data() else { return };
    let city = city(&data.join("syracuse"));
    let lives = refill_lives(&city.fills, RULES, city.last_day).unwrap();

    let mut ours: Vec<(usize, usize, bool)> = lives.iter().map(|life| (life.fill, life.fills, life.failed)).collect();
    ours.sort_unstable();
    assert_eq!(ours, plainly(&city.fills, city.last_day));
    let located = city.fills.iter().filter(|fill| fill.lat.is_finite()).count();
    assert_eq!(lives.iter().map(|life| life.fills).sum::<usize>(), located, "every fill is in one repair");

    let failed = lives.iter().filter(|life| life.failed).count();
    println!("{located} fills made {} repairs; {failed} were filled again within 10 m and 180 days", lives.len());
    let curve = SurvivalCurve::of(&LifeTable::of(lives.iter().map(|l| (l.days, l.failed))).unwrap(), 0.95);
    for day in [7.0, 30.0, 60.0, 90.0, 120.0, 150.0] {
        let point = curve.point_at(day).unwrap();
        println!(
            "whole after {day:3} days: {:.1} % ({:.1} to {:.1})",
            100.0 * point.survival,
            100.0 * point.lower,
            100.0 * point.upper
        );
    }
    let mean = curve.restricted_mean(90.0);
    println!("mean life within {} days: {:.1} +- {:.1}", mean.until, mean.mean, mean.error);

    let mut surfaces: HashMap<String, (String, f64)> = HashMap::new();
    for row in csv::Reader::from_path(data.join("syracuse/road_ratings.csv")).unwrap().records() {
        let row = row.unwrap();
        let surface = if row[11].trim() == "O" { "oil and stone" } else { "other surfaces" };
        surfaces.insert(row[12].to_owned(), (surface.to_owned(), row[4].parse().unwrap_or(f64::NAN)));
    }
    let street = |life: &RefillLife| surfaces.get(&city.streets[life.fill]);
    let by_surface = grouped(&lives, |life| street(life).map(|(surface, _)| surface.clone()));
    let by_rating = grouped(&lives, |life| {
        let rating = street(life)?.1;
        rating.is_finite().then(|| if rating < 6.0 { "rated under 6" } else { "rated 6 or more" }.to_owned())
    });
    let by_month = grouped(&lives, |life| Some(format!("month {:02}", city.months[life.fill])));
    for rows in [&by_surface, &by_rating, &by_month] {
        let lasts = what_lasts(rows, "days", &rules()).unwrap();
        println!("{}", lasts.words.join("\n"));
        println!("{:?}", lasts.curves.log_rank);
        for pair in lasts.pairs.iter().filter(|pair| pair.p_corrected < 0.05) {
            println!("{} and {}: p {:.2e} with correction", pair.groups[0], pair.groups[1], pair.p_corrected);
        }
    }
    assert!(curve.survival_at(150.0) > 0.5 && failed > 100, "most fills of one summer hold, and many do not");
}
