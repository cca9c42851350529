//! Real extracts, when they are present: counts and places against other readers. Only numbers are kept here.

mod road_support;

use std::collections::BTreeMap;

use exchange::road_files::{RoadFile, apply_road_join, read_road_join, read_roads};
use model::figure::Source;
use model::problem::ProblemSeverity;
use model::road::{RoadClass, Surface};
use model::rules::Sourced;
use model::rules::roads::{RoadJoinRule, SpeedUnit, WidthUnit};
use road_support::{read, rules, shared_data};

/// Radius of a sphere with the Earth's mean radius, m (from memory: IUGG).
const EARTH_RADIUS_M: f64 = 6_371_008.8;

/// Length over the sphere, good to about half a per cent against the ellipsoid.
fn total_metres(file: &RoadFile) -> f64 {
    let mut sum = 0.0;
    for line in &file.lines {
        for pair in line.points.windows(2) {
            let [a, b] = [pair[0], pair[1]].map(|p| (p.lon.to_radians(), p.lat.to_radians()));
            let h = ((b.1 - a.1) / 2.0).sin().powi(2) + a.1.cos() * b.1.cos() * ((b.0 - a.0) / 2.0).sin().powi(2);
            sum += 2.0 * EARTH_RADIUS_M * h.sqrt().asin();
        }
    }
    sum
}

fn bounding_box(file: &RoadFile) -> [f64; 4] {
    file.lines.iter().flat_map(|line| &line.points).fold([999.0, 999.0, -999.0, -999.0], |b, p| {
        [b[0].min(p.lon), b[1].min(p.lat), b[2].max(p.lon), b[3].max(p.lat)]
    })
}

fn assert_near(ours: [f64; 4], theirs: [f64; 4]) {
    assert!(ours.iter().zip(theirs).all(|(a, b)| (a - b).abs() < 1e-7), "{ours:?} {theirs:?}");
}

fn point_count(file: &RoadFile) -> usize {
    file.lines.iter().map(|line| line.points.len()).sum()
}

fn by_class(file: &RoadFile) -> BTreeMap<RoadClass, usize> {
    file.lines.iter().fold(BTreeMap::new(), |mut count, line| {
        *count.entry(line.attributes.class).or_default() += 1;
        count
    })
}

#[test]
fn a_small_country_as_pbf() {
    let Some(data) = shared_data() else { return };
    let file = read(&data.join("osm/liechtenstein.osm.pbf"));
    // Counted with pyosmium 4.3.2, lengths with pyproj 3.7.2: tests/reference/road_counts.py.
    assert_eq!((file.lines.len(), point_count(&file)), (3173, 34275));
    assert_near(bounding_box(&file), [9.4708532, 47.0451094, 9.6262518, 47.2785556]);
    assert!((total_metres(&file) / 775_706.0 - 1.0).abs() < 0.005, "{}", total_metres(&file));
    assert_eq!(by_class(&file)[&RoadClass::Primary], 122 + 3);
    assert_eq!(by_class(&file)[&RoadClass::Residential], 1096 + 18);
    assert!(file.problems.iter().all(|p| p.severity == ProblemSeverity::Warning), "{:?}", file.problems);
}

#[test]
fn a_rural_district_as_xml() {
    let Some(data) = shared_data() else { return };
    let file = read(&data.join("osm/north-bayreuth.osm.gz"));
    // Counted with pyosmium 4.3.2, lengths with pyproj 3.7.2: tests/reference/road_counts.py.
    assert_eq!((file.lines.len(), point_count(&file)), (1671, 14447));
    assert_near(bounding_box(&file), [11.4578201, 49.9673384, 11.6134246, 50.06025]);
    assert!((total_metres(&file) / 512_316.0 - 1.0).abs() < 0.005, "{}", total_metres(&file));
    assert_eq!(by_class(&file)[&RoadClass::Motorway], 64 + 33);
    assert!(file.problems.iter().all(|p| p.severity == ProblemSeverity::Warning), "{:?}", file.problems);
}

#[test]
fn a_city_as_a_shapefile_in_feet_with_its_ratings() {
    fn said<T>(value: T) -> Sourced<T> {
        Sourced { value, source: Source::agency("the data's own columns") }
    }
    let Some(data) = shared_data() else { return };
    let mut rules = rules();
    rules.columns.id = said(vec!["street_id".into()]);
    rules.columns.speed_unit = said(SpeedUnit::MilesPerHour);
    let mut file = read_roads(&data.join("syracuse/streets.shp"), &rules, &mut |_| {});
    // Counted with pyshp 3.1.6, placed and measured with pyproj 3.7.2 (all records; 41 are footways, A71).
    assert_eq!((file.lines.len(), file.left_out.values().sum::<usize>()), (6825 - 41, 41));
    let theirs = [-76.20448212404698, 42.98441886749961, -76.07427264220884, 43.086122584406304];
    let ours = bounding_box(&file);
    assert!(ours[0] >= theirs[0] - 1e-9 && ours[1] >= theirs[1] - 1e-9, "{ours:?}");
    assert!(ours[2] <= theirs[2] + 1e-9 && ours[3] <= theirs[3] + 1e-9, "{ours:?}");
    assert!((total_metres(&file) / 825_588.0 - 1.0).abs() < 0.01, "{}", total_metres(&file));
    assert_eq!(by_class(&file)[&RoadClass::Service], 641 + 9, "A74 and A64");
    assert!(file.problems.iter().all(|p| p.severity == ProblemSeverity::Warning), "{:?}", file.problems);

    let rule = RoadJoinRule {
        file: said("road_ratings.csv".into()),
        key: said("StreetID".into()),
        surface: Some(said("Flush_Oil".into())),
        surface_words: Some(said(BTreeMap::from([("O".to_owned(), Surface::SurfaceTreated)]))),
        width: Some(said("Width".into())),
        width_unit: Some(said(WidthUnit::Feet)),
        width_unsaid: Some(said(vec!["NA".into(), "0".into()])),
        speed: None,
        driving_speed: None,
        speed_unit: None,
    };
    let join = read_road_join(&data.join("syracuse/road_ratings.csv"), &rule, &rules.plausible);
    assert!(join.rows.len() >= 4700, "{}", join.rows.len());
    let report = apply_road_join(&mut file.lines, &join);
    let treated = file.lines.iter().filter(|line| line.attributes.surface == Surface::SurfaceTreated).count();
    println!("{report:?}, {treated} surface-treated, {} join problems", join.problems.len());
    assert!(report.lines_matched > 4000, "{report:?}");
    assert!((1400..=1700).contains(&treated), "{treated}");
}
