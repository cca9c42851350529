//! `lengthsman field-density`: density in place by sand replacement.

use std::path::PathBuf;

use exchange::limits::believed;
use exchange::measure::{read_density, read_mass, read_share};
use model::quantity::{InMass, InMassDensity, InRatio, InVolume, Mass, MassDensity, Ratio};
use model::soil::{FieldDensity, FieldDensityReading};
use serde_json::json;
use soil::field_density::{faults, field_density};

use super::proctor::remarks;
use super::soil_rules::soil_rules;
use crate::outcome::Outcome;
use crate::report;
use crate::show::{FigureTable, figure_json, print_json};

#[derive(Debug, clap::Args)]
#[command(
    after_help = "Example: lengthsman field-density --sand-before 7500g --sand-after 3350g --sand-in-cone 1550g \
--sand-density 1.45g/cm3 --soil 3870g --moisture 6.2% --maximum 2150kg/m3 --required 95%"
)]
pub(crate) struct Arguments {
    /// Sand in the apparatus before.
    #[arg(long, value_parser = read_mass, allow_hyphen_values = true)]
    sand_before: Mass,
    /// Sand in the apparatus after.
    #[arg(long, value_parser = read_mass, allow_hyphen_values = true)]
    sand_after: Mass,
    /// Sand that fills the cone, by calibration.
    #[arg(long, value_parser = read_mass, allow_hyphen_values = true)]
    sand_in_cone: Mass,
    /// Density of the poured sand, by calibration.
    #[arg(long, value_parser = read_density, allow_hyphen_values = true)]
    sand_density: MassDensity,
    /// Moist soil dug from the hole.
    #[arg(long, value_parser = read_mass, allow_hyphen_values = true)]
    soil: Mass,
    /// Its moisture, water over dry mass.
    #[arg(long, value_parser = read_share, allow_hyphen_values = true)]
    moisture: Ratio,
    /// Maximum dry density of the laboratory.
    #[arg(long, value_parser = read_density, allow_hyphen_values = true)]
    maximum: MassDensity,
    /// Degree of compaction that the specification asks for.
    #[arg(long, value_parser = read_share, allow_hyphen_values = true)]
    required: Ratio,
    /// District file whose folder may hold the agency's own `soil` rules.
    #[arg(long)]
    district: Option<PathBuf>,
    /// Print under each figure how it was worked out and what that rests on.
    #[arg(long)]
    why: bool,
    /// JSON with SI units in the field names.
    #[arg(long)]
    json: bool,
}

pub(crate) fn run(arguments: &Arguments) -> Outcome {
    let rules = match soil_rules(arguments.district.as_deref()) {
        Ok(rules) => rules,
        Err(problems) => {
            report::print(&problems);
            return Outcome::NothingProduced;
        }
    };
    let reading = FieldDensityReading {
        sand_before: arguments.sand_before,
        sand_after: arguments.sand_after,
        sand_in_cone: arguments.sand_in_cone,
        sand_density: arguments.sand_density,
        soil: arguments.soil,
        moisture: arguments.moisture,
        maximum_dry_density: arguments.maximum,
        required: arguments.required,
    };
    let mut faults = faults(&reading);
    if faults.is_empty() {
        faults = not_believed(&reading);
    }
    if !faults.is_empty() {
        for fault in faults {
            eprintln!("{fault}");
        }
        return Outcome::WrongUsage;
    }
    let found = field_density(&reading, &rules);
    // Whatever the verdict on it would be: such a soil there is not.
    let dry = found.dry_density.value.in_kilograms_per_cubic_metre();
    if let Err(wrong) = believed("specimen", "density", "dry density found", dry) {
        eprintln!("{wrong}; look at the weighings and their units");
        return Outcome::WrongUsage;
    }
    if arguments.json {
        print_json(&found_json(&found));
    } else {
        print(&found, arguments.why);
    }
    Outcome::AllUsed
}

/// Readings that a slip of the unit must have made: they would pass or fail a layer for nothing.
fn not_believed(reading: &FieldDensityReading) -> Vec<String> {
    let density = InMassDensity::in_kilograms_per_cubic_metre;
    let [sand, soil, base] = ["field_density", "specimen", "base"];
    let values = [
        (sand, "sand", "sand before", reading.sand_before.in_kilograms()),
        (sand, "sand", "sand after", reading.sand_after.in_kilograms()),
        (sand, "sand", "sand in the cone", reading.sand_in_cone.in_kilograms()),
        (sand, "sand_density", "sand density", density(reading.sand_density)),
        (sand, "soil", "soil from the hole", reading.soil.in_kilograms()),
        (soil, "moisture", "moisture", reading.moisture.in_percent()),
        (base, "maximum_dry_density", "maximum dry density", density(reading.maximum_dry_density)),
        (sand, "required", "degree asked for", reading.required.in_percent()),
    ];
    values.into_iter().filter_map(|(table, name, what, value)| believed(table, name, what, value).err()).collect()
}

fn print(found: &FieldDensity, why: bool) {
    let density = |value: MassDensity| format!("{:.0} kg/m3", value.in_kilograms_per_cubic_metre());
    let mut table = FigureTable::of_measurements(why);
    table.figure("volume of the hole", &found.hole_volume, |v| format!("{:.0} cm3", 1e6 * v.in_cubic_metres()));
    table.figure("wet density", &found.wet_density, density);
    table.figure("dry density", &found.dry_density, density);
    table.figure("degree of compaction", &found.degree_of_compaction, |k| format!("{:.1} %", k.in_percent()));
    table.print();
    let required = found.required.in_percent();
    say!("\nAgainst {required:.1} % asked for: {}", found.verdict.words());
    remarks(&found.remarks);
}

fn found_json(found: &FieldDensity) -> serde_json::Value {
    json!({
        "hole_volume_m3": figure_json(&found.hole_volume, InVolume::in_cubic_metres),
        "wet_density_kg_per_m3": figure_json(&found.wet_density, InMassDensity::in_kilograms_per_cubic_metre),
        "dry_density_kg_per_m3": figure_json(&found.dry_density, InMassDensity::in_kilograms_per_cubic_metre),
        "degree_of_compaction_percent": figure_json(&found.degree_of_compaction, InRatio::in_percent),
        "required_percent": found.required.in_percent(),
        "passes": found.verdict.is_pass(),
        "verdict": found.verdict.words(),
        "remarks": found.remarks,
    })
}
