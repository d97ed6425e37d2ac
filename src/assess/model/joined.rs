//! The vehicle worked out where its inside is more than one space.

use super::{DIRECTIONS, Leak, Varied};
use crate::assess::answer::{Answer, NotKnown};
use crate::assess::envelope::Envelope;
use crate::assess::exposure::WindSide;
use crate::physics::ensemble::{JoinedArranged, JoinedEnsemble, JoinedMember, JoinedState};
use crate::physics::{Face, MoistAir};

/// The spaces with given airs.
pub(super) struct Joined {
    ensemble: JoinedEnsemble,
    /// Coefficients of walls and roof by direction; zero for the rest.
    walls: Vec<JoinedArranged>,
    /// One for underfloor and cavities, zero for the rest.
    underfloor: JoinedArranged,
    /// Coefficients that the surveyor gave.
    fixed: JoinedArranged,
}

/// What of the wind is the same in all directions.
#[derive(Clone, Copy)]
pub(super) struct Held {
    /// Dynamic pressure, Pa.
    pub(super) dynamic: f64,
    /// The same over that of the case as surveyed.
    pub(super) ratio: f64,
}

impl Joined {
    /// The spaces, where the inside is more than one.
    pub(super) fn new(
        leaks: &[Leak],
        envelope: &Envelope,
        outside: &MoistAir,
        inside: &MoistAir,
    ) -> Option<Self> {
        let rooms = envelope.rooms()?;
        let placed = leaks
            .iter()
            .map(|leak| (leak.flow, leak.z_low, leak.z_high));
        let ensemble = rooms.ensemble(placed, outside, inside, envelope.middle());
        let list = |of: &dyn Fn(&Leak) -> f64| {
            ensemble.arrange(&leaks.iter().map(of).collect::<Vec<f64>>())
        };
        let walls = |direction: usize| {
            list(&|leak| match leak.wind {
                WindSide::Cavity | WindSide::Face(Face::Underfloor) | WindSide::Fixed(_) => 0.0,
                WindSide::Face(_) => leak.coefficients[direction],
            })
        };
        Some(Self {
            walls: (0..DIRECTIONS).map(walls).collect(),
            underfloor: list(&|leak| match leak.wind {
                WindSide::Cavity | WindSide::Face(Face::Underfloor) => 1.0,
                WindSide::Face(_) | WindSide::Fixed(_) => 0.0,
            }),
            fixed: list(&|leak| match leak.wind {
                WindSide::Fixed(coefficient) => coefficient,
                WindSide::Cavity | WindSide::Face(_) => 0.0,
            }),
            ensemble,
        })
    }

    pub(super) fn member(&self) -> JoinedMember {
        self.ensemble.member()
    }

    /// Sets the factors on the gaps and inner openings.
    pub(super) fn vary(&self, member: &mut JoinedMember, varied: &Varied) {
        let (gaps, inner) = (&varied.factors, &varied.inner_factors);
        self.ensemble.vary(member, gaps, inner, varied.discharge);
    }

    /// Gross inflow in every direction, looked for where the surveyed vehicle has it, moved as
    /// far as in the direction before.
    ///
    /// # Errors
    /// [`NotKnown`] where the balance cannot be struck.
    pub(super) fn directions(
        &self,
        member: &mut JoinedMember,
        varied: &Varied,
        held: Held,
        starts: &[JoinedState],
        mut each: impl FnMut(usize, &JoinedState, f64),
    ) -> Answer<()> {
        let lists = [(&self.underfloor, varied.underfloor), (&self.fixed, 1.0)];
        self.ensemble.hold(member, held.dynamic, lists);
        let scale = held.dynamic * varied.walls;
        let mut before: Option<&JoinedState> = None;
        for (at, coefficients) in self.walls.iter().enumerate() {
            let start = starts.get(at);
            if let Some(start) = start {
                look_near(member.state_mut(), start, before, held.ratio);
            }
            let solved = match start {
                Some(_) => self
                    .ensemble
                    .solve(member, coefficients, scale, varied.tolerance),
                None => self.ensemble.exactly(member, coefficients, scale),
            };
            let struck = solved.map_err(|error| NotKnown::because(error.to_string()))?;
            each(at, member.state(), struck.inflow);
            before = start;
        }
        Ok(())
    }
}

/// Moves an answer on to the next direction, as the surveyed vehicle's moves; without an answer
/// `before`, sets that of the surveyed vehicle. Pressures go with the wind's by a `ratio`.
fn look_near(
    state: &mut JoinedState,
    next: &JoinedState,
    before: Option<&JoinedState>,
    ratio: f64,
) {
    let lists = [
        (
            &mut state.pressures,
            &next.pressures,
            before.map(|state| &state.pressures),
            ratio,
        ),
        (
            &mut state.flows,
            &next.flows,
            before.map(|state| &state.flows),
            ratio.sqrt(),
        ),
    ];
    for (now, next, before, ratio) in lists {
        match before {
            None => {
                for (now, next) in now.iter_mut().zip(next) {
                    *now = ratio * next;
                }
            }
            Some(before) => {
                for (now, (next, before)) in now.iter_mut().zip(next.iter().zip(before)) {
                    *now += ratio * (next - before);
                }
            }
        }
    }
}
