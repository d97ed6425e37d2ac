//! A gap as the balance sees it, and what of the outside it feels: the side whose wind pressure it
//! has, and the heights of its ends.

use crate::physics::PlacedFlow;
use crate::physics::pressure_coefficient::{Face, WindBody, underfloor};
use crate::survey::Survey;
use crate::survey::gap::{Behind, Cavity, Facing, Gap};

/// One gap in the balance.
#[derive(Clone)]
pub(crate) struct Leak {
    /// Its index in the ledger; none for leakage that nobody found.
    pub(crate) ledger: Option<usize>,
    /// Index of the space it opens into.
    pub(crate) space: usize,
    /// Its flow and the heights of its ends.
    pub(crate) placed: PlacedFlow,
    /// The face whose wind pressure it feels.
    pub(crate) wind: WindSide,
    /// Sharp area it amounts to, for the one-sided rule, m².
    pub(crate) area: f64,
}

/// What decides the outside pressure at a gap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum WindSide {
    Face(Face),
    /// A cavity, taken to feel what the underfloor feels.
    Cavity,
    /// A cavity with this coefficient, whatever the wind's direction.
    Fixed(f64),
}

/// Lower and upper end of a gap above ground, m. Where the height was not given a finding says
/// so, and the usual height of the facing stands in: the roof's, the floor's, or the middle.
pub(super) fn heights(gap: &Gap, floor: f64, middle: f64, roof: f64) -> (f64, f64) {
    let usual = match gap.facing {
        Facing::Roof => roof,
        Facing::Underfloor
        | Facing::Cavity(Cavity::EngineBay | Cavity::WheelArch | Cavity::Locker) => floor,
        Facing::Front
        | Facing::Rear
        | Facing::Nearside
        | Facing::Offside
        | Facing::Cavity(Cavity::RefrigeratorCompartment) => middle,
    };
    let height = gap.position.height_m.unwrap_or(usual);
    let half_rise = gap.position.rise_m.map_or(0.0, |rise| rise / 2.0);
    (height - half_rise, height + half_rise)
}

/// The side whose pressure drives a gap: its own, or that of the opening in front of it.
pub(super) fn wind_side(survey: &Survey, gap: &Gap) -> WindSide {
    let outer = match gap.behind {
        Some(Behind::Gap(outer)) => survey.gap(outer),
        _ => None,
    };
    let outermost = outer.unwrap_or(gap);
    let face = match outermost.facing {
        Facing::Front => Face::Front,
        Facing::Rear => Face::Rear,
        Facing::Nearside => Face::Nearside,
        Facing::Offside => Face::Offside,
        Facing::Roof => Face::Roof,
        Facing::Underfloor => Face::Underfloor,
        Facing::Cavity(_) => {
            return outermost
                .cavity_pressure_coefficient
                .map_or(WindSide::Cavity, WindSide::Fixed);
        }
    };
    WindSide::Face(face)
}

pub(super) fn coefficient(body: &WindBody, side: WindSide, from_deg: f64) -> f64 {
    match side {
        WindSide::Face(face) => body.coefficient(face, from_deg),
        WindSide::Cavity => underfloor(body.shelter, body.skirted),
        WindSide::Fixed(coefficient) => coefficient,
    }
}
