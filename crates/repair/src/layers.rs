//! Layers of base and the volume they fill.

use model::quantity::{Area, InLength, Length, Volume, metres};

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

/// Least thickness of a layer: `t_min = k * d`, `d` the largest stone.
pub fn least_layer(largest_stone: Length, stones: f64) -> Length {
    largest_stone * stones
}

/// The least depth, at or beyond `depth`, that gives layers from `least` to `greatest` thick; `None` where no depth does.
///
/// Layers are as few and so as thick as they may be; so where they are too thin, the cut must be deeper, by the same count
/// of layers.
pub fn least_depth(depth: Length, least: Length, greatest: Length) -> Option<Length> {
    let needed = least * f64::from(layer_count(depth, greatest));
    (least <= greatest).then(|| if needed > depth { needed } else { depth })
}

/// Mean height of the crown, a parabolic dome: `c / 2`.
pub fn mean_crown(crown: Length) -> Length {
    crown / 2.0
}

/// How far loose base stands above the road before it is compacted: `(t + c) * f - t`, with the last layer's thickness `t`,
/// the crown `c` to be left there, and `f` loose over compacted.
pub fn loose_height(thickness: Length, crown: Length, loose_factor: f64) -> Length {
    metres((thickness + crown).in_metres() * loose_factor - thickness.in_metres())
}

/// Compacted volume up to the crown: `V = A * D + c * A / 2`. A parabolic dome of height `c` over a base of area `A`
/// holds half of what a prism of that height would.
pub fn fill_volume(area: Area, depth: Length, crown: Length) -> Volume {
    area * depth + area * mean_crown(crown)
}

/// The least whole count, at least one, that is not below `count` (but for [`COUNT_SLACK`]).
pub(crate) fn count_up(count: f64) -> u32 {
    ((count - count.abs() * COUNT_SLACK).ceil().max(1.0)) as u32
}
