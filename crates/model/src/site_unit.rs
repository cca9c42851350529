//! What a crew counts in on the site: wheelbarrows, buckets, cans.

use serde::Deserialize;

use crate::figure::{Figure, Spread};
use crate::quantity::Volume;

/// Something that goods are carried in.
#[derive(Debug, Clone, PartialEq)]
pub struct SiteUnit {
    /// Name of one, e.g. `wheelbarrow`.
    pub name: String,
    /// Name of several.
    pub plural: String,
    /// What one holds as it is filled in use.
    pub volume: Volume,
    /// What is carried in it.
    pub holds: Vec<SiteGood>,
}

/// Goods counted in site units; solids loose.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs)] // the words are the definition
pub enum SiteGood {
    Base,
    Water,
    Binder,
    CoverStone,
    Spoil,
}

/// An amount of one good in site units, counted up to whole ones.
#[derive(Debug, Clone, PartialEq)]
pub struct SiteCount {
    /// Of what.
    pub good: SiteGood,
    /// Name of one unit.
    pub name: String,
    /// Name of several.
    pub plural: String,
    /// What one holds.
    pub volume: Volume,
    /// How many.
    pub count: Figure<u32>,
}

impl SiteGood {
    /// All, in the order in which they are used.
    pub const ALL: [SiteGood; 5] =
        [SiteGood::Base, SiteGood::Water, SiteGood::Binder, SiteGood::CoverStone, SiteGood::Spoil];

    /// Its word in the district file.
    pub fn word(self) -> &'static str {
        match self {
            SiteGood::Base => "base",
            SiteGood::Water => "water",
            SiteGood::Binder => "binder",
            SiteGood::CoverStone => "cover_stone",
            SiteGood::Spoil => "spoil",
        }
    }

    /// Its name.
    pub fn words(self) -> &'static str {
        if self == SiteGood::CoverStone { "cover stone" } else { self.word() }
    }
}

impl SiteCount {
    /// `about 12 wheelbarrows, 9 to 17`: the median and what nine in ten and one in ten exceed; without a spread
    /// `12 wheelbarrows`.
    pub fn words(&self) -> String {
        let counted = |count: u32| format!("{count} {}", if count == 1 { &self.name } else { &self.plural });
        match self.count.spread {
            None => counted(self.count.value),
            Some(Spread { p10, p50, p90 }) if p10 == p90 => format!("about {}", counted(p50)),
            Some(Spread { p10, p50, p90 }) => format!("about {}, {p10} to {p90}", counted(p50)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figure::{Source, Why};
    use crate::quantity::litres;

    #[test]
    fn counts_read_as_a_crew_says_them() {
        let why = || Why::new("n = ceil(V / v)", Source::definition());
        let count = |count| SiteCount {
            good: SiteGood::Base,
            name: "barrow".into(),
            plural: "barrows".into(),
            volume: litres(60.0),
            count,
        };
        let spread = |p10, p50, p90| count(Figure::spread(10, Spread { p10, p50, p90 }, why())).words();
        assert_eq!(spread(9, 12, 17), "about 12 barrows, 9 to 17");
        assert_eq!(spread(1, 1, 2), "about 1 barrow, 1 to 2");
        assert_eq!(spread(2, 2, 2), "about 2 barrows");
        assert_eq!(count(Figure::exact(1, why())).words(), "1 barrow");
        assert_eq!(count(Figure::exact(0, why())).words(), "0 barrows");
    }
}
