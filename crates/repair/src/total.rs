//! What several holes take together.
//!
//! Holes of one road grow alike when dug (same base, same age), and mean and spread of a pavement class are only believed,
//! the same for all its holes: errors do not cancel as they would between strangers. For hole `i`
//!
//! ```text
//! ln g_i = mu + sigma (sqrt(rho) z_road + sqrt(1 - rho) z_i)
//! ```
//!
//! with `mu` and `sigma` drawn from the belief about the class, `z_road` and `z_i` standard normal. A sum of rising
//! functions of such `g` has no closed form (`g` itself has no finite mean), so its quantiles are read from seeded draws.
//! For a single hole they are exact.

use std::array;
use std::collections::{BTreeMap, BTreeSet};

use belief::Belief;
use model::figure::{Figure, Spread, Why};
use model::quantity::{InVolume, cubic_metres, kilograms, litres, seconds};
use model::round::Demand;
use model::rules::repair::{GrowthRules, RepairRules};
use model::site_unit::SiteGood;
use model::total::Totals;
use rand::SeedableRng;
use rand_distr::{ChiSquared, Distribution, StandardNormal};
use rand_pcg::Pcg64Mcg;

use crate::growth::{Growth, SHOWN, belief_of};
use crate::growth_table::{GrowthTable, KINDS, Sums, sums};
use crate::input::RepairInput;
use crate::quantities::{Basis, at_quantile};
use crate::site_units::site_counts;

/// One cut of a sum.
#[derive(Debug, Clone)]
pub struct Part<'a> {
    /// The road it lies on, by any key: parts with the same key grow alike.
    pub road: usize,
    /// What its repair is worked out from.
    pub input: RepairInput<'a>,
}

/// What is loaded for a group of parts, between one load and the next of the same materials.
#[derive(Debug, Clone, Copy)]
pub struct Supply<'a> {
    /// Indexes of the parts.
    pub group: &'a [usize],
    /// The load.
    pub load: Demand,
    /// Which materials it is the load of: base, water, binder, cover stone.
    pub materials: [bool; 4],
}

/// The growths of all cuts of a day, drawn together, so that the sums of a trip, a road and the day agree.
#[derive(Debug, Clone)]
pub struct Drawn<'a> {
    parts: &'a [Part<'a>],
    rules: &'a RepairRules,
    seed: u64,
    tables: Vec<GrowthTable>,
    /// `ln g` of each part in each draw: part by part.
    log_growths: Vec<Vec<f64>>,
}

