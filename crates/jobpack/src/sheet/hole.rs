//! The sheet of one cut: drawings, quantities, the eight stages with room for what was measured.

use model::cut_out::CutOut;
use model::figure::{Figure, Why};
use model::hole::{LanePosition, Shape};
use model::place::Side;
use model::plan::{Plan, PlannedHole, PlannedJob};
use model::quantity::{InTime, Length, Time, metres};
use model::repair::{Containers, Opening, Repair, Stage};
use model::triage::Severity;
use serde::Serialize;

use super::{Fact, counted, due_words, fact, loud_fact, short_date, site_counts_line, words};
use crate::display::{Shown, Units, duration, passes, range};
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
    what: &'static str,
    #[serde(flatten)]
    shown: Shown,
    how: String,
}

#[derive(Debug, Serialize)]
struct StageRow {
    number: usize,
    name: &'static str,
    time: String,
    checks: Vec<String>,
    fields: Vec<Field>,
}

/// Room for a measured value: the label before it and the unit behind.
#[derive(Debug, Serialize)]
struct Field {
    label: String,
    unit: &'static str,
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
    let more = if ids.len() > named { format!(" and {} more", ids.len() - named) } else { String::new() };
    let names: Vec<String> = ids[..named].iter().map(|id| shorten_name(id, 60 / named.max(1))).collect();
    HoleSheet {
        number: job_number(plan, job),
        holes: format!("{}{more}", names.join(", ")),
        road: shorten(&plan.network.section(site.zone.section).label(), 70),
        chainage_rule: words::chainage_rule(site),
        facts: facts(plan, units, planned, &holes),
        notes: notes(units, planned, &holes),
        cut_drawing,
        section_drawing,
        pattern_drawing,
        quantities: quantities(units, planned),
        by_hand: site_counts_line(&repair.site_counts),
        stages: stages(plan, units, repair),
        deeper: deeper(units, repair),
        cautions: caution_heads(&repair.cautions),
    }
}

/// `1.25 × 0.85 m`, or each side with its own unit in feet and inches; with notches, the rectangle around it and how many
/// corners there are.
pub fn size_words(units: Units, cut: &CutOut) -> String {
    let (length, width) = (units.side(cut.length), units.side(cut.width));
    let size = match (length.strip_suffix(" m"), width.strip_suffix(" m")) {
        (Some(l), Some(_)) => format!("{l} × {width}"),
        _ => format!("{length} × {width}"),
    };
    match cut.corners.len() {
        0..=4 => size,
        corners => format!("{size}, {corners} corners"),
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
        fact("latitude, longitude", words::degrees(job.centre)),
        fact("chainage", position.map_or_else(|| "–".into(), |p| words::chainage(plan, units, site, p.chainage))),
        fact("place", place_words(holes)),
        fact("reported", reported(units, holes)),
        loud_fact("mend by", due.map_or_else(|| "–".into(), |day| due_words(plan.date, day)), overdue),
        fact("work", duration(job.repair.duration.value)),
        fact("diagonals", diagonals),
        fact("severity", Severity::word(worst)),
        fact("compact with", shorten(&job.repair.compactor, 130)),
    ]
}

fn place_words(holes: &[&PlannedHole]) -> String {
    let Some(first) = holes.first() else { return "–".into() };
    let side = match first.position.side {
        Side::Left => "left",
        Side::Right => "right",
    };
    let lane = match first.hole.lane_position {
        Some(LanePosition::WheelPath) => ", wheel path",
        Some(LanePosition::Edge) => ", edge",
        Some(LanePosition::Shoulder) => ", shoulder",
        Some(LanePosition::Centre) => ", centre line",
        Some(LanePosition::Lane) | None => ", lane",
    };
    format!("{side}{lane}")
}

