//! `plan.json` and its schema, `holes.geojson`, `load.csv`.

mod fixture;

use std::path::PathBuf;

use fixture::{Recipe, make, plan};
use model::district::DrivingSide;
use model::place::FramePoint;
use serde_json::Value;

fn schema_file() -> PathBuf {
    testkit::in_repository("handbook/plan-json.schema.json")
}

fn parsed(text: &str) -> Value {
    serde_json::from_str(text).expect("valid JSON")
}

/// `LENGTHSMAN_WRITE_SCHEMA=1 cargo test -p jobpack` writes the file anew.
#[test]
fn the_schema_in_the_handbook_is_the_one_the_code_writes() {
    let schema = jobpack::plan_json_schema();
    if std::env::var_os("LENGTHSMAN_WRITE_SCHEMA").is_some() {
        std::fs::write(schema_file(), &schema).expect("the handbook can be written");
    }
    let kept = std::fs::read_to_string(schema_file()).expect("handbook/plan-json.schema.json is kept");
    assert_eq!(kept, schema, "run with LENGTHSMAN_WRITE_SCHEMA=1");
}

#[test]
fn plan_json_obeys_its_schema() {
    let schema = parsed(&jobpack::plan_json_schema());
    let validator = jsonschema::validator_for(&schema).expect("a valid schema");
    for recipe in [Recipe::default(), Recipe { zones: vec![], ..Recipe::default() }] {
        let file = parsed(&jobpack::plan_json(&make(&recipe)));
        let errors: Vec<String> = validator.iter_errors(&file).map(|e| e.to_string()).collect();
        assert!(errors.is_empty(), "{errors:?}");
    }
    // The schema is not so loose that anything passes.
    let mut broken = parsed(&jobpack::plan_json(&plan()));
    broken["jobs"][0]["repair"]["fill_volume_m3"]["value"] = Value::from("a lot");
    assert!(!validator.is_valid(&broken));
}

#[test]
fn every_figure_of_a_repair_has_value_spread_and_why() {
    let block = jobpack::repair_json(&fixture::repair::repair(1.06, 0.22, 4.2));
    for name in [
        "layer_count",
        "layer_thickness_m",
        "cut_area_m2",
        "fill_volume_m3",
        "fill_dry_mass_kg",
        "fill_wet_mass_kg",
        "water_to_add_kg",
        "loose_volume_m3",
        "seal_area_m2",
        "binder_volume_l",
        "cover_mass_kg",
        "spoil_volume_m3",
        "static_passes",
        "vibrating_passes",
    ] {
        let figure = &block[name];
        assert!(figure["value"].is_number(), "{name}");
        assert!(figure["why"].as_str().is_some_and(|w| w.contains('[')), "{name}: why with a source");
        for quantile in ["p10", "p50", "p90"] {
            assert!(figure.get(quantile).is_some(), "{name}.{quantile}");
        }
    }
    assert_eq!(block["static_passes"]["p10"], Value::Null);
    assert_eq!(block["layer_count"]["value"], Value::from(2));
}

#[test]
fn plan_json_of_the_small_plan() {
    let mut file = parsed(&jobpack::plan_json(&plan()));
    // One of each is enough to see the shape; the schema test covers the rest.
    for list in ["holes", "jobs", "sites", "loads", "left_out"] {
        file[list].as_array_mut().expect("a list").truncate(1);
    }
    file["sites"][0]["zone"]["devices"].as_array_mut().expect("a list").truncate(2);
    file["round"]["ways"].as_array_mut().expect("a list").truncate(1);
    file["round"]["timetable"].as_array_mut().expect("a list").truncate(3);
    file["jobs"][0]["repair"]["deeper"].as_array_mut().expect("a list").truncate(1);
    insta::assert_json_snapshot!(file);
}

/// Metres in a degree of latitude and of longitude where the small plan lies (from memory: WGS 84).
const LAT_M: f64 = 111_177.0;
const LON_M: f64 = 75_640.0;

