//! Lengths of the zone's parts, in the rule set's unit, in the direction of the traffic in the lane worked in.

use model::figure::{Figure, Source, Why};
use model::rules::traffic::{LayoutRule, TrafficRules, Units};
use model::work_zone::{Layout, ZonePart, ZonePartKind};

use crate::ZoneInput;
use crate::advance::{SignSeries, sign_series};
use crate::closure::Closure;
use crate::frame::{Extent, two_way};
use crate::spacing;
use crate::stopping::stopping_distance;
use crate::taper::{TaperKind, taper_length};
use crate::text::{distance_words, joined};

/// All lengths. Offsets of devices count from the upstream end of the work space.
#[derive(Debug, Clone, PartialEq)]
pub struct Parts {
    /// Upstream end of the work space along the traffic's travel.
    pub origin: f64,
    /// Signs ahead of the restriction.
    pub series: SignSeries,
    /// Taper into the closure; `None` where a shield vehicle stands for it.
    pub taper: Option<Figure<f64>>,
    /// Greatest spacing of cones in it.
    pub taper_spacing: Figure<f64>,
    /// Free length between taper and work space; `None` where the layout has none.
    pub buffer: Option<Figure<f64>>,
    /// Room for work, tools and vehicles.
    pub work_space: Figure<f64>,
    /// Greatest spacing of cones along buffer and work space.
    pub tangent_spacing: Figure<f64>,
    /// Taper out of the closure; `None` where the layout has none.
    pub downstream: Option<Figure<f64>>,
    /// Spacing of cones in it.
    pub short_spacing: Figure<f64>,
    /// Upstream end of the work space to the flagger, where traffic is stopped.
    pub station: Option<Figure<f64>>,
    /// Downstream end of the work space to the flagger who stops the traffic against it.
    pub opposing_station: Option<Figure<f64>>,
    /// Whether a vehicle shields the work at the upstream end of the work space.
    pub shield: bool,
}

impl Parts {
    /// Works out every length.
    pub fn of(
        input: &ZoneInput,
        layout: Layout,
        speed: f64,
        closure: &Closure,
        work: &Extent,
        rules: &TrafficRules,
    ) -> Self {
        let rule = rules.layouts.of(layout);
        let turns = layout.takes_turns();
        let kind = if layout.on_shoulder() {
            TaperKind::Shoulder
        } else if turns {
            TaperKind::OneLaneTwoWay
        } else {
            TaperKind::Merging
        };
        let cones = rule.cones.value;
        let taper = cones.then(|| taper_length(kind, closure.width(), speed, rules));
        let stopping = stopping_distance(speed, rules);
        let buffer = (cones && rule.buffer.value).then(|| stopping.clone());
        let downstream = (cones && rule.downstream_taper.value).then(|| downstream(closure.lanes, speed, rules));
        let flaggers = layout.flagger_each_end();
        let before = taper.as_ref().map_or(0.0, |t| t.value) + buffer.as_ref().map_or(0.0, |b| b.value);
        let after = downstream.as_ref().map_or(0.0, |d| d.value);
        let (work_space, ahead) = work_space(input, work, !cones, rules);
        Parts {
            origin: work.upstream - ahead,
            series: sign_series(input.section, speed, rules),
            taper_spacing: if turns { spacing::in_short_taper(rules) } else { spacing::in_taper(speed, rules) },
            tangent_spacing: spacing::in_tangent(speed, rules),
            short_spacing: spacing::in_short_taper(rules),
            station: flaggers.then(|| station(&stopping, before, "taper + buffer", rules)),
            opposing_station: (flaggers && two_way(input.section))
                .then(|| station(&stopping, after, "downstream taper", rules)),
            shield: !cones || shielded(input, rules),
            taper,
            buffer,
            work_space,
            downstream,
        }
    }

