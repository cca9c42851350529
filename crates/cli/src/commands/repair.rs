//! `lengthsman repair`: one hole, without a list.

use std::path::PathBuf;

use exchange::district::{DistrictFile, HoleGiven, RepairFile, RepairLayer, read_outline, read_repair};
use markout::Pavement;
use model::cut_out::{CutOut, FrameOutline};
use model::district::UnitSystem;
use model::figure::{Figure, Source, Why};
use model::hole::{EarlierRepairs, HoleId, Wetness};
use model::patch::PatchDecision;
use model::place::FramePoint;
use model::quantity::{InArea, InLength, InMass, InTime, InVelocity, InVolume, Length, Volume};
use model::repair::Repair;
use model::rules::markout::MarkOutRules;
use model::rules::repair::{OldSurface, RepairRules};
use repair::RepairInput;
use triage::{FoundAtHole, PatchInput};

use super::given;
use super::weather::WeatherFlags;
use crate::input;
use crate::outcome::Outcome;
use crate::report;
use crate::show::{FigureTable, Table, print_json};

#[derive(Debug, clap::Args)]
#[command(
    after_help = "Lengths carry their unit: 1.2m, 80cm, 220mm, 8in, 2ft. The figures are for the hole as surveyed; \
the range is what it may turn out to be once dug (one in ten below, one in ten above).\n\n\
Any value of a district file may be set for this repair: --set base.stock_moisture_percent=5, \
--set 'plant.compactors=[{kind=\"heavy_plate\"}]', or in a file given with --from (TOML, or JSON of the same shape). Its \
tables [hole] and [road] hold the rest: length_m, width_m, outline_m, depth_mm, open_volume_l (what is open already; \
without it all of the cut is counted as spoil), as_cut; vehicles_per_day, old_surface, old_texture_l_per_m2. Flags win over the file, the file over the \
district."
)]
pub(crate) struct Arguments {
    /// File with everything about this repair.
    #[arg(long)]
    from: Option<PathBuf>,
    /// Length of the hole.
    #[arg(long, value_parser = given::length, allow_hyphen_values = true)]
    length: Option<Length>,
    /// Width of the hole.
    #[arg(long, value_parser = given::width, allow_hyphen_values = true)]
    width: Option<Length>,
    /// Outline in place of length and width: `along across; along across; ...` in metres beside the road.
    #[arg(long, value_parser = outline, allow_hyphen_values = true, conflicts_with_all = ["length", "width"])]
    outline: Option<Outline>,
    /// Depth of the hole.
    #[arg(long, value_parser = given::depth, allow_hyphen_values = true)]
    depth: Option<Length>,
    /// The size or outline given is that of a cut already marked out: nothing is added around it.
    #[arg(long)]
    as_cut: bool,
    /// Vehicles a day, both ways.
    #[arg(long, value_parser = given::vehicles_per_day, allow_hyphen_values = true)]
    vehicles_per_day: Option<f64>,
    /// Old seal under the overlap: flushed, smooth, `slightly_porous`, `slightly_pocked` or `badly_pocked`.
    #[arg(long, value_parser = super::word::<OldSurface>)]
    old_surface: Option<OldSurface>,
    /// How wet the hole and its base are: dry, damp, wet, seepage, pumping.
    #[arg(long, value_parser = super::wetness)]
    wetness: Option<Wetness>,
    /// Repairs made at this place before.
    #[arg(long, default_value_t = 0)]
    repairs: u32,
    /// Any value of a district file for this repair: `table.key_unit=value`. Repeat for more.
    #[arg(long, value_name = "KEY=VALUE")]
    set: Vec<String>,
    #[command(flatten)]
    weather: WeatherFlags,
    /// District file with the plant and materials; without it neutral defaults are used.
    #[arg(long)]
    district: Option<PathBuf>,
    /// Print under each figure how it was worked out and what that rests on.
    #[arg(long)]
    why: bool,
    /// Draw plan, section and order of compacting into this SVG file.
    #[arg(long, value_name = "FILE")]
    svg: Option<PathBuf>,
    /// JSON with SI units in the field names.
    #[arg(long)]
    json: bool,
}

/// A ring of points given in one flag.
#[derive(Debug, Clone)]
struct Outline(Vec<FramePoint>);

fn outline(text: &str) -> Result<Outline, String> {
    let right = "write `along across; along across; ...` in metres, three points or more";
    read_outline(text).map(Outline).map_err(|wrong| format!("{wrong}; {right}"))
}

