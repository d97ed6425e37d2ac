//! The vehicle as the air balance sees it: paths with their laws, places and pressures.
#![expect(
    clippy::indexing_slicing,
    reason = "parallel lists built together; a missing number must never turn into a silent default"
)]

use super::answer::{Answer, NotKnown};
use super::exposure::{Leak, coefficient, heights, wind_side};
use super::law::GapLaw;
use super::rooms::{self, Rooms, Spaces};
use crate::physics::MoistAir;
use crate::physics::balance::{Balance, Conditions, Path, PathFlow, Solved};
use crate::physics::flow_law::{GapFlow, Gas};
use crate::physics::leakage::LeakageArea;
use crate::physics::network::Network;
use crate::physics::pressure_coefficient::WindBody;
use crate::physics::wind::{dynamic_pressure, one_sided_flow};
use crate::survey::equipment::FanDirection;
use crate::survey::{SetUp, Survey, findings};

/// How many wind directions a result is the mean of.
pub(crate) const DIRECTIONS: usize = 16;

/// Wind directions relative to the front of the vehicle, degrees clockwise.
pub(crate) fn direction_deg(index: usize) -> f64 {
    // Sixteen: exact in f64.
    #[expect(clippy::cast_precision_loss, reason = "a small count")]
    let share = index as f64 / DIRECTIONS as f64;
    share * 360.0
}

/// All leaks and fans of a vehicle, independent of the weather.
pub(crate) struct Envelope {
    leaks: Vec<Leak>,
    /// Height at which inside pressure is stated, m.
    middle: f64,
    /// Height of the roof, m: where the wind's speed is taken.
    roof: f64,
    /// Fan flows out of and into the vehicle, m³/s at the air they move.
    extract: f64,
    supply: f64,
    gaps: usize,
    /// Coefficients by direction, one for each leak.
    coefficients: Vec<Vec<f64>>,
    /// Where the inside is more than one space.
    rooms: Option<Rooms>,
}

impl Envelope {
    /// Puts the vehicle together.
    ///
    /// # Errors
    /// [`NotKnown`] where a size is missing that the balance needs, or a gap is impossible.
    pub(crate) fn new(survey: &Survey, laws: &[GapLaw]) -> Answer<Self> {
        let vehicle = &survey.vehicle;
        let missing = |what| NotKnown::because(format!("the {what} of the vehicle is not given"));
        let roof = vehicle
            .height_m
            .ok_or_else(|| missing("height above ground"))?;
        let floor = vehicle
            .floor_height_m
            .ok_or_else(|| missing("floor height"))?;
        let middle = f64::midpoint(floor, roof);
        let body = WindBody {
            set: survey.site.pressure_set,
            shelter: survey.site.shelter,
            skirted: vehicle.skirted,
            length: vehicle.length_m.ok_or_else(|| missing("length"))?,
            width: vehicle.width_m.ok_or_else(|| missing("width"))?,
        };
        let mut leaks = Vec::new();
        for (ledger, (gap, law)) in survey.gaps.iter().zip(laws).enumerate() {
            match law {
                GapLaw::Flows(flow) => {
                    let (z_low, z_high) = heights(gap, floor, middle, roof);
                    let wind = wind_side(survey, gap);
                    let area = sharp_area(flow);
                    leaks.push(Leak {
                        ledger,
                        flow: *flow,
                        z_low,
                        z_high,
                        wind,
                        area,
                    });
                }
                GapLaw::Impossible(reason) => return Err(NotKnown::because(reason.clone())),
                GapLaw::NotSized(_) | GapLaw::Compartment => {}
            }
        }
        let coefficients = (0..DIRECTIONS)
            .map(|direction| {
                let from = direction_deg(direction);
                leaks
                    .iter()
                    .map(|leak| coefficient(&body, leak.wind, from))
                    .collect()
            })
            .collect();
        let rooms = Rooms::new(survey, &findings::find(survey), &leaks, middle)?;
        let (extract, supply) = fans(survey);
        let gaps = survey.gaps.len();
        Ok(Self {
            leaks,
            middle,
            roof,
            extract,
            supply,
            gaps,
            coefficients,
            rooms,
        })
    }

    /// The gaps in the balance, in the ledger's order.
    pub(crate) fn leaks(&self) -> &[Leak] {
        &self.leaks
    }