/// The size, or how many holes share the cut.
fn reported(units: Units, holes: &[&PlannedHole]) -> String {
    let wettest = holes.iter().filter_map(|h| h.hole.wetness).max();
    let wet = wettest.map(|wetness| format!(", {}", wetness.word())).unwrap_or_default();
    match holes {
        [] => "–".into(),
        [one] => format!("{}{wet}", size_of(units, one)),
        _ => format!("{} in one cut, see below{wet}", counted(holes.len(), "hole", "holes")),
    }
}

fn size_of(units: Units, hole: &PlannedHole) -> String {
    let size = match &hole.hole.shape {
        Shape::Size { length, width } => {
            let (l, w) = (units.side(*length), units.side(*width));
            l.strip_suffix(" m").map_or_else(|| format!("{l} × {w}"), |short| format!("{short} × {w}"))
        }
        Shape::Outline(_) => "outline".into(),
    };
    format!("{size}, {} deep", units.depth(hole.hole.depth))
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
                Some(if low == high { low } else { range(&low, &high) })
            };
            let side = |first: bool| {
                move |h: &PlannedHole| match &h.hole.shape {
                    Shape::Size { length, width } => Some(if first { *length } else { *width }),
                    Shape::Outline(_) => None,
                }
            };
            let parts = [
                over(Units::side, &side(true)).map(|r| format!("{r} long")),
                over(Units::side, &side(false)).map(|r| format!("{r} wide")),
                over(Units::depth, &|h| Some(h.hole.depth)).map(|r| format!("{r} deep")),
            ];
            let parts: Vec<String> = parts.into_iter().flatten().collect();
            Some(format!("{count} holes in one cut: {}", parts.join(", ")))
        }
    }
}

fn notes(units: Units, job: &PlannedJob, holes: &[&PlannedHole]) -> Vec<String> {
    let worst = holes.iter().max_by(|a, b| a.judgement.risk.value.total_cmp(&b.judgement.risk.value));
    let mut notes: Vec<String> = worst.map(|hole| judged(hole, holes.len() > 1)).into_iter().collect();
    notes.extend(in_one_cut(units, holes));
    notes.extend(holes.iter().filter_map(|hole| reported_often(hole)).take(3));
    notes.extend(
        holes
            .iter()
            .filter(|h| !h.hole.note.trim().is_empty())
            .take(3)
            .map(|h| format!("{}: “{}”", shorten_name(&h.hole.id.0, 20), shorten(h.hole.note.trim(), 110))),
    );
    notes.extend(job.cut.remarks.iter().take(3).chain(&job.repair.remarks).map(|r| shorten(r, 130)));
    notes
}

/// `H012 reported 3 times, first 2 May: P03 (public, 4.1 m along, same side, 2 days apart)`.
fn reported_often(hole: &PlannedHole) -> Option<String> {
    const NAMED: usize = 3;
    let others = hole.reports.get(1..).filter(|others| !others.is_empty())?;
    let first = hole.hole.seen.map(|day| format!(", first {}", short_date(day))).unwrap_or_default();
    let mut told: Vec<String> = others
        .iter()
        .take(NAMED)
        .map(|report| {
            let source = if report.source.is_empty() { String::new() } else { format!("{}, ", report.source) };
            format!("{} ({source}{})", shorten_name(&report.id.0, 20), report.words)
        })
        .collect();
    if others.len() > NAMED {
        told.push(format!("{} more in plan.json", others.len() - NAMED));
    }
    let name = shorten_name(&hole.hole.id.0, 20);
    Some(shorten(&format!("{name} reported {} times{first}: {}", hole.reports.len(), told.join("; ")), 300))
}

/// The judgement to be read aloud; of several holes that of the most pressing.
fn judged(hole: &PlannedHole, is_one_of_many: bool) -> String {
    let name = if is_one_of_many { format!("{}: ", shorten_name(&hole.hole.id.0, 20)) } else { String::new() };
    shorten(&format!("{name}{}", hole.judgement.sentence), 160)
}

