//! One item at one place: how much, what it is worth, which lots.

use model::record::stock::StockLot;
use rust_decimal::Decimal;

use crate::amount::{of_amount, share};
use crate::lots::{LotAmount, Lots};

/// One item at one place, valued at its moving weighted average.
///
/// Held by construction: what is there and what it is worth have the same sign, and nothing is worth nothing. More may be taken
/// than there is: the books say so, they do not hide it.
#[derive(Debug, Clone, Default)]
pub struct Account {
    quantity: Decimal,
    value: Decimal,
    last_price: Option<Decimal>,
    /// Its lots.
    pub lots: Lots,
}

/// What came out of an account.
#[derive(Debug, Clone)]
pub struct Taken {
    /// What it is worth.
    pub value: Decimal,
    /// Lots that it is of.
    pub lots: Vec<LotAmount>,
}

impl Account {
    /// How much is there; below zero: more was taken than the books know of.
    pub fn quantity(&self) -> Decimal {
        self.quantity
    }

    /// What it is worth.
    pub fn value(&self) -> Decimal {
        self.value
    }

    /// The average price of one, or the last there was.
    pub fn price(&self) -> Option<Decimal> {
        self.last_price
    }

    /// Takes an amount out. What is taken beyond what is there is worth the last price, or `other_price` where there was none.
    pub fn take(&mut self, amount: Decimal, named: Option<&StockLot>, other_price: Decimal) -> Taken {
        let there = amount.min(self.quantity).max(Decimal::ZERO);
        let mut value = Decimal::ZERO;
        if there > Decimal::ZERO {
            value = share(self.value, there, self.quantity);
            self.quantity -= there;
            self.value -= value;
        }
        let beyond = amount - there;
        if beyond > Decimal::ZERO {
            let owed = of_amount(beyond, self.last_price.unwrap_or(other_price));
            self.quantity -= beyond;
            self.value -= owed;
            value += owed;
        }
        self.remember_price();
        Taken { value, lots: self.take_lots(there, named) }
    }

    /// Lots of what is taken out, of which there is enough. A lot that is named and that the books do not have here is believed as
    /// far as there is stock without a lot.
    fn take_lots(&mut self, amount: Decimal, named: Option<&StockLot>) -> Vec<LotAmount> {
        let Some(named) = named else { return self.lots.take(amount, None) };
        let without_lot = self.quantity.max(Decimal::ZERO) + amount - self.lots.total();
        let believed = (amount - self.lots.of_number(&named.number)).min(without_lot).max(Decimal::ZERO);
        let mut taken = self.lots.take(amount - believed, Some(named));
        if believed > Decimal::ZERO {
            taken.push(LotAmount { lot: named.clone(), amount: believed });
        }
        taken
    }

    /// Puts an amount in. What had been taken beyond what was there is made good first, at the value that it was taken at;
    /// returned is by how much what comes in for it is dearer.
    pub fn put(&mut self, amount: Decimal, value: Decimal, lots: &[LotAmount]) -> Decimal {
        let mut lots_in = Lots::default();
        for piece in lots {
            lots_in.put(&piece.lot, piece.amount);
        }
        let (mut amount, mut value, mut dearer) = (amount, value, Decimal::ZERO);
        if self.quantity < Decimal::ZERO {
            let owed = -self.quantity;
            let made_good = owed.min(amount);
            let was_taken_at = share(-self.value, made_good, owed);
            let comes_at = share(value, made_good, amount);
            self.quantity += made_good;
            self.value += was_taken_at;
            dearer = comes_at - was_taken_at;
            lots_in.take(made_good, None);
            amount -= made_good;
            value -= comes_at;
        }
        self.quantity += amount;
        self.value += value;
        for piece in lots_in.all() {
            self.lots.put(&piece.lot, piece.amount);
        }
        self.remember_price();
        dearer
    }

