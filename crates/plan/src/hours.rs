//! Hours in which work on a road may lie: daylight, less the hours barred for its class. The shift is the search's own
//! matter.

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
    let open = rise.0.saturating_add(margin);
    let close = set.0.saturating_sub(margin);
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

#[cfg(test)]
mod tests {
    use super::*;
    use model::district::BarredHours;
    use model::quantity::minutes;

    /// Daylight from 06:00 to 20:00 with half an hour's margin; what is barred, and what is left.
    #[test]
    fn barred_hours_are_cut_out_of_daylight() {
        let day = Some((SecondOfDay::hm(6, 0), SecondOfDay::hm(20, 0)));
        let clock = |hour, minute| ClockTime::constant(hour, minute, 0, 0);
        let bar = |from, to| BarredHours { classes: vec![RoadClass::Primary], from, to };
        let hm = SecondOfDay::hm;
        let table = [
            (vec![], vec![(hm(6, 30), hm(19, 30))]),
            (vec![bar(clock(7, 0), clock(9, 0))], vec![(hm(6, 30), hm(7, 0)), (hm(9, 0), hm(19, 30))]),
            (vec![bar(clock(5, 0), clock(9, 0))], vec![(hm(9, 0), hm(19, 30))]),
            (vec![bar(clock(18, 0), clock(21, 0))], vec![(hm(6, 30), hm(18, 0))]),
            (vec![bar(clock(0, 0), clock(23, 0))], vec![]),
            (
                vec![bar(clock(15, 0), clock(17, 0)), bar(clock(7, 0), clock(9, 0)), bar(clock(8, 0), clock(10, 0))],
                vec![(hm(6, 30), hm(7, 0)), (hm(10, 0), hm(15, 0)), (hm(17, 0), hm(19, 30))],
            ),
        ];
        for (barred_hours, expected) in table {
            let mut district = exchange::district::default_district();
            district.shift.daylight_margin = minutes(30.0);
            district.barred_hours = barred_hours;
            assert_eq!(windows(&district, day, RoadClass::Primary), expected);
            assert_eq!(windows(&district, day, RoadClass::Tertiary), [(hm(6, 30), hm(19, 30))]);
            assert_eq!(windows(&district, None, RoadClass::Primary), []);
        }
    }
}
