//! The verdict on an option, told in a sign and a few words.

use super::judged::{Proviso, Standing, Verdict};
use super::{ComparedCase, Comparison, OptionAnswer, OptionCase, Shares};
use crate::assess::quantity::Kind;
use crate::survey::{Field, Finding, Item};

/// Share of the season from which an option counts as one that does the job: three quarters
/// **\[A\]**.
const MOST_OF_IT: f64 = 0.75;
/// Share of the season up to which it counts as one that does not: a tenth **\[A\]**.
const LITTLE_OF_IT: f64 = 0.1;

/// Share of a load that rounding may leave **\[A\]**.
const ROUNDING: f64 = 1e-6;

impl OptionCase {
    /// Whether the target is held only because water condenses on cold surfaces: neither does the
    /// air carry it off at the target, nor a machine that could still do more.
    #[must_use]
    pub fn holds_by_condensation(&self) -> bool {
        let left = self.load_kg_s * (1.0 - ROUNDING) > self.removal_kg_s;
        let spare = self.removal_kg_s > 0.0 && self.duty < 1.0;
        self.holds && self.condensation_kg_s > 0.0 && left && !spare
    }
}

/// What is held in every one of so many weather cases is held for so long.
pub(in crate::assess::drying) fn in_all_weathers(number: usize) -> String {
    match number {
        1 => "in this weather".to_owned(),
        number => format!("in all {number} weathers"),
    }
}

impl Comparison {
    /// What was noticed about machines and heaters of the survey that draw more than its supply gives.
    pub fn over_the_supply(&self) -> impl Iterator<Item = &Finding> {
        let own = |item| matches!(item, Item::Machine(_) | Item::Heater(_));
        let findings = self.findings.iter();
        findings.filter(move |one| one.place.is_at(Field::HookUp) && own(one.place.item))
    }

    /// The weather cases that the season is made of: those with a share, or all where none has one.
    #[must_use]
    pub fn counted_cases(&self) -> Vec<&ComparedCase> {
        let weighed = self.cases.iter().any(|case| case.share > 0.0);
        let cases = self.cases.iter();
        cases.filter(|case| !weighed || case.share > 0.0).collect()
    }

    /// For how long it is held what is held always: a few kinds of weather are no season.
    #[must_use]
    pub fn always(&self) -> String {
        match self.shares {
            Shares::Winter => "all season".to_owned(),
            Shares::WeatherCases => {
                let counted = self.counted_cases().len();
                let of_all = if counted < self.cases.len() && counted > 1 {
                    " that count"
                } else {
                    ""
                };
                format!("{}{of_all}", in_all_weathers(counted))
            }
        }
    }
}

impl OptionAnswer {
    /// Whether it holds the target for most of the season, whatever stands against it.
    #[must_use]
    pub fn is_for_most_of_it(&self) -> bool {
        let share = self.verdict.as_ref().map(Verdict::share);
        share.is_ok_and(|share| share >= MOST_OF_IT)
    }

    /// How well the option does over the season.
    #[must_use]
    pub fn standing(&self) -> Standing {
        let standing = match self.verdict {
            Ok(Verdict::Always) => Standing::Well,
            Ok(Verdict::Partly(share)) if share >= MOST_OF_IT => Standing::Well,
            Ok(Verdict::Partly(share)) if share < LITTLE_OF_IT => Standing::Not,
            Ok(Verdict::Partly(_)) => Standing::Partly,
            Ok(Verdict::Never) => Standing::Not,
            Ok(Verdict::NothingToOpen) | Err(_) => Standing::NotKnown,
        };
        match standing {
            Standing::Well if self.provisos.contains(&Proviso::NotNeeded) => Standing::NotKnown,
            Standing::Well if !self.provisos.is_empty() => Standing::Partly,
            _ => standing,
        }
    }

    /// The verdict in a few words, as one of the options of a comparison: `90 % of the season`.
    #[must_use]
    pub fn verdict_words(&self, of: &Comparison) -> String {
        let one_case = self.cases.len() == 1;
        let words = match self.verdict {
            Ok(Verdict::Always) if one_case => "holds it".to_owned(),
            Ok(Verdict::Never) if one_case => "does not hold it".to_owned(),
            Ok(Verdict::Always) => of.always(),
            Ok(Verdict::Partly(share)) => {
                format!("{} of the season", Kind::Share.text(share))
            }
            Ok(Verdict::Never) => "at no time".to_owned(),
            Ok(Verdict::NothingToOpen) => "nothing to open".to_owned(),
            Err(_) => "not known".to_owned(),
        };
        if matches!(self.verdict, Ok(Verdict::Always | Verdict::Partly(_))) {
            let provisos = self.provisos.iter().map(|proviso| match proviso {
                Proviso::Unattended => ", if attended",
                Proviso::Unflued => ", flame without flue",
                Proviso::ShortOfHeat => ", short of heat",
                Proviso::OverSupply => ", over the supply",
                Proviso::NotNeeded => ", not needed",
                Proviso::WetSurfaces => ", by wet surfaces",
            });
            provisos.fold(words, |words, proviso| words + proviso)
        } else {
            words
        }
    }

    /// Sign and words of the verdict.
    #[must_use]
    pub fn signed_verdict(&self, of: &Comparison) -> String {
        format!("{} {}", self.standing().sign(), self.verdict_words(of))
    }
}
