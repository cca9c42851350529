//! What no traffic rule set may say.

use super::{AdvanceDistances, TrafficRules, Units};
use crate::quantity::{feet, metres, miles_per_hour};
use crate::rules::not_believed;

/// Longest time to place or remove one device, in seconds.
const DEVICE_SECONDS: f64 = 3600.0;

/// A number of the rule set: its field, its value, and the most that is believed (common practice, no source).
struct Number {
    field: String,
    value: f64,
    most: f64,
}

/// The most that is believed, in the units of the set (common practice, no source).
struct Most {
    units: Units,
    /// Longest distance along a road.
    along: f64,
    /// Largest distance across a road: a shoulder and verge beside many lanes.
    across: f64,
    /// Widest lane.
    lane: f64,
    /// Fastest road.
    speed: f64,
}

impl Most {
    fn of(units: Units) -> Self {
        let length = |in_feet: f64| plain(units.distance_of(feet(in_feet)));
        Most {
            units,
            along: length(10_000.0),
            across: length(300.0),
            lane: length(40.0),
            speed: plain(units.speed_of(miles_per_hour(200.0))),
        }
    }

    /// A distance given in feet.
    fn feet(&self, value: f64) -> f64 {
        plain(self.units.distance_of(feet(value)))
    }

    /// A distance given in metres.
    fn metres(&self, value: f64) -> f64 {
        plain(self.units.distance_of(metres(value)))
    }

    /// A speed given in miles per hour.
    fn mph(&self, value: f64) -> f64 {
        plain(self.units.speed_of(miles_per_hour(value)))
    }

    /// A distance for each unit of speed, given in feet for each mile per hour.
    fn feet_per_mph(&self, value: f64) -> f64 {
        self.feet(value) / self.mph(1.0)
    }
}

/// Without the last bits of a unit conversion.
fn plain(value: f64) -> f64 {
    (value * 1e6).round() / 1e6
}

impl TrafficRules {
    /// What no rule set may say, each with the field: numbers that are not above zero, not finite or beyond all belief,
    /// limits in the wrong order, a table out of order. Empty when the set can be used.
    pub fn faults(&self) -> Vec<String> {
        let mut faults: Vec<String> = self.numbers().iter().filter_map(Number::fault).collect();
        faults.extend(self.disorder());
        faults.extend(self.shorter_when_faster());
        faults.extend(self.advance_leasts());
        faults.extend(self.table_disorder());
        faults.extend(self.busier_is_busier());
        faults
    }

    /// The busier direction has half of the traffic at least.
    fn busier_is_busier(&self) -> Option<String> {
        let share = self.queue.busier_direction_share.value;
        (share < 0.5)
            .then(|| format!("queue.busier_direction_share is {share}; 0.5 or more is right: it is the busier one"))
    }

    /// Rows of the stopping table that do not rise.
    fn table_disorder(&self) -> Vec<String> {
        let rows = &self.stopping.table.value;
        if rows.is_empty() {
            return vec!["stopping.table has no row; one for each step of speed is right".into()];
        }
        let mut faults = Vec::new();
        for (index, pair) in rows.windows(2).enumerate() {
            let row = index + 2;
            if pair[1].speed <= pair[0].speed {
                faults.push(format!(
                    "stopping.table row {row} speed is {} after {}; speeds must rise",
                    pair[1].speed, pair[0].speed
                ));
            }
            if pair[1].distance < pair[0].distance {
                faults.push(format!(
                    "stopping.table row {row} distance is {} after {}; a faster road may not have a shorter distance",
                    pair[1].distance, pair[0].distance
                ));
            }
        }
        faults
    }

