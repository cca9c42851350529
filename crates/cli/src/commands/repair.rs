//! `lengthsman repair`: one hole, without a list.

use std::path::PathBuf;

use exchange::holes::{Dimension, read_size};
use model::cut_out::FrameOutline;
use model::district::UnitSystem;
use model::figure::{Figure, Source, Why};
use model::hole::{EarlierRepairs, HoleId, Wetness};
use model::patch::PatchDecision;
use model::place::FramePoint;
use model::problem::Locator;
use model::quantity::{InArea, InLength, InMass, InTime, InVelocity, InVolume, Length};
use model::repair::Repair;
use model::rules::repair::RepairRules;
use repair::RepairInput;
use triage::{FoundAtHole, PatchInput};

use super::weather::WeatherFlags;
use crate::input;
use crate::outcome::Outcome;
use crate::report;
use crate::show::{FigureTable, Table, print_json};

#[derive(Debug, clap::Args)]
#[command(
    after_help = "Lengths carry their unit: 1.2m, 80cm, 220mm, 8in, 2ft. The figures are for the hole as surveyed; \
the range is what it may turn out to be once dug (one in ten below, one in ten above)."
)]
pub(crate) struct Arguments {
    /// Length of the hole.
    #[arg(long, value_parser = length, allow_hyphen_values = true)]
    length: Length,
    /// Width of the hole.
    #[arg(long, value_parser = width, allow_hyphen_values = true)]
    width: Length,
    /// Depth of the hole.
    #[arg(long, value_parser = depth, allow_hyphen_values = true)]
    depth: Length,
    /// The length and width given are those of a cut already marked out: nothing is added around it.
    #[arg(long)]
    as_cut: bool,
    /// Vehicles a day, both ways.
    #[arg(long)]
    vehicles_per_day: Option<f64>,
    /// How wet the hole and its base are: dry, damp, wet, seepage, pumping.
    #[arg(long, value_parser = super::wetness)]
    wetness: Option<Wetness>,
    /// Repairs made at this place before.
    #[arg(long, default_value_t = 0)]
    repairs: u32,
    #[command(flatten)]
    weather: WeatherFlags,
    /// District file with the plant and materials; without it neutral defaults are used.
    #[arg(long)]
    district: Option<PathBuf>,
    /// Print under each figure how it was worked out and what that rests on.
    #[arg(long)]
    why: bool,
    /// JSON with SI units in the field names.
    #[arg(long)]
    json: bool,
}

fn length(text: &str) -> Result<Length, String> {
    size(Dimension::Length, text)
}

fn width(text: &str) -> Result<Length, String> {
    size(Dimension::Width, text)
}

fn depth(text: &str) -> Result<Length, String> {
    size(Dimension::Depth, text)
}

/// A size with the same limits as a cell of a hole list.
fn size(dimension: Dimension, text: &str) -> Result<Length, String> {
    read_size(dimension, text, &Locator::default()).map_err(|problem| format!("{}; {}", problem.wrong, problem.right))
}

pub(crate) fn run(arguments: &Arguments) -> Outcome {
    let (mut district, rules) = match input::setting_or_defaults(arguments.district.as_deref()) {
        Ok(found) => found,
        Err(problems) => {
            report::print(&problems);
            return Outcome::NothingProduced;
        }
    };
    district.weather = arguments.weather.or(district.weather);
    let middle = FramePoint { along_m: 0.0, across_m: 0.0 };
    let ring = markout::size_ring(arguments.length, arguments.width, middle);
    let outline = FrameOutline { hole: HoleId("hole".into()), ring };
    let mut mark_out_rules = rules.mark_out.clone();
    if arguments.as_cut {
        mark_out_rules.margin_m.value = 0.0;
        mark_out_rules.smallest_side_m.value = 0.0;
    }
    let cut = match markout::mark_out(&[outline], &markout::Pavement::without_edges(), &mark_out_rules) {
        Ok(mut cuts) => cuts.remove(0),
        Err(error) => {
            eprintln!("the hole can't be marked out: {error}");
            return Outcome::WrongUsage;
        }
    };
    // How much of the hole is already open is not known from its length, width and greatest depth.
    let input = RepairInput::for_cut(&cut, None, arguments.depth, None, arguments.vehicles_per_day, &district);
    if let Err(errors) = input.check() {
        for error in errors {
            eprintln!("{error}");
        }
        return Outcome::WrongUsage;
    }
    let repair = repair::repair(&input, &rules.repair);
    let patch = patch_or_not(arguments, &repair, &rules.repair, district.units);
    if arguments.json {
        let mut object = jobpack::repair_json(&repair);
        object["patch"] = jobpack::patch_json(&patch);
        print_json(&object);
    } else {
        if !patch.is_patch() {
            say!("{}\n{}\n", patch.words(), patch.caution);
        }
        print(&repair, arguments.why);
    }
    Outcome::AllUsed
}

