//! What stands beside the numbers of a row: units, and signs between thousands.

use super::heading::{Sign, behind};
use super::mapping::Unit;
use super::notes::Note;

/// How many there were, and where the first.
type Count = Option<(usize, u64, usize)>;

/// What was met beside numbers.
#[derive(Default)]
pub(super) struct Marks {
    other_units: Count,
    thousands: Count,
}

impl Marks {
    /// A value in the unit it is held in: by the unit behind the number where there is one, otherwise by
    /// that of its column.
    ///
    /// # Errors
    /// What was expected, where the unit is of another quantity or is not read.
    pub(super) fn held(
        &mut self,
        value: f64,
        of_column: Unit,
        (after, is_grouped): (&str, bool),
        (line, column): (u64, usize),
    ) -> Result<f64, &'static str> {
        let met = |count: &mut Count| {
            let (number, ..) = count.get_or_insert((0, line, column + 1));
            *number += 1;
        };
        if is_grouped {
            met(&mut self.thousands);
        }
        if after.is_empty() || after == of_column.sign() {
            return Ok(of_column.held(value));
        }
        match behind(after) {
            Some(Sign::Ours(unit)) if unit != of_column && unit.fits(of_column) => {
                met(&mut self.other_units);
                Ok(unit.held(value))
            }
            Some(Sign::Ours(unit)) if !unit.fits(of_column) && unit != Unit::Degrees => {
                Err("a number in the unit of its column")
            }
            Some(Sign::Strange(_)) => Err("a number in a unit that can be read"),
            _ => Ok(of_column.held(value)),
        }
    }

    /// What is told of them.
    pub(super) fn notes(&self) -> [Option<Note>; 2] {
        [
            self.other_units
                .map(|(number, line, column)| Note::OtherUnits(number, line, column)),
            self.thousands
                .map(|(number, line, column)| Note::Thousands(number, line, column)),
        ]
    }
}
