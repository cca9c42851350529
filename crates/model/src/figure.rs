//! A figure that can say how it was worked out, and how far it may be off.

use std::borrow::Cow;
use std::fmt;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::Deserialize;

/// One computed quantity: its value, its spread where it has one, and the way it was worked out.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure<Q> {
    /// The value for the hole as surveyed.
    pub value: Q,
    /// What it may turn out to be once the hole is dug; `None` where nothing uncertain enters.
    pub spread: Option<Spread<Q>>,
    /// How it was worked out.
    pub why: Why,
}

/// Quantiles: one in ten is below `p10`, half below `p50`, nine in ten below `p90`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spread<Q> {
    /// Ten-per-cent quantile.
    pub p10: Q,
    /// Median.
    pub p50: Q,
    /// Ninety-per-cent quantile.
    pub p90: Q,
}

/// How a figure was worked out: the rule in symbols, what went in, and where the rule is from.
#[derive(Debug, Clone, PartialEq)]
pub struct Why {
    /// The rule, in the handbook's symbols, e.g. `n = max(1, ceil(D / t_max))`.
    pub rule: String,
    /// What went in: name and value with unit, e.g. `("D", "220 mm")`.
    pub inputs: Vec<(String, String)>,
    /// Where the rule is from.
    pub source: Source,
}

/// Where a rule or value is from.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(from = "String")]
pub struct Source {
    /// How far the source can be relied on.
    pub standing: Standing,
    /// The citation in words.
    pub cite: String,
}

/// How far a source can be relied on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// Read in a published document.
    Published,
    /// A publication is named, but the value is from memory.
    FromMemory,
    /// Common practice of the trade, no source.
    CommonPractice,
    /// True by definition or arithmetic.
    Definition,
    /// Set by the agency that uses the program.
    Agency,
}

impl Standing {
    /// In words, for a reader who must know how far to trust a figure.
    pub fn words(self) -> &'static str {
        match self {
            Standing::Published => "published",
            Standing::FromMemory => "memory",
            Standing::CommonPractice => "common practice",
            Standing::Definition => "definition",
            Standing::Agency => "the agency",
        }
    }
}

impl<Q> Figure<Q> {
    /// A figure without spread.
    pub fn exact(value: Q, why: Why) -> Self {
        Figure { value, spread: None, why }
    }

    /// A figure with spread.
    pub fn spread(value: Q, spread: Spread<Q>, why: Why) -> Self {
        Figure { value, spread: Some(spread), why }
    }

    /// The same figure in another unit or form.
    pub fn map<R>(self, mut change: impl FnMut(Q) -> R) -> Figure<R> {
        Figure {
            value: change(self.value),
            spread: self.spread.map(|s| Spread { p10: change(s.p10), p50: change(s.p50), p90: change(s.p90) }),
            why: self.why,
        }
    }
}

impl<Q: Copy> Figure<Q> {
    /// The value to be prepared for: the ninety-per-cent quantile where there is one.
    pub fn p90(&self) -> Q {
        self.spread.map_or(self.value, |s| s.p90)
    }
}

impl Why {
    /// A rule with its source; inputs follow with [`Why::with`].
    pub fn new(rule: impl Into<String>, source: Source) -> Self {
        Why { rule: rule.into(), inputs: Vec::new(), source }
    }

    /// Adds one input.
    #[must_use]
    pub fn with(mut self, name: impl Into<String>, value: impl fmt::Display) -> Self {
        self.inputs.push((name.into(), value.to_string()));
        self
    }
}

impl fmt::Display for Why {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.rule)?;
        for (index, (name, value)) in self.inputs.iter().enumerate() {
            write!(f, "{}{name} = {value}", if index == 0 { "; " } else { ", " })?;
        }
        write!(f, " [{}]", self.source)
    }
}

impl Source {
    /// True by definition or arithmetic.
    pub fn definition() -> Self {
        Source { standing: Standing::Definition, cite: "definition".into() }
    }

    /// Common practice of the trade, no source.
    pub fn common_practice() -> Self {
        Source { standing: Standing::CommonPractice, cite: "common practice, no source".into() }
    }

    /// Set by the agency; `cite` names the file or the field.
    pub fn agency(cite: impl Into<String>) -> Self {
        Source { standing: Standing::Agency, cite: cite.into() }
    }
}

impl From<String> for Source {
    /// Reads `published: ...`, `from memory: ...`, `common practice, no source`, `definition`; anything else is the
    /// agency's own word.
    fn from(text: String) -> Self {
        let rest = |prefix: &str| text.strip_prefix(prefix).map(|r| r.trim().to_owned());
        if let Some(cite) = rest("published:") {
            Source { standing: Standing::Published, cite }
        } else if let Some(cite) = rest("from memory:") {
            Source { standing: Standing::FromMemory, cite }
        } else if text.starts_with("common practice") {
            Source { standing: Standing::CommonPractice, cite: text }
        } else if text.starts_with("definition") {
            Source { standing: Standing::Definition, cite: text }
        } else {
            Source { standing: Standing::Agency, cite: text }
        }
    }
}

impl JsonSchema for Source {
    fn schema_name() -> Cow<'static, str> {
        "Source".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "type": "string",
            "minLength": 1,
            "description": "`published: ...` (read in that document), `from memory: ...`, `common practice, no source`, `definition`, or the agency's own words.",
        })
    }
}

impl fmt::Display for Source {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.standing {
            Standing::Published => write!(f, "published: {}", self.cite),
            Standing::FromMemory => write!(f, "from memory: {}", self.cite),
            Standing::CommonPractice | Standing::Definition | Standing::Agency => f.write_str(&self.cite),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_source_reads_back_what_it_printed() {
        for text in
            ["published: A guide, table 3", "from memory: A guide", "common practice, no source", "definition", "own"]
        {
            assert_eq!(Source::from(text.to_owned()).to_string(), text);
        }
    }

    #[test]
    fn a_why_reads_as_one_line() {
        let why = Why::new("A = a * b", Source::definition()).with("a", "2 m").with("b", "3 m");
        assert_eq!(why.to_string(), "A = a * b; a = 2 m, b = 3 m [definition]");
    }
}
