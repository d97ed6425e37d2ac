//! How far an option suffices: over the season, and why not in one weather case.

use super::OptionAnswer;
use crate::assess::quantity::Kind;

/// Share of the season from which an option counts as one that does the job: three quarters
/// **\[A\]**.
const MOST_OF_IT: f64 = 0.75;

/// Over how much of the season the target is held: the weather cases by their shares. A case
/// without a share is told and does not count.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Verdict {
    /// In every weather case of the season.
    Always,
    /// For this share of the season, 0 to 1.
    Partly(f64),
    /// In no weather case of the season.
    Never,
    /// There is nothing that could be opened: it is as with nothing done.
    NothingToOpen,
}

/// What has to be said beside a verdict before anybody follows it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Proviso {
    /// A flame burns in a vehicle that is laid up, where nobody is: common practice is to shut
    /// gas and fuel off there **\[C\]**.
    Unattended,
    /// The heater does not come to its set point in some weather, or in use not to comfort.
    ShortOfHeat,
    /// The target is held all season without this machine too.
    NotNeeded,
}

/// Why the target is not held in one weather case.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Shortfall {
    /// It is too cold inside for the machine to start.
    TooCold,
    /// The machine runs all the time and removes less than the load.
    MachineTooSmall,
    /// The heater gives all it has and does not come to its set point.
    HeaterTooSmall,
    /// The inside is as warm as the heater is set, and that is not warm enough.
    NotWarmEnough,
    /// Nothing warms the air or removes water from it.
    NothingRemoves,
}

/// How well something does, for a sign and a colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// It suffices.
    Well,
    /// It suffices in part, or with a proviso.
    Partly,
    /// It does not.
    Not,
    /// It cannot be said, or there is nothing to say for it.
    NotKnown,
}

impl Standing {
    /// Its sign.
    #[must_use]
    pub fn sign(self) -> &'static str {
        match self {
            Self::Well => "✔",
            Self::Partly => "▲",
            Self::Not => "✖",
            Self::NotKnown => "ℹ",
        }
    }
}

impl OptionAnswer {
    /// How well the option does over the season.
    #[must_use]
    pub fn standing(&self) -> Standing {
        let standing = match self.verdict {
            Ok(Verdict::Always) => Standing::Well,
            Ok(Verdict::Partly(share)) if share >= MOST_OF_IT => Standing::Well,
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

    /// The verdict in a few words: `90 % of the season`.
    #[must_use]
    pub fn verdict_words(&self) -> String {
        let one_case = self.cases.len() == 1;
        let words = match self.verdict {
            Ok(Verdict::Always) if one_case => "holds it".to_owned(),
            Ok(Verdict::Never) if one_case => "does not hold it".to_owned(),
            Ok(Verdict::Always) => "all season".to_owned(),
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
                Proviso::ShortOfHeat => ", short of heat",
                Proviso::NotNeeded => ", not needed",
            });
            provisos.fold(words, |words, proviso| words + proviso)
        } else {
            words
        }
    }

    /// Sign and words of the verdict.
    #[must_use]
    pub fn signed_verdict(&self) -> String {
        format!("{} {}", self.standing().sign(), self.verdict_words())
    }
}
