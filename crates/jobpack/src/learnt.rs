//! What a plan does otherwise because of the record, and why, in the reader's language.

use model::learnt::{FactorOf, Factored, LearntFactor};
use model::road::RoadClass;
use model::road_kind::RoadKind;
use words::Words;

/// One sentence without its capital and full stop; in English that of the factor itself.
pub fn learnt_words(learnt: &LearntFactor, words: Words) -> String {
    let part = learnt.factor - 1.0;
    let percent = words.say_with("sheet-percent", [("number", format!("{:.0}", 100.0 * part.abs()).into())]);
    let more = if part < 0.0 { "less" } else { "more" };
    let does = match learnt.what {
        Factored::Growth => "sheet-learnt-growth",
        Factored::Base => "sheet-learnt-base",
        Factored::Water => "sheet-learnt-water",
        Factored::Binder => "sheet-learnt-binder",
        Factored::CoverStone => "sheet-learnt-cover-stone",
        Factored::Time => "sheet-learnt-time",
    };
    let does = words.say_with(does, [("percent", percent.into()), ("more", more.into())]);
    let times = |number: f64| words.number(&format!("{number:.2}"));
    let repairs = match learnt.of {
        FactorOf::District => "sheet-learnt-repairs-district",
        FactorOf::Kind(_) | FactorOf::Road(_) => "sheet-learnt-repairs-there",
        FactorOf::Crew(_) => "sheet-learnt-repairs-crew",
    };
    let repairs = words.say_with(repairs, [("count", learnt.records.into())]);
    let took = match learnt.what {
        Factored::Growth => "sheet-learnt-turned-out",
        Factored::Time => "sheet-learnt-time-taken",
        _ => "sheet-learnt-took",
    };
    let own = times(learnt.own.unwrap_or(learnt.believed.median));
    let took = words.say_with(took, [("repairs", repairs.into()), ("times", own.into())]);
    let [median, low, high] = [learnt.believed.median, learnt.believed.p10, learnt.believed.p90].map(times);
    let believed = words
        .say_with("sheet-learnt-believed", [("median", median.into()), ("low", low.into()), ("high", high.into())]);
    let said = [("does", does.into()), ("took", took.into()), ("believed", believed.into())];
    let [does, took, believed] = said;
    let sentence = match &learnt.of {
        FactorOf::District => words.say_with("sheet-learnt-district", [does, took, believed]),
        FactorOf::Kind(kind) => {
            words.say_with("sheet-learnt-road", [does, took, believed, ("road", roads(*kind, words).into())])
        }
        FactorOf::Road(road) => {
            words.say_with("sheet-learnt-road", [does, took, believed, ("road", (&road.name).into())])
        }
        FactorOf::Crew(crew) => words.say_with("sheet-learnt-crew", [does, took, believed, ("crew", crew.into())]),
    };
    if !learnt.is_limited() {
        return sentence;
    }
    let (least, most) = (times(learnt.limits.0), times(learnt.limits.1));
    words.say_with("sheet-learnt-kept", [("sentence", sentence.into()), ("least", least.into()), ("most", most.into())])
}

/// `tertiary roads without a shoulder`.
fn roads(kind: RoadKind, words: Words) -> String {
    let roads = words.say(match kind.class {
        RoadClass::Motorway => "sheet-roads-motorway",
        RoadClass::Trunk => "sheet-roads-trunk",
        RoadClass::Primary => "sheet-roads-primary",
        RoadClass::Secondary => "sheet-roads-secondary",
        RoadClass::Tertiary => "sheet-roads-tertiary",
        RoadClass::Unclassified => "sheet-roads-unclassified",
        RoadClass::Residential => "sheet-roads-residential",
        RoadClass::Service => "sheet-roads-service",
        RoadClass::Track => "sheet-roads-track",
    });
    match kind.shoulder {
        None => roads,
        Some(true) => words.say_with("sheet-roads-with-shoulder", [("roads", roads.into())]),
        Some(false) => words.say_with("sheet-roads-without-shoulder", [("roads", roads.into())]),
    }
}
