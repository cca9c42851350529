//! Road files that carry their attributes in columns: `GeoJSON`, shapefiles, and join tables.

mod road_support;

use std::collections::BTreeMap;
use std::path::Path;

use exchange::road_files::{apply_road_join, read_road_join, read_roads};
use model::figure::Source;
use model::problem::ProblemSeverity;
use model::quantity::{InLength, InMass, InVelocity};
use model::road::{Flow, RoadClass, Surface};
use model::road_around::StructureKind;
use model::rules::Sourced;
use model::rules::roads::{RoadJoinRule, SpeedUnit, WidthUnit};
use road_support::{DEGREES_PRJ, GEOJSON, codes, gzip, read, read_bytes, refused, rules, the_problem, write_shapefile};

#[test]
fn geojson_lines_with_their_properties() {
    for file in [
        read_bytes("roads.geojson", GEOJSON.as_bytes()),
        read_bytes("roads.json", format!("\u{FEFF}{GEOJSON}").as_bytes()),
        read_bytes("roads.geojson.gz", &gzip(GEOJSON.as_bytes())),
    ] {
        assert!(file.problems.is_empty(), "{:?}", file.problems);
        assert_eq!(file.attribution.as_deref(), Some("Invented district"));
        assert_eq!(file.left_out.get("class footway"), Some(&1));
        let ids: Vec<&str> = file.lines.iter().map(|line| line.source_id.as_str()).collect();
        assert_eq!(ids, ["R1", "17", "17"]);
        let places: Vec<(usize, usize)> = file.lines.iter().map(|line| (line.at.line, line.at.column)).collect();
        assert_eq!(places, [(5, 5), (8, 5), (8, 5)]);
        let road = &file.lines[0].attributes;
        assert_eq!((road.class, road.name.as_str()), (RoadClass::Tertiary, "Mole Road"));
        assert!((road.speed.in_kilometres_per_hour() - 80.4672).abs() < 1e-9, "50 mph by the column's name");
        assert!((road.width.in_metres() - 6.096).abs() < 1e-9, "20 ft by the column's name");
        assert_eq!((road.surface, road.vehicles_per_day), (Surface::SurfaceTreated, Some(420.0)));
        assert_eq!(road.defaulted, ["setting", "flow", "shoulder"]);
        assert_eq!(file.lines[1].attributes.flow, Flow::Forward);
        assert!(file.lines[1].attributes.defaulted.contains(&"class"));
        assert!(file.lines.iter().all(|line| line.node_keys.is_none()));
    }
}

