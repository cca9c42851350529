//! What a plan does otherwise because of the record, in the reader's language.

use jobpack::learnt_words;
use model::figure::Source;
use model::learnt::{Believed, FactorOf, Factored, LearntFactor, LearntRoad};
use model::road::RoadClass;
use model::road_kind::RoadKind;
use words::{Language, Words};

fn factor(what: Factored, of: FactorOf, records: usize, own: f64, median: f64) -> LearntFactor {
    LearntFactor {
        what,
        of,
        records,
        own: Some(own),
        prior: Believed { median: 1.0, p10: 0.9, p90: 1.1 },
        believed: Believed { median, p10: median - 0.08, p90: median + 0.09 },
        factor: median.clamp(0.7, 1.5),
        limits: (0.7, 1.5),
        source: Source::common_practice(),
        is_told: true,
        words: String::new(),
    }
}

fn kind(class: RoadClass, shoulder: Option<bool>) -> FactorOf {
    FactorOf::Kind(RoadKind { class, shoulder })
}

#[test]
fn every_sentence_in_every_language() {
    let road = |name: &str| FactorOf::Road(LearntRoad { name: name.into(), kind: None });
    let factors = [
        factor(Factored::Base, road("Fennow Road"), 23, 1.22, 1.14),
        factor(Factored::Base, kind(RoadClass::Tertiary, Some(false)), 3, 1.5, 1.16),
        factor(Factored::Growth, kind(RoadClass::Motorway, Some(true)), 2, 0.8, 0.9),
        factor(Factored::Growth, FactorOf::District, 1, 2.5, 1.8),
        factor(Factored::Water, kind(RoadClass::Track, None), 11, 1.3, 1.2),
        factor(Factored::Binder, FactorOf::District, 100, 0.5, 0.6),
        factor(Factored::CoverStone, road("Moss Lane"), 8, 1.2, 1.1),
        factor(Factored::Time, FactorOf::Crew("North crew".into()), 40, 1.25, 1.2),
    ];
    let said: Vec<String> = Language::ALL
        .iter()
        .flat_map(|&language| factors.iter().map(move |factor| learnt_words(factor, Words(language))))
        .collect();
    insta::assert_snapshot!(said.join("\n"));
}