    /// Limits in the wrong order.
    fn disorder(&self) -> Vec<String> {
        let (taper, duration, speed) = (&self.taper, &self.duration, &self.speed);
        [
            ("taper.one_lane_min", &taper.one_lane_min, "taper.one_lane_max", &taper.one_lane_max),
            ("taper.downstream_min", &taper.downstream_min, "taper.downstream_max", &taper.downstream_max),
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
            ("speed.step", &speed.step, "speed.greatest", &speed.greatest),
            ("speed.unknown", &speed.unknown, "speed.greatest", &speed.greatest),
            ("taper.low_speed_max", &taper.low_speed_max, "speed.greatest", &speed.greatest),
        ]
        .into_iter()
        .filter(|(_, low, _, high)| low.value > high.value)
        .map(|(low_field, low, high_field, high)| {
            format!("{low_field} is {} and {high_field} is {}; the first may not be above", low.value, high.value)
        })
        .collect()
    }

    /// Where a faster road would get a shorter zone.
    fn shorter_when_faster(&self) -> Vec<String> {
        let (taper, speed, stopping) = (&self.taper, &self.speed, &self.stopping);
        let mut faults = Vec::new();
        let (low, divisor, factor) = (&taper.low_speed_max, &taper.low_speed_divisor, &taper.high_speed_factor);
        if low.value / divisor.value > factor.value {
            faults.push(format!(
                "taper.low_speed_divisor is {} and taper.high_speed_factor is {}; at taper.low_speed_max ({}) the taper of a \
                 faster road would be shorter",
                divisor.value, factor.value, low.value
            ));
        }
        let above = speed.step.value + stopping.table.value.last().map_or(0.0, |row| row.speed);
        let computed = stopping.formula.value.distance(above);
        let last = stopping.table.value.last().map_or(0.0, |row| row.distance);
        if computed < last && above <= speed.greatest.value {
            faults.push(format!(
                "stopping.formula gives {computed:.0} at {above}, less than the {last} of the last row of stopping.table; a \
                 faster road would get a shorter distance"
            ));
        }
        let (low, high) = (&self.advance.urban_low.value, &self.advance.urban_high.value);
        if high.a < low.a || high.b < low.b || high.c < low.c {
            faults.push(
                "advance.urban_high has a distance below that of advance.urban_low; a faster road may not have less"
                    .into(),
            );
        }
        faults
    }

    /// Leasts of the advance warning may be zero.
    fn advance_leasts(&self) -> Vec<String> {
        let advance = &self.advance;
        not_believed([
            ("advance.first_least_stopping_distances", advance.first_least_stopping_distances.value, 0.0, 10.0),
            ("advance.between_least_s", advance.between_least_s.value, 0.0, 60.0),
        ])
    }

    /// How the layout is put onto the real road.
    fn on_the_road(&self, most: &Most) -> Vec<(&'static str, f64, f64)> {
        let placing = &self.placing;
        let (near, along) = (most.feet(1_000.0), most.feet(5_000.0));
        vec![
            ("placing.junction_clear", placing.junction_clear.value, near),
            ("placing.move_step", placing.move_step.value, near),
            ("placing.move_greatest", placing.move_greatest.value, along),
            ("placing.sight_step", placing.sight_step.value, near),
            ("placing.profile_step", placing.profile_step.value, near),
            ("placing.profile_window", placing.profile_window.value, along),
            ("placing.height_error", placing.height_error.value, most.feet(100.0)),
        ]
    }

    /// Every number that has to be above zero, with its field and the most that is believed.
    fn numbers(&self) -> Vec<Number> {
        let most = Most::of(self.units);
        let mut numbers: Vec<Number> = self
            .speeds_and_tapers(&most)
            .into_iter()
            .chain(self.places(&most))
            .chain(self.people_and_times(&most))
            .chain(self.waiting(&most))
            .chain(self.on_the_road(&most))
            .map(|(field, value, most)| Number { field: field.to_owned(), value, most })
            .collect();
        for (kind, AdvanceDistances { a, b, c }) in [
            ("urban_low", self.advance.urban_low.value),
            ("urban_high", self.advance.urban_high.value),
            ("rural", self.advance.rural.value),
            ("expressway", self.advance.expressway.value),
        ] {
            for (letter, value) in [("a", a), ("b", b), ("c", c)] {
                numbers.push(Number { field: format!("advance.{kind}.{letter}"), value, most: most.along });
            }
        }
        for (row, cells) in self.stopping.table.value.iter().enumerate() {
            let field = |cell: &str| format!("stopping.table row {} {cell}", row + 1);
            numbers.push(Number { field: field("speed"), value: cells.speed, most: most.speed });
            numbers.push(Number { field: field("distance"), value: cells.distance, most: most.along });
        }
        for (field, value, most) in self.what_is_seen(&most) {
            numbers.push(Number { field: field.to_owned(), value, most });
        }
        numbers
    }

