//! The report in words, in one place: what it says, in sentences and tables ready to be placed.

use model::life::{GroupCurve, Verdict};
use model::month_report::{
    LastsGroup, LastsPart, MonthReport, ReportSheet, SheetPlot, SheetSection, SheetTable, StopLine,
};
use words::Words;

use crate::budget_plot::budget_svg;
use crate::say::{FT2, Say, capital};
use crate::{names, plots, workings};

/// Roads listed under what was done at most.
const ROADS_SHOWN: usize = 12;

/// Plots of what lasts at most.
const PLOTS_SHOWN: usize = 4;

/// The report in the words of a language.
pub fn sheet(report: &MonthReport, words: Words) -> ReportSheet {
    let say = Say { report, words };
    let (month, year) = (say.month(report.month.month()), report.month.year().to_string());
    let mut about = say.say("report-about");
    if report.goes_on {
        about.push(' ');
        about.push_str(&say.with("report-goes-on", [("day", say.day(report.until).into())]));
    }
    ReportSheet {
        language: words.language().code().to_owned(),
        title: capital(&say.with("report-title", [("month", month.into()), ("year", year.into())])),
        district: report.district.clone(),
        about,
        footer: say.with(
            "report-footer",
            [("version", env!("CARGO_PKG_VERSION").into()), ("event", report.made_from.to_string().into())],
        ),
        paper: report.paper,
        sections: vec![done(say), cost(say), stock(say), left(say), lasts(say), stop(say), workings_section(say)],
    }
}

fn done(say: Say) -> SheetSection {
    let (report, done) = (say.report, &say.report.done);
    let mut area = say.area(done.area_m2);
    if done.with_area != done.repairs {
        let of = [("area", area.into()), ("count", done.with_area.into())];
        area = say.with("report-area-of-repairs", of);
    }
    let row = |name: String, repairs: usize, area_m2: f64, cost: f64| {
        vec![name, repairs.to_string(), say.area(area_m2), say.money(cost)]
    };
    let shown = done.roads.iter().take(ROADS_SHOWN);
    let mut rows: Vec<Vec<String>> =
        shown.map(|road| row(names::road(say, &road.road), road.repairs, road.area_m2, road.cost)).collect();
    if done.roads.len() > ROADS_SHOWN {
        let rest = &done.roads[ROADS_SHOWN..];
        rows.push(row(
            say.counted("report-more-roads", rest.len()),
            rest.iter().map(|road| road.repairs).sum(),
            rest.iter().map(|road| road.area_m2).sum(),
            rest.iter().map(|road| road.cost).sum(),
        ));
    }
    let heads = ["report-road", "#report-repairs", "#report-area-cut", "#report-cost-of-month"];
    let by_road = table(say, say.say("report-by-each-road"), &heads, rows);
    let new = report.arrivals.last().map_or_else(String::new, |month| month.told.to_string());
    SheetSection {
        heading: say.say("report-done"),
        facts: vec![
            fact(say, "report-repairs-opened", done.repairs.to_string()),
            fact(say, "report-area-cut", area),
            fact(say, "report-month-before", say.counted("report-repairs-counted", done.repairs_before)),
            fact(say, "report-new-holes", new),
        ],
        tables: if by_road.rows.is_empty() { Vec::new() } else { vec![by_road] },
        plots: vec![plot(say.say("report-told-and-mended"), plots::arrivals_svg(say))],
        ..SheetSection::default()
    }
}

