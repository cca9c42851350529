//! Rule sets: found by name, laid over the file they extend, read into the shapes of `model::rules`.
//!
//! A rule file is TOML with `name`, `about` and values that carry their source. `extends = "other"` takes everything
//! from the other file and overrides single values, so that an agency's file holds only what the agency decided. Code
//! never changes for a rule.

mod check;
mod library;
mod overlay;
mod schema;

use std::path::Path;

use model::problem::{Problem, ProblemSeverity};
use serde::de::DeserializeOwned;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

pub use check::{CheckedRules, Override, RuleFile};
pub use schema::traffic_rules_schema;

use crate::suggest;
use library::RuleText;
use overlay::Joined;

/// The kinds of rule set; each has its folder in `rules/`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[allow(missing_docs)] // the words are the definition
pub enum RuleKind {
    Repair,
    MarkOut,
    Traffic,
    Severity,
    Roads,
    Planning,
    Soil,
    Gradation,
    Matching,
    Lasting,
}

/// Reads the rule set `name`: the file `<beside>/<kind's folder>/<name>.toml` or `<beside>/<name>.toml` if there is
/// one, else the one that comes with the program. Every file it extends is read the same way; one that extends its own
/// name means the one that comes with the program.
///
/// # Errors
/// All problems found, with the line and column in the file they stand in: no such rule set, files that extend each
/// other in a circle, units other than those of the set it extends, text that is not TOML, unknown keys, wrong types.
pub fn load_rules<T: DeserializeOwned>(kind: RuleKind, name: &str, beside: Option<&Path>) -> Result<T, Vec<Problem>> {
    let chain = library::chain(kind, name, beside)?;
    let joined = Joined::new(&chain)?;
    let contradictions = joined.contradicting_units();
    if !contradictions.is_empty() {
        return Err(contradictions);
    }
    let table = joined.overlaid();
    read(&joined, &table)
}

/// Names of the rule sets that come with the program, in alphabetical order.
pub fn shipped_rule_sets(kind: RuleKind) -> Vec<String> {
    library::shipped_names(kind)
}

impl RuleKind {
    /// All kinds.
    pub const ALL: [RuleKind; 10] = [
        RuleKind::Repair,
        RuleKind::MarkOut,
        RuleKind::Traffic,
        RuleKind::Severity,
        RuleKind::Roads,
        RuleKind::Planning,
        RuleKind::Soil,
        RuleKind::Gradation,
        RuleKind::Matching,
        RuleKind::Lasting,
    ];

    /// Its folder in `rules/`.
    pub fn folder(self) -> &'static str {
        match self {
            RuleKind::Repair => "repair",
            RuleKind::MarkOut => "markout",
            RuleKind::Traffic => "traffic",
            RuleKind::Severity => "severity",
            RuleKind::Roads => "roads",
            RuleKind::Planning => "planning",
            RuleKind::Soil => "soil",
            RuleKind::Gradation => "gradation",
            RuleKind::Matching => "matching",
            RuleKind::Lasting => "lasting",
        }
    }
}

/// Reads the overlaid table into its shape. A shape may take the head (`name`, `about`) or leave it to the loader.
fn read<T: DeserializeOwned>(joined: &Joined, table: &Spanned<DeTable>) -> Result<T, Vec<Problem>> {
    let whole = read_strictly(joined, table);
    let is_of_head = |problem: &Problem| problem.code == UNKNOWN_KEY && HEAD.contains(&problem.subject.as_str());
    match whole {
        Err(problems) if problems.iter().any(is_of_head) => {
            let mut body = table.clone();
            for key in HEAD {
                body.get_mut().remove(key);
            }
            read_strictly(joined, &body)
        }
        read => read,
    }
}

/// What every rule file says of itself.
const HEAD: [&str; 2] = ["name", "about"];

const UNKNOWN_KEY: &str = "rules.key.unknown";

/// Something wrong with the shape, with its keys.
struct Fault {
    path: Vec<String>,
    problem: Problem,
}

/// Reads a table into its shape; keys the shape does not know are problems too.
fn read_strictly<T: DeserializeOwned>(joined: &Joined, table: &Spanned<DeTable>) -> Result<T, Vec<Problem>> {
    faults_of(joined, table).map_err(|faults| faults.into_iter().map(|fault| fault.problem).collect())
}

