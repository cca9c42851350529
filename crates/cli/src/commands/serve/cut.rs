//! A hole marked out on the spot: `mark-out` and `repair` with the district's own materials, plant and rules.

use std::collections::BTreeMap;

use jiff::civil::Date;
use markout::Pavement;
use model::cut_out::FrameOutline;
use model::district::District;
use model::figure::{Figure, Source, Why};
use model::hole::HoleId;
use model::place::{FramePoint, LonLat};
use model::quantity::{InArea, InLength, InMass, InTime, InVolume, millimetres};
use model::road::{RoadNetwork, RoadSection};
use plan::Rules;
use repair::RepairInput;
use server::{CutAsked, CutFigure, CutLayer, CutShown};
use triage::{FoundAtHole, PatchInput};

/// A road further off than so many metres is not the hole's: a phone seldom errs by more. Common practice, no source.
const ON_THE_ROAD_M: f64 = 30.0;

/// Marks out and works out; in words why that can't be.
pub(super) fn cut(
    asked: &CutAsked,
    district: &District,
    rules: &Rules,
    network: Option<&RoadNetwork>,
) -> Result<CutShown, String> {
    let ring = asked.outline.iter().map(|&[along_m, across_m]| FramePoint { along_m, across_m }).collect();
    let outline = FrameOutline { hole: HoleId("hole".into()), ring };
    let mut cuts = markout::mark_out(&[outline], &Pavement::without_edges(), &rules.mark_out)
        .map_err(|error| error.to_string())?;
    let cut = cuts.swap_remove(0);
    let place = asked.near.map(|near| LonLat { lon: near.lon, lat: near.lat });
    let road = place.zip(network).and_then(|(place, network)| nearest(network, place));
    let depth = millimetres(asked.depth_mm);
    let vehicles_per_day = road.and_then(|road| road.vehicles_per_day);
    let input = RepairInput::for_cut(&cut, None, depth, None, vehicles_per_day, district);
    let input = match road {
        Some(road) => input.on_road(road.class),
        None => input,
    };
    input.check().map_err(|errors| errors.iter().map(ToString::to_string).collect::<Vec<_>>().join("; "))?;
    let repair = repair::repair(&input, &rules.repair);
    // Nothing is known of the lane, so the cut's share of it is not looked at.
    let cut_share = Figure::exact(0.0, Why::new("the lane is not known", Source::definition()));
    let found = FoundAtHole { wetness: asked.wetness, repairs: None };
    let of =
        PatchInput { depth: &repair.depth, area: &repair.cut_area, cut_share, units: district.units, holes: &[found] };
    let patch = triage::patch_or_not(&of, &rules.repair, Date::ZERO);
    let against = (!patch.is_patch()).then(|| patch.words());

    let cut_area = figure(&cut.area, InArea::in_square_metres);
    let wasted = figure(&cut.wasted, InArea::in_square_metres);
    let hole_area = CutFigure {
        value: rounded(cut.area.value.in_square_metres() - cut.wasted.value.in_square_metres()),
        p10: None,
        p50: None,
        p90: None,
        why: "A = cut area - sound road cut out with it".to_owned(),
    };
    let mut shown = CutShown {
        corners: cut.corners.iter().map(|corner| [rounded(corner.along_m), rounded(corner.across_m)]).collect(),
        cut_area_m2: cut_area,
        perimeter_m: figure(&cut.perimeter, InLength::in_metres),
        hole_area_m2: hole_area,
        wasted_m2: wasted,
        layers: repair
            .layers
            .iter()
            .map(|layer| CutLayer {
                number: layer.number,
                thickness_mm: rounded(layer.thickness.in_millimetres()),
                loose_thickness_mm: rounded(layer.loose_thickness.in_millimetres()),
                loose_volume_m3: rounded(layer.loose_volume.in_cubic_metres()),
            })
            .collect(),
        base_loose_m3: figure(&repair.loose_volume, InVolume::in_cubic_metres),
        // a kilogram of water is a litre
        water_l: figure(&repair.water_to_add, InMass::in_kilograms),
        binder_l: figure(&repair.binder_volume_hot, InVolume::in_litres),
        cover_stone_m3: figure(&repair.cover_volume, InVolume::in_cubic_metres),
        spoil_m3: figure(&repair.spoil_volume, InVolume::in_cubic_metres),
        duration_min: figure(&repair.duration, InTime::in_minutes),
        why: BTreeMap::new(),
        is_patch: patch.is_patch(),
        remarks: against.into_iter().chain(cut.remarks.iter().cloned()).chain(repair.remarks.clone()).collect(),
        cautions: repair.cautions.clone(),
        svg: jobpack::repair_svg(&cut, &repair, district.units, jobpack::words_of(district)),
    };
    shown.why = [
        ("cut_area_m2", &shown.cut_area_m2),
        ("perimeter_m", &shown.perimeter_m),
        ("hole_area_m2", &shown.hole_area_m2),
        ("wasted_m2", &shown.wasted_m2),
        ("base_loose_m3", &shown.base_loose_m3),
        ("water_l", &shown.water_l),
        ("binder_l", &shown.binder_l),
        ("cover_stone_m3", &shown.cover_stone_m3),
        ("spoil_m3", &shown.spoil_m3),
        ("duration_min", &shown.duration_min),
    ]
    .into_iter()
    .map(|(name, figure)| (name, figure.why.clone()))
    .collect();
    Ok(shown)
}

fn figure<Q: Copy>(figure: &Figure<Q>, unit: impl Fn(Q) -> f64) -> CutFigure {
    let number = |quantity: Q| rounded(unit(quantity));
    CutFigure {
        value: number(figure.value),
        p10: figure.spread.map(|spread| number(spread.p10)),
        p50: figure.spread.map(|spread| number(spread.p50)),
        p90: figure.spread.map(|spread| number(spread.p90)),
        why: figure.why.to_string(),
    }
}

/// To the ten-thousandth: finer than anything that is measured here.
fn rounded(value: f64) -> f64 {
    (value * 1e4).round() / 1e4
}

/// The section that passes nearest, if it is near.
fn nearest(network: &RoadNetwork, place: LonLat) -> Option<&RoadSection> {
    let shrink = place.lat.to_radians().cos();
    let flat = |point: &LonLat| ((point.lon - place.lon) * shrink * DEGREE_M, (point.lat - place.lat) * DEGREE_M);
    let off = |section: &RoadSection| {
        let pairs = section.line.windows(2).map(|pair| to_origin(flat(&pair[0]), flat(&pair[1])));
        pairs.fold(f64::INFINITY, f64::min)
    };
    let all = network.sections.iter().map(|section| (off(section), section));
    let (off, section) = all.min_by(|one, other| one.0.total_cmp(&other.0))?;
    (off <= ON_THE_ROAD_M).then_some(section)
}

/// Metres of a degree of latitude, near enough within some metres.
const DEGREE_M: f64 = 111_320.0;

/// How far a straight line passes from the origin.
fn to_origin(from: (f64, f64), to: (f64, f64)) -> f64 {
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let length = dx * dx + dy * dy;
    let share = if length > 0.0 { (-(from.0 * dx + from.1 * dy) / length).clamp(0.0, 1.0) } else { 0.0 };
    (from.0 + share * dx).hypot(from.1 + share * dy)
}
