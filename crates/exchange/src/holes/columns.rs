//! Which column holds what: the documented names, the user's own, and the unit in a header.

use std::collections::BTreeMap;

use model::problem::{Locator, Problem, ProblemSeverity};

use super::size::Dimension;
use crate::quantity_text::{KNOWN_UNITS, LengthUnit};
use crate::suggest;

/// Column names of a hole list where they are not the documented ones.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct HoleColumns {
    /// The list's own name of a field; fields not named here are found by their documented names.
    pub names: BTreeMap<HoleField, String>,
}

/// What a hole list can say of a hole.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum HoleField {
    /// The hole's identifier.
    Id,
    /// Degrees east.
    Lon,
    /// Degrees north.
    Lat,
    /// Along the road.
    Length,
    /// Across the road.
    Width,
    /// Greatest depth.
    Depth,
    /// Unit of the sizes whose header names none.
    Unit,
    /// Shape from above, points as longitude and latitude.
    Outline,
    /// Day it was seen.
    Date,
    /// Free text.
    Note,
    /// Where across the road.
    Position,
    /// How wet the hole and its base are.
    Wet,
    /// Who told of it.
    Source,
    /// Repairs made there before.
    Repairs,
}

impl HoleField {
    /// All fields.
    pub const ALL: [HoleField; 14] = [
        HoleField::Id,
        HoleField::Lon,
        HoleField::Lat,
        HoleField::Length,
        HoleField::Width,
        HoleField::Depth,
        HoleField::Unit,
        HoleField::Outline,
        HoleField::Date,
        HoleField::Note,
        HoleField::Position,
        HoleField::Wet,
        HoleField::Source,
        HoleField::Repairs,
    ];

    /// Its first documented name, the key in `[hole_columns]`.
    pub fn word(self) -> &'static str {
        self.documented_names()[0]
    }

    /// The column names it is found by; case does not matter.
    pub fn documented_names(self) -> &'static [&'static str] {
        match self {
            HoleField::Id => &["id", "hole", "hole_id", "ref", "reference"],
            HoleField::Lon => &["lon", "longitude", "long", "lng", "x"],
            HoleField::Lat => &["lat", "latitude", "y"],
            HoleField::Length => &["length"],
            HoleField::Width => &["width"],
            HoleField::Depth => &["depth"],
            HoleField::Unit => &["unit", "units"],
            HoleField::Outline => &["outline", "polygon", "geometry", "wkt"],
            HoleField::Date => &["date", "seen", "reported"],
            HoleField::Note => &["note", "notes", "remark", "remarks", "comment", "description"],
            HoleField::Position => &["position", "lane_position"],
            HoleField::Wet => &["wet", "wetness", "base", "base_state"],
            HoleField::Source => &["source", "reported_by"],
            HoleField::Repairs => &["repairs", "earlier_repairs"],
        }
    }

    fn is_size(self) -> bool {
        matches!(self, HoleField::Length | HoleField::Width | HoleField::Depth)
    }
}

impl Dimension {
    /// The field it is read from.
    pub(super) fn field(self) -> HoleField {
        match self {
            Dimension::Length => HoleField::Length,
            Dimension::Width => HoleField::Width,
            Dimension::Depth => HoleField::Depth,
        }
    }
}

/// What a header means.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Column {
    pub field: HoleField,
    /// Unit named in the header of a size.
    pub unit: Option<LengthUnit>,
}

/// What one header means; `None`: nothing known.
///
/// # Errors
/// The text that stands where a unit should be.
pub fn column(header: &str, columns: &HoleColumns) -> Result<Option<Column>, String> {
    let header = header.trim().to_lowercase();
    let header = header.as_str();
    if let Some(field) = field_of(header, columns) {
        // The list's own name of a size may have the unit in it, e.g. `How deep (in)`.
        let unit = named_unit(header).and_then(|(_, unit)| LengthUnit::from_word(unit));
        return Ok(Some(Column { field, unit: unit.filter(|_| field.is_size()) }));
    }
    if let Some((name, unit)) = bracketed(header) {
        let Some(field) = field_of(name.trim(), columns) else { return Ok(None) };
        if !field.is_size() {
            return Ok(Some(Column { field, unit: None }));
        }
        return LengthUnit::from_word(unit).map(|unit| Some(Column { field, unit: Some(unit) })).ok_or(unit.to_owned());
    }
    // `depth_mm`, `depth mm`
    let Some((name, unit)) = header.rsplit_once(['_', ' ']) else { return Ok(None) };
    match field_of(name.trim(), columns).filter(|field| field.is_size()) {
        Some(field) => {
            LengthUnit::from_word(unit).map(|unit| Some(Column { field, unit: Some(unit) })).ok_or(unit.to_owned())
        }
        None => Ok(None),
    }
}

/// Name and unit of `depth (mm)` or `depth [mm]`.
fn bracketed(header: &str) -> Option<(&str, &str)> {
    header.strip_suffix([')', ']']).and_then(|text| text.rsplit_once(['(', '[']))
}

/// Name and unit of a header in any of the ways to write them.
fn named_unit(header: &str) -> Option<(&str, &str)> {
    bracketed(header).or_else(|| header.rsplit_once(['_', ' ']))
}

