//! The cautions that go with a repair: they show and defer, they never decide.

use model::district::{Applicator, Binder, BinderKind};
use model::quantity::{InLength, InRatio};
use model::rules::repair::{GradeRules, RepairRules};

use crate::input::RepairInput;

/// Every caution for this repair: what always holds, then what its own materials and plant call for.
pub fn cautions(input: &RepairInput, rules: &RepairRules) -> Vec<String> {
    let mut said = always(rules);
    said.extend(for_binder(input.binder, rules));
    if input.plant.applicator == Applicator::PouringPot {
        said.push(rules.caution.pouring_pot.value.clone());
    }
    said.extend(for_stone_and_base(input, rules));
    said
}

fn always(rules: &RepairRules) -> Vec<String> {
    let words = &rules.caution;
    [
        &words.traffic,
        &words.buried_services,
        &words.dust,
        &words.vibration,
        &words.manual_handling,
        &words.hot_binder,
        &words.drains,
        &words.heat,
        &words.weather,
    ]
    .map(|caution| caution.value.clone())
    .to_vec()
}

fn for_binder(binder: &Binder, rules: &RepairRules) -> Vec<String> {
    let found = grade_rules(&binder.grade, rules);
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

fn for_stone_and_base(input: &RepairInput, rules: &RepairRules) -> Vec<String> {
    let mut said = Vec::new();
    let greatest = rules.seal.greatest_stone_m.value;
    if input.cover_stone.nominal_size.in_metres() > greatest + 1e-9 {
        said.push(format!(
            "Cover stone of {:.0} mm is coarser than {:.0} mm, the most for a single layer.",
            input.cover_stone.nominal_size.in_millimetres(),
            greatest * 1000.0
        ));
    }
    if input.base.stock_moisture > input.base.optimum_moisture {
        said.push(format!(
            "The base stock at {:.1} % is wet of the optimum, {:.1} %: spread it and let it dry before compacting.",
            input.base.stock_moisture.in_percent(),
            input.base.optimum_moisture.in_percent()
        ));
    }
    said
}

/// The grade's designation and rules; capitals do not matter (`CRS-2H` is `CRS-2h`), nor words after the designation
/// (`CRS-2 polymer` is taken as `CRS-2`, which is said). Only whole words count: `CRS-2X` is not `CRS-2`.
fn grade_rules<'a>(name: &str, rules: &'a RepairRules) -> Option<(&'a str, &'a GradeRules)> {
    let named = |name: &str| rules.grade.iter().find(|(key, _)| key.eq_ignore_ascii_case(name));
    let first_word = || name.split(|c: char| c.is_whitespace() || ",;(".contains(c)).find(|word| !word.is_empty());
    named(name.trim()).or_else(|| named(first_word()?)).map(|(key, grade)| (key.as_str(), grade))
}

fn kind(kind: BinderKind) -> &'static str {
    match kind {
        BinderKind::Cutback => "cutback",
        BinderKind::Emulsion => "emulsion",
    }
}
