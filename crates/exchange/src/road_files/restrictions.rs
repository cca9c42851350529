//! Restrictions of turns as the open map has them: relations with members in the roles from, via and to.

use std::collections::BTreeSet;

use model::problem::Locator;
use model::quantity::{Mass, kilograms};
use model::road::{HoldsFor, RawRestriction, RawVia, TurnRule};

use super::Reading;
use super::open_map::tag;

/// A member of a relation that may be a restriction.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Member {
    pub(super) kind: MemberKind,
    pub(super) id: i64,
    pub(super) role: String,
}

/// What a member is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs)] // the words are the definition
pub(super) enum MemberKind {
    Node,
    Way,
    Relation,
}

/// The restrictions found so far; their members are looked up when all ways are known.
#[derive(Default)]
pub(super) struct Restrictions {
    found: Vec<RawRestriction>,
    ids: BTreeSet<i64>,
}

/// What is done with a restriction under one of its keys.
struct Kind {
    rule: TurnRule,
    turns_round: bool,
    several_from: bool,
    several_to: bool,
}

/// Whether a relation with these tags has to do with restrictions: only then its members are worth looking at.
pub(super) fn is_restriction(tags: &[(&str, &str)]) -> bool {
    tag(tags, "type").is_some_and(|kind| kind == "restriction" || kind.starts_with("restriction:"))
}

impl Restrictions {
    /// Takes one relation in, if it is a restriction that holds for trucks.
    pub(super) fn take(
        &mut self,
        id: i64,
        at: &Locator,
        members: &[Member],
        tags: &[(&str, &str)],
        reading: &mut Reading<'_>,
    ) {
        if !is_restriction(tags) {
            return;
        }
        let subject = format!("restriction {id}");
        if !self.ids.insert(id) {
            let wrong = "the relation is in the file twice".to_owned();
            let right = "a file that holds each relation once; the first is used";
            reading.findings.warn("road.restriction.twice", at.clone(), &subject, wrong, right);
            return;
        }
        let mut concerns_trucks = false;
        for (key, word) in tags.iter().filter(|(key, _)| *key == "restriction" || key.starts_with("restriction:")) {
            let Some(holds_for) = holds_for(key, tags, reading) else { continue };
            concerns_trucks = true;
            let word = word.split('@').next().unwrap_or(word).trim();
            let Some(kind) = kind_of(word) else {
                let wrong = format!("{key} is {word:?}");
                let right = "no_ or only_ with left_turn, right_turn, straight_on or u_turn, no_entry or no_exit; it is \
                             not obeyed";
                reading.findings.warn("road.restriction.unknown_kind", at.clone(), &subject, wrong, right);
                continue;
            };
            if key.ends_with(":conditional") {
                let wrong = format!("{key} holds at times only");
                let right = "it is obeyed at all times";
                reading.findings.warn("road.restriction.conditional", at.clone(), &subject, wrong, right);
            }
            match joined(members, &kind) {
                Ok((from, via, to)) => self.found.push(RawRestriction {
                    source_id: id.to_string(),
                    at: at.clone(),
                    rule: kind.rule,
                    turns_round: kind.turns_round,
                    holds_for,
                    from,
                    via,
                    to,
                }),
                Err(wrong) => {
                    let right = "one member from, one to, and as via one node or ways in their order; it is not obeyed";
                    reading.findings.warn("road.restriction.members", at.clone(), &subject, wrong, right);
                }
            }
        }
        if !concerns_trucks {
            reading.leave_out("restriction for others than trucks".to_owned());
        }
    }

