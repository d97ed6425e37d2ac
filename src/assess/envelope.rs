//! The vehicle as the air balance sees it: paths with their laws, places and pressures.
#![expect(
    clippy::indexing_slicing,
    reason = "parallel lists built together; a missing number must never turn into a silent default"
)]

use super::answer::{Answer, NotKnown};
use super::exposure::{Leak, WindSide, coefficient, floor_place, heights, wind_side};
use super::in_air::VehicleInAir;
use super::inside::{self, InsideSpace, RunningFan};
use super::law::{GapLaw, NO_SHARE_LEFT, sharp_area};
use super::possible::{length_and_width, roof_and_floor};
use crate::physics::counts::count;
use crate::physics::flow_law::Gas;
use crate::physics::network::{Body, Network, Space};
use crate::physics::pressure_coefficient::{Underside, WindBody};
use crate::physics::{MoistAir, PlacedFlow};
use crate::survey::{Finding, Survey};

/// How many wind directions a result is the mean of.
pub(crate) const DIRECTIONS: usize = 16;

/// Wind directions relative to the front of the vehicle, degrees clockwise.
pub(crate) fn direction_deg(index: usize) -> f64 {
    // Sixteen: exact in f64.
    count(index) / count(DIRECTIONS) * 360.0
}

/// All gaps, spaces, inner openings and fans of a vehicle, independent of the weather.
#[derive(Clone)]
pub(crate) struct Envelope {
    leaks: Vec<Leak>,
    spaces: Vec<InsideSpace>,
    /// Places of the spaces and flow of each inner opening, in the survey's order.
    openings: Vec<([usize; 2], PlacedFlow)>,
    /// Fans that run in the set-up.
    fans: Vec<RunningFan>,
    /// What decides the wind's pressure.
    body: WindBody,
    /// Outside length and width, m.
    plan: Answer<(f64, f64)>,
    /// Heights above ground of floor and roof, m; the wind's speed is taken at the roof.
    floor: f64,
    roof: f64,
    /// Gaps in the ledger, those in no balance included.
    gaps: usize,
    /// Coefficients by direction, one for each leak.
    coefficients: Vec<Vec<f64>>,
    /// The different sides, and the index of each leak's: the one-sided rule adds them up.
    sides: Vec<WindSide>,
    side_of_leak: Vec<usize>,
    /// Openings of the side that has the most, m².
    widest: f64,
}

impl Envelope {
    /// Puts the vehicle together.
    ///
    /// # Errors
    /// [`NotKnown`] where a size that the balance needs is missing or impossible, no gap can be counted, or a space
    /// or an inner opening is impossible. Gaps that are not sized or impossible are left out.
    pub(crate) fn new(survey: &Survey, findings: &[Finding], laws: &[GapLaw]) -> Answer<Self> {
        if !laws.iter().any(|law| matches!(law, GapLaw::Flows(_))) {
            return Err(nothing_leaks(laws));
        }
        let (roof, floor) = roof_and_floor(survey)?;
        let plan = length_and_width(survey);
        let body = wind_body(survey, &plan)?;
        let middle = f64::midpoint(floor, roof);
        let mut leaks = Vec::new();
        for (ledger, (gap, law)) in survey.gaps.iter().zip(laws).enumerate() {
            match law {
                GapLaw::Flows(flow) => {
                    let (z_low, z_high) = heights(gap, floor, middle, roof);
                    leaks.push(Leak {
                        ledger: Some(ledger),
                        space: inside::place(survey, gap.space)?,
                        placed: PlacedFlow {
                            flow: *flow,
                            z_low,
                            z_high,
                        },
                        wind: wind_side(survey, gap),
                        place: floor_place(survey, gap),
                        area: sharp_area(flow),
                    });
                }
                GapLaw::Impossible(_) | GapLaw::NotSized(_) | GapLaw::Compartment => {}
            }
        }
        let openings = survey.inner_openings.iter();
        let mut envelope = Self {
            spaces: inside::spaces(survey, findings)?,
            openings: openings
                .map(|opening| inside::opening(survey, opening, middle))
                .collect::<Answer<_>>()?,
            fans: inside::fans(survey, findings)?,
            leaks: Vec::new(),
            body,
            plan,
            floor,
            roof,
            gaps: survey.gaps.len(),
            coefficients: vec![Vec::new(); DIRECTIONS],
            sides: Vec::new(),
            side_of_leak: Vec::new(),
            widest: 0.0,
        };
        envelope.add(leaks);
        Ok(envelope)
    }

    /// Adds leaks behind those that are there.
    pub(crate) fn add(&mut self, leaks: Vec<Leak>) {
        for leak in &leaks {
            for (direction, coefficients) in self.coefficients.iter_mut().enumerate() {
                coefficients.push(coefficient(&self.body, leak, direction_deg(direction)));
            }
            let known = self.sides.iter().position(|side| *side == leak.wind);
            self.side_of_leak.push(known.unwrap_or(self.sides.len()));
            if known.is_none() {
                self.sides.push(leak.wind);
            }
        }
        self.leaks.extend(leaks);
        self.widest = self.widest_side(&mut Vec::new(), |_| 1.0);
    }

    /// Openings of the side that has the most, m².
    pub(super) fn widest(&self) -> f64 {
        self.widest
    }

    /// The same with every fan off.
    pub(super) fn without_fans(&self) -> Self {
        Self {
            fans: Vec::new(),
            ..self.clone()
        }
    }

    /// One number for each fan that runs, put at its fan's place in the survey.
    pub(super) fn by_survey(&self, running: &[f64]) -> Vec<Option<f64>> {
        let last = self.fans.iter().map(|fan| fan.listed + 1).max();
        let mut all = vec![None; last.unwrap_or(0)];
        for (fan, value) in self.fans.iter().zip(running) {
            all[fan.listed] = Some(*value);
        }
        all
    }

