//! Every quantity of one repair at one growth of the cut: the whole computation in order.

use model::quantity::{
    Area, InMass, InMassDensity, InVolume, Length, Mass, Time, Volume, kilograms, litres, metres, seconds,
    square_metres,
};
use model::round::Demand;
use model::rules::repair::RepairRules;

use crate::binder_volume::{VolumeFactor, hot_volume, volume_factor};
use crate::compaction::ground::Part;
use crate::compaction::{Choice, Ground, Machine, choose};
use crate::duration::{Work, stage_times};
use crate::growth::Growth;
use crate::input::RepairInput;
use crate::layers::{fill_volume, layer_count, layer_thickness};
use crate::moisture::{Drying, FillMass, fill_mass, loose_thickness};
use crate::seal::{SealRates, rates};
use crate::seal_area::seal_area_when_grown;
use crate::spoil;
use crate::total::place;

/// What does not change when the cut grows: worked out once.
#[derive(Debug, Clone, PartialEq)]
pub struct Basis<'a> {
    /// What was given.
    pub input: &'a RepairInput<'a>,
    /// By which rules.
    pub rules: &'a RepairRules,
    /// Compactors taken.
    pub compactor: Choice<'a>,
    /// The floor they work on.
    pub ground: Ground,
    /// Parts of it that the machine inside the cut goes over.
    pub parts: Vec<Part>,
    /// Parts that the one which finishes the last layer goes over.
    pub last_parts: Vec<Part>,
    /// Binder and stone rates.
    pub rates: SealRates,
    /// Hot to base volume of the binder.
    pub volume_factor: VolumeFactor,
}

/// Quantities at one growth. Each rises or stays with growth, but for the two thicknesses, which fall where a further
/// layer begins, and the water where [`Basis::water_rises`] says so.
#[derive(Debug, Clone, Copy, PartialEq)]
#[allow(missing_docs)] // the names are those of `model::repair::Repair`
pub struct Quantities {
    pub depth: Length,
    pub cut_area: Area,
    pub layer_count: u32,
    pub layer_thickness: Length,
    pub loose_layer_thickness: Length,
    pub fill_volume: Volume,
    pub fill_dry_mass: Mass,
    pub fill_wet_mass: Mass,
    pub water_to_add: Mass,
    pub water_to_dry: Mass,
    pub loose_volume: Volume,
    pub seal_area: Area,
    pub binder_volume: Volume,
    pub binder_volume_hot: Volume,
    pub cover_mass: Mass,
    pub cover_volume: Volume,
    pub spoil_bank_volume: Volume,
    pub spoil_volume: Volume,
    pub spoil_mass: Mass,
    pub perimeter: Length,
    pub lanes_across: u32,
    pub rolling_time: Time,
    /// In the order of [`crate::duration::STAGES`].
    pub stages: [Time; 6],
    pub duration: Time,
}

/// What this site takes from the truck and gives to it, not exceeded with probability `p` (0.9: nine times in ten).
///
/// Binder is counted at spraying temperature, as it fills the tank; water is what is to be added to the base. The rest
/// of the crew's water is the truck's own affair.
pub fn at_quantile(input: &RepairInput, rules: &RepairRules, p: f64) -> Demand {
    Basis::new(input, rules).at_quantile(p).demand(input)
}

/// What the site takes and gives if the cut turns out as surveyed.
pub fn as_surveyed(input: &RepairInput, rules: &RepairRules) -> Demand {
    Basis::new(input, rules).quantities(Growth::NONE).demand(input)
}

impl<'a> Basis<'a> {
    /// Takes the compactor, the rates and the volume factor for this input.
    pub fn new(input: &'a RepairInput<'a>, rules: &'a RepairRules) -> Self {
        let ground = Ground::new(input.corners, input.length, input.width);
        let compactor = choose(input.plant, &ground, input.depth, &rules.compactor);
        Basis {
            input,
            rules,
            parts: compactor.in_cut.parts(&ground),
            last_parts: compactor.last.map(|last| last.parts(&ground)).unwrap_or_default(),
            compactor,
            ground,
            rates: rates(input.cover_stone, input.binder, input.vehicles_per_day, rules),
            volume_factor: volume_factor(input.binder, &rules.binder_volume),
        }
    }

    /// Each quantity not exceeded with probability `p`: at that quantile of the growth, since all rise with it; the water at
    /// its own where it does not.
    pub fn at_quantile(&self, p: f64) -> Quantities {
        let mut quantities = self.quantities(Growth::at(p, self.input, &self.rules.growth));
        if !self.water_rises() {
            (quantities.water_to_add, quantities.water_to_dry) = self.water_at_quantile(p);
        }
        quantities
    }

    /// Whether the water rises or stays with growth. Where the weather dries a stock that is too wet it may fall: a deeper cut
    /// brings more water to lose, and no more surface to lose it from until a further layer begins.
    pub fn water_rises(&self) -> bool {
        self.input.weather.is_none() || self.input.base.stock_moisture <= self.input.base.optimum_moisture
    }

    /// Water to add and to dry out, each not exceeded with probability `p`, over growths of equal chances.
    fn water_at_quantile(&self, p: f64) -> (Mass, Mass) {
        let chance = |row: u32| (f64::from(row) + 0.5) / f64::from(WATER_ROWS);
        let masses: Vec<FillMass> = (0..WATER_ROWS)
            .map(|row| self.fill_at(Growth::at(chance(row), self.input, &self.rules.growth)).mass)
            .collect();
        let least_that_suffices = |water: fn(&FillMass) -> f64| {
            let mut rising: Vec<f64> = masses.iter().map(water).collect();
            rising.sort_unstable_by(f64::total_cmp);
            kilograms(rising[place(p, rising.len())])
        };
        (
            least_that_suffices(|mass| mass.water_to_add.in_kilograms()),
            least_that_suffices(|mass| mass.water_to_dry.in_kilograms()),
        )
    }

