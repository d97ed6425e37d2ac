//! The option of drying and heating to take.

use crate::assess::drying::{
    Comparison, DAYS_PER_MONTH, OptionAnswer, OptionKind, Shares, Standing, Verdict, WINTER_DAYS,
};
use crate::survey::MachineKind;

/// Winters whose running cost is set against the price **\[A\]**.
pub const WINTERS: f64 = 3.0;
/// Winters after which nobody waits for what is cheaper to run to have paid for itself **\[A\]**.
const PATIENCE: f64 = 10.0;
/// Share of the season by which a longer time is longer **\[A\]**.
const LONGER: f64 = 0.005;
/// Share of the time from which a machine that has to run so long has nothing to spare **\[A\]**.
const NO_RESERVE: f64 = 0.9;

/// What to take.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pick {
    /// Nothing: the target is held without.
    NothingNeeded,
    /// This option, by its index: of those that suffice the one that costs least over
    /// [`WINTERS`].
    Take(usize),
    /// None suffices; this one holds the target longest, where any does for longer than nothing.
    NoneSuffices(Option<usize>),
}

/// Chooses an option.
///
/// ```text
/// least of p + 3 c_m · 151 · 12/365.25
/// ```
/// over the options that suffice ([`Standing::Well`]), where p is the money to buy what is not there
/// yet and c_m the cost of a month: a winter is a whole one, however few days of it were run. An
/// option whose costs are not known comes after those whose are, unless it is there and they have to be
/// bought. The heat shown for comparison with a
/// machine is never chosen, nor what has something against it: a flame that nobody watches, a heater
/// that falls short, surfaces that run wet, more current than the supply gives.
#[must_use]
pub fn pick(comparison: &Comparison) -> Pick {
    let options = || comparison.options.iter().enumerate();
    let idle = options().find(|(_, option)| option.kind == OptionKind::Nothing);
    if idle.is_some_and(|(_, option)| option.standing() == Standing::Well) {
        return Pick::NothingNeeded;
    }
    let real =
        |option: &OptionAnswer| !matches!(option.kind, OptionKind::Nothing | OptionKind::SameHeat);
    let suffices =
        || options().filter(|(_, option)| real(option) && option.standing() == Standing::Well);
    let priced = suffices()
        .filter_map(|(at, option)| Some((at, over_winters(option)?)))
        .min_by(|a, b| a.1.total_cmp(&b.1))
        .map(|(at, _)| at);
    let free = |at: &usize| {
        comparison
            .options
            .get(*at)
            .is_some_and(|option| to_buy(option) <= 0.0)
    };
    let unpriced = suffices()
        .filter(|(_, option)| over_winters(option).is_none())
        .min_by(|(_, a), (_, b)| to_buy(a).total_cmp(&to_buy(b)))
        .map(|(at, _)| at);
    let taken = match unpriced.filter(free) {
        // What is there is not replaced for a price of power that nobody knows.
        Some(there) => priced.filter(free).or(Some(there)),
        None => priced.or(unpriced),
    };
    if let Some(at) = taken {
        return Pick::Take(at);
    }
    let share = |option: &OptionAnswer| Some(option.verdict.as_ref().ok()?.share());
    let idle = idle.and_then(|(_, option)| share(option)).unwrap_or(0.0);
    let longest = options()
        .filter(|(_, option)| {
            let good = option.standing() == Standing::Partly && option.provisos.is_empty();
            real(option) && good
        })
        .filter_map(|(at, option)| Some((at, share(option)?)))
        .filter(|(_, share)| *share > idle + LONGER)
        // Of equal ones the first.
        .reduce(|best, next| if next.1 > best.1 { next } else { best });
    Pick::NoneSuffices(longest.map(|(at, _)| at))
}

/// The price of what is not there yet; endless where it is not given.
fn to_buy(option: &OptionAnswer) -> f64 {
    option.to_buy.money().unwrap_or(f64::INFINITY)
}

/// Whether what an option costs over [`WINTERS`] is known.
#[must_use]
pub fn is_priced(option: &OptionAnswer) -> bool {
    over_winters(option).is_some()
}

