//! What was asked for holes by name, as limits of the search: in which shifts a site may be, or that it stays out.
//!
//! A site that shall be mended gets a price of being left out that is above all else; with it the search does what was asked
//! wherever that can be done. The programme's cost is counted without it.

use std::collections::{BTreeMap, BTreeSet};

use jiff::civil::Date;
use model::hole::HoleId;
use model::pin::{Pin, PinRefused, PinnedTo};
use model::plan::LeftOut;
use model::problem::Problem;
use model::programme::{Programme, ProgrammeProblem};
use model::round::LeftOutReason;

use super::{CrewOfPlan, KindOfCrew, problem};
use crate::Located;

/// Kilometres that no truck drives in a shift.
const NO_SHIFT_KM: f64 = 1000.0;

/// What was asked, with the holes as this plan numbers them.
pub(super) struct Pins<'a> {
    pins: &'a [Pin],
    /// Index of the hole that a report is of.
    hole_of: BTreeMap<&'a HoleId, usize>,
}

/// What came of it as limits.
#[derive(Default)]
pub(super) struct Pinned {
    /// Sites that shall be mended, and what it costs to leave them out.
    done: BTreeMap<usize, f64>,
    out: BTreeSet<usize>,
    /// Site of each hole that was asked for.
    sites: BTreeMap<usize, usize>,
    refused: Vec<PinRefused>,
}

impl<'a> Pins<'a> {
    pub fn new(pins: &'a [Pin], located: &'a [Located]) -> Self {
        let mut hole_of = BTreeMap::new();
        if !pins.is_empty() {
            for (index, found) in located.iter().enumerate() {
                hole_of.insert(&found.hole.id, index);
                hole_of.extend(found.reports.iter().map(|report| (&report.id, index)));
            }
        }
        Pins { pins, hole_of }
    }

    /// The order of the sites with what was asked for among those that the search looks at, and how many these are.
    pub fn among_first(
        &self,
        order: Vec<usize>,
        count: usize,
        kind: &KindOfCrew,
        open: &dyn Fn(usize) -> bool,
    ) -> (Vec<usize>, usize) {
        if self.pins.is_empty() {
            return (order, count);
        }
        let wanted: BTreeSet<usize> =
            self.pins.iter().flat_map(|pin| &pin.holes).filter_map(|hole| self.hole_of.get(hole).copied()).collect();
        let is_wanted = |site: usize| {
            open(site) && problem::holes_of(&kind.sites[site], &kind.jobs).iter().any(|hole| wanted.contains(hole))
        };
        let (first, rest) = order.split_at(count);
        let (asked, rest): (Vec<usize>, Vec<usize>) = rest.iter().partition(|&&site| is_wanted(site));
        let count = count + asked.len();
        (first.iter().copied().chain(asked).chain(rest).collect(), count)
    }

    /// Limits the search's problem to what was asked.
    pub fn limit(
        &self,
        problem: &mut ProgrammeProblem,
        kind: &KindOfCrew,
        crews: &[CrewOfPlan],
        days: &[Date],
    ) -> Pinned {
        let mut pinned = Pinned::default();
        if self.pins.is_empty() {
            return pinned;
        }
        let above_all = above_all(problem);
        let mut site_of: BTreeMap<usize, usize> = BTreeMap::new();
        for site in 0..problem.sites.len() {
            site_of.extend(problem::holes_of(&kind.sites[site], &kind.jobs).into_iter().map(|hole| (hole, site)));
        }
        let mut asked: BTreeMap<usize, &PinnedTo> = BTreeMap::new();
        for pin in self.pins {
            let shifts = match allowed(&pin.to, problem, crews, days) {
                Ok(shifts) => shifts,
                Err(words) => {
                    pinned.refused.push(PinRefused { holes: pin.holes.clone(), words });
                    continue;
                }
            };
            let mut sites = BTreeSet::new();
            for name in &pin.holes {
                let Some(&hole) = self.hole_of.get(name) else { continue };
                let Some(&site) = site_of.get(&hole) else { continue };
                pinned.sites.insert(hole, site);
                if asked.get(&site).is_some_and(|before| *before != &pin.to) {
                    let words = "something else was asked for its work zone before".to_owned();
                    pinned.refused.push(PinRefused { holes: vec![name.clone()], words });
                } else {
                    asked.insert(site, &pin.to);
                    sites.insert(site);
                }
            }
            for site in sites {
                let it = &mut problem.sites[site];
                // What is barred already stays so.
                let before = it.shifts.take();
                let both = |shift: &usize| before.as_ref().is_none_or(|before| before.contains(shift));
                it.shifts = Some(shifts.iter().copied().filter(both).collect());
                if pin.to == PinnedTo::Out {
                    pinned.out.insert(site);
                } else if pinned.done.insert(site, it.left).is_none() {
                    it.left += above_all;
                }
            }
        }
        pinned
    }

