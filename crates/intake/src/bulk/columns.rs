//! Which column holds what: named by the caller, or guessed from its name.

use std::collections::BTreeMap;

use exchange::quantity_text::LengthUnit;

/// What a row can say.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum BulkField {
    /// Its number at the office.
    Reference,
    /// Degrees east.
    Lon,
    /// Degrees north.
    Lat,
    /// When it was told or done.
    Time,
    /// Free text.
    Note,
    /// Where, in words.
    Address,
    /// The word for its source.
    Source,
    /// How long the hole is.
    Length,
    /// How wide.
    Width,
    /// How deep.
    Depth,
    /// How far the office is with it, in a word.
    Status,
    /// When the office closed it.
    Closed,
}

/// A column that is used.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ColumnUse {
    /// For what.
    pub field: BulkField,
    /// Its name in the file.
    pub name: String,
    /// Whether that was guessed from its name.
    pub is_guessed: bool,
    /// Other columns that could have been meant.
    pub others: Vec<String>,
}

impl BulkField {
    /// All fields.
    pub const ALL: [BulkField; 12] = [
        BulkField::Reference,
        BulkField::Lon,
        BulkField::Lat,
        BulkField::Time,
        BulkField::Note,
        BulkField::Address,
        BulkField::Source,
        BulkField::Length,
        BulkField::Width,
        BulkField::Depth,
        BulkField::Status,
        BulkField::Closed,
    ];

    /// One word for it, for programs.
    pub fn key(self) -> &'static str {
        match self {
            BulkField::Closed => "closed",
            field => field.word(),
        }
    }

    /// The word for it in messages.
    pub fn word(self) -> &'static str {
        match self {
            BulkField::Reference => "number",
            BulkField::Lon => "longitude",
            BulkField::Lat => "latitude",
            BulkField::Time => "time",
            BulkField::Note => "note",
            BulkField::Address => "address",
            BulkField::Source => "source",
            BulkField::Length => "length",
            BulkField::Width => "width",
            BulkField::Depth => "depth",
            BulkField::Status => "status",
            BulkField::Closed => "time of closing",
        }
    }

    /// Names it is guessed by, the surest first; small letters and digits only.
    pub fn names(self) -> &'static [&'static str] {
        match self {
            BulkField::Reference => &[
                "servicerequestid",
                "requestid",
                "requestnumber",
                "reference",
                "ref",
                "caseid",
                "casenumber",
                "ticketid",
                "ticketnumber",
                "id",
                "number",
                "globalid",
                "objectid",
            ],
            BulkField::Lon => &["longitude", "long", "lon", "lng", "pointx", "xcoord", "xcoordinate", "coordx", "x"],
            BulkField::Lat => &["latitude", "lat", "pointy", "ycoord", "ycoordinate", "coordy", "y"],
            BulkField::Time => &[
                "requesteddatetime",
                "reportedat",
                "reporteddate",
                "reported",
                "createddate",
                "createdat",
                "created",
                "openeddate",
                "opendate",
                "dateopened",
                "opened",
                "timefilled",
                "datefilled",
                "datetime",
                "timestamp",
                "seen",
                "date",
                "time",
            ],
            BulkField::Note => &["description", "details", "note", "notes", "remark", "remarks", "comment", "comments"],
            BulkField::Address => &["address", "addressstring", "streetaddress", "location", "place"],
            BulkField::Source => &["source", "channel", "reportedby", "methodreceived"],
            BulkField::Length => &["lengthmm", "lengthcm", "lengthm", "lengthin", "lengthft", "length"],
            BulkField::Width => &["widthmm", "widthcm", "widthm", "widthin", "widthft", "width"],
            BulkField::Depth => &["depthmm", "depthcm", "depthm", "depthin", "depthft", "depth"],
            BulkField::Status => &["status", "casestatus", "requeststatus", "currentstatus", "state"],
            BulkField::Closed => &[
                "closeddatetime",
                "closeddate",
                "closedat",
                "dateclosed",
                "closed",
                "completeddate",
                "completedat",
                "datecompleted",
                "resolveddate",
                "resolvedat",
                "dateresolved",
            ],
        }
    }
}

