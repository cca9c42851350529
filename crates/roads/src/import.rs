//! Lines as a road file gives them -> sections that meet at nodes.

use model::place::LonLat;
use model::problem::{Problem, ProblemSeverity};
use model::quantity::{InLength, InVelocity, Length, metres};
use model::road::{NodeId, RawLine, RawRestriction, RoadNetwork, RoadSection, SectionId};

use crate::geodesic::{distance, is_on_globe};
use crate::junctions::{DisjointSets, Joints, find_joints};
use crate::restrictions::find_turns;

/// Points nearer than this to each other are one junction, where the format does not say which points are.
pub const DEFAULT_JOINING_TOLERANCE_M: f64 = 0.05;

/// [`network_from_lines_within`] the [default tolerance](DEFAULT_JOINING_TOLERANCE_M).
pub fn network_from_lines(lines: Vec<RawLine>) -> (RoadNetwork, Vec<Problem>) {
    network_from_lines_within(lines, metres(DEFAULT_JOINING_TOLERANCE_M))
}

/// [`network_from_lines`], with the restrictions of turns between those lines. A restriction that can't be placed on the
/// sections is left out with a problem.
pub fn network_with_restrictions(lines: Vec<RawLine>, restrictions: &[RawRestriction]) -> (RoadNetwork, Vec<Problem>) {
    let (mut network, nodes, mut problems) = cut_lines(lines, metres(DEFAULT_JOINING_TOLERANCE_M));
    let (turns, refused) = find_turns(&network, &nodes, restrictions);
    network.restrictions = turns;
    problems.extend(refused);
    (network, problems)
}

/// Cuts lines into sections at their junctions.
///
/// Lines with keys meet where a key is shared by two lines or used twice by one. Lines without keys meet where their
/// ends lie within `tolerance` of each other or of a vertex of a line; vertices that coincide without an end
/// there may be a bridge and do not meet. Pieces without length vanish, their ends become one node. Sections come in
/// the order of the lines, nodes in the order they first occur. A line that can't be used is refused with a problem;
/// the others go on. `tolerance` that is negative or not finite counts as zero.
pub fn network_from_lines_within(lines: Vec<RawLine>, tolerance: Length) -> (RoadNetwork, Vec<Problem>) {
    let (network, _, problems) = cut_lines(lines, tolerance);
    (network, problems)
}

/// Which node is at which key.
pub(crate) struct NodeOfKey {
    /// Rising.
    keys: Vec<u64>,
    /// For each of them; `None` where only lines without length met.
    nodes: Vec<Option<NodeId>>,
}

impl NodeOfKey {
    /// The node at a key; `None` where no section begins or ends.
    pub fn get(&self, key: u64) -> Option<NodeId> {
        self.nodes[self.keys.binary_search(&key).ok()?]
    }
}

fn cut_lines(lines: Vec<RawLine>, tolerance: Length) -> (RoadNetwork, NodeOfKey, Vec<Problem>) {
    let tolerance_m = Some(tolerance.in_metres()).filter(|t| t.is_finite() && *t > 0.0).unwrap_or(0.0);
    let mut problems = Vec::new();
    let mut lines: Vec<RawLine> = lines
        .into_iter()
        .filter(|line| match fault(line) {
            Some(fault) => {
                problems.push(fault.into_problem(line));
                false
            }
            None => true,
        })
        .collect();
    let joints = find_joints(&lines, tolerance_m);
    let mut pieces: Vec<Piece> = Vec::new();
    let mut same = DisjointSets::new(joints.count);
    for (number, line) in lines.iter_mut().enumerate() {
        let before = pieces.len();
        for piece in cut(number, line, &joints.of_lines[number]) {
            if piece.length.in_metres() > if line.node_keys.is_some() { 0.0 } else { tolerance_m } {
                pieces.push(piece);
            } else {
                same.unite(piece.from, piece.to);
            }
        }
        if pieces.len() == before {
            problems.push(without_length(line));
        }
        // The pieces have the points now.
        (line.points, line.node_keys) = (Vec::new(), None);
    }
    let (network, nodes) = number_nodes(&lines, pieces, &mut same, joints);
    (network, nodes, problems)
}

/// A part of a line between two joints.
struct Piece {
    line: usize,
    from: usize,
    to: usize,
    points: Vec<LonLat>,
    length: Length,
}

fn cut(number: usize, line: &RawLine, joints: &[Option<usize>]) -> Vec<Piece> {
    let mut pieces = Vec::new();
    let mut start = 0;
    for end in 1..line.points.len() {
        let (Some(from), Some(to)) = (joints[start], joints[end]) else { continue };
        let mut points = line.points[start..=end].to_vec();
        points.dedup();
        let length = length_of(&points);
        pieces.push(Piece { line: number, from, to, points, length });
        start = end;
    }
    pieces
}

fn length_of(points: &[LonLat]) -> Length {
    points.windows(2).map(|pair| distance(pair[0], pair[1])).sum()
}

