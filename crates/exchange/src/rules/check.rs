//! A rule file looked at for its own sake: every problem in it, not only the first, and what it changes of the set that it
//! extends.

use std::path::{Path, PathBuf};

use model::problem::{Locator, Problem, ProblemSeverity};
use serde::de::DeserializeOwned;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::library::{self, RuleText};
use super::overlay::{Joined, key_offset, written};
use super::{Fault, HEAD, RuleKind, UNKNOWN_KEY, faults_of, parse};

/// So many faults of shape are looked for in one file before it is left at that.
const FAULTS_MAX: usize = 200;

/// A rule file with everything it extends.
pub struct RuleFile {
    kind: RuleKind,
    chain: Vec<RuleText>,
    /// The shipped set that is most like it: what is not readable in the file is taken from there, to go on looking.
    model: Option<RuleText>,
}

/// What is said of a file's values.
pub struct CheckedRules<T> {
    /// The rules; `None` where they can't be read.
    pub rules: Option<T>,
    /// Everything wrong with the shape.
    pub problems: Vec<Problem>,
}

/// A value that a file changes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Override {
    /// Where the value stands.
    pub at: Locator,
    /// Its keys, joined by dots.
    pub path: String,
    /// As written.
    pub value: String,
    /// The source the file gives for it, if any.
    pub source: Option<String>,
    /// What it replaces, as written.
    pub replaced: String,
    /// The source of what it replaces.
    pub replaced_source: Option<String>,
    /// The file that holds what it replaces.
    pub of: String,
}

impl RuleFile {
    /// Opens a rule file. Its kind is the one given, or that of its folder's name, or that of the shipped set that it
    /// extends, or that whose shipped sets have the most of its tables.
    ///
    /// # Errors
    /// What is wrong with the file as TOML, with what it extends, or that its kind can't be told.
    pub fn open(path: &Path, kind: Option<RuleKind>) -> Result<Self, Vec<Problem>> {
        let text = library::read_file(path).map_err(|problem| vec![*problem])?;
        let table = parse(&text)?;
        let folder = path.parent().map(Path::to_path_buf).unwrap_or_default();
        let folder_name = folder.canonicalize().unwrap_or(folder.clone());
        let folder_name = folder_name.file_name().and_then(|name| name.to_str()).unwrap_or_default().to_owned();
        let of_folder = RuleKind::ALL.into_iter().find(|kind| kind.folder() == folder_name);
        let kind = match kind.or(of_folder) {
            Some(kind) => kind,
            None => kind_of(&text, table.get_ref())?,
        };
        let beside: PathBuf = if of_folder == Some(kind) { folder.join("..") } else { folder };
        let model = likest(kind, table.get_ref());
        let chain = library::chain_from(kind, text, Some(&beside))?;
        Ok(RuleFile { kind, chain, model })
    }

    /// The kind of its rules.
    pub fn kind(&self) -> RuleKind {
        self.kind
    }

    /// The file and those it extends, itself first.
    pub fn files(&self) -> Vec<&str> {
        self.chain.iter().map(|text| text.file.as_str()).collect()
    }

    /// Reads the rules into their shape and says everything that is wrong: units that contradict, unknown keys, wrong
    /// types, missing rules. After each fault the value of the set below takes the place of the faulty one.
    pub fn read<T: DeserializeOwned>(&self) -> CheckedRules<T> {
        let joined = match Joined::new(&self.chain) {
            Ok(joined) => joined,
            Err(problems) => return CheckedRules { rules: None, problems },
        };
        let mut problems = joined.contradicting_units();
        let below = self.below(&joined);
        let mut table = joined.overlaid();
        if !problems.is_empty() {
            put_back(table.get_mut(), &["units".to_owned()], below.as_ref());
        }
        for _ in 0..FAULTS_MAX {
            let faults = match faults_of::<T>(&joined, &table) {
                Ok(rules) => return CheckedRules { rules: Some(rules), problems },
                Err(faults) => faults,
            };
            let mut changed = false;
            for Fault { path, problem } in faults {
                // A shape may leave the head to the loader.
                let of_head = problem.code == UNKNOWN_KEY && path.len() == 1 && HEAD.contains(&path[0].as_str());
                let known = if problem.code == UNKNOWN_KEY { None } else { below.as_ref() };
                changed |= put_back(table.get_mut(), &path, known);
                if !of_head && !problems.contains(&problem) {
                    problems.push(problem);
                }
            }
            if !changed {
                break;
            }
        }
        CheckedRules { rules: None, problems }
    }

