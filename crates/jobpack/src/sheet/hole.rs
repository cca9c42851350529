//! The sheet of one cut: drawings, quantities, the eight stages with room for what was measured.

use model::cut_out::CutOut;
use model::district::UnitSystem;
use model::figure::{Figure, Why};
use model::hole::{LanePosition, Shape, Wetness};
use model::plan::{Plan, PlannedHole, PlannedJob};
use model::quantity::{InTime, Length, Time, metres};
use model::repair::{Containers, Opening, Repair, Stage};
use serde::Serialize;

use super::{Fact, due_words, fact, loud_fact, severity_word, short_date, site_counts_line, words};
use crate::display::{Shown, Units};
use crate::drawing::job_number;
use crate::printable::{shorten, shorten_name};

#[derive(Debug, Serialize)]
pub struct HoleSheet {
    number: String,
    holes: String,
    road: String,
    chainage_rule: String,
    facts: Vec<Fact>,
    notes: Vec<String>,
    cut_drawing: String,
    section_drawing: String,
    pattern_drawing: String,
    quantities: Vec<Quantity>,
    /// The materials as the crew counts them, in one line; empty where the district has no site units.
    by_hand: String,
    stages: Vec<StageRow>,
    deeper: Vec<Deeper>,
    /// Their first words; in full they stand behind the cover.
    cautions: String,
}

#[derive(Debug, Serialize)]
struct Quantity {
    what: String,
    #[serde(flatten)]
    shown: Shown,
    how: String,
}

#[derive(Debug, Serialize)]
struct StageRow {
    number: usize,
    name: String,
    time: String,
    checks: Vec<String>,
    fields: Vec<Field>,
}

/// Room for a measured value: the label before it and the unit behind.
#[derive(Debug, Serialize)]
struct Field {
    label: String,
    unit: String,
}

#[derive(Debug, Serialize)]
struct Deeper {
    depth: String,
    layers: String,
    fill: String,
    loose: String,
    water: String,
}

pub fn hole_sheet(plan: &Plan, units: Units, job: usize, drawings: &mut Vec<(String, String)>) -> HoleSheet {
    let planned = &plan.jobs[job];
    let repair = &planned.repair;
    let [cut_drawing, section_drawing, pattern_drawing] =
        ["cut", "section", "pattern"].map(|what| format!("{what}-{job}.svg"));
    drawings.push((cut_drawing.clone(), crate::cut_plan_svg(plan, job)));
    drawings.push((section_drawing.clone(), crate::section_svg(plan, job)));
    drawings.push((pattern_drawing.clone(), crate::pattern_svg(plan, job)));
    let holes: Vec<&PlannedHole> = planned.holes.iter().map(|&h| &plan.holes[h]).collect();
    let ids: Vec<&str> = holes.iter().map(|h| h.hole.id.0.as_str()).collect();
    let site = &plan.sites[planned.site];
    let named = ids.len().min(6);
    let names: Vec<String> = ids[..named].iter().map(|id| shorten_name(id, 60 / named.max(1))).collect();
    let names = match ids.len() - named {
        0 => names.join(", "),
        more => {
            units.words.say_with("sheet-names-and-more", [("names", names.join(", ").into()), ("count", more.into())])
        }
    };
    HoleSheet {
        number: job_number(plan, job),
        holes: names,
        road: shorten(&plan.network.section(site.zone.section).label(), 70),
        chainage_rule: words::chainage_rule(units, &site.chainage_from, &site.chainage_towards),
        facts: facts(plan, units, planned, &holes),
        notes: notes(units, planned, &holes),
        cut_drawing,
        section_drawing,
        pattern_drawing,
        quantities: quantities(units, planned),
        by_hand: site_counts_line(units, &repair.site_counts),
        stages: stages(plan, units, repair),
        deeper: deeper(units, repair),
        cautions: caution_heads(units, &repair.cautions),
    }
}

