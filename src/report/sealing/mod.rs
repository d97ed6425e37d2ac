//! Sealing: what each gap saves, what money buys, what a plan comes to, the order of work, and what
//! stays open.

mod change;
mod open;
mod outcome;
mod ranking;
mod work;

pub(crate) use change::{LEAST, MOST, Side, case, changes};
pub(crate) use open::{NONE_PROTECTS, left_open, must_stay_open, protected, protecting, refused};
#[cfg(feature = "window")]
pub(crate) use outcome::planned;
pub(crate) use outcome::{best, material_alone, outcome, what_for, when_paid_back};
pub(crate) use ranking::{order, ranking};
pub(crate) use work::{expected, nothing_to_do, plan, step_by_step, work};

use super::words::{name, place};
use crate::assess::Answer;
use crate::assess::quantity::Kind;
use crate::assess::sealing::{Cost, Sealable};
use crate::assess::words::capital;
use crate::report::Section;
use crate::survey::{Gap, GapId, Survey, number};

/// What is said where a gap saves, costs or leaves something that nobody gave.
const SUGGESTED: &str = "Suggestions of this program [A]: * the remedy, or what it leaves; † a price or a time. The \
    workshop's own take precedence.";

/// The signs of what the program suggested for a gap.
pub(crate) fn suggested(sealable: &Sealable) -> &'static str {
    let price = sealable.cost().is_ok_and(|cost| cost.assumed);
    match (sealable.is_assumed(), price) {
        (true, true) => " *†",
        (true, false) => " *",
        (false, true) => " †",
        (false, false) => "",
    }
}

/// Whether the program suggested something for any of some gaps.
pub(crate) fn any_suggested<'a>(mut sealables: impl Iterator<Item = &'a Sealable>) -> bool {
    sealables.any(|one| !suggested(one).is_empty())
}

/// The remedy in words, with the signs of what was suggested.
pub(crate) fn how(sealable: &Sealable) -> String {
    let remedy = super::ledger::remedy(sealable.remedy());
    format!("{remedy}{}", suggested(sealable))
}

/// Says what whoever does the work must heed for some of the gaps, whatever their remedies.
fn heed<'a>(section: &mut Section, sealables: impl Iterator<Item = &'a Sealable>) {
    let mut told: Vec<(&str, Vec<String>)> = Vec::new();
    for one in sealables {
        let Some(words) = one.heed() else { continue };
        let id = one.gap().to_string();
        match told.iter_mut().find(|(other, _)| *other == words) {
            Some((_, gaps)) => gaps.push(id),
            None => told.push((words, vec![id])),
        }
    }
    for (words, gaps) in told {
        section.note(format!("{}: {words}.", capital(&number::gaps(&gaps))));
    }
}

/// What a gap costs, as far as it is priced.
pub(crate) fn cost(cost: &Cost) -> String {
    format!("{}{}", cost.at_least(), Kind::Money.number(cost.priced))
}

/// What is said where work has no price.
const NOT_PRICED: &str = "≥: the material alone. No hourly rate is given, so the work has no price and nothing pays \
    back. Give the workshop's rate, or 0 if the work is to count nothing.";

/// Says of some gaps what has no price, and what the program suggested.
fn of_prices<'a>(section: &mut Section, sealables: impl Iterator<Item = &'a Sealable> + Clone) {
    let no_price = |one: &Sealable| one.cost().is_ok_and(|cost| cost.labour.is_none());
    if sealables.clone().any(no_price) {
        section.note(NOT_PRICED);
    }
    if any_suggested(sealables) {
        section.note(SUGGESTED);
    }
}

/// A gap's number and name: `7 door seal`.
fn numbered(survey: &Survey, id: GapId) -> String {
    let gap = survey.gap(id);
    gap.map_or_else(|| format!("gap {id}"), |gap| format!("{id} {}", name(gap)))
}

/// A gap's name, and where it is.
fn named(gap: Option<&Gap>) -> String {
    gap.map_or_else(String::new, |gap| format!("{}\n{}", name(gap), place(gap)))
}

/// A heading with the currency, where there is one.
pub(crate) fn in_currency(words: &str, currency: &str) -> String {
    match currency.trim() {
        "" => words.to_owned(),
        currency => format!("{words}, {currency}"),
    }
}

/// What is saved between two figures.
fn less(before: &Answer<f64>, after: &Answer<f64>) -> Answer<f64> {
    let before = before.clone()?;
    after.clone().map(|after| before - after)
}
