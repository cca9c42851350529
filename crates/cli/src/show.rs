//! Figures as text and as JSON for the commands that show one stage.

/// `println!` that survives a closed pipe.
macro_rules! say {
    ($($argument:tt)*) => { $crate::show::line(format_args!($($argument)*)) };
}

use std::io::Write as _;

use model::figure::{Figure, Standing, Why};
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

/// What came of a run: labels, and values in a column behind them; some lines only indented.
#[derive(Debug, Default)]
pub(crate) struct Summary {
    rows: Vec<(Option<String>, String)>,
}

/// Least width of the labels.
const LABELS: usize = 20;

impl Summary {
    pub(crate) fn row(&mut self, label: String, value: String) {
        self.rows.push((Some(label), value));
    }

    /// A line that belongs to the row above.
    pub(crate) fn below(&mut self, words: String) {
        self.rows.push((None, words));
    }

    pub(crate) fn print(&self) {
        let labels = self.rows.iter().filter_map(|(label, _)| label.as_ref());
        let width = labels.map(|label| label.chars().count()).max().unwrap_or(0).max(LABELS);
        for (label, words) in &self.rows {
            match label {
                Some(label) => say!("{label:width$} {words}"),
                None => say!("  {words}"),
            }
        }
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

/// Figures as a table: name, value, range; with [`FigureTable::with_working`] what each rests on, and under it how it
/// was worked out.
#[derive(Debug, Default)]
pub(crate) struct FigureTable {
    working: bool,
    is_measured: bool,
    rows: Vec<FigureRow>,
}

#[derive(Debug)]
enum FigureRow {
    Heading(String),
    Figure { name: String, value: String, range: String, why: Why },
}

/// Widest line of working.
const WORKING_WIDTH: usize = 100;

impl FigureTable {
    /// A table that prints the working under each figure if `working` (the commands' `--why`).
    pub(crate) fn with_working(working: bool) -> Self {
        FigureTable { working, ..FigureTable::default() }
    }

    /// The same for figures that rest on measurements and not on a survey.
    pub(crate) fn of_measurements(working: bool) -> Self {
        FigureTable { is_measured: true, ..FigureTable::with_working(working) }
    }

    /// Words over the figures that follow.
    pub(crate) fn heading(&mut self, words: &str) {
        self.rows.push(FigureRow::Heading(words.to_owned()));
    }

    /// One figure; `text` writes its value with the unit last, after a blank.
    pub(crate) fn figure<Q: Copy>(&mut self, name: &str, figure: &Figure<Q>, text: impl Fn(Q) -> String) {
        let range = figure.spread.as_ref().map_or_else(String::new, |s| range(&text(s.p10), &text(s.p90)));
        let (name, value, why) = (name.to_owned(), text(figure.value), figure.why.clone());
        self.rows.push(FigureRow::Figure { name, value, range, why });
    }

    pub(crate) fn print(&self) {
        let ranged = self.rows.iter().any(|row| matches!(row, FigureRow::Figure { range, .. } if !range.is_empty()));
        let head = [
            "figure",
            if ranged && !self.is_measured { "as surveyed" } else { "value" },
            if ranged { "P10 to P90" } else { "" },
        ];
        let width = |column: usize| {
            let cells = self.rows.iter().filter_map(|row| row.cells()).map(|cells| cells[column].chars().count());
            cells.max().unwrap_or(0).max(head[column].chars().count())
        };
        let widths = [width(0), width(1), width(2)];
        let line = |cells: [&str; 3], rests_on: &str| {
            let [name, value, range] = widths;
            let text = format!("{:name$}  {:value$}  {:range$}", cells[0], cells[1], cells[2]);
            say!("{}", format!("{text}  {}", if self.working { rests_on } else { "" }).trim_end());
        };
        line(head, "rests on");
        for row in &self.rows {
            match row {
                FigureRow::Heading(words) => say!("\n{words}"),
                FigureRow::Figure { name, value, range, why } => {
                    line([name, value, range], why.source.standing.words());
                    if self.working {
                        print_working(why);
                    }
                }
            }
        }
        if self.working {
            print_standings(self.rows.iter().filter_map(FigureRow::standing));
        }
    }
}

impl FigureRow {
    fn cells(&self) -> Option<[&str; 3]> {
        match self {
            FigureRow::Heading(_) => None,
            FigureRow::Figure { name, value, range, .. } => Some([name, value, range]),
        }
    }

    fn standing(&self) -> Option<Standing> {
        match self {
            FigureRow::Heading(_) => None,
            FigureRow::Figure { why, .. } => Some(why.source.standing),
        }
    }
}

/// From one value to another, the unit once: `0.19 to 0.40 m3`.
fn range(low: &str, high: &str) -> String {
    match (low.rsplit_once(' '), high.rsplit_once(' ')) {
        (Some((number, unit)), Some((_, same))) if unit == same => format!("{number} to {high}"),
        _ => format!("{low} to {high}"),
    }
}

/// Rule, what went in, source: indented under the figure.
fn print_working(why: &Why) {
    let indented = |text: &str, first: &str, next: &str| {
        let options = textwrap::Options::new(WORKING_WIDTH).initial_indent(first).subsequent_indent(next);
        for line in textwrap::wrap(text, options) {
            say!("{line}");
        }
    };
    indented(&why.rule, "    ", "      ");
    let inputs: Vec<String> = why.inputs.iter().map(|(name, value)| format!("{name} = {value}")).collect();
    if !inputs.is_empty() {
        indented(&inputs.join("; "), "      ", "      ");
    }
    indented(&format!("source: {}", why.source), "      ", "        ");
}

/// What the reader must know of figures that rest on no document.
fn print_standings(standings: impl Iterator<Item = Standing>) {
    let standings: Vec<Standing> = standings.collect();
    say!("");
    for (standing, words) in [
        (Standing::FromMemory, "a publication is named, but the value was not read in it; check it there first"),
        (Standing::CommonPractice, "no source; an agency puts its own value in its rule file"),
    ] {
        let count = standings.iter().filter(|found| **found == standing).count();
        if count > 0 {
            say!("{count} of {} rest on {}: {words}.", standings.len(), standing.words());
        }
    }
}

#[cfg(test)]
mod tests {
    use super::range;

    #[test]
    fn a_range_names_its_unit_once() {
        assert_eq!(range("0.19 m3", "0.40 m3"), "0.19 to 0.40 m3");
        assert_eq!(range("2", "3"), "2 to 3");
        assert_eq!(range("950 g", "1.1 kg"), "950 g to 1.1 kg");
    }
}