/// `1.25 × 0.85 m`, or each side with its own unit in feet and inches; with notches, the rectangle around it and how many
/// corners there are.
pub fn size_words(units: Units, cut: &CutOut) -> String {
    let size = units.by(cut.length, cut.width);
    match cut.corners.len() {
        0..=4 => size,
        corners => units.words.say_with("sheet-size-corners", [("size", size.into()), ("corners", corners.into())]),
    }
}

fn facts(plan: &Plan, units: Units, job: &PlannedJob, holes: &[&PlannedHole]) -> Vec<Fact> {
    let first = holes.first();
    let position = first.map(|h| h.position);
    let worst = holes.iter().filter_map(|h| h.judgement.severity).max();
    let due = holes.iter().filter_map(|h| h.judgement.due).min();
    let diagonal = job.cut.length.value.hypot(job.cut.width.value);
    let site = &plan.sites[job.site];
    let overdue = due.is_some_and(|day| day < plan.date);
    let diagonals = if job.cut.corners.len() == 4 { units.side(metres(diagonal)) } else { "–".into() };
    vec![
        fact(units, "sheet-fact-latitude", words::degrees(units, job.centre)),
        fact(
            units,
            "sheet-fact-chainage",
            position.map_or_else(|| "–".into(), |p| words::chainage(plan, units, site, p.chainage)),
        ),
        fact(units, "sheet-fact-place", place_words(units, holes)),
        fact(units, "sheet-fact-reported", reported(units, holes)),
        loud_fact(
            units,
            "sheet-fact-mend-by",
            due.map_or_else(|| "–".into(), |day| due_words(units, plan.date, day)),
            overdue,
        ),
        fact(units, "sheet-fact-work", units.duration(job.repair.duration.value)),
        fact(units, "sheet-fact-diagonals", diagonals),
        fact(units, "sheet-fact-severity", severity_word(units, worst)),
        fact(units, "sheet-fact-compact-with", shorten(&words::compactor(units, &job.repair.compactor), 130)),
    ]
}

fn place_words(units: Units, holes: &[&PlannedHole]) -> String {
    let Some(first) = holes.first() else { return "–".into() };
    let side = words::side(units, first.position.side);
    let lane = match first.hole.lane_position {
        Some(LanePosition::WheelPath) => "sheet-place-wheel-path",
        Some(LanePosition::Edge) => "sheet-place-edge",
        Some(LanePosition::Shoulder) => "sheet-place-shoulder",
        Some(LanePosition::Centre) => "sheet-place-centre",
        Some(LanePosition::Lane) | None => "sheet-place-lane",
    };
    units.list(&[side, units.words.say(lane)])
}

/// The size, or how many holes share the cut.
fn reported(units: Units, holes: &[&PlannedHole]) -> String {
    let wettest = holes.iter().filter_map(|h| h.hole.wetness).max();
    let what = match holes {
        [] => return "–".into(),
        [one] => size_of(units, one),
        _ => units.counted("sheet-holes-in-one-cut", holes.len()),
    };
    match wettest {
        Some(wetness) => units.list(&[what, wetness_word(units, wetness)]),
        None => what,
    }
}

fn wetness_word(units: Units, wetness: Wetness) -> String {
    units.words.say(match wetness {
        Wetness::Dry => "sheet-wetness-dry",
        Wetness::Damp => "sheet-wetness-damp",
        Wetness::Wet => "sheet-wetness-wet",
        Wetness::Seepage => "sheet-wetness-seepage",
        Wetness::Pumping => "sheet-wetness-pumping",
    })
}

fn size_of(units: Units, hole: &PlannedHole) -> String {
    let size = match &hole.hole.shape {
        Shape::Size { length, width } => units.by(*length, *width),
        Shape::Outline(_) => units.words.say("sheet-outline"),
    };
    let depth = units.depth(hole.hole.depth);
    units.words.say_with("sheet-size-deep", [("size", size.into()), ("depth", depth.into())])
}

