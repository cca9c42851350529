//! By when a hole must be mended, by the agency's table.

use jiff::ToSpan;
use jiff::civil::{Date, Weekday};
use model::figure::Why;
use model::quantity::InVelocity;
use model::rules::severity::{DayCount, DueGroup, DueRules, WeekDay};
use model::triage::Severity;

use crate::{TriageInput, counted_from};

/// The day, and how it was worked out; no day where the agency sets no time.
pub(crate) fn due_day(
    input: &TriageInput,
    severity: Option<Severity>,
    rules: &DueRules,
    today: Date,
) -> (Option<Date>, Why) {
    let from = counted_from(input.seen, today);
    let from_words = match input.seen {
        Some(seen) if seen > today => format!("{from} (today; the day given, {seen}, is yet to come)"),
        Some(_) => format!("{from} (seen)"),
        None => format!("{from} (today; day seen unknown)"),
    };
    let group = rules.groups.value.iter().find(|group| takes(group, input));
    let days = group.and_then(|group| days_in(group, severity));
    let why = Why::new("due = from + days(severity, group of roads)", rules.groups.source.clone())
        .with("from", from_words)
        .with("severity", Severity::word(severity))
        .with("group", group.map_or("none", |group| group.name.as_str()))
        .with("days", days.map_or_else(|| "none set".to_owned(), |days| days.to_string()))
        .with(
            "counted in",
            match rules.counted_in.value {
                DayCount::CalendarDays => "calendar days",
                DayCount::WorkingDays => "working days",
            },
        );
    (days.map(|days| after(from, days, rules)), why)
}

/// The day that many days after another, as the agency counts them.
fn after(from: Date, days: u16, rules: &DueRules) -> Date {
    match rules.counted_in.value {
        DayCount::CalendarDays => from.saturating_add(i64::from(days).days()),
        DayCount::WorkingDays => {
            let mut left = days;
            let mut day = from;
            while left > 0 {
                let Ok(next) = day.tomorrow() else { return day };
                day = next;
                left -= u16::from(is_worked(day, rules));
            }
            day
        }
    }
}

fn is_worked(day: Date, rules: &DueRules) -> bool {
    !rules.rest_days.value.contains(&week_day(day)) && !rules.holidays.value.iter().any(|holiday| holiday.0 == day)
}

fn week_day(day: Date) -> WeekDay {
    match day.weekday() {
        Weekday::Monday => WeekDay::Monday,
        Weekday::Tuesday => WeekDay::Tuesday,
        Weekday::Wednesday => WeekDay::Wednesday,
        Weekday::Thursday => WeekDay::Thursday,
        Weekday::Friday => WeekDay::Friday,
        Weekday::Saturday => WeekDay::Saturday,
        Weekday::Sunday => WeekDay::Sunday,
    }
}

fn takes(group: &DueGroup, input: &TriageInput) -> bool {
    let takes_all = group.classes.is_empty() && group.speed_from_km_h.is_none();
    // To the millionth, so that unit conversion does not decide at the limit.
    let speed_km_h = (input.speed.in_kilometres_per_hour() * 1e6).round() / 1e6;
    takes_all
        || group.classes.contains(&input.class)
        || group.speed_from_km_h.is_some_and(|from_km_h| speed_km_h >= from_km_h)
}

fn days_in(group: &DueGroup, severity: Option<Severity>) -> Option<u16> {
    match severity {
        None => group.not_rated_days,
        Some(Severity::Low) => group.low_days,
        Some(Severity::Medium) => group.medium_days,
        Some(Severity::High) => group.high_days,
    }
}