    /// What can't be as asked, with the reason.
    pub fn refused(
        &self,
        pinned: Pinned,
        programme: &Programme,
        left_out: &[LeftOut],
        problems: &[Problem],
    ) -> Vec<PinRefused> {
        let Pinned { sites, mut refused, .. } = pinned;
        let told: BTreeSet<HoleId> = refused.iter().flat_map(|refused| refused.holes.iter().cloned()).collect();
        let stays_out: BTreeSet<usize> = programme.left_out.iter().map(|(site, _)| *site).collect();
        for pin in self.pins.iter().filter(|pin| pin.to != PinnedTo::Out) {
            for name in pin.holes.iter().filter(|name| !told.contains(*name)) {
                let hole = self.hole_of.get(name);
                let site = hole.and_then(|hole| sites.get(hole));
                if site.is_some_and(|site| !stays_out.contains(site)) {
                    continue;
                }
                let same = |other: &HoleId| other == name || hole.is_some() && self.hole_of.get(other) == hole;
                let words = left_out.iter().find(|left| same(&left.hole)).map(|left| left.words.clone());
                let of_input = || problems.iter().find(|problem| problem.subject == name.0).map(|it| it.wrong.clone());
                let words = words.or_else(of_input).unwrap_or_else(|| "no such hole waits to be mended".to_owned());
                refused.push(PinRefused { holes: vec![name.clone()], words });
            }
        }
        refused
    }
}

impl Pinned {
    /// Takes out of the price what only made the search obey.
    pub fn settle(&self, problem: &mut ProgrammeProblem, programme: &mut Programme) {
        if self.done.is_empty() && self.out.is_empty() {
            return;
        }
        for (&site, &left) in &self.done {
            problem.sites[site].left = left;
        }
        for (site, reason) in &mut programme.left_out {
            if self.out.contains(site) {
                *reason = LeftOutReason::AsAsked;
            }
        }
        programme.cost.left = programme.left_out.iter().map(|(site, _)| problem.sites[*site].left).sum();
    }
}

/// More than any programme costs.
fn above_all(problem: &ProgrammeProblem) -> f64 {
    let finite = |money: f64| if money.is_finite() { money.max(0.0) } else { 0.0 };
    let left: f64 = problem.sites.iter().map(|site| finite(site.left)).sum();
    let shifts = problem.shifts.iter().map(|shift| {
        let hours = (shift.to - shift.from) as f64 / 3600.0;
        finite(hours * shift.price_per_hour) + NO_SHIFT_KM * finite(shift.price_per_km)
    });
    1.0 + left + shifts.sum::<f64>()
}

/// The shifts that are asked for; none where a hole shall stay out.
fn allowed(
    to: &PinnedTo,
    problem: &ProgrammeProblem,
    crews: &[CrewOfPlan],
    days: &[Date],
) -> Result<Vec<usize>, String> {
    let PinnedTo::Round { date, crew } = to else { return Ok(Vec::new()) };
    if let Some(date) = date.filter(|date| !days.contains(date)) {
        return Err(format!("{date} is none of the days that are planned"));
    }
    let names: Vec<&str> = crews.iter().map(|crew| crew.district.crew.name.as_str()).collect();
    if let Some(crew) = crew.as_ref().filter(|crew| !names.contains(&crew.as_str())) {
        return Err(format!("no crew is named {crew}; there are {}", names.join(", ")));
    }
    let wanted = |shift: &usize| {
        let shift = &problem.shifts[*shift];
        date.is_none_or(|date| days.get(shift.day as usize) == Some(&date))
            && crew.as_ref().is_none_or(|crew| names.get(shift.crew) == Some(&crew.as_str()))
    };
    Ok((0..problem.shifts.len()).filter(wanted).collect())
}
