//! What no traffic rule set may say.

use super::{AdvanceDistances, TrafficRules};
use crate::work_zone::Layout;

/// Longest distance along a road that anybody believes, in feet.
const FEET_ALONG: f64 = 10_000.0;
/// Largest distance across a road, in feet: a shoulder and verge beside many lanes.
const FEET_ACROSS: f64 = 300.0;
/// Fastest road, in miles per hour.
const MPH: f64 = 200.0;
/// Longest time to place or remove one device, in seconds.
const DEVICE_SECONDS: f64 = 3600.0;

/// A number of the rule set: its field, its value, and the most that is believed (common practice, no source).
struct Number {
    field: String,
    value: f64,
    most: f64,
}

impl TrafficRules {
    /// What no rule set may say, each with the field: numbers that are not above zero, not finite or beyond all belief,
    /// limits in the wrong order, a table out of order. Empty when the set can be used.
    pub fn faults(&self) -> Vec<String> {
        let mut faults: Vec<String> = self.numbers().iter().filter_map(Number::fault).collect();
        faults.extend(self.disorder());
        let rows = &self.stopping.table.value;
        if rows.is_empty() || rows.windows(2).any(|pair| pair[0].mph >= pair[1].mph || pair[0].ft > pair[1].ft) {
            faults.push("stopping.table must have rows, speeds ascending, distances not descending".into());
        }
        faults
    }

    /// Limits in the wrong order.
    fn disorder(&self) -> Vec<String> {
        let (taper, duration, speed) = (&self.taper, &self.duration, &self.speed);
        [
            ("taper.one_lane_min_ft", &taper.one_lane_min_ft, "taper.one_lane_max_ft", &taper.one_lane_max_ft),
            ("taper.downstream_min_ft", &taper.downstream_min_ft, "taper.downstream_max_ft", &taper.downstream_max_ft),
            (
                "duration.short_max_hours",
                &duration.short_max_hours,
                "duration.daylight_hours",
                &duration.daylight_hours,
            ),
            (
                "duration.daylight_hours",
                &duration.daylight_hours,
                "duration.long_over_hours",
                &duration.long_over_hours,
            ),
            ("speed.step_mph", &speed.step_mph, "speed.usable_max_mph", &speed.usable_max_mph),
            ("speed.unknown_mph", &speed.unknown_mph, "speed.usable_max_mph", &speed.usable_max_mph),
        ]
        .into_iter()
        .filter(|(_, low, _, high)| low.value > high.value)
        .map(|(low_field, low, high_field, high)| {
            format!("{low_field} is {} and {high_field} is {}; the first may not be above", low.value, high.value)
        })
        .collect()
    }

    /// Every number that has to be above zero, with its field and the most that is believed.
    fn numbers(&self) -> Vec<Number> {
        let mut numbers: Vec<Number> = self
            .speeds_and_tapers()
            .into_iter()
            .chain(self.places())
            .chain(self.people_and_times())
            .map(|(field, value, most)| Number { field: field.to_owned(), value, most })
            .collect();
        for (kind, AdvanceDistances { a_ft, b_ft, c_ft }) in [
            ("urban_low", self.advance.urban_low.value),
            ("urban_high", self.advance.urban_high.value),
            ("rural", self.advance.rural.value),
            ("expressway", self.advance.expressway.value),
        ] {
            for (letter, value) in [("a_ft", a_ft), ("b_ft", b_ft), ("c_ft", c_ft)] {
                numbers.push(Number { field: format!("advance.{kind}.{letter}"), value, most: FEET_ALONG });
            }
        }
        for (row, cells) in self.stopping.table.value.iter().enumerate() {
            let field = |cell: &str| format!("stopping.table row {} {cell}", row + 1);
            numbers.push(Number { field: field("mph"), value: cells.mph, most: MPH });
            numbers.push(Number { field: field("ft"), value: cells.ft, most: FEET_ALONG });
        }
        for layout in [Layout::Shoulder, Layout::LaneClosureTwoWay, Layout::LaneClosureMultilane] {
            let rule = self.layouts.of(layout);
            numbers.push(Number {
                field: format!("layouts.{} drives", rule.name),
                value: rule.drives.value,
                most: 20.0,
            });
        }
        numbers
    }

