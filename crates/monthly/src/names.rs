//! What the report's figures call by a word of a closed set, in the reader's language. Names of the district stay as they are.

use lasting::patch_lives::Property;
use model::month_report::StockLine;
use model::record::stock::StockKind;

use crate::say::Say;

/// What repairs are grouped by.
pub(crate) fn property(say: Say, by: &str) -> String {
    let Some(by) = Property::of(by) else { return by.to_owned() };
    say.say(match by {
        Property::Crew => "report-by-crew",
        Property::Base => "report-by-material",
        Property::Binder => "report-by-binder",
        Property::Layers => "report-by-layers",
        Property::Moisture => "report-by-moisture",
        Property::Wetness => "report-by-wetness",
        Property::Dry => "report-by-surface",
        Property::Weather => "report-by-weather",
        Property::Temperature => "report-by-temperature",
        Property::Month => "report-by-month",
        Property::Season => "report-by-season",
        Property::Road => "report-by-road",
        Property::RoadClass => "report-by-road-class",
        Property::Traffic => "report-by-traffic",
        Property::Drainage => "report-by-drainage",
        Property::Deviations => "report-by-rules",
    })
}

/// A group of a property, as the study of lives names it.
pub(crate) fn group(say: Say, by: &str, name: &str) -> String {
    let known = match (Property::of(by), name) {
        (_, "not known") => Some("report-group-not-known"),
        (Some(Property::Wetness), "dry") => Some("sheet-wetness-dry"),
        (Some(Property::Wetness), "damp") => Some("sheet-wetness-damp"),
        (Some(Property::Wetness), "wet") => Some("sheet-wetness-wet"),
        (Some(Property::Wetness), "seepage") => Some("sheet-wetness-seepage"),
        (Some(Property::Wetness), "pumping") => Some("sheet-wetness-pumping"),
        (Some(Property::Dry), "dry surface") => Some("report-group-dry-surface"),
        (Some(Property::Dry), "wet surface") => Some("report-group-wet-surface"),
        (Some(Property::Deviations), "by the rules") => Some("report-group-by-rules"),
        (Some(Property::Deviations), "not by the rules") => Some("report-group-not-by-rules"),
        (Some(Property::Moisture), "falls apart") => Some("report-group-falls-apart"),
        (Some(Property::Moisture), "keeps its shape") => Some("report-group-keeps-shape"),
        (Some(Property::Moisture), "oozes") => Some("report-group-oozes"),
        (Some(Property::RoadClass), class) => road_class(class),
        (Some(Property::Drainage), drainage) => self::drainage(drainage),
        (Some(Property::Weather), weather) => self::weather(weather),
        _ => None,
    };
    if let Some(key) = known {
        return say.say(key);
    }
    let counted = match Property::of(by) {
        Some(Property::Season) => season(say, name),
        Some(Property::Month) => month(say, name),
        Some(Property::Layers) => layers(say, name),
        Some(Property::Traffic) => traffic(say, name),
        Some(Property::Temperature) => temperature(say, name),
        _ => None,
    };
    counted.unwrap_or_else(|| name.to_owned())
}

fn road_class(class: &str) -> Option<&'static str> {
    match class {
        "motorway" => Some("report-class-motorway"),
        "trunk" => Some("report-class-trunk"),
        "primary" => Some("report-class-primary"),
        "secondary" => Some("report-class-secondary"),
        "tertiary" => Some("report-class-tertiary"),
        "unclassified" => Some("report-class-unclassified"),
        "residential" => Some("report-class-residential"),
        "service" => Some("report-class-service"),
        "track" => Some("report-class-track"),
        _ => None,
    }
}

fn drainage(words: &str) -> Option<&'static str> {
    match words {
        "ditch works" => Some("report-group-ditch-works"),
        "ditch blocked" => Some("report-group-ditch-blocked"),
        "kerb and gully" => Some("report-group-kerb-and-gully"),
        "gully blocked" => Some("report-group-gully-blocked"),
        "verge higher than the road" => Some("report-group-high-verge"),
        "no drainage" => Some("report-group-no-drainage"),
        "standing water" => Some("report-group-standing-water"),
        _ => None,
    }
}

fn weather(words: &str) -> Option<&'static str> {
    match words {
        "dry weather" => Some("report-group-weather-dry"),
        "dew, fog or drizzle" => Some("report-group-weather-damp"),
        "rain within a day" => Some("report-group-weather-rain"),
        "frost by night" => Some("report-group-weather-frost"),
        _ => None,
    }
}