fn cost(say: Say) -> SheetSection {
    let cost = &say.report.cost;
    let share = |money: f64| if cost.total > 0.0 { say.per_cent(money / cost.total, 0) } else { "–".into() };
    let parts = cost.parts.iter();
    let mut rows: Vec<Vec<String>> =
        parts.map(|part| vec![names::cost_part(say, &part.part), say.money(part.money), share(part.money)]).collect();
    rows.push(vec![say.say("report-all"), say.money(cost.total), String::new()]);
    let mut tables = vec![table(say, String::new(), &["report-for", "#report-money", "#report-share"], rows)];
    let planned = say.report.planned.iter().map(|line| {
        vec![
            names::planned(say, &line.what),
            say.quantity(line.planned, &line.unit),
            say.quantity(line.actual, &line.unit),
            line.ratio.map_or_else(|| "–".into(), |ratio| say.more(ratio)),
            line.repairs.to_string(),
        ]
    });
    let planned: Vec<Vec<String>> = planned.collect();
    let mut plots = Vec::new();
    if !planned.is_empty() {
        let heads = ["", "#report-planned", "#report-actual", "#report-more", "#report-repairs"];
        tables.push(table(say, say.say("report-planned-and-actual"), &heads, planned));
        plots.push(plot(say.say("report-part-of-planned"), plots::planned_svg(say)));
    }
    let per_area = cost.per_m2.map_or_else(
        || say.say("report-not-every-area"),
        |each| say.price(if say.is_si() { each } else { each / FT2 }, 2),
    );
    SheetSection {
        heading: say.say("report-cost"),
        facts: vec![
            fact(say, "report-cost-of-month", say.money(cost.total)),
            fact(say, "report-per-repair", cost.per_repair.map_or_else(|| "–".into(), |each| say.money(each))),
            fact(say, if say.is_si() { "report-per-m2" } else { "report-per-ft2" }, per_area),
        ],
        tables,
        plots,
        ..SheetSection::default()
    }
}

fn stock(say: Say) -> SheetSection {
    let lines = &say.report.stock;
    let heading = say.say("report-stock");
    if lines.is_empty() {
        return SheetSection { heading, lines: vec![say.say("report-nothing-held")], ..SheetSection::default() };
    }
    let rows = lines.iter().map(|line| {
        let amount = |value: f64| say.quantity(value, &line.unit);
        vec![
            names::item(say, line),
            amount(line.opening),
            amount(line.bought),
            amount(line.used),
            amount(line.wasted - line.found),
            amount(line.closing),
            say.money(line.value),
        ]
    });
    let below = lines
        .iter()
        .filter(|line| line.closing < 0.0)
        .map(|line| say.with("report-used-beyond-books", [("item", names::item(say, line).into())]));
    let heads = [
        "report-item",
        "#report-opening",
        "#report-bought",
        "#report-into-repairs",
        "#report-lost",
        "#report-closing",
        "#report-worth",
    ];
    SheetSection {
        heading,
        notes: below.collect(),
        tables: vec![table(say, String::new(), &heads, rows.collect())],
        ..SheetSection::default()
    }
}

fn left(say: Say) -> SheetSection {
    let left = &say.report.left;
    let severities = left.by_severity.iter().map(|(word, count)| {
        let word = names::severity(say, word);
        say.with("report-severity-counted", [("count", count.to_string().into()), ("severity", word.into())])
    });
    let severities = say.list(severities);
    let rows = left.worst.iter().map(|hole| {
        vec![
            names::road(say, &hole.road),
            hole.hole.get(..8).unwrap_or(&hole.hole).to_owned(),
            names::severity(say, &hole.severity),
            say.number(hole.risk, 0),
            say.counted("report-days", hole.days_open.unsigned_abs() as usize),
            match hole.due {
                Some(due) if hole.overdue => say.with("sheet-overdue", [("day", say.day(due).into())]),
                Some(due) => say.day(due),
                None => "–".into(),
            },
        ]
    });
    let rows: Vec<Vec<String>> = rows.collect();
    let heads =
        ["report-road", "report-hole", "report-severity", "#report-risk-points", "#report-open-for", "report-due"];
    let worst = table(say, say.say("report-riskiest"), &heads, rows);
    SheetSection {
        heading: say.say("report-left"),
        facts: vec![
            fact(say, "report-open-holes", left.open.to_string()),
            fact(say, "report-past-their-day", left.overdue.to_string()),
            fact(
                say,
                "report-severity",
                if severities.is_empty() { say.say("report-none-judged") } else { severities },
            ),
            fact(say, "report-not-judged", left.open.saturating_sub(left.judged).to_string()),
        ],
        tables: if worst.rows.is_empty() { Vec::new() } else { vec![worst] },
        notes: vec![say.say("report-risk-note")],
        ..SheetSection::default()
    }
}

