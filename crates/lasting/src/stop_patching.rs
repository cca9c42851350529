//! When patching no longer pays: over a number of years, patching a section on is held against renewing its surface or base, in
//! expectation and in many seeded futures.
//!
//! New holes of a year are Poisson; their rate grows as the surface ages, is not known exactly, and wet years have more of them.
//! Each repair lives by the law of its kind and is made again when it fails. A renewed section starts with a part of its rate, and
//! the repairs under the new surface are gone.

#[cfg(feature = "budget")]
mod budget;
mod expected;
mod frontier;
mod futures;
mod law;

use serde::Serialize;
use thiserror::Error;

#[cfg(feature = "budget")]
pub use budget::{best_set, budget_curve};
pub use expected::{ExpectedPath, expected_path};
pub use frontier::{BudgetOption, BudgetPoint, BudgetSite, Frontier, FrontierStep, frontier};
pub use futures::outlooks;
pub use law::PatchLaw;

/// A section of road and what may be done with it.
#[derive(Debug, Clone, PartialEq)]
pub struct SectionCase {
    /// Its name.
    pub name: String,
    /// New holes in the first year, expected.
    pub holes_per_year: f64,
    /// How well that is known: shape of a gamma law, that is about the holes it was learnt from; infinite: exactly.
    pub rate_shape: f64,
    /// Mean of `ln` of how many times as many new holes each year has as the year before.
    pub yearly_growth: f64,
    /// Its standard deviation between futures.
    pub yearly_growth_sd: f64,
    /// Law of its repairs, an index into the laws.
    pub law: usize,
    /// Price of one repair, all in.
    pub repair_cost: f64,
    /// Ways to renew it.
    pub renewals: Vec<Renewal>,
}

/// A way to renew a section: a reseal, a new base.
#[derive(Debug, Clone, PartialEq)]
pub struct Renewal {
    /// Its name.
    pub name: String,
    /// Price for the section.
    pub cost: f64,
    /// Part of the rate of holes that is left afterwards, 0 to 1.
    pub rate_left: f64,
    /// Years that it is written off over: what is left of them at the end counts as worth.
    pub life_years: f64,
}

/// What holds for all sections.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StopSettings {
    /// Years looked at.
    pub years: usize,
    /// Interest for a year, a part.
    pub discount_rate: f64,
    /// Standard deviation of `ln` of a year's weather: in how many times as many holes it makes.
    pub weather_sd: f64,
    /// Futures drawn.
    pub futures: usize,
    /// Seed of the draws.
    pub seed: u64,
}

/// Costs over all years at today's worth.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct CostSpread {
    /// Mean of the futures.
    pub mean: f64,
    /// One future in ten is below.
    pub p10: f64,
    /// Half are.
    pub p50: f64,
    /// Nine in ten are.
    pub p90: f64,
}

/// What comes of a section.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SectionOutlook {
    /// Its name.
    pub name: String,
    /// Patched on for all years.
    pub patch_on: CostSpread,
    /// Each way to renew it.
    pub renewals: Vec<RenewalOutlook>,
}

/// What comes of renewing a section.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RenewalOutlook {
    /// Its name.
    pub name: String,
    /// Renewed now: the price, repairs afterwards, less what it is still worth at the end.
    pub now: CostSpread,
    /// Part of the futures in which that costs less than patching on.
    pub cheaper: f64,
    /// Year in which patching on has cost as much as renewing now, what the renewal is still worth left out; 1 is the first.
    pub break_even: BreakEven,
    /// Year in which renewing is expected to cost least; nothing where patching on for all years does.
    pub best_year: Option<usize>,
    /// What that is expected to cost, at today's worth.
    pub best_cost: f64,
}

/// Year of the break-even over the futures; nothing where it is not within the years.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct BreakEven {
    /// Part of the futures that have one.
    pub reached: f64,
    /// One future in ten has it by then.
    pub p10: Option<usize>,
    /// Half have.
    pub p50: Option<usize>,
    /// Nine in ten have.
    pub p90: Option<usize>,
}