    /// The layers of base and what they take from the stock.
    fn fill_at(&self, growth: Growth) -> Fill {
        let Basis { input, rules, compactor, .. } = self;
        let (depth, cut_area) = (input.depth * growth.depth, input.area * growth.area);
        let layers = layer_count(depth, compactor.in_cut.greatest_layer());
        let volume = fill_volume(cut_area, depth, metres(rules.fill.crown_m.value));
        // Each layer lies open once.
        let drying = Drying::of(input.weather, cut_area * f64::from(layers), &rules.moisture.drying);
        let mut mass = fill_mass(volume, input.base, drying, &rules.moisture);
        mass.water_to_add *= input.factors.water;
        Fill { depth, cut_area, layers, volume, mass }
    }

    /// The whole computation at one growth.
    pub fn quantities(&self, growth: Growth) -> Quantities {
        let Basis { input, rules, compactor, .. } = self;
        let Fill { depth, cut_area, layers, volume: fill, mass } = self.fill_at(growth);
        let thickness = layer_thickness(depth, layers);
        let seal = self.seal_quantities(cut_area, growth);
        let bank = spoil::bank_volume(cut_area, depth, input.hole_volume);
        let side = growth.side();
        let rolling = (1..=layers).fold(seconds(0.0), |sum, layer| sum + self.layer_time(layer, layers, side));
        let perimeter = input.perimeter * side;
        let work = Work {
            perimeter,
            cut_area,
            bank_volume: bank,
            loose_volume: mass.loose,
            layers,
            rolling,
            seal_area: seal.area,
        };
        let learnt = input.factors;
        let stages = stage_times(&work, &rules.time).map(|time| time * learnt.time);
        Quantities {
            depth,
            cut_area,
            layer_count: layers,
            layer_thickness: thickness,
            loose_layer_thickness: loose_thickness(thickness, input.base, &rules.moisture),
            fill_volume: fill,
            fill_dry_mass: mass.dry,
            fill_wet_mass: mass.wet * learnt.base,
            water_to_add: mass.water_to_add,
            water_to_dry: mass.water_to_dry,
            loose_volume: mass.loose * learnt.base,
            seal_area: seal.area,
            binder_volume: seal.binder,
            binder_volume_hot: hot_volume(seal.binder, self.volume_factor.factor),
            cover_mass: seal.stone,
            cover_volume: seal.stone / input.cover_stone.loose_density,
            spoil_bank_volume: bank,
            spoil_volume: spoil::loose_volume(bank, &rules.spoil),
            spoil_mass: spoil::mass(bank, &rules.spoil),
            perimeter,
            lanes_across: compactor.in_cut.lanes(&self.parts, side),
            rolling_time: rolling,
            stages,
            duration: stages.into_iter().fold(seconds(0.0), |sum, time| sum + time),
        }
    }

    /// The machine for a layer of so many, with the parts it goes over.
    pub(crate) fn machine_for(&self, layer: u32, layers: u32) -> (&Machine<'a>, &[Part]) {
        match &self.compactor.last {
            Some(last) if layer == layers && layers > 1 => (last, &self.last_parts),
            _ => (&self.compactor.in_cut, &self.parts),
        }
    }

    /// Compacting time of a layer of so many, when the cut's sides have grown by `side`.
    pub(crate) fn layer_time(&self, layer: u32, layers: u32, side: f64) -> Time {
        let (machine, parts) = self.machine_for(layer, layers);
        machine.layer_time(parts, side)
    }

    fn seal_quantities(&self, cut_area: Area, growth: Growth) -> SealQuantities {
        let overlap = metres(self.rules.seal.overlap_m.value);
        let clipped = seal_area_when_grown(self.input.corners, self.input.pavement, overlap, growth.side());
        // All that is cut must be sealed, even where the pavement's edge is not where the road data says.
        let area = clipped.max(cut_area);
        let strip = (area - cut_area).max(square_metres(0.0));
        SealQuantities {
            area,
            binder: self.rates.binder(cut_area, strip) * self.input.factors.binder,
            stone: self.rates.residual.stone.value * area * self.input.factors.cover_stone,
        }
    }
}

/// Growths looked at for the quantiles of the water: half a per cent of chance each.
const WATER_ROWS: u32 = 200;

struct Fill {
    depth: Length,
    cut_area: Area,
    layers: u32,
    volume: Volume,
    mass: FillMass,
}

struct SealQuantities {
    area: Area,
    binder: Volume,
    stone: Mass,
}

impl Quantities {
    pub(crate) fn demand(&self, input: &RepairInput) -> Demand {
        let binder_mass = self.binder_volume.in_cubic_metres() * input.binder.density.in_kilograms_per_cubic_metre();
        Demand {
            base_volume: self.loose_volume,
            base_mass: self.fill_wet_mass,
            cover_volume: self.cover_volume,
            cover_mass: self.cover_mass,
            binder_volume: self.binder_volume_hot,
            binder_mass: kilograms(binder_mass),
            // A kilogram of water is a litre, by the old definition of the litre and to 0.2 % at any working temperature.
            water_volume: litres(self.water_to_add.in_kilograms()),
            spoil_volume: self.spoil_volume,
            spoil_mass: self.spoil_mass,
        }
    }
}
