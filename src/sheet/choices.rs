//! What the person at the printer chooses.

use super::blocks::Picture;
use crate::assess::Study;
use crate::assess::shown::Units;
use clap::ValueEnum;
use std::collections::BTreeSet;

/// Which of the three sheets. What is said of each is the help of the command line too.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, ValueEnum)]
pub enum Kind {
    /// For owner and engineer: everything that was found and worked out.
    #[default]
    Report,
    /// For the workshop: what to do, in order, with what.
    WorkOrder,
    /// For the owner after the work: before and after.
    Completion,
}

impl Kind {
    /// Every kind, in the order offered.
    pub const ALL: [Self; 3] = [Self::Report, Self::WorkOrder, Self::Completion];

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Report => "survey report",
            Self::WorkOrder => "work order",
            Self::Completion => "completion sheet",
        }
    }

    /// The studies whose uncertainty stands on it.
    #[must_use]
    pub fn draws(self, study: &Study) -> Vec<&Study> {
        match self {
            Self::Report => vec![study],
            Self::WorkOrder => Vec::new(),
            Self::Completion => vec![study.after_work(), study.before_work()],
        }
    }

    /// The parts that may be left out of it, in the order printed.
    #[must_use]
    pub fn parts(self) -> &'static [Part] {
        match self {
            Self::Report => &[
                Part::Vehicle,
                Part::Drawings,
                Part::Ledger,
                Part::Photos,
                Part::Plan,
                Part::Drying,
                Part::Workings,
                Part::Signature,
            ],
            Self::WorkOrder => &[Part::Drawings, Part::Photos, Part::Costs, Part::Signature],
            Self::Completion => &[
                Part::Drawings,
                Part::Photos,
                Part::Workings,
                Part::Signature,
            ],
        }
    }
}

/// A part of a sheet that may be left out. Safety ventilation and cautions are no such part: they
/// are always printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, ValueEnum)]
pub enum Part {
    /// Vehicle and place.
    Vehicle,
    /// The unfolded body and the wind rose.
    Drawings,
    /// The ledger of gaps.
    Ledger,
    /// Photos.
    Photos,
    /// The sealing plan.
    Plan,
    /// Prices on the work order.
    Costs,
    /// Drying and heating.
    Drying,
    /// Workings and sources.
    Workings,
    /// Room to sign.
    Signature,
}

impl Part {
    /// Every part, in the order printed.
    pub const ALL: [Self; 9] = [
        Self::Vehicle,
        Self::Drawings,
        Self::Ledger,
        Self::Photos,
        Self::Plan,
        Self::Costs,
        Self::Drying,
        Self::Workings,
        Self::Signature,
    ];

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Vehicle => "vehicle and place",
            Self::Drawings => "drawings",
            Self::Ledger => "ledger of gaps",
            Self::Photos => "photos",
            Self::Plan => "sealing plan",
            Self::Costs => "costs",
            Self::Drying => "drying and heating",
            Self::Workings => "workings and sources",
            Self::Signature => "room to sign",
        }
    }
}

/// Size of the paper.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, ValueEnum)]
pub enum Paper {
    /// 210 × 297 mm.
    #[default]
    A4,
    /// 8½ × 11 inches.
    Letter,
}

impl Paper {
    /// Both, in the order offered.
    pub const ALL: [Self; 2] = [Self::A4, Self::Letter];

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::Letter => "Letter",
        }
    }

    /// Width and height, mm.
    #[must_use]
    pub fn size_mm(self) -> (f64, f64) {
        match self {
            Self::A4 => (210.0, 297.0),
            Self::Letter => (215.9, 279.4),
        }
    }
}

/// Whose sheet it is: printed at its head.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Workshop {
    /// Its name.
    pub name: String,
    /// Its address, one line below the other.
    pub address: String,
    /// Its own logo.
    pub logo: Option<Picture>,
}

/// Everything that is chosen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Choices {
    /// Which sheet.
    pub kind: Kind,
    /// On what paper.
    pub paper: Paper,
    /// Parts that are printed, of those that may be left out.
    pub parts: BTreeSet<Part>,
    /// Whose sheet it is.
    pub workshop: Workshop,
    /// Units that sizes are printed in.
    pub units: Units,
}

impl Choices {
    /// All parts of a sheet, on A4, without a workshop's name.
    #[must_use]
    pub fn new(kind: Kind) -> Self {
        Self {
            kind,
            paper: Paper::default(),
            parts: Part::ALL.into_iter().collect(),
            workshop: Workshop::default(),
            units: Units::default(),
        }
    }

    /// Whether a part is printed.
    #[must_use]
    pub fn has(&self, part: Part) -> bool {
        self.kind.parts().contains(&part) && self.parts.contains(&part)
    }
}
