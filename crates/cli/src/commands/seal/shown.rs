//! A seal as a table or as JSON.

use model::figure::Figure;
use model::quantity::{
    InLength, InMass, InRatio, InTime, InVelocity, InVolume, KilogramsPerSquareMetre, LitresPerSquareMetre, Time,
    Volume,
};
use repair::seal::{SealDesign, containers};
use serde_json::{Value, json};

use super::Done;
use crate::show::{FigureTable, figure_json};

pub(super) fn print(done: &Done, why: bool) {
    print_tests(done);
    let SealDesign { rates, .. } = &done.design;
    let mut table = FigureTable::with_working(why);
    table.heading("Stone");
    table.figure("average least dimension", &rates.least_dimension, |h| format!("{:.2} mm", h.in_millimetres()));
    table.heading(&format!("Rates by the method of {}", rates.method.words()));
    rate_rows(&mut table, &done.design);
    table.figure("residue by volume", &rates.residue, |r| format!("{:.1} %", r.in_percent()));
    table.figure("binder on the base", &rates.binder_on_base, litres_per_m2);
    table.figure("binder on the old seal", &rates.binder_on_overlap, litres_per_m2);
    if done.has_area {
        quantities(&mut table, &done.design);
    }
    if let Some(other) = &done.other {
        table.heading(&format!("For comparison, by the method of {}", other.rates.method.words()));
        rate_rows(&mut table, other);
    }
    opening(&mut table, &done.design);
    table.print();
    say!("\nCautions:");
    for caution in &done.design.cautions {
        say!("- {caution}");
    }
}

fn print_tests(done: &Done) {
    if let Some(found) = &done.tests.measured {
        say!(
            "{} particles: mean {:.1} mm, standard error {:.2} mm",
            found.count,
            found.mean.in_millimetres(),
            found.standard_error.in_millimetres()
        );
    }
    if let Some(flakiness) = done.tests.flakiness_percent {
        say!("flakiness index {flakiness:.1} %");
    }
    if let Some(median) = done.tests.median_mm {
        say!("median size {median:.2} mm");
    }
}

fn rate_rows(table: &mut FigureTable, design: &SealDesign) {
    let residual = &design.rates.residual;
    table.figure("residual binder on the base", &residual.on_base, litres_per_m2);
    table.figure("residual binder on the old seal", &residual.on_overlap, litres_per_m2);
    table.figure("cover stone", &residual.stone, |c: KilogramsPerSquareMetre| format!("{:.1} kg/m2", c.0));
}

fn quantities(table: &mut FigureTable, design: &SealDesign) {
    let litre = |v: Volume| format!("{:.2} L", v.in_litres());
    table.heading("Quantities");
    table.figure("binder at 15 °C", &design.binder_volume, litre);
    table.figure("binder, hot", &design.binder_volume_hot, litre);
    let filled = &design.binder_containers;
    let words = containers::words(&filled.value, |v| format!("{:.1} L", v.in_litres()));
    table.figure("binder, filled", &Figure::exact(words.as_str(), filled.why.clone()), str::to_owned);
    table.figure("cover stone", &design.cover_mass, |m| format!("{:.1} kg", m.in_kilograms()));
    table.figure("cover stone, loose", &design.cover_volume, litre);
}

fn opening(table: &mut FigureTable, design: &SealDesign) {
    let opening = &design.opening;
    let hour = |t: Time| format!("{:.0} h", t.in_hours());
    table.heading("Opening to traffic, from the last stone");
    table.figure("open after", &opening.open_after, |t| format!("{:.0} min", t.in_minutes()));
    table.figure("first speed", &opening.speed, |v| format!("{:.0} km/h", v.in_kilometres_per_hour()));
    table.figure("that speed for", &opening.slow_for, hour);
    table.figure("sweep after", &opening.sweep_after, hour);
    table.figure("sweep again after", &opening.sweep_again_after, hour);
}

fn litres_per_m2(rate: LitresPerSquareMetre) -> String {
    format!("{:.2} L/m2", rate.0)
}

pub(super) fn print_json(done: &Done) {
    let mut object = design_json(&done.design, done.has_area);
    object["cautions"] = json!(done.design.cautions);
    if let Some(found) = &done.tests.measured {
        object["measured"] = json!({
            "particles": found.count,
            "mean_mm": found.mean.in_millimetres(),
            "standard_error_mm": found.standard_error.in_millimetres(),
        });
    }
    if let Some(other) = &done.other {
        object["comparison"] = rates_json(other);
    }
    crate::show::print_json(&object);
}

fn rates_json(design: &SealDesign) -> Value {
    let rates = &design.rates;
    json!({
        "method": rates.method.words(),
        "least_dimension_mm": figure_json(&rates.least_dimension, InLength::in_millimetres),
        "residual_on_base_l_per_m2": figure_json(&rates.residual.on_base, |r| r.0),
        "residual_on_old_seal_l_per_m2": figure_json(&rates.residual.on_overlap, |r| r.0),
        "residue_by_volume": figure_json(&rates.residue, InRatio::in_fraction),
        "binder_on_base_l_per_m2": figure_json(&rates.binder_on_base, |r| r.0),
        "binder_on_old_seal_l_per_m2": figure_json(&rates.binder_on_overlap, |r| r.0),
        "cover_rate_kg_per_m2": figure_json(&rates.residual.stone, |r| r.0),
    })
}

fn design_json(design: &SealDesign, has_area: bool) -> Value {
    let mut object = rates_json(design);
    if has_area {
        object["binder_volume_l"] = figure_json(&design.binder_volume, InVolume::in_litres);
        object["binder_volume_hot_l"] = figure_json(&design.binder_volume_hot, InVolume::in_litres);
        object["cover_mass_kg"] = figure_json(&design.cover_mass, InMass::in_kilograms);
        object["cover_volume_l"] = figure_json(&design.cover_volume, InVolume::in_litres);
        let filled = &design.binder_containers;
        let counts = filled
            .value
            .counts
            .iter()
            .map(|count| json!({ "name": count.name, "volume_l": count.volume.in_litres(), "count": count.count }));
        object["binder_containers"] = json!({
            "counts": counts.collect::<Vec<_>>(),
            "left_over_l": filled.value.left_over.in_litres(),
            "why": filled.why.to_string(),
        });
    }
    let opening = &design.opening;
    object["opening"] = json!({
        "open_after_min": figure_json(&opening.open_after, InTime::in_minutes),
        "speed_km_per_h": figure_json(&opening.speed, InVelocity::in_kilometres_per_hour),
        "slow_for_h": figure_json(&opening.slow_for, InTime::in_hours),
        "sweep_after_h": figure_json(&opening.sweep_after, InTime::in_hours),
        "sweep_again_after_h": figure_json(&opening.sweep_again_after, InTime::in_hours),
    });
    object
}
