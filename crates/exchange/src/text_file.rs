//! Files as text: reading them, and telling line and column of a byte.

use std::path::Path;

use model::problem::{Locator, Problem, ProblemSeverity};
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// Where the lines of a text begin.
pub struct Lines<'t> {
    file: String,
    bytes: &'t [u8],
    starts: Vec<usize>,
}

impl<'t> Lines<'t> {
    /// Finds the line starts; lines end with `\n`, `\r\n` or a lone `\r`.
    pub fn new(file: impl Into<String>, bytes: &'t [u8]) -> Self {
        let ends_line =
            |(index, byte): (usize, &u8)| *byte == b'\n' || (*byte == b'\r' && bytes.get(index + 1) != Some(&b'\n'));
        let breaks = bytes.iter().enumerate().filter(|pair| ends_line(*pair)).map(|(index, _)| index + 1);
        Lines { file: file.into(), bytes, starts: std::iter::once(0).chain(breaks).collect() }
    }

    /// Line and column of the byte at `offset`, both from 1; columns count characters.
    pub fn locate(&self, offset: usize) -> Locator {
        let offset = offset.min(self.bytes.len());
        let line = self.starts.partition_point(|start| *start <= offset);
        let start = self.starts[line - 1];
        let from = if start == 0 && self.bytes.starts_with(BYTE_ORDER_MARK) { BYTE_ORDER_MARK.len() } else { start };
        let is_first_byte_of_char = |byte: &&u8| **byte & 0b1100_0000 != 0b1000_0000;
        let before = self.bytes.get(from..offset).unwrap_or_default().iter().filter(is_first_byte_of_char).count();
        Locator { file: self.file.clone(), line, column: before + 1 }
    }

    /// The byte at `offset`.
    pub fn byte(&self, offset: usize) -> Option<u8> {
        self.bytes.get(offset).copied()
    }

    /// The file as a whole.
    pub fn whole(&self) -> Locator {
        Locator { file: self.file.clone(), line: 0, column: 0 }
    }
}

/// UTF-8 byte order mark, which some programs put first.
pub const BYTE_ORDER_MARK: &[u8] = b"\xEF\xBB\xBF";

/// Reads a file's bytes.
pub fn read_bytes(path: &Path) -> Result<Vec<u8>, Box<Problem>> {
    std::fs::read(path).map_err(|error| {
        Box::new(Problem {
            code: "file.unreadable",
            severity: ProblemSeverity::Fatal,
            at: Locator { file: path.display().to_string(), line: 0, column: 0 },
            subject: String::new(),
            wrong: format!("the file can't be read: {error}"),
            right: "give the path of a file that exists and may be read".into(),
        })
    })
}

/// Takes the bytes as UTF-8 text, or says where they are not.
pub fn as_text<'t>(file: &str, bytes: &'t [u8]) -> Result<&'t str, Box<Problem>> {
    std::str::from_utf8(bytes).map_err(|error| Box::new(not_utf8(&Lines::new(file, bytes), error.valid_up_to())))
}

/// The problem of a byte that is not UTF-8; fatal for the file.
pub fn not_utf8(lines: &Lines, offset: usize) -> Problem {
    let utf16 = matches!(lines.bytes.get(..2), Some([0xFF, 0xFE] | [0xFE, 0xFF]));
    let byte = lines.bytes.get(offset).copied().unwrap_or_default();
    Problem {
        code: "file.not_utf8",
        severity: ProblemSeverity::Fatal,
        at: lines.locate(offset),
        subject: String::new(),
        wrong: if utf16 {
            "the file is UTF-16 text".into()
        } else {
            format!("byte {offset} of the file (0x{byte:02X}) is not UTF-8 text")
        },
        right: "save the file as UTF-8".into(),
    }
}

/// Parses a TOML text; all its syntax errors at once.
pub fn parse_toml<'t>(file: &str, text: &'t str) -> Result<Spanned<DeTable<'t>>, Vec<Problem>> {
    parse_toml_of(file, text, text)
}