/// The field of a name without unit.
fn field_of(name: &str, columns: &HoleColumns) -> Option<HoleField> {
    let is_named = |field: &HoleField| match columns.names.get(field) {
        Some(own) => own.trim().to_lowercase() == name,
        None => field.documented_names().contains(&name),
    };
    HoleField::ALL.into_iter().find(is_named)
}

/// What is missing among the columns found, one problem for each; none of them can do without.
pub fn missing(found: &[HoleField], headers: &[String], columns: &HoleColumns, at: &Locator) -> Vec<Problem> {
    let has = |field: HoleField| found.contains(&field);
    let outline = has(HoleField::Outline);
    let needed = [
        (HoleField::Id, true, ""),
        (HoleField::Lon, !outline, " (or outlines)"),
        (HoleField::Lat, !outline, " (or outlines)"),
        (HoleField::Length, !outline, " (or outlines)"),
        (HoleField::Width, !outline, " (or outlines)"),
        (HoleField::Depth, true, ""),
    ];
    let absent = needed.into_iter().filter(|(field, is_needed, _)| *is_needed && !has(*field));
    absent.map(|(field, _, or)| missing_column(field, or, headers, columns, at)).collect()
}

fn missing_column(field: HoleField, or: &str, headers: &[String], columns: &HoleColumns, at: &Locator) -> Problem {
    let names = match columns.names.get(&field) {
        Some(own) => format!("`{own}`, as [hole_columns] says"),
        None => field.documented_names().join(", "),
    };
    let near = suggest::nearest(field.word(), headers.iter().map(String::as_str));
    let near = near.map(|header| format!("; is it `{header}`? then say so in [hole_columns]")).unwrap_or_default();
    Problem {
        code: "hole.column.missing",
        severity: ProblemSeverity::Fatal,
        at: at.clone(),
        subject: field.word().into(),
        wrong: format!("there is no column for `{}`{or}", field.word()),
        right: format!("name a column one of: {names}{near}"),
    }
}

/// A unit in a header that is not known.
pub fn unknown_unit(header: &str, unit: &str, severity: ProblemSeverity, at: Locator) -> Problem {
    Problem {
        code: "hole.unit.unknown",
        severity,
        at,
        subject: header.trim().into(),
        wrong: format!("`{}` is not a known unit of length", unit.trim()),
        right: format!("known: {KNOWN_UNITS}"),
    }
}

/// Two columns for the same field.
pub fn twice(header: &str, field: HoleField, severity: ProblemSeverity, at: Locator) -> Problem {
    Problem {
        code: "hole.column.twice",
        severity,
        at,
        subject: header.trim().into(),
        wrong: format!("this is the second column for `{}`", field.word()),
        right: "keep one of them, or name the one to use in [hole_columns]".into(),
    }
}

/// Columns that nothing is read from.
pub fn unused(headers: &[String], at: Locator) -> Option<Problem> {
    (!headers.is_empty()).then(|| Problem {
        code: "hole.column.unused",
        severity: ProblemSeverity::Warning,
        at,
        subject: String::new(),
        wrong: format!("nothing is read from: {}", headers.join(", ")),
        right: "leave them, or name them in [hole_columns] if they are meant".into(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn headers_are_found_with_their_units() {
        let read = |header| column(header, &HoleColumns::default());
        let size = |field, unit| Ok(Some(Column { field, unit }));
        assert_eq!(read("Depth (mm)"), size(HoleField::Depth, Some(LengthUnit::Millimetre)));
        assert_eq!(read("depth_in"), size(HoleField::Depth, Some(LengthUnit::Inch)));
        assert_eq!(read("WIDTH [ft]"), size(HoleField::Width, Some(LengthUnit::Foot)));
        assert_eq!(read("length m"), size(HoleField::Length, Some(LengthUnit::Metre)));
        assert_eq!(read(" depth "), size(HoleField::Depth, None));
        assert_eq!(read("lon (deg)"), size(HoleField::Lon, None));
        assert_eq!(read("lane_position"), size(HoleField::Position, None));
        assert_eq!(read("reporter"), Ok(None));
        assert_eq!(read("depth (furlong)"), Err("furlong".into()));
    }

    #[test]
    fn an_own_name_takes_the_place_of_the_documented_ones() {
        let columns = HoleColumns { names: BTreeMap::from([(HoleField::Depth, "How deep".into())]) };
        assert_eq!(
            column("how deep (in)", &columns),
            Ok(Some(Column { field: HoleField::Depth, unit: Some(LengthUnit::Inch) }))
        );
        assert_eq!(column("depth", &columns), Ok(None));
        // Named in whole, unit and all.
        for (header, unit) in
            [("How deep (in)", Some(LengthUnit::Inch)), ("deep_mm", Some(LengthUnit::Millimetre)), ("how deep", None)]
        {
            let columns = HoleColumns { names: BTreeMap::from([(HoleField::Depth, header.into())]) };
            assert_eq!(column(header, &columns), Ok(Some(Column { field: HoleField::Depth, unit })), "{header}");
        }
    }
}
