//! From facts to the report.

use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};
use lasting::from_record::{KeptSection, ToldHole};
use lasting::groups::what_lasts;
use lasting::patch_lives::{PatchLife, Property, Study, patch_lives, rows_by};
use ledger::Books;
use model::district::{Paper, UnitSystem};
use model::month_report::{LastsGroup, LastsPart, MonthBasis, MonthLasts, MonthReport, StopBasis};
use model::rules::lasting::LastingRules;
use words::{Language, Words};

use crate::say::Say;
use crate::{done, left, stop, workings};

/// What lives are grouped by in a report, in this order.
const SHOWN: [Property; 7] = [
    Property::Crew,
    Property::Wetness,
    Property::Drainage,
    Property::Deviations,
    Property::Weather,
    Property::Season,
    Property::RoadClass,
];

/// Groups in a plot at most; more are no picture.
const GROUPS_MAX: usize = 6;

/// What a report is made of.
#[derive(Debug)]
pub struct MonthFacts<'f> {
    /// The district's name.
    pub district: &'f str,
    /// First day of the month.
    pub month: Date,
    /// Today: where it lies in the month, the month goes on.
    pub today: Date,
    /// The district's clock.
    pub zone: &'f TimeZone,
    /// Units and paper to show it in.
    pub units: UnitSystem,
    /// Likewise.
    pub paper: Paper,
    /// The study of lives, at the end of the last day that counts.
    pub study: &'f Study,
    /// Holes of the record.
    pub holes: &'f [ToldHole],
    /// Resurfacings that lie on no road that is known.
    pub resurfaced_nowhere: u64,
    /// Sections of road that are kept up.
    pub sections: &'f [KeptSection],
    /// Books of the month.
    pub books: &'f Books,
    /// Books of the twelve months that end with it.
    pub year: &'f Books,
    /// The last event of the record that all this is made from.
    pub made_from: u64,
    /// Rules of what lasts.
    pub rules: &'f LastingRules,
}

impl MonthFacts<'_> {
    /// The last day that counts.
    pub fn until(&self) -> Date {
        self.month.last_of_month().min(self.today.max(self.month))
    }

    pub(crate) fn day(&self, at: Timestamp) -> Date {
        self.zone.to_datetime(at).date()
    }

    pub(crate) fn in_month(&self, at: Timestamp) -> bool {
        (self.month..=self.until()).contains(&self.day(at))
    }

    /// The twelve months that end with the report's, the last last.
    pub(crate) fn months(&self) -> Vec<Date> {
        (0..12).rev().filter_map(|back: i64| self.month.checked_sub(back.months()).ok()).collect()
    }
}

/// Makes the report of a month.
pub fn month_report(facts: &MonthFacts) -> MonthReport {
    let lives = patch_lives(facts.study);
    let (stop, stop_basis) = stop::stop_part(facts, &lives);
    let mut report = MonthReport {
        district: facts.district.to_owned(),
        month: facts.month,
        until: facts.until(),
        goes_on: facts.until() < facts.month.last_of_month(),
        made_from: facts.made_from,
        currency: facts.books.currency.clone(),
        units: facts.units,
        paper: facts.paper,
        done: done::done(facts),
        cost: done::cost(facts),
        stock: done::stock(facts),
        left: left::left(facts),
        lasts: lasts(facts, &lives),
        arrivals: done::arrivals(facts),
        planned: done::planned(facts),
        stop,
        basis: basis(facts, stop_basis),
        workings: Vec::new(),
        limits: Vec::new(),
    };
    // figures go to other programs with the words of one language; sheets are said in the reader's
    let say = Say { report: &report, words: Words(Language::English) };
    let (workings, limits) = (workings::workings(say), workings::limits(say));
    let nothing = report.stop.why_nothing.map(|why| workings::nothing(say, why)).unwrap_or_default();
    (report.workings, report.limits, report.stop.nothing) = (workings, limits, nothing);
    report
}

fn basis(facts: &MonthFacts, stop: Option<StopBasis>) -> MonthBasis {
    let rules = facts.rules;
    MonthBasis {
        same_place_m: rules.same_place_m.value,
        same_place_source: rules.same_place_m.source.to_string(),
        confidence: rules.confidence.value,
        fewest_failures: rules.fewest_failures.value,
        resurfaced_nowhere: facts.resurfaced_nowhere,
        no_repair_placed: facts.study.repairs.iter().all(|repair| repair.place.is_none()),
        findings: facts.books.findings.len(),
        stop,
    }
}

fn lasts(facts: &MonthFacts, lives: &[PatchLife]) -> MonthLasts {
    let part = |by: Property| {
        let rows = rows_by(lives, by);
        // one group compares nothing; a plot of very many shows nothing
        if !(2..=GROUPS_MAX).contains(&rows.groups.len()) {
            return None;
        }
        let lasts = what_lasts(&rows, "days", facts.rules).ok()?;
        let groups = lasts.curves.groups.iter().zip(&lasts.restricted_means).map(|(group, mean)| LastsGroup {
            name: group.name.clone(),
            n: group.n,
            failures: group.failures,
            too_few: group.too_few,
            median_days: group.median,
            mean_days: mean.restricted.mean,
            mean_error: mean.restricted.error,
            within_days: mean.restricted.until,
        });
        let groups = groups.collect();
        Some(LastsPart {
            by: by.word().to_owned(),
            groups,
            verdict: lasts.verdict,
            words: lasts.words,
            curves: lasts.curves.groups,
        })
    };
    MonthLasts {
        lives: lives.len(),
        failures: lives.iter().filter(|life| life.end.failed()).count(),
        parts: SHOWN.into_iter().filter_map(part).collect(),
    }
}