/// Each hole's size, or what all of them range over.
fn in_one_cut(units: Units, holes: &[&PlannedHole]) -> Option<String> {
    const EACH_UP_TO: usize = 4;
    match holes.len() {
        0 | 1 => None,
        2..=EACH_UP_TO => Some(
            holes
                .iter()
                .map(|h| format!("{}: {}", shorten_name(&h.hole.id.0, 20), size_of(units, h)))
                .collect::<Vec<_>>()
                .join("; "),
        ),
        count => {
            let over = |show: fn(Units, Length) -> String, get: &dyn Fn(&PlannedHole) -> Option<Length>| {
                let all = || holes.iter().filter_map(|h| get(h));
                let low = all().min_by(|a, b| a.value.total_cmp(&b.value))?;
                let high = all().max_by(|a, b| a.value.total_cmp(&b.value))?;
                let (low, high) = (show(units, low), show(units, high));
                Some(if low == high { low } else { units.range(&low, &high) })
            };
            let side = |first: bool| {
                move |h: &PlannedHole| match &h.hole.shape {
                    Shape::Size { length, width } => Some(if first { *length } else { *width }),
                    Shape::Outline(_) => None,
                }
            };
            let parts = [
                ("sheet-so-long", over(Units::side, &side(true))),
                ("sheet-so-wide", over(Units::side, &side(false))),
                ("sheet-so-deep", over(Units::depth, &|h| Some(h.hole.depth))),
            ];
            let parts: Vec<String> = parts
                .into_iter()
                .filter_map(|(message, range)| Some(units.words.say_with(message, [("range", range?.into())])))
                .collect();
            let sizes = units.list(&parts);
            Some(units.words.say_with("sheet-holes-of-one-cut", [("count", count.into()), ("sizes", sizes.into())]))
        }
    }
}

fn notes(units: Units, job: &PlannedJob, holes: &[&PlannedHole]) -> Vec<String> {
    let worst = holes.iter().max_by(|a, b| a.judgement.risk.value.total_cmp(&b.judgement.risk.value));
    let mut notes: Vec<String> = worst.map(|hole| judged(hole, holes.len() > 1)).into_iter().collect();
    notes.extend(in_one_cut(units, holes));
    notes.extend(holes.iter().filter_map(|hole| reported_often(units, hole)).take(3));
    notes.extend(
        holes
            .iter()
            .filter(|h| !h.hole.note.trim().is_empty())
            .take(3)
            .map(|h| format!("{}: “{}”", shorten_name(&h.hole.id.0, 20), shorten(h.hole.note.trim(), 110))),
    );
    notes.extend(job.cut.remarks.iter().take(3).chain(&job.repair.remarks).map(|r| shorten(&units.rule_text(r), 130)));
    notes
}

/// `H012 reported 3 times, first 2 May: P03 (public, 4.1 m along, same side, 2 days apart)`.
fn reported_often(units: Units, hole: &PlannedHole) -> Option<String> {
    const NAMED: usize = 3;
    let others = hole.reports.get(1..).filter(|others| !others.is_empty())?;
    let mut told: Vec<String> = others
        .iter()
        .take(NAMED)
        .map(|report| {
            let source = if report.source.is_empty() { String::new() } else { format!("{}, ", report.source) };
            format!("{} ({source}{})", shorten_name(&report.id.0, 20), report.words)
        })
        .collect();
    if others.len() > NAMED {
        told.push(units.counted("sheet-reports-more", others.len() - NAMED));
    }
    let name = shorten_name(&hole.hole.id.0, 20);
    let values = [("name", name.into()), ("count", hole.reports.len().into()), ("reports", told.join("; ").into())];
    let said = match hole.hole.seen {
        None => units.words.say_with("sheet-reported-often", values),
        Some(day) => {
            let [name, count, reports] = values;
            let first = ("first", short_date(units, day).into());
            units.words.say_with("sheet-reported-often-since", [name, count, reports, first])
        }
    };
    Some(shorten(&said, 300))
}

/// The judgement to be read aloud; of several holes that of the most pressing.
fn judged(hole: &PlannedHole, is_one_of_many: bool) -> String {
    let name = if is_one_of_many { format!("{}: ", shorten_name(&hole.hole.id.0, 20)) } else { String::new() };
    shorten(&format!("{name}{}", hole.judgement.sentence), 160)
}

