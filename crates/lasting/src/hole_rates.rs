//! How many new holes each road gets, and when in the year: counts of months on roads, put together.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::arrivals::{ArrivalFit, HoleCount, RoadCount, road_factors};
use crate::patch_lives::season;
use crate::regression::FitError;

const DAYS_OF_A_YEAR: f64 = 365.25;

/// A road in a month.
#[derive(Debug, Clone, PartialEq)]
pub struct RoadMonth {
    /// Its name.
    pub road: String,
    /// Length that is kept up, km.
    pub km: f64,
    /// Days of the month that were watched.
    pub days: f64,
    /// The calendar month, from 1.
    pub month: i8,
    /// New holes first told of then.
    pub holes: u32,
}

/// How many new holes come.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HoleRates {
    /// New holes that count.
    pub holes: u32,
    /// Length by days, in kilometre-years.
    pub km_years: f64,
    /// New holes for each kilometre and year.
    pub per_km_year: f64,
    /// Three months each, held against those in which fewest come for their days; none where seasons can't be told apart yet.
    pub seasons: Vec<SeasonRate>,
    /// What they are held against.
    pub least_season: Option<&'static str>,
    /// Each road, most holes for its length first.
    pub roads: Vec<RoadRate>,
}

/// New holes of three months of the year.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SeasonRate {
    /// Which: `December to February`.
    pub season: &'static str,
    /// New holes seen.
    pub holes: u32,
    /// How many times as many a day as in the season that they are held against, with the ends of its interval.
    pub times: [f64; 3],
}

/// New holes of a road.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RoadRate {
    /// Its name.
    pub road: String,
    /// Its length, km.
    pub km: f64,
    /// New holes seen.
    pub holes: u32,
    /// New holes for each kilometre and year, drawn towards what other roads have; one chance in ten below, one above.
    pub per_km_year: [f64; 3],
}

/// Works the rates out; `confidence` of the seasons' intervals.
///
/// # Errors
/// Too few holes, or a length or time that can't be.
pub fn hole_rates(months: &[RoadMonth], confidence: f64) -> Result<HoleRates, FitError> {
    let watched: Vec<&RoadMonth> = months.iter().filter(|month| month.km > 0.0 && month.days > 0.0).collect();
    let holes: u32 = watched.iter().map(|month| month.holes).sum();
    if holes == 0 {
        return Err(FitError::TooFew { failures: 0, unknowns: 1 });
    }
    let km_days: f64 = watched.iter().map(|month| month.km * month.days).sum();
    let (seasons, least) = seasons_of(&watched);
    let others: Vec<&'static str> =
        seasons.iter().map(|(season, _)| *season).filter(|season| *season != least).collect();
    let counts = |names: &[&'static str]| -> Vec<HoleCount> {
        let of = |month: &&RoadMonth| HoleCount {
            km_days: month.km * month.days,
            holes: month.holes,
            covariates: names.iter().map(|name| f64::from(u8::from(season(month.month) == *name))).collect(),
        };
        watched.iter().map(of).collect()
    };
    let named: Vec<String> = others.iter().map(|name| (*name).to_owned()).collect();
    // less than a year tells no seasons: then the rate alone
    let fit = ArrivalFit::of(&named, &counts(&others)).map(|fit| (fit, others.clone()));
    let (fit, known) = match fit {
        Ok(fit) => fit,
        Err(_) => (ArrivalFit::of(&[], &counts(&[]))?, Vec::new()),
    };
    let rows = counts(&known);
    let mut roads: BTreeMap<&str, (f64, f64, RoadCount)> = BTreeMap::new();
    for (month, row) in watched.iter().zip(&rows) {
        let none = || (0.0, 0.0, RoadCount { road: month.road.clone(), holes: 0, expected: 0.0 });
        let of = roads.entry(&month.road).or_insert_with(none);
        of.0 = month.km;
        of.1 += row.km_days;
        of.2.holes += month.holes;
        of.2.expected += fit.expected(row.km_days, &row.covariates);
    }
    let each: Vec<RoadCount> = roads.values().map(|(_, _, count)| count.clone()).collect();
    let mut rates: Vec<RoadRate> = road_factors(&each)
        .roads
        .into_iter()
        .filter_map(|factor| {
            let (km, km_days, count) = roads.get(factor.road.as_str())?;
            let expected = count.expected / (km_days / DAYS_OF_A_YEAR);
            let per_km_year = [factor.factor, factor.p10, factor.p90].map(|times| times * expected);
            Some(RoadRate { road: factor.road, km: *km, holes: count.holes, per_km_year })
        })
        .collect();
    rates.sort_by(|a, b| b.per_km_year[0].total_cmp(&a.per_km_year[0]).then(a.road.cmp(&b.road)));
    let of_seasons = known.iter().zip(&fit.coefficients.each).map(|(name, coefficient)| {
        let (low, high) = coefficient.interval(confidence);
        let seen = seasons.iter().find(|(season, _)| season == name).map_or(0, |(_, seen)| *seen);
        SeasonRate { season: name, holes: seen, times: [coefficient.value, low, high].map(f64::exp) }
    });
    let of_seasons: Vec<SeasonRate> = of_seasons.collect();
    let km_years = km_days / DAYS_OF_A_YEAR;
    Ok(HoleRates {
        holes,
        km_years,
        per_km_year: f64::from(holes) / km_years,
        least_season: (!of_seasons.is_empty()).then_some(least),
        seasons: of_seasons,
        roads: rates,
    })
}

/// Seasons that were watched with their holes, and the one with fewest for its days.
fn seasons_of(months: &[&RoadMonth]) -> (Vec<(&'static str, u32)>, &'static str) {
    let mut of: BTreeMap<&'static str, (u32, f64)> = BTreeMap::new();
    for month in months {
        let season = of.entry(season(month.month)).or_default();
        *season = (season.0 + month.holes, season.1 + month.km * month.days);
    }
    let rate = |(holes, km_days): &(u32, f64)| f64::from(*holes) / km_days;
    // one without any hole is no measure for the others
    let least = of.iter().filter(|(_, (holes, _))| *holes > 0).min_by(|a, b| rate(a.1).total_cmp(&rate(b.1)));
    let least = least.map_or("", |(season, _)| *season);
    (of.iter().map(|(season, (holes, _))| (*season, *holes)).collect(), least)
}
