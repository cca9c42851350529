//! Reads one table of a district file key by key, collecting every problem on the way. A file may be laid over others: what
//! it does not say is taken from the one below.

use std::cell::RefCell;

use jiff::civil::Time as ClockTime;
use model::problem::{Problem, ProblemSeverity};
use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::unit::Unit;
use crate::limits::{self, Limit};
use crate::suggest;
use crate::text_file::{Lines, type_words};

/// A district file, or a file laid over one, while it is read.
pub struct Document<'t> {
    lines: Lines<'t>,
    /// What it is called in messages.
    what: &'static str,
    problems: RefCell<Vec<Problem>>,
}

/// One table while it is read. Keys that take a default find it in the table of the same name of the defaults.
pub struct Section<'d> {
    document: &'d Document<'d>,
    written: Option<&'d DeTable<'d>>,
    /// The same table of the files below, the uppermost first: what is not written is taken from there.
    under: Vec<&'d DeTable<'d>>,
    defaults: Option<&'d DeTable<'d>>,
    /// Dotted name, empty for the outermost table.
    path: String,
    /// Dotted name under which its limits stand: the same but for what says over again what another table says.
    limited_as: String,
    /// Byte where the table begins, for what is missing in it.
    begins: usize,
    known: Vec<String>,
}

/// What to do when a key is not written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Absent {
    /// A problem.
    IsWrong,
    /// The default applies.
    TakesDefault,
    /// Nothing is said.
    IsNothing,
}

/// A value with where it stands; `offset` is `None` for one of the files below and for a default.
struct Found<'d> {
    key: String,
    value: &'d DeValue<'d>,
    offset: Option<usize>,
}

impl<'t> Document<'t> {
    pub fn new(lines: Lines<'t>, what: &'static str) -> Self {
        Document { lines, what, problems: RefCell::default() }
    }

    /// Adds a problem at a byte.
    pub fn report(&self, severity: ProblemSeverity, code: &'static str, offset: usize, what: [String; 3]) {
        let [subject, wrong, right] = what;
        let at = self.lines.locate(offset);
        self.problems.borrow_mut().push(Problem { code, severity, at, subject, wrong, right });
    }

    /// How many problems so far are more than warnings.
    pub fn refused(&self) -> usize {
        self.problems.borrow().iter().filter(|problem| problem.severity > ProblemSeverity::Warning).count()
    }

    /// All problems in the order of the file.
    pub fn into_problems(self) -> Vec<Problem> {
        let mut problems = self.problems.into_inner();
        problems.sort_by(|a, b| a.at.cmp(&b.at));
        problems
    }
}

impl<'d> Section<'d> {
    /// The outermost table.
    pub fn outermost(
        document: &'d Document<'d>,
        written: &'d Spanned<DeTable<'d>>,
        under: Vec<&'d DeTable<'d>>,
        defaults: Option<&'d DeTable<'d>>,
    ) -> Self {
        let (path, limited_as) = (String::new(), String::new());
        Section {
            document,
            written: Some(written.get_ref()),
            under,
            defaults,
            path,
            limited_as,
            begins: 0,
            known: vec![],
        }
    }

