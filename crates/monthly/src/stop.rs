//! Stretches of road nearest to or past patching.

use std::collections::{HashMap, HashSet};

use jiff::SignedDuration;
use lasting::accelerated::{AcceleratedFit, LifeFamily};
use lasting::arrivals::{RoadCount, road_factors};
use lasting::patch_lives::{LifeEnd, PatchLife};
use lasting::regression::{CovariateLife, CovariateLives};
use lasting::resurfaced::Resurfacings;
use lasting::stop_patching::{
    CostSpread, PatchLaw, Renewal, SectionCase, SectionOutlook, StopSettings, expected_path, outlooks,
};
use model::month_report::{
    Choice, LawBasis, LawFrom, RenewalBasis, StopBasis, StopLine, StopNothing, StopPart, StretchChoices,
};
use uuid::Uuid;

use crate::done::number;
use crate::renewals;
use crate::report::MonthFacts;

const DAYS_OF_A_YEAR: f64 = 365.25;
const SEED: u64 = 1;
/// Part of the futures in which renewing has to be cheaper for a stretch to be past patching.
const PAST: f64 = 0.9;
/// Stretches in the report; the tables have all.
const FIRST: usize = 10;
/// Less time of watching tells no yearly rate.
const LEAST_YEARS: f64 = 0.25;

/// A stretch of a section, and what was seen on it.
struct Stretch<'s> {
    name: &'s str,
    section: &'s str,
    from_m: f64,
    to_m: f64,
    area_m2: f64,
    /// Kilometres by years for which it has been watched under the surface that it has now.
    km_years: f64,
    holes: u32,
}

impl Stretch<'_> {
    fn km(&self) -> f64 {
        (self.to_m - self.from_m) / 1000.0
    }
}

