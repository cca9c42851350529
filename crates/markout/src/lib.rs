//! From the outlines of holes to the cuts that a crew marks on the road.
//!
//! A cut is a right-angled polygon of 4, 6 or 8 corners in the road frame (metres along and across), at any angle. The
//! method page is `handbook/methods/mark-out.md`; the rules, all from [`MarkOutRules`]:
//!
//! - **Contains the hole grown by the margin `m`.** Grown by a square with sides along the cut: each point reaches `m`
//!   further along both of the cut's directions. A straight side so keeps `m`, a corner `m` both ways.
//! - **Least cost.** Area, a price per corner beyond four, a price per metre of edge.
//! - **A rectangle is exact.** With the hole's width `W(θ)` across a direction and `H(θ)` along it, and the edge's price
//!   `p`, area and edge cost `(W + 2m)(H + 2m) + 2p(W + H + 4m) = (W + 2m + 2p)(H + 2m + 2p) - 4p²`. Between two
//!   directions that lie along edges of the convex hull the same corners carry `W` and `H`, so both are cosines of a
//!   shifted angle, concave; the logarithm of the product is then a sum of logarithms of concave functions, itself concave,
//!   and has its minimum at an end. So only directions along hull edges need be tried (Freeman, Shapira 1975 for
//!   `m = p = 0`: from memory). Where a side is widened to `smallest_side_m` the same directions are compared.
//! - **With notches it is a search**: all pairs of steps on a grid, in directions along the longest edges and between
//!   them, the best of them refined and turned. Tests hold it against an exhaustive search.
//! - **Square to the road where it costs little.** Among the cuts whose cost is at most `square_tolerance` above the
//!   least, the one nearest to the road's axis is taken.
//! - **Inside the pavement.** A cut whose margin reaches within `edge_gap_m` of the pavement's edge is laid square to the
//!   road and taken to the edge; the side on the edge is not sawn. Other cuts keep that distance from the edge.
//! - **Wide enough.** No arm is narrower than `smallest_side_m`, no side of a notch shorter than `smallest_notch_m`, no
//!   strip between two arms narrower than `merge_gap_m`.
//! - **Near holes become one cut**, until no two cuts are nearer than `merge_gap_m`.
//! - **Far limit.** Of the cuts looked at, the cheapest that lies nowhere further from the hole than `far_limit_m` is
//!   taken; where there is none, the cheapest, with a remark.
//! - **Wheel paths** are kept clear of edges along the road where the rules ask for it and it can be done; else remarked.
//!
//! All of it is common practice of the trade except the geometry. Pure functions: same input, same result, whatever the
//! ring's starting vertex or direction and whatever the order of the holes.

mod body;
mod cut;
mod error;
mod farthest;
mod hull;
mod laid;
mod merge;
mod notches;
mod outer;
mod outline;
mod profile;
mod search;
mod shape;

use model::cut_out::{CutOut, FrameOutline};
use model::place::FramePoint;
use model::quantity::{InLength, Length};
use model::rules::markout::MarkOutRules;

pub use error::MarkOutError;

/// The pavement of one section in its road frame, metres.
#[derive(Debug, Clone, PartialEq)]
pub struct Pavement {
    /// Left edge of the seal (across is positive to the right of increasing chainage).
    pub across_min_m: f64,
    /// Right edge of the seal.
    pub across_max_m: f64,
    /// Start of the section. The pavement goes on beyond it; a cut reaching over it is kept and remarked.
    pub along_min_m: f64,
    /// End of the section.
    pub along_max_m: f64,
    /// Strips that wheels run on; only looked at where the rules keep them clear.
    pub wheel_paths: Vec<WheelPath>,
}

/// A strip along the road that wheels run on, metres across.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WheelPath {
    /// Its left border.
    pub across_min_m: f64,
    /// Its right border.
    pub across_max_m: f64,
}

impl WheelPath {
    pub(crate) fn moved(self, by: f64) -> Self {
        WheelPath { across_min_m: self.across_min_m + by, across_max_m: self.across_max_m + by }
    }
}

impl Pavement {
    /// A pavement with no edge near.
    pub fn without_edges() -> Self {
        const FAR_M: f64 = 1e6;
        Pavement {
            across_min_m: -FAR_M,
            across_max_m: FAR_M,
            along_min_m: -FAR_M,
            along_max_m: FAR_M,
            wheel_paths: Vec::new(),
        }
    }
}

/// Lays the cuts for holes on one section.
///
/// Cuts come in the order of their first hole in `outlines`. An error names the hole that can't be marked out; the
/// caller reports it and calls again without it (or asks [`check_outline`] first).
pub fn mark_out(
    outlines: &[FrameOutline],
    pavement: &Pavement,
    rules: &MarkOutRules,
) -> Result<Vec<CutOut>, MarkOutError> {
    error::check_pavement(pavement)?;
    error::check_rules(rules)?;
    let holes = outlines.iter().map(|o| outline::on_pavement(o, pavement)).collect::<Result<Vec<_>, _>>()?;
    let groups = merge::merge_near(&holes, pavement, rules);
    Ok(groups.iter().map(|group| cut::cut_out(group, &holes, pavement, rules)).collect())
}

/// Says whether an outline can be marked out on that pavement, and if not, why.
pub fn check_outline(outline: &FrameOutline, pavement: &Pavement) -> Result<(), MarkOutError> {
    error::check_pavement(pavement)?;
    outline::on_pavement(outline, pavement).map(|_| ())
}

/// The ring of a hole of which only length (along the road) and width (across) are known: the rectangle around it.
///
/// Four points, turning right, from the corner of least along and across.
pub fn size_ring(length: Length, width: Length, centre: FramePoint) -> Vec<FramePoint> {
    let (half_length, half_width) = (length.in_metres() / 2.0, width.in_metres() / 2.0);
    [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)]
        .map(|(along, across)| FramePoint {
            along_m: centre.along_m + along * half_length,
            across_m: centre.across_m + across * half_width,
        })
        .to_vec()
}
