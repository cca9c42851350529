//! The seal's figures: binder and cover stone.

use model::figure::{Figure, Source, Why};
use model::quantity::{Area, InMassDensity, KilogramsPerSquareMetre, LitresPerSquareMetre, Mass, Volume};

use super::Figures;
use crate::seal::median_size;
use crate::show;

impl Figures<'_> {
    pub fn binder_rate(&self) -> Figure<LitresPerSquareMetre> {
        let (rules, rates) = (&self.basis.rules.seal, &self.basis.rates);
        let rule = "B = (k * H * T * V + s + A) / R on the fresh base; on the overlap S stands for s";
        let why = self
            .with_least_dimension(Why::new(rule, rules.void_share.source.clone()))
            .with("k", rules.void_share.value)
            .with("T", format!("{} ({})", rates.traffic_factor, self.traffic_words()))
            .with("V", format!("{:.3}", rates.voids))
            .with("soak into fresh base s", format!("{} L/m2", rules.soak_l_per_m2.value))
            .with("old seal S", format!("{} L/m2", rules.old_seal_correction_l_per_m2.value))
            .with("stone takes up A", format!("{} L/m2", rules.absorption_l_per_m2.value))
            .with("residue R", show::percent(self.basis.input.binder.residue))
            .with("B on the overlap", format!("{:.2} L/m2", rates.binder_on_overlap.0));
        Figure::exact(rates.binder_on_base, why)
    }

    pub fn binder_volume(&self) -> Figure<Volume> {
        let rates = &self.basis.rates;
        let strip: Area = self.surveyed.seal_area - self.surveyed.cut_area;
        let why =
            Why::new("V = B_base * A + B_overlap * (A_seal - A)", self.basis.rules.seal.void_share.source.clone())
                .with("B_base", format!("{:.3} L/m2", rates.binder_on_base.0))
                .with("A", show::m2(self.surveyed.cut_area))
                .with("B_overlap", format!("{:.3} L/m2", rates.binder_on_overlap.0))
                .with("A_seal - A", show::m2(strip));
        self.spread(|q| q.binder_volume, why)
    }

    pub fn binder_volume_hot(&self) -> Figure<Volume> {
        let factor = &self.basis.volume_factor;
        let why = Why::new(format!("V_hot = V / VCF, {}", factor.rule), factor.source.clone())
            .with("V", show::l(self.surveyed.binder_volume))
            .with("T", format!("{} °C", self.basis.input.binder.spray_temperature_c))
            .with("VCF", format!("{:.5}", factor.factor));
        self.spread(|q| q.binder_volume_hot, why)
    }

    pub fn cover_rate(&self) -> Figure<KilogramsPerSquareMetre> {
        let (rules, rates) = (&self.basis.rules.seal, &self.basis.rates);
        let particle = self.basis.input.cover_stone.particle_density.in_kilograms_per_cubic_metre();
        let why = Why::new("C = (1 - k * V) * H * G * E", rules.void_share.source.clone());
        let why = self
            .with_least_dimension(why)
            .with("k", rules.void_share.value)
            .with("V", format!("{:.3}", rates.voids))
            .with("G", format!("{:.3}", particle / 1000.0))
            .with("waste factor E", rules.waste_factor.value);
        Figure::exact(rates.stone, why)
    }

    pub fn cover_mass(&self) -> Figure<Mass> {
        let why = Why::new("M = C * A_seal", self.basis.rules.seal.void_share.source.clone())
            .with("C", format!("{:.2} kg/m2", self.basis.rates.stone.0))
            .with("A_seal", show::m2(self.surveyed.seal_area));
        self.spread(|q| q.cover_mass, why)
    }

    pub fn cover_volume(&self) -> Figure<Volume> {
        let why = Why::new("V = M / rho_loose", Source::definition())
            .with("M", show::kg(self.surveyed.cover_mass))
            .with("rho_loose", show::density(self.basis.input.cover_stone.loose_density));
        self.spread(|q| q.cover_volume, why)
    }

    /// The average least dimension and where it is from.
    fn with_least_dimension(&self, why: Why) -> Why {
        let (stone, rules) = (self.basis.input.cover_stone, &self.basis.rules.seal);
        let height = show::mm(self.basis.rates.least_dimension);
        if stone.average_least_dimension.is_some() {
            return why.with("H", format!("{height} (measured)"));
        }
        let [a, b] = rules.least_dimension.value;
        let median = show::mm(median_size(stone, rules));
        let origin = if stone.median_size.is_some() { "measured" } else { "a set part of the nominal size" };
        why.with("H", format!("{height} = M / ({a} + {b} * FI)"))
            .with("M", format!("{median} ({origin})"))
            .with("FI", show::percent(stone.flakiness))
    }

    fn traffic_words(&self) -> String {
        let count = self.basis.rates.vehicles_per_day;
        let origin = if self.basis.input.vehicles_per_day.is_some() { "" } else { ", count not known" };
        format!("{count:.0} vehicles a day{origin}")
    }
}
