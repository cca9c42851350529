//! `lengthsman water`: water for one batch of base.

use std::path::PathBuf;

use exchange::limits::believed;
use exchange::measure::{read_mass, read_share, read_volume};
use model::moisture::{BatchSize, BatchWater, HandFeel, KnownMoisture};
use model::quantity::{InArea, InMass, InMassDensity, InRatio, InVolume, Mass, Ratio, Volume};
use repair::moisture::{batch_faults, batch_water};
use serde_json::json;

use super::proctor::remarks;
use super::weather::WeatherFlags;
use crate::input;
use crate::outcome::Outcome;
use crate::report;
use crate::show::{FigureTable, figure_json, print_json};

#[derive(Debug, clap::Args)]
#[command(after_help = "Examples: lengthsman water --moist-mass 96kg --moisture 4%\n          \
lengthsman water --loose-volume 60L --hand falls-apart --air-temperature 31C --wind 20km/h --humidity 30%")]
pub(crate) struct Arguments {
    /// Mass of the batch with the water in it.
    #[arg(long, value_parser = read_mass, allow_hyphen_values = true, required_unless_present = "loose_volume", conflicts_with = "loose_volume")]
    moist_mass: Option<Mass>,
    /// Loose volume of the batch, moist as it lies: a barrow, a mixer.
    #[arg(long, value_parser = read_volume, allow_hyphen_values = true)]
    loose_volume: Option<Volume>,
    /// Measured moisture, water over dry mass. It wins over the hand.
    #[arg(long, value_parser = read_share, allow_hyphen_values = true, required_unless_present = "hand")]
    moisture: Option<Ratio>,
    /// How it behaves when squeezed in the hand.
    #[arg(long)]
    hand: Option<Hand>,
    /// Optimum moisture; without it the district's.
    #[arg(long, value_parser = read_share, allow_hyphen_values = true)]
    optimum: Option<Ratio>,
    #[command(flatten)]
    weather: WeatherFlags,
    /// District file with the base and the rules; without it neutral defaults are used.
    #[arg(long)]
    district: Option<PathBuf>,
    /// Print under each figure how it was worked out and what that rests on.
    #[arg(long)]
    why: bool,
    /// JSON with SI units in the field names.
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Clone, Copy, clap::ValueEnum)]
enum Hand {
    /// Dry of the optimum.
    FallsApart,
    /// Near the optimum.
    KeepsShape,
    /// Wet of the optimum.
    Oozes,
}

pub(crate) fn run(arguments: &Arguments) -> Outcome {
    let (district, rules) = match input::setting_or_defaults(arguments.district.as_deref()) {
        Ok(found) => found,
        Err(problems) => {
            report::print(&problems);
            return Outcome::NothingProduced;
        }
    };
    let mut base = district.base;
    if let Some(optimum) = arguments.optimum {
        base.optimum_moisture = optimum;
    }
    let size = match (arguments.moist_mass, arguments.loose_volume) {
        (Some(mass), _) => BatchSize::MoistMass(mass),
        (None, volume) => BatchSize::LooseVolume(volume.unwrap_or_default()),
    };
    let known = KnownMoisture {
        measured: arguments.moisture,
        hand: arguments.hand.map(|hand| match hand {
            Hand::FallsApart => HandFeel::FallsApart,
            Hand::KeepsShape => HandFeel::KeepsShape,
            Hand::Oozes => HandFeel::Oozes,
        }),
    };
    let weather = arguments.weather.or(district.weather);
    let mut faults = not_believed(arguments);
    if faults.is_empty() {
        faults = batch_faults(size, known, weather, &base).iter().map(ToString::to_string).collect();
    }
    if !faults.is_empty() {
        for fault in faults {
            eprintln!("{fault}");
        }
        return Outcome::WrongUsage;
    }
    let Some(found) = batch_water(size, known, weather, &base, &rules.repair.moisture) else {
        eprintln!("give the moisture, measured (--moisture) or by the hand (--hand)");
        return Outcome::WrongUsage;
    };
    if arguments.json {
        print_json(&found_json(&found));
        return Outcome::AllUsed;
    }
    print(&found, arguments.why);
    say!("\nBase: {}, loose density {:.0} kg/m3 moist", base.name, base.loose_density.in_kilograms_per_cubic_metre());
    Outcome::AllUsed
}

/// What a slip of the pen or of the unit must have made.
fn not_believed(arguments: &Arguments) -> Vec<String> {
    let values = [
        ("batch", "moist_mass", "moist mass", arguments.moist_mass.map(InMass::in_kilograms)),
        ("batch", "loose_volume", "loose volume", arguments.loose_volume.map(InVolume::in_litres)),
        ("base", "stock_moisture", "moisture", arguments.moisture.map(InRatio::in_percent)),
        ("base", "optimum_moisture", "optimum moisture", arguments.optimum.map(InRatio::in_percent)),
    ];
    let wrong = |(table, name, what, value): (&str, &str, &str, Option<f64>)| believed(table, name, what, value?).err();
    values.into_iter().filter_map(wrong).collect()
}

fn print(found: &BatchWater, why: bool) {
    let kilogram = |mass: Mass| format!("{:.1} kg", mass.in_kilograms());
    let litre = |mass: Mass| format!("{:.1} L", mass.in_kilograms());
    let mut table = FigureTable::of_measurements(why);
    table.figure("batch, moist", &found.moist_mass, kilogram);
    table.figure("moisture", &found.moisture, |w| format!("{:.1} %", w.in_percent()));
    table.figure("batch, dry", &found.dry_mass, kilogram);
    if let (Some(surface), Some(loss)) = (&found.open_surface, &found.drying_loss) {
        table.figure("open surface", surface, |a| format!("{:.2} m2", a.in_square_metres()));
        table.figure("dries off", loss, litre);
    }
    table.figure("water to add", &found.water_to_add, litre);
    table.figure("water to dry out", &found.water_to_dry, litre);
    table.print();
    remarks(&found.remarks);
}

fn found_json(found: &BatchWater) -> serde_json::Value {
    let mass = |figure: &model::figure::Figure<Mass>| figure_json(figure, InMass::in_kilograms);
    json!({
        "moist_mass_kg": mass(&found.moist_mass),
        "moisture_percent": figure_json(&found.moisture, InRatio::in_percent),
        "dry_mass_kg": mass(&found.dry_mass),
        "open_surface_m2": found.open_surface.as_ref().map(|a| figure_json(a, InArea::in_square_metres)),
        "drying_loss_kg": found.drying_loss.as_ref().map(mass),
        "water_to_add_kg": mass(&found.water_to_add),
        "water_to_dry_kg": mass(&found.water_to_dry),
        "remarks": found.remarks,
    })
}
