//! Cautions for binder, cover stone and weather.

use model::district::{Applicator, Binder, BinderKind, CoverStone, Plant};
use model::quantity::InLength;
use model::rules::repair::{GradeRules, RepairRules};

use crate::seal::opening;
use crate::seal::product::{below_least, grade};

/// What always holds when a seal is laid, then what its own materials, plant and weather call for.
pub(crate) fn for_seal(
    stone: &CoverStone,
    binder: &Binder,
    plant: &Plant,
    surface_c: Option<f64>,
    rules: &RepairRules,
) -> Vec<String> {
    let words = &rules.caution;
    let mut said = [&words.traffic, &words.hot_binder, &words.drains, &words.dust, &words.weather]
        .map(|caution| caution.value.clone())
        .to_vec();
    said.extend(cold_surface(surface_c, rules));
    said.extend(for_binder(binder, rules));
    said.extend(for_applicator(plant, rules));
    said.extend(for_stone(stone, rules));
    said.push(for_opening(binder, rules));
    said
}

/// First traffic by temperature, and that nobody's timetable counts the wait.
pub(super) fn for_opening(binder: &Binder, rules: &RepairRules) -> String {
    let practice = opening::practice(binder.kind, &rules.opening);
    let rows = practice.open_after.value.iter();
    let waits: Vec<String> =
        rows.map(|row| format!("{:.0} min on a surface from {:.0} °C", row.minutes, row.from_c)).collect();
    format!(
        "Opening: first traffic after the last stone not before {} ({}), then at most {:.0} km/h for {:.0} h. The timetable \
         does not count the wait: traffic control stays until no stone turns under a steered wheel. The person authorised \
         under the local traffic-control code decides.",
        waits.join(", "),
        practice.open_after.source,
        practice.speed_km_per_h.value,
        practice.slow_for_h.value
    )
}

/// Said where the surface was measured and is colder than any that is sealed.
fn cold_surface(surface_c: Option<f64>, rules: &RepairRules) -> Option<String> {
    let least = &rules.opening.least_surface_c;
    let surface = surface_c.filter(|surface| *surface < least.value)?;
    Some(format!("Surface at {surface} °C is colder than {} °C ({}): do not seal.", least.value, least.source))
}

pub(super) fn for_applicator(plant: &Plant, rules: &RepairRules) -> Option<String> {
    (plant.applicator == Applicator::PouringPot).then(|| rules.caution.pouring_pot.value.clone())
}

pub(super) fn for_stone(stone: &CoverStone, rules: &RepairRules) -> Option<String> {
    let greatest = rules.seal.greatest_stone_m.value;
    (stone.nominal_size.in_metres() > greatest + 1e-9).then(|| {
        format!(
            "Cover stone of {:.0} mm is coarser than {:.0} mm, the most for a single layer.",
            stone.nominal_size.in_millimetres(),
            greatest * 1000.0
        )
    })
}

pub(super) fn for_binder(binder: &Binder, rules: &RepairRules) -> Vec<String> {
    let found = grade(&binder.grade, rules);
    let mut said = Vec::new();
    match binder.kind {
        // Always for cutback, whatever the temperature: every grade is sprayed near or above its flash point.
        BinderKind::Cutback => {
            said.push(rules.caution.cutback_fire.value.clone());
            said.push(rules.caution.cutback_vapour.value.clone());
            if let Some(flash) = found.and_then(|(_, grade)| grade.least_flash_c.as_ref()) {
                said.push(format!(
                    "{}: spraying temperature {:.0} °C, flash point may be as low as {:.0} °C ({}).",
                    binder.grade, binder.spray_temperature_c, flash.value, flash.source
                ));
            }
        }
        BinderKind::Emulsion => said.push(rules.caution.emulsion.value.clone()),
    }
    match found {
        Some((name, grade)) => {
            if !name.eq_ignore_ascii_case(binder.grade.trim()) {
                said.push(format!(
                    "{}: taken as {name}; what was added may change its spraying window, the supplier's data sheet decides.",
                    binder.grade
                ));
            }
            said.extend(outside_window(binder, grade));
            said.extend(below_least(binder, grade, rules));
        }
        None => said.push(format!(
            "{}: no spraying window is known for this grade; take the supplier's data sheet.",
            binder.grade
        )),
    }
    said
}

fn outside_window(binder: &Binder, grade: &GradeRules) -> Vec<String> {
    let mut said = Vec::new();
    let name = &binder.grade;
    let hot = binder.spray_temperature_c;
    let [from, to] = grade.spray_window_c.value;
    if grade.kind != binder.kind {
        said.push(format!("{name}: the district says {}, the grade is {}.", kind(binder.kind), kind(grade.kind)));
    }
    if hot > grade.greatest_c.value {
        said.push(format!(
            "{name}: spraying temperature {hot:.0} °C is over the greatest allowed, {:.0} °C ({}). Do not heat to it.",
            grade.greatest_c.value, grade.greatest_c.source
        ));
    } else if hot < from || hot > to {
        said.push(format!(
            "{name}: spraying temperature {hot:.0} °C is outside {from:.0} to {to:.0} °C ({}).",
            grade.spray_window_c.source
        ));
    }
    said
}

fn kind(kind: BinderKind) -> &'static str {
    match kind {
        BinderKind::Cutback => "cutback",
        BinderKind::Emulsion => "emulsion",
    }
}
