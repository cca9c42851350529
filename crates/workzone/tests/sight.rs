//! Sight along roads built from the published formulas, and laws of sight.

use model::figure::Source;
use model::place::{LonLat, Travel};
use model::quantity::{InLength, Length, feet, kilometres_per_hour, metres};
use model::road::{Flow, RoadClass, SectionId};
use model::road_around::{AxisEnd, AxisPiece, AxisPoint, RoadAxis};
use proptest::prelude::*;
use serde::Deserialize;
use workzone::sight::{Ground, Look, SightEnd, SightRoad};

/// An axis through points (east, north, height), its chainage the length along it; so wide, without shoulder.
fn axis(points: &[(f64, f64, Option<f64>)], width: f64) -> RoadAxis {
    let mut made: Vec<AxisPoint> = Vec::new();
    for &(east_m, north_m, height) in points {
        let way = made
            .last()
            .map_or(0.0, |last| last.chainage.in_metres() + (east_m - last.east_m).hypot(north_m - last.north_m));
        let place = LonLat { lon: 0.0, lat: 0.0 };
        made.push(AxisPoint { chainage: metres(way), east_m, north_m, height: height.map(metres), place });
    }
    let to = made.last().unwrap().chainage;
    let piece = AxisPiece {
        section: SectionId(0),
        from: metres(0.0),
        to,
        section_at_from: metres(0.0),
        direction: Travel::Forward,
        flow: Flow::Both,
        class: RoadClass::Tertiary,
        speed: kilometres_per_hour(80.0),
        width: metres(width),
        shoulder: metres(0.0),
    };
    RoadAxis {
        pieces: vec![piece],
        points: made,
        junctions: Vec::new(),
        structures: Vec::new(),
        begins: AxisEnd::DeadEnd,
        ends: AxisEnd::DeadEnd,
    }
}

const GROUND: Ground = Ground {
    step: Length { value: 5.0, ..ZERO },
    window: Length { value: 50.0, ..ZERO },
    error: Length { value: 1.0, ..ZERO },
};
const ZERO: Length = Length { dimension: std::marker::PhantomData, units: std::marker::PhantomData, value: 0.0 };

fn look(step: Length) -> Look {
    Look {
        eye_height: feet(3.5),
        eye_across: ZERO,
        object_height: feet(2.0),
        object_across: ZERO,
        most: metres(1000.0),
        step,
        source: Source::definition(),
    }
}

fn road(axis: &RoadAxis) -> SightRoad {
    SightRoad::of(axis, metres(0.0), GROUND).unwrap()
}

fn arc(radius: f64, length: f64) -> Vec<(f64, f64, Option<f64>)> {
    let count = length.ceil() as usize;
    (0..=count)
        .map(|index| length * index as f64 / count as f64 / radius)
        .map(|angle| (radius * angle.sin(), radius * (1.0 - angle.cos()), None))
        .collect()
}

#[derive(Deserialize)]
#[allow(clippy::struct_field_names)] // each says its unit
struct Curve {
    radius_m: f64,
    sight_m: f64,
    ordinate_m: f64,
}

#[test]
fn on_a_circular_curve_the_middle_ordinate_allows_its_sight() {
    for row in testkit::worked_examples::<Curve>("sight-distance", "curve") {
        let formula = row.radius_m * (1.0 - (28.65 * row.sight_m / row.radius_m).to_radians().cos());
        assert!((formula - row.ordinate_m).abs() < 2e-3, "{formula}");
        for radius in [row.radius_m, -row.radius_m] {
            let axis = axis(&arc(radius, 700.0), 2.0 * row.ordinate_m);
            let road = road(&axis);
            for sight in [
                road.ahead(metres(200.0), Travel::Forward, &look(metres(1.0))),
                road.ahead(metres(500.0), Travel::Backward, &look(metres(1.0))),
                road.seen(metres(500.0), Travel::Forward, &look(metres(1.0))),
            ] {
                let found = sight.distance.value.in_metres();
                assert!(found <= row.sight_m + 0.1 && found > row.sight_m - 1.1, "{radius}: {found} m");
                assert_eq!((sight.ends_by, sight.profile_known), (SightEnd::Bend, false));
                assert!(sight.distance.spread.is_none());
            }
        }
    }
}

#[derive(Deserialize)]
struct Crest {
    k_ft_per_percent: f64,
    sight_ft: f64,
}

/// A straight road over a crest: the slope falls by 1 % for each K of length.
fn crest(k_m: f64) -> RoadAxis {
    let height = |x: f64| -(x - 400.0).powi(2) / (200.0 * k_m);
    let points: Vec<_> = (0..=160).map(|i| f64::from(i) * 5.0).map(|x| (x, 0.0, Some(height(x)))).collect();
    axis(&points, 7.0)
}

