//! What is read from an address, and how it is refused.

mod common;

use common::service;
use feeds::{
    Collection, Crs, FeatureQuery, Filter, Geometry, Interval, LIMIT_MOST, LonLatBox, Refusal, Request, read_request,
};
use jiff::Timestamp;
use model::place::LonLat;
use proptest::prelude::*;
use serde_json::json;

fn offered() -> Vec<Crs> {
    service("").crs
}

fn read(query: &str) -> Result<FeatureQuery, Refusal> {
    FeatureQuery::read(Collection::Holes, query, &offered())
}

fn moment(text: &str) -> Timestamp {
    text.parse().expect("a moment")
}

#[test]
fn nothing_said_is_everything_by_the_hundred() {
    let query = read("").unwrap();
    assert_eq!((query.bounds, query.time, query.limit, query.cursor, query.crs), (None, None, 100, None, Crs::Crs84));
    assert!(query.filters.is_empty());
}

#[test]
fn boxes_in_every_system() {
    let globe = LonLatBox::GLOBE;
    let part = LonLatBox { west: 81.0, south: -19.0, east: 82.0, north: -18.0 };
    let table = [
        ("bbox=81,-19,82,-18", part),
        ("bbox=81,-19,-5,82,-18,900", part),
        ("bbox=-19,81,-18,82&bbox-crs=http://www.opengis.net/def/crs/EPSG/0/4326", part),
        ("bbox=170,-10,-170,10", LonLatBox { west: 170.0, south: -10.0, east: -170.0, north: 10.0 }),
        (
            "bbox=-10,170,10,-170&bbox-crs=http://www.opengis.net/def/crs/EPSG/0/4326",
            LonLatBox { west: 170.0, south: -10.0, east: -170.0, north: 10.0 },
        ),
        // More of the globe than there is, as maps ask that show it several times.
        ("bbox=-400,-120,400,95", globe),
        ("bbox=170,-10,190,10", LonLatBox { west: 170.0, south: -10.0, east: -170.0, north: 10.0 }),
        ("bbox=-190,-10,-185,10", LonLatBox { west: 170.0, south: -10.0, east: 175.0, north: 10.0 }),
    ];
    for (query, expected) in table {
        assert_eq!(read(query).unwrap().bounds, Some(expected), "{query}");
    }
    let web = read(
        "bbox=-20037508.35,-20037508.35,20037508.35,20037508.35&bbox-crs=http://www.opengis.net/def/crs/EPSG/0/3857",
    );
    let bounds = web.unwrap().bounds.unwrap();
    assert_eq!((bounds.west, bounds.east), (-180.0, 180.0));
    // The map's edge, by the square's definition: atan(sinh(pi)).
    let edge = std::f64::consts::PI.sinh().atan().to_degrees();
    assert!((bounds.north - edge).abs() < 1e-6 && (bounds.south + edge).abs() < 1e-6);
}

#[test]
fn moments_days_and_spans() {
    let day = |text: &str| Interval {
        from: Some(moment(&format!("{text}T00:00:00Z"))),
        to: Some(moment(&format!("{text}T23:59:59.999999999Z"))),
    };
    let at = Some(moment("2026-06-09T07:15:00Z"));
    let table = [
        ("2026-06-09T07:15:00Z", Interval { from: at, to: at }),
        ("2026-06-09t09:15:00.000%2B02:00", Interval { from: at, to: at }),
        ("2026-06-09T07:15:00Z/..", Interval { from: at, to: None }),
        ("2026-06-09T07:15:00Z/", Interval { from: at, to: None }),
        ("../2026-06-09T07:15:00Z", Interval { from: None, to: at }),
        ("/2026-06-09T07:15:00Z", Interval { from: None, to: at }),
        ("../..", Interval::default()),
        ("2026-06-09", day("2026-06-09")),
        ("2026-06-08/2026-06-09", Interval { from: day("2026-06-08").from, to: day("2026-06-09").to }),
    ];
    for (text, expected) in table {
        assert_eq!(read(&format!("datetime={text}")).unwrap().time, Some(expected), "{text}");
    }
}

