//! One table out of several files, each laid over the one it extends, with every value still knowing where it stands.
//!
//! Byte offsets are those of all files written one after the other, so that one number names file, line and column.

use std::borrow::Cow;

use model::problem::{Locator, Problem, ProblemSeverity};
use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::library::RuleText;
use super::parse;

/// The files of a chain, the extending one first.
pub struct Joined<'t> {
    layers: Vec<Layer<'t>>,
}

struct Layer<'t> {
    text: &'t RuleText,
    table: Spanned<DeTable<'t>>,
    begins: usize,
}

impl<'t> Joined<'t> {
    /// Parses all files of the chain.
    pub fn new(chain: &'t [RuleText]) -> Result<Self, Vec<Problem>> {
        let mut layers = Vec::with_capacity(chain.len());
        let mut begins = 0;
        for text in chain {
            let table = parse(text)?;
            let whole = shifted(table.span(), begins);
            let table = Spanned::new(whole, shift_table(table.into_inner(), begins));
            layers.push(Layer { text, table, begins });
            // One byte between files, so that the end of one is not the start of the next.
            begins += text.text.len() + 1;
        }
        Ok(Joined { layers })
    }

    /// The base with every file above laid over it.
    pub fn overlaid(&self) -> Spanned<DeTable<'t>> {
        self.overlaid_from(0).unwrap_or_else(|| Spanned::new(0..0, DeTable::new()))
    }

    /// The base with the files above it up to the one of that number laid over it, counted from the extending file;
    /// `None` where the chain is shorter.
    pub fn overlaid_from(&self, first: usize) -> Option<Spanned<DeTable<'t>>> {
        let mut layers = self.layers.get(first..)?.iter().rev();
        let base = layers.next()?;
        let mut table = base.table.clone();
        for layer in layers {
            lay_over(table.get_mut(), layer.table.get_ref(), &format!("set in {}", layer.text.file));
        }
        table.get_mut().remove("extends");
        Some(table)
    }

    /// One file's own table, counted from the extending file.
    pub fn layer(&self, number: usize) -> Option<&DeTable<'t>> {
        self.layers.get(number).map(|layer| layer.table.get_ref())
    }

    /// The number of the file that an offset stands in, counted from the extending file.
    pub fn layer_at(&self, offset: usize) -> usize {
        self.layers.iter().rposition(|layer| layer.begins <= offset).unwrap_or(0)
    }

    /// Where a file's `units` say something else than those of the file it extends: its numbers would be read in the wrong
    /// unit, and those it leaves alone too.
    pub fn contradicting_units(&self) -> Vec<Problem> {
        let units = |layer: &Layer<'t>| match layer.table.get_ref().get("units").map(Spanned::get_ref) {
            Some(DeValue::Table(units)) => units.clone(),
            _ => DeTable::new(),
        };
        let mut problems = Vec::new();
        for (index, layer) in self.layers.iter().enumerate() {
            for (key, value) in &units(layer) {
                let of_base =
                    |base: &Layer<'t>| Some((base.text.file.clone(), word(units(base).get(key.get_ref().as_ref())?)?));
                let Some((file, theirs)) = self.layers[index + 1..].iter().find_map(of_base) else { continue };
                let Some(own) = word(value).filter(|own| *own != theirs) else { continue };
                problems.push(Problem {
                    code: "rules.units.contradict",
                    severity: ProblemSeverity::Fatal,
                    at: self.locate(value.span().start),
                    subject: format!("units.{}", key.get_ref()),
                    wrong: format!("this file says `{own}`, the set it extends ({file}) says `{theirs}`"),
                    right: format!(
                        "leave `units` out and write the values in `{theirs}`; or extend a set in `{own}`, or write a whole set"
                    ),
                });
            }
        }
        problems
    }

    /// File, line and column of an offset.
    pub fn locate(&self, offset: usize) -> Locator {
        let layer = self.layers.iter().rev().find(|layer| layer.begins <= offset).or(self.layers.first());
        layer.map_or_else(Locator::default, |layer| layer.text.locate(offset - layer.begins))
    }

    /// Keys that the base has in the table of that key.
    pub fn keys_beside(&self, path: &[String]) -> Vec<String> {
        let table = self.layers.last().map(|layer| layer.table.get_ref());
        let parents = path.split_last().map_or(path, |(_, parents)| parents);
        let table = parents.iter().try_fold(table, |table, key| {
            let value = table?.get(key.as_str())?.get_ref();
            if let DeValue::Table(inner) = value { Some(Some(inner)) } else { None }
        });
        table.flatten().map(|table| table.keys().map(|key| key.get_ref().to_string()).collect()).unwrap_or_default()
    }
}

/// A value that is a text.
fn word(value: &Spanned<DeValue>) -> Option<String> {
    if let DeValue::String(text) = value.get_ref() { Some(text.clone().into_owned()) } else { None }
}