    fn remember_price(&mut self) {
        if self.quantity > Decimal::ZERO {
            self.last_price = Some(self.value / self.quantity);
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use rust_decimal::prelude::ToPrimitive;

    use super::*;

    fn decimal(text: &str) -> Decimal {
        text.parse().unwrap()
    }

    /// Arithmetic only: by hand.
    #[test]
    fn what_was_overdrawn_is_made_good_at_its_own_value() {
        let mut account = Account::default();
        assert_eq!(account.put(10.into(), 20.into(), &[]), Decimal::ZERO);
        let taken = account.take(15.into(), None, Decimal::ZERO);
        assert_eq!((taken.value, account.quantity(), account.value()), (30.into(), (-5).into(), (-10).into()));
        // 5 that were taken at 2 are made good by 5 that cost 3
        assert_eq!(account.put(8.into(), 24.into(), &[]), 5.into());
        assert_eq!((account.quantity(), account.value(), account.price()), (3.into(), 9.into(), Some(3.into())));
    }

    #[test]
    fn beyond_what_was_ever_there_the_other_price_counts() {
        let mut account = Account::default();
        assert_eq!(account.take(2.into(), None, decimal("1.5")).value, 3.into());
        assert_eq!(account.value(), (-3).into());
    }

    #[test]
    fn a_lot_that_is_named_is_believed_where_stock_has_no_lot() {
        let lot = |number: &str| StockLot { number: number.to_owned(), use_by: None };
        let of = |number: &str, amount: i64| LotAmount { lot: lot(number), amount: amount.into() };
        let mut account = Account::default();
        account.put(10.into(), 10.into(), &[of("A", 4)]);
        assert_eq!(account.take(8.into(), Some(&lot("B")), Decimal::ZERO).lots, [of("A", 2), of("B", 6)]);
        assert_eq!(account.lots.total(), 2.into());
    }

    proptest! {
        /// Whatever is put in and taken out: value is neither made nor lost, and has the sign of the amount.
        #[test]
        fn value_is_kept(steps in prop::collection::vec((any::<bool>(), 1_i64..30_000_000, 0_i64..9_000_000), 1..60)) {
            let mut account = Account::default();
            let (mut amount_in, mut value_in) = (Decimal::ZERO, Decimal::ZERO);
            for (puts, millionths, cents) in steps {
                let amount = Decimal::new(millionths, 6);
                if puts {
                    let value = Decimal::new(cents, 2);
                    value_in += value - account.put(amount, value, &[]);
                    amount_in += amount;
                } else {
                    value_in -= account.take(amount, None, Decimal::ONE).value;
                    amount_in -= amount;
                }
                prop_assert_eq!(account.quantity(), amount_in);
                prop_assert_eq!(account.value(), value_in);
                prop_assert!(account.quantity() <= Decimal::ZERO || account.value() >= Decimal::ZERO);
                prop_assert!(account.quantity() >= Decimal::ZERO || account.value() <= Decimal::ZERO);
                prop_assert!(!account.quantity().is_zero() || account.value().is_zero());
            }
        }

        /// Beside the textbook's average in floating point, while there is stock.
        #[test]
        fn the_average_is_the_textbooks(steps in prop::collection::vec((1_i64..9_000, 1_i64..9_000, 1_i64..999), 1..60)) {
            let mut account = Account::default();
            let (mut quantity, mut average) = (0.0, 0.0);
            for (litres, cents, per_mille) in steps {
                let (amount, price) = (litres as f64 / 1000.0, cents as f64 / 100.0);
                average = (quantity * average + amount * price) / (quantity + amount);
                quantity += amount;
                account.put(Decimal::new(litres, 3), Decimal::new(litres * cents, 5), &[]);
                let out = crate::amount::kept(account.quantity() * Decimal::new(per_mille, 3));
                let value = account.take(out, None, Decimal::ZERO).value.to_f64().unwrap();
                quantity -= out.to_f64().unwrap();
                prop_assert!((value - out.to_f64().unwrap() * average).abs() < 1e-4, "{value}");
                prop_assert!((account.value().to_f64().unwrap() - quantity * average).abs() < 1e-4);
            }
        }
    }
}
