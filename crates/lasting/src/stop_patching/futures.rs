//! Many futures of each section, drawn.

use rand::{Rng, RngExt, SeedableRng};
use rand_distr::{Distribution, Gamma, Normal, Poisson};
use rand_pcg::Pcg64Mcg;
use rayon::prelude::*;

use super::expected::{best_year, path};
use super::{
    BreakEven, CostSpread, PatchLaw, RenewalOutlook, SectionCase, SectionOutlook, StopError, StopSettings, check,
    discounts, worth_left,
};

/// Parts the seeds of the sections from each other (from memory: the golden ratio of 2^64).
const SEED_STEP: u64 = 0x9E37_79B9_7F4A_7C15;

/// What comes of each section. The same sections, settings and seed give the same answer, on however many cores.
///
/// # Errors
/// The first number that can't be.
pub fn outlooks(
    sections: &[SectionCase],
    laws: &[PatchLaw],
    settings: &StopSettings,
) -> Result<Vec<SectionOutlook>, StopError> {
    check(sections, laws.len(), settings)?;
    let again: Vec<Vec<f64>> = laws.iter().map(|law| law.mended_again(settings.years)).collect();
    let histories: Vec<Histories> = laws.iter().map(|law| Histories::of(law, settings)).collect();
    let weather = weather(settings);
    let discount: Vec<f64> = (0..settings.years).map(|year| discounts(settings, year)).collect();
    let one = |(at, section): (usize, &SectionCase)| {
        let histories = &histories[section.law];
        let draws = Draws { section, settings, weather: &weather, discount: &discount, histories };
        draws.outlook(&again[section.law], settings.seed ^ SEED_STEP.wrapping_mul(at as u64 + 1))
    };
    Ok(sections.par_iter().enumerate().map(one).collect())
}

/// How many times as many holes each year of each future makes, 1 in the mean; the same for all sections.
fn weather(settings: &StopSettings) -> Vec<f64> {
    let mut chance = Pcg64Mcg::seed_from_u64(settings.seed);
    let sd = settings.weather_sd;
    let Ok(normal) = Normal::new(-sd * sd / 2.0, sd) else { return Vec::new() };
    (0..settings.years * settings.futures).map(|_| normal.sample(&mut chance).exp()).collect()
}

/// Histories of places that are mended each time they fail, drawn once for a law and then chosen from: how many repairs the first
/// year and each further one has, the first repair at any time of the first year.
struct Histories {
    years: usize,
    counts: Vec<u32>,
}

/// As many as 12 bits choose from: they stay in the cache.
const HISTORIES: usize = 1 << 12;

/// Steps by this part of a year fall everywhere in it, whatever their number.
const GOLDEN: f64 = 0.618_033_988_749_894_9;

impl Histories {
    fn of(law: &PatchLaw, settings: &StopSettings) -> Self {
        let mut chance = Pcg64Mcg::seed_from_u64(settings.seed);
        let mut counts = vec![0; HISTORIES * settings.years];
        for (history, counts) in counts.chunks_exact_mut(settings.years).enumerate() {
            // first times and first lives are spread evenly, which takes chance out of the mean
            let mut at = (history as f64 * GOLDEN).fract();
            let mut life = law.life((history as f64 + chance.random::<f64>()) / HISTORIES as f64);
            while let Some(count) = counts.get_mut(at as usize) {
                *count += 1;
                at += life;
                life = law.life(chance.random::<f64>());
            }
        }
        Histories { years: settings.years, counts }
    }

    fn chosen(&self, history: usize) -> &[u32] {
        &self.counts[history * self.years..(history + 1) * self.years]
    }
}

struct Draws<'d> {
    section: &'d SectionCase,
    settings: &'d StopSettings,
    weather: &'d [f64],
    discount: &'d [f64],
    histories: &'d Histories,
}

/// One way to renew, over the futures.
struct Drawn {
    costs: Vec<f64>,
    cheaper: usize,
    /// Futures that broke even in each year.
    broke_even: Vec<usize>,
}

