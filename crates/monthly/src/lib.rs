//! A district's month from its record and books: one value, [`month_report`], its words in the reader's language, [`sheet`], and one
//! self-contained page of them, [`html()`].
//!
//! The report is worked out here and nowhere else; whoever prints it only places words and numbers. What the record does not
//! tell is said, not guessed. Pure: what the roads, the judge of holes and the books say is passed in.

mod budget_plot;
mod done;
mod html;
mod left;
mod names;
mod plots;
mod renewals;
mod report;
mod say;
mod stop;
mod table_csv;
mod table_parquet;
mod tables;
mod words;
mod workings;

pub use budget_plot::budget_svg;
pub use html::html;
pub use renewals::{Matters, choice, sites};
pub use report::{MonthFacts, month_report};
pub use tables::{CellKind, MonthCell, MonthColumn, MonthTable, month_tables};
pub use words::sheet;