    /// What the set below has: the base, or the likest shipped set where the file extends none.
    fn below<'t>(&'t self, joined: &Joined<'t>) -> Option<Spanned<DeTable<'t>>> {
        joined.overlaid_from(1).or_else(|| parse(self.model.as_ref()?).ok())
    }

    /// A fault of the values, put where its words point: they begin with, or name, keys joined by dots. Of several keys
    /// the one that stands in the file itself is meant.
    pub fn fault(&self, words: &str) -> Problem {
        let at = Joined::new(&self.chain).ok().and_then(|joined| place(&joined, words));
        let (wrong, right) = words.split_once("; ").unwrap_or((words, "put the value right"));
        Problem {
            code: "rules.value",
            severity: ProblemSeverity::Fatal,
            at: at.unwrap_or_else(|| Locator { file: self.chain[0].file.clone(), line: 0, column: 0 }),
            subject: String::new(),
            wrong: wrong.to_owned(),
            right: right.to_owned(),
        }
    }

    /// What the file changes of the set it extends, in the order of its keys; empty where it extends none.
    pub fn overrides(&self) -> Vec<Override> {
        let mut found = Vec::new();
        if let Ok(joined) = Joined::new(&self.chain)
            && let (Some(own), Some(below)) = (joined.layer(0), joined.overlaid_from(1))
        {
            changes(&joined, own, below.get_ref(), &mut Vec::new(), &mut found);
        }
        found.sort_by_key(|change| (change.at.line, change.at.column));
        found
    }
}

/// Collects what a table changes of the one below.
fn changes(joined: &Joined, own: &DeTable, below: &DeTable, path: &mut Vec<String>, found: &mut Vec<Override>) {
    for (key, value) in own {
        let name = key.get_ref().to_string();
        let of_file = path.is_empty() && ["extends", "name", "about", "units"].contains(&name.as_str());
        let Some((_, old)) = below.get_key_value(name.as_str()).filter(|_| !of_file) else { continue };
        path.push(name);
        match (value.get_ref(), old.get_ref()) {
            (DeValue::Table(own), DeValue::Table(below)) if !below.contains_key("value") => {
                changes(joined, own, below, path, found);
            }
            _ => {
                let (value_text, source) = value_and_source(value);
                let (replaced, replaced_source) = value_and_source(old);
                if value_text != replaced || source != replaced_source {
                    found.push(Override {
                        at: joined.locate(key.span().start),
                        path: path.join("."),
                        value: value_text,
                        source,
                        replaced,
                        replaced_source,
                        of: joined.locate(old.span().start).file,
                    });
                }
            }
        }
        path.pop();
    }
}

/// A value as written and its source, where it has one.
fn value_and_source(value: &Spanned<DeValue>) -> (String, Option<String>) {
    if let DeValue::Table(table) = value.get_ref()
        && let Some(inner) = table.get("value")
    {
        let source = table.get("source").and_then(|source| match source.get_ref() {
            DeValue::String(text) => Some(text.to_string()),
            _ => None,
        });
        return (written(inner), source);
    }
    (written(value), None)
}

/// Puts the value of the table below in the place of one that is wrong; takes it away where there is none. A value inside
/// a list goes with its list. Says whether anything changed.
fn put_back<'t>(table: &mut DeTable<'t>, path: &[String], below: Option<&Spanned<DeTable<'t>>>) -> bool {
    put_back_in(table, path, below.map(Spanned::get_ref))
}

fn put_back_in<'t>(table: &mut DeTable<'t>, path: &[String], below: Option<&DeTable<'t>>) -> bool {
    let Some((first, rest)) = path.split_first() else { return false };
    let known = below.and_then(|below| below.get_key_value(first.as_str()));
    let inner = match table.get_mut(first.as_str()).map(Spanned::get_mut) {
        Some(DeValue::Table(inner)) if !rest.is_empty() => Some(inner),
        _ => None,
    };
    if let Some(inner) = inner {
        let below = known.and_then(|(_, value)| match value.get_ref() {
            DeValue::Table(below) => Some(below),
            _ => None,
        });
        return put_back_in(inner, rest, below);
    }
    match known {
        Some((key, value)) => {
            let (key, value) = (key.clone(), value.clone());
            table.insert(key, value);
            true
        }
        None => table.remove(first.as_str()).is_some(),
    }
}

