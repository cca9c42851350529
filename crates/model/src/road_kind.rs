//! Kinds of road that plans learn of.

use serde::{Deserialize, Serialize};

use crate::quantity::InLength;
use crate::road::{RoadClass, RoadSection};

/// What the map tells of a road that bears on its repairs: its class, and whether it has a shoulder that traffic and water
/// may go on. Written as one word: `secondary`, `secondary_with_shoulder`, `secondary_without_shoulder`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct RoadKind {
    /// Its class.
    pub class: RoadClass,
    /// Whether it has a shoulder; `None`: the map does not tell.
    pub shoulder: Option<bool>,
}

/// A word that names no kind of road.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error(
    "{0:?} is no kind of road; a class such as `tertiary`, with `_with_shoulder` or `_without_shoulder` behind it or nothing"
)]
pub struct NoRoadKind(pub String);

const WITH: &str = "_with_shoulder";
const WITHOUT: &str = "_without_shoulder";

impl RoadKind {
    /// The kind of a section. A shoulder that is only its class's default is not told.
    pub fn of(section: &RoadSection) -> Self {
        let is_told = !section.defaulted.contains(&"shoulder");
        RoadKind { class: section.class, shoulder: is_told.then_some(section.shoulder.in_metres() > 0.0) }
    }

    /// The word for files.
    pub fn word(self) -> String {
        let shoulder = self.shoulder.map_or("", |has| if has { WITH } else { WITHOUT });
        format!("{}{shoulder}", self.class.word())
    }

    /// `tertiary roads without a shoulder`.
    pub fn words(self) -> String {
        let roads = match self.class {
            RoadClass::Motorway => "motorways".to_owned(),
            RoadClass::Track => "tracks".to_owned(),
            class => format!("{} roads", class.word()),
        };
        let shoulder = self.shoulder.map_or("", |has| if has { " with a shoulder" } else { " without a shoulder" });
        format!("{roads}{shoulder}")
    }
}

impl From<RoadKind> for String {
    fn from(kind: RoadKind) -> Self {
        kind.word()
    }
}

impl TryFrom<String> for RoadKind {
    type Error = NoRoadKind;

    fn try_from(word: String) -> Result<Self, NoRoadKind> {
        let (class, shoulder) = if let Some(class) = word.strip_suffix(WITHOUT) {
            (class, Some(false))
        } else if let Some(class) = word.strip_suffix(WITH) {
            (class, Some(true))
        } else {
            (word.as_str(), None)
        };
        let class = RoadClass::ALL.into_iter().find(|known| known.word() == class);
        class.map(|class| RoadKind { class, shoulder }).ok_or(NoRoadKind(word))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_is_read_as_it_is_written() {
        for class in RoadClass::ALL {
            for shoulder in [None, Some(false), Some(true)] {
                let kind = RoadKind { class, shoulder };
                assert_eq!(RoadKind::try_from(kind.word()), Ok(kind));
            }
        }
        for word in ["", "_with_shoulder", "tertiary_with", "lane"] {
            assert_eq!(RoadKind::try_from(word.to_owned()), Err(NoRoadKind(word.to_owned())));
        }
    }
}
