//! Which points of the lines are junctions: shared by key, or coinciding.

use model::road::RawLine;
use rstar::RTree;
use rstar::primitives::GeomWithData;

use crate::geodesic::geocentric;

/// For each line, for each of its points: the joint it is, or `None` for a point between joints. The ends of a line
/// are always joints. Joints are numbered from 0, not in any useful order.
pub(crate) struct Joints {
    pub of_lines: Vec<Vec<Option<usize>>>,
    /// The keys that are joints, rising; the joint at a key has the number of its place here.
    pub keys: Vec<u64>,
    pub count: usize,
}

/// Finds the joints. Lines with keys meet where a key occurs more than once; lines without meet where their ends lie
/// within the tolerance of each other, or of a vertex of a line.
pub(crate) fn find_joints(lines: &[RawLine], tolerance_m: f64) -> Joints {
    let of_lines = lines.iter().map(|line| vec![None; line.points.len()]).collect();
    let mut joints = Joints { of_lines, keys: Vec::new(), count: 0 };
    join_by_key(lines, &mut joints);
    join_by_place(lines, tolerance_m, &mut joints);
    joints
}

fn join_by_key(lines: &[RawLine], joints: &mut Joints) {
    // Sorted rather than in a map: a large country has a hundred million of them.
    let mut uses: Vec<u64> = Vec::new();
    for keys in lines.iter().filter_map(|line| line.node_keys.as_ref()) {
        for (index, key) in keys.iter().enumerate() {
            // A point said twice in a row is one point.
            let repeated = index > 0 && keys[index - 1] == *key;
            let end = index == 0 || index + 1 == keys.len();
            // An end is a joint even when nothing else is there.
            let count = usize::from(!repeated) + usize::from(end);
            uses.extend(std::iter::repeat_n(*key, count));
        }
    }
    uses.sort_unstable();
    let mut shared: Vec<u64> = uses.windows(2).filter(|pair| pair[0] == pair[1]).map(|pair| pair[0]).collect();
    drop(uses);
    shared.dedup();
    for (line, found) in lines.iter().zip(&mut joints.of_lines) {
        let Some(keys) = &line.node_keys else { continue };
        for (key, slot) in keys.iter().zip(found) {
            *slot = shared.binary_search(key).ok();
        }
    }
    joints.count = shared.len();
    joints.keys = shared;
}

fn join_by_place(lines: &[RawLine], tolerance_m: f64, joints: &mut Joints) {
    let keyless = || lines.iter().enumerate().filter(|(_, line)| line.node_keys.is_none());
    let ends: Vec<[f64; 3]> =
        keyless().flat_map(|(_, line)| [line.points[0], line.points[line.points.len() - 1]]).map(geocentric).collect();
    let tree = RTree::bulk_load(ends.iter().enumerate().map(|(i, p)| GeomWithData::new(*p, i)).collect());
    let reach2 = tolerance_m * tolerance_m;
    let mut groups = DisjointSets::new(ends.len());
    for (index, end) in ends.iter().enumerate() {
        for other in tree.locate_within_distance(*end, reach2) {
            groups.unite(index, other.data);
        }
    }
    let first = joints.count;
    joints.count += ends.len();
    for (rank, (number, line)) in keyless().enumerate() {
        let last = line.points.len() - 1;
        for (index, point) in line.points.iter().enumerate() {
            let group = if index == 0 {
                Some(groups.find(2 * rank))
            } else if index == last {
                Some(groups.find(2 * rank + 1))
            } else {
                // The nearest end decides; of equally near ones the earliest, so that the order of the tree is no matter.
                tree.nearest_neighbor_iter_with_distance_2(geocentric(*point))
                    .take_while(|(_, distance2)| *distance2 <= reach2)
                    .map(|(end, distance2)| (distance2, end.data))
                    .min_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)))
                    .map(|(_, end)| groups.find(end))
            };
            joints.of_lines[number][index] = group.map(|g| first + g);
        }
    }
}

/// Sets that can be united; the representative of a set is its smallest member, so results do not depend on order.
pub(crate) struct DisjointSets {
    parent: Vec<usize>,
}

impl DisjointSets {
    pub fn new(count: usize) -> Self {
        DisjointSets { parent: (0..count).collect() }
    }

    /// The smallest member of the set.
    pub fn find(&mut self, member: usize) -> usize {
        let mut root = member;
        while self.parent[root] != root {
            root = self.parent[root];
        }
        let mut walk = member;
        while self.parent[walk] != root {
            walk = std::mem::replace(&mut self.parent[walk], root);
        }
        root
    }

    pub fn unite(&mut self, a: usize, b: usize) {
        let (a, b) = (self.find(a), self.find(b));
        let (small, large) = (a.min(b), a.max(b));
        self.parent[large] = small;
    }
}