pub(crate) fn run(arguments: &Arguments) -> Outcome {
    let file = match layers(arguments).and_then(|layers| read_repair(arguments.district.as_deref(), &layers)) {
        Ok(file) => file,
        Err(problems) => return nothing(&problems),
    };
    let RepairFile { hole, vehicles_per_day, old_surface, old_texture_l_per_m2, mut district, files, problems } = file;
    district.weather = arguments.weather.or(district.weather);
    let file = DistrictFile { district, files, problems };
    let mut setting = match input::with_rules(file, arguments.district.as_deref(), None) {
        Ok(setting) => setting,
        Err(problems) => return nothing(&problems),
    };
    report::print(&setting.problems);
    let seal = &mut setting.rules.repair.seal;
    super::given_over_rule(arguments.old_surface.or(old_surface), &mut seal.old_surface);
    super::given_over_rule(old_texture_l_per_m2, &mut seal.austroads.texture_l_per_m2);
    let input::Setting { district, rules, .. } = &setting;
    let hole = given(arguments, &hole);
    let Some(depth) = hole.depth else {
        eprintln!("the depth is missing; give --depth, or depth_mm under [hole] in the file");
        return Outcome::WrongUsage;
    };
    let cut = match cut_of(&hole, &rules.mark_out) {
        Ok(cut) => cut,
        Err(wrong) => {
            eprintln!("{wrong}");
            return Outcome::WrongUsage;
        }
    };
    let vehicles_per_day = arguments.vehicles_per_day.or(vehicles_per_day);
    let input = RepairInput::for_cut(&cut, None, depth, hole.open_volume, vehicles_per_day, district);
    if let Err(errors) = input.check() {
        for error in errors {
            eprintln!("{error}");
        }
        return Outcome::WrongUsage;
    }
    let repair = repair::repair(&input, &rules.repair);
    let patch = patch_or_not(arguments, &repair, &rules.repair, district.units);
    if let Some(path) = &arguments.svg
        && let Err(error) =
            std::fs::write(path, jobpack::repair_svg(&cut, &repair, district.units, jobpack::words_of(district)))
    {
        eprintln!("{}: {error}; give a path that may be written to", path.display());
        return Outcome::NothingProduced;
    }
    if arguments.json {
        let mut object = jobpack::repair_json(&repair);
        object["patch"] = jobpack::patch_json(&patch);
        print_json(&object);
    } else {
        if !patch.is_patch() {
            say!("{}\n{}\n", patch.words(), patch.caution);
        }
        print(&cut, &repair, arguments.why);
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

fn nothing(problems: &[model::problem::Problem]) -> Outcome {
    report::print(problems);
    Outcome::NothingProduced
}

/// The file, then the flags over it.
fn layers(arguments: &Arguments) -> Result<Vec<RepairLayer>, Vec<model::problem::Problem>> {
    let mut layers = Vec::new();
    if let Some(path) = &arguments.from {
        layers.push(RepairLayer::read(path)?);
    }
    if !arguments.set.is_empty() {
        layers.push(RepairLayer { name: "--set".into(), text: arguments.set.join("\n") });
    }
    Ok(layers)
}

/// The hole by the file, flags first. A size by a flag replaces an outline of the file.
fn given(arguments: &Arguments, file: &HoleGiven) -> HoleGiven {
    let sized = arguments.length.is_some() || arguments.width.is_some();
    let outline = arguments.outline.as_ref().map(|Outline(ring)| ring.clone());
    HoleGiven {
        length: arguments.length.or(file.length),
        width: arguments.width.or(file.width),
        depth: arguments.depth.or(file.depth),
        outline: outline.or_else(|| file.outline.clone().filter(|_| !sized)),
        open_volume: file.open_volume,
        as_cut: arguments.as_cut || file.as_cut,
    }
}

/// Marks the hole out.
fn cut_of(hole: &HoleGiven, rules: &MarkOutRules) -> Result<CutOut, String> {
    let ring = match (&hole.outline, hole.length, hole.width) {
        (Some(ring), _, _) => ring.clone(),
        (None, Some(length), Some(width)) => {
            markout::size_ring(length, width, FramePoint { along_m: 0.0, across_m: 0.0 })
        }
        _ => return Err("the size is missing; give --length and --width, or --outline, or a file with [hole]".into()),
    };
    let mut rules = rules.clone();
    if hole.as_cut {
        // Nothing is added, and nothing is too small or too dear to be a corner.
        for value in [
            &mut rules.margin_m,
            &mut rules.smallest_side_m,
            &mut rules.corner_price_m2,
            &mut rules.edge_price_m2_per_m,
            &mut rules.smallest_notch_m,
        ] {
            value.value = 0.0;
        }
    }
    let outline = FrameOutline { hole: HoleId("hole".into()), ring };
    let cuts = markout::mark_out(&[outline], &Pavement::without_edges(), &rules);
    cuts.map(|mut cuts| cuts.remove(0)).map_err(|error| format!("the hole can't be marked out: {error}"))
}

fn cubic(v: Volume) -> String {
    format!("{:.3} m3", v.in_cubic_metres())
}

fn millimetre(l: Length) -> String {
    format!("{:.0} mm", l.in_millimetres())
}

fn kilogram(m: model::quantity::Mass) -> String {
    format!("{:.0} kg", m.in_kilograms())
}

fn minute(t: model::quantity::Time) -> String {
    format!("{:.0} min", t.in_minutes())
}

fn print(cut: &CutOut, repair: &Repair, why: bool) {
    let litre = |v: Volume| format!("{:.1} L", v.in_litres());
    let square = |a: model::quantity::Area| format!("{:.2} m2", a.in_square_metres());
    let hour = |t: model::quantity::Time| format!("{:.0} h", t.in_hours());
    let count = |n: u32| n.to_string();
    say!("cut of {:.2} x {:.2} m; {}\n", cut.length.in_metres(), cut.width.in_metres(), repair.compactor);
    let mut table = FigureTable::with_working(why);
    table.heading("Cut");
    table.figure("depth", &repair.depth, millimetre);
    table.figure("cut area", &repair.cut_area, square);
    table.figure("edge to saw or pick", &cut.perimeter, |l| format!("{:.2} m", l.in_metres()));
    table.heading("Base");
    table.figure("layers", &repair.layer_count, count);
    table.figure("layer, compacted", &repair.layer_thickness, millimetre);
    table.figure("layer, placed loose", &repair.loose_layer_thickness, millimetre);
    table.figure("last layer loose, above the road at the sides", &repair.crown.loose_at_sides, millimetre);
    table.figure("last layer loose, above the road in the middle", &repair.crown.loose_in_middle, millimetre);
    table.figure("crown, in the middle", &repair.crown.middle, millimetre);
    table.figure("crown, on the mean", &repair.crown.mean, |l| format!("{:.1} mm", l.in_millimetres()));
    table.figure("base, compacted", &repair.fill_volume, cubic);
    table.figure("base, dry mass", &repair.fill_dry_mass, kilogram);
    table.figure("base, mass as stocked", &repair.fill_wet_mass, kilogram);
    table.figure("base, loose volume", &repair.loose_volume, cubic);
    table.figure("water to add", &repair.water_to_add, kilogram);
    table.figure("water to dry out", &repair.water_to_dry, kilogram);
    table.heading("Compaction");
    table.figure("static passes a layer", &repair.static_passes, count);
    table.figure("vibrating passes a layer", &repair.vibrating_passes, count);
    table.figure("lanes", &repair.lanes_across, count);
    table.figure("compacting, all layers", &repair.rolling_time, minute);
    table.heading("Seal");
    table.figure("seal area", &repair.seal_area, square);
    table.figure("binder rate", &repair.binder_rate, |rate| format!("{:.2} L/m2", rate.0));
    table.figure("binder at 15 °C", &repair.binder_volume, litre);
    table.figure("binder, hot", &repair.binder_volume_hot, litre);
    let containers = &repair.binder_containers;
    let filled = repair::seal::containers::words(&containers.value, litre);
    table.figure("binder, filled", &Figure::exact(filled.as_str(), containers.why.clone()), str::to_owned);
    table.figure("cover stone rate", &repair.cover_rate, |rate| format!("{:.1} kg/m2", rate.0));
    table.figure("cover stone", &repair.cover_mass, kilogram);
    table.heading("Spoil");
    table.figure("spoil, loose", &repair.spoil_volume, cubic);
    table.figure("spoil, mass", &repair.spoil_mass, kilogram);
    table.heading("Time");
    for stage in &repair.stages {
        table.figure(stage.stage.words(), &stage.time, minute);
    }
    table.figure("in all, without traffic control", &repair.duration, minute);
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
    print_layers(repair);
    print_deeper(repair);
    for remark in &repair.remarks {
        say!("\n{remark}");
    }
    say!("\nCautions:");
    for caution in &repair.cautions {
        say!("- {caution}");
    }
}

fn print_layers(repair: &Repair) {
    say!("\nLayers as surveyed, from the bottom up:");
    let mut table = Table::default();
    table.row(["layer", "compact with", "each", "loose", "base", "passes", "lanes", "time"].map(str::to_owned));
    for layer in &repair.layers {
        table.row([
            layer.number.to_string(),
            layer.compactor.clone(),
            millimetre(layer.thickness),
            millimetre(layer.loose_thickness),
            cubic(layer.volume),
            format!("{} + {} vibrating", layer.static_passes, layer.vibrating_passes),
            layer.lanes.to_string(),
            format!("{:.1} min", layer.time.in_minutes()),
        ]);
    }
    table.print();
}

fn print_deeper(repair: &Repair) {
    say!("\nIf the hole turns out deeper:");
    let mut deeper = Table::default();
    deeper.row(["depth", "layers", "each", "base", "loose", "water"].map(str::to_owned));
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
}
