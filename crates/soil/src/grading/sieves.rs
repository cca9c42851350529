//! Sieves by number or opening.

use model::quantity::{InLength, Length, millimetres};
use model::rules::soil::SievingRules;
use model::soil::SieveMark;

use crate::show;

/// A sieve with its name.
#[derive(Debug, Clone, PartialEq)]
pub struct FoundSieve {
    /// Designation, or the opening in millimetres where it has none.
    pub name: String,
    /// Opening.
    pub opening: Length,
}

/// The sieve of a mark; an opening near to a designated one is that one, another is taken as it is. `None` for a number
/// that no sieve bears.
pub fn find_sieve(mark: SieveMark, rules: &SievingRules) -> Option<FoundSieve> {
    let known = &rules.sieves.value;
    let listed = match mark {
        SieveMark::Number(number) => {
            let name = format!("No. {number}");
            Some(known.iter().find(|sieve| sieve.name == name)?)
        }
        SieveMark::Opening(opening) => {
            let off = |mm: f64| (opening.in_millimetres() - mm).abs();
            let near = known.iter().min_by(|a, b| off(a.opening_mm).total_cmp(&off(b.opening_mm)));
            near.filter(|sieve| off(sieve.opening_mm) <= rules.same_sieve_share.value * sieve.opening_mm)
        }
    };
    match (listed, mark) {
        (Some(sieve), _) => Some(FoundSieve { name: sieve.name.clone(), opening: millimetres(sieve.opening_mm) }),
        (None, SieveMark::Opening(opening)) => Some(FoundSieve { name: show::millimetres(opening), opening }),
        (None, SieveMark::Number(_)) => None,
    }
}

/// The opening of a designation.
pub fn opening_of(name: &str, rules: &SievingRules) -> Option<Length> {
    rules.sieves.value.iter().find(|sieve| sieve.name == name).map(|sieve| millimetres(sieve.opening_mm))
}
