//! What no single value shows: values that contradict each other.

use jiff::civil::Time as ClockTime;
use model::district::{Cargo, Compartment, Liquid, ShiftBreak, Tank};
use model::problem::ProblemSeverity::{Refused, Warning};
use model::quantity::{InLength, InMassDensity, InTime, Length, MassDensity};

use super::section::{Absent, Section};

/// The time zone, known to the zone database.
pub fn time_zone(file: &mut Section) -> Option<String> {
    let zone = file.text("time_zone", Absent::IsWrong)?;
    if jiff::tz::TimeZone::get(&zone).is_ok() {
        return Some(zone);
    }
    file.report(
        Refused,
        "district.time_zone.unknown",
        "time_zone",
        format!("`{zone}` is not in the zone database"),
        "write an IANA name, e.g. \"Etc/GMT+2\" (two hours west of Greenwich; the sign is the standard's own)".into(),
    );
    None
}

/// `later` must be after `earlier`, on the same day.
pub fn after(
    section: &Section,
    earlier: (&str, Option<ClockTime>),
    later: (&str, Option<ClockTime>),
    code: &'static str,
) {
    let (Some(from), Some(to)) = (earlier.1, later.1) else { return };
    if to <= from {
        let wrong = format!("`{}` {} is not after `{}` {}", later.0, hm(to), earlier.0, hm(from));
        section.report(Refused, code, later.0, wrong, "write times of one day, the earlier first".into());
    }
}

/// `later` must not be before `earlier`.
pub fn not_before(
    section: &Section,
    earlier: (&str, Option<ClockTime>),
    later: (&str, Option<ClockTime>),
    code: &'static str,
) {
    if earlier.1.is_some() && earlier.1 == later.1 {
        return;
    }
    after(section, earlier, later, code);
}

/// The break must lie inside the shift.
pub fn rest_in_shift(section: &Section, rest: &ShiftBreak, start: ClockTime, end: ClockTime) {
    let minute = |time: ClockTime| f64::from(time.hour()) * 60.0 + f64::from(time.minute());
    if rest.earliest < start || minute(rest.latest) + rest.length.in_minutes() > minute(end) {
        let right = format!("let it begin at {} or later and end by {}", hm(start), hm(end));
        section.report(
            Refused,
            "district.rest.outside_shift",
            "rest",
            "the break is not inside the shift".into(),
            right,
        );
    }
}

/// A latitude beyond the poles with a longitude that could be one: the two are swapped.
pub fn swapped_coordinates(section: &Section) {
    let number = |key| section.bare_number(key);
    let (Some(lon), Some(lat)) = (number("lon"), number("lat")) else { return };
    if lat.abs() > 90.0 && lat.abs() <= 180.0 && lon.abs() <= 90.0 {
        section.report(
            Refused,
            "district.depot.swapped",
            "lat",
            format!("no place has latitude {lat}; longitude {lon} and latitude {lat} look swapped"),
            format!("lon = {lat}, lat = {lon}?"),
        );
    }
}

/// Cover stone must stay clean, so it lies alone.
pub fn goods_may_lie_together(section: &Section, holds: &[Cargo]) {
    let mut sorted: Vec<&str> = holds.iter().map(|cargo| cargo_word(*cargo)).collect();
    sorted.sort_unstable();
    let allowed: [&[&str]; 4] = [&["base"], &["spoil"], &["cover_stone"], &["base", "spoil"]];
    if !allowed.contains(&sorted.as_slice()) {
        section.report(
            Refused,
            "district.compartment.mixed",
            "holds",
            format!("a compartment can't hold [{}]", sorted.join(", ")),
            "[\"base\"], [\"spoil\"], [\"cover_stone\"], or [\"base\", \"spoil\"] behind a movable partition".into(),
        );
    }
}

/// Base, spoil and cover stone each need room.
pub fn every_cargo_has_room(section: &Section, compartments: &[Compartment]) {
    for cargo in [Cargo::Base, Cargo::Spoil, Cargo::CoverStone] {
        if !compartments.iter().any(|compartment| compartment.holds.contains(&cargo)) {
            let word = cargo_word(cargo);
            section.report(
                Refused,
                "district.truck.no_room",
                "compartments",
                format!("no compartment holds {word}"),
                format!("add a [[{}.compartments]] with holds = [\"{word}\"]", section.path()),
            );
        }
    }
}

/// Binder and water each need a tank.
pub fn every_liquid_has_a_tank(section: &Section, tanks: &[Tank]) {
    for (liquid, word) in [(Liquid::Binder, "binder"), (Liquid::Water, "water")] {
        if !tanks.iter().any(|tank| tank.holds == liquid) {
            section.report(
                Refused,
                "district.truck.no_tank",
                "tanks",
                format!("no tank holds {word}"),
                format!("add a [[{}.tanks]] with holds = \"{word}\"", section.path()),
            );
        }
    }
}

/// Loose material is lighter than the same material packed or solid.
pub fn loose_is_lighter(section: &Section, loose: MassDensity, dense: MassDensity, dense_key: &str) {
    if loose >= dense {
        section.report(
            Refused,
            "district.density.loose_not_lighter",
            "",
            format!(
                "the loose density ({:.0} kg/m3) is not below `{dense_key}` ({:.0} kg/m3)",
                loose.in_kilograms_per_cubic_metre(),
                dense.in_kilograms_per_cubic_metre()
            ),
            "loose material is lighter than the same material packed; look at both".into(),
        );
    }
}

/// Median size and average least dimension are not above the nominal size.
pub fn smaller_than_nominal(section: &Section, key: &str, size: Option<Length>, nominal: Option<Length>) {
    let (Some(size), Some(nominal)) = (size, nominal) else { return };
    if size > nominal {
        section.report(
            Warning,
            "district.cover_stone.size_doubtful",
            "",
            format!(
                "`{key}` {:.1} mm is above the nominal size {:.1} mm",
                size.in_millimetres(),
                nominal.in_millimetres()
            ),
            "look at both; the nominal size is that of the largest stones".into(),
        );
    }
}

fn cargo_word(cargo: Cargo) -> &'static str {
    match cargo {
        Cargo::Base => "base",
        Cargo::Spoil => "spoil",
        Cargo::CoverStone => "cover_stone",
    }
}

fn hm(time: ClockTime) -> String {
    format!("{:02}:{:02}", time.hour(), time.minute())
}