/// Where the words of a fault point.
fn place(joined: &Joined, words: &str) -> Option<Locator> {
    let table = joined.overlaid();
    let tokens: Vec<&str> =
        words.split_whitespace().map(|word| word.trim_matches(|c: char| "`,;:()".contains(c))).collect();
    let mut places = Vec::new();
    for (index, token) in tokens.iter().enumerate() {
        let Some(path) = resolve(table.get_ref(), token) else { continue };
        let row =
            (tokens.get(index + 1) == Some(&"row")).then(|| tokens.get(index + 2)?.parse::<usize>().ok()).flatten();
        let offset = row
            .and_then(|row| row_offset(table.get_ref(), &path, row, tokens.get(index + 3).copied()))
            .unwrap_or_else(|| key_offset(table.get_ref(), &path));
        places.push((joined.layer_at(offset), joined.locate(offset)));
    }
    let own = places.iter().position(|(layer, _)| *layer == 0).unwrap_or(0);
    (own < places.len()).then(|| places.swap_remove(own).1)
}

/// The keys that a dotted word names, a sourced value's `value` understood; `None` where it names none.
fn resolve(table: &DeTable, word: &str) -> Option<Vec<String>> {
    let mut path = Vec::new();
    let mut here = table;
    let segments: Vec<&str> = word.split('.').collect();
    for (index, segment) in segments.iter().enumerate() {
        if !here.contains_key(*segment)
            && let Some(DeValue::Table(inner)) = here.get("value").map(Spanned::get_ref)
        {
            path.push("value".to_owned());
            here = inner;
        }
        let value = here.get(*segment)?;
        path.push((*segment).to_owned());
        match value.get_ref() {
            DeValue::Table(inner) => here = inner,
            _ if index + 1 == segments.len() => {}
            _ => return None,
        }
    }
    Some(path)
}

/// Where the cell of a row, counted from one, of a list stands.
fn row_offset(table: &DeTable, path: &[String], row: usize, cell: Option<&str>) -> Option<usize> {
    let mut here = table;
    for key in path {
        match here.get(key.as_str())?.get_ref() {
            DeValue::Table(inner) => here = inner,
            DeValue::Array(_) => break,
            _ => return None,
        }
    }
    let list = here.get("value").or_else(|| here.get(path.last()?.as_str()))?;
    let DeValue::Array(rows) = list.get_ref() else { return None };
    let row = rows.get(row.checked_sub(1)?)?;
    let cell = cell.and_then(|cell| match row.get_ref() {
        DeValue::Table(cells) => cells.get_key_value(cell).map(|(key, _)| key.span().start),
        _ => None,
    });
    Some(cell.unwrap_or(row.span().start))
}

/// The kind of a file that says none.
fn kind_of(text: &RuleText, table: &DeTable) -> Result<RuleKind, Vec<Problem>> {
    let extends = table.get("extends").and_then(|value| match value.get_ref() {
        DeValue::String(name) => Some(name.to_string()),
        _ => None,
    });
    let named: Vec<RuleKind> = RuleKind::ALL
        .into_iter()
        .filter(|kind| extends.as_ref().is_some_and(|name| library::shipped_names(*kind).contains(name)))
        .collect();
    if let [only] = named[..] {
        return Ok(only);
    }
    let among = if named.is_empty() { RuleKind::ALL.to_vec() } else { named };
    let mut likeness: Vec<(usize, RuleKind)> =
        among.into_iter().map(|kind| (likest_count(kind, table), kind)).collect();
    likeness.sort_by_key(|(count, _)| std::cmp::Reverse(*count));
    match likeness[..] {
        [(count, kind), ref rest @ ..] if count > 0 && rest.first().is_none_or(|(next, _)| *next < count) => Ok(kind),
        _ => {
            let kinds: Vec<&str> = RuleKind::ALL.iter().map(|kind| kind.folder()).collect();
            Err(vec![Problem {
                code: "rules.kind.unknown",
                severity: ProblemSeverity::Fatal,
                at: text.locate(0),
                subject: String::new(),
                wrong: "which kind of rules this is can't be told from what it extends or from its tables".into(),
                right: format!("give --kind; known: {}", kinds.join(", ")),
            }])
        }
    }
}

/// The shipped set of a kind that has the most of a table's keys.
fn likest(kind: RuleKind, table: &DeTable) -> Option<RuleText> {
    let sets = library::shipped_names(kind).into_iter().filter_map(|name| library::shipped(kind, &name));
    sets.max_by_key(|set| shared_keys(set, table))
}

fn likest_count(kind: RuleKind, table: &DeTable) -> usize {
    likest(kind, table).map_or(0, |set| shared_keys(&set, table))
}

/// Keys of a table that a set has too, the head not counted.
fn shared_keys(set: &RuleText, table: &DeTable) -> usize {
    let Ok(other) = parse(set) else { return 0 };
    let keys = table.keys().map(Spanned::get_ref).filter(|key| !HEAD.contains(&key.as_ref()));
    keys.filter(|key| other.get_ref().contains_key(key.as_ref() as &str)).count()
}
