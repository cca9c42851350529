//! Open formats in and out: text files become the typed words of `model`, with every fault said by file, line and
//! column.
//!
//! [`district`] reads the district file, [`holes`] the lists of holes, [`growth_records`] how they turned out, [`rules`]
//! the rule sets, [`road_files`] the roads, [`soil_files`] tests of the base, [`forecast`] the weather to come and
//! [`so_far`] how far the crews are. The only crate that reads files; computes nothing of the trade.

pub mod district;
pub mod forecast;
pub mod growth_records;
pub mod heights;
pub mod holes;
pub mod input_file;
pub mod limits;
pub mod lives;
pub mod measure;
pub mod number_list;
pub mod quantity_text;
pub mod record;
pub mod road_cache;
pub mod road_files;
pub mod rules;
pub mod so_far;
pub mod soil_files;
mod suggest;
mod table;
pub mod text_file;