fn season(say: Say, name: &str) -> Option<String> {
    let (first, last) = match name {
        "March to May" => (3, 5),
        "June to August" => (6, 8),
        "September to November" => (9, 11),
        "December to February" => (12, 2),
        _ => return None,
    };
    Some(say.with("sheet-range", [("low", say.short_month(first).into()), ("high", say.short_month(last).into())]))
}

fn month(say: Say, name: &str) -> Option<String> {
    name.strip_prefix("month ")?.parse().ok().map(|month| say.month(month))
}

fn layers(say: Say, name: &str) -> Option<String> {
    name.split_once(" layer")?.0.parse().ok().map(|count| say.counted("report-group-layers", count))
}

fn traffic(say: Say, name: &str) -> Option<String> {
    if let Some(most) = name.strip_prefix("under ") {
        let most = most.strip_suffix(" a day")?;
        return Some(say.with("report-group-traffic-under", [("most", most.into())]));
    }
    if let Some(least) = name.strip_suffix(" a day and more") {
        return Some(say.with("report-group-traffic-from", [("least", least.into())]));
    }
    let (from, to) = name.strip_suffix(" a day")?.split_once(" to ")?;
    Some(say.with("report-group-traffic-between", [("from", from.into()), ("to", to.into())]))
}

/// Degrees as the study tells them, Celsius.
fn temperature(say: Say, name: &str) -> Option<String> {
    let degrees = |number: &str| format!("{} {}", say.words.number(number), say.say("unit-celsius"));
    if let Some(most) = name.strip_prefix("under ") {
        let most = degrees(most.strip_suffix(" °C")?);
        return Some(say.with("report-group-temperature-under", [("most", most.into())]));
    }
    if let Some(least) = name.strip_suffix(" °C and more") {
        return Some(say.with("report-group-temperature-from", [("least", degrees(least).into())]));
    }
    let (from, to) = name.strip_suffix(" °C")?.split_once(" to ")?;
    let values = [("from", say.words.number(from).into()), ("to", degrees(to).into())];
    Some(say.with("report-group-temperature-between", values))
}

pub(crate) fn severity(say: Say, word: &str) -> String {
    match word {
        "none" => say.say("sheet-severity-none"),
        "low" => say.say("sheet-severity-low"),
        "medium" => say.say("sheet-severity-medium"),
        "high" => say.say("sheet-severity-high"),
        other => other.to_owned(),
    }
}

/// A part of the cost, as the figures have it.
pub(crate) fn cost_part(say: Say, part: &str) -> String {
    say.say(match part {
        "labour" => "report-part-labour",
        "plant" => "report-part-plant",
        "base" => "report-part-base",
        "cover stone" => "report-part-cover-stone",
        "binder" => "report-part-binder",
        "water" => "report-part-water",
        "other material" => "report-part-other-material",
        "wasted" => "report-part-wasted",
        "count difference" => "report-part-count-difference",
        "price difference" => "report-part-price-difference",
        other => return other.to_owned(),
    })
}

/// What is planned and comes out otherwise.
pub(crate) fn planned(say: Say, what: &str) -> String {
    say.say(match what {
        "area cut" => "report-area-cut",
        "base, loose" => "report-base-loose",
        "water" => "report-part-water",
        "binder" => "report-part-binder",
        "cover stone" => "report-part-cover-stone",
        "time at the zone" => "report-time-at-zone",
        other => return other.to_owned(),
    })
}

pub(crate) fn item(say: Say, line: &StockLine) -> String {
    let what = say.say(match line.what {
        StockKind::Base => "report-part-base",
        StockKind::CoverStone => "report-part-cover-stone",
        StockKind::Binder => "report-part-binder",
        StockKind::Water => "report-part-water",
        StockKind::Spoil => "report-stock-spoil",
        StockKind::Sign => "report-stock-signs",
        StockKind::Cone => "report-stock-cones",
        StockKind::OtherDevice => "report-stock-other-devices",
    });
    if line.which.is_empty() { what } else { say.list([what, line.which.clone()]) }
}

/// A way to renew: those of our rules in the language, an agency's own as it names them.
pub(crate) fn renewal(say: Say, name: &str) -> String {
    match name {
        "reseal" => say.say("report-renewal-reseal"),
        "new base and seal" => say.say("report-renewal-new-base"),
        own => own.to_owned(),
    }
}

pub(crate) fn road(say: Say, road: &str) -> String {
    if road.is_empty() { say.say("report-road-not-known") } else { road.to_owned() }
}