    fn speeds_and_tapers(&self) -> [(&'static str, f64, f64); 21] {
        let (speed, taper, spacing) = (&self.speed, &self.taper, &self.spacing);
        let formula = &self.stopping.formula.value;
        [
            ("speed.step_mph", speed.step_mph.value, 20.0),
            ("speed.usable_max_mph", speed.usable_max_mph.value, MPH),
            ("speed.unknown_mph", speed.unknown_mph.value, MPH),
            ("taper.low_speed_max_mph", taper.low_speed_max_mph.value, MPH),
            // A divisor that is too large, or braking that is too good, makes a zone too short.
            ("taper.low_speed_divisor", taper.low_speed_divisor.value, 200.0),
            ("taper.high_speed_factor", taper.high_speed_factor.value, 20.0),
            ("taper.round_up_ft", taper.round_up_ft.value, 100.0),
            ("taper.shifting_divisor", taper.shifting_divisor.value, 10.0),
            ("taper.shoulder_divisor", taper.shoulder_divisor.value, 10.0),
            ("taper.one_lane_min_ft", taper.one_lane_min_ft.value, FEET_ALONG),
            ("taper.one_lane_max_ft", taper.one_lane_max_ft.value, FEET_ALONG),
            ("taper.one_lane_ft", taper.one_lane_ft.value, FEET_ALONG),
            ("taper.downstream_min_ft", taper.downstream_min_ft.value, FEET_ALONG),
            ("taper.downstream_max_ft", taper.downstream_max_ft.value, FEET_ALONG),
            ("taper.downstream_ft", taper.downstream_ft.value, FEET_ALONG),
            ("stopping.formula.per_mph_second", formula.per_mph_second, 10.0),
            ("stopping.formula.reaction_s", formula.reaction_s, 30.0),
            ("stopping.formula.braking", formula.braking, 10.0),
            ("stopping.formula.deceleration_ft_s2", formula.deceleration_ft_s2, 32.2),
            ("stopping.formula.round_up_ft", formula.round_up_ft, 100.0),
            ("spacing.taper_ft_per_mph", spacing.taper_ft_per_mph.value, 10.0),
        ]
    }

    fn places(&self) -> [(&'static str, f64, f64); 16] {
        let (advance, spacing, across, work) = (&self.advance, &self.spacing, &self.across, &self.work_space);
        [
            ("advance.urban_low_speed_max_mph", advance.urban_low_speed_max_mph.value, MPH),
            ("advance.end_of_work_ft", advance.end_of_work_ft.value, FEET_ALONG),
            ("spacing.tangent_ft_per_mph", spacing.tangent_ft_per_mph.value, 10.0),
            ("spacing.short_taper_ft", spacing.short_taper_ft.value, 500.0),
            ("across.open_width_min_ft", across.open_width_min_ft.value, 40.0),
            ("across.work_clearance_ft", across.work_clearance_ft.value, 40.0),
            ("across.sign_offset_ft", across.sign_offset_ft.value, FEET_ACROSS),
            ("across.station_offset_ft", across.station_offset_ft.value, FEET_ACROSS),
            ("across.usable_width_max_ft", across.usable_width_max_ft.value, FEET_ACROSS),
            ("across.lane_width_ft", across.lane_width_ft.value, 40.0),
            ("across.wide_shoulder_ft", across.wide_shoulder_ft.value, FEET_ACROSS),
            ("work_space.margin_ft", work.margin_ft.value, FEET_ALONG),
            ("work_space.vehicle_ft", work.vehicle_ft.value, 500.0),
            ("work_space.roll_ahead_ft", work.roll_ahead_ft.value, FEET_ALONG),
            ("work_space.share_gap_m", work.share_gap_m.value, 3000.0),
            ("work_space.work_space_max_m", work.work_space_max_m.value, 10_000.0),
        ]
    }

    fn people_and_times(&self) -> [(&'static str, f64, f64); 16] {
        let (flagging, duration, effort) = (&self.flagging, &self.duration, &self.effort);
        [
            ("work_space.shield_from_vehicles", f64::from(self.work_space.shield_from_vehicles.value), 1000.0),
            ("flagging.two_way_flaggers", f64::from(flagging.two_way_flaggers.value), 50.0),
            ("flagging.workers_min", f64::from(flagging.workers_min.value), 100.0),
            ("flagging.low_volume_max_per_day", flagging.low_volume_max_per_day.value, 200_000.0),
            ("flagging.single_flagger_work_space_max_ft", flagging.single_flagger_work_space_max_ft.value, FEET_ALONG),
            ("duration.short_max_hours", duration.short_max_hours.value, 24.0),
            ("duration.daylight_hours", duration.daylight_hours.value, 24.0),
            ("duration.long_over_hours", duration.long_over_hours.value, 1000.0),
            ("effort.sign_out_s", effort.sign_out_s.value, DEVICE_SECONDS),
            ("effort.sign_in_s", effort.sign_in_s.value, DEVICE_SECONDS),
            ("effort.cone_out_s", effort.cone_out_s.value, DEVICE_SECONDS),
            ("effort.cone_in_s", effort.cone_in_s.value, DEVICE_SECONDS),
            ("effort.station_out_s", effort.station_out_s.value, DEVICE_SECONDS),
            ("effort.station_in_s", effort.station_in_s.value, DEVICE_SECONDS),
            ("effort.walking_mph", effort.walking_mph.value, 10.0),
            ("effort.driving_mph", effort.driving_mph.value, 100.0),
        ]
    }
}

impl Number {
    fn fault(&self) -> Option<String> {
        let Number { field, value, most } = self;
        if !(value.is_finite() && *value > 0.0) {
            Some(format!("{field} is {value}; a number above zero is right"))
        } else if value > most {
            Some(format!("{field} is {value}; above {most} is not believed"))
        } else {
            None
        }
    }
}
