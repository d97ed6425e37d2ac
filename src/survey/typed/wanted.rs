//! Which unit a number is wanted in.

use super::super::unit::{ALL, Dimension, Unit, named};

/// In which unit a number is wanted, and which a number without one is in.
#[derive(Clone, Copy, Debug)]
pub struct Wanted {
    pub(super) stored: Option<&'static Unit>,
    pub(super) plain: Option<&'static Unit>,
}

impl Wanted {
    /// A number of this unit, as the catalogue of fields writes it; one typed without a unit is
    /// of it too.
    #[must_use]
    pub fn stored(unit: &str) -> Self {
        let unit = named(unit);
        Self {
            stored: unit,
            plain: unit,
        }
    }

    /// A number without a unit is of this one, where it measures the same.
    #[must_use]
    pub fn shown(self, unit: &str) -> Self {
        let shown = self
            .stored
            .and_then(|stored| named_of(unit, stored.dimension));
        Self {
            plain: shown.or(self.plain),
            ..self
        }
    }

    pub(super) fn dimension(&self) -> Option<Dimension> {
        self.stored.map(|unit| unit.dimension)
    }

    pub(super) fn is_length(&self) -> bool {
        self.dimension() == Some(Dimension::Length)
    }
}

/// The unit of a dimension that is shown so: °F is one of temperatures and one of differences.
pub(super) fn named_of(symbol: &str, dimension: Dimension) -> Option<&'static Unit> {
    let plain = symbol.replace(['\u{a0}', '\u{202f}'], " ");
    let of = |unit: &&Unit| unit.dimension == dimension && unit.symbol == plain;
    ALL.iter().find(of)
}
