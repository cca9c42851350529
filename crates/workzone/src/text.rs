//! Values in words for the "how was this worked out", in the rule set's unit and in SI.

use model::figure::{Source, Standing};
use model::quantity::{InLength, InVelocity};
use model::rules::traffic::{DistanceUnit, SpeedUnit, Units};

/// `600 ft (182.9 m)`; in a metric set `182.9 m`.
pub fn distance_words(value: f64, units: Units) -> String {
    let own = format!("{} {}", tidy(value), units.distance.symbol());
    match units.distance {
        DistanceUnit::Foot => format!("{own} ({:.1} m)", units.length(value).in_metres()),
        DistanceUnit::Metre => own,
    }
}

/// `50 mph (80 km/h)`; in a metric set `80 km/h`.
pub fn speed_words(value: f64, units: Units) -> String {
    let own = format!("{} {}", tidy(value), units.speed.symbol());
    match units.speed {
        SpeedUnit::MilePerHour => format!("{own} ({:.0} km/h)", units.velocity(value).in_kilometres_per_hour()),
        SpeedUnit::KilometrePerHour => own,
    }
}

/// A width as `3.05 m`: what a tape across the road reads.
pub fn metres_2(value: f64, units: Units) -> String {
    format!("{:.2} m", units.length(value).in_metres())
}

/// Two widths in metres, with as many decimals as it takes to tell them apart: to the millimetre at most.
pub fn metres_apart(value: f64, other: f64, units: Units) -> (String, String) {
    let near = units.length(value - other).in_metres().abs() < NEARLY_EQUAL_M;
    let both = |decimals: usize| {
        let text = |value: f64| format!("{:.decimals$} m", units.length(value).in_metres());
        (text(value), text(other))
    };
    both(if near { 3 } else { 2 })
}

/// Widths nearer to each other than this are given to the millimetre.
const NEARLY_EQUAL_M: f64 = 0.02;

/// One source for a figure that several rules go into. Its standing is that of the weakest, whose citation comes first;
/// the others follow with their own standing. A definition is named only where nothing else goes in.
pub fn joined(sources: &[&Source]) -> Source {
    let rank = |standing: Standing| match standing {
        Standing::CommonPractice => 0,
        Standing::FromMemory => 1,
        Standing::Agency => 2,
        Standing::Published => 3,
        Standing::Definition => 4,
    };
    let Some(standing) = sources.iter().map(|s| s.standing).min_by_key(|s| rank(*s)) else {
        return Source::definition();
    };
    let weakest = sources.iter().filter(|s| s.standing == standing).map(|s| s.cite.clone());
    let others = sources.iter().filter(|s| s.standing != standing && s.standing != Standing::Definition);
    let mut words: Vec<String> = Vec::new();
    for word in weakest.chain(others.map(ToString::to_string)) {
        if !words.contains(&word) {
            words.push(word);
        }
    }
    Source { standing, cite: words.join("; ") }
}

/// At most two decimals, none where there are none.
pub fn tidy(value: f64) -> String {
    let text = format!("{value:.2}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// Rounds up to a multiple of `step`, forgiving the last bits of a unit conversion; a step that is not above zero leaves
/// the value as it is.
pub fn round_up(value: f64, step: f64) -> f64 {
    if step > 0.0 && step.is_finite() { (value / step - FORGIVEN).ceil() * step } else { value }
}

/// A ten-millionth of a step: far below what a tape reads, far above what a conversion loses.
pub const FORGIVEN: f64 = 1e-7;

#[cfg(test)]
mod tests {
    use super::*;

    const US: Units = Units { distance: DistanceUnit::Foot, speed: SpeedUnit::MilePerHour };
    const METRIC: Units = Units { distance: DistanceUnit::Metre, speed: SpeedUnit::KilometrePerHour };

    #[test]
    fn values_read_in_the_sets_units_and_in_metric() {
        assert_eq!(distance_words(600.0, US), "600 ft (182.9 m)");
        assert_eq!(distance_words(81.666, US), "81.67 ft (24.9 m)");
        assert_eq!(speed_words(50.0, US), "50 mph (80 km/h)");
        assert_eq!(distance_words(83.613, METRIC), "83.61 m");
        assert_eq!(speed_words(80.0, METRIC), "80 km/h");
    }

    #[test]
    fn rounding_up_forgives_only_conversion_dust() {
        assert_eq!(round_up(50.000000001, 5.0), 50.0);
        assert_eq!(round_up(50.001, 5.0), 55.0);
        assert_eq!(round_up(62.5, 1.0), 63.0);
    }

    #[test]
    fn a_joined_source_is_as_good_as_its_weakest() {
        let published = Source::from("published: A guide".to_owned());
        let memory = Source::from("from memory: B guide".to_owned());
        assert_eq!(joined(&[&published, &published]), published);
        let both = joined(&[&published, &memory]);
        assert_eq!(both.to_string(), "from memory: B guide; published: A guide");
        assert_eq!(both.standing, Standing::FromMemory);
        assert_eq!(joined(&[&Source::definition(), &published]), published);
        assert_eq!(joined(&[]), Source::definition());
    }

    #[test]
    fn a_joined_source_says_its_standing_once() {
        let (first, second) = (Source::from("published: A".to_owned()), Source::from("published: B".to_owned()));
        assert_eq!(joined(&[&first, &second]).to_string(), "published: A; B");
    }

    #[test]
    fn widths_that_differ_read_differently() {
        assert_eq!(metres_apart(9.81, 10.0, US), ("2.99 m".into(), "3.05 m".into()));
        assert_eq!(metres_apart(9.99, 10.0, US), ("3.045 m".into(), "3.048 m".into()));
        assert_eq!(metres_apart(9.9999, 10.0, US), ("3.048 m".into(), "3.048 m".into()));
        assert_eq!(metres_apart(2.99, 3.0, METRIC), ("2.990 m".into(), "3.000 m".into()));
        assert_eq!(metres_apart(2.9, 3.0, METRIC), ("2.90 m".into(), "3.00 m".into()));
    }
}