/// The words before the colon of each caution.
fn caution_heads(units: Units, cautions: &[String]) -> String {
    let head = |caution: &String| {
        let caution = units.rule_text(caution);
        let head = caution.split_once(':').map_or(caution.as_str(), |(head, _)| head);
        shorten(head.trim_end(), 60)
    };
    cautions.iter().map(head).collect::<Vec<_>>().join("; ")
}

fn quantities(units: Units, job: &PlannedJob) -> Vec<Quantity> {
    let repair = &job.repair;
    let count = |_: Units, n: u32| n.to_string();
    let time = |units: Units, t: Time| units.duration(t);
    let mut rows = vec![
        row("sheet-quantity-cut-area", units, &repair.cut_area, Units::area),
        row("sheet-quantity-cut-length", units, &job.cut.perimeter, Units::side),
        row("sheet-quantity-depth", units, &repair.depth, Units::depth),
        row("sheet-quantity-layers", units, &repair.layer_count, count),
        row("sheet-quantity-layer-compacted", units, &repair.layer_thickness, Units::depth),
        row("sheet-quantity-layer-loose", units, &repair.loose_layer_thickness, Units::depth),
        row("sheet-quantity-base-compacted", units, &repair.fill_volume, Units::solid),
        row("sheet-quantity-base-loose", units, &repair.loose_volume, Units::solid),
        row("sheet-quantity-base-dry", units, &repair.fill_dry_mass, Units::mass),
        row("sheet-quantity-base-stock", units, &repair.fill_wet_mass, Units::mass),
        row("sheet-quantity-water", units, &repair.water_to_add, Units::water),
        passes_row(units, repair),
        row("sheet-quantity-rolling", units, &repair.rolling_time, time),
        row("sheet-quantity-seal-area", units, &repair.seal_area, Units::area),
        row("sheet-quantity-binder-rate", units, &repair.binder_rate, Units::binder_rate),
        hot_binder(units, repair),
        row("sheet-quantity-stone-rate", units, &repair.cover_rate, Units::cover_rate),
        row("sheet-quantity-stone", units, &repair.cover_mass, Units::mass),
        row("sheet-quantity-stone-loose", units, &repair.cover_volume, Units::solid),
        row("sheet-quantity-spoil-loose", units, &repair.spoil_volume, Units::solid),
        row("sheet-quantity-spoil-mass", units, &repair.spoil_mass, Units::mass),
    ];
    if repair.water_to_dry.value.value > 0.0 {
        rows.insert(11, row("sheet-quantity-water-to-dry", units, &repair.water_to_dry, Units::water));
    }
    rows
}

fn passes_row(units: Units, repair: &Repair) -> Quantity {
    let how = units.words.say_with(
        "sheet-passes-how",
        [("lanes", repair.lanes_across.value.into()), ("compactor", words::compactor(units, &repair.compactor).into())],
    );
    let what = units.words.say("sheet-quantity-passes");
    Quantity { what, shown: Shown::exact(passes_of(units, repair)), how: shorten(&how, LINE) }
}

/// What it is filled in, where binder is carried to the cut; else how it was worked out.
fn hot_binder(units: Units, repair: &Repair) -> Quantity {
    let mut row = row("sheet-quantity-binder-hot", units, &repair.binder_volume_hot, Units::liquid);
    let Containers { counts, left_over } = &repair.binder_containers.value;
    if !counts.is_empty() {
        let each = counts.iter().map(|c| {
            let values =
                [("count", c.count.into()), ("name", (&c.name).into()), ("volume", units.liquid(c.volume).into())];
            units.words.say_with("sheet-container", values)
        });
        let both =
            |a: String, b: String| units.words.say_with("sheet-both", [("first", a.into()), ("second", b.into())]);
        let filled = each.reduce(both).unwrap_or_default();
        let values = [("containers", filled.into()), ("rest", units.liquid(*left_over).into())];
        row.how = shorten(&units.words.say_with("sheet-containers", values), LINE);
    }
    row
}

