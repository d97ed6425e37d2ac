//! What the person at the printer chooses.

use super::blocks::Picture;
use crate::assess::Study;
use crate::assess::shown::{Shown, Units};
use crate::survey::Survey;
use crate::survey::date::DateWay;
use clap::ValueEnum;
use std::collections::BTreeSet;

/// Which of the sheets. What is said of each is the help of the command line too.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, ValueEnum)]
pub enum Kind {
    /// For owner and engineer: everything that was found and worked out.
    #[default]
    Report,
    /// For the customer before the work: what is offered, and for how much.
    Quotation,
    /// For the workshop: what to do, in order, with what.
    WorkOrder,
    /// For the owner after the work: before and after.
    Completion,
    /// For the customer after the work: what is to be paid.
    Invoice,
}

impl Kind {
    /// Every kind, in the order offered.
    pub const ALL: [Self; 5] = [
        Self::Report,
        Self::Quotation,
        Self::WorkOrder,
        Self::Completion,
        Self::Invoice,
    ];

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Report => "survey report",
            Self::Quotation => "quotation",
            Self::WorkOrder => "work order",
            Self::Completion => "completion sheet",
            Self::Invoice => "invoice",
        }
    }

    /// The studies whose uncertainty stands on it.
    #[must_use]
    pub fn draws(self, study: &Study) -> Vec<&Study> {
        match self {
            Self::Report => vec![study],
            Self::Quotation | Self::WorkOrder | Self::Invoice => Vec::new(),
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
            Self::Quotation => &[Part::Drawings, Part::Photos, Part::Terms, Part::Signature],
            Self::Invoice => &[Part::Terms],
            Self::WorkOrder => &[Part::Drawings, Part::Photos, Part::Costs, Part::Signature],
            Self::Completion => &[
                Part::Drawings,
                Part::Photos,
                Part::Bill,
                Part::Proof,
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
    /// The workshop's own terms, warranty and way of payment.
    Terms,
    /// Drying and heating.
    Drying,
    /// The bill of the work done, on the completion sheet; only where it is asked for.
    Bill,
    /// Workings of the results after the work; only where they are asked for.
    Proof,
    /// Workings and sources.
    Workings,
    /// Room to sign.
    Signature,
}

impl Part {
    /// Every part, in the order printed.
    pub const ALL: [Self; 12] = [
        Self::Vehicle,
        Self::Drawings,
        Self::Ledger,
        Self::Photos,
        Self::Plan,
        Self::Costs,
        Self::Terms,
        Self::Drying,
        Self::Bill,
        Self::Proof,
        Self::Workings,
        Self::Signature,
    ];

    /// The parts that are printed unless somebody says otherwise.
    #[must_use]
    pub fn usual() -> BTreeSet<Self> {
        let mut parts = BTreeSet::from(Self::ALL);
        parts.remove(&Self::Bill);
        parts.remove(&Self::Proof);
        parts
    }

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
            Self::Terms => "terms and warranty",
            Self::Drying => "drying and heating",
            Self::Bill => "the bill",
            Self::Proof => "appendix: workings of the results",
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

    /// Its name for the typesetter.
    #[must_use]
    pub(super) fn typeset_name(self) -> &'static str {
        match self {
            Self::A4 => "a4",
            Self::Letter => "us-letter",
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

/// Whose sheet it is, with what it says on its papers. What is empty is not printed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Workshop {
    /// What it says.
    pub texts: WorkshopTexts,
    /// Its own logo.
    pub logo: Option<Picture>,
}

/// What a workshop says on its papers, in its own words.
#[derive(Clone, Debug, Default, PartialEq, Eq, serde::Deserialize, serde::Serialize)]
#[serde(default, deny_unknown_fields)]
pub struct WorkshopTexts {
    /// Its name, at the head of every sheet.
    pub name: String,
    /// Its address, one line below the other.
    pub address: String,
    /// Number under which it pays tax, as the law asks for on bills.
    pub tax_number: String,
    /// How a bill is paid: account, time, discount.
    pub payment: String,
    /// Terms of a quotation.
    pub terms: String,
    /// What it answers for, and how long.
    pub warranty: String,
    /// What the customer signs on a quotation.
    pub acceptance: String,
}

/// A text of the workshop's: its label, its name in a profile, over how many lines it is written, and
/// the way to it.
pub struct WorkshopText {
    /// Label.
    pub label: &'static str,
    /// Name in a profile.
    pub key: &'static str,
    /// Lines.
    pub rows: usize,
    /// What to write there.
    pub help: &'static str,
    /// The text itself.
    pub of: fn(&mut WorkshopTexts) -> &mut String,
}

impl WorkshopTexts {
    /// Every text, in the order offered.
    pub const ALL: [WorkshopText; 7] = [
        WorkshopText {
            label: "Name",
            key: "name",
            rows: 1,
            help: "At the head of every sheet.",
            of: |texts| &mut texts.name,
        },
        WorkshopText {
            label: "Address",
            key: "address",
            rows: 3,
            help: "Under the name, one line below the other.",
            of: |texts| &mut texts.address,
        },
        WorkshopText {
            label: "Tax number",
            key: "tax_number",
            rows: 1,
            help: "On quotations and invoices, where the law asks for it.",
            of: |texts| &mut texts.tax_number,
        },
        WorkshopText {
            label: "Payment",
            key: "payment",
            rows: 3,
            help: "On invoices: account, time to pay, discount.",
            of: |texts| &mut texts.payment,
        },
        WorkshopText {
            label: "Terms",
            key: "terms",
            rows: 3,
            help: "On quotations: what holds beside the prices.",
            of: |texts| &mut texts.terms,
        },
        WorkshopText {
            label: "Warranty",
            key: "warranty",
            rows: 3,
            help: "On quotations and invoices: what you answer for, and how long.",
            of: |texts| &mut texts.warranty,
        },
        WorkshopText {
            label: "Acceptance",
            key: "acceptance",
            rows: 2,
            help: "On quotations, above the line where the customer signs.",
            of: |texts| &mut texts.acceptance,
        },
    ];
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
    /// How dates are written.
    pub dates: DateWay,
}

impl Choices {
    /// The usual parts of a sheet, on A4, without a workshop's name.
    #[must_use]
    pub fn new(kind: Kind) -> Self {
        Self {
            kind,
            paper: Paper::default(),
            parts: Part::usual(),
            workshop: Workshop::default(),
            units: Units::default(),
            dates: DateWay::default(),
        }
    }

    /// How texts and drawings about a survey are shown: what a person wrote stays as it is in both.
    #[must_use]
    pub(super) fn shown(&self, survey: &Survey) -> Shown {
        Shown::written(self.units, self.dates, survey)
    }

    /// Whether a part is printed.
    #[must_use]
    pub fn has(&self, part: Part) -> bool {
        self.kind.parts().contains(&part) && self.parts.contains(&part)
    }
}
