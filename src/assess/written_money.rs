//! How amounts of money are written: to the cent where something is charged by them, rounded where they
//! rest on estimates.

use super::words::figure;
use crate::survey::number::NOT_A_NUMBER;

/// The space that keeps a number and its unit on one line.
pub const NO_BREAK: char = '\u{a0}';

/// So many digits behind the point, with a real minus sign and none before a zero.
pub(super) fn decimals(value: f64, places: u8) -> String {
    if !value.is_finite() {
        return NOT_A_NUMBER.to_owned();
    }
    let unit = 10f64.powi(i32::from(places));
    let rounded = (value * unit).round() / unit + 0.0;
    let places = usize::from(places);
    format!("{rounded:.places$}").replace('-', "−")
}

/// An amount of money without its currency: always to the hundredth.
#[must_use]
pub fn money(amount: f64) -> String {
    decimals(amount, 2)
}

/// An amount that hangs on results, without its currency: two figures, which is what these can answer
/// for, written as money is. No hundredths stand behind ten.
#[must_use]
pub fn money_about(amount: f64) -> String {
    let size = amount.abs();
    if size < 0.995 {
        money(amount)
    } else if size < 9.95 {
        money((amount * 10.0).round() / 10.0)
    } else {
        figure(amount, 2)
    }
}

/// An amount that was entered or is made of usual prices, where nothing is charged by it: to the whole
/// unit, below ten to the hundredth.
#[must_use]
pub fn money_round(amount: f64) -> String {
    if amount.abs() < 9.995 {
        money(amount)
    } else {
        decimals(amount, 0)
    }
}

/// An amount of money with its currency in front, where there is one.
#[must_use]
pub fn price(amount: f64, currency: &str) -> String {
    with_currency(&money(amount), currency)
}

/// The same of an amount that hangs on results: see [`money_about`].
#[must_use]
pub fn price_about(amount: f64, currency: &str) -> String {
    with_currency(&money_about(amount), currency)
}

/// The same of an amount by which nothing is charged: see [`money_round`].
#[must_use]
pub fn price_round(amount: f64, currency: &str) -> String {
    with_currency(&money_round(amount), currency)
}

fn with_currency(amount: &str, currency: &str) -> String {
    match currency.trim() {
        "" => amount.to_owned(),
        currency => format!("{currency}{NO_BREAK}{amount}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: two figures of what hangs on results, whole units of prices put together.
    #[test]
    fn money_that_is_estimated_is_not_told_to_the_cent() {
        for (amount, about, round) in [
            (0.0, "0.00", "0.00"),
            (0.434, "0.43", "0.43"),
            (0.999, "1.00", "1.00"),
            (5.634, "5.60", "5.63"),
            (9.96, "10", "9.96"),
            (14.03, "14", "14"),
            (79.98, "80", "80"),
            (463.62, "460", "464"),
            (-396.8, "−400", "−397"),
            (2841.27, "2800", "2841"),
        ] {
            assert_eq!(money_about(amount), about);
            assert_eq!(money_round(amount), round);
        }
        assert_eq!(price_about(463.62, "EUR "), "EUR\u{a0}460");
        assert_eq!(price_round(463.62, ""), "464");
    }
}