impl<'a> Drawn<'a> {
    /// Draws. The same parts, rules and seed give the same numbers.
    pub fn new(parts: &'a [Part<'a>], rules: &'a RepairRules, seed: u64) -> Self {
        Drawn {
            parts,
            rules,
            seed,
            tables: parts.iter().map(|part| GrowthTable::new(&part.input, rules)).collect(),
            log_growths: draw(parts, &rules.growth, seed),
        }
    }

    /// The sums over a group of parts, given by their indexes.
    pub fn totals(&self, group: &[usize]) -> Totals {
        let surveyed = sum(group.iter().map(|&part| self.as_surveyed(part)));
        let [low, middle, high] = self.quantiles(group, SHOWN);
        let figure = |kind: usize| {
            let spread = Spread { p10: low[kind], p50: middle[kind], p90: high[kind] };
            Figure::spread(surveyed[kind], spread, self.why(group))
        };
        let [base_volume, base_mass, water, binder, _, cover_volume, cover_mass, spoil_volume, spoil_mass, duration] =
            array::from_fn(figure);
        let [base_volume, binder_volume, cover_volume, spoil_volume] =
            [base_volume, binder, cover_volume, spoil_volume].map(|volume| volume.map(cubic_metres));
        let water_volume = water.map(litres);
        let amounts = [
            (SiteGood::Base, &base_volume),
            (SiteGood::Water, &water_volume),
            (SiteGood::Binder, &binder_volume),
            (SiteGood::CoverStone, &cover_volume),
            (SiteGood::Spoil, &spoil_volume),
        ];
        let units = group.first().map_or(&[][..], |&part| self.parts[part].input.site_units);
        Totals {
            cuts: group.len(),
            site_counts: site_counts(amounts, units),
            base_volume,
            base_mass: base_mass.map(kilograms),
            water_volume,
            binder_volume,
            cover_volume,
            cover_mass: cover_mass.map(kilograms),
            spoil_volume,
            spoil_mass: spoil_mass.map(kilograms),
            duration: duration.map(seconds),
        }
    }

    /// What to load for a group so that base, water, binder and cover stone all suffice with probability `confidence`;
    /// the spoil at the same level.
    pub fn load(&self, group: &[usize], confidence: f64) -> Demand {
        if let [only] = group
            && Basis::new(&self.parts[*only].input, self.rules).water_rises()
        {
            // All four rise with the one growth: each suffices exactly when all do.
            return at_quantile(&self.parts[*only].input, self.rules, confidence);
        }
        let draws = self.sums(group);
        let columns = sorted_columns(&draws);
        // The level at which a draw is just met in all four: how many draws take less of what it takes most of.
        let rank = |draw: &Sums, kind: usize| columns[kind].partition_point(|value| *value < draw[kind]);
        let mut levels: Vec<usize> =
            draws.iter().map(|draw| MATERIALS.map(|kind| rank(draw, kind)).into_iter().max().unwrap_or(0)).collect();
        levels.sort_unstable();
        let level = levels.get(place(confidence, levels.len())).copied().unwrap_or(0);
        demand(&array::from_fn(|kind| columns[kind].get(level).copied().unwrap_or(0.0)))
    }

    /// The chance that a load suffices for a group in all four materials.
    pub fn chance(&self, group: &[usize], load: &Demand) -> f64 {
        self.joint_chance(&[Supply { group, load: *load, materials: [true; 4] }])
    }

    /// The chance of each material by itself: base, water, binder, cover stone.
    pub fn chance_by_material(&self, group: &[usize], load: &Demand) -> [f64; 4] {
        array::from_fn(|only| {
            let materials = array::from_fn(|material| material == only);
            self.joint_chance(&[Supply { group, load: *load, materials }])
        })
    }

    /// The chance that every one of several supplies suffices for its group: that nothing runs out all day.
    pub fn joint_chance(&self, supplies: &[Supply]) -> f64 {
        let draws = self.log_growths.first().map_or(0, Vec::len);
        let mut suffices = vec![true; draws];
        for supply in supplies {
            let load = &supply.load;
            let loaded = [load.base_volume, load.water_volume, load.binder_volume, load.cover_volume];
            let loaded = loaded.map(InVolume::in_cubic_metres);
            for (suffices, draw) in suffices.iter_mut().zip(self.sums(supply.group)) {
                let [base, _, water_kg, binder, _, stone, ..] = draw;
                // A load worked out for the same hole may differ from a draw in the last digit.
                let slack = 1.0 + 1e-9;
                let taken = [base, water_kg / 1000.0, binder, stone];
                let of_one =
                    |material: usize| !supply.materials[material] || taken[material] <= loaded[material] * slack;
                *suffices &= (0..MATERIALS.len()).all(of_one);
            }
        }
        suffices.iter().filter(|&&suffices| suffices).count() as f64 / draws.max(1) as f64
    }

    /// One part's sums as surveyed, not read from a table.
    fn as_surveyed(&self, part: usize) -> Sums {
        let input = &self.parts[part].input;
        sums(&Basis::new(input, self.rules).quantities(Growth::NONE), input)
    }

    /// The group's sums at each of some probabilities.
    fn quantiles<const N: usize>(&self, group: &[usize], probabilities: [f64; N]) -> [Sums; N] {
        if let [only] = group {
            let input = &self.parts[*only].input;
            let basis = Basis::new(input, self.rules);
            return probabilities.map(|p| sums(&basis.at_quantile(p), input));
        }
        let columns = sorted_columns(&self.sums(group));
        probabilities
            .map(|p| array::from_fn(|kind| columns[kind].get(place(p, columns[kind].len())).copied().unwrap_or(0.0)))
    }

    /// The group's sums in each draw.
    fn sums(&self, group: &[usize]) -> Vec<Sums> {
        let draws = self.log_growths.first().map_or(0, Vec::len);
        (0..draws)
            .map(|draw| sum(group.iter().map(|&part| self.tables[part].at(self.log_growths[part][draw]))))
            .collect()
    }

    fn why(&self, group: &[usize]) -> Why {
        let roads: BTreeSet<usize> = group.iter().map(|&part| self.parts[part].road).collect();
        let rho = &self.rules.growth.same_road_correlation;
        let rule =
            "sum over the cuts; ln g = mu + sigma (sqrt(rho) z_road + sqrt(1 - rho) z), quantiles of seeded draws";
        Why::new(rule, rho.source.clone())
            .with("cuts", group.len())
            .with("roads", roads.len())
            .with("rho", rho.value)
            .with("draws", self.rules.growth.draws.value)
            .with("seed", self.seed)
    }
}

