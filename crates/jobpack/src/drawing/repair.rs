//! One repair without a road: plan of the cut, section and pattern side by side.

use model::cut_out::CutOut;
use model::district::UnitSystem;
use model::repair::Repair;
use words::Words;

use super::cut_plan::cut_plan;
use super::pattern::pattern;
use super::section::section;
use crate::display::Units;
use crate::svg::Drawing;

/// Draws one repair: plan of the cut, section, and the order in which it is compacted. The cut's frame lies along the paper.
pub fn repair_svg(cut: &CutOut, repair: &Repair, units: UnitSystem, words: Words) -> String {
    let units = Units::new(units, words);
    let mut drawing = Drawing::new(0.0, 0.0);
    let parts = [cut_plan(cut, repair, units), section(repair, units), pattern(cut, repair, units, None)];
    for part in parts {
        let left = drawing.width();
        drawing.place(&part, (left, 0.0));
    }
    drawing.finish()
}
