//! Layers of base and the volume they fill.

use model::quantity::{Area, InLength, Length, Volume};

/// Relative slack before a further layer or lane is counted: 0.300 m in layers of 0.150 m is two, although neither
/// number is exact in binary.
pub(crate) const COUNT_SLACK: f64 = 1e-9;

/// Layers needed: `n = max(1, ceil(D / t_max))`.
pub fn layer_count(depth: Length, greatest_layer: Length) -> u32 {
    count_up(depth.in_metres() / greatest_layer.in_metres())
}

/// Thickness of each of `count` equal layers: `t = D / n`.
pub fn layer_thickness(depth: Length, count: u32) -> Length {
    depth / f64::from(count.max(1))
}

/// Compacted volume up to the crown: `V = A * D + c * A / 2`. A parabolic dome of height `c` over a base of area `A`
/// holds half of what a prism of that height would.
pub fn fill_volume(area: Area, depth: Length, crown: Length) -> Volume {
    area * depth + area * crown / 2.0
}

/// The least whole count, at least one, that is not below `count` (but for [`COUNT_SLACK`]).
pub(crate) fn count_up(count: f64) -> u32 {
    ((count - count.abs() * COUNT_SLACK).ceil().max(1.0)) as u32
}