/// What an option costs over [`WINTERS`] whole winters, bought where it is not there yet.
fn over_winters(option: &OptionAnswer) -> Option<f64> {
    let month = option.costs.per_month.as_ref().ok()?;
    let months = WINTERS * WINTER_DAYS / DAYS_PER_MONTH;
    Some(option.to_buy.money().ok()? + months * month)
}

/// Another option that costs more to buy and less to run than the one taken, by its index, and the
/// months of running after which it has cost less:
///
/// ```text
/// n = (p_2 − p_1)/(c_1 − c_2)
/// ```
/// where p is the money to buy and c that of a month. It holds the target as long or longer; of several
/// the one that is there soonest, `None` where none is within ten winters.
#[must_use]
pub fn cheaper_in_time(comparison: &Comparison, taken: usize) -> Option<(usize, f64)> {
    let of = |option: &OptionAnswer| {
        let month = option.costs.per_month.as_ref().ok()?;
        Some((
            option.to_buy.money().ok()?,
            *month,
            option.verdict.as_ref().ok()?.share(),
        ))
    };
    let (bought, month, share) = of(comparison.options.get(taken)?)?;
    let others = comparison.options.iter().enumerate().filter(|(_, option)| {
        let real = !matches!(option.kind, OptionKind::Nothing | OptionKind::SameHeat);
        real && option.standing() == Standing::Well
    });
    let after = others.filter_map(|(at, option)| {
        let (other, other_month, other_share) = of(option)?;
        let dearer = other > bought && other_month < month && other_share >= share;
        dearer.then(|| (at, (other - bought) / (month - other_month)))
    });
    let soonest = after.min_by(|(_, a), (_, b)| a.total_cmp(b));
    soonest.filter(|(_, months)| *months <= PATIENCE * WINTER_DAYS / DAYS_PER_MONTH)
}

/// An option that costs nothing to buy and holds the target all season, with nothing against it, other
/// than doing nothing: the cheapest to run, by its index.
#[must_use]
pub fn free_and_enough(comparison: &Comparison) -> Option<usize> {
    let enough = comparison.options.iter().enumerate().filter(|(_, option)| {
        let real = !matches!(option.kind, OptionKind::Nothing | OptionKind::SameHeat);
        let free = option.to_buy.money().is_ok_and(|money| money <= 0.0);
        let bare = option.provisos.is_empty();
        real && free && bare && option.verdict == Ok(Verdict::Always)
    });
    let cost = |option: &OptionAnswer| over_winters(option).unwrap_or(f64::INFINITY);
    let cheapest = enough.min_by(|(_, a), (_, b)| cost(a).total_cmp(&cost(b)));
    cheapest.map(|(at, _)| at)
}

/// The weather case of the season in which the machine of an option has nothing to spare, by its index,
/// and the share of the time that it runs there; nothing where a winter was run instead.
///
/// ```text
/// d min(1, m_load/m_removed) ≥ 0.9
/// ```
/// where d is the share of the time that it runs: what has no hygrostat runs all the time, however
/// little there is to do. A tub cannot be switched off.
#[must_use]
pub fn no_reserve(comparison: &Comparison, option: &OptionAnswer) -> Option<(usize, f64)> {
    let machine = match option.kind {
        OptionKind::Machine(kind) => kind != MachineKind::SaltTub,
        kind => kind == OptionKind::HeatAndMachine,
    };
    if !machine || comparison.shares == Shares::Winter {
        return None;
    }
    let cases = comparison.cases.iter().zip(&option.cases).enumerate();
    let held = cases.filter_map(|(at, (case, state))| {
        let state = state.as_ref().ok().filter(|state| state.holds)?;
        let works = case.share > 0.0 && state.removal_kg_s > 0.0;
        let asked = (state.load_kg_s / state.removal_kg_s).clamp(0.0, 1.0);
        works.then_some((at, state.duty, state.duty * asked))
    });
    let hardest = held.max_by(|(.., a), (.., b)| a.total_cmp(b));
    let hardest = hardest.filter(|(.., needed)| *needed >= NO_RESERVE);
    hardest.map(|(at, duty, _)| (at, duty))
}
