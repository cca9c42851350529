//! Amounts and money: how far they are kept exactly, and how they are shown.

use rust_decimal::prelude::FromPrimitive;
use rust_decimal::{Decimal, RoundingStrategy};

/// Decimals that amounts and money are kept with: a cubic centimetre, a thousandth of a millilitre, a millionth of the
/// currency. What comes with more is rounded once, when it comes in, so that all later sums are exact.
pub const KEPT_DECIMALS: u32 = 6;

/// The greatest amount, price or time that is believed in one event. Sums of many million such events stay exact.
pub const GREATEST: Decimal = Decimal::from_parts(10_000_000, 0, 0, false, 0);

/// Minutes of an hour.
const HOUR_MIN: Decimal = Decimal::from_parts(60, 0, 0, false, 0);

/// Kept as exactly as the books are; half a millionth goes to the even one.
pub fn kept(value: Decimal) -> Decimal {
    value.round_dp_with_strategy(KEPT_DECIMALS, RoundingStrategy::MidpointNearestEven).normalize()
}

/// An amount that something moves by: more than nothing and believed.
pub fn moved(value: Decimal) -> Result<Decimal, &'static str> {
    let value = counted(value)?;
    if value.is_zero() { Err("it is nothing") } else { Ok(value) }
}

/// An amount that something is: nothing or more, and believed.
pub fn counted(value: Decimal) -> Result<Decimal, &'static str> {
    if value.is_sign_negative() && !value.is_zero() {
        Err("it is less than nothing")
    } else if value > GREATEST {
        Err("it is more than ten million, which is not believed")
    } else {
        Ok(kept(value))
    }
}

/// An area as told, where it can be one.
pub fn area(square_metres: f64) -> Option<Decimal> {
    let area = Decimal::from_f64(square_metres)?;
    counted(area).ok()
}

/// What minutes come to at a price of an hour.
pub fn of_time(minutes: Decimal, price_per_h: Decimal) -> Decimal {
    kept(minutes * price_per_h.clamp(Decimal::ZERO, GREATEST) / HOUR_MIN)
}

/// What an amount comes to at a price of one.
pub fn of_amount(amount: Decimal, price: Decimal) -> Decimal {
    kept(amount * price)
}

/// The part of a value that belongs to a part of its amount. Exact where it is all; otherwise rounded, and the caller gives the
/// other part what is left.
pub fn share(value: Decimal, part: Decimal, whole: Decimal) -> Decimal {
    if part == whole || whole.is_zero() { value } else { kept(value / whole * part) }
}

/// Divides money by weights so that the parts add up to it exactly: what rounding leaves goes to the last.
pub fn divide(money: Decimal, weights: &[Decimal]) -> Vec<Decimal> {
    let whole: Decimal = weights.iter().sum();
    let mut left = money;
    let mut parts = Vec::with_capacity(weights.len());
    for (index, weight) in weights.iter().enumerate() {
        let last = index + 1 == weights.len();
        let part = if last { left } else { share(money, *weight, whole) };
        left -= part;
        parts.push(part);
    }
    parts
}

/// Money as shown: rounded to the decimals given, half to the even digit. Only what is shown is rounded: a total is rounded from
/// the exact total, so that shown parts may differ from it in the last digit.
pub fn shown(money: Decimal, decimals: u32) -> String {
    let rounded = money.round_dp_with_strategy(decimals, RoundingStrategy::MidpointNearestEven);
    format!("{rounded:.*}", decimals as usize)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn decimal(text: &str) -> Decimal {
        text.parse().unwrap()
    }

    /// Round half to even: IEEE 754-2019, 4.3.1 (from memory), as the standard's "roundTiesToEven".
    #[test]
    fn money_is_shown_half_to_even() {
        let cases = [
            ("2.345", "2.34"),
            ("2.355", "2.36"),
            ("2.3450001", "2.35"),
            ("-2.345", "-2.34"),
            ("7", "7.00"),
            ("0.005", "0.00"),
        ];
        for (exact, expected) in cases {
            assert_eq!(shown(decimal(exact), 2), expected, "{exact}");
        }
        assert_eq!(shown(decimal("1234.5"), 0), "1234");
    }

    #[test]
    fn what_is_not_believed_is_told_apart() {
        assert_eq!(moved(decimal("0.32512345678")), Ok(decimal("0.325123")));
        assert!(moved(decimal("0.0000004")).is_err(), "rounded away");
        assert!(moved(Decimal::ZERO).is_err());
        assert!(moved(Decimal::MAX).is_err());
        assert!(counted(decimal("-0.1")).is_err());
        assert_eq!(counted(decimal("-0.0")), Ok(Decimal::ZERO));
        assert_eq!(area(f64::NAN), None);
        assert_eq!(area(-1.0), None);
        assert_eq!(area(0.96), Some(decimal("0.96")));
    }

    #[test]
    fn a_hundred_by_thirds_adds_up() {
        let one = Decimal::ONE;
        let parts = divide(decimal("100"), &[one, one, one]);
        assert_eq!(parts, [decimal("33.333333"), decimal("33.333333"), decimal("33.333334")]);
        assert_eq!(divide(decimal("5"), &[]), Vec::<Decimal>::new());
        assert_eq!(divide(decimal("5"), &[Decimal::ZERO, Decimal::ZERO]).iter().sum::<Decimal>(), decimal("5"));
    }
}
