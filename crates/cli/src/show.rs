//! Figures as text and as JSON for the commands that show one stage.

/// `println!` that survives a closed pipe.
macro_rules! say {
    ($($argument:tt)*) => { $crate::show::line(format_args!($($argument)*)) };
}

use std::io::Write as _;

use model::figure::Figure;
use serde_json::{Value, json};

/// One figure as a JSON object: value, quantiles where there are some, and how it was worked out.
pub(crate) fn figure_json<Q: Copy>(figure: &Figure<Q>, number: impl Fn(Q) -> f64) -> Value {
    let mut object = json!({ "value": number(figure.value), "why": figure.why.to_string() });
    if let Some(spread) = &figure.spread {
        object["p10"] = json!(number(spread.p10));
        object["p50"] = json!(number(spread.p50));
        object["p90"] = json!(number(spread.p90));
    }
    object
}

/// Prints pretty JSON to standard output.
pub(crate) fn print_json(value: &Value) {
    say!("{value:#}");
}

/// Writes a line to standard output. Ends the program quietly when nobody reads on (`| head`), where `println!` would
/// panic.
pub(crate) fn line(text: std::fmt::Arguments) {
    let mut out = std::io::stdout().lock();
    if writeln!(out, "{text}").is_err() {
        std::process::exit(0);
    }
}

/// A plain text table: columns as wide as their widest cell.
#[derive(Debug, Default)]
pub(crate) struct Table {
    rows: Vec<Vec<String>>,
}

impl Table {
    pub(crate) fn row<const N: usize>(&mut self, cells: [String; N]) {
        self.rows.push(cells.into());
    }

    /// One figure: name, value with unit, spread, how it was worked out.
    pub(crate) fn figure<Q: Copy>(&mut self, name: &str, figure: &Figure<Q>, text: impl Fn(Q) -> String) {
        let spread = figure.spread.as_ref().map_or_else(String::new, |s| format!("{} to {}", text(s.p10), text(s.p90)));
        self.row([name.to_owned(), text(figure.value), spread, figure.why.to_string()]);
    }

    pub(crate) fn print(&self) {
        let columns = self.rows.iter().map(Vec::len).max().unwrap_or(0);
        let width = |column: usize| {
            self.rows.iter().filter_map(|row| row.get(column)).map(|cell| cell.chars().count()).max().unwrap_or(0)
        };
        let widths: Vec<usize> = (0..columns).map(width).collect();
        for row in &self.rows {
            let line: Vec<String> = row.iter().zip(&widths).map(|(cell, &width)| format!("{cell:width$}")).collect();
            say!("{}", line.join("  ").trim_end());
        }
    }
}
