//! Lots at one place: what goes off first goes out first.

use std::collections::BTreeMap;

use jiff::civil::Date;
use model::record::stock::StockLot;
use rust_decimal::Decimal;
use schemars::JsonSchema;
use serde::Serialize;

/// An amount of one lot.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct LotAmount {
    /// The lot.
    pub lot: StockLot,
    /// How much of it, in the unit of the item.
    pub amount: Decimal,
}

/// What lots are ordered by: those that go off first, then those that keep; by number where that is the same.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Key {
    keeps: bool,
    use_by: Option<Date>,
    number: String,
}

/// The lots of an item at a place. What is there beyond them has no lot.
#[derive(Debug, Clone, Default)]
pub struct Lots {
    amounts: BTreeMap<Key, Decimal>,
}

impl Lots {
    /// Puts an amount of a lot in.
    pub fn put(&mut self, lot: &StockLot, amount: Decimal) {
        if amount > Decimal::ZERO {
            *self.amounts.entry(Key::of(lot)).or_default() += amount;
        }
    }

    /// Takes an amount out: first of the lot named, then of what goes off first. Less comes out where the lots hold less: the
    /// rest has no lot.
    pub fn take(&mut self, amount: Decimal, named: Option<&StockLot>) -> Vec<LotAmount> {
        let mut taken = Vec::new();
        if self.amounts.is_empty() {
            return taken;
        }
        let mut left = amount;
        if let Some(named) = named {
            let keys: Vec<Key> = self.amounts.keys().filter(|key| key.number == named.number).cloned().collect();
            for key in keys {
                self.take_of(&key, &mut left, &mut taken);
            }
        }
        while left > Decimal::ZERO
            && let Some(first) = self.amounts.keys().next().cloned()
        {
            self.take_of(&first, &mut left, &mut taken);
        }
        taken
    }

    /// How much there is of the lot of a number.
    pub fn of_number(&self, number: &str) -> Decimal {
        self.amounts.iter().filter(|(key, _)| key.number == number).map(|(_, amount)| amount).sum()
    }

    /// How much there is of all lots.
    pub fn total(&self) -> Decimal {
        self.amounts.values().sum()
    }

    /// All lots, those that go off first before the others.
    pub fn all(&self) -> impl Iterator<Item = LotAmount> + '_ {
        self.amounts.iter().map(|(key, amount)| LotAmount { lot: key.lot(), amount: *amount })
    }

    fn take_of(&mut self, key: &Key, left: &mut Decimal, taken: &mut Vec<LotAmount>) {
        let Some(there) = self.amounts.get_mut(key) else { return };
        let amount = (*there).min(*left);
        if amount.is_zero() {
            return;
        }
        *there -= amount;
        *left -= amount;
        if there.is_zero() {
            self.amounts.remove(key);
        }
        taken.push(LotAmount { lot: key.lot(), amount: amount.normalize() });
    }
}

impl Key {
    fn of(lot: &StockLot) -> Self {
        Self { keeps: lot.use_by.is_none(), use_by: lot.use_by, number: lot.number.clone() }
    }

    fn lot(&self) -> StockLot {
        StockLot { number: self.number.clone(), use_by: self.use_by }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lot(number: &str, use_by: Option<&str>) -> StockLot {
        StockLot { number: number.to_owned(), use_by: use_by.map(|day| day.parse().unwrap()) }
    }

    fn taken(lots: &mut Lots, amount: i64, named: Option<&StockLot>) -> Vec<(String, Decimal)> {
        lots.take(amount.into(), named).into_iter().map(|piece| (piece.lot.number, piece.amount)).collect()
    }

    /// Arithmetic only: by hand.
    #[test]
    fn what_goes_off_first_goes_out_first() {
        let mut lots = Lots::default();
        lots.put(&lot("keeps", None), 5.into());
        lots.put(&lot("late", Some("2031-09-01")), 10.into());
        lots.put(&lot("soon", Some("2031-07-01")), 4.into());
        assert_eq!(taken(&mut lots, 6, None), [("soon".into(), 4.into()), ("late".into(), 2.into())]);
        assert_eq!(
            taken(&mut lots, 6, Some(&lot("keeps", None))),
            [("keeps".into(), 5.into()), ("late".into(), 1.into())]
        );
        assert_eq!(lots.of_number("late"), 7.into());
        assert_eq!(taken(&mut lots, 100, None), [("late".into(), 7.into())]);
        assert_eq!(lots.all().count(), 0);
    }
}
