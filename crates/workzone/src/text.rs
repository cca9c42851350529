//! Values in words for the "how was this worked out", in the source's unit and in SI.

use model::figure::{Source, Standing};
use model::quantity::{InLength, InVelocity, feet, miles_per_hour};

/// `600 ft (182.9 m)`.
pub fn ft(value: f64) -> String {
    format!("{} ft ({:.1} m)", tidy(value), feet(value).in_metres())
}

/// `50 mph (80 km/h)`.
pub fn mph(value: f64) -> String {
    format!("{} mph ({:.0} km/h)", tidy(value), miles_per_hour(value).in_kilometres_per_hour())
}

/// One source for a figure that several rules go into: the citations joined, the standing that of the weakest.
pub fn joined(sources: &[&Source]) -> Source {
    let rank = |standing: Standing| match standing {
        Standing::CommonPractice => 0,
        Standing::FromMemory => 1,
        Standing::Agency => 2,
        Standing::Published => 3,
        Standing::Definition => 4,
    };
    let standing = sources.iter().map(|s| s.standing).min_by_key(|s| rank(*s)).unwrap_or(Standing::Definition);
    let mut words: Vec<String> = Vec::new();
    for source in sources {
        let word = source.to_string();
        if !words.contains(&word) {
            words.push(word);
        }
    }
    if words.len() == 1 { sources[0].clone() } else { Source { standing, cite: words.join("; ") } }
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

    #[test]
    fn values_read_in_both_units() {
        assert_eq!(ft(600.0), "600 ft (182.9 m)");
        assert_eq!(ft(81.666), "81.67 ft (24.9 m)");
        assert_eq!(mph(50.0), "50 mph (80 km/h)");
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
        assert_eq!(
            (both.standing, both.cite.as_str()),
            (Standing::FromMemory, "published: A guide; from memory: B guide")
        );
    }
}
