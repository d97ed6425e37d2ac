//! How a number is written in a sentence about weather.

/// With a real minus sign.
pub(super) fn number(value: f64) -> String {
    value.to_string().replace('-', "\u{2212}")
}
