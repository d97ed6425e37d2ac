//! The starting library of remedies: by what the gap is, then by its form and width.
//!
//! What remains, prices and times are assumptions of this project \[A\]: believable for a start,
//! to be replaced by the workshop's own. Prices are plain numbers in the survey's currency.

use crate::survey::leave::Manner;
use crate::survey::{CostBasis, Form, Remedy, RemedyKind};

/// Narrow gaps up to this width are filled, mm.
const FILLED_UP_TO_MM: f64 = 1.5;
/// Up to this width a strip closes them, mm; wider ones a brush.
const STRIP_UP_TO_MM: f64 = 8.0;
/// Round holes up to this diameter take a grommet, mm.
const GROMMET_UP_TO_MM: f64 = 40.0;

/// A remedy to begin with for a gap that is to be closed in this manner \[A\].
#[must_use]
pub fn starting_remedy(manner: Manner, form: &Form) -> Remedy {
    match manner {
        Manner::Fixed => fixed(form),
        Manner::NewSeal => new_seal(form),
        Manner::Trap => piece(RemedyKind::Trap, "trap or one-way valve", 12.0),
        Manner::RefrigeratorSurround => surround(form),
    }
}

/// Seals that move: never filled, however narrow they are.
fn new_seal(form: &Form) -> Remedy {
    match *form {
        Form::NarrowGap { width_mm, .. } => match width_mm {
            Some(width) if width <= FILLED_UP_TO_MM => metre(
                RemedyKind::Strip,
                "set hinges and catches, or a new seal",
                4.0,
            ),
            Some(width) if width > STRIP_UP_TO_MM => metre(RemedyKind::Brush, "brush seal", 9.0),
            _ => metre(RemedyKind::Strip, "new seal", 4.0),
        },
        _ => piece(RemedyKind::Strip, "new seal, hinges and catches set", 15.0),
    }
}

/// Round a refrigerator: towards the living space, of what bears the heat.
fn surround(form: &Form) -> Remedy {
    match form {
        Form::NarrowGap { .. } => metre(RemedyKind::Strip, "heat-resisting strip", 6.0),
        _ => piece(RemedyKind::Sealant, "heat-resisting putty", 8.0),
    }
}

/// What never moves.
fn fixed(form: &Form) -> Remedy {
    match *form {
        Form::NarrowGap { width_mm, .. } => match width_mm {
            Some(width) if width <= FILLED_UP_TO_MM => metre(RemedyKind::Sealant, "fill", 1.5),
            Some(width) if width > STRIP_UP_TO_MM => metre(RemedyKind::Brush, "brush seal", 9.0),
            _ => metre(RemedyKind::Strip, "compressible strip", 4.0),
        },
        Form::RoundHole { diameter_mm } => match diameter_mm {
            Some(diameter) if diameter > GROMMET_UP_TO_MM => {
                piece(RemedyKind::CoverPlate, "plate over the hole", 8.0)
            }
            _ => piece(RemedyKind::Grommet, "blind grommet", 2.0),
        },
        Form::RingGap { .. } => piece(RemedyKind::Grommet, "grommet round the pipe", 3.0),
        Form::RectangularHole { .. } => piece(RemedyKind::CoverPlate, "plate over the hole", 8.0),
        Form::Grille { .. } => piece(RemedyKind::CoverPlate, "cover behind the grille", 12.0),
        Form::StatedArea { .. } | Form::FlowTest { .. } => piece(
            RemedyKind::Own,
            "find each single leak and enter it by itself first",
            15.0,
        ),
    }
}

/// Share of the leak that a kind of remedy leaves, %, where nobody said otherwise \[A\].
#[must_use]
pub fn starting_leak_left_percent(kind: RemedyKind) -> f64 {
    match kind {
        RemedyKind::Sealant | RemedyKind::CoverPlate => 5.0,
        RemedyKind::Grommet => 10.0,
        RemedyKind::Strip => 15.0,
        RemedyKind::Brush => 30.0,
        RemedyKind::Curtain => 60.0,
        RemedyKind::Trap => 5.0,
        RemedyKind::Own => 50.0,
    }
}

/// Working time for each piece or metre, minutes \[A\].
pub(super) fn starting_minutes(kind: RemedyKind) -> f64 {
    match kind {
        RemedyKind::Sealant => 4.0,
        RemedyKind::Strip | RemedyKind::Brush => 6.0,
        RemedyKind::Grommet => 8.0,
        RemedyKind::CoverPlate => 20.0,
        RemedyKind::Curtain | RemedyKind::Trap => 30.0,
        RemedyKind::Own => 45.0,
    }
}

/// Price of the material for each piece or metre \[A\].
pub(super) fn starting_price(kind: RemedyKind) -> f64 {
    match kind {
        RemedyKind::Sealant => 1.5,
        RemedyKind::Grommet => 3.0,
        RemedyKind::Strip => 4.0,
        RemedyKind::CoverPlate => 8.0,
        RemedyKind::Brush => 9.0,
        RemedyKind::Trap => 12.0,
        RemedyKind::Curtain => 40.0,
        RemedyKind::Own => 15.0,
    }
}

fn metre(kind: RemedyKind, words: &str, price: f64) -> Remedy {
    of(kind, words, price, CostBasis::Metre)
}

fn piece(kind: RemedyKind, words: &str, price: f64) -> Remedy {
    of(kind, words, price, CostBasis::Piece)
}

fn of(kind: RemedyKind, words: &str, price: f64, cost_basis: CostBasis) -> Remedy {
    Remedy {
        kind,
        words: words.to_owned(),
        leak_left_percent: Some(starting_leak_left_percent(kind)),
        material_cost: Some(price),
        cost_basis,
        // By piece or metre: worked out with the gap's own count and length.
        minutes: None,
    }
}
