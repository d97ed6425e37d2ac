//! How a gap would be sealed, and where the work on it stands.

/// The material or part that a remedy uses.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum RemedyKind {
    /// Compressible strip.
    Strip,
    /// Brush seal.
    Brush,
    /// Sealant.
    Sealant,
    /// Grommet.
    Grommet,
    /// Cover plate.
    CoverPlate,
    /// Curtain.
    Curtain,
    /// Trap or one-way valve in a drain.
    Trap,
    /// Something of the workshop's own, named in the remedy.
    Own,
}

impl RemedyKind {
    /// Every kind, in the order offered.
    pub const ALL: [Self; 8] = [
        Self::Strip,
        Self::Brush,
        Self::Sealant,
        Self::Grommet,
        Self::CoverPlate,
        Self::Curtain,
        Self::Trap,
        Self::Own,
    ];

    /// The trade's word for it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Strip => "strip",
            Self::Brush => "brush",
            Self::Sealant => "sealant",
            Self::Grommet => "grommet",
            Self::CoverPlate => "cover plate",
            Self::Curtain => "curtain",
            Self::Trap => "trap or one-way valve",
            Self::Own => "own method",
        }
    }
}

/// What the material cost of a remedy is counted by.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum CostBasis {
    /// For each piece, that is each of `count`.
    Piece,
    /// For each metre of the gap's length.
    Metre,
}

/// How a gap would be sealed.
#[derive(Clone, Debug, PartialEq)]
pub struct Remedy {
    /// Material or part.
    pub kind: RemedyKind,
    /// Words for the job sheet.
    pub words: String,
    /// Share of the leak that remains, %.
    pub leak_left_percent: Option<f64>,
    /// Material cost by piece or metre, in the survey's currency.
    pub material_cost: Option<f64>,
    /// What the material cost is counted by.
    pub cost_basis: CostBasis,
    /// Working time for the whole gap, minutes.
    pub minutes: Option<f64>,
}

/// Where the work on a gap stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum WorkState {
    /// As found.
    Open,
    /// To be sealed.
    Planned,
    /// Sealed: only what its remedy leaves still flows.
    Sealed,
    /// Left for later.
    Deferred,
}

impl WorkState {
    /// Every state, in the order offered.
    pub const ALL: [Self; 4] = [Self::Open, Self::Planned, Self::Sealed, Self::Deferred];

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Open => "open",
            Self::Planned => "planned",
            Self::Sealed => "sealed",
            Self::Deferred => "deferred",
        }
    }
}
