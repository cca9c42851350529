//! `lengthsman proctor`: specimens of a compaction test to maximum dry density and optimum moisture.

use std::path::PathBuf;

use model::problem::{Problem, ProblemSeverity};
use model::quantity::{InMassDensity, InRatio};
use model::soil::{CompactionTest, FitDegree, PointFate};
use serde_json::json;
use soil::{DegreeChoice, compaction_test};

use super::soil_rules::{soil_rules, write_plot};
use crate::outcome::Outcome;
use crate::report;
use crate::show::{FigureTable, Table, figure_json, print_json};

#[derive(Debug, clap::Args)]
#[command(after_help = "The sheet is a CSV file, one specimen a row, units in the header: `moisture (%)` and one of \
`dry density (kg/m3)`, `wet density (kg/m3)`, or `mould full (g)`, `mould empty (g)`, `mould volume (cm3)`.")]
pub(crate) struct Arguments {
    /// The sheet of specimens.
    specimens: PathBuf,
    /// Measured specific gravity of the particles; without it the rules' value is taken and said so.
    #[arg(long, value_parser = specific_gravity)]
    specific_gravity: Option<f64>,
    /// Curve to fit; without it the cubic where it serves, else the parabola.
    #[arg(long)]
    degree: Option<Degree>,
    /// Write the plot to this SVG file.
    #[arg(long)]
    plot: Option<PathBuf>,
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

#[derive(Debug, Clone, Copy, clap::ValueEnum)]
enum Degree {
    Cubic,
    Parabola,
}

fn specific_gravity(text: &str) -> Result<f64, String> {
    // Nobody's particles are lighter or heavier; the same range as the rules'.
    let range = 2.0..=4.0;
    let value = text.parse::<f64>().map_err(|_| "write a number, e.g. 2.70".to_owned())?;
    if range.contains(&value) {
        Ok(value)
    } else {
        Err(format!("a number from {} to {} is believed", range.start(), range.end()))
    }
}

pub(crate) fn run(arguments: &Arguments) -> Outcome {
    let rules = match soil_rules(arguments.district.as_deref()) {
        Ok(rules) => rules.compaction,
        Err(problems) => {
            report::print(&problems);
            return Outcome::NothingProduced;
        }
    };
    let file = exchange::soil_files::read_specimens(&arguments.specimens);
    let mut problems = file.problems;
    let choice = arguments.degree.map_or(DegreeChoice::WhicheverServes, |degree| {
        DegreeChoice::Only(match degree {
            Degree::Cubic => FitDegree::Cubic,
            Degree::Parabola => FitDegree::Parabola,
        })
    });
    let (test, refused) = compaction_test(&file.readings, arguments.specific_gravity, choice, &rules);
    problems.extend(refused);
    if test.points.is_empty() {
        report::print(&problems);
        return Outcome::NothingProduced;
    }
    if arguments.json {
        print_json(&test_json(&test, &problems));
    } else {
        print(&test, arguments.why);
    }
    if let Some(path) = &arguments.plot
        && let Err(problem) = write_plot(path, &jobpack::compaction_plot_svg(&test))
    {
        problems.push(*problem);
    }
    report::print(&problems);
    match &test.fit {
        Err(_) => Outcome::NothingProduced,
        Ok(_) if problems.iter().all(|p| p.severity == ProblemSeverity::Warning) => Outcome::AllUsed,
        Ok(_) => Outcome::SomeRefused,
    }
}

fn density(value: model::quantity::MassDensity) -> String {
    format!("{:.0} kg/m3", value.in_kilograms_per_cubic_metre())
}

fn print(test: &CompactionTest, why: bool) {
    let percent = |value: model::quantity::Ratio| format!("{:.1} %", value.in_percent());
    let mut points = Table::default();
    points.row(["moisture", "dry density", "zero air voids", ""].map(str::to_owned));
    for point in &test.points {
        let left_out = if point.fate == PointFate::Used { "" } else { "left out: denser than can be" };
        points.row([
            percent(point.moisture),
            density(point.dry_density),
            density(point.zero_air_voids),
            left_out.to_owned(),
        ]);
    }
    points.print();
    match &test.fit {
        Ok(fit) => {
            say!("\nCurve: {}, {}\n", fit.degree.word(), fit.degree_reason);
            let mut table = FigureTable::of_measurements(why);
            table.figure("maximum dry density", &fit.maximum_dry_density, density);
            table.figure("optimum moisture", &fit.optimum_moisture, percent);
            table.figure("saturation at the peak", &fit.saturation, |value| format!("{:.0} %", value.in_percent()));
            table.figure("specific gravity", &test.specific_gravity, |value| format!("{value:.2}"));
            table.print();
            remarks(&fit.remarks);
        }
        Err(reason) => say!("\nNo peak: {reason}."),
    }
}

pub(crate) fn remarks(remarks: &[String]) {
    if !remarks.is_empty() {
        say!("");
    }
    for remark in remarks {
        say!("- {remark}");
    }
}

fn test_json(test: &CompactionTest, problems: &[Problem]) -> serde_json::Value {
    let points: Vec<_> = test
        .points
        .iter()
        .map(|point| {
            json!({
                "moisture_percent": point.moisture.in_percent(),
                "dry_density_kg_per_m3": point.dry_density.in_kilograms_per_cubic_metre(),
                "zero_air_voids_kg_per_m3": point.zero_air_voids.in_kilograms_per_cubic_metre(),
                "used": point.fate == PointFate::Used,
                "line": point.from.line,
            })
        })
        .collect();
    let fit = test.fit.as_ref().ok().map(|fit| {
        json!({
            "curve": fit.degree.word(),
            "curve_reason": fit.degree_reason,
            "maximum_dry_density_kg_per_m3":
                figure_json(&fit.maximum_dry_density, InMassDensity::in_kilograms_per_cubic_metre),
            "optimum_moisture_percent": figure_json(&fit.optimum_moisture, InRatio::in_percent),
            "saturation_percent": figure_json(&fit.saturation, InRatio::in_percent),
            "scatter_kg_per_m3": fit.scatter.map(InMassDensity::in_kilograms_per_cubic_metre),
            "degrees_of_freedom": fit.degrees_of_freedom,
            "remarks": fit.remarks,
        })
    });
    json!({
        "specimens": points,
        "specific_gravity": figure_json(&test.specific_gravity, |value| value),
        "fit": fit,
        "no_peak": test.fit.as_ref().err(),
        "problems": problems.iter().map(ToString::to_string).collect::<Vec<_>>(),
    })
}
