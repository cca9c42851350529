//! Lengths, areas and days in the district's units, as the sentences say them.

use jiff::civil::Date;
use model::district::UnitSystem;
use model::quantity::{Area, InArea, InLength, Length};

/// A place along or across a road: `3.2 m`, `10.5 ft`.
pub(crate) fn distance(length: Length, units: UnitSystem) -> String {
    match units {
        UnitSystem::Si => format!("{:.1} m", length.in_metres()),
        UnitSystem::UsCustomary => format!("{:.1} ft", length.in_feet()),
    }
}

/// A depth or a size across: `60 mm`, `1.2 m`, `2.4 in`, `16 in`.
pub(crate) fn size(length: Length, units: UnitSystem) -> String {
    match units {
        UnitSystem::Si if length.in_millimetres() >= 999.5 => format!("{:.1} m", length.in_metres()),
        UnitSystem::Si => format!("{:.0} mm", length.in_millimetres()),
        UnitSystem::UsCustomary if length.in_inches() < 9.95 => format!("{:.1} in", length.in_inches()),
        UnitSystem::UsCustomary => format!("{:.0} in", length.in_inches()),
    }
}

/// `0.80 × 0.60 m`, `31 × 24 in`.
pub(crate) fn length_by_width(length: Length, width: Length, units: UnitSystem) -> String {
    match units {
        UnitSystem::Si => format!("{:.2} × {:.2} m", length.in_metres(), width.in_metres()),
        UnitSystem::UsCustomary => format!("{:.0} × {:.0} in", length.in_inches(), width.in_inches()),
    }
}

/// The depth of a cut: `1.01 m`, `3.31 ft`.
pub(crate) fn depth_of_cut(length: Length, units: UnitSystem) -> String {
    match units {
        UnitSystem::Si => format!("{:.2} m", length.in_metres()),
        UnitSystem::UsCustomary => format!("{:.2} ft", length.in_feet()),
    }
}

/// `2.0 m²`, `21.5 ft²`.
pub(crate) fn area(area: Area, units: UnitSystem) -> String {
    match units {
        UnitSystem::Si => format!("{:.1} m²", area.in_square_metres()),
        UnitSystem::UsCustomary => format!("{:.1} ft²", area.in_square_feet()),
    }
}

/// `Friday 12 June`, with the year where it is another one.
pub(crate) fn day(day: Date, today: Date) -> String {
    let words = day.strftime("%A %-d %B").to_string();
    if day.year() == today.year() { words } else { format!("{words} {}", day.year()) }
}
