//! Where rule files are: beside the district file, or in the library that comes with the program.

use std::path::Path;

use include_dir::{Dir, include_dir};
use model::problem::{Locator, Problem, ProblemSeverity};

use super::{RuleKind, extends};
use crate::suggest;
use crate::text_file::{Lines, as_text, read_bytes};

static LIBRARY: Dir = include_dir!("$CARGO_MANIFEST_DIR/../../rules");

/// One rule file's text.
pub struct RuleText {
    /// Path as the user would name it.
    pub file: String,
    /// What it says.
    pub text: String,
    name: String,
    place: Place,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Place {
    Beside,
    Shipped,
}

/// The file of that name and every file it extends, the extending one first.
pub fn chain(kind: RuleKind, name: &str, beside: Option<&Path>) -> Result<Vec<RuleText>, Vec<Problem>> {
    chain_from(kind, find(kind, name, beside).map_err(|problem| vec![*problem])?, beside)
}

/// A file and every file it extends.
pub fn chain_from(kind: RuleKind, first: RuleText, beside: Option<&Path>) -> Result<Vec<RuleText>, Vec<Problem>> {
    let mut chain = vec![first];
    while let Some(last) = chain.last() {
        let Some((base, offset)) = extends(last)? else { break };
        let at = last.locate(offset);
        // A file that extends its own name stands beside and means the shipped one.
        let folder = beside.filter(|_| !(last.name == base && last.place == Place::Beside));
        let next = find(kind, &base, folder).map_err(|problem| {
            let own = last.name == base && last.place == Place::Beside;
            vec![if own { circle(&chain, &base, at.clone()) } else { Problem { at: at.clone(), ..*problem } }]
        })?;
        if chain.iter().any(|text| text.name == next.name && text.place == next.place) {
            return Err(vec![circle(&chain, &next.name, at)]);
        }
        chain.push(next);
    }
    Ok(chain)
}

/// Names of the shipped rule sets of a kind.
pub fn shipped_names(kind: RuleKind) -> Vec<String> {
    let files = LIBRARY.get_dir(kind.folder()).map(Dir::files).into_iter().flatten();
    let is_toml = |path: &&Path| path.extension().is_some_and(|extension| extension == "toml");
    let stem = |path: &Path| Some(path.file_stem()?.to_str()?.to_owned());
    let mut names: Vec<String> = files.map(include_dir::File::path).filter(is_toml).filter_map(stem).collect();
    names.sort();
    names
}

impl RuleText {
    /// Line and column of a byte.
    pub fn locate(&self, offset: usize) -> Locator {
        Lines::new(&self.file, self.text.as_bytes()).locate(offset)
    }
}

/// Finds the file of a name.
fn find(kind: RuleKind, name: &str, beside: Option<&Path>) -> Result<RuleText, Box<Problem>> {
    if !name.chars().all(|c| c.is_ascii_alphanumeric() || "-_.".contains(c)) || name.trim_matches('.').is_empty() {
        return Err(not_found(kind, name, "is not a name: letters, digits, `-`, `_` and `.` only"));
    }
    let file_name = format!("{name}.toml");
    // Rule sets of several kinds may bear one name: the folder of the kind goes first.
    let places = beside.map(|folder| [folder.join(kind.folder()).join(&file_name), folder.join(&file_name)]);
    if let Some(path) = places.into_iter().flatten().find(|path| path.is_file()) {
        return read_file(&path);
    }
    shipped(kind, name).ok_or_else(|| not_found(kind, name, "is neither beside the district file nor in the library"))
}

/// A rule file by its path.
pub fn read_file(path: &Path) -> Result<RuleText, Box<Problem>> {
    let file = path.display().to_string();
    let bytes = read_bytes(path)?;
    let text = as_text(&file, &bytes)?.to_owned();
    let name = path.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
    Ok(RuleText { file, text, name, place: Place::Beside })
}

/// A rule set that comes with the program.
pub fn shipped(kind: RuleKind, name: &str) -> Option<RuleText> {
    let path = format!("{}/{name}.toml", kind.folder());
    let text = LIBRARY.get_file(&path).and_then(include_dir::File::contents_utf8)?;
    Some(RuleText {
        file: format!("rules/{path}"),
        text: text.to_owned(),
        name: name.to_owned(),
        place: Place::Shipped,
    })
}

fn not_found(kind: RuleKind, name: &str, why: &str) -> Box<Problem> {
    let known = shipped_names(kind);
    let known: Vec<&str> = known.iter().map(String::as_str).collect();
    Box::new(Problem {
        code: "rules.not_found",
        severity: ProblemSeverity::Fatal,
        at: Locator { file: format!("{name}.toml"), line: 0, column: 0 },
        subject: format!("{} rules", kind.folder()),
        wrong: format!("rule set `{name}` {why}"),
        right: suggest::hint(name, &known),
    })
}

fn circle(chain: &[RuleText], again: &str, at: Locator) -> Problem {
    let names: Vec<&str> = chain.iter().map(|text| text.name.as_str()).chain([again]).collect();
    Problem {
        code: "rules.extends.circle",
        severity: ProblemSeverity::Fatal,
        at,
        subject: "extends".into(),
        wrong: format!("rule sets extend each other in a circle: {}", names.join(" -> ")),
        right: "let one of them extend none of the others".into(),
    }
}