    /// A table inside all whose keys have defaults, so that it may be left out.
    pub fn section(&mut self, key: &str) -> Section<'d> {
        let defaults = self.defaults.and_then(|table| table.get(key)).and_then(|value| as_table(value.get_ref()));
        let under = self.under.iter().filter_map(|table| as_table(table.get(key)?.get_ref())).collect();
        let (written, begins) = self.written_table(key).unzip();
        let begins = begins.unwrap_or(self.begins);
        let (path, limited_as) = (self.path_of(key), dotted(&self.limited_as, key));
        Section { document: self.document, written, under, defaults, path, limited_as, begins, known: vec![] }
    }

    /// A table inside that says over again, as far as it goes, what the table of that name in `general` says; `None` where
    /// it is not written.
    pub fn section_over(&mut self, key: &str, general: &Section<'d>) -> Option<Section<'d>> {
        let (written, begins) = self.written_table(key)?;
        let general_tables = general.written.into_iter().chain(general.under.iter().copied());
        Some(Section {
            document: self.document,
            written: Some(written),
            under: general_tables.filter_map(|table| as_table(table.get(key)?.get_ref())).collect(),
            defaults: general.defaults.and_then(|table| as_table(table.get(key)?.get_ref())),
            path: self.path_of(key),
            limited_as: dotted(&general.limited_as, key),
            begins,
            known: vec![],
        })
    }

    /// A table inside that must be there.
    pub fn needed_section(&mut self, key: &str) -> Option<Section<'d>> {
        if !self.is_given(key) {
            self.known.push(key.to_owned());
            let path = self.path_of(key);
            let what = [path.clone(), format!("the table [{path}] is missing"), format!("write it, headed [{path}]")];
            self.document.report(ProblemSeverity::Refused, "district.table.missing", self.begins, what);
            return None;
        }
        Some(self.section(key)).filter(Section::is_there)
    }

    /// A table inside that may be left out, meaning that there is none.
    pub fn optional_section(&mut self, key: &str) -> Option<Section<'d>> {
        self.known.push(key.to_owned());
        self.is_given(key).then(|| self.section(key)).filter(Section::is_there)
    }

    /// A list of tables, `[[key]]`; none where not written. A list replaces one of the files below.
    pub fn sections(&mut self, key: &str) -> Vec<Section<'d>> {
        self.known.push(key.to_owned());
        let path = self.path_of(key);
        let Some(value) = self.given(key) else { return Vec::new() };
        let right = format!("a list of tables, each headed [[{path}]]");
        let DeValue::Array(items) = value.get_ref() else {
            self.wrong_type(&path, value.span().start, value.get_ref(), &right);
            return Vec::new();
        };
        let mut sections = Vec::new();
        for item in items {
            let Some(table) = as_table(item.get_ref()) else {
                self.wrong_type(&path, item.span().start, item.get_ref(), &right);
                continue;
            };
            sections.push(Section {
                document: self.document,
                written: Some(table),
                under: vec![],
                defaults: None,
                path: path.clone(),
                limited_as: dotted(&self.limited_as, key),
                begins: item.span().start,
                known: vec![],
            });
        }
        sections
    }

    /// A text.
    pub fn text(&mut self, key: &str, absent: Absent) -> Option<String> {
        let found = self.find(key, absent)?;
        match found.value {
            DeValue::String(text) if text.trim().is_empty() && absent == Absent::IsWrong => {
                self.wrong("district.text.empty", &found, "is empty".into(), "write a few words".into());
                None
            }
            DeValue::String(text) => Some(text.clone().into_owned()),
            other => self.mistyped(&found, other, "a text in quotes"),
        }
    }

    /// One of some words.
    pub fn word<T: Copy>(&mut self, key: &str, words: &[(&str, T)], absent: Absent) -> Option<T> {
        let found = self.find(key, absent)?;
        match found.value {
            DeValue::String(text) => self.one_of(&found, text, words),
            other => self.mistyped(&found, other, "a word in quotes"),
        }
    }

    /// A list of words out of some.
    pub fn words<T: Copy>(&mut self, key: &str, words: &[(&str, T)], absent: Absent) -> Option<Vec<T>> {
        let found = self.find(key, absent)?;
        let DeValue::Array(items) = found.value else {
            return self.mistyped(&found, found.value, "a list of words, e.g. [\"base\", \"spoil\"]");
        };
        let mut meant = Vec::new();
        for item in items {
            let place = found.offset.map(|_| item.span().start);
            let item_found = Found { key: found.key.clone(), value: item.get_ref(), offset: place };
            meant.push(match item.get_ref() {
                DeValue::String(text) => self.one_of(&item_found, text, words),
                other => self.mistyped(&item_found, other, "a word in quotes"),
            });
        }
        meant.into_iter().collect()
    }

    /// A text with the byte where it stands; must be written.
    pub fn placed_text(&mut self, key: &str) -> Option<(String, usize)> {
        let found = self.find(key, Absent::IsWrong)?;
        self.placed(&found)
    }

    /// A list of texts, each with the byte where it stands; empty where not written.
    pub fn text_list(&mut self, key: &str) -> Option<Vec<(String, usize)>> {
        let Some(found) = self.find(key, Absent::IsNothing) else { return Some(Vec::new()) };
        let DeValue::Array(items) = found.value else {
            return self.mistyped(&found, found.value, "a list of texts, e.g. [\"H-1\", \"H-2\"]");
        };
        // All of them are looked at before any gives up.
        let texts: Vec<_> = items
            .iter()
            .map(|item| {
                let offset = found.offset.map(|_| item.span().start);
                self.placed(&Found { key: found.key.clone(), value: item.get_ref(), offset })
            })
            .collect();
        texts.into_iter().collect()
    }

    fn placed(&self, found: &Found) -> Option<(String, usize)> {
        match found.value {
            DeValue::String(text) if text.trim().is_empty() => {
                self.wrong("district.text.empty", found, "is empty".into(), "write a few words".into());
                None
            }
            DeValue::String(text) => Some((text.trim().to_owned(), found.offset.unwrap_or(self.begins))),
            other => self.mistyped(found, other, "a text in quotes"),
        }
    }

    /// True or false.
    pub fn flag(&mut self, key: &str, absent: Absent) -> Option<bool> {
        let found = self.find(key, absent)?;
        match found.value {
            DeValue::Boolean(flag) => Some(*flag),
            other => self.mistyped(&found, other, "true or false"),
        }
    }

    /// A whole number within its limits.
    pub fn count(&mut self, key: &str, absent: Absent) -> Option<u32> {
        let found = self.find(key, absent)?;
        let DeValue::Integer(digits) = found.value else {
            return self.mistyped(&found, found.value, "a whole number");
        };
        // Too long for a whole number of the machine is out of every range as well.
        let number = i64::from_str_radix(digits.as_str(), digits.radix()).unwrap_or(i64::MAX);
        self.within(&found, number as f64, number as f64, self.limit(key))?;
        u32::try_from(number).ok()
    }

    /// A bare number within its limits.
    pub fn number(&mut self, key: &str, absent: Absent) -> Option<f64> {
        let found = self.find(key, absent)?;
        let number = self.finite(&found)?;
        self.within(&found, number, number, self.limit(key))
    }

    /// A quantity: exactly one of `key_unit` for the units given, within its limits. The first unit is the one messages
    /// and limits speak in.
    pub fn quantity<Q>(&mut self, key: &str, units: &[Unit<Q>], absent: Absent) -> Option<Q> {
        let keys: Vec<String> = units.iter().map(|unit| format!("{key}_{}", unit.ending)).collect();
        self.known.extend(keys.iter().cloned());
        // The uppermost file that names it in some unit.
        let named = |table: &&DeTable| keys.iter().any(|name| table.contains_key(name.as_str()));
        let table = self.written.into_iter().chain(self.under.iter().copied()).find(named);
        let used = |index: &usize| table.is_some_and(|table| table.contains_key(keys[*index].as_str()));
        let used: Vec<usize> = (0..units.len()).filter(used).collect();
        let index = match used[..] {
            [index] => index,
            [] => self.absent_unit(key, &keys, absent)?,
            [first, second, ..] => {
                let found = self.find(&keys[second], absent)?;
                let wrong = format!("`{}` and `{}` say the same thing twice", keys[first], keys[second]);
                self.wrong("district.quantity.twice", &found, wrong, "keep one of them".into());
                return None;
            }
        };
        let found = self.find(&keys[index], absent)?;
        let number = self.finite(&found)?;
        let unit = &units[index];
        self.within(&found, number, (unit.in_first)(number), self.limit(key))?;
        Some((unit.quantity)(number))
    }

    /// A time of day: 06:30 as TOML's own local time or as a text.
    pub fn clock(&mut self, key: &str, absent: Absent) -> Option<ClockTime> {
        let found = self.find(key, absent)?;
        let text = match found.value {
            DeValue::String(text) => text.clone().into_owned(),
            DeValue::Datetime(at) if at.date.is_none() && at.offset.is_none() => at.to_string(),
            other => return self.mistyped(&found, other, "a time of day such as 06:30"),
        };
        let time = text.parse::<ClockTime>().ok().filter(|_| text.contains(':'));
        if time.is_none() {
            let right = "write a time of day from 00:00 to 23:59, e.g. \"06:30\"".into();
            self.wrong("district.time.unreadable", &found, format!("`{text}` is not a time of day"), right);
        }
        time
    }

    /// Every key with a text value, for tables whose keys are the user's own.
    pub fn texts(&mut self) -> Vec<(String, String, usize)> {
        let mut texts = Vec::new();
        for (key, value) in self.written.into_iter().flatten() {
            let name = key.get_ref().to_string();
            match value.get_ref() {
                DeValue::String(text) => texts.push((name.clone(), text.clone().into_owned(), key.span().start)),
                other => self.wrong_type(&self.path_of(&name), value.span().start, other, "a text in quotes"),
            }
            self.known.push(name);
        }
        texts
    }

    /// Reports the keys that nobody asked for.
    pub fn finish(self) {
        let mut known: Vec<&str> = Vec::new();
        for key in &self.known {
            if !known.contains(&key.as_str()) {
                known.push(key);
            }
        }
        for (key, _) in self.written.into_iter().flatten() {
            let name = key.get_ref().as_ref();
            if known.contains(&name) {
                continue;
            }
            let place = if self.path.is_empty() { self.document.what.into() } else { format!("[{}]", self.path) };
            let what = [self.path_of(name), format!("{place} has no key `{name}`"), suggest::hint(name, &known)];
            self.document.report(ProblemSeverity::Refused, "district.key.unknown", key.span().start, what);
        }
    }

    /// Reports something wrong at a key, or at the table where the key is not written.
    pub fn report(&self, severity: ProblemSeverity, code: &'static str, key: &str, wrong: String, right: String) {
        let written = self.written.and_then(|table| table.get(key));
        let offset = written.map_or(self.begins, |value| value.span().start);
        let subject = if key.is_empty() { self.path.clone() } else { self.path_of(key) };
        self.document.report(severity, code, offset, [subject, wrong, right]);
    }

    /// Its dotted name, as it is headed.
    pub fn path(&self) -> &str {
        &self.path
    }

    /// A number as written, whether or not it is within limits; says nothing if it is none.
    pub fn bare_number(&self, key: &str) -> Option<f64> {
        as_number(self.written?.get(key)?.get_ref())
    }

    /// A text as written; says nothing if it is none.
    pub fn bare_text(&self, key: &str) -> Option<String> {
        if let DeValue::String(text) = self.written?.get(key)?.get_ref() { Some(text.to_string()) } else { None }
    }

    /// In which file the key is written: 0 in this one, 1 in the one below, and so on.
    pub fn file_of(&self, key: &str) -> Option<usize> {
        if self.written.is_some_and(|table| table.contains_key(key)) {
            return Some(0);
        }
        self.under.iter().position(|table| table.contains_key(key)).map(|below| below + 1)
    }

    /// The same table, its values held against the limits of another.
    pub fn limited_as(self, table: &str) -> Self {
        Section { limited_as: table.to_owned(), ..self }
    }

    /// The value of a key in the uppermost file that has it.
    fn given(&self, key: &str) -> Option<&'d Spanned<DeValue<'d>>> {
        self.written.into_iter().chain(self.under.iter().copied()).find_map(|table| table.get(key))
    }

    /// Whether any file has the key.
    pub fn is_given(&self, key: &str) -> bool {
        self.given(key).is_some()
    }

    /// Whether any file has this table.
    fn is_there(&self) -> bool {
        self.written.is_some() || !self.under.is_empty()
    }

    fn path_of(&self, key: &str) -> String {
        dotted(&self.path, key)
    }

    /// The limit of a key: `truck.compartments` and `volume` is `[truck] "compartments.volume"`.
    fn limit(&self, key: &str) -> Option<&'static Limit> {
        let path = dotted(&self.limited_as, key);
        let (table, name) = path.split_once('.')?;
        let limit = limits::of(table, name);
        debug_assert!(limit.is_some(), "limits.toml lacks {path}");
        limit
    }

    fn written_table(&mut self, key: &str) -> Option<(&'d DeTable<'d>, usize)> {
        self.known.push(key.to_owned());
        let value = self.written?.get(key)?;
        let table = as_table(value.get_ref());
        if table.is_none() {
            let path = self.path_of(key);
            self.wrong_type(&path, value.span().start, value.get_ref(), &format!("a table headed [{path}]"));
        }
        Some((table?, value.span().start))
    }

    fn find(&mut self, key: &str, absent: Absent) -> Option<Found<'d>> {
        self.known.push(key.to_owned());
        if let Some(value) = self.written.and_then(|table| table.get(key)) {
            return Some(Found { key: key.to_owned(), value: value.get_ref(), offset: Some(value.span().start) });
        }
        if let Some(value) = self.under.iter().find_map(|table| table.get(key)) {
            return Some(Found { key: key.to_owned(), value: value.get_ref(), offset: None });
        }
        let default = self.defaults.and_then(|table| table.get(key));
        if let Some(value) = default.filter(|_| absent == Absent::TakesDefault) {
            return Some(Found { key: key.to_owned(), value: value.get_ref(), offset: None });
        }
        if absent != Absent::IsNothing {
            self.missing(key, &format!("write `{key} = ...` there"));
        }
        None
    }

    /// No unit of the quantity is written: the default's unit, or nothing.
    fn absent_unit(&mut self, key: &str, keys: &[String], absent: Absent) -> Option<usize> {
        let default = |name: &String| self.defaults.is_some_and(|table| table.contains_key(name.as_str()));
        if let Some(index) = keys.iter().position(default).filter(|_| absent == Absent::TakesDefault) {
            return Some(index);
        }
        if absent != Absent::IsNothing {
            self.missing(key, &format!("write one of {}", keys.join(", ")));
        }
        None
    }

    fn missing(&self, key: &str, right: &str) {
        let place = if self.path.is_empty() { self.document.what.into() } else { format!("[{}]", self.path) };
        let what = [self.path_of(key), format!("`{key}` is missing in {place}"), right.to_owned()];
        self.document.report(ProblemSeverity::Refused, "district.key.missing", self.begins, what);
    }

    fn finite(&self, found: &Found) -> Option<f64> {
        if !matches!(found.value, DeValue::Integer(_) | DeValue::Float(_)) {
            return self.mistyped(found, found.value, "a number");
        }
        let number = as_number(found.value).filter(|number: &f64| number.is_finite());
        if number.is_none() {
            let wrong = "is not a finite number".into();
            self.wrong("district.number.not_finite", found, wrong, "write a number with digits".into());
        }
        number
    }

    fn within(&self, found: &Found, written: f64, in_first_unit: f64, limit: Option<&Limit>) -> Option<f64> {
        let Some(limit) = limit.filter(|limit| !limit.holds(in_first_unit)) else { return Some(written) };
        let wrong = format!("{written} is out of range");
        self.wrong("district.number.out_of_range", found, wrong, format!("{} ({})", limit.words(), limit.source));
        None
    }

    fn one_of<T: Copy>(&self, found: &Found, text: &str, words: &[(&str, T)]) -> Option<T> {
        let meant = words.iter().find(|(word, _)| *word == text).map(|(_, meaning)| *meaning);
        if meant.is_none() {
            let known: Vec<&str> = words.iter().map(|(word, _)| *word).collect();
            let hint = suggest::hint(text, &known);
            self.wrong("district.word.unknown", found, format!("`{text}` is not a word known here"), hint);
        }
        meant
    }

    fn mistyped<T>(&self, found: &Found, value: &DeValue, right: &str) -> Option<T> {
        self.wrong_type(&self.path_of(&found.key), found.offset.unwrap_or(self.begins), value, right);
        None
    }

    fn wrong_type(&self, path: &str, offset: usize, value: &DeValue, right: &str) {
        let what = [path.to_owned(), format!("is {}", type_words(value)), format!("write {right}")];
        self.document.report(ProblemSeverity::Refused, "district.type.wrong", offset, what);
    }

    fn wrong(&self, code: &'static str, found: &Found, wrong: String, right: String) {
        let what = [self.path_of(&found.key), wrong, right];
        self.document.report(ProblemSeverity::Refused, code, found.offset.unwrap_or(self.begins), what);
    }
}

fn dotted(path: &str, key: &str) -> String {
    if path.is_empty() { key.to_owned() } else { format!("{path}.{key}") }
}

fn as_table<'d>(value: &'d DeValue<'d>) -> Option<&'d DeTable<'d>> {
    if let DeValue::Table(table) = value { Some(table) } else { None }
}

fn as_number(value: &DeValue) -> Option<f64> {
    match value {
        DeValue::Integer(digits) => i64::from_str_radix(digits.as_str(), digits.radix()).ok().map(|n| n as f64),
        DeValue::Float(digits) => digits.as_str().parse().ok(),
        _ => None,
    }
}
