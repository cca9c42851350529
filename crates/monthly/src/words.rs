//! All words of the report, in one place: what it says, in sentences and tables ready to be placed.

use jiff::civil::Date;
use model::district::UnitSystem;
use model::month_report::{
    MonthLeft, MonthReport, ReportSheet, SheetPlot, SheetSection, SheetTable, StopLine, Working,
};

use crate::report::{MonthFacts, working};

/// Square feet of a square metre, cubic feet of a cubic metre, US gallons of a litre, feet of a metre: by definition.
const FT2: f64 = 10.763_910_4;
const FT3: f64 = 35.314_666_7;
const GALLONS: f64 = 0.264_172_052;
const FEET: f64 = 3.280_839_9;

/// Roads listed under what was done at most.
const ROADS_SHOWN: usize = 12;

/// Plots of what lasts at most.
const PLOTS_SHOWN: usize = 4;

const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

/// The report in words.
pub fn sheet(report: &MonthReport) -> ReportSheet {
    let title = format!("{} {}", month_name(report.month), report.month.year());
    let until = if report.goes_on {
        format!(" The month goes on: what counts is what was told up to {}.", report.until)
    } else {
        String::new()
    };
    ReportSheet {
        district: report.district.clone(),
        about: format!(
            "Patching of surface-treated roads: what was done, what it cost, what is left and what lasts.{until}"
        ),
        footer: format!(
            "lengthsman {}, made from the record up to event {}",
            env!("CARGO_PKG_VERSION"),
            report.made_from
        ),
        paper: report.paper,
        sections: vec![
            done(report),
            cost(report),
            stock(report),
            left(report),
            lasts(report),
            stop(report),
            workings_section(report),
        ],
        title,
    }
}

fn done(report: &MonthReport) -> SheetSection {
    let done = &report.done;
    let area = if done.with_area == done.repairs {
        area(report, done.area_m2)
    } else {
        format!("{} of {} repairs", area(report, done.area_m2), done.with_area)
    };
    let shown = done.roads.iter().take(ROADS_SHOWN);
    let mut rows: Vec<Vec<String>> = shown
        .map(|road| {
            vec![
                named(&road.road),
                road.repairs.to_string(),
                self::area(report, road.area_m2),
                money(report, road.cost),
            ]
        })
        .collect();
    if done.roads.len() > ROADS_SHOWN {
        let rest = &done.roads[ROADS_SHOWN..];
        rows.push(vec![
            format!("{} more roads", rest.len()),
            rest.iter().map(|road| road.repairs).sum::<usize>().to_string(),
            self::area(report, rest.iter().map(|road| road.area_m2).sum()),
            money(report, rest.iter().map(|road| road.cost).sum()),
        ]);
    }
    SheetSection {
        heading: "What was done".into(),
        facts: vec![
            fact("repairs opened to traffic", done.repairs.to_string()),
            fact("area cut", area),
            fact("the month before", counted(done.repairs_before, "repair", "repairs")),
            fact("new holes told of", report.arrivals.last().map_or_else(String::new, |month| month.told.to_string())),
        ],
        tables: vec![table("By road", &["road", "#repairs", "#area cut", "#cost of the month"], rows)],
        plots: vec![plot("Holes told of and mended, month by month", &report.plots.arrivals)],
        ..SheetSection::default()
    }
}

fn cost(report: &MonthReport) -> SheetSection {
    let cost = &report.cost;
    let mut rows: Vec<Vec<String>> = cost
        .parts
        .iter()
        .map(|part| {
            let share =
                if cost.total > 0.0 { format!("{:.0} %", 100.0 * part.money / cost.total) } else { "–".into() };
            vec![part.part.clone(), money(report, part.money), share]
        })
        .collect();
    rows.push(vec!["all".into(), money(report, cost.total), String::new()]);
    let planned = report.planned.iter().map(|line| {
        vec![
            line.what.clone(),
            quantity(report, line.planned, &line.unit),
            quantity(report, line.actual, &line.unit),
            line.ratio.map_or_else(|| "–".into(), |ratio| format!("{:+.0} %", 100.0 * (ratio - 1.0))),
            line.repairs.to_string(),
        ]
    });
    let mut tables = vec![table("", &["for", "#money", "#share"], rows)];
    let planned: Vec<Vec<String>> = planned.collect();
    let mut plots = Vec::new();
    if !planned.is_empty() {
        tables.push(table(
            "Planned against actual, of repairs that tell both",
            &["", "#planned", "#actual", "#more", "#repairs"],
            planned,
        ));
        plots.push(plot("Actual as a part of planned", &report.plots.planned));
    }
    SheetSection {
        heading: "What it cost".into(),
        facts: vec![
            fact("cost of the month", money(report, cost.total)),
            fact("for each repair", cost.per_repair.map_or_else(|| "–".into(), |each| money(report, each))),
            fact(
                if si(report) { "for each m² cut" } else { "for each ft² cut" },
                cost.per_m2.map_or_else(
                    || "not every area told".into(),
                    |each| unit_price(report, if si(report) { each } else { each / FT2 }),
                ),
            ),
        ],
        tables,
        plots,
        ..SheetSection::default()
    }
}

