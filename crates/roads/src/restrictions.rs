//! Restrictions of turns, from the road file's own identifiers onto sections.

use std::collections::BTreeMap;

use model::place::Travel;
use model::problem::{Problem, ProblemSeverity};
use model::road::{NodeId, RawRestriction, RawVia, RoadNetwork, SectionId, TurnRestriction};

use crate::import::NodeOfKey;
use crate::routing::allows;

/// So many sections a restriction may lead over; the open map's own are of a few.
const LONGEST_PATH: usize = 30;

/// So many steps are looked for at most: lines that run over themselves could be followed in endlessly many ways.
const MOST_STEPS: usize = 10_000;

/// A section driven one way.
type Driven = (SectionId, Travel);

/// The restrictions on sections, and those that can't be placed.
pub(crate) fn find_turns(
    network: &RoadNetwork,
    nodes: &NodeOfKey,
    restrictions: &[RawRestriction],
) -> (Vec<TurnRestriction>, Vec<Problem>) {
    let lines = Lines::new(network);
    let (mut turns, mut problems) = (Vec::new(), Vec::new());
    for restriction in restrictions {
        match lines.paths(restriction, nodes) {
            Ok(paths) => turns.extend(paths.into_iter().map(|path| TurnRestriction {
                source_id: restriction.source_id.clone(),
                rule: restriction.rule,
                holds_for: restriction.holds_for,
                path,
            })),
            Err(fault) => problems.push(fault.into_problem(restriction)),
        }
    }
    (turns, problems)
}

/// Why a restriction can't be placed.
enum Fault {
    NotJoined,
    Unclear,
}

impl Fault {
    fn into_problem(self, restriction: &RawRestriction) -> Problem {
        let (code, wrong, right) = match self {
            Fault::NotJoined => (
                "road.restriction.not_joined",
                "no way that traffic may drive leads from its first member over its via to its last",
                "members that meet at the via, in the directions of traffic; it is not obeyed",
            ),
            Fault::Unclear => (
                "road.restriction.unclear",
                "a member goes on beyond the via, so that more than one turn could be meant",
                "ways that end at the via; it is not obeyed",
            ),
        };
        Problem {
            code,
            severity: ProblemSeverity::Warning,
            at: restriction.at.clone(),
            subject: format!("restriction {}", restriction.source_id),
            wrong: wrong.to_owned(),
            right: right.to_owned(),
        }
    }
}

/// The ways found so far.
#[derive(Default)]
struct Found {
    paths: Vec<Vec<Driven>>,
    steps: usize,
}

impl Found {
    /// It is clear that it is not clear.
    fn enough(&self) -> bool {
        self.paths.len() > 1 || self.steps > MOST_STEPS
    }
}

/// The sections of each line.
struct Lines<'n> {
    network: &'n RoadNetwork,
    sections: BTreeMap<&'n str, Vec<SectionId>>,
}

impl<'n> Lines<'n> {
    fn new(network: &'n RoadNetwork) -> Self {
        let mut sections: BTreeMap<&str, Vec<SectionId>> = BTreeMap::new();
        for section in &network.sections {
            sections.entry(&section.source_id).or_default().push(section.id);
        }
        Lines { network, sections }
    }

    /// The paths of a restriction: one for each pair of its first and last members.
    fn paths(&self, restriction: &RawRestriction, nodes: &NodeOfKey) -> Result<Vec<Vec<Driven>>, Fault> {
        let mut paths = Vec::new();
        for from in &restriction.from {
            for to in &restriction.to {
                paths.extend(match &restriction.via {
                    RawVia::Point(key) => {
                        let node = nodes.get(*key).ok_or(Fault::NotJoined)?;
                        self.over_node(from, node, to, restriction.turns_round)?
                    }
                    RawVia::Lines(via) => vec![self.over_lines(from, via, to)?],
                });
            }
        }
        Ok(paths)
    }

    fn over_node(&self, from: &str, node: NodeId, to: &str, turns_round: bool) -> Result<Vec<Vec<Driven>>, Fault> {
        let arrivals: Vec<Driven> = self.driven(from).filter(|driven| self.head(*driven) == node).collect();
        let departures: Vec<Driven> = self.driven(to).filter(|driven| self.tail(*driven) == node).collect();
        if arrivals.is_empty() || departures.is_empty() {
            return Err(Fault::NotJoined);
        }
        if from == to && turns_round {
            let back = arrivals.iter().map(|&(section, travel)| vec![(section, travel), (section, travel.opposite())]);
            return Ok(back.filter(|path| departures.contains(&path[1])).collect());
        }
        match (&arrivals[..], &departures[..]) {
            ([arrival], [departure]) => Ok(vec![vec![*arrival, *departure]]),
            _ => Err(Fault::Unclear),
        }
    }

    /// The one way from the first line along the lines between to the last.
    fn over_lines(&self, from: &str, via: &[String], to: &str) -> Result<Vec<Driven>, Fault> {
        let mut found = Found::default();
        for start in self.driven(from) {
            self.follow(&mut vec![start], via, to, &mut found);
        }
        match (found.paths.len(), found.enough()) {
            (1, false) => Ok(found.paths.remove(0)),
            (0, false) => Err(Fault::NotJoined),
            _ => Err(Fault::Unclear),
        }
    }

    /// Goes on from the end of a path along the rest of the lines; no section is driven twice.
    fn follow(&self, path: &mut Vec<Driven>, rest: &[String], to: &str, found: &mut Found) {
        if path.len() > LONGEST_PATH || found.enough() {
            return;
        }
        found.steps += 1;
        let last = path[path.len() - 1];
        let here = self.head(last);
        let (onto, after): (&str, &[String]) = match rest {
            [next, after @ ..] => (next, after),
            [] => (to, &[]),
        };
        for next in self.driven(onto).filter(|next| self.tail(*next) == here) {
            if rest.is_empty() {
                // Turning back where one came from is another restriction's matter.
                if next.0 != last.0 {
                    found.paths.push(path.iter().copied().chain([next]).collect());
                }
                continue;
            }
            if path.iter().all(|driven| driven.0 != next.0) {
                path.push(next);
                self.along(path, onto, after, to, found);
                path.pop();
            }
        }
    }

    /// From the end of a path on line `on`: the next line from here, or further along this one first.
    fn along(&self, path: &mut Vec<Driven>, on: &str, rest: &[String], to: &str, found: &mut Found) {
        self.follow(path, rest, to, found);
        if path.len() > LONGEST_PATH || found.enough() {
            return;
        }
        let here = self.head(path[path.len() - 1]);
        let further: Vec<Driven> = self.driven(on).filter(|next| self.tail(*next) == here).collect();
        for next in further {
            if path.iter().all(|driven| driven.0 != next.0) {
                path.push(next);
                self.along(path, on, rest, to, found);
                path.pop();
            }
        }
    }

    /// The sections of a line, each way that traffic is allowed.
    fn driven(&self, line: &str) -> impl Iterator<Item = Driven> {
        let sections = self.sections.get(line).map_or(&[][..], Vec::as_slice);
        sections.iter().flat_map(|&section| {
            let flow = self.network.section(section).flow;
            [Travel::Forward, Travel::Backward]
                .into_iter()
                .filter(move |travel| allows(flow, *travel))
                .map(move |travel| (section, travel))
        })
    }

    fn head(&self, (section, travel): Driven) -> NodeId {
        let section = self.network.section(section);
        if travel == Travel::Forward { section.to } else { section.from }
    }

    fn tail(&self, (section, travel): Driven) -> NodeId {
        self.head((section, travel.opposite()))
    }
}
