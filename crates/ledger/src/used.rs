//! What layers and seals say went into repairs.

use std::collections::HashMap;

use model::record::happened::Happened;
use model::record::in_force::InForce;
use model::record::stock::{StockKind, StockPlace};
use rust_decimal::Decimal;
use uuid::Uuid;

use crate::amount;

/// What layers and seals say went into repairs, and what was moved there by hand.
#[derive(Debug, Default)]
pub struct Used<'a> {
    told: HashMap<(Uuid, Slot), Told>,
    by_hand: HashMap<(Uuid, StockKind), Decimal>,
    binders: HashMap<Uuid, &'a str>,
    bases: HashMap<(Uuid, u32), &'a str>,
    /// Amounts that can't be: place in the list of events, kind, amount as told, why not.
    pub refused: Vec<(usize, StockKind, Decimal, &'static str)>,
}

/// What a telling is about: told again, it is the same material.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
enum Slot {
    Base { layer: u32 },
    Water { layer: u32 },
    Binder,
    CoverStone,
}

#[derive(Debug, Clone, Copy)]
struct Told {
    /// Place in the list of the event that told it first: when it went in.
    first: usize,
    /// As told last.
    amount: Decimal,
}

/// Material that an event says went into a repair.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Use<'a> {
    /// What kind.
    pub kind: StockKind,
    /// Its name, where told.
    pub which: &'a str,
    /// How much.
    pub amount: Decimal,
}

/// A repair into which other amounts were moved by hand than its layers and seal say.
#[derive(Debug, Clone, Copy)]
pub struct Differs {
    /// Which.
    pub repair: Uuid,
    /// What kind.
    pub kind: StockKind,
    /// Moved by hand.
    pub by_hand: Decimal,
    /// Told by layers and seal.
    pub told: Decimal,
    /// Place in the list of the event that told it first.
    pub first: usize,
}

impl<'a> Used<'a> {
    /// Gathers it from events in the order in which they happened.
    pub fn of(events: &[InForce<'a>]) -> Self {
        let mut used = Used::default();
        for (index, stands) in events.iter().enumerate() {
            if let Happened::StockMoved { from, to, item, amount, .. } = stands.happened
                && from != to
                && let StockPlace::Repair { repair } = to
                && let Ok(amount) = amount::moved(*amount)
            {
                *used.by_hand.entry((*repair, item.what)).or_default() += amount;
            }
            match stands.happened {
                Happened::Sealed { repair, binder, .. } if !binder.trim().is_empty() => {
                    used.binders.insert(*repair, binder.trim());
                }
                Happened::LayerPlaced { repair, layer, base, .. } if !base.trim().is_empty() => {
                    used.bases.insert((*repair, *layer), base.trim());
                }
                _ => {}
            }
            for (repair, slot, amount) in tellings(stands.happened) {
                match amount::counted(amount) {
                    Ok(amount) => {
                        let told = used.told.entry((repair, slot));
                        told.and_modify(|told| told.amount = amount).or_insert(Told { first: index, amount });
                    }
                    Err(why) => used.refused.push((index, slot.kind(), amount, why)),
                }
            }
        }
        used
    }

    /// What is to be booked into the repair at an event: what it was the first to tell, as told last, unless material of the kind
    /// was moved into the repair by hand.
    pub fn at(&self, index: usize, happened: &Happened) -> Vec<(Uuid, Use<'a>)> {
        let tellings = tellings(happened);
        let uses = tellings.into_iter().filter_map(|(repair, slot, _)| {
            let told = self.told.get(&(repair, slot)).filter(|told| told.first == index && !told.amount.is_zero())?;
            let kind = slot.kind();
            if self.by_hand.contains_key(&(repair, kind)) {
                return None;
            }
            let which = match slot {
                Slot::Binder => self.binders.get(&repair),
                Slot::Base { layer } => self.bases.get(&(repair, layer)),
                Slot::Water { .. } | Slot::CoverStone => None,
            };
            Some((repair, Use { kind, which: which.copied().unwrap_or(""), amount: told.amount }))
        });
        uses.collect()
    }

    /// Repairs into which other amounts were moved by hand than told.
    pub fn differing(&self) -> Vec<Differs> {
        let mut sums: HashMap<(Uuid, StockKind), (Decimal, usize)> = HashMap::new();
        for ((repair, slot), told) in &self.told {
            let sum = sums.entry((*repair, slot.kind())).or_insert((Decimal::ZERO, told.first));
            sum.0 += told.amount;
            sum.1 = sum.1.min(told.first);
        }
        let mut differing: Vec<Differs> = sums
            .into_iter()
            .filter_map(|((repair, kind), (told, first))| {
                let by_hand = *self.by_hand.get(&(repair, kind))?;
                (by_hand != told).then_some(Differs { repair, kind, by_hand, told, first })
            })
            .collect();
        differing.sort_by_key(|differs| (differs.first, differs.kind));
        differing
    }
}

impl Slot {
    fn kind(self) -> StockKind {
        match self {
            Slot::Base { .. } => StockKind::Base,
            Slot::Water { .. } => StockKind::Water,
            Slot::Binder => StockKind::Binder,
            Slot::CoverStone => StockKind::CoverStone,
        }
    }
}

fn tellings(happened: &Happened) -> Vec<(Uuid, Slot, Decimal)> {
    let (repair, told) = match happened {
        Happened::LayerPlaced { repair, layer, base_loose_m3, water_l, .. } => {
            let layer = *layer;
            (*repair, [(Slot::Base { layer }, base_loose_m3), (Slot::Water { layer }, water_l)])
        }
        Happened::Sealed { repair, binder_l, cover_stone_m3, .. } => {
            (*repair, [(Slot::Binder, binder_l), (Slot::CoverStone, cover_stone_m3)])
        }
        _ => return Vec::new(),
    };
    told.into_iter().filter_map(|(slot, amount)| Some((repair, slot, (*amount)?))).collect()
}
