//! The open map, PBF and XML: which ways are read, and what becomes of their tags.

mod road_support;

use exchange::road_files::{Progress, RoadFile, read_roads};
use model::quantity::{InLength, InVelocity};
use model::road::{Flow, RawLine, RoadClass, Setting, Surface};
use model::road_around::StructureKind;
use road_support::{codes, gzip, pbf_of, read_bytes, refused, rules, the_problem, ways, xml_of};

fn check_the_invented_roads(file: &RoadFile) {
    assert!(file.problems.is_empty(), "{:?}", file.problems);
    assert_eq!(file.attribution.as_deref(), Some("© OpenStreetMap contributors, ODbL 1.0"));
    assert_eq!(file.left_out.iter().collect::<Vec<_>>(), [(&"highway=footway".to_owned(), &1)]);
    let [harbour, lane] = &file.lines[..] else { panic!("{:?}", file.lines) };
    assert_eq!(harbour.source_id, "101");
    assert_eq!(harbour.node_keys, Some(vec![11, 12, 13]));
    let places: Vec<(f64, f64)> = harbour.points.iter().map(|p| (p.lon, p.lat)).collect();
    assert_eq!(places, [(-30.01, 10.0), (-30.0, 10.001), (-29.99, 10.0025)]);
    let a = &harbour.attributes;
    assert_eq!((a.class, a.name.as_str(), a.number.as_str()), (RoadClass::Primary, "Harbour Road", "7"));
    assert!((a.speed.in_kilometres_per_hour() - 80.0).abs() < 1e-9);
    assert!((a.width.in_metres() - 6.5).abs() < 1e-12);
    assert_eq!((a.lanes, a.flow, a.surface, a.setting), (2, Flow::Both, Surface::SurfaceTreated, Setting::Rural));
    assert_eq!(a.vehicles_per_day, None);
    assert_eq!(a.defaulted, ["setting", "shoulder"]);
    let b = &lane.attributes;
    assert_eq!((b.class, b.name.as_str(), b.flow), (RoadClass::Residential, "Möwenweg", Flow::Backward));
    assert_eq!((b.lanes, b.setting), (1, Setting::Urban));
    assert_eq!(b.defaulted, ["setting", "speed", "lanes", "width", "shoulder", "surface"]);
}

#[test]
fn every_form_of_the_open_map_gives_the_same_roads() {
    let xml = xml_of(&ways());
    check_the_invented_roads(&read_bytes("roads.osm", xml.as_bytes()));
    check_the_invented_roads(&read_bytes("roads.osm.gz", &gzip(xml.as_bytes())));
    check_the_invented_roads(&read_bytes("roads.osm.pbf", &pbf_of(&ways(), true)));
    check_the_invented_roads(&read_bytes("roads.osm.pbf", &pbf_of(&ways(), false)));
    // Content wins over the name.
    check_the_invented_roads(&read_bytes("roads.dat", &pbf_of(&ways(), true)));
    check_the_invented_roads(&read_bytes("roads.pbf", format!("\u{FEFF}\n{xml}").trim_start().as_bytes()));
}

/// Tags of one way.
type Tags<'t> = &'t [(&'static str, &'static str)];

/// Reads one way with those tags; none if it is left out.
fn one_way(tags: &[(&'static str, &'static str)]) -> (Option<RawLine>, Vec<&'static str>) {
    let file = read_bytes("roads.osm", xml_of(&[(1, vec![11, 12], tags.to_vec())]).as_bytes());
    (file.lines.first().cloned(), codes(&file.problems))
}

#[test]
fn only_roads_for_vehicles_are_read() {
    // Values: OpenStreetMap wiki, Key:highway (from memory). Which are left out: common practice, in the rule data.
    let table: [(Tags, Option<RoadClass>); 16] = [
        (&[("highway", "motorway_link")], Some(RoadClass::Motorway)),
        (&[("highway", "secondary_link")], Some(RoadClass::Secondary)),
        (&[("highway", "living_street")], Some(RoadClass::Residential)),
        (&[("highway", "road")], Some(RoadClass::Unclassified)),
        (&[("highway", "track")], Some(RoadClass::Track)),
        (&[("highway", "service")], Some(RoadClass::Service)),
        (&[("highway", "cycleway")], None),
        (&[("highway", "path")], None),
        (&[("highway", "construction")], None),
        (&[("railway", "rail")], None),
        (&[("highway", "residential"), ("area", "yes")], None),
        (&[("highway", "service"), ("service", "driveway")], None),
        (&[("highway", "track"), ("access", "private")], None),
        (&[("highway", "track"), ("access", "no"), ("motor_vehicle", "yes")], Some(RoadClass::Track)),
        (&[("highway", "tertiary"), ("access", "destination")], Some(RoadClass::Tertiary)),
        (&[("highway", "unclassified"), ("motor_vehicle", "no")], None),
    ];
    for (tags, class) in table {
        let (line, problems) = one_way(tags);
        assert_eq!(line.map(|line| line.attributes.class), class, "{tags:?}");
        assert!(problems.iter().all(|code| *code == "road.file.no_roads"), "{tags:?} {problems:?}");
    }
}

