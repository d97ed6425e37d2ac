//! Numbers as people read them: sensible digits, no more.

use crate::physics::counts;

/// What stands in the place of a number that is none, without a unit.
pub const NOT_A_NUMBER: &str = "not a number";

/// A number with this many significant digits, without exponent: `0.0846`, `12.3`, `1230`.
///
/// ```
/// use gapledger::survey::number::significant;
/// assert_eq!(significant(0.084_61, 3), "0.0846");
/// assert_eq!(significant(1234.5, 3), "1230");
/// assert_eq!(significant(9.999, 3), "10.0");
/// assert_eq!(significant(0.0, 3), "0");
/// assert_eq!(significant(-2.5, 2), "-2.5");
/// ```
#[must_use]
pub fn significant(value: f64, digits: i32) -> String {
    if !value.is_finite() {
        return NOT_A_NUMBER.to_owned();
    }
    if value == 0.0 {
        return "0".to_owned();
    }
    let magnitude = |value: f64| value.abs().log10().floor();
    let rounded_at = |decimals: f64| {
        let scale = 10.0_f64.powf(decimals);
        (value * scale).round() / scale
    };
    let decimals = f64::from(digits) - 1.0 - magnitude(value);
    let rounded = rounded_at(decimals);
    // 9.999 to three digits is 10.0: the rounding has moved the magnitude.
    let decimals = f64::from(digits) - 1.0 - magnitude(rounded);
    let shown = decimals.clamp(0.0, 12.0);
    let places = counts::whole(shown);
    format!("{rounded:.places$}")
}

/// A worked-out number with so many significant digits and a real minus sign.
#[must_use]
pub fn figure(value: f64, digits: i32) -> String {
    if !value.is_finite() {
        return NOT_A_NUMBER.to_owned();
    }
    if is_extreme(value) {
        return format!("{value:.2e}").replace('-', "−");
    }
    significant(value, digits).replace('-', "−")
}

/// A number with its sign, so many digits behind the point, and a real minus; what rounds to nothing has
/// no sign.
///
/// ```
/// use gapledger::survey::number::signed;
/// assert_eq!(signed(1.25, 1), "+1.2");
/// assert_eq!(signed(-1.26, 1), "\u{2212}1.3");
/// assert_eq!(signed(-0.04, 1), "0.0");
/// ```
#[must_use]
pub fn signed(value: f64, digits: usize) -> String {
    if !value.is_finite() {
        return NOT_A_NUMBER.to_owned();
    }
    let size = format!("{:.digits$}", value.abs());
    let is_nothing = !size.contains(|digit| ('1'..='9').contains(&digit));
    match (is_nothing, value < 0.0) {
        (true, _) => size,
        (false, true) => format!("\u{2212}{size}"),
        (false, false) => format!("+{size}"),
    }
}

/// A number that was typed in: as many digits as were given, unless no person would type so many.
#[must_use]
pub fn given(value: f64) -> String {
    if !value.is_finite() {
        return NOT_A_NUMBER.to_owned();
    }
    if is_extreme(value) {
        return format!("{value:.2e}").replace('-', "−");
    }
    let all = format!("{value}");
    let shown = if all.len() > MOST_TYPED {
        let rounded = significant(value, 6);
        match rounded.trim_end_matches('0') {
            short if rounded.contains('.') => short.trim_end_matches('.').to_owned(),
            _ => rounded,
        }
    } else {
        all
    };
    shown.replace('-', "−")
}

/// Characters of the longest number that is shown as it was typed.
const MOST_TYPED: usize = 9;

/// Whether a number would be a row of zeros; no vehicle has such, but a file may.
fn is_extreme(value: f64) -> bool {
    value != 0.0 && !(1e-9..1e9).contains(&value.abs())
}

/// A count from a number that was held to whole numbers before; outside `u32` its nearest end.
#[must_use]
pub fn whole(value: f64) -> u32 {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a float that does not fit becomes the nearest number that does"
    )]
    let count = value.round() as u32;
    count
}

/// A number in words and its unit, kept on one line; no unit where it is no number.
#[must_use]
pub fn with_unit(number: &str, unit: &str) -> String {
    if unit.is_empty() || number.ends_with(NOT_A_NUMBER) {
        number.to_owned()
    } else {
        format!("{number}\u{a0}{unit}")
    }
}

/// Gaps by their numbers.
///
/// ```
/// use gapledger::survey::number::gaps;
/// assert_eq!(gaps(&["3".to_owned()]), "gap 3");
/// assert_eq!(gaps(&["3".to_owned(), "5".to_owned()]), "gaps 3, 5");
/// ```
#[must_use]
pub fn gaps(numbers: &[String]) -> String {
    let word = if numbers.len() == 1 { "gap" } else { "gaps" };
    format!("{word} {}", numbers.join(", "))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_no_number_is_called_so_and_has_no_unit() {
        for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            for text in [given(value), figure(value, 3), significant(value, 3)] {
                assert_eq!(with_unit(&text, "m²"), NOT_A_NUMBER);
            }
        }
        assert_eq!(with_unit(&given(2.5), "m²"), "2.5\u{a0}m²");
    }
}
