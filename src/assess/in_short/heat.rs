//! Whether what keeps the vehicle at comfort in use is there.

use crate::assess::drying::{Comparison, HeaterFor, OptionAnswer, OptionKind, Proviso};
use crate::survey::SetUp;

/// The heat that every option in use counts on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ComfortHeat {
    /// A heater that is there gives it.
    There,
    /// Whether one does is not known.
    NotKnown,
    /// None that is there does; the rating to look for, W, where it is known, and whether a heater is
    /// there at all.
    Lacking {
        /// The rating, W.
        look_for_w: Option<f64>,
        /// Whether a heater that may be used is there.
        too_weak: bool,
    },
}

/// Whether a heater that is there keeps comfort in every weather of the season, without a flame that has
/// no flue and without more current than there is; `None` while laid up, where nobody counts on it.
#[must_use]
pub fn comfort_heat(comparison: &Comparison) -> Option<ComfortHeat> {
    if comparison.set_up == SetUp::LaidUp {
        return None;
    }
    let there = |option: &&OptionAnswer| {
        let heater = option.kind == OptionKind::BackgroundHeat && option.heater.is_some();
        let owned = option.to_buy.money().is_ok_and(|money| money <= 0.0);
        heater && owned && !option.provisos.contains(&Proviso::Unflued)
    };
    let heaters: Vec<&OptionAnswer> = comparison.options.iter().filter(there).collect();
    let falls_short = |option: &OptionAnswer| {
        let short = [Proviso::ShortOfHeat, Proviso::OverSupply];
        option.provisos.iter().any(|one| short.contains(one))
    };
    let mut able = heaters.iter().filter(|option| !falls_short(option));
    let known = |option: &OptionAnswer| option.verdict.is_ok();
    Some(if able.clone().any(|option| known(option)) {
        ComfortHeat::There
    } else if able.next().is_some() {
        ComfortHeat::NotKnown
    } else {
        ComfortHeat::Lacking {
            look_for_w: comparison.sizing.look_for_w(HeaterFor::Comfort),
            too_weak: !heaters.is_empty(),
        }
    })
}