/// As [`read_strictly`], with the keys of each fault.
fn faults_of<T: DeserializeOwned>(joined: &Joined, table: &Spanned<DeTable>) -> Result<T, Vec<Fault>> {
    let mut unknown: Vec<Vec<String>> = Vec::new();
    let deserializer = toml::de::Deserializer::from(table.clone());
    let result = serde_ignored::deserialize(deserializer, |path| unknown.push(segments(&path)));
    let unknown = unknown.into_iter().map(|path| Fault { problem: unknown_key(joined, table.get_ref(), &path), path });
    let mut faults: Vec<Fault> = unknown.collect();
    match result {
        Ok(rules) if faults.is_empty() => return Ok(rules),
        Ok(_) => {}
        Err(error) => faults.push(wrong_shape(joined, table.get_ref(), &error)),
    }
    Err(faults)
}

/// A key no rule of this kind has.
fn unknown_key(joined: &Joined, table: &DeTable, path: &[String]) -> Problem {
    let key = path.last().map_or("", String::as_str);
    let siblings = joined.keys_beside(path);
    let siblings: Vec<&str> = siblings.iter().map(String::as_str).filter(|sibling| *sibling != key).collect();
    Problem {
        code: UNKNOWN_KEY,
        severity: ProblemSeverity::Fatal,
        at: joined.locate(overlay::key_offset(table, path)),
        subject: path.join("."),
        wrong: format!("no rule of this kind has a key `{key}`"),
        right: suggest::hint(key, &siblings),
    }
}

/// A value of the wrong type, a missing key, or a key the shape refuses.
fn wrong_shape(joined: &Joined, table: &DeTable, error: &toml::de::Error) -> Fault {
    let offset = error.span().map_or(0, |span| span.start);
    let mut path = overlay::path_at(table, offset);
    let message = error.message().trim().replace('\n', " ");
    if message.starts_with("unknown field") {
        return Fault { problem: unknown_key(joined, table, &path), path };
    }
    let (wrong, right) = match message.split_once(", expected ") {
        _ if message.starts_with("missing field") => {
            (message.as_str(), "add it, or take the rest from another rule set: begin with `extends = \"...\"`".into())
        }
        Some((wrong, "f64")) => (wrong, "write a number".into()),
        Some((wrong, "u8" | "u32" | "u64" | "usize" | "i32" | "i64")) => (wrong, "write a whole number".into()),
        Some((wrong, expected)) => (wrong, format!("expected {expected}")),
        None => (message.as_str(), "see the file of the same folder that comes with the program".into()),
    };
    let missing = message.strip_prefix("missing field `").and_then(|rest| rest.strip_suffix('`'));
    let problem = Problem {
        code: "rules.shape.wrong",
        severity: ProblemSeverity::Fatal,
        at: joined.locate(offset),
        subject: missing.map_or_else(|| path.join("."), str::to_owned),
        wrong: wrong.to_owned(),
        right,
    };
    path.extend(missing.map(str::to_owned));
    Fault { path, problem }
}

/// The keys from the outermost table to the ignored one.
fn segments(path: &serde_ignored::Path<'_>) -> Vec<String> {
    use serde_ignored::Path as P;
    match path {
        P::Root => Vec::new(),
        P::Seq { parent, index } => [segments(parent), vec![index.to_string()]].concat(),
        P::Map { parent, key } => [segments(parent), vec![key.clone()]].concat(),
        P::Some { parent } | P::NewtypeStruct { parent } | P::NewtypeVariant { parent } => segments(parent),
    }
}

/// Parses one rule file; all its syntax errors at once.
fn parse(text: &RuleText) -> Result<Spanned<DeTable<'_>>, Vec<Problem>> {
    crate::text_file::parse_toml(&text.file, &text.text)
}

/// The value of `extends`, if the file has one.
fn extends(text: &RuleText) -> Result<Option<(String, usize)>, Vec<Problem>> {
    let table = parse(text)?;
    let Some(value) = table.get_ref().get("extends") else { return Ok(None) };
    match value.get_ref() {
        DeValue::String(name) => Ok(Some((name.clone().into_owned(), value.span().start))),
        other => Err(vec![Problem {
            code: "rules.extends.wrong_type",
            severity: ProblemSeverity::Fatal,
            at: text.locate(value.span().start),
            subject: "extends".into(),
            wrong: format!("`extends` is {}", crate::text_file::type_words(other)),
            right: "write the name of one rule set, e.g. extends = \"common-practice\"".into(),
        }]),
    }
}
