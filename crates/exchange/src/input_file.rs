//! The values of one calculation as a TOML or JSON file, in place of flags.

use std::path::Path;

use model::problem::{Locator, Problem, ProblemSeverity};
use serde::de::DeserializeOwned;

use crate::text_file::{Lines, as_text, read_bytes};

/// Reads a file into the shape asked for: JSON if its name ends in `.json`, TOML otherwise.
///
/// # Errors
/// What can't be read, with line and column.
pub fn read_input_file<T: DeserializeOwned>(path: &Path) -> Result<T, Box<Problem>> {
    let file = path.display().to_string();
    let bytes = read_bytes(path)?;
    let text = as_text(&file, &bytes)?;
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let problem = |at: Locator, wrong: String| {
        Box::new(Problem {
            code: "file.input.wrong",
            severity: ProblemSeverity::Fatal,
            at,
            subject: String::new(),
            wrong,
            right: "write the names and values of the flags, with _ for -; `--help` lists them".into(),
        })
    };
    if path.extension().is_some_and(|extension| extension.eq_ignore_ascii_case("json")) {
        return serde_json::from_str(text)
            .map_err(|error| problem(Locator { file, line: error.line(), column: error.column() }, error.to_string()));
    }
    toml::from_str(text).map_err(|error: toml::de::Error| {
        let lines = Lines::new(file, text.as_bytes());
        let at = error.span().map_or_else(|| lines.whole(), |span| lines.locate(span.start));
        problem(at, error.message().trim().replace('\n', " "))
    })
}