/// The unit at the end of a size's name, as in `depth_mm`; `None`: the values have to tell it.
pub fn unit_of(field: BulkField, name: &str) -> Option<LengthUnit> {
    if !matches!(field, BulkField::Length | BulkField::Width | BulkField::Depth) {
        return None;
    }
    let end = name.rsplit(|c: char| !c.is_alphanumeric()).find(|word| !word.is_empty())?;
    let of_guessed = || LengthUnit::from_word(plain(name).strip_prefix(field.word())?);
    LengthUnit::from_word(end).or_else(of_guessed)
}

/// Finds the columns of a header. A name that was passed in and is not there is in the second list.
pub fn find(header: &[String], named: &BTreeMap<BulkField, String>) -> (Vec<(usize, ColumnUse)>, Vec<BulkField>) {
    let mut found: Vec<(usize, ColumnUse)> = Vec::new();
    let mut missing = Vec::new();
    for (&field, name) in named {
        match header.iter().position(|column| column.eq_ignore_ascii_case(name)) {
            Some(index) => {
                let name = header[index].clone();
                found.push((index, ColumnUse { field, name, is_guessed: false, others: Vec::new() }));
            }
            None => missing.push(field),
        }
    }
    let plain: Vec<String> = header.iter().map(|name| plain(name)).collect();
    for field in BulkField::ALL.into_iter().filter(|field| !named.contains_key(field)) {
        let is_free = |index: &usize| found.iter().all(|(used, _)| used != index);
        let all =
            |known: &&str| plain.iter().enumerate().filter(|(_, name)| name == known).map(|(index, _)| index).collect();
        let fitting: Vec<usize> =
            field.names().iter().flat_map(|known| -> Vec<usize> { all(known) }).filter(is_free).collect();
        if let Some((&first, others)) = fitting.split_first() {
            let others = others.iter().map(|&index| header[index].clone()).collect();
            found.push((first, ColumnUse { field, name: header[first].clone(), is_guessed: true, others }));
        }
    }
    found.sort_by_key(|(_, used)| used.field);
    (found, missing)
}

/// A name in small letters and digits only.
pub fn plain(name: &str) -> String {
    name.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_lowercase).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_named_goes_before_what_is_guessed() {
        let header: Vec<String> =
            ["OBJECTID", "Case ID", "X", "Y", "Long", "Lat", "Opened", "Closed", "Street"].map(str::to_owned).into();
        let named = BTreeMap::from([(BulkField::Address, "street".to_owned()), (BulkField::Note, "words".to_owned())]);
        let (found, missing) = find(&header, &named);
        assert_eq!(missing, [BulkField::Note]);
        let said: Vec<String> = found
            .iter()
            .map(|(index, used)| {
                format!("{index} {:?} {} {} {:?}", used.field, used.name, used.is_guessed, used.others)
            })
            .collect();
        assert_eq!(
            said,
            [
                r#"1 Reference Case ID true ["OBJECTID"]"#,
                r#"4 Lon Long true ["X"]"#,
                r#"5 Lat Lat true ["Y"]"#,
                "6 Time Opened true []",
                "8 Address Street false []",
                "7 Closed Closed true []",
            ]
        );
    }

    #[test]
    fn units_stand_at_the_end_of_names() {
        for (field, name, unit) in [
            (BulkField::Depth, "depth_mm", Some(LengthUnit::Millimetre)),
            (BulkField::Depth, "DepthCM", Some(LengthUnit::Centimetre)),
            (BulkField::Length, "Length (ft)", Some(LengthUnit::Foot)),
            (BulkField::Length, "how long, in", Some(LengthUnit::Inch)),
            (BulkField::Width, "width", None),
            (BulkField::Width, "", None),
            (BulkField::Note, "note m", None),
        ] {
            assert_eq!(unit_of(field, name), unit, "{name}");
        }
    }
}