fn lasts(say: Say) -> SheetSection {
    let lasts = &say.report.lasts;
    let mut section = SheetSection {
        heading: say.say("report-lasts"),
        facts: vec![
            fact(say, "report-lives-known", lasts.lives.to_string()),
            fact(say, "report-lives-failed", lasts.failures.to_string()),
        ],
        notes: vec![say.say("report-lasts-note")],
        ..SheetSection::default()
    };
    if lasts.parts.is_empty() {
        section.lines.push(say.say("report-nothing-to-compare"));
    }
    let mut rows = Vec::new();
    for part in &lasts.parts {
        let by = names::property(say, &part.by);
        for (at, group) in part.groups.iter().enumerate() {
            rows.push(group_row(say, part, group, if at == 0 { by.clone() } else { String::new() }));
        }
        section.lines.extend(
            verdict(say, part)
                .map(|verdict| say.with("report-named", [("what", capital(&by).into()), ("value", verdict.into())])),
        );
        if section.plots.len() < PLOTS_SHOWN {
            let curves: Vec<GroupCurve> = part
                .curves
                .iter()
                .map(|curve| GroupCurve { name: names::group(say, &part.by, &curve.name), ..curve.clone() })
                .collect();
            let caption = say.with("report-still-whole-by", [("by", by.into())]);
            let svg = plots::curves_svg(say, curves, &caption);
            section.plots.push(plot(caption, svg));
        }
    }
    if !rows.is_empty() {
        let heads = [
            "report-by",
            "report-group",
            "#report-repairs",
            "#report-failed",
            "#report-half-outlast",
            "#report-mean-life",
        ];
        section.tables.push(SheetTable { wide: 1, ..table(say, String::new(), &heads, rows) });
    }
    section
}

fn group_row(say: Say, part: &LastsPart, group: &LastsGroup, by: String) -> Vec<String> {
    let days = |days: f64| say.counted("report-days", days.round().max(0.0) as usize);
    let (median, mean) = if group.too_few {
        (say.say("report-too-few"), "–".into())
    } else {
        let mean = say.with(
            "report-mean-within",
            [
                ("mean", say.number(group.mean_days, 0).into()),
                ("error", say.number(group.mean_error, 0).into()),
                ("days", days(group.within_days).into()),
            ],
        );
        (group.median_days.map_or_else(|| say.say("report-not-reached"), days), mean)
    };
    vec![by, names::group(say, &part.by, &group.name), group.n.to_string(), group.failures.to_string(), median, mean]
}

/// Whether the groups differ, in a sentence or two.
fn verdict(say: Say, part: &LastsPart) -> Option<String> {
    match &part.verdict {
        Verdict::OneGroup => None,
        Verdict::TooFew { .. } => Some(say.say("report-groups-too-few")),
        Verdict::NoDifference { p } => Some(say.with("report-no-difference", [("cases", say.of_hundred(*p).into())])),
        Verdict::Differ { p, pairs } => {
            let mut words = say.with("report-differ", [("cases", say.of_hundred(*p).into())]);
            if part.groups.len() > 2 && !pairs.is_empty() {
                let pairs = pairs.iter().map(|pair| {
                    let [first, second] = pair.each_ref().map(|name| names::group(say, &part.by, name));
                    say.with("report-pair", [("first", first.into()), ("second", second.into())])
                });
                let pairs = pairs.collect::<Vec<_>>().join("; ");
                words.push(' ');
                words.push_str(&say.with("report-pairs-differ", [("pairs", pairs.into())]));
            }
            Some(words)
        }
    }
}

