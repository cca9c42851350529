//! The timetable's clock in universal time.

use jiff::civil::Time;
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan, Unit};
use model::plan::Plan;
use model::round::SecondOfDay;

use crate::error::JobPackError;

/// The wall clock of the plan's day in the district's time zone.
pub struct Clock<'a> {
    plan: &'a Plan,
    zone: TimeZone,
}

impl<'a> Clock<'a> {
    /// Of the plan's district.
    pub fn new(plan: &'a Plan) -> Result<Self, JobPackError> {
        let zone = TimeZone::get(&plan.district.time_zone).map_err(|_| unknown(plan))?;
        Ok(Clock { plan, zone })
    }

    /// When a clock on the wall shows that time of the plan's day. A time that the clock leaves out (summer time begins)
    /// is moved on by as much as the clock was; of one that it shows twice the first is meant.
    pub fn at(&self, time: SecondOfDay) -> Result<Timestamp, JobPackError> {
        let midnight = self.plan.date.to_datetime(Time::midnight());
        let clock = midnight.checked_add(i64::from(time.0).seconds()).map_err(|_| unknown(self.plan))?;
        self.zone.to_timestamp(clock).map_err(|_| unknown(self.plan))
    }

    /// The plan's day begins.
    pub fn start_of_day(&self) -> Result<Timestamp, JobPackError> {
        self.at(SecondOfDay(0))
    }
}

/// In universal time, whole seconds: `2026-11-26T09:31:00Z`.
pub fn utc(time: Timestamp) -> String {
    time.round(Unit::Second).unwrap_or(time).to_string()
}

fn unknown(plan: &Plan) -> JobPackError {
    JobPackError::TimeZone(plan.district.time_zone.clone())
}