/// Kinds that run out: loose base, water, hot binder, loose cover stone.
const MATERIALS: [usize; 4] = [0, 2, 3, 5];

fn demand(sums: &Sums) -> Demand {
    let [base_volume, base_mass, water, binder, binder_mass, cover_volume, cover_mass, spoil_volume, spoil_mass, _] =
        *sums;
    Demand {
        base_volume: cubic_metres(base_volume),
        base_mass: kilograms(base_mass),
        cover_volume: cubic_metres(cover_volume),
        cover_mass: kilograms(cover_mass),
        binder_volume: cubic_metres(binder),
        binder_mass: kilograms(binder_mass),
        water_volume: litres(water),
        spoil_volume: cubic_metres(spoil_volume),
        spoil_mass: kilograms(spoil_mass),
    }
}

/// `ln g` of each part in each draw. One stream of chance: the class's mean and sigma, then the roads, then the holes.
fn draw(parts: &[Part], rules: &GrowthRules, seed: u64) -> Vec<Vec<f64>> {
    let mut chance = Pcg64Mcg::seed_from_u64(seed);
    let normal = |chance: &mut Pcg64Mcg| -> f64 { StandardNormal.sample(chance) };
    let class_of = |part: &Part| rules.of_road(part.input.road_class).0.to_owned();
    let classes: Vec<String> = parts.iter().map(class_of).collect();
    let beliefs: BTreeMap<&str, Belief> = rules
        .classes()
        .filter(|(name, _)| classes.iter().any(|class| class == name))
        .map(|(name, class)| (name, belief_of(class)))
        .collect();
    let roads: BTreeSet<usize> = parts.iter().map(|part| part.road).collect();
    let rho = rules.same_road_correlation.value;
    let (common, own) = (rho.sqrt(), (1.0 - rho).sqrt());
    let mut log_growths = vec![Vec::with_capacity(rules.draws.value as usize); parts.len()];
    for _ in 0..rules.draws.value {
        let truths: BTreeMap<&str, (f64, f64)> = beliefs
            .iter()
            .map(|(name, belief)| {
                let sigma =
                    belief.sigma * (belief.spread_weight / chi_squared(belief.spread_weight, &mut chance)).sqrt();
                (*name, (belief.mean + sigma / belief.mean_weight.sqrt() * normal(&mut chance), sigma))
            })
            .collect();
        let of_road: BTreeMap<usize, f64> = roads.iter().map(|&road| (road, normal(&mut chance))).collect();
        for ((part, class), column) in parts.iter().zip(&classes).zip(&mut log_growths) {
            let (mu, sigma) = truths[class.as_str()];
            let mu = mu + part.input.factors.growth.ln();
            column.push(mu + sigma * (common * of_road[&part.road] + own * normal(&mut chance)));
        }
    }
    log_growths
}

/// Not a number where the degrees of freedom are not over zero, which `check_rules` refuses.
fn chi_squared(freedom: f64, chance: &mut Pcg64Mcg) -> f64 {
    ChiSquared::new(freedom).map_or(f64::NAN, |distribution| distribution.sample(chance))
}

fn sum(all: impl Iterator<Item = Sums>) -> Sums {
    all.fold([0.0; KINDS], |sum, one| array::from_fn(|kind| sum[kind] + one[kind]))
}

/// Each kind's values in rising order.
fn sorted_columns(draws: &[Sums]) -> [Vec<f64>; KINDS] {
    array::from_fn(|kind| {
        let mut column: Vec<f64> = draws.iter().map(|sums| sums[kind]).collect();
        column.sort_unstable_by(f64::total_cmp);
        column
    })
}

/// Where the quantile stands among that many values in rising order: the least of them that a share `p` does not exceed.
pub(crate) fn place(p: f64, count: usize) -> usize {
    ((p * count as f64).ceil() as usize).clamp(1, count.max(1)) - 1
}

#[cfg(test)]
mod tests {
    use super::place;

    #[test]
    fn a_quantile_is_the_least_value_that_suffices_for_its_share() {
        // Nine of ten values do not exceed the ninth.
        assert_eq!((place(0.9, 10), place(0.91, 10), place(0.89, 10)), (8, 9, 8));
        assert_eq!((place(0.0, 10), place(1.0, 10), place(0.5, 3)), (0, 9, 1));
        assert_eq!((place(0.5, 0), place(0.5, 1)), (0, 0));
    }
}
