//! `lengthsman mark-out`: the cut around holes whose outlines are given in metres beside a road.

use std::path::{Path, PathBuf};

use exchange::district::read_outline;
use exchange::limits::believed;
use exchange::quantity_text::read_length;
use model::cut_out::FrameOutline;
use model::hole::HoleId;
use model::quantity::{InArea, InLength, Length};
use serde_json::json;

use crate::input;
use crate::outcome::Outcome;
use crate::report;
use crate::show::{FigureTable, figure_json, print_json};

#[derive(Debug, clap::Args)]
#[command(after_help = "Example: lengthsman mark-out --outline \"0 0; 0.9 0.1; 0.8 0.7; 0.1 0.5\" --pavement-width 6m")]
pub(crate) struct Arguments {
    /// Outline of a hole: `along across; along across; ...` in metres, across positive to the right of the centre line.
    /// Repeat for more holes.
    #[arg(long, required = true, allow_hyphen_values = true)]
    outline: Vec<String>,
    /// Sealed width; without it no edge is near.
    #[arg(long, value_parser = pavement_width, allow_hyphen_values = true)]
    pavement_width: Option<Length>,
    /// Lanes that share the sealed width, for the wheel paths; only matters where the rules keep joints out of them.
    #[arg(long, default_value_t = 2, requires = "pavement_width", value_parser = clap::value_parser!(u32).range(1..=20))]
    lanes: u32,
    /// District file with the rules to mark out by (corners, prices, margins); without it those of common practice.
    #[arg(long)]
    district: Option<PathBuf>,
    /// Draw the cut to this file; a second cut goes to a file of that name with -2 added, and so on.
    #[arg(long, value_name = "FILE")]
    svg: Option<PathBuf>,
    /// Print under each figure how it was worked out and what that rests on.
    #[arg(long)]
    why: bool,
    /// JSON with SI units in the field names.
    #[arg(long)]
    json: bool,
}

fn pavement_width(text: &str) -> Result<Length, String> {
    let width = read_length(text).map_err(|error| error.to_string())?;
    believed("pavement", "width", "sealed width", width.in_metres()).map(|()| width)
}

pub(crate) fn run(arguments: &Arguments) -> Outcome {
    let (district, rules) = match input::setting_or_defaults(arguments.district.as_deref()) {
        Ok(found) => found,
        Err(problems) => {
            report::print(&problems);
            return Outcome::NothingProduced;
        }
    };
    let mut outlines = Vec::new();
    for (index, text) in arguments.outline.iter().enumerate() {
        match read_outline(text) {
            Ok(ring) => outlines.push(FrameOutline { hole: HoleId(format!("outline {}", index + 1)), ring }),
            Err(wrong) => {
                eprintln!("--outline {text:?}: {wrong}; write `along across; along across; ...` in metres");
                return Outcome::WrongUsage;
            }
        }
    }
    let pavement = arguments.pavement_width.map_or_else(markout::Pavement::without_edges, |width| {
        let half = width.in_metres() / 2.0;
        markout::Pavement {
            across_min_m: -half,
            across_max_m: half,
            wheel_paths: plan::wheel_paths(arguments.lanes, width, &rules.mark_out.wheel_path),
            ..markout::Pavement::without_edges()
        }
    });
    let cuts = match markout::mark_out(&outlines, &pavement, &rules.mark_out) {
        Ok(cuts) => cuts,
        Err(error) => {
            eprintln!("{error}");
            return Outcome::WrongUsage;
        }
    };
    if let Some(file) = &arguments.svg {
        let edges = arguments.pavement_width.map(|width| (-width / 2.0, width / 2.0));
        for (index, cut) in cuts.iter().enumerate() {
            let path = numbered(file, index + 1);
            if let Err(error) =
                std::fs::write(&path, jobpack::cut_svg(cut, district.units, jobpack::words_of(&district), edges))
            {
                eprintln!("{}: {error}; give a file that can be written to", path.display());
                return Outcome::NothingProduced;
            }
        }
    }
    if arguments.json {
        let cuts: Vec<_> = cuts
            .iter()
            .map(|cut| {
                json!({
                    "holes": cut.holes.iter().map(|hole| &hole.0).collect::<Vec<_>>(),
                    "corners_m": cut.corners.iter().map(|c| [c.along_m, c.across_m]).collect::<Vec<_>>(),
                    "length_m": cut.length.in_metres(),
                    "width_m": cut.width.in_metres(),
                    "narrowest_m": cut.narrowest.in_metres(),
                    "angle_deg": cut.angle_deg,
                    "cut_area_m2": figure_json(&cut.area, InArea::in_square_metres),
                    "perimeter_m": figure_json(&cut.perimeter, InLength::in_metres),
                    "wasted_area_m2": figure_json(&cut.wasted, InArea::in_square_metres),
                    "farthest_m": cut.farthest.in_metres(),
                    "remarks": cut.remarks,
                })
            })
            .collect();
        print_json(&json!(cuts));
        return Outcome::AllUsed;
    }
    for cut in &cuts {
        let names: Vec<&str> = cut.holes.iter().map(|hole| hole.0.as_str()).collect();
        say!(
            "{}: {} corners, {:.2} x {:.2} m, turned {:.1}°",
            names.join(", "),
            cut.corners.len(),
            cut.length.in_metres(),
            cut.width.in_metres(),
            // Rounded first, so that no minus stands before a zero.
            (cut.angle_deg * 10.0).round() / 10.0 + 0.0
        );
        for corner in &cut.corners {
            say!("  corner at {:.3} m along, {:.3} m across", corner.along_m, corner.across_m);
        }
        let mut table = FigureTable::with_working(arguments.why);
        table.figure("area", &cut.area, |a| format!("{:.3} m2", a.in_square_metres()));
        table.figure("edge to cut", &cut.perimeter, |l| format!("{:.2} m", l.in_metres()));
        table.figure("wasted", &cut.wasted, |a| format!("{:.3} m2", a.in_square_metres()));
        table.print();
        for remark in &cut.remarks {
            say!("  {remark}");
        }
    }
    Outcome::AllUsed
}

/// The file of that name for the first drawing, with a number added for the others.
fn numbered(file: &Path, number: usize) -> PathBuf {
    if number == 1 {
        return file.to_owned();
    }
    let stem = file.file_stem().unwrap_or_default().to_string_lossy();
    let mut name = format!("{stem}-{number}");
    if let Some(extension) = file.extension() {
        name = format!("{name}.{}", extension.to_string_lossy());
    }
    file.with_file_name(name)
}