#[test]
fn limits_cursors_and_values() {
    assert_eq!(read("limit=1").unwrap().limit, 1);
    // OGC 17-069r4, 7.15.2: a limit above the greatest is no error.
    assert_eq!(read("limit=99999999999999999999999").unwrap().limit, LIMIT_MOST);
    assert_eq!(read("cursor=abc").unwrap().cursor.as_deref(), Some("abc"));
    assert_eq!(read("cursor=").unwrap().cursor, None);
    let filters = read("wetness=wet&seen=2026-06-09").unwrap().filters;
    let expected =
        [Filter { property: "wetness", value: json!("wet") }, Filter { property: "seen", value: json!("2026-06-09") }];
    assert_eq!(filters, expected);
    let roads = FeatureQuery::read(Collection::Roads, "lanes=2&name=Alder+Ridge%20Road", &offered()).unwrap();
    assert_eq!(roads.filters[1].value, json!(2));
    assert_eq!(roads.filters[0].value, json!("Alder Ridge Road"));
}

#[test]
fn every_bad_parameter_is_refused_with_its_reason() {
    let queries = [
        "bbox=1,2,3",
        "bbox=1,2,3,four",
        "bbox=1,2,3,NaN",
        "bbox=1,2,3,inf",
        "bbox=1,20,3,4",
        "bbox=1,2,9,3,4,5",
        "bbox=",
        "bbox=9,1,5,2&bbox-crs=http://www.opengis.net/def/crs/EPSG/0/32744",
        "bbox=0,0,1e12,1e12&bbox-crs=http://www.opengis.net/def/crs/EPSG/0/32744",
        "bbox-crs=EPSG:4326",
        "crs=http://www.opengis.net/def/crs/EPSG/0/32633",
        "datetime=yesterday",
        "datetime=",
        "datetime=2026-06-09T07:15:00",
        "datetime=2026-06-09 07:15:00Z",
        "datetime=2026-06-09T07:15:00+02:00",
        "datetime=2026-06-09T07:15:00.Z",
        "datetime=2026-02-30",
        "datetime=20260609",
        "datetime=2026-06-09T07:15Z",
        "datetime=2026-06-09T07:15:00Z[Europe/Berlin]",
        "datetime=2026-06-09/2026-06-08",
        "datetime=2026-06-09/2026-06-10/2026-06-11",
        "limit=0",
        "limit=-1",
        "limit=1.5",
        "limit=",
        "limit=%2B5",
        "limit=5&limit=6",
        "seen=June",
        "depth_mm=50",
        "colour=red",
        "a=1&limit=x&bbox=1",
    ];
    let said: Vec<String> = queries
        .iter()
        .map(|query| {
            let refusal = read(query).expect_err(query);
            assert_eq!(refusal.status(), 400);
            format!("{query}\n    {refusal}")
        })
        .collect();
    insta::assert_snapshot!(said.join("\n"));
}

#[test]
fn paths_and_what_is_not_there() {
    let request = |path: &str, query: &str| read_request(path, query, &offered());
    for (path, expected) in [
        ("", Request::LandingPage),
        ("/", Request::LandingPage),
        ("/api", Request::ApiDefinition),
        ("/conformance", Request::Conformance),
        ("/collections", Request::Collections),
        ("/collections/", Request::Collections),
        ("/collections/zones", Request::Collection(Collection::Zones)),
    ] {
        assert_eq!(request(path, ""), Ok(expected), "{path}");
        assert_eq!(request(path, "f=html").map_err(|refusal| refusal.status()), Err(400), "{path}");
    }
    assert!(
        matches!(request("/collections/holes/items", "limit=5"), Ok(Request::Items(Collection::Holes, query)) if query.limit == 5)
    );
    let item = |id: &str, crs| Ok(Request::Item { collection: Collection::Roads, id: id.to_owned(), crs });
    assert_eq!(request("/collections/roads/items/17", ""), item("17", Crs::Crs84));
    assert_eq!(request("/collections/roads/items/a%2Fb+c%26d%3De", ""), item("a/b+c&d=e", Crs::Crs84));
    assert_eq!(
        request("/collections/roads/items/17", "crs=http://www.opengis.net/def/crs/EPSG/0/3857"),
        item("17", Crs::WebMercator)
    );
    for path in [
        "/nothing",
        "/collections/potholes",
        "/collections/holes/queryables",
        "/collections/holes/items/1/2",
        "/collections/holes/items/%FF",
        "/collections//items",
    ] {
        assert_eq!(request(path, "").map_err(|refusal| refusal.status()), Err(404), "{path}");
    }
}

