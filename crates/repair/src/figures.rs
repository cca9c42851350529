//! Quantities made into figures: each with its spread and the way it was worked out.

use model::figure::{Figure, Source, Spread, Why};
use model::learnt::Factored;
use model::quantity::{Area, InMass, Length, Mass, Time, Volume, litres, metres};
use model::repair::StageTime;
use model::rules::repair::TimeRules;
use model::site_unit::{SiteCount, SiteGood};

use crate::duration::{STAGE_RULES, STAGES};
use crate::growth::{Growth, SHOWN};
use crate::moisture::loss_why;
use crate::quantities::{Basis, Quantities};
use crate::show;
use crate::site_units::site_counts;

mod compaction;
mod layers;
mod seal;

/// Name of a factor that the record teaches, among what went into a figure.
const LEARNT: &str = "times what the record teaches";

/// One repair at the growths that are shown, ready to give figures.
pub(crate) struct Figures<'a> {
    pub basis: &'a Basis<'a>,
    pub surveyed: Quantities,
    shown: [Quantities; 3],
    growths: String,
}

impl<'a> Figures<'a> {
    pub fn new(basis: &'a Basis<'a>) -> Self {
        let growth = SHOWN.map(|p| Growth::at(p, basis.input, &basis.rules.growth));
        let (class, _) = basis.rules.growth.of_road(basis.input.road_class);
        let [low, middle, high] = growth.map(|growth| format!("{:.2}", growth.volume));
        let learnt = match basis.input.factors.growth {
            1.0 => String::new(),
            factor => format!(", {LEARNT} {factor:.3}"),
        };
        Figures {
            basis,
            surveyed: basis.quantities(Growth::NONE),
            shown: SHOWN.map(|p| basis.at_quantile(p)),
            growths: format!("{low}, {middle}, {high} (of class {class}{learnt})"),
        }
    }

    /// A figure as surveyed, with its quantiles.
    fn spread<Q>(&self, pick: impl Fn(&Quantities) -> Q, why: Why) -> Figure<Q> {
        let [p10, p50, p90] = self.shown.each_ref().map(&pick);
        let why = why.with("volume dug over volume surveyed, g at P10, P50, P90", &self.growths);
        Figure::spread(pick(&self.surveyed), Spread { p10, p50, p90 }, why)
    }

    /// Says what was learnt from the record and is in it.
    fn learnt(&self, why: Why, what: Factored) -> Why {
        let factor = self.basis.input.factors.of(what);
        if factor.total_cmp(&1.0).is_eq() { why } else { why.with(LEARNT, format!("{factor:.3}")) }
    }

    /// The same for water, which may fall while the cut grows: then the quantiles are its own.
    fn water_spread(&self, pick: impl Fn(&Quantities) -> Mass, why: Why) -> Figure<Mass> {
        if self.basis.water_rises() {
            return self.spread(pick, why);
        }
        let [p10, p50, p90] = self.shown.each_ref().map(&pick);
        let why = why.with("P10, P50, P90", "of the water itself, over all growths: it may fall while the cut grows");
        Figure::spread(pick(&self.surveyed), Spread { p10, p50, p90 }, why)
    }

    pub fn depth(&self) -> Figure<Length> {
        let growth = &self.basis.rules.growth;
        let why = Why::new("D = D_surveyed * g^s", growth.depth_share.source.clone())
            .with("D_surveyed", show::m(self.basis.input.depth))
            .with("s", format!("{:.3}", growth.depth_share.value));
        self.spread(|q| q.depth, why)
    }

    pub fn cut_area(&self) -> Figure<Area> {
        let growth = &self.basis.rules.growth;
        let why = Why::new("A = A_marked * g^(1 - s)", growth.depth_share.source.clone())
            .with("A_marked", show::m2(self.basis.input.area))
            .with("s", format!("{:.3}", growth.depth_share.value));
        self.spread(|q| q.cut_area, why)
    }