fn stock(report: &MonthReport) -> SheetSection {
    let rows = report.stock.iter().map(|line| {
        let amount = |value: f64| quantity(report, value, &line.unit);
        vec![
            line.item.clone(),
            amount(line.opening),
            amount(line.bought),
            amount(line.used),
            amount(line.wasted - line.found),
            amount(line.closing),
            money(report, line.value),
        ]
    });
    let rows: Vec<Vec<String>> = rows.collect();
    let lines = if rows.is_empty() { vec!["Nothing was held or moved.".to_owned()] } else { Vec::new() };
    let below = report
        .stock
        .iter()
        .filter(|line| line.closing < 0.0)
        .map(|line| format!("{}: more was used than the books know of; count it and book what came.", line.item));
    let heads = ["item", "#opening", "#bought", "#into repairs", "#lost", "#closing", "#worth"];
    SheetSection {
        heading: "Stock".into(),
        notes: below.collect(),
        tables: if rows.is_empty() { Vec::new() } else { vec![table("", &heads, rows)] },
        lines,
        ..SheetSection::default()
    }
}

fn left(report: &MonthReport) -> SheetSection {
    let left = &report.left;
    let severities: Vec<String> = left.by_severity.iter().map(|(word, count)| format!("{count} {word}")).collect();
    let rows: Vec<Vec<String>> = left
        .worst
        .iter()
        .map(|hole| {
            vec![
                named(&hole.road),
                hole.hole.get(..8).unwrap_or(&hole.hole).to_owned(),
                hole.severity.clone(),
                format!("{:.0}", hole.risk),
                counted(hole.days_open.unsigned_abs() as usize, "day", "days"),
                match hole.due {
                    Some(due) if hole.overdue => format!("{due}, overdue"),
                    Some(due) => due.to_string(),
                    None => "–".into(),
                },
            ]
        })
        .collect();
    let heads = ["road", "hole", "severity", "#risk points", "#open for", "due"];
    SheetSection {
        heading: "Risk that is left".into(),
        facts: vec![
            fact("holes open at the end", left.open.to_string()),
            fact("past their day", left.overdue.to_string()),
            fact("severity", if severities.is_empty() { "none judged".into() } else { severities.join(", ") }),
            fact("not judged", left.open.saturating_sub(left.judged).to_string()),
        ],
        tables: if rows.is_empty() { Vec::new() } else { vec![table("The riskiest", &heads, rows)] },
        notes: vec![
            "Risk points put holes in order and measure no probability; no number of points means that a hole is safe. Holes that are \
             not measured, or on no road that is kept up, are not judged: measure them."
                .into(),
        ],
        ..SheetSection::default()
    }
}

fn lasts(report: &MonthReport) -> SheetSection {
    let lasts = &report.lasts;
    let mut section = SheetSection {
        heading: "What lasts".into(),
        facts: vec![
            fact("lives of repairs known", lasts.lives.to_string()),
            fact("of these failed", lasts.failures.to_string()),
        ],
        notes: vec![
            "The record shows what went together, not what was the cause: crews get different roads. A difference that chance alone \
             would make is none."
                .into(),
        ],
        ..SheetSection::default()
    };
    if lasts.parts.is_empty() {
        section.lines.push("The record tells nothing yet by which repairs could be compared.".into());
    }
    let mut rows = Vec::new();
    for part in &lasts.parts {
        for (at, group) in part.groups.iter().enumerate() {
            rows.push(vec![
                if at == 0 { part.by.clone() } else { String::new() },
                group.name.clone(),
                group.n.to_string(),
                group.failures.to_string(),
                if group.too_few {
                    "too few to tell".into()
                } else {
                    group.median_days.map_or_else(|| "not reached".into(), |days| format!("{days:.0} days"))
                },
                if group.too_few {
                    "–".into()
                } else {
                    format!("{:.0} ± {:.0} of {:.0} days", group.mean_days, group.mean_error, group.within_days)
                },
            ]);
        }
        section.lines.extend(part.words.last().map(|test| format!("{}: {test}", capital(&part.by))));
        if section.plots.len() < PLOTS_SHOWN {
            section.plots.push(plot(&format!("Repairs still whole, by {}", part.by), &part.plot));
        }
    }
    if !rows.is_empty() {
        let heads = ["by", "group", "#repairs", "#failed", "#half outlast", "#mean life within the window"];
        section.tables.push(SheetTable { wide: 1, ..table("", &heads, rows) });
    }
    section
}

