//! Money to the cent: the one place where amounts are rounded.
//!
//! A price is typed as a decimal and kept as the double nearest to it. Here it is taken for that
//! decimal again, the shortest that reads as the same double, and reckoned with exactly: no amount
//! hangs on the last bit of a double. An amount that comes out is a whole number of hundredths, and
//! handed on as the double nearest to it, which prints as just that.

use super::not_known::{Answer, NotKnown};
use rust_decimal::{Decimal, RoundingStrategy};
use std::str::FromStr;

/// Digits of an amount behind the point.
const CENTS: u32 = 2;
/// Digits of a quantity behind the point: a metre to the millimetre.
const QUANTITY: u32 = 3;

/// A product to the cent, half a cent away from zero.
///
/// ```text
/// c = round(a b / over)
/// ```
/// where a and b are a quantity or a time and a price, and `over` what the price is for: 60 of
/// minutes at an hourly rate, 1 of pieces.
///
/// # Errors
/// [`NotKnown`] where a factor is no number, or the amount is too large to be told to the cent.
pub(crate) fn product(a: f64, b: f64, over: f64) -> Answer<f64> {
    let amount = || exact(a)?.checked_mul(exact(b)?)?.checked_div(exact(over)?);
    amount()
        .map(|amount| to_cents(amount, CENTS))
        .ok_or_else(too_large)
}

/// The sum of amounts.
///
/// # Errors
/// As [`product`].
pub(crate) fn sum(amounts: impl IntoIterator<Item = f64>) -> Answer<f64> {
    let mut all = Decimal::ZERO;
    for amount in amounts {
        let more = exact(amount).and_then(|amount| all.checked_add(amount));
        all = more.ok_or_else(too_large)?;
    }
    Ok(to_cents(all, CENTS))
}

/// So many percent of an amount, to the cent.
///
/// # Errors
/// As [`product`].
pub(crate) fn share(amount: f64, percent: f64) -> Answer<f64> {
    product(amount, percent, 100.0)
}

/// A quantity as it is printed, so that what is printed multiplies: to thousandths, half of one away
/// from zero; one that is too large for that stays as it is.
pub(crate) fn quantity(value: f64) -> f64 {
    exact(value).map_or(value, |value| to_cents(value, QUANTITY))
}

/// The shortest decimal that reads as this double; `None` where it has more digits than are reckoned
/// with.
fn exact(value: f64) -> Option<Decimal> {
    Decimal::from_str(&value.to_string()).ok()
}

fn to_cents(amount: Decimal, digits: u32) -> f64 {
    let rounded = amount.round_dp_with_strategy(digits, RoundingStrategy::MidpointAwayFromZero);
    // The decimal's own digits are read back, which gives the nearest double.
    rounded.to_string().parse().unwrap_or(f64::NAN)
}

fn too_large() -> NotKnown {
    NotKnown::because("the amount is too large to be told to the cent")
}

#[cfg(test)]
#[expect(
    clippy::float_cmp,
    clippy::cast_precision_loss,
    reason = "cents must be exact, and whole numbers of this size are"
)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// By hand; binary doubles of the first two lie below the half cent, which once was lost.
    #[test]
    fn half_a_cent_is_rounded_away_from_zero() {
        assert_eq!(product(1.0, 1.005, 1.0), Ok(1.01));
        assert_eq!(product(3.0, 0.335, 1.0), Ok(1.01));
        assert_eq!(product(-1.0, 1.005, 1.0), Ok(-1.01));
        assert_eq!(product(25.0, 78.0, 60.0), Ok(32.5));
        // 7 min at 50 an hour are 5.8333…
        assert_eq!(product(7.0, 50.0, 60.0), Ok(5.83));
        assert_eq!(share(10.1, 7.5), Ok(0.76));
        assert_eq!(sum([0.1, 0.2, 0.3]), Ok(0.6));
        assert_eq!(quantity(23.400_000_000_000_002), 23.4);
    }

    #[test]
    fn what_has_too_many_digits_is_not_known_and_never_another_number() {
        for wrong in [1e30, f64::INFINITY, f64::NAN] {
            assert!(product(wrong, 1.0, 1.0).is_err(), "{wrong}");
            assert!(sum([1.0, wrong]).is_err());
        }
        assert!(product(1.0, 1.0, 0.0).is_err());
        assert!(product(1e20, 1e20, 1.0).is_err());
    }

    proptest! {
        /// Against whole numbers alone: thousandths of a quantity times ten-thousandths of a price.
        #[test]
        fn a_product_is_that_of_whole_numbers(thousandths in 0_i64..10_000_000, price in 0_i64..10_000_000) {
            let (a, b) = (thousandths as f64 / 1e3, price as f64 / 1e4);
            // In units of 1e-7; a cent has a hundred thousand of them.
            let exact = i128::from(thousandths) * i128::from(price);
            let cents = (exact + 50_000) / 100_000;
            let found = product(a, b, 1.0).unwrap();
            prop_assert_eq!(format!("{found:.2}"), format!("{}.{:02}", cents / 100, cents % 100));
        }

        #[test]
        fn sums_of_cents_keep_every_cent(cents in prop::collection::vec(0_i64..100_000_000, 0..200)) {
            let all: i64 = cents.iter().sum();
            let found = sum(cents.iter().map(|one| *one as f64 / 100.0)).unwrap();
            prop_assert_eq!(format!("{found:.2}"), format!("{}.{:02}", all / 100, all % 100));
        }
    }
}
