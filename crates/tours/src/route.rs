//! One vehicle's route with the segments of all its beginnings and ends.

use crate::nodes::Nodes;
use crate::pieces::Piece;

#[derive(Debug, Clone)]
pub(crate) struct Route<S> {
    pub(crate) vehicle: usize,
    /// Start, stops, end.
    pub(crate) nodes: Vec<u32>,
    /// Place of each node.
    pub(crate) places: Vec<u32>,
    /// Distance from each node to the next.
    pub(crate) gaps: Vec<i32>,
    /// Segment from the start to each node; of a rule without position only the whole route's.
    pub(crate) before: Vec<S>,
    /// Segment from each node to the end.
    pub(crate) after: Vec<S>,
    /// Number of visits; 0: the vehicle stays where it is and costs nothing.
    pub(crate) visits: usize,
    pub(crate) distance: i64,
    /// What the pieces charge.
    pub(crate) price: i64,
    pub(crate) cost: i64,
}

impl<S: Copy> Route<S> {
    pub(crate) fn new<P: Piece<Segment = S>>(nodes: &Nodes<'_>, piece: &P, vehicle: usize) -> Self {
        let mut route = Self {
            vehicle,
            nodes: vec![nodes.start(vehicle), nodes.end(vehicle)],
            places: Vec::new(),
            gaps: Vec::new(),
            before: Vec::new(),
            after: Vec::new(),
            visits: 0,
            distance: 0,
            price: 0,
            cost: 0,
        };
        route.update(nodes, piece);
        route
    }

    /// Another vehicle takes the same stops. `update` must follow.
    pub(crate) fn set_vehicle(&mut self, nodes: &Nodes<'_>, vehicle: usize) {
        self.vehicle = vehicle;
        self.nodes[0] = nodes.start(vehicle);
        *self.nodes.last_mut().expect("start and end") = nodes.end(vehicle);
    }

    /// Everything but vehicle and nodes, computed from these.
    pub(crate) fn update<P: Piece<Segment = S>>(&mut self, nodes: &Nodes<'_>, piece: &P) {
        let (vehicle, length) = (self.vehicle, self.nodes.len());
        self.places.clear();
        self.places.extend(self.nodes.iter().map(|&node| nodes.place[node as usize]));
        let distance = &nodes.ways(vehicle).distance;
        self.gaps.clear();
        self.gaps.extend(self.places.windows(2).map(|pair| distance.get(pair[0] as usize, pair[1] as usize)));
        self.distance = self.gaps.iter().map(|&gap| i64::from(gap)).sum();
        self.visits = self.nodes.iter().filter(|&&node| nodes.is_visit(node)).count();
        self.before.clear();
        self.after.clear();
        let mut segment = piece.node(vehicle, self.nodes[0]);
        if P::POSITIONAL {
            self.before.push(segment);
        }
        for pair in self.nodes.windows(2) {
            segment = piece.join(vehicle, &segment, (pair[0], pair[1]), &piece.node(vehicle, pair[1]));
            if P::POSITIONAL {
                self.before.push(segment);
            }
        }
        let mut whole = segment;
        if P::POSITIONAL {
            self.after.resize(length, whole);
            let mut segment = piece.node(vehicle, self.nodes[length - 1]);
            self.after[length - 1] = segment;
            for index in (0..length - 1).rev() {
                let joint = (self.nodes[index], self.nodes[index + 1]);
                segment = piece.join(vehicle, &piece.node(vehicle, joint.0), joint, &segment);
                self.after[index] = segment;
            }
            if !piece.allows(vehicle, &whole) {
                whole = self.joined_elsewhere(piece).unwrap_or(whole);
                self.before[length - 1] = whole;
            }
        } else {
            self.before.push(whole);
        }
        self.price = piece.price(vehicle, &whole);
        self.cost = self.full_cost(nodes);
    }

    /// The whole route joined in its midst, where that holds. A piece that forgets some choices on the way from the start may
    /// still have them when two stretches join, as it had when the last change was judged.
    fn joined_elsewhere<P: Piece<Segment = S>>(&self, piece: &P) -> Option<S> {
        let join = |index: usize| {
            let joint = (self.nodes[index], self.nodes[index + 1]);
            piece.join(self.vehicle, &self.before[index], joint, &self.after[index + 1])
        };
        let whole = (0..self.nodes.len() - 1).map(join).filter(|whole| piece.allows(self.vehicle, whole));
        whole.min_by_key(|whole| piece.price(self.vehicle, whole))
    }

    fn full_cost(&self, nodes: &Nodes<'_>) -> i64 {
        if self.visits == 0 {
            return 0;
        }
        let vehicle = &nodes.problem.vehicles[self.vehicle];
        vehicle.fixed_cost + vehicle.distance_cost * self.distance + self.price
    }

    #[inline]
    pub(crate) fn whole(&self) -> &S {
        self.before.last().expect("a route has nodes")
    }

    /// Does the route hold, and is there a way from each node to the next?
    pub(crate) fn holds<P: Piece<Segment = S>>(&self, piece: &P) -> bool {
        self.visits == 0
            || (self.gaps.iter().all(|&gap| gap <= crate::Matrix::GREATEST) && piece.allows(self.vehicle, self.whole()))
    }
}
