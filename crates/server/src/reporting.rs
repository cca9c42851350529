//! The record read for what lasts and for the report of a month: what the routes answer and the command prints.

use jiff::civil::{Date, Time};
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};
use journal::{Journal, JournalError};
use lasting::from_record::{HoleJudge, KeptSection, RecordTaken, RoadPlaces, ToldHole};
use lasting::patch_lives::Study;
use ledger::{Books, Period, books};
use model::district::{Paper, UnitSystem};
use model::month_report::{MonthReport, ReportSheet};
use model::record::event::Event;
use model::rules::lasting::LastingRules;
use monthly::{MonthFacts, MonthTable, month_report, month_tables};

/// What reports need of the trade and the district; it is behind the planner.
pub struct Reporting<'p> {
    /// The roads; `None`: none are known.
    pub roads: Option<&'p dyn RoadPlaces>,
    /// Who judges holes; `None`: nobody.
    pub judge: Option<&'p dyn HoleJudge>,
    /// Rules of what lasts.
    pub rules: LastingRules,
    /// Coldest air in which repairs are sealed by the rules, degrees Celsius; `None`: no rule is known.
    pub least_air_c: Option<f64>,
    /// Units to show.
    pub units: UnitSystem,
    /// Paper to print on.
    pub paper: Paper,
    /// Prints a report.
    pub print: fn(&ReportSheet, Date) -> Result<Vec<u8>, String>,
}

/// A study of the record with what is beside it.
pub struct Studied {
    /// The study.
    pub study: Study,
    /// The holes.
    pub holes: Vec<ToldHole>,
    /// Repairs that were begun and neither sealed nor opened.
    pub not_opened: u64,
    /// Resurfacings that lie on no road of ours.
    pub resurfaced_nowhere: u64,
}

/// Takes in the record, piece by piece; holes are judged on a day where one is given.
pub async fn study(
    journal: &Journal,
    reporting: &Reporting<'_>,
    zone: &TimeZone,
    at: Timestamp,
    judged_on: Option<Date>,
) -> Result<Studied, JournalError> {
    let mut taken = RecordTaken::new(reporting.roads, zone).sealed_from(reporting.least_air_c);
    if let (Some(judge), Some(day)) = (reporting.judge, judged_on) {
        taken = taken.judged_by(judge, day);
    }
    for what in RecordTaken::ORDER {
        journal.each_known(what, &mut |known| taken.take(known)).await?;
    }
    let (not_opened, resurfaced_nowhere) = (taken.not_opened(), taken.resurfaced_nowhere());
    let (study, holes) = taken.study(at, &reporting.rules);
    Ok(Studied { study, holes, not_opened, resurfaced_nowhere })
}

/// All that the report of a month is made of.
pub struct MonthRead {
    district: String,
    month: Date,
    today: Date,
    settings: ledger::Settings,
    studied: Studied,
    sections: Vec<KeptSection>,
    events: Vec<Event>,
    made_from: u64,
    rules: LastingRules,
    units: UnitSystem,
    paper: Paper,
}

/// Reads the record for the report of a month that has begun. `settings` of the books; their period counts for nothing.
pub async fn read_month(
    journal: &Journal,
    reporting: &Reporting<'_>,
    district: &str,
    settings: &ledger::Settings,
    month: Date,
    now: Timestamp,
) -> Result<MonthRead, JournalError> {
    let zone = &settings.time_zone;
    let today = zone.to_datetime(now).date();
    let last = month.last_of_month().min(today.max(month));
    // what comes in while this reads may be in it, but is not promised
    let (made_from, _) = journal.head().await?;
    let studied = study(journal, reporting, zone, end_of(last, zone).min(now), Some(last)).await?;
    let (events, _) = journal.all_events().await?;
    Ok(MonthRead {
        district: district.to_owned(),
        month,
        today,
        settings: settings.clone(),
        studied,
        sections: reporting.roads.map(RoadPlaces::all).unwrap_or_default(),
        events,
        made_from,
        rules: reporting.rules.clone(),
        units: reporting.units,
        paper: reporting.paper,
    })
}

/// The end of a day by a clock.
pub fn end_of(day: Date, zone: &TimeZone) -> Timestamp {
    let next = day.tomorrow().map(|next| zone.to_ambiguous_timestamp(next.to_datetime(Time::midnight())));
    next.and_then(jiff::tz::AmbiguousTimestamp::compatible).unwrap_or(Timestamp::MAX)
}

impl MonthRead {
    /// The report: long work.
    pub fn report(&self) -> MonthReport {
        self.with_facts(month_report)
    }

    /// The report and the tables behind it: long work.
    pub fn report_and_tables(&self) -> (MonthReport, Vec<MonthTable>) {
        self.with_facts(|facts| {
            let report = month_report(facts);
            let tables = month_tables(facts, &report);
            (report, tables)
        })
    }

    fn with_facts<T>(&self, work: impl FnOnce(&MonthFacts) -> T) -> T {
        let last = self.month.last_of_month().min(self.today.max(self.month));
        let books_from = |from: Date| -> Books {
            books(&self.events, &ledger::Settings { period: Period { from, to: last }, ..self.settings.clone() })
        };
        let year_from = self.month.checked_sub(11.months()).unwrap_or(self.month);
        let (of_month, of_year) = (books_from(self.month), books_from(year_from));
        work(&MonthFacts {
            district: &self.district,
            month: self.month,
            today: self.today,
            zone: &self.settings.time_zone,
            units: self.units,
            paper: self.paper,
            study: &self.studied.study,
            holes: &self.studied.holes,
            resurfaced_nowhere: self.studied.resurfaced_nowhere,
            sections: &self.sections,
            books: &of_month,
            year: &of_year,
            made_from: self.made_from,
            rules: &self.rules,
        })
    }
}