/// One hole alone: nothing is known of its lane, so the cut's share of it is not looked at.
fn patch_or_not(arguments: &Arguments, repair: &Repair, rules: &RepairRules, units: UnitSystem) -> PatchDecision {
    let cut_share = Figure::exact(0.0, Why::new("the lane is not known", Source::definition()));
    let repairs = EarlierRepairs::Count(arguments.repairs);
    let found = FoundAtHole { wetness: arguments.wetness, repairs: Some(&repairs) };
    let input = PatchInput { depth: &repair.depth, area: &repair.cut_area, cut_share, units, holes: &[found] };
    // Repairs given by their number alone count in full, whatever the day.
    triage::patch_or_not(&input, rules, jiff::civil::Date::ZERO)
}

fn print(repair: &Repair, why: bool) {
    let mut table = FigureTable::with_working(why);
    let cubic = |v: model::quantity::Volume| format!("{:.3} m3", v.in_cubic_metres());
    let litre = |v: model::quantity::Volume| format!("{:.1} L", v.in_litres());
    let kilogram = |m: model::quantity::Mass| format!("{:.0} kg", m.in_kilograms());
    let square = |a: model::quantity::Area| format!("{:.2} m2", a.in_square_metres());
    let millimetre = |l: Length| format!("{:.0} mm", l.in_millimetres());
    let minute = |t: model::quantity::Time| format!("{:.0} min", t.in_minutes());
    let hour = |t: model::quantity::Time| format!("{:.0} h", t.in_hours());
    let count = |n: u32| n.to_string();
    table.heading("The cut");
    table.figure("depth", &repair.depth, millimetre);
    table.figure("cut area", &repair.cut_area, square);
    table.heading("Base");
    table.figure("layers", &repair.layer_count, count);
    table.figure("layer thickness", &repair.layer_thickness, millimetre);
    table.figure("loose layer thickness", &repair.loose_layer_thickness, millimetre);
    table.figure("fill, compacted", &repair.fill_volume, cubic);
    table.figure("fill, dry mass", &repair.fill_dry_mass, kilogram);
    table.figure("fill, mass as stocked", &repair.fill_wet_mass, kilogram);
    table.figure("fill, loose volume", &repair.loose_volume, cubic);
    table.figure("water to add", &repair.water_to_add, kilogram);
    table.figure("water to dry out", &repair.water_to_dry, kilogram);
    table.heading("Compaction");
    table.figure("static passes a layer", &repair.static_passes, count);
    table.figure("vibrating passes a layer", &repair.vibrating_passes, count);
    table.figure("lanes across", &repair.lanes_across, count);
    table.figure("rolling time", &repair.rolling_time, minute);
    table.heading("Seal");
    table.figure("seal area", &repair.seal_area, square);
    table.figure("binder at 15 °C", &repair.binder_volume, litre);
    table.figure("binder, hot", &repair.binder_volume_hot, litre);
    let containers = &repair.binder_containers;
    let filled = repair::seal::containers::words(&containers.value, litre);
    table.figure("binder, filled", &Figure::exact(filled.as_str(), containers.why.clone()), str::to_owned);
    table.figure("cover stone", &repair.cover_mass, kilogram);
    table.heading("Spoil and time");
    table.figure("spoil, loose", &repair.spoil_volume, cubic);
    table.figure("time at the hole", &repair.duration, minute);
    table.heading("Opening to traffic, from the last stone");
    let opening = &repair.opening;
    table.figure("open to traffic after", &opening.open_after, minute);
    table.figure("first speed", &opening.speed, |v| format!("{:.0} km/h", v.in_kilometres_per_hour()));
    table.figure("that speed for", &opening.slow_for, hour);
    table.figure("sweep after", &opening.sweep_after, hour);
    table.figure("sweep again after", &opening.sweep_again_after, hour);
    table.print();
    if !repair.site_counts.is_empty() {
        say!("\nBy hand (median, P10 to P90):");
        for count in &repair.site_counts {
            say!("- {}: {}", count.good.words(), count.words());
        }
    }
    say!("\nIf the hole turns out deeper:");
    let mut deeper = Table::default();
    deeper.row(["depth", "layers", "each", "fill", "loose", "water"].map(str::to_owned));
    for row in &repair.deeper {
        deeper.row([
            millimetre(row.depth),
            row.layer_count.to_string(),
            millimetre(row.layer_thickness),
            cubic(row.fill_volume),
            cubic(row.loose_volume),
            kilogram(row.water_to_add),
        ]);
    }
    deeper.print();
    say!("\nCautions:");
    for caution in &repair.cautions {
        say!("- {caution}");
    }
}