/// The words before the colon of each caution.
fn caution_heads(cautions: &[String]) -> String {
    let head = |c: &String| c.split_once(':').map_or_else(|| shorten(c, 60), |(head, _)| shorten(head, 60));
    cautions.iter().map(head).collect::<Vec<_>>().join("; ")
}

fn quantities(units: Units, job: &PlannedJob) -> Vec<Quantity> {
    let repair = &job.repair;
    let count = |_: Units, n: u32| n.to_string();
    let time = |_: Units, t: Time| duration(t);
    let mut rows = vec![
        row("cut, area", units, &repair.cut_area, Units::area),
        row("cut, length to saw or pick", units, &job.cut.perimeter, Units::side),
        row("depth of the dug hole", units, &repair.depth, Units::depth),
        row("layers", units, &repair.layer_count, count),
        row("one layer, compacted", units, &repair.layer_thickness, Units::depth),
        row("one layer, placed loose", units, &repair.loose_layer_thickness, Units::depth),
        row("base, compacted, with crown", units, &repair.fill_volume, Units::solid),
        row("base, loose to place", units, &repair.loose_volume, Units::solid),
        row("base, dry mass", units, &repair.fill_dry_mass, Units::mass),
        row("base, from the stock", units, &repair.fill_wet_mass, Units::mass),
        row("water to add", units, &repair.water_to_add, Units::water),
        passes_row(repair),
        row("rolling, all layers", units, &repair.rolling_time, time),
        row("new seal, area", units, &repair.seal_area, Units::area),
        row("binder rate", units, &repair.binder_rate, Units::binder_rate),
        hot_binder(units, repair),
        row("cover stone rate", units, &repair.cover_rate, Units::cover_rate),
        row("cover stone", units, &repair.cover_mass, Units::mass),
        row("cover stone, loose", units, &repair.cover_volume, Units::solid),
        row("spoil, loose", units, &repair.spoil_volume, Units::solid),
        row("spoil, mass", units, &repair.spoil_mass, Units::mass),
    ];
    if repair.water_to_dry.value.value > 0.0 {
        rows.insert(11, row("water to dry out first", units, &repair.water_to_dry, Units::water));
    }
    rows
}

fn passes_row(repair: &Repair) -> Quantity {
    let how = shorten(&format!("each layer, {}; {}", lanes(repair.lanes_across.value), repair.compactor), LINE);
    Quantity { what: "passes", shown: Shown::exact(passes_of(repair)), how }
}

/// What it is filled in, where binder is carried to the cut; else how it was worked out.
fn hot_binder(units: Units, repair: &Repair) -> Quantity {
    let mut row = row("binder, hot", units, &repair.binder_volume_hot, Units::liquid);
    let Containers { counts, left_over } = &repair.binder_containers.value;
    if !counts.is_empty() {
        let each = counts.iter().map(|c| format!("{} × {} of {}", c.count, c.name, units.liquid(c.volume)));
        let filled = format!("{}; {} left over", each.collect::<Vec<_>>().join(" and "), units.liquid(*left_over));
        row.how = shorten(&filled, LINE);
    }
    row
}

fn passes_of(repair: &Repair) -> String {
    passes(repair.static_passes.value, repair.vibrating_passes.value)
}

fn lanes(count: u32) -> String {
    if count == 1 { "1 lane across".into() } else { format!("{count} lanes across") }
}

fn row<Q: Copy>(what: &'static str, units: Units, figure: &Figure<Q>, format: impl Fn(Units, Q) -> String) -> Quantity {
    Quantity { what, shown: units.shown(figure, format), how: how_worked_out(&figure.why) }
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
            let time = repair.stages.iter().find(|s| s.stage == stage).map(|s| duration(s.time.value));
            let (checks, fields) = stage_words(plan, units, repair, stage);
            StageRow { number: index + 1, name: stage.words(), time: time.unwrap_or_default(), checks, fields }
        })
        .collect()
}