/// A value as one would write it; a list longer than three items only by its length.
pub fn written(value: &Spanned<DeValue>) -> String {
    match value.get_ref() {
        DeValue::String(text) => format!("\"{text}\""),
        DeValue::Integer(number) => number.as_str().to_owned(),
        DeValue::Float(number) => number.as_str().to_owned(),
        DeValue::Boolean(flag) => flag.to_string(),
        DeValue::Datetime(when) => when.to_string(),
        DeValue::Array(items) if items.len() > 3 || items.iter().any(|item| item.get_ref().is_table()) => {
            format!("a list of {}", items.len())
        }
        DeValue::Array(items) => format!("[{}]", items.iter().map(written).collect::<Vec<_>>().join(", ")),
        DeValue::Table(table) => {
            let pairs: Vec<String> =
                table.iter().map(|(key, value)| format!("{} = {}", key.get_ref(), written(value))).collect();
            format!("{{ {} }}", pairs.join(", "))
        }
    }
}

/// Lays `over` on `base`: tables merge, everything else replaces.
fn lay_over<'t>(base: &mut DeTable<'t>, over: &DeTable<'t>, set_in: &str) {
    for (key, value) in over {
        let merged = match base.remove_entry(key.get_ref().as_ref() as &str) {
            Some((_, below)) => merge(below, value, set_in),
            None => value.clone(),
        };
        base.insert(key.clone(), merged);
    }
}

fn merge<'t>(mut below: Spanned<DeValue<'t>>, over: &Spanned<DeValue<'t>>, set_in: &str) -> Spanned<DeValue<'t>> {
    let DeValue::Table(table) = below.get_mut() else { return over.clone() };
    // It stands nowhere: an empty span, so that faults of the value are told of the value.
    let nowhere = over.span().start..over.span().start;
    let own_source = || Spanned::new(nowhere.clone(), DeValue::String(Cow::Owned(set_in.to_owned())));
    let is_sourced = table.contains_key("value") && table.contains_key("source");
    match over.get_ref() {
        DeValue::Table(above) => {
            // A changed value must not keep the citation of the value it replaces.
            let needs_source = is_sourced && above.contains_key("value") && !above.contains_key("source");
            lay_over(table, above, set_in);
            if needs_source {
                replace(table, "source", own_source());
            }
            below
        }
        // `margin_m = 0.03` over `margin_m = { value = 0.025, source = "..." }`
        DeValue::Integer(_) | DeValue::Float(_) | DeValue::Boolean(_) | DeValue::String(_) | DeValue::Array(_)
            if is_sourced =>
        {
            replace(table, "value", over.clone());
            replace(table, "source", own_source());
            below
        }
        _ => over.clone(),
    }
}

/// Replaces a value under a key that the table has.
fn replace<'t>(table: &mut DeTable<'t>, key: &str, value: Spanned<DeValue<'t>>) {
    if let Some(slot) = table.get_mut(key) {
        *slot = value;
    }
}

/// Where a key stands; the nearest table above where the key is not found.
pub fn key_offset(table: &DeTable, path: &[String]) -> usize {
    let Some((first, rest)) = path.split_first() else { return 0 };
    let Some((key, value)) = table.get_key_value(first.as_str()) else { return 0 };
    if rest.is_empty() {
        return key.span().start;
    }
    value_offset(value, rest)
}

fn value_offset(value: &Spanned<DeValue>, path: &[String]) -> usize {
    match (value.get_ref(), path.split_first()) {
        (DeValue::Table(table), Some((first, _))) if table.contains_key(first.as_str()) => key_offset(table, path),
        (DeValue::Array(items), Some((index, rest))) => {
            let item = index.parse().ok().and_then(|index: usize| items.get(index));
            item.map_or(value.span().start, |item| value_offset(item, rest))
        }
        _ => value.span().start,
    }
}

/// The keys that lead to the innermost value standing at an offset.
pub fn path_at(table: &DeTable, offset: usize) -> Vec<String> {
    for (key, value) in table {
        let below = match value.get_ref() {
            DeValue::Table(inner) => path_at(inner, offset),
            DeValue::Array(items) => items
                .iter()
                .map(|item| if let DeValue::Table(inner) = item.get_ref() { path_at(inner, offset) } else { vec![] })
                .find(|path| !path.is_empty())
                .unwrap_or_default(),
            _ => Vec::new(),
        };
        if !below.is_empty() || value.span().contains(&offset) || key.span().contains(&offset) {
            return [vec![key.get_ref().to_string()], below].concat();
        }
    }
    Vec::new()
}

fn shifted(span: std::ops::Range<usize>, by: usize) -> std::ops::Range<usize> {
    span.start + by..span.end + by
}

fn shift_table(table: DeTable, by: usize) -> DeTable {
    table
        .into_iter()
        .map(|(key, value)| (Spanned::new(shifted(key.span(), by), key.into_inner()), shift_value(value, by)))
        .collect()
}

fn shift_value(value: Spanned<DeValue>, by: usize) -> Spanned<DeValue> {
    let span = shifted(value.span(), by);
    let inner = match value.into_inner() {
        DeValue::Table(table) => DeValue::Table(shift_table(table, by)),
        DeValue::Array(items) => {
            // The array type builds only by parsing; its items shift in place.
            let mut items = items;
            for item in items.iter_mut() {
                let taken = std::mem::replace(item, Spanned::new(0..0, DeValue::Boolean(false)));
                *item = shift_value(taken, by);
            }
            DeValue::Array(items)
        }
        other => other,
    };
    Spanned::new(span, inner)
}
