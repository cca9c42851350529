//! The cut, the repair, and what is no patch.

use model::place::FramePoint;
use model::plan::Plan;
use model::quantity::{InMass, cubic_metres, kilograms, millimetres, minutes, square_metres};
use model::round::LeftOutReason;

use super::{case, leave_out, not_a_patch, waiting};
use crate::Case;

pub fn cases() -> Vec<Case> {
    [patches(), geometry(), balances(), numbers()].concat()
}

/// The job whose cut has a notch.
const NOTCHED: usize = 3;

fn patches() -> Vec<Case> {
    vec![
        Case {
            also: &["account.fate"],
            ..case("patch.in_round", "what is no patch is said to wait, but is in the round", |plan| {
                not_a_patch(plan, 0);
                leave_out(plan, 0);
            })
        },
        Case {
            sound: waiting,
            ..case("patch.left_out", "what is no patch is left out for another reason", |plan| {
                plan.left_out.last_mut().expect("one waits").reason = Some(LeftOutReason::LessUrgent);
            })
        },
        Case {
            sound: waiting,
            ..case("patch.left_out", "what is no patch is left out without a word", |plan| {
                plan.left_out.last_mut().expect("one waits").words.clear();
            })
        },
        case("patch.share", "a cut takes nothing of its lane", |plan| plan.jobs[0].patch.cut_share.value = 0.0),
        case("patch.share", "the share is no number", |plan| plan.jobs[0].patch.cut_share.value = f64::NAN),
        case("patch.share", "the share is without end", |plan| plan.jobs[0].patch.cut_share.value = f64::INFINITY),
    ]
}

fn geometry() -> Vec<Case> {
    vec![
        case("cut.area", "the area of the box around a notched cut", |plan| {
            let cut = &mut plan.jobs[NOTCHED].cut;
            cut.area.value = cut.length * cut.width;
        }),
        case("cut.area", "the area is no number", |plan| plan.jobs[0].cut.area.value = square_metres(f64::NAN)),
        case("cut.perimeter", "more to saw than there are sides", |plan| {
            plan.jobs[NOTCHED].cut.perimeter.value += millimetres(1.0);
        }),
        case("cut.right_angles", "a corner a centimetre out, the area true to it", |plan| {
            let cut = &mut plan.jobs[1].cut;
            cut.corners[0].along_m -= 0.01;
            cut.area.value = square_metres(shoelace(&cut.corners));
        }),
        case("cut.right_angles", "a corner on a straight side", |plan| {
            let corners = &mut plan.jobs[0].cut.corners;
            corners.insert(1, between(corners[0], corners[1]));
        }),
        case("cut.right_angles", "two corners in one place", |plan| {
            let corners = &mut plan.jobs[0].cut.corners;
            corners.insert(1, corners[0]);
            corners.insert(1, corners[0]);
        }),
        case("cut.contains_hole", "a hole reaches into the notch, inside the box around the cut", |plan| {
            let cut = &mut plan.jobs[NOTCHED].cut;
            // The corner opposite the inner one: between the notch's two ends.
            let notch = between(cut.corners[2], cut.corners[4]);
            cut.outlines[0].ring.insert(6, notch);
        }),
        case("cut.contains_hole", "a hole reaches a millimetre outside", |plan| {
            let cut = &mut plan.jobs[1].cut;
            let along = cut.corners.iter().map(|corner| corner.along_m).fold(f64::NEG_INFINITY, f64::max);
            let ring = &mut cut.outlines[1].ring;
            ring[0].along_m = along + 0.001;
        }),
    ]
}

fn balances() -> Vec<Case> {
    vec![
        case("repair.moisture_balance", "wet base as heavy as dry", |plan| {
            let repair = &mut plan.jobs[0].repair;
            repair.fill_wet_mass.value = repair.fill_dry_mass.value;
        }),
        case("repair.layers", "a layer a millimetre too thick", |plan| {
            plan.jobs[0].repair.layer_thickness.value += millimetres(1.0);
        }),
        case("repair.layers", "a layer too many", |plan| plan.jobs[0].repair.layer_count.value += 1),
        case("repair.fill", "less base than there is hole", |plan| {
            let repair = &mut plan.jobs[0].repair;
            repair.fill_volume.value = repair.cut_area.value * repair.depth.value - cubic_metres(1e-6);
        }),
        case("repair.seal", "less sealed than cut", |plan| {
            let repair = &mut plan.jobs[0].repair;
            repair.seal_area.value = repair.cut_area.value - square_metres(1e-6);
        }),
        case("repair.duration", "the stages take two minutes less than all together", |plan| {
            plan.jobs[0].repair.duration.value += minutes(2.0);
        }),
        case("repair.water", "dried out and watered at once", |plan| {
            plan.jobs[0].repair.water_to_dry.value = kilograms(1.0);
        }),
    ]
}

fn numbers() -> Vec<Case> {
    vec![
        case("repair.number", "less than no cover stone", |plan| cover_stone(plan, -1.0)),
        case("repair.number", "cover stone no number", |plan| cover_stone(plan, f64::NAN)),
        case("repair.number", "cover stone without end", |plan| cover_stone(plan, f64::INFINITY)),
        case("repair.number", "less than no binder", |plan| {
            plan.jobs[0].repair.binder_volume.value = cubic_metres(-0.001);
        }),
        case("repair.spread", "the median below the lowest tenth", |plan| {
            let spread = plan.jobs[0].repair.cover_mass.spread.as_mut().expect("a spread");
            spread.p50 = spread.p10 - kilograms(0.001);
        }),
        case("repair.spread", "the highest tenth below the median", |plan| {
            let spread = plan.jobs[0].repair.spoil_volume.spread.as_mut().expect("a spread");
            spread.p90 = spread.p50 - cubic_metres(1e-6);
        }),
        case("repair.spread", "a quantile is no number", |plan| {
            let spread = plan.jobs[0].repair.water_to_add.spread.as_mut().expect("a spread");
            spread.p90 = kilograms(f64::NAN);
            assert!(spread.p10.in_kilograms() > 0.0);
        }),
    ]
}

fn cover_stone(plan: &mut Plan, mass_kg: f64) {
    plan.jobs[0].repair.cover_mass.value = kilograms(mass_kg);
}

fn between(a: FramePoint, b: FramePoint) -> FramePoint {
    FramePoint { along_m: f64::midpoint(a.along_m, b.along_m), across_m: f64::midpoint(a.across_m, b.across_m) }
}

/// Area inside a ring, square metres.
fn shoelace(ring: &[FramePoint]) -> f64 {
    let next = ring.iter().cycle().skip(1);
    let origin = ring[0];
    let near = |p: &FramePoint| (p.along_m - origin.along_m, p.across_m - origin.across_m);
    let twice: f64 = ring.iter().zip(next).map(|(a, b)| near(a).0 * near(b).1 - near(b).0 * near(a).1).sum();
    twice.abs() / 2.0
}