impl Draws<'_> {
    fn outlook(&self, again: &[f64], seed: u64) -> SectionOutlook {
        let (section, settings) = (self.section, self.settings);
        let mut chance = Pcg64Mcg::seed_from_u64(seed);
        let rate = Gamma::new(section.rate_shape, section.holes_per_year / section.rate_shape).ok();
        let growth = Normal::new(section.yearly_growth, section.yearly_growth_sd).ok();
        let mut on_costs = Vec::with_capacity(settings.futures);
        let mut drawn: Vec<Drawn> = section
            .renewals
            .iter()
            .map(|_| Drawn {
                costs: Vec::with_capacity(settings.futures),
                cheaper: 0,
                broke_even: vec![0; settings.years],
            })
            .collect();
        let mut counts = vec![vec![0; 2 * settings.years]; 1 + section.renewals.len()];
        let mut until = vec![vec![0.0; settings.years]; 1 + section.renewals.len()];
        for weather in self.weather.chunks_exact(settings.years) {
            // a rate that is known exactly, or none, has no law
            let rate = rate.filter(|_| section.rate_shape.is_finite());
            let rate = rate.map_or(section.holes_per_year, |law| law.sample(&mut chance));
            let growth = growth.map_or(section.yearly_growth, |law| law.sample(&mut chance)).exp();
            self.costs_until(rate, growth, weather, &mut chance, &mut counts, &mut until);
            let on = &until[0];
            let patched_on = on[settings.years - 1];
            on_costs.push(patched_on);
            for ((renewal, drawn), after) in section.renewals.iter().zip(&mut drawn).zip(&until[1..]) {
                let renewed = renewal.cost + after[settings.years - 1] - worth_left(renewal, 0, settings);
                drawn.costs.push(renewed);
                drawn.cheaper += usize::from(renewed < patched_on);
                if let Some(year) = on.iter().zip(after).position(|(on, after)| *on >= renewal.cost + after) {
                    drawn.broke_even[year] += 1;
                }
            }
        }
        let expected_on = path(section, again, settings, None);
        let renewals = section.renewals.iter().zip(drawn).map(|(renewal, drawn)| {
            let expected_after = path(section, again, settings, Some(renewal));
            let (best_year, best_cost) = best_year(&expected_on, &expected_after, renewal, settings);
            RenewalOutlook {
                name: renewal.name.clone(),
                now: spread(drawn.costs),
                cheaper: drawn.cheaper as f64 / settings.futures as f64,
                break_even: break_even(&drawn.broke_even, settings.futures),
                best_year,
                best_cost,
            }
        });
        SectionOutlook { name: section.name.clone(), renewals: renewals.collect(), patch_on: spread(on_costs) }
    }

    /// Draws repairs of all years: patched on in the first place of `until`, after each renewal in the others. A renewed section
    /// has a part of the same holes, so that chance does not part the ways. What is written is the cost up to and with each year.
    fn costs_until(
        &self,
        rate: f64,
        growth: f64,
        weather: &[f64],
        chance: &mut Pcg64Mcg,
        counts: &mut [Vec<u32>],
        until: &mut [Vec<f64>],
    ) {
        for path in counts.iter_mut() {
            path.fill(0);
        }
        let mut mean = rate;
        for (year, weather) in weather.iter().enumerate() {
            let holes = Poisson::new(mean * weather).map_or(0.0, |law| law.sample(chance));
            mean *= growth;
            for _ in 0..holes as u64 {
                let bits = chance.next_u64();
                let kept = (bits >> 40) as f64 / 16_777_216.0;
                let history = self.histories.chosen((bits & 0xFFF) as usize);
                add(history, year, &mut counts[0]);
                for (renewal, path) in self.section.renewals.iter().zip(&mut counts[1..]) {
                    if kept < renewal.rate_left {
                        add(history, year, path);
                    }
                }
            }
        }
        for (path, counts) in until.iter_mut().zip(counts) {
            let mut sum = 0.0;
            for ((until, repairs), discount) in path.iter_mut().zip(counts).zip(self.discount) {
                sum += f64::from(*repairs) * self.section.repair_cost * discount;
                *until = sum;
            }
        }
    }
}

/// Counts a hole of a year and its repairs again. Years past the last are counted too, and read by nobody: all holes then take
/// the same number of steps.
fn add(history: &[u32], year: usize, counts: &mut [u32]) {
    for (count, repairs) in counts[year..].iter_mut().zip(history) {
        *count += repairs;
    }
}

fn spread(mut costs: Vec<f64>) -> CostSpread {
    let count = costs.len();
    let mean = costs.iter().sum::<f64>() / count as f64;
    let mut quantile = |p: f64| {
        let at = ((p * count as f64) as usize).min(count - 1);
        *costs.select_nth_unstable_by(at, f64::total_cmp).1
    };
    CostSpread { mean, p10: quantile(0.1), p50: quantile(0.5), p90: quantile(0.9) }
}

fn break_even(by_year: &[usize], futures: usize) -> BreakEven {
    let by = |part: f64| {
        let mut seen = 0;
        let needed = (part * futures as f64).ceil() as usize;
        by_year.iter().position(|count| {
            seen += count;
            seen >= needed.max(1)
        })
    };
    let [p10, p50, p90] = [0.1, 0.5, 0.9].map(|part| by(part).map(|year| year + 1));
    BreakEven { reached: by_year.iter().sum::<usize>() as f64 / futures as f64, p10, p50, p90 }
}