    /// Pressure coefficients in one direction, one for each leak.
    pub(crate) fn coefficients(&self, direction: usize) -> &[f64] {
        &self.coefficients[direction]
    }

    /// Height at which inside pressure is stated, m.
    pub(crate) fn middle(&self) -> f64 {
        self.middle
    }

    /// Fan flows into and out of the vehicle, m³/s at the air they move.
    pub(crate) fn fans(&self) -> (f64, f64) {
        (self.supply, self.extract)
    }

    /// The spaces, where the inside is more than one.
    pub(crate) fn rooms(&self) -> Option<&Rooms> {
        self.rooms.as_ref()
    }

    /// Height of the roof above ground, m.
    pub(crate) fn roof(&self) -> f64 {
        self.roof
    }

    /// The balance for outside and inside air of these states.
    pub(crate) fn at<'a>(&'a self, outside: &MoistAir, inside: &MoistAir) -> Standing<'a> {
        let (gas_out, gas_in) = (Gas::from(outside), Gas::from(inside));
        let paths = self
            .leaks
            .iter()
            .map(|leak| Path {
                inward: leak.flow.at(&gas_out),
                outward: leak.flow.at(&gas_in),
                z_low: leak.z_low,
                z_high: leak.z_high,
            })
            .collect();
        Standing {
            envelope: self,
            balance: Balance {
                paths,
                supply: self.supply * gas_out.density,
                extract: self.extract * gas_in.density,
            },
            density_out: gas_out.density,
            density_in: gas_in.density,
            network: self.rooms.as_ref().map(|rooms| {
                let leaks = self.leaks.iter();
                let placed = leaks.map(|leak| (leak.flow, leak.z_low, leak.z_high));
                rooms.network(placed, outside, inside)
            }),
        }
    }

    /// Most air that gusts exchange through the openings of one face, m³/s.
    ///
    /// BS 5925's one-sided rule holds where all openings lie on one face. It is applied to the
    /// face where it gives the most, so that an opening elsewhere never lowers the result.
    fn one_sided(&self, wind: f64) -> f64 {
        let mut most = 0.0_f64;
        for (at, leak) in self.leaks.iter().enumerate() {
            if self.leaks[..at]
                .iter()
                .any(|earlier| earlier.wind == leak.wind)
            {
                continue;
            }
            let alike = self.leaks[at..]
                .iter()
                .filter(|other| other.wind == leak.wind);
            most = most.max(one_sided_flow(alike.map(|other| other.area).sum(), wind));
        }
        most
    }
}

/// The vehicle with given air inside and outside.
pub(crate) struct Standing<'a> {
    envelope: &'a Envelope,
    balance: Balance,
    density_out: f64,
    density_in: f64,
    /// Used in place of the balance where the inside is more than one space.
    network: Option<Network>,
}

/// One direction, solved.
pub(crate) struct SolvedDirection {
    /// Inside pressure, that of the first space, Pa.
    pub(crate) inside_pressure: f64,
    pub(crate) neutral_level: Option<f64>,
    /// Gross inflow of outside air, kg/s, the one-sided rule taken into account.
    pub(crate) inflow: f64,
    pub(crate) one_sided: bool,
    /// Gross outflow, kg/s.
    pub(crate) outflow: f64,
    state: State,
}

enum State {
    Single(Solved),
    Spaces(Box<Spaces>),
}

impl SolvedDirection {
    /// The spaces, where there is more than one.
    pub(crate) fn spaces(&self) -> Option<&Spaces> {
        match &self.state {
            State::Single(_) => None,
            State::Spaces(spaces) => Some(spaces),
        }
    }
}

