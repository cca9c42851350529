//! What tests and measurements share. Never a dependency of the program.
//!
//! Worked examples live on the handbook's pages, where a reader sees them, and are read from there by the tests, so that
//! the page and the test can't differ. A block looks like this:
//!
//! ````text
//! ```toml worked-example
//! [[fill_volume]]
//! check = "arithmetic only"
//! area_m2 = 1.0
//! ...
//! ```
//! ````

mod invented;
pub mod protobuf;

pub use invented::invented_record;

use std::fs;
use std::path::PathBuf;

use serde::Deserialize;
use serde::de::DeserializeOwned;

/// How a block of worked examples opens.
const FENCE: &str = "```toml worked-example";

/// The cases of one table on one page of `handbook/methods/`.
///
/// `page` is the file's name without `.md`; `table` the name of the array of tables. Every case must say, in its field
/// `check`, what its values are checked against; see [`Check`].
///
/// # Panics
///
/// With the page and the reason, when there is no such table or a case does not have the shape asked for: a test without
/// its data has failed.
pub fn worked_examples<T: DeserializeOwned>(page: &str, table: &str) -> Vec<T> {
    let path = methods_folder().join(format!("{page}.md"));
    let text = fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    let document: toml::Table = toml::from_str(&blocks(&text).join("\n"))
        .unwrap_or_else(|error| panic!("worked examples of {page}.md: {error}"));
    let cases = document.get(table).and_then(toml::Value::as_array).cloned().unwrap_or_default();
    assert!(!cases.is_empty(), "{page}.md has no worked example [[{table}]]");
    let read = cases.into_iter().map(|case| {
        let shown = case.to_string();
        check_of(&case).unwrap_or_else(|wrong| panic!("{page}.md, [[{table}]]: {wrong} in {shown}"));
        case.try_into().unwrap_or_else(|error| panic!("{page}.md, [[{table}]]: {error} in {shown}"))
    });
    read.collect()
}

/// What the values of a worked example are checked against.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(try_from = "String")]
pub enum Check {
    /// `published: <where it was read>`.
    Published(String),
    /// `from memory: <publication>`: named, but not opened.
    FromMemory(String),
    /// `library: <name and version>`: worked out with a reference library.
    Library(String),
    /// `arithmetic only`: worked by hand from the stated formula; tests the arithmetic, not the formula's truth.
    Arithmetic,
}

impl TryFrom<String> for Check {
    type Error = String;

    fn try_from(text: String) -> Result<Self, String> {
        let rest = |prefix: &str| text.strip_prefix(prefix).map(|rest| rest.trim().to_owned());
        if let Some(cite) = rest("published:") {
            Ok(Check::Published(cite))
        } else if let Some(cite) = rest("from memory:") {
            Ok(Check::FromMemory(cite))
        } else if let Some(name) = rest("library:") {
            Ok(Check::Library(name))
        } else if text.starts_with("arithmetic only") {
            Ok(Check::Arithmetic)
        } else {
            Err(format!("check = {text:?} is none of published:, from memory:, library:, arithmetic only"))
        }
    }
}

/// Folder of the running test's own crate.
///
/// Asked for while the test runs: builds are shared between checkouts, so where a test was compiled may be another checkout,
/// or gone.
pub fn crate_folder() -> PathBuf {
    let own = std::env::var_os("CARGO_MANIFEST_DIR").map(PathBuf::from);
    own.unwrap_or_else(|| env!("CARGO_MANIFEST_DIR").into())
}

/// A file or folder of the repository, e.g. `demo/holes.csv`.
pub fn in_repository(path: &str) -> PathBuf {
    crate_folder().join("../..").join(path)
}

/// Folder of the pages.
pub fn methods_folder() -> PathBuf {
    in_repository("handbook/methods")
}

/// Insides of a page's blocks of worked examples.
pub fn blocks(page: &str) -> Vec<String> {
    let mut found = Vec::new();
    let mut open: Option<String> = None;
    for line in page.lines() {
        match &mut open {
            None if line.trim_end() == FENCE => open = Some(String::new()),
            None => {}
            Some(_) if line.trim_end() == "```" => found.extend(open.take()),
            Some(block) => {
                block.push_str(line);
                block.push('\n');
            }
        }
    }
    found
}

fn check_of(case: &toml::Value) -> Result<Check, String> {
    let text = case.get("check").and_then(toml::Value::as_str).ok_or("no field `check`")?;
    Check::try_from(text.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_marked_blocks_count() {
        let page =
            "a\n```toml\nx = 1\n```\nb\n```toml worked-example\ny = 2\n```\n```toml worked-example\nz = 3\n```\n";
        assert_eq!(blocks(page), ["y = 2\n", "z = 3\n"]);
    }

    #[test]
    fn a_case_says_what_it_is_checked_against() {
        let case = |text: &str| toml::Value::Table(toml::from_str(text).unwrap());
        assert_eq!(check_of(&case("check = 'published: A table'")), Ok(Check::Published("A table".into())));
        assert_eq!(check_of(&case("check = 'arithmetic only'")), Ok(Check::Arithmetic));
        assert!(check_of(&case("check = 'trust me'")).is_err());
        assert!(check_of(&case("x = 1")).is_err());
    }
}