#[test]
fn columns_say_bridges_tunnels_and_roundabouts() {
    let with = |properties: &str| {
        let text = GEOJSON.replacen("\"oneway\": true", properties, 1);
        let attributes = read_bytes("roads.geojson", text.as_bytes()).lines[1].attributes.clone();
        (attributes.structure, attributes.roundabout)
    };
    assert_eq!(with(r#""BRIDGE": "T", "tunnel": "F""#), (Some(StructureKind::Bridge), false));
    assert_eq!(with(r#""bridge": "F", "tunnel": true"#), (Some(StructureKind::Tunnel), false));
    assert_eq!(with(r#""bridge": false, "junction": "roundabout""#), (None, true));
    assert_eq!(with(r#""Is Roundabout": 1"#), (None, true));
    assert_eq!(with(r#""junction": "circle of stones""#), (None, false));
}

#[test]
fn geojson_of_other_shapes() {
    let bare = r#"{"coordinates": [[-30, 10], [-29, 10], [-29, 10]], "type": "LineString"}"#;
    let file = read_bytes("one.geojson", bare.as_bytes());
    assert_eq!((file.lines.len(), file.lines[0].points.len()), (1, 2));

    let single = format!(r#"{{"type": "Feature", "properties": {{"id": 4}}, "geometry": {bare}}}"#);
    assert_eq!(read_bytes("one.geojson", single.as_bytes()).lines[0].source_id, "4");

    let bad = GEOJSON.replace("[-29.99, 10.001, 3]", "[-29.99, 91]").replace(
        "\"MultiLineString\", \"coordinates\": [[[-30, 10], [-30, 10.01]], [[-30, 10.01], [-30, 10.02]]]",
        "\"Point\", \"coordinates\": [1, 2]",
    );
    let file = read_bytes("bad.geojson", bad.as_bytes());
    assert_eq!(codes(&file.problems), ["road.line.out_of_range", "road.geojson.geometry"]);
    assert_eq!(file.problems[1].at.line, 8);
    assert!(file.lines.is_empty());

    let feature = GEOJSON.replacen("\"Feature\"", "\"Fixture\"", 1);
    let file = read_bytes("bad.geojson", feature.as_bytes());
    assert_eq!(codes(&file.problems), ["road.geojson.feature"]);
    assert_eq!(file.lines.len(), 2, "the other features are used");

    let system = |name: &str| {
        let crs = format!(r#"{{"crs": {{"type": "name", "properties": {{"name": "{name}"}}}}, "#);
        read_bytes("roads.geojson", GEOJSON.replacen('{', &crs, 1).as_bytes())
    };
    assert!(system("urn:ogc:def:crs:OGC:1.3:CRS84").problems.is_empty());
    let foreign = system("urn:ogc:def:crs:EPSG::31468");
    assert!(foreign.lines.is_empty());
    assert_eq!(the_problem(&foreign, "road.geojson.system").severity, ProblemSeverity::Fatal);
}

#[test]
fn geojson_cut_off_keeps_what_comes_before() {
    let cut = GEOJSON.find("\"MultiLineString\"").unwrap();
    let file = read_bytes("cut.geojson", &GEOJSON.as_bytes()[..cut]);
    assert_eq!(file.lines.len(), 1);
    let problem = the_problem(&file, "road.geojson.broken");
    assert_eq!(problem.at.line, 9, "{problem}");
}

#[test]
fn a_shapefile_with_its_table() {
    let folder = tempfile::tempdir().unwrap();
    let shp = folder.path().join("roads.shp");
    write_shapefile(&shp, &[vec![(-30.0, 10.0), (-29.9, 10.0)], vec![(-29.9, 10.0), (-29.9, 10.1)]], Some(DEGREES_PRJ));
    let file = read(&shp);
    assert!(file.problems.is_empty(), "{:?}", file.problems);
    assert_eq!(file.lines.len(), 2);
    let line = &file.lines[1];
    assert_eq!(line.source_id, "S2");
    assert_eq!((line.attributes.name.as_str(), line.attributes.class), ("Quay 2", RoadClass::Secondary));
    assert!((line.points[1].lat - 10.1).abs() < 1e-12);
    assert!((file.lines[0].attributes.speed.in_kilometres_per_hour() - 60.0).abs() < 1e-9);
    assert!((line.attributes.speed.in_kilometres_per_hour() - 90.0).abs() < 1e-9, "zero means not known");
    assert!(line.attributes.defaulted.contains(&"speed"));

    let mut other = rules();
    other.columns.speed_unit.value = SpeedUnit::MilesPerHour;
    other.columns.id.value = vec!["name".into()];
    let file = read_roads(&shp, &other, &mut |_| {});
    assert!((file.lines[0].attributes.speed.in_kilometres_per_hour() - 96.56064).abs() < 1e-9);
    assert_eq!(file.lines[0].source_id, "Quay 1");
}

#[test]
fn a_shapefile_without_its_companions() {
    let folder = tempfile::tempdir().unwrap();
    let shp = folder.path().join("roads.shp");
    let lines = [vec![(-30.0, 10.0), (-29.9, 10.0)]];
    write_shapefile(&shp, &lines, None);
    let file = read(&shp);
    assert_eq!(file.lines.len(), 1);
    assert_eq!(the_problem(&file, "road.prj.missing").severity, ProblemSeverity::Warning);

    std::fs::remove_file(shp.with_extension("dbf")).unwrap();
    std::fs::remove_file(shp.with_extension("shx")).unwrap();
    let file = read(&shp);
    assert_eq!(codes(&file.problems), ["road.prj.missing", "road.dbf.missing"]);
    assert_eq!(file.lines[0].source_id, "1");
    assert!(file.lines[0].attributes.defaulted.contains(&"class"));

    write_shapefile(&shp, &[vec![(900000.0, 1100000.0), (900100.0, 1100000.0)]], None);
    let file = read(&shp);
    assert!(file.lines.is_empty());
    let problem = the_problem(&file, "road.prj.missing");
    assert_eq!(problem.severity, ProblemSeverity::Fatal);
    assert!(problem.wrong.contains("900000"), "{problem}");

    std::fs::write(shp.with_extension("prj"), "LOCAL_CS[\"Engineering grid\"]").unwrap();
    let file = read(&shp);
    assert!(file.lines.is_empty());
    assert!(the_problem(&file, "road.prj.unreadable").wrong.contains("roads.prj"));
}

/// One system of the reference file.
#[derive(serde::Deserialize)]
struct System {
    name: String,
    wkt: String,
    x_y_lon_lat: Vec<[f64; 4]>,
}

#[derive(serde::Deserialize)]
struct Reference {
    systems: Vec<System>,
}

#[test]
fn the_prj_is_obeyed_feet_included() {
    // Values by PROJ through pyproj: tests/reference/road_projection.py. A ten-millionth of a degree is about 1 cm.
    let reference: Reference = serde_json::from_str(include_str!("reference/road_projection.json")).unwrap();
    assert_eq!(reference.systems.len(), 3);
    for system in reference.systems {
        let folder = tempfile::tempdir().unwrap();
        let shp = folder.path().join("grid.shp");
        let points: Vec<(f64, f64)> = system.x_y_lon_lat.iter().map(|row| (row[0], row[1])).collect();
        write_shapefile(&shp, &[points], Some(&system.wkt));
        let file = read(&shp);
        assert!(file.problems.is_empty(), "{} {:?}", system.name, file.problems);
        for (place, row) in file.lines[0].points.iter().zip(&system.x_y_lon_lat) {
            assert!(
                (place.lon - row[2]).abs() < 1e-8 && (place.lat - row[3]).abs() < 1e-8,
                "{} {place:?} {row:?}",
                system.name
            );
        }
    }
}

#[test]
fn a_datum_without_a_known_shift_is_said() {
    let clarke = DEGREES_PRJ.replace("WGS_1984\",6378137.0,298.257223563", "Clarke_1866\",6378206.4,294.9786982");
    let folder = tempfile::tempdir().unwrap();
    let shp = folder.path().join("roads.shp");
    write_shapefile(&shp, &[vec![(-30.0, 10.0), (-29.9, 10.0)]], Some(&clarke));
    let file = read(&shp);
    assert_eq!(codes(&file.problems), ["road.prj.no_shift"]);
    assert_eq!(file.lines.len(), 1);
}

#[test]
fn shapefiles_of_other_things_are_refused() {
    let folder = tempfile::tempdir().unwrap();
    let shp = folder.path().join("plots.shp");
    let ring = [(0.0, 0.0), (0.0, 1.0), (1.0, 1.0), (0.0, 0.0)].map(|(x, y)| shapefile::Point::new(x, y)).to_vec();
    let mut writer = shapefile::ShapeWriter::from_path(&shp).unwrap();
    writer.write_shape(&shapefile::Polygon::new(shapefile::PolygonRing::Outer(ring))).unwrap();
    drop(writer);
    let file = read(&shp);
    assert!(file.lines.is_empty());
    assert!(the_problem(&file, "road.shp.kind").wrong.contains("Polygon"));
}

fn join_rule() -> RoadJoinRule {
    fn said<T>(value: T) -> Sourced<T> {
        Sourced { value, source: Source::agency("test") }
    }
    RoadJoinRule {
        file: said("ratings.csv".into()),
        key: said("StreetID".into()),
        surface: Some(said("Seal".into())),
        surface_words: Some(said(BTreeMap::from([
            ("O".to_owned(), Surface::SurfaceTreated),
            ("F".to_owned(), Surface::Paved),
        ]))),
        width: Some(said("Width".into())),
        width_unit: Some(said(WidthUnit::Feet)),
        width_unsaid: Some(said(vec!["NA".into(), "0".into()])),
        speed: None,
        driving_speed: None,
        speed_unit: None,
    }
}

fn join(csv: &[u8]) -> exchange::road_files::RoadJoin {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("ratings.csv");
    std::fs::write(&path, csv).unwrap();
    read_road_join(&path, &join_rule(), &rules().plausible)
}

#[test]
fn a_join_table_corrects_surface_and_width() {
    let mut file = read_bytes("roads.geojson", GEOJSON.as_bytes());
    let table = join(b"StreetID,Width,Seal,Rating\n17,24,O,5\nR1,NA,F,3\n99,20,O,1\n");
    assert!(table.problems.is_empty(), "{:?}", table.problems);
    let report = apply_road_join(&mut file.lines, &table);
    assert_eq!((report.lines_matched, report.lines_unmatched, report.rows_unmatched), (3, 0, 1));
    let by_id = |id: &str| &file.lines.iter().find(|line| line.source_id == id).unwrap().attributes;
    assert_eq!((by_id("17").surface, by_id("R1").surface), (Surface::SurfaceTreated, Surface::Paved));
    assert!((by_id("17").width.in_metres() - 7.3152).abs() < 1e-9);
    assert!((by_id("R1").width.in_metres() - 6.096).abs() < 1e-9, "NA says nothing");
    assert!(!by_id("17").defaulted.contains(&"surface") && !by_id("17").defaulted.contains(&"width"));
}

#[test]
fn a_join_table_says_limits_and_what_trucks_really_drive() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("ratings.csv");
    std::fs::write(&path, "StreetID,Limit,Truck\n17,30,20\nR1,NA,15\nR2,900,slow\n17,35,20\n").unwrap();
    let said = |text: &str| Some(Sourced { value: text.to_owned(), source: Source::agency("test") });
    let rule = RoadJoinRule {
        surface: None,
        width: None,
        speed: said("Limit"),
        driving_speed: said("Truck"),
        speed_unit: Some(Sourced { value: SpeedUnit::MilesPerHour, source: Source::agency("test") }),
        ..join_rule()
    };
    let table = read_road_join(&path, &rule, &rules().plausible);
    assert_eq!(codes(&table.problems), ["road.join.speed", "road.join.speed", "road.join.twice"]);
    let mut file = read_bytes("roads.geojson", GEOJSON.as_bytes());
    apply_road_join(&mut file.lines, &table);
    let of = |id: &str| {
        let attributes = &file.lines.iter().find(|line| line.source_id == id).unwrap().attributes;
        let driving = attributes.truck.driving_speed.map(InVelocity::in_kilometres_per_hour);
        (attributes.speed.in_kilometres_per_hour().round(), driving.map(f64::round))
    };
    // 30, 20 and 15 mph in km/h; the limit of R1 is the file's own 50 mph.
    assert_eq!((of("17"), of("R1")), ((48.0, Some(32.0)), (80.0, Some(24.0))));
}

#[test]
fn columns_say_limits_for_trucks() {
    let odd = GEOJSON.replace(
        "\"aadt\": 420",
        "\"weight_limit_tons\": 10, \"clearance_ft\": 12.5, \"trucks\": \"No\", \"driving_speed_mph\": 25",
    );
    let file = read_bytes("roads.geojson", odd.as_bytes());
    assert!(file.problems.is_empty(), "{:?}", file.problems);
    let truck = file.lines[0].attributes.truck;
    assert!((truck.mass.unwrap().in_kilograms() - 9071.8474).abs() < 0.01, "ten short tons");
    assert!((truck.height.unwrap().in_metres() - 3.81).abs() < 1e-9);
    assert!((truck.no_heavier_than.unwrap().in_kilograms() - 3500.0).abs() < 1e-9);
    assert!((truck.driving_speed.unwrap().in_kilometres_per_hour() - 40.2336).abs() < 1e-9);
    assert_eq!(file.lines[1].attributes.truck, model::road::TruckAccess::default());
}

#[test]
fn a_join_in_the_rule_set_is_made_while_reading() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("roads.geojson");
    std::fs::write(&path, GEOJSON).unwrap();
    let mut rules = rules();
    rules.join = Some(join_rule());
    let read = |table: &str| {
        std::fs::write(folder.path().join("ratings.csv"), table).unwrap();
        read_roads(&path, &rules, &mut |_| {})
    };
    let file = read("StreetID,Width,Seal\n17,24,O\n");
    assert!(file.problems.is_empty(), "{:?}", file.problems);
    assert_eq!(file.lines[1].attributes.surface, Surface::SurfaceTreated);

    assert_eq!(codes(&read("StreetID,Width,Seal\n71,24,O\n").problems), ["road.join.no_match"]);
    std::fs::remove_file(folder.path().join("ratings.csv")).unwrap();
    let file = read_roads(&path, &rules, &mut |_| {});
    assert_eq!((file.lines.len(), codes(&file.problems)), (3, vec!["road.join.unreadable"]));
}

#[test]
fn a_join_table_with_faults() {
    let table = join(b"Width,StreetID,Seal\n24,1,O\n,,F\n900,2,O\n30,1,F\n22,3,?\n\"24,4\n");
    let problems: Vec<(&str, usize)> = table.problems.iter().map(|p| (p.code, p.at.line)).collect();
    let expected = [
        ("road.join.no_key", 3),
        ("road.join.width", 4),
        ("road.join.twice", 5),
        ("road.join.twice", 5),
        ("road.join.no_key", 7),
    ];
    assert_eq!(problems, expected);
    assert_eq!(table.rows["1"].surface, Some(Surface::SurfaceTreated), "the first row counts");
    assert_eq!((table.rows["2"].width, table.rows["3"].surface), (None, None));

    let table = join(b"Id,Width\n1,2\n");
    assert!(table.rows.is_empty() && table.problems.iter().all(|p| p.severity == ProblemSeverity::Fatal));
    let missing = read_road_join(Path::new("/nowhere/ratings.csv"), &join_rule(), &rules().plausible);
    assert_eq!(codes(&missing.problems), ["road.join.unreadable"]);
}

#[test]
fn tables_never_refuse_a_line_for_its_attributes() {
    let odd =
        GEOJSON.replace("\"tertiary\"", "\"boulevardish\"").replace("\"speed_mph\": 50", "\"speed_mph\": \"quick\"");
    let file = read_bytes("roads.geojson", odd.as_bytes());
    assert_eq!(file.lines.len(), 3);
    assert_eq!(codes(&file.problems), ["road.class.unknown_word", "road.speed.unreadable"]);
    assert!(!refused(&file));
}