    fn speeds_and_tapers(&self, most: &Most) -> [(&'static str, f64, f64); 21] {
        let (speed, taper, spacing) = (&self.speed, &self.taper, &self.spacing);
        let formula = &self.stopping.formula.value;
        [
            ("speed.step", speed.step.value, most.mph(20.0)),
            ("speed.greatest", speed.greatest.value, most.speed),
            ("speed.unknown", speed.unknown.value, most.speed),
            ("taper.low_speed_max", taper.low_speed_max.value, most.speed),
            // A divisor that is too large, or braking that is too good, makes a zone too short.
            ("taper.low_speed_divisor", taper.low_speed_divisor.value, 200.0 * most.mph(1.0).powi(2)),
            ("taper.high_speed_factor", taper.high_speed_factor.value, 20.0 / most.mph(1.0)),
            ("taper.round_up", taper.round_up.value, most.feet(100.0)),
            ("taper.shifting_divisor", taper.shifting_divisor.value, 10.0),
            ("taper.shoulder_divisor", taper.shoulder_divisor.value, 10.0),
            ("taper.one_lane_min", taper.one_lane_min.value, most.along),
            ("taper.one_lane_max", taper.one_lane_max.value, most.along),
            ("taper.one_lane", taper.one_lane.value, most.along),
            ("taper.downstream_min", taper.downstream_min.value, most.along),
            ("taper.downstream_max", taper.downstream_max.value, most.along),
            ("taper.downstream", taper.downstream.value, most.along),
            ("stopping.formula.reaction_factor", formula.reaction_factor, most.feet_per_mph(10.0)),
            ("stopping.formula.reaction_s", formula.reaction_s, 30.0),
            ("stopping.formula.braking_factor", formula.braking_factor, 10.0 * most.feet_per_mph(1.0).powi(2)),
            ("stopping.formula.deceleration", formula.deceleration, most.feet(32.2)),
            ("stopping.formula.round_up", formula.round_up, most.feet(100.0)),
            ("spacing.taper_per_speed", spacing.taper_per_speed.value, most.feet_per_mph(10.0)),
        ]
    }

    fn places(&self, most: &Most) -> [(&'static str, f64, f64); 16] {
        let (advance, spacing, across, work) = (&self.advance, &self.spacing, &self.across, &self.work_space);
        [
            ("advance.urban_low_speed_max", advance.urban_low_speed_max.value, most.speed),
            ("advance.end_of_work", advance.end_of_work.value, most.along),
            ("spacing.tangent_per_speed", spacing.tangent_per_speed.value, most.feet_per_mph(10.0)),
            ("spacing.short_taper", spacing.short_taper.value, most.feet(500.0)),
            ("across.open_width_min", across.open_width_min.value, most.lane),
            ("across.work_clearance", across.work_clearance.value, most.lane),
            ("across.sign_offset", across.sign_offset.value, most.across),
            ("across.station_offset", across.station_offset.value, most.across),
            ("across.usable_width_max", across.usable_width_max.value, most.across),
            ("across.lane_width", across.lane_width.value, most.lane),
            ("across.wide_shoulder", across.wide_shoulder.value, most.across),
            ("work_space.margin", work.margin.value, most.along),
            ("work_space.vehicle", work.vehicle.value, most.feet(500.0)),
            ("work_space.roll_ahead", work.roll_ahead.value, most.along),
            ("work_space.share_gap", work.share_gap.value, most.metres(3000.0)),
            ("work_space.work_space_max", work.work_space_max.value, most.metres(10_000.0)),
        ]
    }

    fn what_is_seen(&self, most: &Most) -> [(&'static str, f64, f64); 10] {
        let (sight, flagging) = (&self.sight, &self.flagging);
        [
            ("sight.eye_height", sight.eye_height.value, most.feet(10.0)),
            ("sight.object_height", sight.object_height.value, most.feet(15.0)),
            ("sight.sign_height", sight.sign_height.value, most.feet(15.0)),
            ("sight.sign_seen_s", sight.sign_seen_s.value, 60.0),
            ("sight.sign_seen_min", sight.sign_seen_min.value, most.along),
            ("sight.lateral_clear", sight.lateral_clear.value, most.across),
            ("sight.beyond_stopping_distances", sight.beyond_stopping_distances.value, 10.0),
            ("junctions.approach_within", self.junctions.approach_within.value, most.along),
            ("flagging.self_regulating_work_space_max", flagging.self_regulating_work_space_max.value, most.along),
            ("flagging.without_cones_speed_max", flagging.without_cones_speed_max.value, most.speed),
        ]
    }

    fn waiting(&self, most: &Most) -> [(&'static str, f64, f64); 8] {
        let queue = &self.queue;
        [
            ("queue.busiest_hour_share", queue.busiest_hour_share.value, 1.0),
            ("queue.busier_direction_share", queue.busier_direction_share.value, 1.0),
            ("queue.released_per_hour", queue.released_per_hour.value, 3600.0),
            ("queue.lane_carries_per_hour", queue.lane_carries_per_hour.value, 3600.0),
            ("queue.through_speed", queue.through_speed.value, most.mph(100.0)),
            ("queue.change_s", queue.change_s.value, 600.0),
            ("queue.vehicle_spacing", queue.vehicle_spacing.value, most.feet(200.0)),
            ("queue.longest_stop_min", queue.longest_stop_min.value, 24.0 * 60.0),
        ]
    }

    fn people_and_times(&self, most: &Most) -> [(&'static str, f64, f64); 17] {
        let (flagging, duration, effort) = (&self.flagging, &self.duration, &self.effort);
        [
            ("work_space.shield_from_vehicles", f64::from(self.work_space.shield_from_vehicles.value), 1000.0),
            ("flagging.two_way_flaggers", f64::from(flagging.two_way_flaggers.value), 50.0),
            ("flagging.workers_min", f64::from(flagging.workers_min.value), 100.0),
            ("flagging.low_volume_max_per_day", flagging.low_volume_max_per_day.value, 200_000.0),
            ("flagging.single_flagger_work_space_max", flagging.single_flagger_work_space_max.value, most.along),
            ("duration.short_max_hours", duration.short_max_hours.value, 24.0),
            ("duration.daylight_hours", duration.daylight_hours.value, 24.0),
            ("duration.long_over_hours", duration.long_over_hours.value, 1000.0),
            ("effort.sign_out_s", effort.sign_out_s.value, DEVICE_SECONDS),
            ("effort.sign_in_s", effort.sign_in_s.value, DEVICE_SECONDS),
            ("effort.cone_out_s", effort.cone_out_s.value, DEVICE_SECONDS),
            ("effort.cone_in_s", effort.cone_in_s.value, DEVICE_SECONDS),
            ("effort.station_out_s", effort.station_out_s.value, DEVICE_SECONDS),
            ("effort.station_in_s", effort.station_in_s.value, DEVICE_SECONDS),
            ("effort.walking_speed", effort.walking_speed.value, most.mph(10.0)),
            ("effort.driving_speed", effort.driving_speed.value, most.mph(100.0)),
            ("effort.turn_s", effort.turn_s.value, DEVICE_SECONDS),
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