impl Standing<'_> {
    /// Density of the inside air, kg/m³.
    pub(crate) fn density_in(&self) -> f64 {
        self.density_in
    }

    fn conditions(&self, wind: f64) -> Conditions {
        Conditions {
            density_out: self.density_out,
            density_in: self.density_in,
            dynamic_pressure: dynamic_pressure(self.density_out, wind),
            datum: self.envelope.middle,
        }
    }

    /// Solves one direction; `start` is a near pressure, Pa.
    ///
    /// # Errors
    /// [`NotKnown`] where the balance has no finite solution.
    pub(crate) fn direction(&self, wind: f64, index: usize, start: f64) -> Answer<SolvedDirection> {
        let conditions = self.conditions(wind);
        let coefficients = &self.envelope.coefficients[index];
        let (inside_pressure, inflow, outflow, state) = match &self.network {
            None => {
                let solved = self
                    .balance
                    .solve(&conditions, coefficients, start)
                    .map_err(|error| NotKnown::because(error.to_string()))?;
                let (pressure, inflow) = (solved.inside_pressure, solved.inflow);
                (pressure, inflow, solved.outflow, State::Single(solved))
            }
            Some(network) => {
                let (solved, spaces) = rooms::strike(network, &conditions, coefficients)?;
                let first = spaces.pressures[0];
                let state = State::Spaces(Box::new(spaces));
                (first, solved.inflow, solved.outflow, state)
            }
        };
        let gusts = self.envelope.one_sided(wind) * self.density_out;
        Ok(SolvedDirection {
            inside_pressure,
            neutral_level: conditions.neutral_level(inside_pressure),
            inflow: inflow.max(gusts),
            one_sided: gusts > inflow,
            outflow,
            state,
        })
    }

    /// Flow through every gap of the ledger in one solved direction, kg/s in and out.
    ///
    /// # Errors
    /// [`NotKnown`] where the balance had no finite solution.
    pub(crate) fn flows(
        &self,
        wind: f64,
        index: usize,
        solved: &SolvedDirection,
    ) -> Answer<Vec<Option<PathFlow>>> {
        let mut by_ledger = vec![None; self.envelope.gaps];
        let mut put = |flows: &mut dyn Iterator<Item = PathFlow>| {
            for (leak, flow) in self.envelope.leaks.iter().zip(flows) {
                by_ledger[leak.ledger] = Some(flow);
            }
        };
        match &solved.state {
            State::Single(solved) => {
                let coefficients = &self.envelope.coefficients[index];
                let flows = self
                    .balance
                    .flows(&self.conditions(wind), coefficients, solved)
                    .map_err(|error| NotKnown::because(error.to_string()))?;
                put(&mut { flows });
            }
            State::Spaces(spaces) => put(&mut spaces.outer.iter().copied()),
        }
        Ok(by_ledger)
    }

    /// Gross inflow of outside air in every direction, kg/s.
    ///
    /// # Errors
    /// [`NotKnown`] where a balance has no finite solution.
    pub(crate) fn inflows(&self, wind: f64) -> Answer<[f64; DIRECTIONS]> {
        let mut inflows = [0.0; DIRECTIONS];
        let mut start = 0.0;
        for (index, inflow) in inflows.iter_mut().enumerate() {
            let direction = self.direction(wind, index, start)?;
            start = direction.inside_pressure;
            *inflow = direction.inflow;
        }
        Ok(inflows)
    }

    /// Mean gross inflow of outside air over all directions, kg/s.
    ///
    /// # Errors
    /// As [`Standing::inflows`].
    pub(crate) fn mean_inflow(&self, wind: f64) -> Answer<f64> {
        Ok(mean(&self.inflows(wind)?))
    }
}

/// Arithmetic mean.
pub(crate) fn mean(values: &[f64; DIRECTIONS]) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "a small count")]
    let count = DIRECTIONS as f64;
    values.iter().sum::<f64>() / count
}

pub(crate) fn sharp_area(flow: &GapFlow) -> f64 {
    let convention = LeakageArea::Eqla10Pa;
    convention.area(
        flow.at(&Gas::REFERENCE)
            .flow(convention.reference_pressure()),
    )
}

/// Extract and supply of the fans that run in the set-up, m³/s. Fans without a flow are left
/// out, and a finding says so.
fn fans(survey: &Survey) -> (f64, f64) {
    let (mut extract, mut supply) = (0.0, 0.0);
    for fan in &survey.fans {
        let on = match survey.set_up {
            SetUp::LaidUp => fan.on_laid_up,
            SetUp::InUse => fan.on_in_use,
        };
        if let (true, Some(flow)) = (on, fan.flow_m3_per_h) {
            match fan.direction {
                FanDirection::Extract => extract += flow / 3600.0,
                FanDirection::Supply => supply += flow / 3600.0,
            }
        }
    }
    (extract, supply)
}
