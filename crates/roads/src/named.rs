//! A road found by its name: its sections end to end, with one chainage through all of them.

use std::collections::BTreeMap;

use model::place::Travel;
use model::quantity::{InLength, Length, metres};
use model::road::{NodeId, RoadNetwork, RoadSection, SectionId};
use thiserror::Error;

/// A road's sections, end to end.
#[derive(Debug, Clone, PartialEq)]
pub struct NamedRoad {
    /// In the order of the road's chainage, without gaps.
    pub pieces: Vec<NamedPiece>,
}

/// One section of a named road.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NamedPiece {
    /// The section.
    pub section: SectionId,
    /// Where it begins on the road.
    pub from: Length,
    /// Where it ends.
    pub to: Length,
    /// Whether the section's own chainage grows or falls as the road's grows.
    pub direction: Travel,
}

/// Part of a section, in the section's own chainage.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SectionStretch {
    /// The section.
    pub section: SectionId,
    /// Smaller chainage.
    pub from: Length,
    /// Larger chainage.
    pub to: Length,
    /// Whether the section's own chainage grows or falls as the road's grows.
    pub direction: Travel,
}

/// Why a road or a stretch of it can't be found.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum NamedRoadError {
    /// No section has that identifier, name or number.
    #[error("no road has that identifier, name or number")]
    Unknown,
    /// The sections of that name form no single line: they fork or lie apart.
    #[error("{} sections have that name and form no single line, so that it has no chainage", .0.len())]
    NotOneLine(Vec<SectionId>),
    /// The stretch is not on the road.
    #[error("the road goes from 0 to {:.0} m", .0.in_metres())]
    Beyond(Length),
    /// The stretch goes over an end of a section, that is a junction or a change of the road.
    #[error("the road's sections meet at {:.0} m, between the two", .0.in_metres())]
    OverSectionsEnd(Length),
}

impl NamedRoad {
    /// The road of that identifier (as in the road data), name or number, letters in either case; chainage 0 is at the end
    /// where more sections begin by their own chainage, of two alike at the node of the smaller number.
    ///
    /// # Errors
    /// No such road, or one that is no single line.
    pub fn find(network: &RoadNetwork, name: &str) -> Result<Self, NamedRoadError> {
        let wanted = name.trim().to_lowercase();
        let is_it = |text: &str| !text.is_empty() && text.to_lowercase() == wanted;
        let by_id: Vec<&RoadSection> = network.sections.iter().filter(|section| is_it(&section.source_id)).collect();
        let by_name = || {
            let has =
                |section: &&RoadSection| is_it(&section.name) || is_it(&section.number) || is_it(&section.label());
            network.sections.iter().filter(has).collect()
        };
        let sections = if by_id.is_empty() { by_name() } else { by_id };
        if sections.is_empty() {
            return Err(NamedRoadError::Unknown);
        }
        let line = end_to_end(&sections);
        let line =
            line.ok_or_else(|| NamedRoadError::NotOneLine(sections.iter().map(|section| section.id).collect()))?;
        Ok(NamedRoad { pieces: measured(line) })
    }

    /// Length of the road.
    pub fn length(&self) -> Length {
        self.pieces.last().map_or(metres(0.0), |piece| piece.to)
    }

    /// A stretch of the road, by its chainage, on the one section that it lies on.
    ///
    /// # Errors
    /// The stretch leaves the road, or goes over a section's end.
    pub fn stretch(&self, from: Length, to: Length) -> Result<SectionStretch, NamedRoadError> {
        let (from, to) = if from <= to { (from, to) } else { (to, from) };
        if !(from >= metres(0.0) && to <= self.length()) {
            return Err(NamedRoadError::Beyond(self.length()));
        }
        let piece = self.pieces.iter().find(|piece| from >= piece.from && from < piece.to).or(self.pieces.last());
        let piece = piece.ok_or(NamedRoadError::Unknown)?;
        if to > piece.to {
            return Err(NamedRoadError::OverSectionsEnd(piece.to));
        }
        let (from, to) = match piece.direction {
            Travel::Forward => (from - piece.from, to - piece.from),
            Travel::Backward => (piece.to - to, piece.to - from),
        };
        Ok(SectionStretch { section: piece.section, from, to, direction: piece.direction })
    }
}

/// The sections in one line; `None` where they fork, close or lie apart.
fn end_to_end<'s>(sections: &[&'s RoadSection]) -> Option<Vec<(&'s RoadSection, Travel)>> {
    let mut at: BTreeMap<NodeId, Vec<usize>> = BTreeMap::new();
    for (index, section) in sections.iter().enumerate() {
        at.entry(section.from).or_default().push(index);
        at.entry(section.to).or_default().push(index);
    }
    let mut ends = at.iter().filter(|(_, meeting)| meeting.len() == 1).map(|(node, _)| *node);
    let (first, second, more) = (ends.next()?, ends.next()?, ends.next());
    if more.is_some() || at.values().any(|meeting| meeting.len() > 2) {
        return None;
    }
    let from_first = walk(first, sections, &at);
    if from_first.len() < sections.len() {
        return None;
    }
    let forward = from_first.iter().filter(|(_, direction)| *direction == Travel::Forward).count();
    Some(if 2 * forward >= sections.len() { from_first } else { walk(second, sections, &at) })
}

fn walk<'s>(
    start: NodeId,
    sections: &[&'s RoadSection],
    at: &BTreeMap<NodeId, Vec<usize>>,
) -> Vec<(&'s RoadSection, Travel)> {
    let mut line = Vec::new();
    let mut walked = vec![false; sections.len()];
    let mut here = start;
    while let Some(&index) = at[&here].iter().find(|&&index| !walked[index]) {
        walked[index] = true;
        let section = sections[index];
        let (direction, next) =
            if section.from == here { (Travel::Forward, section.to) } else { (Travel::Backward, section.from) };
        line.push((section, direction));
        here = next;
    }
    line
}

fn measured(line: Vec<(&RoadSection, Travel)>) -> Vec<NamedPiece> {
    let mut from = metres(0.0);
    let piece = |(section, direction): (&RoadSection, Travel)| {
        let begins = from;
        from += section.length;
        NamedPiece { section: section.id, from: begins, to: from, direction }
    };
    line.into_iter().map(piece).collect()
}