#[test]
fn directions_of_traffic() {
    // Values: OpenStreetMap wiki, Key:oneway (from memory).
    let table: [(Tags, Flow, u32); 9] = [
        (&[("highway", "tertiary")], Flow::Both, 2),
        (&[("highway", "tertiary"), ("oneway", "yes")], Flow::Forward, 1),
        (&[("highway", "tertiary"), ("oneway", "-1")], Flow::Backward, 1),
        (&[("highway", "tertiary"), ("oneway", "reversible")], Flow::Both, 2),
        (&[("highway", "tertiary"), ("junction", "roundabout")], Flow::Forward, 1),
        (&[("highway", "motorway")], Flow::Forward, 2),
        (&[("highway", "motorway_link")], Flow::Forward, 2),
        (&[("highway", "motorway"), ("oneway", "no")], Flow::Both, 4),
        (&[("highway", "tertiary"), ("oneway", "yes"), ("lanes", "3")], Flow::Forward, 3),
    ];
    for (tags, flow, lanes) in table {
        let attributes = one_way(tags).0.unwrap().attributes;
        assert_eq!((attributes.flow, attributes.lanes), (flow, lanes), "{tags:?}");
        assert_eq!(attributes.defaulted.contains(&"flow"), tags == [("highway", tags[0].1)] && flow == Flow::Forward);
    }
}

#[test]
fn bridges_tunnels_and_roundabouts() {
    use StructureKind::{Bridge, Tunnel};
    // Values: OpenStreetMap wiki, Key:bridge, Key:tunnel, Key:junction (from memory).
    let table: [(Tags, Option<StructureKind>, bool); 9] = [
        (&[("bridge", "yes")], Some(Bridge), false),
        (&[("bridge", "viaduct")], Some(Bridge), false),
        (&[("bridge", "No")], None, false),
        (&[("tunnel", "yes")], Some(Tunnel), false),
        (&[("tunnel", "building_passage")], Some(Tunnel), false),
        (&[("tunnel", "no"), ("bridge", "movable")], Some(Bridge), false),
        (&[("bridge:name", "Long Bridge")], None, false),
        (&[("junction", "roundabout")], None, true),
        (&[("junction", "yield")], None, false),
    ];
    for (tags, structure, roundabout) in table {
        let tags: Vec<_> = [("highway", "tertiary")].iter().chain(tags).copied().collect();
        for file in [
            read_bytes("roads.osm", xml_of(&[(1, vec![11, 12], tags.clone())]).as_bytes()),
            read_bytes("roads.osm.pbf", &pbf_of(&[(1, vec![11, 12], tags.clone())], true)),
        ] {
            let attributes = &file.lines[0].attributes;
            assert_eq!((attributes.structure, attributes.roundabout), (structure, roundabout), "{tags:?}");
        }
    }
}

#[test]
fn speeds_and_settings() {
    // Values: OpenStreetMap wiki, Key:maxspeed (from memory); class defaults as in the rule data.
    let table: [(&str, &str, f64, Setting, bool); 12] = [
        ("unclassified", "30 mph", 48.28032, Setting::Urban, false),
        ("unclassified", "70", 70.0, Setting::Rural, false),
        ("unclassified", "walk", 7.0, Setting::Urban, false),
        ("unclassified", "none", 90.0, Setting::Rural, true),
        ("unclassified", "DE:urban", 50.0, Setting::Urban, true),
        ("unclassified", "DE:rural", 90.0, Setting::Rural, true),
        ("unclassified", "DE:zone30", 50.0, Setting::Urban, true),
        ("unclassified", "100;60", 100.0, Setting::Rural, false),
        ("residential", "signals", 50.0, Setting::Urban, true),
        ("residential", "80", 80.0, Setting::Rural, false),
        ("unclassified", "fast", 90.0, Setting::Rural, true),
        ("unclassified", "900", 90.0, Setting::Rural, true),
    ];
    for (class, speed, km_h, setting, defaulted) in table {
        let (line, problems) = one_way(&[("highway", class), ("maxspeed", speed)]);
        let attributes = line.unwrap().attributes;
        assert!((attributes.speed.in_kilometres_per_hour() - km_h).abs() < 1e-9, "{class} {speed}");
        assert_eq!(attributes.setting, setting, "{class} {speed}");
        assert_eq!(attributes.defaulted.contains(&"speed"), defaulted, "{class} {speed}");
        let wrong = match speed {
            "fast" => vec!["road.speed.unreadable"],
            "900" => vec!["road.speed.absurd"],
            _ => vec![],
        };
        assert_eq!(problems, wrong, "{class} {speed}");
    }
    let zoned = one_way(&[("highway", "tertiary"), ("zone:traffic", "DE:urban")]).0.unwrap().attributes;
    assert_eq!(zoned.setting, Setting::Urban);
    assert!((zoned.speed.in_kilometres_per_hour() - 50.0).abs() < 1e-9);
    assert!(!zoned.defaulted.contains(&"setting"));
    let two = one_way(&[("highway", "tertiary"), ("maxspeed:forward", "60"), ("maxspeed:backward", "80")]).0.unwrap();
    assert!((two.attributes.speed.in_kilometres_per_hour() - 80.0).abs() < 1e-9);
}

