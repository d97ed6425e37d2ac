//! How far an option suffices: over the season, and why not in one weather case.

/// How near the target counts as not quite held, relative humidity **\[A\]**.
pub const NEAR: f64 = 0.05;

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

impl Verdict {
    /// Share of the season over which the target is held, 0 to 1.
    #[must_use]
    pub fn share(&self) -> f64 {
        match self {
            Self::Always => 1.0,
            Self::Partly(share) => *share,
            Self::Never | Self::NothingToOpen => 0.0,
        }
    }
}

/// What has to be said beside a verdict before anybody follows it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Proviso {
    /// A flame burns in a vehicle that is laid up, where nobody is: common practice is to shut
    /// gas and fuel off there **\[C\]**.
    Unattended,
    /// A gas flame without a flue: it gives carbon monoxide to the room, whoever watches it.
    Unflued,
    /// The heater does not come to its set point in some weather, or in use not to comfort.
    ShortOfHeat,
    /// It draws more than the recorded supply gives, with the electric heat beside it in use.
    OverSupply,
    /// The target is held all season without this machine too.
    NotNeeded,
    /// In some weather it is held only because water condenses on cold surfaces.
    WetSurfaces,
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