/// A case that can't be worked out.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum StopError {
    /// A number that can't be.
    #[error("{section}: {what} is {value}; it must be {right}")]
    Number {
        /// Name of the section, or `settings`.
        section: String,
        /// Which number.
        what: &'static str,
        /// What it is.
        value: f64,
        /// What would be right.
        right: &'static str,
    },
    /// The programme under a budget found no answer.
    #[error("under the budget: {0}")]
    Budget(String),
}

impl SectionOutlook {
    /// What the numbers say, and that others decide.
    pub fn words(&self, years: usize) -> String {
        let best = self.renewals.iter().min_by(|a, b| a.best_cost.total_cmp(&b.best_cost));
        let Some(best) = best.filter(|best| best.best_year.is_some()) else {
            return format!("{}: patching on costs least over {years} years.", self.name);
        };
        let when = match best.break_even.p50 {
            Some(year) => {
                let to = |year: Option<usize>| year.map_or("not within the years".to_owned(), |year| year.to_string());
                format!(
                    "patching on has cost as much by year {year} ({} to {})",
                    to(best.break_even.p10),
                    to(best.break_even.p90)
                )
            }
            None => format!("in most futures patching on has not cost as much within {years} years"),
        };
        format!(
            "{}: {} in year {} is expected to cost least; done now it costs less than patching on in {:.0} of 100 futures, and {when}. \
             The road engineer decides.",
            self.name,
            best.name,
            best.best_year.unwrap_or(1),
            100.0 * best.cheaper
        )
    }
}

/// Cost of keeping a place whole over a horizon, when it is mended each time a life ends; not rounded up to whole repeats.
pub fn horizon_cost(one_pass: f64, life: f64, horizon: f64) -> f64 {
    one_pass * (horizon / life).max(1.0)
}

pub(crate) fn check(sections: &[SectionCase], laws: usize, settings: &StopSettings) -> Result<(), StopError> {
    let number = |section: &str, what, value: f64, holds: bool, right| {
        let error = StopError::Number { section: section.to_owned(), what, value, right };
        if holds && !value.is_nan() { Ok(()) } else { Err(error) }
    };
    number("settings", "years", settings.years as f64, (1..=200).contains(&settings.years), "from 1 to 200")?;
    let rate = settings.discount_rate;
    number("settings", "discount rate", rate, (0.0..=1.0).contains(&rate), "from 0 to 1")?;
    let weather = settings.weather_sd;
    number("settings", "weather deviation", weather, (0.0..=3.0).contains(&weather), "from 0 to 3")?;
    number("settings", "futures", settings.futures as f64, settings.futures > 0, "one or more")?;
    for section in sections {
        let name = section.name.as_str();
        let holes = section.holes_per_year;
        number(name, "holes a year", holes, (0.0..=1e5).contains(&holes), "from 0 to 100000")?;
        number(name, "rate shape", section.rate_shape, section.rate_shape > 0.0, "over 0")?;
        let growth = section.yearly_growth;
        number(name, "yearly growth", growth, (-1.0..=1.0).contains(&growth), "from -1 to 1")?;
        let spread = section.yearly_growth_sd;
        number(name, "deviation of the yearly growth", spread, (0.0..=0.5).contains(&spread), "from 0 to 0.5")?;
        number(name, "law", section.law as f64, section.law < laws, "one of the laws given")?;
        let cost = section.repair_cost;
        number(name, "repair cost", cost, (0.0..=1e12).contains(&cost), "from 0 on")?;
        for renewal in &section.renewals {
            number(name, "renewal cost", renewal.cost, (0.0..=1e15).contains(&renewal.cost), "from 0 on")?;
            let left = renewal.rate_left;
            number(name, "rate left", left, (0.0..=1.0).contains(&left), "from 0 to 1")?;
            number(name, "life of the renewal", renewal.life_years, renewal.life_years > 0.0, "over 0")?;
        }
    }
    Ok(())
}

/// What a renewal done so many years after the begin is still worth at the end, at today's worth.
pub(crate) fn worth_left(renewal: &Renewal, after: usize, settings: &StopSettings) -> f64 {
    let used = (settings.years - after) as f64 / renewal.life_years;
    renewal.cost * (1.0 - used).max(0.0) * discounts(settings, settings.years)
}

/// Worth today of one unit of money so many years on.
pub(crate) fn discounts(settings: &StopSettings, years: usize) -> f64 {
    (1.0 + settings.discount_rate).powf(-(years as f64))
}
