//! The option of drying and heating to take.

use crate::assess::drying::{Comparison, OptionAnswer, OptionKind, Standing};
use std::cmp::Ordering;

/// Winters whose running cost is set against the price **\[A\]**.
pub const WINTERS: f64 = 3.0;

/// What to take.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pick {
    /// Nothing: the target is held without.
    NothingNeeded,
    /// This option, by its index: of those that suffice the one that costs least over
    /// [`WINTERS`].
    Take(usize),
    /// None suffices; this one holds the target longest, where any does at all.
    NoneSuffices(Option<usize>),
}

/// Chooses an option.
///
/// ```text
/// least of p + 3 c_w
/// ```
/// over the options that suffice ([`Standing::Well`]), where p is the money to buy what is not there
/// yet and c_w the cost of a winter. An option whose costs are not known comes after those whose
/// are. The heat shown for comparison with a machine is never chosen, nor what has something against
/// it: a flame that nobody watches, a heater that falls short, surfaces that run wet, more current than
/// the supply gives.
#[must_use]
pub fn pick(comparison: &Comparison) -> Pick {
    let options = || comparison.options.iter().enumerate();
    let idle = options().find(|(_, option)| option.kind == OptionKind::Nothing);
    if idle.is_some_and(|(_, option)| option.standing() == Standing::Well) {
        return Pick::NothingNeeded;
    }
    let real =
        |option: &OptionAnswer| !matches!(option.kind, OptionKind::Nothing | OptionKind::SameHeat);
    let suffices = options()
        .filter(|(_, option)| real(option) && option.standing() == Standing::Well && fed(option));
    let cheapest = suffices.min_by(|(_, a), (_, b)| by_cost(a, b));
    if let Some((at, _)) = cheapest {
        return Pick::Take(at);
    }
    let partly = options().filter(|(_, option)| {
        let good = option.standing() == Standing::Partly && option.provisos.is_empty();
        real(option) && good && fed(option)
    });
    let longest = partly
        .filter_map(|(at, option)| Some((at, option.verdict.as_ref().ok()?.share())))
        // Of equal ones the first.
        .reduce(|best, next| if next.1 > best.1 { next } else { best });
    Pick::NoneSuffices(longest.map(|(at, _)| at))
}

/// Whether the recorded supply gives what it draws, as far as that is known.
fn fed(option: &OptionAnswer) -> bool {
    let supply = option
        .supply
        .as_ref()
        .and_then(|supply| supply.as_ref().ok());
    supply.and_then(|supply| supply.within_own) != Some(false)
}

fn by_cost(a: &OptionAnswer, b: &OptionAnswer) -> Ordering {
    let cost = |option: &OptionAnswer| {
        let buy = option.to_buy.money().ok()?;
        Some(buy + WINTERS * option.costs.per_winter.as_ref().ok()?)
    };
    match (cost(a), cost(b)) {
        (Some(a), Some(b)) => a.total_cmp(&b),
        (Some(_), None) => Ordering::Less,
        (None, Some(_)) => Ordering::Greater,
        (None, None) => Ordering::Equal,
    }
}
