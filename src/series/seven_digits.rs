//! Values in the order of their rows, to the seven digits that are drawn and printed of them: more than
//! any instrument has, in the least room.

use crate::physics::counts::nearest;

/// Values of one channel to seven digits; NaN where there is none.
///
/// ```
/// use gapledger::series::SevenDigits;
/// let values: SevenDigits = [8.12, f64::NAN, 1.0 / 3.0].into_iter().collect();
/// assert_eq!(values.get(2), Some(0.333_333_34));
/// assert_eq!(values.len(), 3);
/// ```
#[derive(Clone, Debug)]
pub struct SevenDigits(Kept);

/// As hundredths, while each value is one, or as they are; the least whole number stands for none.
#[derive(Clone, Debug)]
enum Kept {
    Hundredths(Vec<i16>),
    Digits(Vec<f32>),
}

impl SevenDigits {
    /// Adds the value of the next row.
    pub fn push(&mut self, value: f64) {
        let value = seven(value);
        match &mut self.0 {
            Kept::Digits(all) => all.push(value),
            Kept::Hundredths(all) => match hundredths(value) {
                Some(short) => all.push(short),
                None => {
                    let mut digits: Vec<f32> =
                        all.iter().map(|short| of_hundredths(*short)).collect();
                    digits.push(value);
                    self.0 = Kept::Digits(digits);
                }
            },
        }
    }

    /// How many rows there are.
    #[must_use]
    pub fn len(&self) -> usize {
        match &self.0 {
            Kept::Hundredths(all) => all.len(),
            Kept::Digits(all) => all.len(),
        }
    }

    /// Whether there is none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// The value of a row, NaN where it has none; `None` where there is no such row.
    #[must_use]
    pub fn get(&self, row: usize) -> Option<f32> {
        match &self.0 {
            Kept::Hundredths(all) => all.get(row).map(|short| of_hundredths(*short)),
            Kept::Digits(all) => all.get(row).copied(),
        }
    }

    /// Whether a row has a value.
    #[must_use]
    pub fn has(&self, row: usize) -> bool {
        self.get(row).is_some_and(|value| !value.is_nan())
    }

    /// All values, by row.
    pub fn iter(&self) -> impl Iterator<Item = f32> + '_ {
        (0..self.len()).filter_map(|row| self.get(row))
    }
}

impl Default for SevenDigits {
    fn default() -> Self {
        Self(Kept::Hundredths(Vec::new()))
    }
}

impl FromIterator<f64> for SevenDigits {
    fn from_iter<I: IntoIterator<Item = f64>>(values: I) -> Self {
        let mut kept = Self::default();
        for value in values {
            kept.push(value);
        }
        // What grew row by row has room for as many again.
        match &mut kept.0 {
            Kept::Hundredths(all) => all.shrink_to_fit(),
            Kept::Digits(all) => all.shrink_to_fit(),
        }
        kept
    }
}

/// The whole number of hundredths that stands for a value; `None` where it would not give it back.
fn hundredths(value: f32) -> Option<i16> {
    if value.is_nan() {
        return Some(i16::MIN);
    }
    let whole = i16::try_from(nearest(f64::from(value) * 100.0)).ok()?;
    let gives_back = of_hundredths(whole).to_bits() == (value + 0.0).to_bits();
    gives_back.then_some(whole)
}

fn of_hundredths(whole: i16) -> f32 {
    match whole {
        i16::MIN => f32::NAN,
        _ => seven(f64::from(whole) / 100.0),
    }
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "seven digits are enough to draw by and to print"
)]
fn seven(value: f64) -> f32 {
    value as f32
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn what_instruments_write_takes_two_bytes() {
        let is_short = |values: &[f64]| {
            let kept: SevenDigits = values.iter().copied().collect();
            matches!(kept.0, Kept::Hundredths(_))
        };
        // A relative humidity of 55.3 %, kept as a share of one and drawn in percent.
        assert!(is_short(&[8.12, -12.5, f64::NAN, 100.0 * (55.3 / 100.0)]));
        assert!(!is_short(&[8.12, 3.812_345]));
        // The least whole number stands for a missing one, and further down there is none.
        assert!(!is_short(&[-327.68]));
        assert!(!is_short(&[1013.25]));
    }

    proptest! {
        #[test]
        fn every_value_is_the_nearest_of_seven_digits(
            values in prop::collection::vec(
                prop_oneof![
                    6 => (-40_000..40_000_i32).prop_map(|n| f64::from(n) / 100.0),
                    1 => -100.0..100.0_f64,
                    1 => prop::num::f64::ANY,
                    1 => Just(f64::NAN),
                    1 => Just(-0.0),
                ],
                0..40,
            )
        ) {
            let kept: SevenDigits = values.iter().copied().collect();
            prop_assert_eq!(kept.len(), values.len());
            for (row, value) in values.iter().enumerate() {
                let (back, asked) = (kept.get(row).unwrap(), seven(*value));
                let same = (back + 0.0).to_bits() == (asked + 0.0).to_bits();
                prop_assert!(same || (back.is_nan() && asked.is_nan()), "row {}", row);
                prop_assert_eq!(kept.has(row), !value.is_nan());
            }
            prop_assert_eq!(kept.iter().count(), values.len());
        }
    }
}