    pub fn fill_volume(&self) -> Figure<Volume> {
        let crown = &self.basis.rules.fill.crown_m;
        let why = Why::new("V = A * D + c * A / 2", crown.source.clone())
            .with("A", show::m2(self.surveyed.cut_area))
            .with("D", show::m(self.surveyed.depth))
            .with("crown c", show::m(metres(crown.value)));
        self.spread(|q| q.fill_volume, why)
    }

    pub fn fill_dry_mass(&self) -> Figure<Mass> {
        let degree = &self.basis.rules.moisture.degree_of_compaction;
        let why = Why::new("M_d = V * k * MDD", degree.source.clone())
            .with("V", show::m3(self.surveyed.fill_volume))
            .with("degree of compaction k", degree.value)
            .with("MDD", show::density(self.basis.input.base.maximum_dry_density));
        self.spread(|q| q.fill_dry_mass, why)
    }

    pub fn fill_wet_mass(&self) -> Figure<Mass> {
        let why = Why::new("M_w = M_d * (1 + w)", Source::definition())
            .with("M_d", show::kg(self.surveyed.fill_dry_mass))
            .with("stock moisture w", show::percent(self.basis.input.base.stock_moisture));
        self.spread(|q| q.fill_wet_mass, self.learnt(why, Factored::Base))
    }

    pub fn water_to_add(&self) -> Figure<Mass> {
        let rules = &self.basis.rules.moisture;
        let why = match self.basis.input.weather {
            None => {
                let allowance = &rules.drying_allowance;
                let why = Why::new("max(0, M_d * (OMC - w)) * (1 + a)", allowance.source.clone());
                self.with_moisture(why).with("drying allowance a", allowance.value)
            }
            Some(weather) => {
                let mut why = loss_why(&weather, &rules.drying);
                why.rule = format!("max(0, M_d * (OMC - w) + loss); {}", why.rule);
                let surface = self.surveyed.cut_area * f64::from(self.surveyed.layer_count);
                self.with_moisture(why).with("A, each layer once", show::m2(surface))
            }
        };
        self.water_spread(|q| q.water_to_add, self.learnt(why, Factored::Water))
    }

    pub fn water_to_dry(&self) -> Figure<Mass> {
        let loss = if self.basis.input.weather.is_some() { " - loss" } else { "" };
        let why = Why::new(format!("max(0, M_d * (w - OMC){loss})"), Source::definition());
        self.water_spread(|q| q.water_to_dry, self.with_moisture(why))
    }

    fn with_moisture(&self, why: Why) -> Why {
        why.with("M_d", show::kg(self.surveyed.fill_dry_mass))
            .with("OMC", show::percent(self.basis.input.base.optimum_moisture))
            .with("stock moisture w", show::percent(self.basis.input.base.stock_moisture))
    }

    pub fn loose_volume(&self) -> Figure<Volume> {
        let why = Why::new("V_loose = M_w / rho_loose", Source::definition())
            .with("M_w", show::kg(self.surveyed.fill_wet_mass))
            .with("rho_loose, moist as loaded", show::density(self.basis.input.base.loose_density));
        self.spread(|q| q.loose_volume, why)
    }

    pub fn seal_area(&self) -> Figure<Area> {
        let overlap = &self.basis.rules.seal.overlap_m;
        let edges = self.basis.input.pavement.map_or_else(
            || "no edge near".to_owned(),
            |pavement| format!("{} to {} across", show::m(pavement.left), show::m(pavement.right)),
        );
        let why = Why::new("cut grown by the overlap on each side, kept on the pavement", overlap.source.clone())
            .with("A", show::m2(self.surveyed.cut_area))
            .with("overlap", show::m(metres(overlap.value)))
            .with("pavement", edges);
        self.spread(|q| q.seal_area, why)
    }

    pub fn spoil_volume(&self) -> Figure<Volume> {
        let bulking = &self.basis.rules.spoil.bulking;
        let why = Why::new("V_spoil = max(0, A * D - V_hole) * b", bulking.source.clone());
        self.spread(|q| q.spoil_volume, self.with_bank(why).with("bulking b", bulking.value))
    }

