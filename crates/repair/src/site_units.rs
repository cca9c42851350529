//! Amounts as the crew counts them: wheelbarrows, buckets, cans.

use model::figure::{Figure, Source, Why};
use model::quantity::{InVolume, Volume};
use model::site_unit::{SiteCount, SiteGood, SiteUnit};

use crate::show;

/// The largest unit is taken of which about this many are needed; of one single barrow nobody sees whether it is full.
const LEAST_COUNT: f64 = 2.0;
/// A full unit's worth of rounding error is no further unit.
const SLACK: f64 = 1e-9;

/// An amount in the unit that suits it best; `None` where no unit is for that good, or there is nothing to carry.
pub fn site_count(good: SiteGood, volume: &Figure<Volume>, units: &[SiteUnit]) -> Option<SiteCount> {
    let middle = volume.spread.map_or(volume.value, |spread| spread.p50).in_cubic_metres();
    let most = volume.p90().in_cubic_metres();
    let for_good = units.iter().filter(|unit| unit.holds.contains(&good) && unit.volume.in_cubic_metres() > 0.0);
    let mut fitting: Vec<&SiteUnit> = for_good.collect();
    fitting.sort_by(|a, b| b.volume.in_cubic_metres().total_cmp(&a.volume.in_cubic_metres()));
    let suits = |unit: &&&SiteUnit| middle / unit.volume.in_cubic_metres() >= LEAST_COUNT;
    let unit = fitting.iter().find(suits).or(fitting.last())?;
    // Not a number is not over zero either.
    if most.partial_cmp(&0.0) != Some(std::cmp::Ordering::Greater) {
        return None;
    }
    let why = Why::new("n = ceil(V / v)", Source::agency("[[site_units]] of the district file"))
        .with("V as surveyed", show::m3(volume.value))
        .with("v", format!("{:.1} L ({})", unit.volume.in_litres(), unit.name));
    let count = |amount: Volume| (amount / unit.volume).value;
    let whole = |amount: Volume| (count(amount) - SLACK).ceil().max(0.0) as u32;
    let count = Figure { why: volume.why.clone(), ..volume.clone() }.map(whole);
    let count = Figure { why, ..count };
    Some(SiteCount { good, name: unit.name.clone(), plural: unit.plural.clone(), volume: unit.volume, count })
}

/// Several amounts, those that can be counted.
pub fn site_counts<'a>(
    amounts: impl IntoIterator<Item = (SiteGood, &'a Figure<Volume>)>,
    units: &[SiteUnit],
) -> Vec<SiteCount> {
    amounts.into_iter().filter_map(|(good, volume)| site_count(good, volume, units)).collect()
}