    /// Upstream end of the work space to the head of the taper.
    pub fn taper_head(&self) -> f64 {
        self.taper.as_ref().map_or(0.0, |t| t.value) + self.buffer.as_ref().map_or(0.0, |b| b.value)
    }

    /// Upstream end of the work space to where traffic is first held or moved: what the signs are measured from.
    pub fn restriction(&self) -> f64 {
        self.station.as_ref().map_or(0.0, |s| s.value).max(self.taper_head())
    }

    /// Upstream end of the work space to the last device of the closure.
    pub fn closure_end(&self) -> f64 {
        let past = self.downstream.as_ref().map_or(0.0, |d| d.value);
        self.work_space.value + past.max(self.opposing_station.as_ref().map_or(0.0, |s| s.value))
    }

    /// The parts the layout has, in the direction of traffic.
    pub fn listed(&self, rule: &LayoutRule, units: Units) -> Vec<ZonePart> {
        let ahead = rule.signs.iter().filter(|s| s.approach.worked()).filter_map(|s| self.series.at(s.place));
        let furthest = ahead.max_by(|a, b| a.value.total_cmp(&b.value));
        [
            (ZonePartKind::AdvanceWarning, furthest),
            (ZonePartKind::Taper, self.taper.as_ref()),
            (ZonePartKind::Buffer, self.buffer.as_ref()),
            (ZonePartKind::WorkSpace, Some(&self.work_space)),
            (ZonePartKind::DownstreamTaper, self.downstream.as_ref()),
        ]
        .into_iter()
        .filter_map(|(kind, length)| {
            length.map(|l| ZonePart { kind, length: l.clone().map(|length| units.length(length)) })
        })
        .collect()
    }
}

/// Whether the crew has a vehicle to spare that shields the work.
pub fn shielded(input: &ZoneInput, rules: &TrafficRules) -> bool {
    input.vehicles >= rules.work_space.shield_from_vehicles.value
}

/// The taper out, for each lane closed.
fn downstream(lanes: u32, speed: f64, rules: &TrafficRules) -> Figure<f64> {
    let mut figure = taper_length(TaperKind::Downstream, 0.0, speed, rules);
    figure.value *= f64::from(lanes.max(1));
    figure.why = figure.why.with("lanes", lanes.max(1));
    figure
}

/// A flagger stands where traffic can stop before the work space, and not inside the taper.
fn station(stopping: &Figure<f64>, taper: f64, taper_words: &str, rules: &TrafficRules) -> Figure<f64> {
    let why = Why::new(format!("work space to flagger = max(d, {taper_words})"), stopping.why.source.clone())
        .with("d", distance_words(stopping.value, rules.units))
        .with(taper_words, distance_words(taper, rules.units));
    Figure::exact(stopping.value.max(taper), why)
}

/// Length of the work space, and how much of it lies upstream of the first cut.
fn work_space(input: &ZoneInput, work: &Extent, shield: bool, rules: &TrafficRules) -> (Figure<f64>, f64) {
    let rule = &rules.work_space;
    let cuts = (work.downstream - work.upstream).max(0.0);
    let roll_ahead = if shield || shielded(input, rules) { rule.roll_ahead.value } else { 0.0 };
    let vehicles = f64::from(input.vehicles) * rule.vehicle.value;
    let ahead = rule.margin.value + vehicles + roll_ahead;
    let why = Why::new(
        "work space = cuts + 2 margin + vehicles x room + roll-ahead",
        joined(&[&Source::definition(), &rule.margin.source, &rule.vehicle.source]),
    )
    .with("cuts, first to last", distance_words(cuts, rules.units))
    .with("margin", distance_words(rule.margin.value, rules.units))
    .with("vehicles", input.vehicles)
    .with("room for each", distance_words(rule.vehicle.value, rules.units))
    .with("roll-ahead", distance_words(roll_ahead, rules.units));
    (Figure::exact(cuts + ahead + rule.margin.value, why), ahead)
}
