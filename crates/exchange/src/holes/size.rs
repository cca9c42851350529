//! Length, width and depth of a hole: positive, finite, and of a size that a hole can have.

use model::problem::{Locator, Problem, ProblemSeverity};
use model::quantity::{InLength, Length};

use crate::limits;
use crate::quantity_text::{KNOWN_UNITS, LengthTextError, LengthUnit, read_length};

/// A size of a hole.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Dimension {
    /// Along the road.
    Length,
    /// Across the road.
    Width,
    /// Greatest depth.
    Depth,
}

/// Reads one size as written on the command line, e.g. `220mm`; `at` says where it was written.
///
/// # Errors
/// Not a length with a unit, not positive, or not a size that a hole can have.
pub fn read_size(dimension: Dimension, text: &str, at: &Locator) -> Result<Length, Box<Problem>> {
    let read = read_length(text).map_err(SizeFault::Text).and_then(|length| dimension.checked(length));
    read.map_err(|fault| Box::new(fault.problem(dimension, text, at.clone(), "")))
}

/// What can be wrong with a size.
#[derive(Debug)]
pub enum SizeFault {
    Text(LengthTextError),
    UnitConflict { own: LengthUnit, header: LengthUnit },
    UnitOfRow(String),
    NotPositive,
    Absurd(Length),
}

impl Dimension {
    fn word(self) -> &'static str {
        match self {
            Dimension::Length => "length",
            Dimension::Width => "width",
            Dimension::Depth => "depth",
        }
    }

    /// The length, if a hole can have it.
    pub(super) fn checked(self, length: Length) -> Result<Length, SizeFault> {
        let is_believed = limits::of("hole", self.word()).is_none_or(|limit| limit.holds(length.in_metres()));
        match length.in_metres() {
            metres if !metres.is_finite() => Err(SizeFault::Text(LengthTextError::NotFinite)),
            metres if metres <= 0.0 => Err(SizeFault::NotPositive),
            _ if !is_believed => Err(SizeFault::Absurd(length)),
            _ => Ok(length),
        }
    }

    /// The code of a fault: for not being a number, not finite, not positive, absurd, missing.
    fn codes(self) -> [&'static str; 5] {
        match self {
            Dimension::Length => [
                "hole.length.not_a_number",
                "hole.length.not_finite",
                "hole.length.not_positive",
                "hole.length.absurd",
                "hole.length.missing",
            ],
            Dimension::Width => [
                "hole.width.not_a_number",
                "hole.width.not_finite",
                "hole.width.not_positive",
                "hole.width.absurd",
                "hole.width.missing",
            ],
            Dimension::Depth => [
                "hole.depth.not_a_number",
                "hole.depth.not_finite",
                "hole.depth.not_positive",
                "hole.depth.absurd",
                "hole.depth.missing",
            ],
        }
    }
}

impl SizeFault {
    /// Whether the unit column is at fault rather than the size's own cell.
    pub fn is_of_unit_column(&self) -> bool {
        matches!(self, SizeFault::UnitOfRow(_))
    }

    /// The fault in words.
    pub fn problem(&self, dimension: Dimension, text: &str, at: Locator, subject: &str) -> Problem {
        let [not_a_number, not_finite, not_positive, absurd, missing] = dimension.codes();
        let word = dimension.word();
        let with_unit = || format!("write a number and a unit ({KNOWN_UNITS}), e.g. `220 mm`");
        let (code, wrong, right) = match self {
            SizeFault::Text(LengthTextError::Empty) => (missing, format!("there is no {word}"), with_unit()),
            SizeFault::Text(LengthTextError::NotANumber(_)) => {
                (not_a_number, format!("{word} `{text}` is not a number"), with_unit())
            }
            SizeFault::Text(LengthTextError::NotFinite) => {
                (not_finite, format!("{word} `{text}` is not a finite number"), with_unit())
            }
            SizeFault::Text(LengthTextError::Comma(_)) => (
                "hole.number.comma",
                format!("{word} `{text}` has a comma, which may mean decimals or thousands"),
                "write decimals with a point, no thousands mark".into(),
            ),
            SizeFault::Text(LengthTextError::UnknownUnit(unit)) | SizeFault::UnitOfRow(unit) => {
                ("hole.unit.unknown", format!("{word}: `{unit}` is not a known unit"), format!("known: {KNOWN_UNITS}"))
            }
            SizeFault::Text(LengthTextError::NoUnit) => (
                "hole.unit.missing",
                format!("{word} `{text}` has no unit, and none is guessed"),
                format!("name it in the header, e.g. `{word} (mm)`, in a `unit` column, or here, e.g. `{text} mm`"),
            ),
            SizeFault::UnitConflict { own, header } => (
                "hole.unit.conflict",
                format!("{word} `{text}` says `{}`, its header says `{}`", own.symbol(), header.symbol()),
                "let both say the same".into(),
            ),
            SizeFault::NotPositive => {
                (not_positive, format!("{word} `{text}` is not above zero"), "write the size as measured".into())
            }
            SizeFault::Absurd(length) => (absurd, format!("{word} {} is absurd", in_words(*length)), believed(word)),
        };
        Problem { code, severity: ProblemSeverity::Refused, at, subject: subject.into(), wrong, right }
    }
}

fn in_words(length: Length) -> String {
    let metres = length.in_metres();
    if metres.abs() < 1.0 { format!("{:.1} mm", length.in_millimetres()) } else { format!("{metres:.2} m") }
}

fn believed(word: &str) -> String {
    let limit = limits::of("hole", word);
    limit.map(|limit| format!("{} ({})", limit.words(), limit.source)).unwrap_or_default()
}