#[test]
fn surfaces_widths_and_shoulders() {
    // Values: OpenStreetMap wiki, Key:surface, Key:width, Key:shoulder (from memory).
    for (word, surface) in [
        ("chipseal", Surface::SurfaceTreated),
        ("asphalt", Surface::Paved),
        ("Paved", Surface::Paved),
        ("concrete:plates", Surface::Rigid),
        ("sett", Surface::Rigid),
        ("paving_stones:30", Surface::Rigid),
        ("cobblestone", Surface::Rigid),
        ("gravel", Surface::Unpaved),
        ("compacted", Surface::Unpaved),
        ("asphalt;gravel", Surface::Paved),
    ] {
        let (line, problems) = one_way(&[("highway", "track"), ("surface", word)]);
        let attributes = line.unwrap().attributes;
        assert_eq!(attributes.surface, surface, "{word}");
        assert!(!attributes.defaulted.contains(&"surface"));
        assert!(problems.is_empty());
    }
    let (line, problems) = one_way(&[("highway", "track"), ("surface", "velvet")]);
    assert_eq!(line.unwrap().attributes.surface, Surface::Unpaved);
    assert_eq!(problems, ["road.surface.unknown_word"]);

    let wide = one_way(&[("highway", "tertiary"), ("width", "20'6\""), ("shoulder", "no")]).0.unwrap().attributes;
    assert!((wide.width.in_metres() - 6.2484).abs() < 1e-9);
    assert_eq!(wide.shoulder.in_metres(), 0.0);
    let (line, problems) = one_way(&[("highway", "tertiary"), ("width", "600"), ("lanes", "3"), ("shoulder", "yes")]);
    let attributes = line.unwrap().attributes;
    assert!((attributes.width.in_metres() - 9.0).abs() < 1e-9, "three lanes of the class's 3.0 m");
    assert!((attributes.shoulder.in_metres() - 0.6).abs() < 1e-9);
    assert_eq!(problems, ["road.width.absurd"]);
    assert!(attributes.defaulted.contains(&"width") && attributes.defaulted.contains(&"shoulder"));
}

#[test]
fn ways_with_missing_nodes_keep_what_is_there() {
    let tags = vec![("highway", "tertiary")];
    let roads = [(1, vec![11, 12, 99, 13, 14, 98], tags.clone()), (2, vec![11, 97], tags.clone()), (3, vec![11], tags)];
    for file in [read_bytes("roads.osm", xml_of(&roads).as_bytes()), read_bytes("roads.osm.pbf", &pbf_of(&roads, true))]
    {
        let keys: Vec<_> = file.lines.iter().map(|line| line.node_keys.clone().unwrap()).collect();
        assert_eq!(keys, [vec![11, 12], vec![13, 14]]);
        assert!(file.lines.iter().all(|line| line.source_id == "1"));
        let expected = ["road.node.missing", "road.node.missing", "road.line.too_short", "road.line.too_short"];
        assert_eq!(codes(&file.problems), expected);
        assert!(file.problems[0].wrong.contains("2 of its 6 nodes") && file.problems[0].wrong.contains("node 99"));
        assert!(refused(&file));
    }
}

#[test]
fn xml_problems_say_line_and_column() {
    let mut text = xml_of(&ways()).replace("lat=\"10.001\"", "lat=\"110.001\"");
    text = text.replace("<way id=\"102\">", "<way id=\"101\">");
    let file = read_bytes("roads.osm", text.as_bytes());
    let node = the_problem(&file, "road.node.out_of_range");
    assert_eq!((node.at.line, node.at.column, node.subject.as_str()), (4, 3, "node 12"));
    let twice = the_problem(&file, "road.way.twice");
    assert_eq!((twice.at.line, twice.at.column), (20, 3));
    assert!(file.lines.is_empty(), "the middle node of the only road is gone");
}

#[test]
fn progress_runs_over_both_passes_and_ends_full() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("roads.osm.pbf");
    let bytes = pbf_of(&ways(), true);
    std::fs::write(&path, &bytes).unwrap();
    let mut told: Vec<Progress> = Vec::new();
    read_roads(&path, &rules(), &mut |progress| told.push(progress));
    let total = 2 * bytes.len() as u64;
    assert_eq!(told.first(), Some(&Progress { done_bytes: 0, total_bytes: total }));
    assert_eq!(told.last(), Some(&Progress { done_bytes: total, total_bytes: total }));
    assert!(told.windows(2).all(|pair| pair[0].done_bytes <= pair[1].done_bytes));
}