fn stop(report: &MonthReport) -> SheetSection {
    let stop = &report.stop;
    let heading = "Where patching nears its end".to_owned();
    if !stop.nothing.is_empty() {
        return SheetSection { heading, lines: vec![stop.nothing.clone()], ..SheetSection::default() };
    }
    let along = |metres: f64| if si(report) { format!("{metres:.0}") } else { format!("{:.0}", metres * FEET) };
    let thousands =
        |money: f64| if money < 9_950.0 { format!("{:.1}", money / 1000.0) } else { format!("{:.0}", money / 1000.0) };
    let spread = |[mean, low, high]: [f64; 3]| format!("{} ({}–{})", thousands(mean), thousands(low), thousands(high));
    let rows = stop.first.iter().map(|line| {
        vec![
            named(&line.road),
            format!("{}–{}", along(line.from_m), along(line.to_m)),
            format!("{:.1}", line.holes_per_year),
            spread(line.patch_on),
            spread(line.renew_now),
            line.renewal.clone(),
            break_even(line),
            format!("{:.0} %", 100.0 * line.cheaper),
        ]
    });
    let unit = if si(report) { "#m along" } else { "#ft along" };
    let heads = [
        "road",
        unit,
        "#holes a year",
        "#patched on",
        "#renewed now",
        "renewed by",
        "#even in year",
        "#renewing cheaper",
    ];
    SheetSection {
        heading,
        facts: vec![
            fact("stretches looked at", stop.stretches.to_string()),
            fact("past patching", stop.past.to_string()),
            fact("price of one repair", money(report, stop.repair_cost)),
            fact("years looked at", stop.years.to_string()),
        ],
        lines: vec![
            "**The road engineer decides.** The stretches on which renewing now compares best with patching on, ten at most; on \
             those past patching renewing now costs less in nine futures of ten. Metres or feet are along the section of the road file."
                .into(),
        ],
        tables: vec![table(
            &format!(
                "Costs over {} years at today's worth, thousands of {}: mean, in brackets from what one future in ten is below to what nine are. Cheaper: in \
                 so many futures.",
                stop.years, report.currency
            ),
            &heads,
            rows.collect(),
        )],
        notes: vec![
            "The model knows holes, prices and lives of repairs. It does not know what lies under the surface, water from beside, \
             traffic to come, works of others, or what a closed road costs its users. Prices and lives of renewals are the agency's \
             setting. Pavement design belongs to a licensed engineer."
                .into(),
        ],
        ..SheetSection::default()
    }
}

fn break_even(line: &StopLine) -> String {
    let year = |year: Option<usize>| year.map_or_else(|| "later".to_owned(), |year| year.to_string());
    let [low, middle, high] = line.break_even;
    if line.break_even.iter().all(Option::is_none) {
        return "later".into();
    }
    format!("{} ({}–{})", year(middle), year(low), year(high))
}

fn workings_section(report: &MonthReport) -> SheetSection {
    let rows =
        report.workings.iter().map(|working| vec![working.figure.clone(), working.how.clone(), working.source.clone()]);
    SheetSection {
        heading: "How the figures were worked out, and what they can't say".into(),
        tables: vec![SheetTable { wide: 1, ..table("", &["figure", "how", "where from"], rows.collect()) }],
        notes: report.limits.clone(),
        ..SheetSection::default()
    }
}

