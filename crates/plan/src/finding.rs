//! Words by which a driver finds a section's ends: the roads that meet there.

use std::collections::BTreeSet;

use model::road::{NodeId, RoadNetwork, SectionId};

/// The two ends of a section in words: where its chainage counts from, and towards what.
pub(crate) fn ends(network: &RoadNetwork, meeting: &Meeting, section: SectionId) -> (String, String) {
    let section = network.section(section);
    let words = |node| meeting.words(network, node, section.id);
    (words(section.from), words(section.to))
}

/// Which sections meet at each node.
pub(crate) struct Meeting(Vec<Vec<SectionId>>);

impl Meeting {
    pub fn of(network: &RoadNetwork) -> Self {
        let mut at = vec![Vec::new(); network.nodes.len()];
        for section in &network.sections {
            at[section.from.0 as usize].push(section.id);
            at[section.to.0 as usize].push(section.id);
        }
        Meeting(at)
    }

    fn words(&self, network: &RoadNetwork, node: NodeId, own: SectionId) -> String {
        let here = &self.0[node.0 as usize];
        let others: BTreeSet<String> = here
            .iter()
            .filter(|&&other| other != own)
            .map(|&other| network.section(other))
            .filter(|other| !other.name.is_empty() || !other.number.is_empty())
            .map(model::road::RoadSection::label)
            .collect();
        let own_label = network.section(own).label();
        let named = others.iter().find(|label| **label != own_label).or_else(|| others.first());
        let place = network.nodes[node.0 as usize];
        let degrees = format!("{:.5}, {:.5}", place.lat, place.lon);
        match (named, here.len()) {
            (_, 1) => format!("the road's end at {degrees}"),
            (Some(label), _) if *label == own_label => format!("the junction at {degrees}"),
            (Some(label), _) => format!("the junction with {label}"),
            (None, _) => format!("the junction at {degrees}"),
        }
    }
}