/// Gives joints their node numbers and places, and pulls the ends of the sections onto their nodes.
fn number_nodes(
    lines: &[RawLine],
    pieces: Vec<Piece>,
    same: &mut DisjointSets,
    joints: Joints,
) -> (RoadNetwork, NodeOfKey) {
    let mut node_of: Vec<Option<NodeId>> = vec![None; joints.count];
    let mut network = RoadNetwork::default();
    for mut piece in pieces {
        let last = piece.points.len() - 1;
        let [from, to] = [(piece.from, 0), (piece.to, last)].map(|(joint, index)| {
            let slot = &mut node_of[same.find(joint)];
            *slot.get_or_insert_with(|| {
                network.nodes.push(piece.points[index]);
                NodeId(network.nodes.len() as u32 - 1)
            })
        });
        let ends = [network.nodes[from.0 as usize], network.nodes[to.0 as usize]];
        if ends != [piece.points[0], piece.points[last]] {
            (piece.points[0], piece.points[last]) = (ends[0], ends[1]);
            piece.length = length_of(&piece.points);
        }
        let line = &lines[piece.line];
        let attributes = line.attributes.clone();
        network.sections.push(RoadSection {
            id: SectionId(network.sections.len() as u32),
            source_id: line.source_id.clone(),
            from,
            to,
            line: piece.points,
            length: piece.length,
            class: attributes.class,
            name: attributes.name,
            number: attributes.number,
            speed: attributes.speed,
            lanes: attributes.lanes,
            width: attributes.width,
            shoulder: attributes.shoulder,
            flow: attributes.flow,
            surface: attributes.surface,
            vehicles_per_day: attributes.vehicles_per_day,
            setting: attributes.setting,
            structure: attributes.structure,
            roundabout: attributes.roundabout,
            truck: attributes.truck,
            defaulted: attributes.defaulted,
        });
    }
    let nodes = (0..joints.keys.len()).map(|joint| node_of[same.find(joint)]).collect();
    (network, NodeOfKey { keys: joints.keys, nodes })
}

/// What is wrong with a line, and what would be right.
struct Fault {
    code: &'static str,
    wrong: String,
    right: &'static str,
}

impl Fault {
    fn into_problem(self, line: &RawLine) -> Problem {
        Problem {
            code: self.code,
            severity: ProblemSeverity::Refused,
            at: line.at.clone(),
            subject: line.source_id.clone(),
            wrong: self.wrong,
            right: self.right.to_owned(),
        }
    }
}

fn without_length(line: &RawLine) -> Problem {
    Problem {
        severity: ProblemSeverity::Warning,
        ..Fault {
            code: "road.line.no_length",
            wrong: "the road has no length; its ends are joined".to_owned(),
            right: "a road needs two different points",
        }
        .into_problem(line)
    }
}

fn fault(line: &RawLine) -> Option<Fault> {
    line_fault(line).or_else(|| attribute_fault(line))
}

fn line_fault(line: &RawLine) -> Option<Fault> {
    if line.points.len() < 2 {
        let wrong = format!("the road has {} point(s)", line.points.len());
        return Some(Fault { code: "road.line.too_short", wrong, right: "a road needs at least two points" });
    }
    if let Some((index, place)) = line.points.iter().enumerate().find(|(_, place)| !is_on_globe(**place)) {
        let wrong = format!("point {} is at longitude {}, latitude {}", index + 1, place.lon, place.lat);
        let right = "longitude must be within -180 to 180 degrees, latitude within -90 to 90";
        return Some(Fault { code: "road.line.off_globe", wrong, right });
    }
    let keys = line.node_keys.as_ref().map_or(line.points.len(), Vec::len);
    if keys != line.points.len() {
        let wrong = format!("{keys} point keys for {} points", line.points.len());
        return Some(Fault { code: "road.line.keys", wrong, right: "each point needs one key" });
    }
    None
}

fn attribute_fault(line: &RawLine) -> Option<Fault> {
    let attributes = &line.attributes;
    let speed = attributes.speed.in_kilometres_per_hour();
    if !(speed.is_finite() && speed > 0.0) {
        let wrong = format!("the speed is {speed} km/h");
        return Some(Fault { code: "road.speed", wrong, right: "a speed must be a number above 0" });
    }
    for (name, length) in [("width", attributes.width), ("shoulder", attributes.shoulder)] {
        let value = length.in_metres();
        if !(value.is_finite() && value >= 0.0) {
            let wrong = format!("the {name} is {value} m");
            return Some(Fault { code: "road.width", wrong, right: "a width must be a number of metres, 0 or more" });
        }
    }
    if let Some(flow) = attributes.vehicles_per_day.filter(|flow| !(flow.is_finite() && *flow >= 0.0)) {
        let wrong = format!("the traffic is {flow} vehicles a day");
        return Some(Fault { code: "road.traffic", wrong, right: "traffic must be a number, 0 or more, or left out" });
    }
    None
}