    /// The gaps in the balance: those of the ledger in its order, then what was added.
    pub(crate) fn leaks(&self) -> &[Leak] {
        &self.leaks
    }

    /// Number of gaps in the ledger, those in no balance included.
    pub(super) fn gaps(&self) -> usize {
        self.gaps
    }

    /// Pressure coefficients in one direction, one for each leak.
    pub(crate) fn coefficients(&self, direction: usize) -> &[f64] {
        &self.coefficients[direction]
    }

    /// Pressure coefficients for wind from an angle off the front, degrees, one for each leak.
    pub(crate) fn coefficients_from(&self, from_front_deg: f64) -> Vec<f64> {
        let leaks = self.leaks.iter();
        leaks
            .map(|leak| coefficient(&self.body, leak, from_front_deg))
            .collect()
    }

    /// Number of inner openings, as many as the survey lists.
    pub(crate) fn openings(&self) -> usize {
        self.openings.len()
    }

    /// Outside length and width, m.
    ///
    /// # Errors
    /// [`NotKnown`] where one is not given.
    pub(crate) fn plan(&self) -> Answer<(f64, f64)> {
        self.plan.clone()
    }

    /// How the space under the floor stands to the wind.
    pub(crate) fn underside(&self) -> Underside {
        self.body.underside
    }

    /// Height of the floor above ground, m.
    pub(crate) fn floor(&self) -> f64 {
        self.floor
    }

    /// Height of the roof above ground, m.
    pub(crate) fn roof(&self) -> f64 {
        self.roof
    }

    /// The vehicle with outside air and air of the first space of these states, as the physics
    /// takes it.
    pub(crate) fn body(&self, outside: &MoistAir, inside: &MoistAir) -> Body {
        let outside = Gas::from(outside);
        let space = |space: &InsideSpace| Space {
            gas: Gas::from(&space.air(inside)),
        };
        let spaces: Vec<Space> = self.spaces.iter().map(space).collect();
        let (leaks, fans) = (self.leaks.iter(), self.fans.iter());
        Body {
            outside,
            datum: f64::midpoint(self.floor, self.roof),
            fans: fans.map(|fan| fan.between(&outside, &spaces)).collect(),
            spaces,
            gaps: leaks.map(|leak| (leak.space, leak.placed)).collect(),
            openings: self.openings.clone(),
        }
    }

    /// The balance for outside air and air of the first space of these states.
    pub(crate) fn at(&self, outside: &MoistAir, inside: &MoistAir) -> VehicleInAir<'_> {
        VehicleInAir::new(self, self.body(outside, inside).network())
    }

    /// The same, from the network of this envelope in the same outside air with other air inside.
    pub(crate) fn refilled(&self, mut network: Network, inside: &MoistAir) -> VehicleInAir<'_> {
        let spaces = self.spaces.iter().map(|space| Space {
            gas: Gas::from(&space.air(inside)),
        });
        let leaks = self.leaks.iter().map(|leak| &leak.placed);
        let openings = self.openings.iter().map(|(_, placed)| placed);
        network.refill(spaces, leaks, openings);
        let outside = network.outside;
        network.fans.clear();
        for fan in &self.fans {
            let fan = fan.between(&outside, &network.spaces);
            network.fans.push(fan);
        }
        VehicleInAir::new(self, network)
    }

    /// Openings of the side that has the most, m², with a factor on each leak; `areas` is memory
    /// to work in.
    pub(crate) fn widest_side(&self, areas: &mut Vec<f64>, factor: impl Fn(usize) -> f64) -> f64 {
        areas.clear();
        areas.resize(self.sides.len(), 0.0);
        for (at, (leak, side)) in self.leaks.iter().zip(&self.side_of_leak).enumerate() {
            areas[*side] += leak.area * factor(at);
        }
        areas.iter().copied().fold(0.0, f64::max)
    }
}

/// What the wind's pressure hangs on: length and width only where the set or the skirts need them.
///
/// # Errors
/// [`NotKnown`] where they are needed and one is not given.
fn wind_body(survey: &Survey, plan: &Answer<(f64, f64)>) -> Answer<WindBody> {
    let set = survey.site.pressure_set;
    let shelter = survey.site.shelter;
    let underside = survey.vehicle.underside;
    match plan {
        Ok((length, width)) => Ok(WindBody {
            set,
            shelter,
            underside,
            length: *length,
            width: *width,
        }),
        Err(unknown) => {
            WindBody::longer_than_wide(set, shelter, underside).ok_or_else(|| unknown.clone())
        }
    }
}

/// Why there is no air balance where no gap takes part in it: nothing would be said with nothing.
fn nothing_leaks(laws: &[GapLaw]) -> NotKnown {
    let any = |such: fn(&GapLaw) -> bool| laws.iter().any(such);
    let sealed = |law: &GapLaw| matches!(law, GapLaw::NotSized(why) if why == NO_SHARE_LEFT);
    NotKnown::because(if laws.is_empty() {
        "no gap entered yet"
    } else if laws.iter().all(sealed) {
        return NotKnown::because(format!("of no gap is known what is left: {NO_SHARE_LEFT}"));
    } else if any(|law| matches!(law, GapLaw::NotSized(_))) {
        "no gap is sized yet"
    } else if any(|law| matches!(law, GapLaw::Impossible(_))) {
        "every gap is left out, since what is recorded of it cannot be"
    } else {
        "no gap that leads inside is entered yet"
    })
}

/// Arithmetic mean.
pub(crate) fn mean(values: &[f64; DIRECTIONS]) -> f64 {
    values.iter().sum::<f64>() / count(DIRECTIONS)
}