#[test]
fn the_map_file_has_closed_rings_that_turn_left_and_lie_at_the_holes() {
    // RFC 7946, 3.1.6: rings are closed, exterior rings counter-clockwise.
    let plan = plan();
    let file = parsed(&jobpack::holes_geojson(&plan));
    let features = file["features"].as_array().expect("features");
    assert_eq!(features.len(), plan.holes.len() + plan.jobs.len());
    for feature in features.iter().filter(|f| f["properties"]["kind"] == "cut") {
        let ring: Vec<(f64, f64)> = feature["geometry"]["coordinates"][0]
            .as_array()
            .expect("a ring")
            .iter()
            .map(|p| (p[0].as_f64().expect("lon"), p[1].as_f64().expect("lat")))
            .collect();
        assert_eq!(ring.first(), ring.last());
        let (lon, lat) = ring[0];
        let area: f64 =
            ring.windows(2).map(|w| (w[0].0 - lon) * (w[1].1 - lat) - (w[1].0 - lon) * (w[0].1 - lat)).sum::<f64>()
                / 2.0;
        assert!(area > 0.0, "clockwise");
        let number = feature["properties"]["number"].as_str().expect("number");
        let job = plan
            .jobs
            .iter()
            .find(|j| feature["properties"]["holes"][0] == j.cut.holes[0].0.as_str())
            .unwrap_or_else(|| panic!("{number}: whose cut is it?"));
        // Each corner lies as far from the cut's centre as on the road from the middle of the box around it.
        let corners = &job.cut.corners;
        assert_eq!(ring.len(), corners.len() + 1, "{number}");
        let middle = |get: fn(&FramePoint) -> f64| {
            let ends =
                corners.iter().map(get).fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), x| (a.min(x), b.max(x)));
            f64::midpoint(ends.0, ends.1)
        };
        let (along, across) = (middle(|corner| corner.along_m), middle(|corner| corner.across_m));
        let mut drawn: Vec<f64> = ring[1..]
            .iter()
            .map(|(lon, lat)| ((lon - job.centre.lon) * LON_M).hypot((lat - job.centre.lat) * LAT_M))
            .collect();
        let mut on_road: Vec<f64> =
            corners.iter().map(|corner| (corner.along_m - along).hypot(corner.across_m - across)).collect();
        drawn.sort_by(f64::total_cmp);
        on_road.sort_by(f64::total_cmp);
        let off = drawn.iter().zip(&on_road).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max);
        assert!(off < 0.01, "{number} lies off its centre: {drawn:?}, {on_road:?}");
        let square_metres = area * LAT_M * LON_M;
        let wanted = feature["properties"]["cut_area_m2"].as_f64().expect("area");
        assert!((square_metres / wanted - 1.0).abs() < 0.02, "{square_metres} against {wanted}");
    }
}

#[test]
fn the_load_table_has_a_row_for_each_trip_and_container() {
    let mut plan = plan();
    plan.loads[0].lines[0].content = "=1+1, \"quoted\"".into();
    let table = jobpack::load_csv(&plan);
    let rows: Vec<&str> = table.split("\r\n").filter(|l| !l.is_empty()).collect();
    assert_eq!(rows.len(), 1 + plan.loads.len() * 4);
    assert!(rows[1].starts_with("1,main bin,\"'=1+1, \"\"quoted\"\"\",1.1000,1705.0,2.4000,"), "{}", rows[1]);
}

#[test]
fn drawings_are_well_formed_for_every_site_and_job() {
    let plan = plan();
    let mut drawings = vec![jobpack::route_map_svg(&plan)];
    drawings.extend((0..plan.sites.len()).map(|s| jobpack::zone_plan_svg(&plan, s)));
    for job in 0..plan.jobs.len() {
        drawings.push(jobpack::cut_plan_svg(&plan, job));
        drawings.push(jobpack::section_svg(&plan, job));
        drawings.push(jobpack::pattern_svg(&plan, job));
        drawings.push(jobpack::repair_svg(
            &plan.jobs[job].cut,
            &plan.jobs[job].repair,
            plan.district.units,
            words::Words::default(),
        ));
    }
    for svg in drawings {
        assert!(svg.starts_with("<svg ") && svg.ends_with("</svg>\n"));
        assert!(!svg.contains("NaN") && !svg.contains("inf"));
        assert_eq!(svg.matches("<text").count(), svg.matches("</text>").count());
    }
}

/// On paper the worked lane's traffic goes from left to right, so the side it keeps to is always the same side of the
/// sheet, whichever way the section is measured.
#[test]
fn the_cut_is_drawn_on_the_side_the_traffic_keeps_to() {
    for (driving_side, below) in [(DrivingSide::Right, true), (DrivingSide::Left, false)] {
        let plan = make(&Recipe { driving_side, ..Recipe::default() });
        for site in 0..plan.sites.len() {
            let svg = jobpack::zone_plan_svg(&plan, site);
            let cut = svg.lines().find(|l| l.contains("fill=\"#000\" stroke=\"#fff\"")).expect("a cut is drawn");
            let y: f64 = cut.split("y=\"").nth(1).and_then(|r| r.split('"').next()).expect("y").parse().expect("y");
            let road: Vec<f64> = svg
                .lines()
                .find(|l| l.contains("#f4f4f4"))
                .expect("the road is drawn")
                .split(['"'])
                .filter_map(|p| p.parse().ok())
                .collect();
            let middle = road[1] + road[3] / 2.0;
            assert_eq!(y > middle, below, "{driving_side:?}, site {site}: {y} against {middle}");
        }
    }
}