/// How the figures were worked out, but for those of stopping to patch.
pub(crate) fn workings(facts: &MonthFacts) -> Vec<Working> {
    let rules = facts.rules;
    vec![
        working(
            "Repairs, area",
            "repairs that traffic ran over for the first time in the month (sealed, where nobody told that they were opened); area as cut, \
             as far as crews told it",
            "the record",
        ),
        working(
            "Cost",
            "time booked at the district's prices, material at the average price of what was in stock when it was used; what was booked \
             on a round is shared among its repairs",
            "the books; handbook, methods/stock-and-cost.md",
        ),
        working(
            "Stock",
            "opening + bought − into repairs − lost = closing, over depots, trucks and zones; lost is thrown away less what counts \
             found, and may hold a difference of price",
            "the books; handbook, methods/stock-and-cost.md",
        ),
        working(
            "Planned against actual",
            "sums over the repairs of the month of which both are told; planned is the last plan of each",
            "the books; handbook, methods/planned-and-actual.md",
        ),
        working(
            "Risk points, severity, due day",
            "as the hole was last measured, judged on the last day of the report",
            "handbook, methods/severity.md and risk-and-due.md",
        ),
        working(
            "Lives of repairs",
            format!(
                "from opening until somebody told or found that it failed, or a new hole was seen within {:.0} m on the same side; else whole \
                 until {}",
                rules.same_place_m.value,
                facts.until()
            ),
            format!("handbook, methods/patch-lives.md; distance: {}", rules.same_place_m.source),
        ),
        working(
            "What lasts",
            format!(
                "product-limit curves, bands of {:.0} %, log-rank test; fewer than {} failures are too few to tell",
                100.0 * rules.confidence.value,
                rules.fewest_failures.value
            ),
            "handbook, methods/lasting.md",
        ),
    ]
}

/// What the report can't say.
pub(crate) fn limits(facts: &MonthFacts, left: &MonthLeft) -> Vec<String> {
    let mut limits = vec![
        "What nobody told is not in the record and not in this report. What is told later changes the report of a month that is over.".to_owned(),
        "Sizes of holes are the last that were told by the time the report was made, not those of the last day of the month.".to_owned(),
    ];
    if left.open > left.judged {
        limits.push(format!("{} open holes are not judged.", left.open - left.judged));
    }
    if facts.study.repairs.iter().all(|repair| repair.place.is_none()) {
        limits.push("No repair is on a known road: no new hole could be told to be a repair's failure.".into());
    }
    if facts.resurfaced_nowhere > 0 {
        limits.push(format!(
            "{} new surfaces were told of that lie on no road that is known: repairs under them count as still watched.",
            facts.resurfaced_nowhere
        ));
    }
    let findings = facts.books.findings.len();
    if findings > 0 {
        limits.push(format!(
            "The books have {findings} findings that somebody has to look at; they may change stock and cost."
        ));
    }
    limits
}

fn si(report: &MonthReport) -> bool {
    report.units == UnitSystem::Si
}

fn area(report: &MonthReport, m2: f64) -> String {
    if si(report) { format!("{m2:.1} m²") } else { format!("{:.0} ft²", m2 * FT2) }
}

/// An amount in the district's units; `unit` is the one that it is told in.
fn quantity(report: &MonthReport, value: f64, unit: &str) -> String {
    let (value, unit) = match (unit, si(report)) {
        ("m²", false) => (value * FT2, "ft²"),
        ("m³", false) => (value * FT3, "ft³"),
        ("l" | "L", false) => (value * GALLONS, "gal"),
        ("l", true) => (value, "L"),
        ("", _) => return format!("{value:.0}"),
        (unit, _) => (value, unit),
    };
    // enough digits that small amounts are seen, none that nobody can measure
    let decimals = match value.abs() {
        size if size < 10.0 => 2,
        size if size < 100.0 => 1,
        _ => 0,
    };
    let text = format!("{value:.decimals$}");
    let text = if text.trim_start_matches(['-', '0', '.']).is_empty() { "0".to_owned() } else { text };
    format!("{text} {unit}")
}

fn money(report: &MonthReport, value: f64) -> String {
    format!("{value:.0} {}", report.currency)
}

/// The price of one unit, small as it may be.
fn unit_price(report: &MonthReport, value: f64) -> String {
    format!("{value:.2} {}", report.currency)
}

fn named(road: &str) -> String {
    if road.is_empty() { "road not known".into() } else { road.to_owned() }
}

fn month_name(day: Date) -> &'static str {
    MONTHS[(day.month() - 1).clamp(0, 11) as usize]
}

fn fact(what: &str, value: impl Into<String>) -> [String; 2] {
    [what.to_owned(), value.into()]
}

fn counted(count: usize, one: &str, many: &str) -> String {
    if count == 1 { format!("1 {one}") } else { format!("{count} {many}") }
}

fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// A table; heads of columns with numbers begin with `#`.
fn table(caption: &str, heads: &[&str], rows: Vec<Vec<String>>) -> SheetTable {
    let head = heads.iter().map(|head| (head.trim_start_matches('#').to_owned(), head.starts_with('#')));
    SheetTable { caption: caption.to_owned(), head: head.collect(), wide: 0, rows }
}

fn plot(caption: &str, svg: &str) -> SheetPlot {
    SheetPlot { caption: caption.to_owned(), svg: svg.to_owned() }
}
