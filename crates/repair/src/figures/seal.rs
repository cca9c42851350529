//! The seal's figures: binder and cover stone, containers, opening.

use model::figure::Figure;
use model::learnt::Factored;
use model::quantity::{KilogramsPerSquareMetre, LitresPerSquareMetre, Mass, Volume};
use model::repair::{Containers, Opening};

use super::Figures;
use crate::seal::{SealAreas, containers, opening, why};
use crate::show;

impl Figures<'_> {
    pub fn binder_rate(&self) -> Figure<LitresPerSquareMetre> {
        let rates = &self.basis.rates;
        let mut figure = rates.binder_on_base.clone();
        let overlap = format!("{:.2} L/m2 ({})", rates.binder_on_overlap.value.0, rates.binder_on_overlap.why.rule);
        figure.why = figure.why.with("B on the overlap", overlap);
        figure
    }

    pub fn binder_volume(&self) -> Figure<Volume> {
        let cut = self.surveyed.cut_area;
        let areas = SealAreas { base: cut, overlap: self.surveyed.seal_area - cut };
        self.spread(|q| q.binder_volume, self.learnt(why::volume(&self.basis.rates, areas), Factored::Binder))
    }

    pub fn binder_volume_hot(&self) -> Figure<Volume> {
        let cold = self.surveyed.binder_volume;
        self.spread(|q| q.binder_volume_hot, why::hot(cold, self.basis.input.binder, &self.basis.volume_factor))
    }

    pub fn binder_containers(&self) -> Figure<Containers> {
        let hot = self.binder_volume_hot();
        let sizes = containers::sizes(self.basis.input.plant, &self.basis.rules.binder_volume);
        let why = why::containers(hot.value, &sizes).with("needed hot at P90", show::l(hot.p90()));
        Figure::exact(containers::fill(hot.value, &sizes.list), why)
    }

    pub fn cover_rate(&self) -> Figure<KilogramsPerSquareMetre> {
        self.basis.rates.residual.stone.clone()
    }

    pub fn cover_mass(&self) -> Figure<Mass> {
        let why = why::stone_mass(&self.basis.rates, self.surveyed.seal_area);
        self.spread(|q| q.cover_mass, self.learnt(why, Factored::CoverStone))
    }

    pub fn cover_volume(&self) -> Figure<Volume> {
        self.spread(|q| q.cover_volume, why::loose_stone(self.surveyed.cover_mass, self.basis.input.cover_stone))
    }

    pub fn opening(&self) -> Opening {
        let rules = &self.basis.rules.opening;
        opening::opening(self.basis.input.binder.kind, rules.surface_c.value, rules)
    }
}
