//! Open formats in and out: text files become the typed words of `model`, with every fault said by file, line and
//! column.
//!
//! [`district`] reads the district file, [`holes`] the lists of holes, [`growth_records`] how they
//! turned out, [`rules`] the rule sets and [`road_files`] the
//! roads. The only crate that reads files; computes nothing of the trade.

pub mod district;
pub mod growth_records;
pub mod holes;
mod limits;
pub mod quantity_text;
pub mod road_files;
pub mod rules;
mod suggest;
mod text_file;
