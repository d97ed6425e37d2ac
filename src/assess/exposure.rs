//! A gap as the balance sees it, and what of the outside it feels: the side whose wind pressure it
//! has, and the heights of its ends.

use super::law::outermost;
use crate::physics::PlacedFlow;
use crate::physics::pressure_coefficient::{Face, FloorPlace, WindBody};
use crate::survey::Survey;
use crate::survey::gap::{Cavity, Facing, Gap};

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
    /// Where under the floor it is, where that is to count.
    pub(crate) place: FloorPlace,
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
    let outermost = outermost(survey, gap);
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

impl WindSide {
    /// Whether it feels what the underfloor feels.
    pub(crate) fn is_underfloor(self) -> bool {
        matches!(self, Self::Cavity | Self::Face(Face::Underfloor))
    }
}

/// Where under the floor a gap is, for a survey that tells the floor's places apart. A cavity has
/// the mean of the whole floor.
pub(super) fn floor_place(survey: &Survey, gap: &Gap) -> FloorPlace {
    let vehicle = &survey.vehicle;
    let gap = outermost(survey, gap);
    if !vehicle.underfloor_by_place || gap.facing != Facing::Underfloor {
        return FloorPlace::default();
    }
    let share = |distance: Option<f64>, whole: Option<f64>| Some(distance? / whole?);
    FloorPlace::at(
        share(gap.position.along_m, vehicle.length_m),
        share(gap.position.across_m, vehicle.width_m),
    )
}

/// Pressure coefficient at a leak for wind from an angle off the front.
pub(super) fn coefficient(body: &WindBody, leak: &Leak, from_deg: f64) -> f64 {
    match leak.wind {
        WindSide::Face(Face::Underfloor) => body.underfloor(leak.place, from_deg),
        WindSide::Face(face) => body.coefficient(face, from_deg),
        WindSide::Cavity => body.coefficient(Face::Underfloor, from_deg),
        WindSide::Fixed(coefficient) => coefficient,
    }
}