pub(crate) fn stop_part(facts: &MonthFacts, lives: &[PatchLife]) -> (StopPart, Option<StopBasis>) {
    let nothing = |why: StopNothing| (StopPart { why_nothing: Some(why), ..StopPart::default() }, None);
    if facts.sections.is_empty() {
        return nothing(StopNothing::NoRoads);
    }
    let last = facts.until();
    // of an export of old reports only those that are counted: it may reach back years before anybody kept a record
    let counted = facts.holes.iter().filter(|hole| hole.counts());
    let first = counted.filter_map(|hole| hole.told.map(|at| facts.day(at))).min();
    let days = first.and_then(|first| first.until(last).ok()).map_or(0, |span| span.get_days() + 1);
    let years = f64::from(days) / DAYS_OF_A_YEAR;
    if years < LEAST_YEARS {
        return nothing(StopNothing::TooShort);
    }
    let repairs = facts
        .study
        .repairs
        .iter()
        .filter(|repair| (facts.year.period.from..=facts.year.period.to).contains(&facts.day(repair.begin)));
    let (repairs, cost) = (repairs.count(), number(facts.year.costs.total.total));
    if repairs == 0 || cost <= 0.0 {
        return nothing(StopNothing::NoCost);
    }
    let repair_cost = cost / repairs as f64;
    let stretches = stretches(facts, lives, years);
    let holes: u32 = stretches.iter().map(|stretch| stretch.holes).sum();
    if holes == 0 {
        return nothing(StopNothing::NoHole);
    }
    let Some((law, law_basis)) = law(facts, lives) else {
        return nothing(StopNothing::NoLaw);
    };
    let rules = &facts.rules.stop_patching;
    let km_years: f64 = stretches.iter().map(|stretch| stretch.km_years).sum();
    let per_km_year = f64::from(holes) / km_years.max(1e-9);
    let counts: Vec<RoadCount> = stretches
        .iter()
        .map(|stretch| RoadCount {
            road: String::new(),
            holes: stretch.holes,
            expected: per_km_year * stretch.km_years,
        })
        .collect();
    let factors = road_factors(&counts);
    let shape = factors.shape;
    // a stretch without any hole is nowhere near the end of patching; one resurfaced at the very end has no count and no factor
    let counted = stretches.iter().zip(&counts).filter(|(_, count)| count.expected > 0.0);
    let watched = counted.zip(&factors.roads).filter(|((stretch, _), _)| stretch.holes > 0);
    let (mut shown, mut cases): (Vec<&Stretch>, Vec<SectionCase>) = (Vec::new(), Vec::new());
    for ((stretch, count), factor) in watched {
        let renewals = rules.renewals.iter().map(|(name, renewal)| Renewal {
            name: name.clone(),
            cost: renewal.price_per_m2.value * stretch.area_m2,
            rate_left: renewal.rate_left.value,
            life_years: renewal.life_years.value,
        });
        shown.push(stretch);
        cases.push(SectionCase {
            name: stretch.name.to_owned(),
            holes_per_year: factor.factor * per_km_year * stretch.km(),
            rate_shape: shape.map_or(f64::from(holes), |shape| shape + f64::from(count.holes)),
            yearly_growth: rules.yearly_growth.value.ln(),
            yearly_growth_sd: rules.yearly_growth_sd.value,
            law: 0,
            repair_cost,
            renewals: renewals.collect(),
        });
    }
    let settings = StopSettings {
        years: usize::from(facts.rules.horizon_years.value),
        discount_rate: facts.rules.discount_rate.value,
        weather_sd: rules.weather_sd.value,
        futures: rules.futures.value as usize,
        seed: SEED,
    };
    let Ok(drawn) = outlooks(&cases, std::slice::from_ref(&law), &settings) else {
        return nothing(StopNothing::Unworkable);
    };
    let mut all: Vec<(StopLine, StretchChoices)> = shown
        .iter()
        .zip(&cases)
        .zip(&drawn)
        .filter_map(|((stretch, case), drawn)| {
            Some((line(stretch, case, drawn)?, choices(case, drawn, &law, &settings)))
        })
        .collect();
    let ratio = |line: &StopLine| line.renew_now[0] / line.patch_on[0].max(1e-9);
    all.sort_by(|(a, _), (b, _)| {
        ratio(a).total_cmp(&ratio(b)).then(a.road.cmp(&b.road)).then(a.from_m.total_cmp(&b.from_m))
    });
    let (all, choices): (Vec<StopLine>, Vec<StretchChoices>) = all.into_iter().unzip();
    let part = StopPart {
        nothing: String::new(),
        why_nothing: None,
        years: settings.years,
        repair_cost,
        stretches: all.len(),
        past: all.iter().filter(|line| line.cheaper >= PAST).count(),
        first: all.iter().take(FIRST).cloned().collect(),
        budget: renewals::corners(&choices),
        all,
        choices,
    };
    let renewals = rules.renewals.iter().map(|(name, renewal)| RenewalBasis {
        name: name.clone(),
        price_per_m2: renewal.price_per_m2.value,
        rate_left: renewal.rate_left.value,
        life_years: renewal.life_years.value,
        source: renewal.price_per_m2.source.to_string(),
    });
    let basis = StopBasis {
        cost,
        repairs,
        holes,
        watched_years: years,
        km_years,
        is_anew: facts.study.resurfaced.iter().any(|over| over.at <= facts.study.at),
        per_km_year,
        drawn_by: shape,
        law: law_basis,
        futures: u64::from(rules.futures.value),
        interest: facts.rules.discount_rate.value,
        growth: rules.yearly_growth.value - 1.0,
        renewals: renewals.collect(),
    };
    (part, Some(basis))
}

/// All stretches of all sections, with the new holes seen on them: those that are the failure of a repair are not new, the law of
/// repairs' lives counts them. What was seen before a place got a new surface does not tell what the new one will bear: there both
/// holes and time are counted anew.
fn stretches<'s>(facts: &MonthFacts<'s>, lives: &[PatchLife], years: f64) -> Vec<Stretch<'s>> {
    let end = facts.study.at;
    let span = (end - SignedDuration::from_secs((years * DAYS_OF_A_YEAR * 86_400.0).round() as i64), end);
    let resurfacings = Resurfacings::of(&facts.study.resurfaced);
    let mut again: HashSet<Uuid> = facts.study.repairs.iter().filter_map(|repair| repair.failed_hole).collect();
    again.extend(lives.iter().filter_map(|life| match life.end {
        LifeEnd::NewHole { hole, .. } => Some(hole),
        _ => None,
    }));
    let length = facts.rules.stop_patching.stretch_m.value;
    let mut first_of: HashMap<&str, (usize, f64, usize)> = HashMap::new();
    let mut stretches: Vec<Stretch> = Vec::new();
    for section in facts.sections.iter().filter(|section| section.length_m > 0.0) {
        let pieces = (section.length_m / length).round().max(1.0);
        let each = section.length_m / pieces;
        first_of.insert(&section.key, (stretches.len(), each, pieces as usize));
        stretches.extend((0..pieces as usize).map(|piece| {
            let (from_m, to_m) = (piece as f64 * each, (piece + 1) as f64 * each);
            let watched = resurfacings.watched_part(&section.key, (from_m, to_m), span);
            Stretch {
                name: &section.name,
                section: &section.key,
                from_m,
                to_m,
                area_m2: each * section.width_m,
                km_years: (to_m - from_m) / 1000.0 * years * watched,
                holes: 0,
            }
        }));
    }
    let last = facts.until();
    for hole in facts.holes.iter().filter(|hole| hole.counts() && !again.contains(&hole.hole)) {
        let told = hole.told.filter(|at| facts.day(*at) <= last);
        let (Some(told), Some(place)) = (told, hole.place.as_ref()) else { continue };
        if resurfacings.last_until(place, end).is_some_and(|at| told <= at) {
            continue;
        }
        if let Some((first, each, pieces)) = first_of.get(place.road.as_str()) {
            let piece = ((place.chainage_m / each) as usize).min(pieces - 1);
            stretches[first + piece].holes += 1;
        }
    }
    stretches
}

