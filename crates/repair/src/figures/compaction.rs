//! Passes, lanes, rolling time and pattern.

use model::figure::{Figure, Why};
use model::quantity::{Time, metres};
use model::repair::CompactionPattern;

use super::Figures;
use crate::compaction::pattern::pattern;
use crate::show;

impl Figures<'_> {
    pub fn static_passes(&self) -> Figure<u32> {
        let practice = self.basis.compactor.in_cut.practice;
        let passes = &practice.static_passes;
        let why = Why::new("passes without vibration first, each layer", passes.source.clone())
            .with("compactor", self.compactor_words())
            .with("usual mass", format!("{:.0} kg", practice.mass_kg.value));
        Figure::exact(passes.value, why)
    }

    pub fn vibrating_passes(&self) -> Figure<u32> {
        let practice = self.basis.compactor.in_cut.practice;
        let (least, most) = (&practice.vibrating_passes_least, &practice.vibrating_passes_most);
        let why = Why::new("passes with vibration, each layer; the plan counts on the most", most.source.clone())
            .with("least", least.value)
            .with("most", most.value)
            .with("compactor", self.compactor_words());
        Figure::exact(most.value, why)
    }

    pub fn lanes_across(&self) -> Figure<u32> {
        let machine = &self.basis.compactor.in_cut;
        let overlap = &machine.practice.lane_overlap_m;
        let rule = match self.basis.parts.len() {
            0 | 1 => "max(1, ceil((W - o) / (d - o)))",
            _ => "sum of max(1, ceil((W - o) / (d - o))) over the parts of the floor",
        };
        let widths: Vec<String> = self.basis.parts.iter().map(|part| show::m(metres(part.width_m()))).collect();
        let why = Why::new(rule, overlap.source.clone())
            .with("W", widths.join(", "))
            .with("d", show::m(machine.width))
            .with("o", show::m(metres(overlap.value)))
            .with("compactor", self.compactor_words());
        self.spread(|q| q.lanes_across, why)
    }

    pub fn rolling_time(&self) -> Figure<Time> {
        let machine = &self.basis.compactor.in_cut;
        let turn = &machine.practice.turn_s;
        let lengths: Vec<String> = self.basis.parts.iter().map(|part| show::m(metres(part.length_m()))).collect();
        let mut why = Why::new("sum over layers and lanes of passes * (L / v + turn)", turn.source.clone())
            .with("n", self.surveyed.layer_count)
            .with("lanes", self.surveyed.lanes_across)
            .with("passes", machine.passes())
            .with("L", lengths.join(", "))
            .with("v", show::km_h(machine.speed))
            .with("turn", format!("{} s", turn.value));
        if self.surveyed.layer_count > 1
            && let Some(last) = &self.basis.compactor.last
        {
            why = why
                .with("last layer: compactor", last.kind.words())
                .with("last layer: lanes", last.lanes(&self.basis.last_parts, 1.0))
                .with("last layer: passes", last.passes())
                .with("last layer: v", show::km_h(last.speed))
                .with("last layer: turn", format!("{} s", last.practice.turn_s.value));
        }
        self.spread(|q| q.rolling_time, why)
    }

    pub fn compactor_words(&self) -> String {
        let compactor = &self.basis.compactor;
        format!("{} ({})", compactor.words(), compactor.reason)
    }

    pub fn patterns(&self) -> Vec<CompactionPattern> {
        let compactor = &self.basis.compactor;
        let machines = std::iter::once(&compactor.in_cut).chain(&compactor.last);
        machines.map(|machine| pattern(machine, &self.basis.ground)).collect()
    }
}