#[test]
fn boxes_that_cross_the_antimeridian() {
    let pacific = LonLatBox { west: 170.0, south: -10.0, east: -170.0, north: 10.0 };
    let narrow = LonLatBox { west: -179.8, south: -1.0, east: -179.6, north: 1.0 };
    let up_to_it = LonLatBox { west: 170.0, south: -10.0, east: 180.0, north: 10.0 };
    let point = |lon: f64, lat: f64| Geometry::Point(LonLat { lon, lat });
    let line = |places: &[(f64, f64)]| Geometry::Line(places.iter().map(|&(lon, lat)| LonLat { lon, lat }).collect());
    for (bounds, geometry, inside) in [
        (pacific, point(175.0, 0.0), true),
        (pacific, point(-175.0, 0.0), true),
        (pacific, point(180.0, 0.0), true),
        (pacific, point(-180.0, 0.0), true),
        (pacific, point(0.0, 0.0), false),
        (pacific, point(175.0, 11.0), false),
        (up_to_it, point(-180.0, 0.0), true),
        (up_to_it, point(-179.0, 0.0), false),
        // Lines that only pass through, the short way.
        (narrow, line(&[(179.0, 0.0), (-179.0, 0.0)]), true),
        (narrow, line(&[(179.0, 0.0), (-179.9, 0.0)]), false),
        (narrow, line(&[(-10.0, 0.0), (10.0, 0.0)]), false),
        (pacific, line(&[(160.0, -20.0), (169.0, 20.0)]), false),
        (pacific, line(&[(165.0, 0.0), (172.0, 9.0), (172.0, 20.0)]), true),
    ] {
        assert_eq!(bounds.touches(&geometry), inside, "{bounds:?} {geometry:?}");
    }
}

#[test]
fn the_smallest_box_around_places() {
    let around = |lons: &[f64]| {
        let bounds = LonLatBox::around(lons.iter().map(|&lon| LonLat { lon, lat: 1.0 })).unwrap();
        (bounds.west, bounds.east)
    };
    assert_eq!(around(&[10.0, 12.0, 11.0]), (10.0, 12.0));
    assert_eq!(around(&[179.0, -179.0]), (179.0, -179.0));
    assert_eq!(around(&[179.0, -179.0, 170.0, -100.0]), (170.0, -100.0));
    assert_eq!(around(&[5.0]), (5.0, 5.0));
    assert_eq!(LonLatBox::around([]), None);
    assert_eq!(LonLatBox::around([LonLat { lon: f64::NAN, lat: 0.0 }]), None);
}

#[test]
fn the_middle_of_a_box() {
    let middle = |west, east| LonLatBox { west, south: -2.0, east, north: 4.0 }.middle();
    assert_eq!(middle(10.0, 20.0), LonLat { lon: 15.0, lat: 1.0 });
    assert_eq!(middle(170.0, -160.0), LonLat { lon: -175.0, lat: 1.0 });
    assert_eq!(middle(-180.0, 180.0), LonLat { lon: 0.0, lat: 1.0 });
}

proptest! {
    /// Any text gives a request that keeps its promises, or a refusal that says why.
    #[test]
    fn any_text_is_read_or_refused(path in ".{0,40}", query in ".{0,80}") {
        checked(read_request(&path, &query, &offered()))?;
        checked(read_request("/collections/holes/items", &query, &offered()))?;
    }

    /// Texts that are nearly right.
    #[test]
    fn nearly_right_text_is_read_or_refused(parameters in proptest::collection::vec(nearly_right(), 0..5)) {
        let query = parameters.join("&");
        checked(read_request("/collections/holes/items", &query, &offered()))?;
    }

    /// A place that is in a box of the grid is in the box that is asked of the store.
    #[test]
    fn the_box_around_a_box_of_the_grid_leaves_nothing_out(
        east in 200_000.0..700_000.0_f64, north in 1_200_000.0..9_900_000.0_f64,
        wide in 0.0..300_000.0_f64, tall in 0.0..90_000.0_f64, a in 0.0..=1.0_f64, b in 0.0..=1.0_f64,
    ) {
        let crs = Crs::Utm { zone: 44, north: false };
        let query = format!("bbox={east},{north},{},{}&bbox-crs={}", east + wide, north + tall, crs.uri());
        let bounds = read(&query).unwrap().bounds.unwrap();
        let place = crs.place([east + a * wide, north + b * tall]).unwrap();
        // The library's own inverse is good to 1e-9 degrees.
        let loose = LonLatBox { west: bounds.west - 1e-9, south: bounds.south - 1e-9, east: bounds.east + 1e-9, north: bounds.north + 1e-9 };
        prop_assert!(loose.contains(place), "{query} {bounds:?} {place:?}");
    }

    /// The box around places holds all of them, wherever the globe is cut.
    #[test]
    fn the_box_around_places_holds_them(places in proptest::collection::vec((-180.0..=180.0_f64, -90.0..=90.0_f64), 1..12)) {
        let places: Vec<LonLat> = places.into_iter().map(|(lon, lat)| LonLat { lon, lat }).collect();
        let bounds = LonLatBox::around(places.iter().copied()).unwrap();
        prop_assert!(places.iter().all(|place| bounds.contains(*place)), "{bounds:?}");
    }

    /// Turning the globe changes nothing.
    #[test]
    fn turning_the_globe_changes_nothing(
        west in -60.0..60.0_f64, wide in 0.0..90.0_f64, lat in -60.0..60.0_f64, tall in 0.0..25.0_f64,
        line in proptest::collection::vec((-80.0..80.0_f64, -85.0..85.0_f64), 1..4),
    ) {
        // Steps of a 64th of a degree: turned by 180 degrees they stay exact, also on borders.
        let grid = |degrees: f64| (degrees * 64.0).round() / 64.0;
        let (west, wide, lat, tall) = (grid(west), grid(wide), grid(lat), grid(tall));
        let turned = |lon: f64| if lon > 0.0 { lon - 180.0 } else { lon + 180.0 };
        let bounds = |turn: &dyn Fn(f64) -> f64| LonLatBox { west: turn(west), south: lat, east: turn(west + wide), north: lat + tall };
        let geometry = |turn: &dyn Fn(f64) -> f64| {
            let places: Vec<LonLat> = line.iter().map(|&(lon, lat)| LonLat { lon: turn(grid(lon)), lat: grid(lat) }).collect();
            if places.len() == 1 { Geometry::Point(places[0]) } else { Geometry::Line(places) }
        };
        let plain = bounds(&|lon| lon).touches(&geometry(&|lon| lon));
        // A border on the antimeridian itself has two names, of which a box of the other name is the whole globe's.
        prop_assume!(west != 0.0 && west + wide != 0.0);
        prop_assert_eq!(bounds(&turned).touches(&geometry(&turned)), plain);
    }
}

