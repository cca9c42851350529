//! Hours in which work on a road may lie: shift, daylight, less the hours barred for its class.

use jiff::civil::Time as ClockTime;
use model::district::District;
use model::quantity::InTime;
use model::road::RoadClass;
use model::round::SecondOfDay;

/// Windows in which work on a road of that class may lie whole, ascending.
pub(crate) fn windows(
    district: &District,
    daylight: Option<(SecondOfDay, SecondOfDay)>,
    class: RoadClass,
) -> Vec<(SecondOfDay, SecondOfDay)> {
    let Some((rise, set)) = daylight else { return Vec::new() };
    let margin = district.shift.daylight_margin.in_seconds().ceil() as u32;
    let open = second_of_day(district.shift.start).0.max(rise.0.saturating_add(margin));
    let close = second_of_day(district.shift.end).0.min(set.0.saturating_sub(margin));
    let mut barred: Vec<(u32, u32)> = district
        .barred_hours
        .iter()
        .filter(|hours| hours.classes.contains(&class))
        .map(|hours| (second_of_day(hours.from).0, second_of_day(hours.to).0))
        .collect();
    barred.sort_unstable();
    let mut windows = Vec::new();
    let mut from = open;
    for (bar_from, bar_to) in barred {
        if bar_from > from && from < close {
            windows.push((SecondOfDay(from), SecondOfDay(bar_from.min(close))));
        }
        from = from.max(bar_to);
    }
    if from < close {
        windows.push((SecondOfDay(from), SecondOfDay(close)));
    }
    windows
}

/// A clock time as seconds after midnight.
pub(crate) fn second_of_day(time: ClockTime) -> SecondOfDay {
    let part = |value: i8| u32::from(value.unsigned_abs());
    SecondOfDay(part(time.hour()) * 3600 + part(time.minute()) * 60 + part(time.second()))
}
