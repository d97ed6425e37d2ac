//! Values in the order of their rows, in the least room that gives each of them back as it was:
//! instruments write few decimals, and a million rows of some sensors are many numbers.

use crate::physics::counts::nearest;

/// Values of one channel; NaN where the file has none.
///
/// ```
/// use gapledger::series::Readings;
/// let readings: Readings = [8.12, f64::NAN, -0.5].into_iter().collect();
/// assert_eq!(readings.get(0), Some(8.12));
/// assert!(readings.get(1).unwrap().is_nan());
/// assert_eq!(readings.get(3), None);
/// ```
#[derive(Clone, Debug)]
pub struct Readings(Kept);

/// As hundredths, as ten-thousandths, or as they are; the least whole number stands for none.
#[derive(Clone, Debug)]
enum Kept {
    Short(Vec<i16>),
    Middling(Vec<i32>),
    Long(Vec<f64>),
}

/// Short numbers in one.
const HUNDREDTHS: f64 = 100.0;
/// Middling numbers in one.
const TEN_THOUSANDTHS: f64 = 10_000.0;

/// The whole number that stands for a value; `None` where it would not give it back.
fn parts<T: TryFrom<i32> + PartialEq>(value: f64, in_one: f64, none: T) -> Option<T> {
    if value.is_nan() {
        return Some(none);
    }
    let whole = nearest(value * in_one);
    // To have zero without a sign is no loss.
    let gives_back = (f64::from(whole) / in_one).to_bits() == (value + 0.0).to_bits();
    let parts = T::try_from(whole).ok().filter(|parts| *parts != none);
    parts.filter(|_| gives_back)
}

fn whole<T: PartialEq + Into<f64>>(parts: T, in_one: f64, none: &T) -> f64 {
    if parts == *none {
        f64::NAN
    } else {
        parts.into() / in_one
    }
}

impl Readings {
    /// Adds the value of the next row.
    pub fn push(&mut self, value: f64) {
        let fits = match &mut self.0 {
            Kept::Short(all) => parts(value, HUNDREDTHS, i16::MIN).map(|parts| all.push(parts)),
            Kept::Middling(all) => {
                parts(value, TEN_THOUSANDTHS, i32::MIN).map(|parts| all.push(parts))
            }
            Kept::Long(all) => {
                all.push(value);
                Some(())
            }
        };
        if fits.is_none() {
            self.widen();
            self.push(value);
        }
    }

    /// Keeps all so far in the next wider way.
    fn widen(&mut self) {
        let middling = |all: &[i16]| -> Option<Vec<i32>> {
            let each = all.iter().map(|short| whole(*short, HUNDREDTHS, &i16::MIN));
            each.map(|value| parts(value, TEN_THOUSANDTHS, i32::MIN))
                .collect()
        };
        let wider = match &self.0 {
            Kept::Short(all) => middling(all).map(Kept::Middling),
            Kept::Middling(_) | Kept::Long(_) => None,
        };
        self.0 = wider.unwrap_or_else(|| Kept::Long(self.iter().collect()));
    }

    /// How many rows there are.
    #[must_use]
    pub fn len(&self) -> usize {
        match &self.0 {
            Kept::Short(all) => all.len(),
            Kept::Middling(all) => all.len(),
            Kept::Long(all) => all.len(),
        }
    }

    /// Whether there is none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// The value of a row; `None` where there is no such row.
    #[must_use]
    pub fn get(&self, row: usize) -> Option<f64> {
        match &self.0 {
            Kept::Short(all) => all
                .get(row)
                .map(|short| whole(*short, HUNDREDTHS, &i16::MIN)),
            Kept::Middling(all) => all
                .get(row)
                .map(|middling| whole(*middling, TEN_THOUSANDTHS, &i32::MIN)),
            Kept::Long(all) => all.get(row).copied(),
        }
    }

    /// All values, by row.
    pub fn iter(&self) -> impl Iterator<Item = f64> + '_ {
        (0..self.len()).filter_map(|row| self.get(row))
    }
}

impl Default for Readings {
    fn default() -> Self {
        Self(Kept::Short(Vec::new()))
    }
}

impl FromIterator<f64> for Readings {
    fn from_iter<I: IntoIterator<Item = f64>>(values: I) -> Self {
        let mut readings = Self::default();
        for value in values {
            readings.push(value);
        }
        readings
    }
}

/// Equal where every value is; a missing one is equal to a missing one.
impl PartialEq for Readings {
    fn eq(&self, other: &Self) -> bool {
        let same = |(one, other): (f64, f64)| one == other || (one.is_nan() && other.is_nan());
        self.len() == other.len() && self.iter().zip(other.iter()).all(same)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn bytes_each(readings: &Readings) -> usize {
        match &readings.0 {
            Kept::Short(_) => 2,
            Kept::Middling(_) => 4,
            Kept::Long(_) => 8,
        }
    }

    #[test]
    fn what_instruments_write_takes_little_room() {
        let of = |values: &[f64]| bytes_each(&values.iter().copied().collect());
        assert_eq!(of(&[8.12, -12.5, -0.0, 99.99, f64::NAN, 327.67]), 2);
        assert_eq!(of(&[8.12, 417.0, 101_325.0]), 4);
        assert_eq!(of(&[8.1234]), 4);
        assert_eq!(of(&[8.12, (47.3 - 32.0) / 1.8]), 8);
        // These two would be taken for missing ones.
        assert_eq!(of(&[-327.68, -3.276_8]), 4);
        assert_eq!(of(&[-214_748.364_8]), 8);
    }

    proptest! {
        #[test]
        fn every_value_comes_back_as_it_was(
            values in prop::collection::vec(
                prop_oneof![
                    4 => (-40_000..40_000_i32).prop_map(|n| f64::from(n) / 100.0),
                    2 => (i32::MIN..i32::MAX).prop_map(|n| f64::from(n) / 10_000.0),
                    1 => prop::num::f64::ANY,
                    1 => Just(f64::NAN),
                    1 => Just(-0.0),
                ],
                0..40,
            )
        ) {
            let readings: Readings = values.iter().copied().collect();
            prop_assert_eq!(readings.len(), values.len());
            for (row, value) in values.iter().enumerate() {
                let back = readings.get(row).unwrap();
                let same = (back + 0.0).to_bits() == (value + 0.0).to_bits();
                prop_assert!(same || (back.is_nan() && value.is_nan()));
            }
            prop_assert_eq!(readings.iter().count(), values.len());
        }
    }
}
