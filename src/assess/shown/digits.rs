//! One written number in another unit.

use crate::survey::number::figure;
use crate::survey::unit::{Dimension, Unit};

/// What stands where a size was not taken.
pub(super) const NOT_TAKEN: char = '?';

/// Most significant digits of a translated number.
const MOST: usize = 6;

/// Digits that a translated number has at least.
pub(super) fn least(unit: &Unit) -> usize {
    match unit.dimension {
        Dimension::Volume if unit.symbol == "L" => 2,
        Dimension::Length
        | Dimension::Area
        | Dimension::Volume
        | Dimension::Transmittance
        | Dimension::Conductivity
        | Dimension::Resistance
        | Dimension::PriceOfMass
        | Dimension::PriceOfVolume => 3,
        _ => 2,
    }
}

/// A number as it is written in one unit, written in another; what is no number stays.
pub(super) fn converted(number: &str, from: &Unit, to: &Unit, least: usize) -> String {
    let plain = number.replace('−', "-");
    let Ok(value) = plain.parse::<f64>() else {
        return number.to_owned();
    };
    let shown = from.to(to, value);
    let decimals = plain.split_once('.').map_or(0, |(_, behind)| behind.len());
    if matches!(
        from.dimension,
        Dimension::Temperature | Dimension::Difference
    ) {
        return tenths(shown, decimals);
    }
    if value == 0.0 {
        return number.to_owned();
    }
    let digits = significant(&plain, zeros_count(from)).clamp(least, MOST);
    figure(shown, i32::try_from(digits).unwrap_or(3))
}

/// Degrees with a tenth where one was written or is needed.
fn tenths(value: f64, decimals: usize) -> String {
    let text = format!("{:.1}", (value * 10.0).round() / 10.0 + 0.0);
    let text = match text.strip_suffix(".0") {
        Some(whole) if decimals == 0 => whole.to_owned(),
        _ => text,
    };
    text.replace('-', "−")
}

/// Whether zeros at the end of a whole number are significant among its first three digits: not
/// where results have two digits.
fn zeros_count(unit: &Unit) -> bool {
    !matches!(unit.symbol, "g/h" | "L/day" | "L" | "m/s")
}

/// How many digits of a written number are significant.
fn significant(number: &str, zeros_count: bool) -> usize {
    let mantissa = number.split(['e', 'E']).next().unwrap_or(number);
    let digits: String = mantissa.chars().filter(char::is_ascii_digit).collect();
    let digits = digits.trim_start_matches('0');
    if mantissa.contains('.') {
        return digits.len();
    }
    let least = if zeros_count { digits.len().min(3) } else { 0 };
    digits.trim_end_matches('0').len().max(least)
}
