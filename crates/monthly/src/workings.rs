//! How the figures were worked out, and what the report can't say.

use model::month_report::{LawFrom, RenewalBasis, StopBasis, StopNothing, Working};

use crate::names;
use crate::say::Say;

pub(crate) fn workings(say: Say) -> Vec<Working> {
    let basis = &say.report.basis;
    let how_lives = say.with(
        "report-how-lives",
        [("distance", say.distance(basis.same_place_m).into()), ("day", say.day(say.report.until).into())],
    );
    let how_lasts = say.with(
        "report-how-lasts",
        [
            ("confidence", say.per_cent(basis.confidence, 0).into()),
            ("failures", basis.fewest_failures.to_string().into()),
        ],
    );
    let distance = say.with(
        "report-source-distance",
        [("page", "methods/patch-lives.md".into()), ("source", say.of_rules(&basis.same_place_source).into())],
    );
    let of_books = |page: &str| say.with("report-source-books-and-handbook", [("page", page.into())]);
    let working = |figure: &str, how: String, source: String| Working { figure: say.say(figure), how, source };
    let mut workings = vec![
        working("report-figure-repairs", say.say("report-how-repairs"), say.say("report-source-record")),
        working("report-figure-cost", say.say("report-how-cost"), of_books("methods/stock-and-cost.md")),
        working("report-figure-stock", say.say("report-how-stock"), of_books("methods/stock-and-cost.md")),
        working("report-figure-planned", say.say("report-how-planned"), of_books("methods/planned-and-actual.md")),
        working("report-figure-risk", say.say("report-how-risk"), handbook(say, "methods/risk-and-due.md")),
        working("report-figure-lives", how_lives, distance),
        working("report-figure-lasts", how_lasts, handbook(say, "methods/lasting.md")),
    ];
    if let Some(stop) = &basis.stop {
        workings.extend(stop_workings(say, stop));
    }
    workings
}

fn handbook(say: Say, page: &str) -> String {
    say.with("report-source-handbook", [("page", page.into())])
}

fn stop_workings(say: Say, stop: &StopBasis) -> [Working; 4] {
    let part = &say.report.stop;
    let price = say.with(
        "report-how-stop-price",
        [
            ("cost", say.money(stop.cost).into()),
            ("repairs", stop.repairs.to_string().into()),
            ("price", say.money(part.repair_cost).into()),
        ],
    );
    let drawn = stop.drawn_by.map_or_else(
        || say.say("report-not-drawn"),
        |holes| say.with("report-drawn-by", [("holes", say.number(holes, 1).into())]),
    );
    let anew = if stop.is_anew { say.say("report-how-stop-anew") } else { String::new() };
    let holes = say.with(
        "report-how-stop-holes",
        [
            ("holes", stop.holes.to_string().into()),
            ("years", say.number(stop.watched_years, 2).into()),
            ("length", say.number(stop.km_years, 0).into()),
            ("rate", say.number(stop.per_km_year, 2).into()),
            ("drawn", [drawn, anew].join("").into()),
        ],
    );
    let (scale, shape) = (say.number(stop.law.scale_years, 2), say.number(stop.law.shape, 2));
    let law = match &stop.law.from {
        LawFrom::Lives { lives, failures } => say.with(
            "report-how-law-of-lives",
            [
                ("lives", lives.to_string().into()),
                ("failures", failures.to_string().into()),
                ("scale", scale.into()),
                ("shape", shape.into()),
            ],
        ),
        LawFrom::Rules { source } => say.with(
            "report-how-law-of-rules",
            [("scale", scale.into()), ("shape", shape.into()), ("source", say.of_rules(source).into())],
        ),
    };
    let renewals: Vec<String> = stop.renewals.iter().map(|renewal| renewal_in_words(say, renewal)).collect();
    let costs = say.with(
        "report-how-stop-costs",
        [
            ("futures", stop.futures.to_string().into()),
            ("years", part.years.to_string().into()),
            ("interest", say.per_cent(stop.interest, 1).into()),
            ("growth", say.per_cent(stop.growth, 0).into()),
            ("renewals", renewals.join("; ").into()),
        ],
    );
    let arrival = say.with("report-source-arrival", [("page", "methods/hole-arrival.md".into())]);
    [
        ("report-figure-stop-price", price, say.say("report-source-books")),
        ("report-figure-stop-holes", holes, arrival),
        ("report-figure-stop-lives", law, handbook(say, "methods/lasting-factors.md")),
        ("report-figure-stop-costs", costs, handbook(say, "methods/stop-patching.md")),
    ]
    .map(|(figure, how, source)| Working { figure: say.say(figure), how, source })
}

fn renewal_in_words(say: Say, renewal: &RenewalBasis) -> String {
    say.with(
        "report-renewal-in-words",
        [
            ("renewal", names::renewal(say, &renewal.name).into()),
            ("price", say.price(renewal.price_per_m2, 2).into()),
            ("left", say.per_cent(renewal.rate_left, 0).into()),
            ("years", say.words.number(&renewal.life_years.to_string()).into()),
            ("source", say.of_rules(&renewal.source).into()),
        ],
    )
}

/// What the report can't say.
pub(crate) fn limits(say: Say) -> Vec<String> {
    let (basis, left) = (&say.report.basis, &say.report.left);
    let mut limits = vec![say.say("report-limit-not-told"), say.say("report-limit-sizes")];
    if left.open > left.judged {
        limits.push(say.counted("report-limit-not-judged", left.open - left.judged));
    }
    if basis.no_repair_placed {
        limits.push(say.say("report-limit-no-place"));
    }
    if basis.resurfaced_nowhere > 0 {
        limits.push(say.counted("report-limit-resurfaced-nowhere", basis.resurfaced_nowhere as usize));
    }
    if basis.findings > 0 {
        limits.push(say.counted("report-limit-findings", basis.findings));
    }
    limits
}

/// Why nothing is said of the end of patching.
pub(crate) fn nothing(say: Say, why: StopNothing) -> String {
    say.say(match why {
        StopNothing::NoRoads => "report-no-roads",
        StopNothing::TooShort => "report-too-short",
        StopNothing::NoCost => "report-no-cost",
        StopNothing::NoHole => "report-no-hole",
        StopNothing::NoLaw => "report-no-law",
        StopNothing::Unworkable => "report-unworkable",
    })
}
