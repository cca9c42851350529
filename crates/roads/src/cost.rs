//! What driving costs: time first, and of equally fast ways the length.

/// Milliseconds and length in one number, ordered by time and then by length; sums add both.
///
/// The upper bits hold milliseconds, the lower [`LENGTH_BITS`] the length in a unit of the network's own, chosen so that no
/// way in it fills them. A plain number is what makes sweeping over many ways at once fast.
pub(crate) type Cost = u64;

/// No way leads there. Two of them still add up without running over.
pub(crate) const UNREACHABLE: Cost = 1 << 62;

const LENGTH_BITS: u32 = 33;

/// No section takes longer than this, three days: sums of a few stay below [`UNREACHABLE`], which is at six days.
const GREATEST_SECTION_MS: f64 = (1 << 28) as f64;

/// The finest unit of length, a micrometre: the networks are not better known.
const MOST_UNITS_PER_METRE: f64 = 1e6;

/// Turns times and lengths into costs and back.
#[derive(Debug, Clone, Copy)]
pub(crate) struct CostScale {
    units_per_metre: f64,
}

impl CostScale {
    /// For a network of that length in all.
    pub fn new(network_m: f64) -> Self {
        // A way drives a section once each way at most; two ways are added at most before they are compared.
        let most = (1_u64 << LENGTH_BITS) as f64 / (4.0 * network_m.max(1.0));
        CostScale { units_per_metre: most.min(MOST_UNITS_PER_METRE) }
    }

    /// At least a millisecond for a section that is driven at all: a way with no time would make ties of ways that differ.
    pub fn section(self, ms: f64, metres: f64) -> Cost {
        self.cost(ms.clamp(1.0, GREATEST_SECTION_MS), metres)
    }

    /// Of a part of a section.
    pub fn part(self, ms: f64, metres: f64) -> Cost {
        self.cost(ms.clamp(0.0, GREATEST_SECTION_MS), metres)
    }

    fn cost(self, ms: f64, metres: f64) -> Cost {
        ((ms.round() as u64) << LENGTH_BITS) + (metres * self.units_per_metre).round() as u64
    }

    /// Metres of a cost.
    pub fn metres(self, cost: Cost) -> f64 {
        (cost & ((1 << LENGTH_BITS) - 1)) as f64 / self.units_per_metre
    }
}

/// Milliseconds of a cost.
pub(crate) fn milliseconds(cost: Cost) -> u32 {
    (cost >> LENGTH_BITS) as u32
}