fn passes_of(units: Units, repair: &Repair) -> String {
    units.passes(repair.static_passes.value, repair.vibrating_passes.value)
}

fn row<Q: Copy>(what: &str, units: Units, figure: &Figure<Q>, format: impl Fn(Units, Q) -> String) -> Quantity {
    Quantity { what: units.words.say(what), shown: units.shown(figure, format), how: how_worked_out(&figure.why) }
}

/// Characters of the working-out that a line holds.
const LINE: usize = 72;

/// The rule, and as many of its inputs as the line holds; all of them stand in `plan.json`.
fn how_worked_out(why: &Why) -> String {
    let mut line = shorten(&why.rule, LINE);
    for (index, (name, value)) in why.inputs.iter().enumerate() {
        let more = format!("{}{name} = {value}", if index == 0 { "; " } else { ", " });
        if line.chars().count() + more.chars().count() > LINE {
            break;
        }
        line.push_str(&more);
    }
    line
}

fn stages(plan: &Plan, units: Units, repair: &Repair) -> Vec<StageRow> {
    Stage::ALL
        .into_iter()
        .enumerate()
        .map(|(index, stage)| {
            let time = repair.stages.iter().find(|s| s.stage == stage).map(|s| units.duration(s.time.value));
            let (checks, fields) = stage_words(plan, units, repair, stage);
            StageRow {
                number: index + 1,
                name: units.words.say(stage_key(stage)),
                time: time.unwrap_or_default(),
                checks,
                fields,
            }
        })
        .collect()
}

fn stage_key(stage: Stage) -> &'static str {
    match stage {
        Stage::TrafficControlOut => "sheet-stage-traffic-control-out",
        Stage::MarkOut => "sheet-stage-mark-out",
        Stage::CutOut => "sheet-stage-cut-out",
        Stage::Fill => "sheet-stage-fill",
        Stage::Compact => "sheet-stage-compact",
        Stage::Seal => "sheet-stage-seal",
        Stage::CleanUp => "sheet-stage-clean-up",
        Stage::TrafficControlIn => "sheet-stage-traffic-control-in",
    }
}

/// Units that are written behind what was measured.
struct Measured {
    small: &'static str,
    side: &'static str,
    liquid: &'static str,
    mass: &'static str,
    degrees: &'static str,
}

impl Measured {
    const SI: Measured =
        Measured { small: "unit-mm", side: "unit-m", liquid: "unit-l", mass: "unit-kg", degrees: "unit-celsius" };
    const CUSTOMARY: Measured =
        Measured { small: "unit-in", side: "unit-ft", liquid: "unit-gal", mass: "unit-lb", degrees: "unit-fahrenheit" };
}

