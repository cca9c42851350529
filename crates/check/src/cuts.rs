//! The cut holds the hole; the repair's quantities balance.

use std::collections::BTreeSet;

use geo::algorithm::buffer::{Buffer, BufferStyle, LineJoin};
use geo::{Area, Coord, Covers, Euclidean, Length, LineString, Polygon};
use model::figure::Figure;
use model::place::FramePoint;
use model::plan::{Plan, PlannedJob};
use model::quantity::{InArea, InLength, InMass, InRatio, InTime, InVolume};
use model::round::LeftOutReason;

use crate::Breaches;

/// Coordinates are metres in f64; a tenth of a millimetre is far below what a crew can mark.
const LENGTH_TOLERANCE_M: f64 = 1e-4;
/// Cosine of a corner that still is a right angle: a tenth of a millimetre in 10 m.
const RIGHT_ANGLE_TOLERANCE: f64 = 1e-5;
/// The mitre's least angle (radians) only cuts off needle corners; a cut's corners are right angles.
const LEAST_MITRE_ANGLE: f64 = 0.2;

pub(crate) fn check(plan: &Plan, breaches: &mut Breaches) {
    engineers_jobs_wait(plan, breaches);
    for job in &plan.jobs {
        geometry(job, breaches);
        balances(plan, job, breaches);
        spreads(job, breaches);
    }
}

/// What is no patch is never in the round, and each of its holes is left out for that reason.
fn engineers_jobs_wait(plan: &Plan, breaches: &mut Breaches) {
    let done: BTreeSet<usize> = plan.round.trips.iter().flatten().copied().collect();
    for job in plan.jobs.iter().filter(|job| !job.patch.is_patch()) {
        let names = || job.cut.holes.iter().map(|h| h.0.as_str()).collect::<Vec<_>>().join("+");
        breaches.require(!done.contains(&job.site), "patch.in_round", || {
            format!("{}: in the round, but {}", names(), job.patch.words())
        });
        for hole in job.holes.iter().filter_map(|&hole| plan.holes.get(hole)) {
            let id = &hole.hole.id;
            let is_told = plan.left_out.iter().any(|left| {
                left.hole == *id && left.reason == Some(LeftOutReason::NotAPatch) && !left.words.is_empty()
            });
            breaches.require(is_told, "patch.left_out", || format!("{}: not said to be no patch", id.0));
        }
    }
    for job in &plan.jobs {
        let share = job.patch.cut_share.value;
        breaches.require(share.is_finite() && share > 0.0, "patch.share", || {
            format!("a cut takes {share} of its lane by {}", job.patch.cut_share.why)
        });
    }
}

fn geometry(job: &PlannedJob, breaches: &mut Breaches) {
    let names = || job.cut.holes.iter().map(|h| h.0.as_str()).collect::<Vec<_>>().join("+");
    // Around a corner of its own: near zero the geometry library keeps its digits.
    let origin = job.cut.corners.first().map_or(Coord::default(), |p| Coord { x: p.along_m, y: p.across_m });
    let polygon = polygon(&job.cut.corners, origin);
    let area = polygon.unsigned_area();
    let stated = job.cut.area.value.in_square_metres();
    breaches.require((area - stated).abs() <= 1e-6 * area.max(1.0), "cut.area", || {
        format!("{}: corners give {area} m2, stated {stated} m2", names())
    });
    breaches.require(is_right_angled(&job.cut.corners), "cut.right_angles", || {
        format!("{}: not 4, 6 or 8 right angles: {:?}", names(), job.cut.corners)
    });
    let around: f64 = polygon.exterior().lines().map(|side| Euclidean.length(&side)).sum();
    let stated = job.cut.perimeter.value.in_metres();
    breaches.require(stated <= around + LENGTH_TOLERANCE_M, "cut.perimeter", || {
        format!("{}: {stated} m to cut, the sides are {around} m", names())
    });
    // The outlines in a cut are those on the pavement: what reached beyond it is clipped, so all of each is inside. The
    // cut is grown by the tolerance, so that an edge on the cut's own counts as inside.
    let style = BufferStyle::new(LENGTH_TOLERANCE_M).line_join(LineJoin::Miter(LEAST_MITRE_ANGLE));
    let grown = polygon.buffer_with_style(style);
    for outline in &job.cut.outlines {
        let mut ring: LineString =
            outline.ring.iter().map(|p| Coord { x: p.along_m - origin.x, y: p.across_m - origin.y }).collect();
        ring.close();
        breaches.require(grown.covers(&ring), "cut.contains_hole", || {
            format!("{}: {} reaches outside the cut", names(), outline.hole.0)
        });
    }
}

