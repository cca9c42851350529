//! Values of a hole and its road as flags give them, held against the same limits as a file's.

use exchange::holes::{Dimension, read_size};
use exchange::limits::believed;
use model::problem::Locator;
use model::quantity::Length;

pub(crate) fn length(text: &str) -> Result<Length, String> {
    size(Dimension::Length, text)
}

pub(crate) fn width(text: &str) -> Result<Length, String> {
    size(Dimension::Width, text)
}

pub(crate) fn depth(text: &str) -> Result<Length, String> {
    size(Dimension::Depth, text)
}

/// A size with the same limits as a cell of a hole list.
fn size(dimension: Dimension, text: &str) -> Result<Length, String> {
    read_size(dimension, text, &Locator::default()).map_err(|problem| format!("{}; {}", problem.wrong, problem.right))
}

pub(crate) fn vehicles_per_day(text: &str) -> Result<f64, String> {
    let count = text.parse().map_err(|_| "write a number of vehicles".to_owned())?;
    believed("road", "vehicles_per_day", "vehicles a day", count).map(|()| count)
}
