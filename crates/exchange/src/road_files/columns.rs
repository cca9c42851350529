//! Which column of a table (or property of a `GeoJSON` feature) carries which attribute.

use model::rules::Sourced;
use model::rules::roads::{RoadColumns, RoadDefaults, SpeedUnit, WidthUnit};

use super::attributes::{Habits, SaidOfLimits, SaidOfRoad};

/// One row's cells by column name; empty cells are left out.
pub(super) struct Row<'a> {
    cells: Vec<(String, &'a str)>,
}

impl<'a> Row<'a> {
    pub(super) fn new(cells: impl IntoIterator<Item = (&'a str, &'a str)>) -> Self {
        let cells = cells.into_iter().filter(|(_, text)| !text.trim().is_empty());
        Row { cells: cells.map(|(name, text)| (plain(name), text)).collect() }
    }

    fn first(&self, names: &Sourced<Vec<String>>) -> Option<(&str, &'a str)> {
        names.value.iter().find_map(|wanted| {
            let wanted = plain(wanted);
            self.cells.iter().find(|(name, _)| *name == wanted).map(|(name, text)| (name.as_str(), *text))
        })
    }

    fn text(&self, names: &Sourced<Vec<String>>) -> Option<String> {
        self.first(names).map(|(_, text)| text.trim().to_owned())
    }

    /// The road's identifier, if the row has one.
    pub(super) fn id(&self, columns: &RoadColumns) -> Option<String> {
        self.text(&columns.id)
    }

    /// What the row says of the road.
    pub(super) fn said(&self, rules: &RoadDefaults) -> SaidOfRoad {
        let columns = &rules.columns;
        SaidOfRoad {
            class: self.text(&columns.class),
            name: self.text(&columns.name),
            number: self.text(&columns.number),
            speed: self.with_unit(&columns.speed, &[("mph", "mph"), ("kmh", "km/h"), ("kph", "km/h")]),
            lanes: self.text(&columns.lanes),
            width: self.with_unit(&columns.width, &[("ft", "ft"), ("feet", "ft"), ("m", "m")]),
            shoulder: self.with_unit(&columns.shoulder, &[("ft", "ft"), ("feet", "ft"), ("m", "m")]),
            one_way: self.text(&columns.one_way),
            surface: self.text(&columns.surface),
            vehicles_per_day: self.text(&columns.vehicles_per_day),
            setting: self.text(&columns.setting),
            bridge: self.text(&columns.bridge),
            tunnel: self.text(&columns.tunnel),
            junction: self.text(&columns.junction),
            one_way_by_nature: false,
            limits: SaidOfLimits {
                mass: self.with_unit(&columns.mass_limit, &[("t", "t"), ("kg", "kg"), ("tons", "tons"), ("lb", "lb")]),
                height: self.with_unit(&columns.height_limit, &[("ft", "ft"), ("m", "m")]),
                width: self.with_unit(&columns.width_limit, &[("ft", "ft"), ("m", "m")]),
                length: self.with_unit(&columns.length_limit, &[("ft", "ft"), ("m", "m")]),
                heavy: self.text(&columns.heavy_vehicles),
                driving_speed: self.with_unit(&columns.driving_speed, &[("mph", "mph"), ("kmh", "km/h")]),
            },
        }
    }

    /// A number whose column name ends in its unit (`width_ft`) gets that unit; other numbers stay bare.
    fn with_unit(&self, names: &Sourced<Vec<String>>, units: &[(&str, &str)]) -> Option<String> {
        let wanted = names.value.iter().find(|wanted| self.cells.iter().any(|(name, _)| *name == plain(wanted)))?;
        let (_, text) = self.first(names)?;
        let text = text.trim();
        let bare = text.chars().all(|letter| letter.is_ascii_digit() || ".,-+".contains(letter));
        // What follows a separator, each of them: `limit_tons` and `tons` of `weight_limit_tons`.
        let name = wanted.to_lowercase();
        let rests: Vec<String> = name.match_indices(['_', ' ', '-']).map(|(at, _)| plain(&name[at..])).collect();
        match units.iter().find(|(ending, _)| rests.iter().any(|rest| rest.replace('/', "") == *ending)) {
            Some((_, unit)) if bare => Some(format!("{text} {unit}")),
            _ => Some(text.to_owned()),
        }
    }
}

/// How bare numbers in tables are to be taken, by the rule set.
pub(super) fn habits(columns: &RoadColumns) -> Habits {
    let speed_unit: SpeedUnit = columns.speed_unit.value;
    let width_unit: WidthUnit = columns.width_unit.value;
    Habits { speed_unit, width_unit, zero_is_unknown: columns.zero_is_unknown.value, silent_is_two_way: false }
}

fn plain(name: &str) -> String {
    name.chars().filter(|letter| !matches!(letter, ' ' | '_' | '-')).flat_map(char::to_lowercase).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::figure::Source;

    fn names(list: &[&str]) -> Sourced<Vec<String>> {
        Sourced { value: list.iter().map(|name| (*name).to_owned()).collect(), source: Source::definition() }
    }

    #[test]
    fn columns_are_found_whatever_their_case_and_blanks_and_in_the_order_listed() {
        let row = Row::new([("Street ID", "7"), ("OBJECTID", "9"), ("NAME", "  ")]);
        assert_eq!(row.text(&names(&["street_id", "objectid"])).as_deref(), Some("7"));
        assert_eq!(row.text(&names(&["objectid", "street_id"])).as_deref(), Some("9"));
        assert_eq!(row.text(&names(&["name"])), None);
    }

    #[test]
    fn a_unit_in_the_column_name_holds_for_bare_numbers() {
        let row = Row::new([("WIDTH_FT", "20"), ("speed_km_h", "80")]);
        let feet = [("ft", "ft"), ("m", "m")];
        assert_eq!(row.with_unit(&names(&["width", "width_ft"]), &feet).as_deref(), Some("20 ft"));
        let speeds = [("mph", "mph"), ("kmh", "km/h")];
        assert_eq!(row.with_unit(&names(&["speed_km_h"]), &speeds).as_deref(), Some("80 km/h"));
        let row = Row::new([("width", "20"), ("widthft", "6 m")]);
        assert_eq!(row.with_unit(&names(&["width", "width_ft"]), &feet).as_deref(), Some("20"));
        assert_eq!(row.with_unit(&names(&["width_ft"]), &feet).as_deref(), Some("6 m"));
    }
}