#[test]
fn on_a_crest_curve_sight_is_what_its_length_was_made_for() {
    for row in testkit::worked_examples::<Crest>("sight-distance", "crest") {
        let axis = crest(feet(row.k_ft_per_percent).in_metres());
        let road = road(&axis);
        for sight in [
            road.ahead(metres(300.0), Travel::Forward, &look(feet(3.0))),
            road.seen(metres(450.0), Travel::Forward, &look(feet(3.0))),
            road.seen(metres(350.0), Travel::Backward, &look(feet(3.0))),
        ] {
            // The profile is sampled every 5 m: a chord of the crest lies lower by step²/(8 × 100 K).
            let found = sight.distance.value.in_feet();
            assert!((found - row.sight_ft).abs() < 3.5 + row.sight_ft * 0.005, "{found} ft for {} ft", row.sight_ft);
            assert_eq!((sight.ends_by, sight.profile_known), (SightEnd::Crest, true));
            let spread = sight.distance.spread.unwrap();
            assert!(spread.p10 < spread.p50 && spread.p50 < spread.p90);
        }
    }
}

#[test]
fn a_straight_level_road_is_seen_to_its_end() {
    let straight = axis(&[(0.0, 0.0, Some(5.0)), (300.0, 400.0, Some(5.0))], 6.0);
    let sight = road(&straight).ahead(metres(100.0), Travel::Forward, &look(metres(5.0)));
    assert_eq!((sight.distance.value.in_metres(), sight.ends_by), (400.0, SightEnd::RoadEnds));
    let nearer = Look { most: metres(250.0), ..look(metres(60.0)) };
    let sight = road(&straight).seen(metres(300.0), Travel::Forward, &nearer);
    assert_eq!((sight.distance.value.in_metres(), sight.ends_by), (250.0, SightEnd::AsFarAsLooked));
    for off in [-1.0, 501.0, f64::NAN] {
        let sight = road(&straight).ahead(metres(off), Travel::Forward, &look(metres(5.0)));
        assert!(off == -1.0 || sight.distance.value.in_metres() == 0.0, "{off}: {sight:?}");
    }
    assert!(SightRoad::of(&RoadAxis::default(), metres(1.0), GROUND).is_none());
}

#[test]
fn a_square_corner_hides_what_stands_behind_it() {
    // 100 m east, then north; 4 m to each side are clear. Seen across the corner: x and y off it with the corner 4 m from
    // the line, by hand x y / sqrt(x² + y²) = 4, so for x = 20: y = 80 / sqrt(400 - 16) = 4.082.
    let corner = axis(&[(0.0, 0.0, None), (100.0, 0.0, None), (100.0, 100.0, None)], 8.0);
    let sight = road(&corner).ahead(metres(80.0), Travel::Forward, &look(metres(0.01)));
    assert!((sight.distance.value.in_metres() - 24.082).abs() < 0.011, "{:?}", sight.distance.value);
    // An eye 2 m to the left sees round a left-hand corner less far; to the right, further.
    let eye = |across: f64| {
        let look = Look { eye_across: metres(across), ..look(metres(0.01)) };
        road(&corner).ahead(metres(80.0), Travel::Forward, &look).distance.value
    };
    assert!(eye(-2.0) < eye(0.0) && eye(0.0) < eye(2.0));
}

#[test]
fn where_heights_are_missing_crests_are_not_looked_at() {
    let mut over = crest(5.0);
    over.points[66].height = None;
    let sight = road(&over).ahead(metres(300.0), Travel::Forward, &look(metres(5.0)));
    assert!(!sight.profile_known);
    let before = road(&crest(5.0)).ahead(metres(300.0), Travel::Forward, &look(metres(5.0)));
    assert!(before.profile_known && before.distance.value < sight.distance.value);
}

proptest! {
    /// More clear width, a higher eye or object, flatter ground: never less sight. Looked at from the other end with eye
    /// and object changed over, a pair that sees each other still does.
    #[test]
    fn sight_grows_with_what_is_clear(
        bends in proptest::collection::vec((20.0..120.0_f64, -0.6..0.6_f64, -4.0..4.0_f64), 4..14),
        at in 0.1..0.6_f64, width in 2.0..20.0_f64, more in 0.0..10.0_f64,
    ) {
        let (mut points, mut here, mut heading) = (vec![(0.0, 0.0, Some(0.0))], (0.0_f64, 0.0_f64), 0.0_f64);
        for (length, bend, height) in bends {
            heading += bend;
            here = (here.0 + length * heading.cos(), here.1 + length * heading.sin());
            points.push((here.0, here.1, Some(height)));
        }
        let narrow = axis(&points, width);
        let wide = axis(&points, width + more);
        let eye = narrow.points.last().unwrap().chainage * at;
        let look = look(metres(2.0));
        let seen = |axis: &RoadAxis, look: &Look| road(axis).ahead(eye, Travel::Forward, look).distance;
        let base = seen(&narrow, &look);
        let (high_eye, high_object) =
            (Look { eye_height: metres(2.5), ..look.clone() }, Look { object_height: metres(2.5), ..look.clone() });
        for better in [seen(&wide, &look), seen(&narrow, &high_eye), seen(&narrow, &high_object)] {
            prop_assert!(base.value <= better.value);
        }
        let spread = base.spread.unwrap();
        prop_assert!(spread.p10 <= spread.p50 && spread.p50 <= spread.p90 && spread.p50 == base.value);
        prop_assert!(base.value <= narrow.points.last().unwrap().chainage - eye);
        // From the object, the one who looks back sees at least as far as the object is seen without a break.
        let changed = Look { eye_height: look.object_height, object_height: look.eye_height, ..look.clone() };
        let back = road(&narrow).seen(eye, Travel::Backward, &changed);
        prop_assert_eq!(back.distance.value, base.value);
    }
}
