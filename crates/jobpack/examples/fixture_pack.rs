//! Prints the hand-made plans of the tests into a directory, to look at the pages: `cargo run -p jobpack --example
//! fixture_pack -- <directory> [language]`.

#[path = "../tests/fixture/mod.rs"]
mod fixture;

use fixture::{Recipe, Road, make};
use model::district::{DrivingSide, Paper, UnitSystem};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let directory = std::path::PathBuf::from(std::env::args().nth(1).unwrap_or_else(|| ".".into()));
    std::fs::create_dir_all(&directory)?;
    let plain = Recipe::default();
    let recipes = [
        ("plain", plain.clone()),
        (
            "letter",
            Recipe { paper: Paper::UsLetter, units: UnitSystem::UsCustomary, zones: vec![1, 12], ..plain.clone() },
        ),
        ("left", Recipe { driving_side: DrivingSide::Left, ..plain.clone() }),
        ("busy", Recipe { zones: vec![1; 12], left_out: 40, problems: 9, ..plain.clone() }),
        ("shared", Recipe { zones: vec![12], ..plain.clone() }),
        ("one-lane", Recipe { zones: vec![1], road: Road::OneLane, ..plain.clone() }),
        ("all-closed", Recipe { zones: vec![1], road: Road::AllClosed, ..plain.clone() }),
        (
            "four-lanes",
            Recipe { zones: vec![1], road: Road::FourLanes, driving_side: DrivingSide::Left, ..plain.clone() },
        ),
        ("shoulder", Recipe { zones: vec![1], road: Road::Shoulder, ..plain.clone() }),
        ("empty", Recipe { zones: vec![], ..plain }),
    ];
    let language = std::env::args().nth(2).unwrap_or_else(|| "en".into());
    for (name, recipe) in recipes {
        let mut plan = make(&recipe);
        plan.district.language.clone_from(&language);
        let pdf = jobpack::pdf(&plan)?;
        println!("{name}: {} bytes", pdf.len());
        std::fs::write(directory.join(format!("{name}.pdf")), pdf)?;
    }
    let plan = make(&Recipe::default());
    std::fs::write(directory.join("plan.json"), jobpack::plan_json(&plan))?;
    std::fs::write(directory.join("holes.geojson"), jobpack::holes_geojson(&plan))?;
    std::fs::write(directory.join("zones.geojson"), jobpack::zones_geojson(&plan))?;
    std::fs::write(directory.join("zones-feed.geojson"), jobpack::work_zone_feed(&plan, None)?)?;
    std::fs::write(directory.join("load.csv"), jobpack::load_csv(&plan))?;
    std::fs::write(directory.join("plan-json.schema.json"), jobpack::plan_json_schema())?;
    Ok(())
}