/// What is looked at and what is written down at each stage (the eight stages are common practice of the trade).
fn stage_words(plan: &Plan, units: Units, repair: &Repair, stage: Stage) -> (Vec<String>, Vec<Field>) {
    let said = |key: &str| if key.is_empty() { String::new() } else { units.words.say(key) };
    let field = |label: &str, unit: &str| Field { label: said(label), unit: said(unit) };
    let texts = |keys: &[&str]| keys.iter().map(|key| said(key)).collect::<Vec<_>>();
    let Measured { small, side, liquid, mass, degrees } =
        if units.system == UnitSystem::Si { Measured::SI } else { Measured::CUSTOMARY };
    let layers = repair.layer_count.value.clamp(1, 4);
    let of_layer = |message: &str, layer: u32, unit: &str| Field {
        label: units.words.say_with(message, [("layer", layer.into())]),
        unit: said(unit),
    };
    match stage {
        Stage::TrafficControlOut => {
            (texts(&["sheet-check-stands", "sheet-check-driven"]), vec![field("sheet-field-time", "")])
        }
        Stage::MarkOut => (
            texts(&["sheet-check-services", "sheet-check-cleaned", "sheet-check-lines"]),
            vec![field("sheet-field-long", side), field("sheet-field-wide", side), field("sheet-field-photo", "")],
        ),
        Stage::CutOut => (
            texts(&["sheet-check-outwards", "sheet-check-upright", "sheet-check-bottom", "sheet-check-spoil"]),
            vec![
                field("sheet-field-depth-found", small),
                field("", small),
                field("", small),
                field("", small),
                field("sheet-field-photo", ""),
            ],
        ),
        Stage::Fill => {
            let mut checks = texts(&["sheet-check-falls-apart", "sheet-check-keeps-shape", "sheet-check-oozes"]);
            let loose = units.depth(repair.loose_layer_thickness.value);
            checks.push(units.words.say_with("sheet-check-loose", [("thickness", loose.into())]));
            let mut fields =
                vec![field("sheet-field-moisture", "sheet-field-percent"), field("sheet-field-water", liquid)];
            fields.extend((1..=layers).map(|layer| of_layer("sheet-field-layer", layer, small)));
            (checks, fields)
        }
        Stage::Compact => {
            let mut checks = Vec::new();
            if !repair.compactor.is_empty() {
                let machine = words::machine(units, words::compactor_name(&repair.compactor));
                checks.push(units.words.say_with("sheet-check-compactor", [("machine", machine.into())]));
            }
            checks.extend(texts(&["sheet-check-edges", "sheet-check-corners"]));
            checks.push(units.words.say_with("sheet-check-passes", [("passes", passes_of(units, repair).into())]));
            let proud = [&repair.crown.loose_at_sides, &repair.crown.loose_in_middle].map(|f| units.depth(f.value));
            let proud = units.range(&proud[0], &proud[1]);
            checks.push(units.words.say_with("sheet-check-proud", [("proud", proud.into())]));
            let mut fields: Vec<Field> = (1..=layers).map(|layer| of_layer("sheet-field-passes", layer, "")).collect();
            fields.push(field("sheet-field-proud", small));
            (checks, fields)
        }
        Stage::Seal => {
            let mut checks = texts(&["sheet-check-clean-dry"]);
            let hot = units.temperature(plan.district.binder.spray_temperature_c);
            checks.push(units.words.say_with("sheet-check-binder-at", [("temperature", hot.into())]));
            checks.extend(texts(&["sheet-check-stone", "sheet-check-bedded"]));
            let fields = vec![
                field("sheet-field-binder", degrees),
                field("", liquid),
                field("sheet-field-stone", mass),
                field("sheet-field-crown", small),
                field("sheet-field-photo", ""),
            ];
            (checks, fields)
        }
        Stage::CleanUp => {
            let [first, second] = [repair.opening.sweep_after.value, repair.opening.sweep_again_after.value].map(hours);
            let mut checks = texts(&["sheet-check-swept"]);
            checks.push(
                units.words.say_with("sheet-check-swept-again", [("first", first.into()), ("second", second.into())]),
            );
            checks.extend(texts(&["sheet-check-tools"]));
            (checks, vec![field("sheet-field-photo", "")])
        }
        Stage::TrafficControlIn => {
            let mut checks = texts(&["sheet-check-reverse", "sheet-check-count"]);
            checks.push(opening_words(units, &repair.opening));
            (checks, vec![field("sheet-field-time", "")])
        }
    }
}

/// When traffic may come on, and how fast. What a colder surface takes stands among the cautions.
fn opening_words(units: Units, opening: &Opening) -> String {
    let values = [
        ("wait", units.duration(opening.open_after.value).into()),
        ("speed", units.speed(opening.speed.value).into()),
        ("hours", hours(opening.slow_for.value).into()),
    ];
    units.words.say_with("sheet-check-opened", values)
}

fn hours(time: Time) -> String {
    format!("{:.0}", time.in_hours())
}

fn deeper(units: Units, repair: &Repair) -> Vec<Deeper> {
    repair
        .deeper
        .iter()
        .take(6)
        .map(|row| Deeper {
            depth: units.depth(row.depth),
            layers: format!("{} × {}", row.layer_count, units.depth(row.layer_thickness)),
            fill: units.solid(row.fill_volume),
            loose: units.solid(row.loose_volume),
            water: units.water(row.water_to_add),
        })
        .collect()
}
