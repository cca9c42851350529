//! Which repairs somebody should look at again.

use jiff::{SignedDuration, Timestamp};
use model::look::LookReason;
use model::record::happened::{Found, Position};
use model::record::known::{KnownRepair, RepairState};
use model::rules::lasting::LastingRules;
use uuid::Uuid;

/// A look that is due, or nearly.
#[derive(Debug, Clone, PartialEq)]
pub struct DueLook {
    /// The repair.
    pub repair: Uuid,
    /// Where it is.
    pub position: Option<Position>,
    /// From when on it is due.
    pub due: Timestamp,
    /// Whether it is due now; else it may be made when a crew passes by.
    pub is_due: bool,
    /// Why.
    pub why: LookReason,
}

/// Looks due now or soon enough to be made when a crew passes by; the longest due first. Failed repairs have none, nor those that are
/// not opened yet. One look stands for all that were due before it.
pub fn due_looks(repairs: &[KnownRepair], now: Timestamp, rules: &LastingRules) -> Vec<DueLook> {
    let mut looks: Vec<DueLook> = repairs.iter().filter_map(|repair| due_look(repair, now, rules)).collect();
    looks.sort_by_key(|look| (look.due, look.repair));
    looks
}

fn due_look(repair: &KnownRepair, now: Timestamp, rules: &LastingRules) -> Option<DueLook> {
    if repair.state == RepairState::Failed {
        return None;
    }
    let begin = repair.opened.as_ref().or(repair.sealed.as_ref()).map(|by| by.at)?;
    let last = repair.inspections.iter().max_by_key(|look| look.by.at);
    let (due, ahead, why) = match last {
        Some(look) if look.found == Found::Failed => return None,
        Some(look) if look.found == Found::Worn => {
            let after = rules.worn_look_days.value;
            let due = look.by.at.checked_add(days(after)).ok()?;
            (due, ahead(after, rules), LookReason::FoundWorn { days: after })
        }
        _ => next_look(begin, last.map(|look| look.by.at), now, rules)?,
    };
    let near = due.checked_sub(ahead).ok()? <= now;
    near.then(|| DueLook { repair: repair.repair, position: repair.position, due, is_due: due <= now, why })
}

/// The first planned look that was not made: when it is due, how much earlier it may be made, and why. Of several that nobody
/// made the last one due says why.
fn next_look(
    begin: Timestamp,
    last: Option<Timestamp>,
    now: Timestamp,
    rules: &LastingRules,
) -> Option<(Timestamp, SignedDuration, LookReason)> {
    let mut before = 0;
    let mut missed: Option<(Timestamp, SignedDuration, LookReason)> = None;
    for after in &rules.look_after_days.value {
        let due = begin.checked_add(days(*after)).ok()?;
        let ahead = ahead(after.saturating_sub(before), rules);
        before = *after;
        // a look made a little before its day was that look
        if last.is_some_and(|last| due.checked_sub(ahead).is_ok_and(|from| from <= last)) {
            continue;
        }
        match &mut missed {
            None => missed = Some((due, ahead, LookReason::AfterOpening { days: *after })),
            Some((_, _, why)) if due <= now => *why = LookReason::AfterOpening { days: *after },
            Some(_) => {}
        }
    }
    missed
}

/// How much earlier a look may be made: no more than half of the time that lies before it.
fn ahead(span_days: u16, rules: &LastingRules) -> SignedDuration {
    days(rules.passing_by_days.value.min(span_days / 2))
}

fn days(count: u16) -> SignedDuration {
    SignedDuration::from_hours(24 * i64::from(count))
}