/// Parses a TOML text made from another one byte for byte, whose lines its errors are told by.
pub fn parse_toml_of<'t>(file: &str, text: &'t str, written: &str) -> Result<Spanned<DeTable<'t>>, Vec<Problem>> {
    let (table, errors) = DeTable::parse_recoverable(text);
    if errors.is_empty() {
        return Ok(table);
    }
    let lines = Lines::new(file, written.as_bytes());
    let (found, right) = if text == written {
        ("not TOML", "write `key = value` lines and `[table]` headings as TOML has them")
    } else {
        ("not a value that is known here", "write a text, a number, true or false, a list or an object")
    };
    let problem = |error: &toml::de::Error| Problem {
        code: "toml.syntax",
        severity: ProblemSeverity::Fatal,
        at: error.span().map_or_else(|| lines.whole(), |span| lines.locate(span.start)),
        subject: String::new(),
        wrong: format!("{found}: {}", error.message().trim().replace('\n', " ")),
        right: right.into(),
    };
    let mut problems: Vec<Problem> = errors.iter().map(problem).collect();
    problems.sort_by(|a, b| a.at.cmp(&b.at));
    Err(problems)
}

/// A JSON object as TOML of the same meaning, every byte where it stood, so that one reader tells line and column for both:
/// the outer braces fall away, colons become equals signs, the outer commas and all line ends change places.
pub fn json_as_toml(file: &str, text: &str) -> Result<String, Box<Problem>> {
    serde_json::from_str::<serde_json::Map<String, serde_json::Value>>(text).map_err(|error| {
        Box::new(Problem {
            code: "file.not_json",
            severity: ProblemSeverity::Fatal,
            at: Locator { file: file.to_owned(), line: error.line(), column: error.column() },
            subject: String::new(),
            wrong: format!("not a JSON object: {error}"),
            right: "write { \"hole\": { \"length_m\": 1.2, ... }, ... } as JSON has it".into(),
        })
    })?;
    let (mut depth, mut in_text, mut escaped) = (0, false, false);
    let changed = text.chars().map(|character| {
        let was_in_text = in_text;
        match character {
            '"' if !escaped => in_text = !in_text,
            '{' | '[' if !in_text => depth += 1,
            '}' | ']' if !in_text => depth -= 1,
            _ => {}
        }
        escaped = was_in_text && character == '\\' && !escaped;
        match character {
            _ if was_in_text => character,
            ':' => '=',
            '{' if depth == 1 => ' ',
            '}' if depth == 0 => ' ',
            ',' if depth == 1 => '\n',
            '\n' | '\r' => ' ',
            other => other,
        }
    });
    Ok(changed.collect())
}

/// The type of a TOML value with its article.
pub fn type_words(value: &DeValue) -> &'static str {
    match value {
        DeValue::String(_) => "a text",
        DeValue::Integer(_) => "a whole number",
        DeValue::Float(_) => "a number",
        DeValue::Boolean(_) => "true or false",
        DeValue::Datetime(_) => "a date or time",
        DeValue::Array(_) => "a list",
        DeValue::Table(_) => "a table",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_and_columns_count_from_one_in_characters() {
        let lines = Lines::new("f", "aé b\r\nc\rd\n".as_bytes());
        let at = |offset| (lines.locate(offset).line, lines.locate(offset).column);
        assert_eq!(at(0), (1, 1));
        assert_eq!(at(3), (1, 3), "é is one column though two bytes");
        assert_eq!(at(7), (2, 1));
        assert_eq!(at(9), (3, 1));
        assert_eq!(at(99), (4, 1), "past the end is the end");
    }

    #[test]
    fn json_keeps_every_byte_in_its_place() {
        let json = "{ \"a:b\": { \"x\": [1, 2],\n \"y\": \"p, \\\"{q\" },\n\"c\" : -1.5e3 }";
        let toml = json_as_toml("f.json", json).unwrap();
        assert_eq!(toml, "  \"a:b\"= { \"x\"= [1, 2],  \"y\"= \"p, \\\"{q\" }\n \"c\" = -1.5e3  ");
        assert!(parse_toml_of("f.json", &toml, json).is_ok());
        let error = json_as_toml("f.json", "{\n \"a\": }").unwrap_err();
        assert_eq!((error.code, error.at.line, error.at.column), ("file.not_json", 2, 7));
        let nothing = "{\n \"a\": { \"b\": null } }";
        let errors = parse_toml_of("f.json", &json_as_toml("f.json", nothing).unwrap(), nothing).unwrap_err();
        assert_eq!((errors[0].at.line, errors[0].at.column), (2, 14));
    }

    #[test]
    fn a_byte_order_mark_takes_no_column() {
        assert_eq!(Lines::new("f", b"\xEF\xBB\xBFab").locate(4).column, 2);
    }
}