/// The law of repairs' lives: of the record where enough have failed, else of the rules.
fn law(facts: &MonthFacts, lives: &[PatchLife]) -> Option<(PatchLaw, LawBasis)> {
    let of_lives = || {
        let failures = lives.iter().filter(|life| life.end.failed()).count();
        if (failures as u64) < facts.rules.fewest_failures.value {
            return None;
        }
        let known = lives.iter().filter(|life| life.days() > 0.0).map(|life| CovariateLife {
            duration: life.days(),
            failed: life.end.failed(),
            covariates: Vec::new(),
        });
        let known = CovariateLives { names: Vec::new(), lives: known.collect() };
        let fit = AcceleratedFit::of(LifeFamily::Weibull, &known).ok()?;
        let (location, shape) = fit.law(&[]);
        let scale = location.exp() / DAYS_OF_A_YEAR;
        let from = LawFrom::Lives { lives: known.lives.len(), failures };
        Some((PatchLaw::weibull(scale, shape)?, LawBasis { scale_years: scale, shape, from }))
    };
    let of_rules = || {
        let rules = &facts.rules.stop_patching;
        let (scale, shape) = (rules.life_years.value, rules.life_shape.value);
        let from = LawFrom::Rules { source: rules.life_years.source.to_string() };
        Some((PatchLaw::weibull(scale, shape)?, LawBasis { scale_years: scale, shape, from }))
    };
    of_lives().or_else(of_rules)
}

fn line(stretch: &Stretch, case: &SectionCase, drawn: &SectionOutlook) -> Option<StopLine> {
    let spread = |cost: &CostSpread| [cost.mean, cost.p10, cost.p90];
    let (renewal, outlook) =
        case.renewals.iter().zip(&drawn.renewals).min_by(|a, b| a.1.now.mean.total_cmp(&b.1.now.mean))?;
    Some(StopLine {
        road: stretch.name.to_owned(),
        from_m: stretch.from_m,
        to_m: stretch.to_m,
        section: stretch.section.to_owned(),
        holes_per_year: case.holes_per_year,
        holes_seen: stretch.holes,
        patch_on: spread(&drawn.patch_on),
        renewal: renewal.name.clone(),
        renewal_price: renewal.cost,
        renew_now: spread(&outlook.now),
        cheaper: outlook.cheaper,
        break_even: [outlook.break_even.p10, outlook.break_even.p50, outlook.break_even.p90],
        break_even_reached: outlook.break_even.reached,
        best_year: outlook.best_year,
    })
}

/// What may be done with a stretch, in expectation.
fn choices(case: &SectionCase, drawn: &SectionOutlook, law: &PatchLaw, settings: &StopSettings) -> StretchChoices {
    let holes = |renewal: Option<&Renewal>| expected_path(case, law, settings, renewal).repairs.iter().sum::<f64>();
    let patch_on = Choice { name: String::new(), price: 0.0, holes: holes(None), cost: drawn.patch_on.mean };
    let renewals = case.renewals.iter().zip(&drawn.renewals).map(|(renewal, drawn)| Choice {
        name: renewal.name.clone(),
        price: renewal.cost,
        holes: holes(Some(renewal)),
        cost: drawn.now.mean,
    });
    StretchChoices { patch_on, renewals: renewals.collect() }
}