fn checked(outcome: Result<Request, Refusal>) -> Result<(), TestCaseError> {
    match outcome {
        Ok(Request::Items(_, query)) => {
            prop_assert!((1..=LIMIT_MOST).contains(&query.limit));
            if let Some(bounds) = query.bounds {
                let lons = [bounds.west, bounds.east].iter().all(|lon| (-180.0..=180.0).contains(lon));
                prop_assert!(
                    lons && -90.0 <= bounds.south && bounds.south <= bounds.north && bounds.north <= 90.0,
                    "{bounds:?}"
                );
            }
            if let Some(Interval { from: Some(from), to: Some(to) }) = query.time {
                prop_assert!(from <= to);
            }
        }
        Ok(_) => {}
        Err(Refusal::NotFound(what)) => prop_assert!(!what.is_empty()),
        Err(Refusal::BadParameters(bad)) => {
            prop_assert!(!bad.is_empty());
            prop_assert!(bad.iter().all(|bad| !bad.wrong.is_empty() && !bad.right.is_empty()));
        }
    }
    Ok(())
}

fn nearly_right() -> impl Strategy<Value = String> {
    let number = prop_oneof![
        (-400.0..400.0_f64).prop_map(|n| n.to_string()),
        (-3e7..3e7_f64).prop_map(|n| n.to_string()),
        Just("1e999".to_owned()),
        Just("-0".to_owned()),
        Just(String::new()),
    ];
    let crs = prop_oneof![
        Just(Crs::Crs84),
        Just(Crs::Epsg4326),
        Just(Crs::WebMercator),
        Just(Crs::Utm { zone: 44, north: false })
    ];
    let moment = "(19|20|99)[0-9]{2}-[01][0-9]-[0-3][0-9](T[0-2][0-9]:[0-6][0-9]:[0-6][0-9](\\.[0-9]{0,12})?(Z|z|%2B[01][0-9]:[0-5][0-9])?)?";
    prop_oneof![
        proptest::collection::vec(number, 3..8).prop_map(|numbers| format!("bbox={}", numbers.join(","))),
        crs.clone().prop_map(|crs| format!("bbox-crs={}", crs.uri())),
        crs.prop_map(|crs| format!("crs={}", crs.uri())),
        (moment, proptest::option::of(moment)).prop_map(|(a, b)| match b {
            Some(b) => format!("datetime={a}/{b}"),
            None => format!("datetime={a}"),
        }),
        "limit=[0-9]{0,25}",
        "cursor=(%[0-9A-F]{2}|[a-z]){0,90}",
        "(state|wetness|seen)=[a-z_0-9-]{0,12}",
    ]
}