fn stop(say: Say) -> SheetSection {
    let stop = &say.report.stop;
    let heading = say.say("report-stop");
    if let Some(why) = stop.why_nothing {
        return SheetSection { heading, lines: vec![workings::nothing(say, why)], ..SheetSection::default() };
    }
    let thousands = |money: f64| say.number(money / 1000.0, usize::from(money < 9_950.0));
    let spread = |[mean, low, high]: [f64; 3]| spread_of(say, thousands(mean), thousands(low), thousands(high));
    let rows = stop.first.iter().map(|line| {
        vec![
            names::road(say, &line.road),
            format!("{}–{}", say.along(line.from_m), say.along(line.to_m)),
            say.number(line.holes_per_year, 1),
            spread(line.patch_on),
            spread(line.renew_now),
            names::renewal(say, &line.renewal),
            break_even(say, line),
            say.per_cent(line.cheaper, 0),
        ]
    });
    let heads = [
        "report-road",
        if say.is_si() { "#report-m-along" } else { "#report-ft-along" },
        "#report-holes-a-year",
        "#report-patched-on",
        "#report-renewed-now",
        "report-renewed-by",
        "#report-even-in-year",
        "#report-renewing-cheaper",
    ];
    let caption = say.with(
        "report-stop-caption",
        [("years", stop.years.to_string().into()), ("currency", (&say.report.currency).into())],
    );
    let across = say.say("report-budget-across");
    let budget = say.with("report-budget-caption", [("currency", (&say.report.currency).into())]);
    let up = say.with("report-budget-up", [("years", stop.years.to_string().into())]);
    let curve = (stop.budget.len() > 2).then(|| plot(budget, budget_svg(&stop.budget, &across, &up)));
    SheetSection {
        heading,
        plots: curve.into_iter().collect(),
        facts: vec![
            fact(say, "report-stretches", stop.stretches.to_string()),
            fact(say, "report-past-patching", stop.past.to_string()),
            fact(say, "report-repair-price", say.money(stop.repair_cost)),
            fact(say, "report-years-looked-at", stop.years.to_string()),
        ],
        lines: vec![say.say("report-engineer-decides")],
        tables: vec![table(say, caption, &heads, rows.collect())],
        notes: vec![say.say("report-stop-note")],
    }
}

fn break_even(say: Say, line: &StopLine) -> String {
    let year = |year: Option<usize>| year.map_or_else(|| say.say("report-later"), |year| year.to_string());
    if line.break_even.iter().all(Option::is_none) {
        return say.say("report-later");
    }
    let [low, middle, high] = line.break_even.map(year);
    spread_of(say, middle, low, high)
}

fn spread_of(say: Say, middle: String, low: String, high: String) -> String {
    say.with("report-spread", [("middle", middle.into()), ("low", low.into()), ("high", high.into())])
}

fn workings_section(say: Say) -> SheetSection {
    let rows = workings::workings(say).into_iter().map(|working| vec![working.figure, working.how, working.source]);
    let heads = ["report-figure", "report-how", "report-where-from"];
    SheetSection {
        heading: say.say("report-workings"),
        tables: vec![SheetTable { wide: 1, ..table(say, String::new(), &heads, rows.collect()) }],
        notes: workings::limits(say),
        ..SheetSection::default()
    }
}

fn fact(say: Say, what: &str, value: String) -> [String; 2] {
    [say.say(what), value]
}

/// A table; keys of columns with numbers begin with `#`.
fn table(say: Say, caption: String, heads: &[&str], rows: Vec<Vec<String>>) -> SheetTable {
    let head = heads.iter().map(|head| match (head.strip_prefix('#'), *head) {
        (_, "") => (String::new(), false),
        (Some(key), _) => (say.say(key), true),
        (None, key) => (say.say(key), false),
    });
    SheetTable { caption, head: head.collect(), wide: 0, rows }
}

fn plot(caption: String, svg: String) -> SheetPlot {
    SheetPlot { caption, svg }
}