/// Whether a ring has 4, 6 or 8 corners, each a right angle.
fn is_right_angled(corners: &[FramePoint]) -> bool {
    let count = corners.len();
    let side = |index: usize| {
        let (a, b) = (corners[index % count], corners[(index + 1) % count]);
        (b.along_m - a.along_m, b.across_m - a.across_m)
    };
    matches!(count, 4 | 6 | 8)
        && (0..count).all(|index| {
            let ((ax, ay), (bx, by)) = (side(index), side(index + 1));
            let lengths = ax.hypot(ay) * bx.hypot(by);
            lengths > 0.0 && (ax * bx + ay * by).abs() <= RIGHT_ANGLE_TOLERANCE * lengths
        })
}

fn balances(plan: &Plan, job: &PlannedJob, breaches: &mut Breaches) {
    let repair = &job.repair;
    let moisture = plan.district.base.stock_moisture.in_fraction();
    let dry = repair.fill_dry_mass.value.in_kilograms();
    let wet = repair.fill_wet_mass.value.in_kilograms();
    let learnt = job.factors.base;
    let balance = (wet - dry * (1.0 + moisture) * learnt).abs();
    breaches.require(balance <= 1e-6 * wet.max(1.0), "repair.moisture_balance", || {
        format!("dry {dry} kg at moisture {moisture}, times {learnt}, is not {wet} kg wet")
    });
    let depth = repair.depth.value.in_metres();
    let layers = f64::from(repair.layer_count.value) * repair.layer_thickness.value.in_metres();
    breaches.require((layers - depth).abs() <= LENGTH_TOLERANCE_M, "repair.layers", || {
        format!("layers add up to {layers} m, the hole is {depth} m deep")
    });
    let least = repair.cut_area.value.in_square_metres() * depth;
    let fill = repair.fill_volume.value.in_cubic_metres();
    breaches.require(fill >= least - 1e-9, "repair.fill", || format!("fill {fill} m3 is less than the cut {least} m3"));
    let sealed = repair.seal_area.value.in_square_metres();
    let cut = repair.cut_area.value.in_square_metres();
    breaches
        .require(sealed >= cut - 1e-9, "repair.seal", || format!("sealed {sealed} m2 is less than the cut {cut} m2"));
    let stages: f64 = repair.stages.iter().map(|stage| stage.time.value.in_seconds()).sum();
    let stated = repair.duration.value.in_seconds();
    breaches.require((stages - stated).abs() <= 1.0, "repair.duration", || {
        format!("stages add up to {stages} s, stated {stated} s")
    });
    let both = repair.water_to_add.value.in_kilograms() > 0.0 && repair.water_to_dry.value.in_kilograms() > 0.0;
    breaches.require(!both, "repair.water", || "water is to be added and dried out at once".to_owned());
}

fn spreads(job: &PlannedJob, breaches: &mut Breaches) {
    let repair = &job.repair;
    let volumes = [&repair.fill_volume, &repair.loose_volume, &repair.binder_volume, &repair.spoil_volume];
    for figure in volumes {
        ordered(figure, InVolume::in_cubic_metres, breaches);
    }
    for figure in [&repair.fill_dry_mass, &repair.fill_wet_mass, &repair.water_to_add, &repair.cover_mass] {
        ordered(figure, InMass::in_kilograms, breaches);
    }
}

fn ordered<Q: Copy>(figure: &Figure<Q>, number: impl Fn(Q) -> f64, breaches: &mut Breaches) {
    let value = number(figure.value);
    breaches.require(value.is_finite() && value >= 0.0, "repair.number", || format!("{value} by {}", figure.why));
    if let Some(spread) = &figure.spread {
        let (p10, p50, p90) = (number(spread.p10), number(spread.p50), number(spread.p90));
        breaches
            .require(p10 <= p50 && p50 <= p90, "repair.spread", || format!("{p10}, {p50}, {p90} by {}", figure.why));
    }
}

fn polygon(corners: &[FramePoint], origin: Coord) -> Polygon {
    let ring = corners.iter().map(|p| Coord { x: p.along_m - origin.x, y: p.across_m - origin.y }).collect();
    Polygon::new(LineString::new(ring), Vec::new())
}