    /// Those whose ways are all roads that were read; the others say nothing of any turn that can be made.
    pub(super) fn into_known(self, known: &BTreeSet<i64>, reading: &mut Reading<'_>) -> Vec<RawRestriction> {
        let is_known = |id: &String| id.parse().is_ok_and(|id: i64| known.contains(&id));
        let (used, others): (Vec<_>, Vec<_>) = self.found.into_iter().partition(|restriction| {
            let via = match &restriction.via {
                RawVia::Lines(lines) => lines.iter().all(is_known),
                RawVia::Point(_) => true,
            };
            via && restriction.from.iter().any(is_known) && restriction.to.iter().any(is_known)
        });
        for _ in others {
            reading.leave_out("restriction between ways that are not read".to_owned());
        }
        let only_known = |mut restriction: RawRestriction| {
            restriction.from.retain(is_known);
            restriction.to.retain(is_known);
            restriction
        };
        used.into_iter().map(only_known).collect()
    }
}

/// Whom a restriction under that key holds for; `None` where it holds for no truck.
fn holds_for(key: &str, tags: &[(&str, &str)], reading: &Reading<'_>) -> Option<HoldsFor> {
    let rule = &reading.rules.open_map;
    let heavy: Mass = kilograms(1000.0 * rule.heavy_from_t.value);
    let is = |list: &[String], word: &str| list.iter().any(|known| known == word);
    let vehicle = key.split(':').skip(1).find(|part| *part != "conditional");
    let mut heavy_too = vehicle.is_none_or(|word| is(&rule.trucks.value, word) || is(&rule.heavy_trucks.value, word));
    let mut light_too = vehicle.is_none_or(|word| is(&rule.trucks.value, word) || is(&rule.light_trucks.value, word));
    for word in tag(tags, "except").into_iter().flat_map(|list| list.split(';')).map(str::trim) {
        heavy_too &= !is(&rule.trucks.value, word) && !is(&rule.heavy_trucks.value, word);
        light_too &= !is(&rule.trucks.value, word) && !is(&rule.light_trucks.value, word);
    }
    match (heavy_too, light_too) {
        (true, true) => Some(HoldsFor::All),
        (true, false) => Some(HoldsFor::HeavierThan(heavy)),
        (false, true) => Some(HoldsFor::UpTo(heavy)),
        (false, false) => None,
    }
}

/// The kinds of restriction: OpenStreetMap wiki, Relation:restriction (from memory).
fn kind_of(word: &str) -> Option<Kind> {
    let (rule, turn) = match word.split_once('_')? {
        ("no", turn) => (TurnRule::No, turn),
        ("only", turn) => (TurnRule::Only, turn),
        _ => return None,
    };
    let known = ["left_turn", "right_turn", "straight_on", "u_turn"].contains(&turn)
        || (rule == TurnRule::No && ["entry", "exit"].contains(&turn));
    known.then(|| Kind {
        rule,
        turns_round: turn == "u_turn",
        several_from: turn == "entry",
        several_to: turn == "exit",
    })
}

fn joined(members: &[Member], kind: &Kind) -> Result<(Vec<String>, RawVia, Vec<String>), String> {
    let of_role = |role: &str| members.iter().filter(move |member| member.role == role).collect::<Vec<_>>();
    let ways = |role: &str, several: bool| {
        let found = of_role(role);
        let all_ways = found.iter().all(|member| member.kind == MemberKind::Way);
        if found.is_empty() || !all_ways || (found.len() > 1 && !several) {
            return Err(format!(
                "it has {} {role:?} members{}",
                found.len(),
                if all_ways { "" } else { ", not all ways" }
            ));
        }
        Ok(found.iter().map(|member| member.id.to_string()).collect::<Vec<_>>())
    };
    let via = match &of_role("via")[..] {
        [node] if node.kind == MemberKind::Node => RawVia::Point(node.id.cast_unsigned()),
        [] => return Err("it has no \"via\" member".to_owned()),
        ways if ways.iter().all(|member| member.kind == MemberKind::Way) => {
            RawVia::Lines(ways.iter().map(|member| member.id.to_string()).collect())
        }
        others => return Err(format!("its {} \"via\" members are neither one node nor all ways", others.len())),
    };
    Ok((ways("from", kind.several_from)?, via, ways("to", kind.several_to)?))
}