/// What is looked at and what is written down at each stage (the eight stages are common practice of the trade).
fn stage_words(plan: &Plan, units: Units, repair: &Repair, stage: Stage) -> (Vec<String>, Vec<Field>) {
    let si = units.0 == model::district::UnitSystem::Si;
    let (small, side, liquid, mass, degrees) =
        if si { ("mm", "m", "L", "kg", "°C") } else { ("in", "ft", "gal", "lb", "°F") };
    let field = |label: &str, unit: &'static str| Field { label: label.into(), unit };
    let texts = |texts: &[&str]| texts.iter().map(|t| (*t).to_owned()).collect::<Vec<_>>();
    let layers = repair.layer_count.value.clamp(1, 4);
    match stage {
        Stage::TrafficControlOut => {
            (texts(&["stands as on the zone sheet", "driven through and looked at"]), vec![field("time", "")])
        }
        Stage::MarkOut => (
            texts(&["services marked", "hole cleaned, looked at", "lines straight, square, in sound seal"]),
            vec![field("long", side), field("wide", side), field("photo", "")],
        ),
        Stage::CutOut => (
            texts(&[
                "from the middle outwards",
                "sides upright in 4 places",
                "bottom firm and flat",
                "spoil on the truck",
            ]),
            vec![field("depth found", small), field("", small), field("", small), field("", small), field("photo", "")],
        ),
        Stage::Fill => {
            let mut checks =
                texts(&["in the hand: falls apart, add water", "keeps its shape", "oozes, spread and dry"]);
            checks.push(format!("{} loose per layer", units.depth(repair.loose_layer_thickness.value)));
            let mut fields = vec![field("moisture", "%"), field("water", liquid)];
            fields.extend((1..=layers).map(|l| Field { label: format!("layer {l}"), unit: small }));
            (checks, fields)
        }
        Stage::Compact => {
            let mut checks = Vec::new();
            if !repair.compactor.is_empty() {
                checks.push(format!("with the {}", words::compactor_name(&repair.compactor)));
            }
            checks.extend(texts(&["edges kept from the drum", "corners first, then inwards"]));
            checks.push(format!("each layer {}", passes_of(repair)));
            let proud = [&repair.crown.loose_at_sides, &repair.crown.loose_in_middle].map(|f| units.depth(f.value));
            checks.push(format!("last layer placed {} proud", range(&proud[0], &proud[1])));
            let mut fields: Vec<Field> =
                (1..=layers).map(|l| Field { label: format!("passes {l}:"), unit: "" }).collect();
            fields.push(field("stands proud", small));
            (checks, fields)
        }
        Stage::Seal => {
            let mut checks = texts(&["clean and dry"]);
            checks.push(format!("binder at {}", units.temperature(plan.district.binder.spray_temperature_c)));
            checks.extend(texts(&["stone at once, one layer", "rolled until bedded"]));
            let fields = vec![
                field("binder", degrees),
                field("", liquid),
                field("stone", mass),
                field("crown", small),
                field("photo", ""),
            ];
            (checks, fields)
        }
        Stage::CleanUp => {
            let again = [repair.opening.sweep_after.value, repair.opening.sweep_again_after.value].map(hours);
            let mut checks = texts(&["swept: road, shoulder, drains"]);
            checks.push(format!("again after {}, {} h", again[0], again[1]));
            checks.extend(texts(&["tools and material counted back"]));
            (checks, vec![field("photo", "")])
        }
        Stage::TrafficControlIn => {
            let mut checks = texts(&["reverse order", "count in = count out"]);
            checks.push(opening_words(units, &repair.opening));
            (checks, vec![field("time", "")])
        }
    }
}

/// When traffic may come on, and how fast. What a colder surface takes stands among the cautions.
fn opening_words(units: Units, opening: &Opening) -> String {
    let (wait, speed) = (duration(opening.open_after.value), units.speed(opening.speed.value));
    format!("opened {wait} after the stone, {speed} for {} h", hours(opening.slow_for.value))
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
