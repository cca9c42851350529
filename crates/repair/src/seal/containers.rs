//! Hot binder in whole containers.

use model::district::{Applicator, Container, Plant};
use model::figure::Source;
use model::quantity::{InVolume, Volume, litres};
use model::repair::{ContainerCount, Containers};
use model::rules::repair::BinderVolumeRules;

/// Containers at hand, and who says so.
#[derive(Debug, Clone, PartialEq)]
pub struct Sizes {
    /// Each size once; empty: binder is drawn from the tank.
    pub list: Vec<Container>,
    /// Where the list is from.
    pub source: Source,
}

/// The containers of the plant: the district's own, else those of the rules for the way binder is applied.
pub fn sizes(plant: &Plant, rules: &BinderVolumeRules) -> Sizes {
    if !plant.containers.is_empty() {
        return Sizes { list: plant.containers.clone(), source: Source::agency("the district's own containers") };
    }
    let (name, sizes) = match plant.applicator {
        Applicator::PouringPot => ("pouring pot", &rules.pouring_pot_l),
        Applicator::Sprayer => ("sprayer can", &rules.sprayer_l),
    };
    let list = sizes.value.iter().map(|&volume| Container { name: name.into(), volume: litres(volume) }).collect();
    Sizes { list, source: sizes.source.clone() }
}

/// Whole containers for so much binder: the largest as often as it is filled, then the smallest that takes the rest.
/// Never less than is needed.
pub fn fill(needed: Volume, sizes: &[Container]) -> Containers {
    let none = Containers { counts: Vec::new(), left_over: litres(0.0) };
    let Some(largest) = sizes.iter().max_by(|a, b| a.volume.value.total_cmp(&b.volume.value)) else { return none };
    let each = largest.volume.in_litres();
    let is_a_number = |value: f64| value.is_finite() && value > 0.0;
    if !is_a_number(each) || !is_a_number(needed.in_litres()) {
        return none;
    }
    // A hair, so that three containers exactly are three.
    let full = (needed.in_litres() / each + 1e-9).floor();
    let rest = needed.in_litres() - full * each;
    let mut counts = vec![ContainerCount { name: largest.name.clone(), volume: largest.volume, count: full as u32 }];
    if rest > 1e-9 * each {
        let takes_it = |container: &&Container| container.volume.in_litres() >= rest;
        let last = sizes.iter().filter(takes_it).min_by(|a, b| a.volume.value.total_cmp(&b.volume.value));
        let last = last.unwrap_or(largest);
        match counts.iter_mut().find(|count| count.volume == last.volume) {
            Some(count) => count.count += 1,
            None => counts.push(ContainerCount { name: last.name.clone(), volume: last.volume, count: 1 }),
        }
    }
    counts.retain(|count| count.count > 0);
    let filled = counts.iter().map(|count| f64::from(count.count) * count.volume.in_litres()).sum::<f64>();
    Containers { counts, left_over: litres((filled - needed.in_litres()).max(0.0)) }
}

/// `2 pouring pots of 10 L, 5.7 L left over`.
pub fn words(containers: &Containers, volume: impl Fn(Volume) -> String) -> String {
    if containers.counts.is_empty() {
        return "none: drawn from the tank".into();
    }
    let each =
        containers.counts.iter().map(|count| format!("{} × {} of {}", count.count, count.name, volume(count.volume)));
    format!("{}, {} left over", each.collect::<Vec<_>>().join(" and "), volume(containers.left_over))
}
