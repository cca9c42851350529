//! What stands after corrections.

use std::collections::{BTreeMap, HashMap, HashSet};

use uuid::Uuid;

use super::event::Event;
use super::happened::Happened;

/// An event as it stands after corrections.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InForce<'a> {
    /// The event that was told first: when it happened, and its number.
    pub event: &'a Event,
    /// The event that says what happened: the same, or the last correction of it.
    pub told: &'a Event,
    /// What happened.
    pub happened: &'a Happened,
}

/// What of the events given stands after the corrections among them, in the order in which it happened. Corrections themselves
/// are not in it, nor is what did not happen at all.
///
/// Of several corrections of one event the last counts; a correction can itself be corrected, and one that is withdrawn leaves
/// the one before it. Events that correct each other in a circle count for nothing. An event given twice counts once.
///
/// The answer depends on which events there are, never on their order.
pub fn in_force<'a>(events: impl IntoIterator<Item = &'a Event>) -> Vec<InForce<'a>> {
    let mut ordered: Vec<&Event> = events.into_iter().collect();
    ordered.sort_by_key(|event| event.order());
    ordered.dedup_by_key(|event| event.id);
    let mut corrections: HashMap<Uuid, Vec<&Event>> = HashMap::new();
    let targets: HashMap<Uuid, Uuid> = ordered
        .iter()
        .filter_map(|event| match &event.happened {
            Happened::Corrected { event: target, .. } => Some((event.id, *target)),
            _ => None,
        })
        .collect();
    for event in &ordered {
        if let Some(target) = targets.get(&event.id)
            && !in_a_circle(event.id, &targets)
        {
            corrections.entry(*target).or_default().push(event);
        }
    }
    let mut standing = BTreeMap::new();
    for event in ordered {
        if targets.contains_key(&event.id) {
            continue;
        }
        let standing_now = stands(event, &corrections);
        // what is no correction can't be put right into one
        if let Some((told, happened)) = standing_now
            && !matches!(happened, Happened::Corrected { .. })
        {
            standing.insert(event.order(), InForce { event, told, happened });
        }
    }
    standing.into_values().collect()
}

/// What an event says after corrections, and who says it; `None`: it did not happen.
fn stands<'a>(event: &'a Event, corrections: &HashMap<Uuid, Vec<&'a Event>>) -> Option<(&'a Event, &'a Happened)> {
    for correction in corrections.get(&event.id).into_iter().flatten().rev() {
        // a chain of corrections ends, since none is in a circle
        let Some((told, Happened::Corrected { event: target, instead, .. })) = stands(correction, corrections) else {
            continue;
        };
        // a correction that was put right may speak of another event now
        if *target == event.id {
            return instead.as_deref().map(|happened| (told, happened));
        }
    }
    Some((event, &event.happened))
}

/// Whether a correction corrects itself by way of others.
fn in_a_circle(id: Uuid, targets: &HashMap<Uuid, Uuid>) -> bool {
    let mut seen = HashSet::new();
    let mut at = id;
    while let Some(target) = targets.get(&at) {
        if *target == id {
            return true;
        }
        if !seen.insert(*target) {
            return false;
        }
        at = *target;
    }
    false
}

#[cfg(test)]
mod tests {
    use jiff::Timestamp;

    use super::*;

    fn event(number: u128, second: i64, happened: Happened) -> Event {
        Event {
            id: Uuid::from_u128(number),
            schema: 1,
            actor: "mara".into(),
            device: "phone-1".into(),
            device_time: Timestamp::from_second(second).unwrap(),
            clock_ahead_ms: 0,
            happened,
        }
    }

    fn opened(number: u128) -> Happened {
        Happened::OpenedToTraffic { repair: Uuid::from_u128(number) }
    }

    fn corrected(target: u128, instead: Option<Happened>) -> Happened {
        Happened::Corrected {
            event: Uuid::from_u128(target),
            instead: instead.map(Box::new),
            why: "typed wrong".into(),
        }
    }

    fn standing(events: &[Event]) -> Vec<(u128, u128)> {
        in_force(events)
            .into_iter()
            .map(|stands| match stands.happened {
                Happened::OpenedToTraffic { repair } => (stands.event.id.as_u128(), repair.as_u128()),
                other => panic!("{other:?}"),
            })
            .collect()
    }

    /// Name, further events, and what stands: number of the event and of the repair that it opens.
    type Case = (&'static str, Vec<Event>, Vec<(u128, u128)>);

    /// Arithmetic only: each list by hand.
    #[test]
    fn corrections_count_by_hand() {
        let first = event(1, 10, opened(100));
        let cases: [Case; 7] = [
            ("none", vec![], vec![(1, 100)]),
            ("put right", vec![event(2, 20, corrected(1, Some(opened(200))))], vec![(1, 200)]),
            ("withdrawn", vec![event(2, 20, corrected(1, None))], vec![]),
            (
                "the last counts",
                vec![event(2, 20, corrected(1, None)), event(3, 30, corrected(1, Some(opened(300))))],
                vec![(1, 300)],
            ),
            (
                "a withdrawn correction leaves the one before",
                vec![
                    event(2, 20, corrected(1, Some(opened(200)))),
                    event(3, 30, corrected(1, None)),
                    event(4, 40, corrected(3, None)),
                ],
                vec![(1, 200)],
            ),
            (
                "a correction put right",
                vec![
                    event(2, 20, corrected(1, None)),
                    event(3, 30, corrected(2, Some(corrected(1, Some(opened(300)))))),
                ],
                vec![(1, 300)],
            ),
            (
                "a circle counts for nothing",
                vec![event(2, 20, corrected(3, None)), event(3, 30, corrected(2, None))],
                vec![(1, 100)],
            ),
        ];
        for (name, more, expected) in cases {
            let mut events = vec![first.clone()];
            events.extend(more);
            assert_eq!(standing(&events), expected, "{name}");
            events.reverse();
            events.push(first.clone());
            assert_eq!(standing(&events), expected, "{name}, the other way round and one twice");
        }
    }
}
