//! Layers and the crown.

use model::figure::{Figure, Source, Why};
use model::quantity::{InLength, Length, Volume, metres};
use model::repair::{Crown, Layer};

use super::Figures;
use crate::layers::{least_depth, least_layer, loose_height, mean_crown};
use crate::moisture::{dry_density, loose_factor, loose_thickness};
use crate::show;

impl Figures<'_> {
    pub fn layer_count(&self) -> Figure<u32> {
        let greatest = &self.basis.compactor.in_cut.practice.greatest_layer_m;
        let why = Why::new("n = max(1, ceil(D / t_max))", greatest.source.clone())
            .with("D", show::m(self.surveyed.depth))
            .with("t_max", show::m(metres(greatest.value)))
            .with("compactor", self.compactor_words());
        self.spread(|q| q.layer_count, why)
    }

    // The two thicknesses fall where a further layer begins, so quantiles of the growth are not theirs: they carry no
    // spread, and the table of greater depths says what they become.
    pub fn layer_thickness(&self) -> Figure<Length> {
        let why = Why::new("t = D / n", Source::definition())
            .with("D", show::m(self.surveyed.depth))
            .with("n", self.surveyed.layer_count);
        Figure::exact(self.surveyed.layer_thickness, why)
    }

    pub fn loose_layer_thickness(&self) -> Figure<Length> {
        let why = Why::new("t_loose = t * rho_d * (1 + w) / rho_loose", Source::definition())
            .with("t", show::m(self.surveyed.layer_thickness))
            .with("loose over compacted", format!("{:.3}", self.loose_factor()));
        Figure::exact(self.surveyed.loose_layer_thickness, why)
    }

    /// As surveyed, from the bottom up.
    pub fn layers(&self) -> Vec<Layer> {
        (1..=self.surveyed.layer_count).map(|number| self.layer(number)).collect()
    }

    fn layer(&self, number: u32) -> Layer {
        let q = &self.surveyed;
        let (machine, parts) = self.basis.machine_for(number, q.layer_count);
        let crown = self.basis.rules.fill.crown_m.value;
        let above = if number == q.layer_count { mean_crown(metres(crown)) } else { metres(0.0) };
        let height = q.layer_thickness + above;
        let loose_height = loose_thickness(height, self.basis.input.base, &self.basis.rules.moisture);
        let (volume, loose_volume): (Volume, Volume) = (q.cut_area * height, q.cut_area * loose_height);
        let why = Why::new("V = A * (t + mean crown); time = passes * lanes * (l / v + turn)", Source::definition())
            .with("A", show::m2(q.cut_area))
            .with("t", show::m(q.layer_thickness))
            .with("mean crown", show::mm(above))
            .with("loose over compacted", format!("{:.3}", self.loose_factor()))
            .with("passes", machine.passes())
            .with("lanes", machine.lanes(parts, 1.0))
            .with("v", show::km_h(machine.speed));
        Layer {
            number,
            compactor: machine.kind.words().to_owned(),
            thickness: q.layer_thickness,
            loose_thickness: q.loose_layer_thickness,
            volume,
            loose_volume,
            static_passes: machine.practice.static_passes.value,
            vibrating_passes: machine.practice.vibrating_passes_most.value,
            lanes: machine.lanes(parts, 1.0),
            time: self.basis.layer_time(number, q.layer_count, 1.0),
            why,
        }
    }

    pub fn crown(&self) -> Crown {
        let rule = &self.basis.rules.fill.crown_m;
        let crown = metres(rule.value);
        let thickness = self.surveyed.layer_thickness;
        let factor = self.loose_factor();
        let loose = |words: &str, height: Length| {
            let why = Why::new("h = (t + c) * f - t", rule.source.clone())
                .with("t", show::m(thickness))
                .with(format!("crown c {words}"), show::m(height))
                .with("loose over compacted f", format!("{factor:.3}"));
            Figure::exact(loose_height(thickness, height, factor), why)
        };
        Crown {
            middle: Figure::exact(crown, Why::new("c", rule.source.clone()).with("c", show::m(crown))),
            mean: Figure::exact(
                mean_crown(crown),
                Why::new("mean of a parabolic dome: c / 2", Source::definition()).with("c", show::m(crown)),
            ),
            loose_at_sides: loose("at the sides", metres(0.0)),
            loose_in_middle: loose("in the middle", crown),
        }
    }

    /// What could not be kept.
    pub fn remarks(&self) -> Vec<String> {
        let rule = &self.basis.rules.fill.least_layer_stones;
        let Some(stone) = self.basis.input.base.largest_stone else { return Vec::new() };
        let least = least_layer(stone, rule.value);
        let q = &self.surveyed;
        if q.layer_thickness.in_metres() >= least.in_metres() - 1e-9 {
            return Vec::new();
        }
        let greatest = self.basis.compactor.in_cut.greatest_layer();
        let help = match least_depth(q.depth, least, greatest) {
            Some(depth) => {
                format!("dig to {:.0} mm, or use smaller stone or a stronger compactor", depth.in_millimetres())
            }
            None => "use smaller stone or a stronger compactor".to_owned(),
        };
        // The source last: a sheet cuts long remarks short.
        vec![format!(
            "Layers of {:.0} mm are under {} times the largest stone ({:.0} mm): {help} ({}).",
            q.layer_thickness.in_millimetres(),
            rule.value,
            stone.in_millimetres(),
            rule.source
        )]
    }

    fn loose_factor(&self) -> f64 {
        let base = self.basis.input.base;
        loose_factor(dry_density(base, &self.basis.rules.moisture), base)
    }
}
