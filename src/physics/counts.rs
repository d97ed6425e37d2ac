//! Between counts, or places in a list, and numbers with a fraction.

/// The whole number at or below a value; zero where it is negative or no number.
#[must_use]
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a float that does not fit becomes the nearest number that does"
)]
pub fn whole(value: f64) -> usize {
    value as usize
}

/// A count as a number to reckon with.
#[must_use]
#[expect(clippy::cast_precision_loss, reason = "exact up to 2^53 things")]
pub fn count(things: usize) -> f64 {
    things as f64
}

/// Whole seconds as a number to reckon with.
#[must_use]
#[expect(clippy::cast_precision_loss, reason = "exact up to 2^53 seconds")]
pub fn seconds_as_f64(seconds: i64) -> f64 {
    seconds as f64
}

/// The whole number nearest to a value; the nearest that there is where it is beyond all of them, and
/// zero where it is no number.
#[must_use]
#[expect(
    clippy::cast_possible_truncation,
    reason = "a float that does not fit becomes the nearest number that does"
)]
pub fn nearest(value: f64) -> i32 {
    value.round() as i32
}
