//! What options, the target and the two stages are called in every part.

use crate::assess::drying::{Comparison, OptionAnswer, Proviso};
use crate::assess::quantity::Kind;
use crate::assess::words::listed;
use crate::report::blocks::Table;

/// The comparison as surveyed or with the planned gaps sealed.
#[derive(Clone, Copy)]
pub(super) struct Stage<'a> {
    pub(super) comparison: &'a Comparison,
    pub(super) after_plan: bool,
}

impl<'a> Stage<'a> {
    /// As surveyed, and after the plan where there is one.
    pub(super) fn all(comparison: &'a Comparison) -> impl Iterator<Item = Self> {
        let as_surveyed = Self {
            comparison,
            after_plan: false,
        };
        let then = comparison.sealed().map(|comparison| Self {
            comparison,
            after_plan: true,
        });
        std::iter::once(as_surveyed).chain(then)
    }

    /// A name, with *after the plan* behind it where that is meant.
    pub(super) fn named(self, name: &str) -> String {
        let when = if self.after_plan {
            ", after the plan"
        } else {
            ""
        };
        format!("{name}{when}")
    }

    /// Sets a heading over the rows that follow, where some are after the plan.
    pub(super) fn head(self, table: &mut Table, all: &Comparison) {
        if all.sealed().is_some() {
            table.group(if self.after_plan {
                "After the plan"
            } else {
                "As surveyed"
            });
        }
    }
}

/// Number and name of an option, as its figures are called in drawings and tables.
pub(super) fn name(at: usize, option: &OptionAnswer) -> String {
    format!("{} {}", at + 1, option.starred_name())
}

/// A weather case with its part of the season, where there is more than one.
pub(super) fn in_season(comparison: &Comparison, case: usize) -> String {
    let name = comparison.case_name(case);
    match comparison.cases.get(case) {
        Some(weather) if comparison.cases.len() > 1 && comparison.weights > 0.0 => {
            format!("{name}, {} of the season", Kind::Share.text(weather.share))
        }
        _ => name.to_owned(),
    }
}

/// The humidity to hold, as it was typed in.
pub(crate) fn target(comparison: &Comparison) -> String {
    Kind::RelativeHumidity.typed(comparison.target_rh * 100.0)
}

/// What has to be said beside a verdict, before the names it is about.
pub(super) const PROVISOS: [(Proviso, &str); 5] = [
    (
        Proviso::Unflued,
        "but by a flame without a flue, which gives carbon monoxide to the room",
    ),
    (
        Proviso::Unattended,
        "but by a flame that nobody watches while it is laid up",
    ),
    (
        Proviso::ShortOfHeat,
        "but with less heat than the heater is set to",
    ),
    (
        Proviso::OverSupply,
        "but with more current than the supply gives",
    ),
    (
        Proviso::WetSurfaces,
        "but only because water condenses on cold surfaces",
    ),
];

/// Why a flame is no way to keep it dry or free of frost.
const FLAMES: [(Proviso, &str); 2] = [
    (
        Proviso::Unattended,
        "A flame is never left burning where nobody is",
    ),
    (
        Proviso::Unflued,
        "A flame without a flue gives carbon monoxide to a closed vehicle",
    ),
];

/// That the options whose flame stands against them are no way to do it, a sentence for each reason;
/// `names` gives what they are called.
pub(crate) fn by_no_flame(names: impl Fn(Proviso) -> Vec<String>, to_do: &str) -> Vec<String> {
    let each = FLAMES.into_iter().filter_map(|(proviso, why)| {
        let names = names(proviso);
        let are = if names.len() == 1 { "is" } else { "are" };
        let all = listed(names);
        (!all.is_empty()).then(|| format!("▲ {why}: {all} {are} no way to {to_do}."))
    });
    each.collect()
}