    pub fn spoil_mass(&self) -> Figure<Mass> {
        let density = &self.basis.rules.spoil.bank_density_kg_per_m3;
        let why = Why::new("M_spoil = max(0, A * D - V_hole) * rho_bank", density.source.clone());
        self.spread(|q| q.spoil_mass, self.with_bank(why).with("rho_bank", format!("{:.0} kg/m3", density.value)))
    }

    pub fn site_counts(&self) -> Vec<SiteCount> {
        let water = self.water_to_add().map(|mass| litres(mass.in_kilograms()));
        let amounts = [
            (SiteGood::Base, &self.loose_volume()),
            (SiteGood::Water, &water),
            (SiteGood::Binder, &self.binder_volume_hot()),
            (SiteGood::CoverStone, &self.cover_volume()),
            (SiteGood::Spoil, &self.spoil_volume()),
        ];
        site_counts(amounts, self.basis.input.site_units)
    }

    fn with_bank(&self, why: Why) -> Why {
        let hole = self.basis.input.hole_volume.map_or_else(
            || "not known, taken as none".to_owned(),
            |volume| format!("{} (open already)", show::m3(volume)),
        );
        why.with("A", show::m2(self.surveyed.cut_area)).with("D", show::m(self.surveyed.depth)).with("V_hole", hole)
    }

    pub fn stages(&self) -> Vec<StageTime> {
        (0..STAGES.len())
            .map(|i| StageTime {
                stage: STAGES[i],
                time: self.spread(|q| q.stages[i], self.learnt(self.stage_why(i), Factored::Time)),
            })
            .collect()
    }

    fn stage_why(&self, index: usize) -> Why {
        let q = &self.surveyed;
        let rules: &TimeRules = &self.basis.rules.time;
        let seconds = |value: f64, per: &str| format!("{value} s{per}");
        let why = |source: &Source| Why::new(STAGE_RULES[index], source.clone());
        match index {
            0 => why(&rules.mark_out_s_per_m.source)
                .with("a", seconds(rules.mark_out_s.value, ""))
                .with("b", seconds(rules.mark_out_s_per_m.value, "/m"))
                .with("P", show::m(q.perimeter)),
            1 => why(&rules.cut_out_s_per_m3.source)
                .with("a", seconds(rules.cut_out_s.value, ""))
                .with("b", seconds(rules.cut_out_s_per_m.value, "/m"))
                .with("P", show::m(q.perimeter))
                .with("c", seconds(rules.cut_out_s_per_m3.value, "/m3"))
                .with("V_bank", show::m3(q.spoil_bank_volume))
                .with("d", seconds(rules.cut_out_s_per_m2.value, "/m2"))
                .with("A", show::m2(q.cut_area)),
            2 => why(&rules.fill_s_per_m3.source)
                .with("a", seconds(rules.fill_s_per_m3.value, "/m3"))
                .with("V_loose", show::m3(q.loose_volume))
                .with("b", seconds(rules.fill_s_per_layer.value, " each layer"))
                .with("n", q.layer_count),
            3 => why(&rules.compact_s_per_layer.source)
                .with("t_rolling", show::min(q.rolling_time))
                .with("a", seconds(rules.compact_s_per_layer.value, " each layer"))
                .with("n", q.layer_count),
            4 => why(&rules.seal_s_per_m2.source)
                .with("a", seconds(rules.seal_s.value, ""))
                .with("b", seconds(rules.seal_s_per_m2.value, "/m2"))
                .with("A_seal", show::m2(q.seal_area)),
            _ => why(&rules.clean_up_s_per_m2.source)
                .with("a", seconds(rules.clean_up_s.value, ""))
                .with("b", seconds(rules.clean_up_s_per_m2.value, "/m2"))
                .with("A_seal", show::m2(q.seal_area)),
        }
    }

    pub fn duration(&self) -> Figure<Time> {
        let mut why = Why::new("sum of the stages, traffic control not included", Source::definition());
        for (stage, time) in STAGES.iter().zip(self.surveyed.stages) {
            why = why.with(stage.words(), show::min(time));
        }
        self.spread(|q| q.duration, why)
    }
}
