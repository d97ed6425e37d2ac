//! The vehicle worked out once more.

use super::joined::Held;
use super::{Case, InWind, Model};
use crate::assess::answer::{Answer, NotKnown};
use crate::assess::envelope::{DIRECTIONS, mean};
use crate::physics::ensemble::{JoinedMember, JoinedState, Member};
use crate::physics::wind::{LEAST_SPEED, dynamic_pressure, one_sided_flow};

/// What is other than surveyed.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Varied {
    /// Factor on the flow of each leak.
    pub(crate) factors: Vec<f64>,
    /// Factor on the flow of each inner opening; none where the inside is one space.
    pub(crate) inner_factors: Vec<f64>,
    /// Factor on the discharge coefficient of every sharp edge.
    pub(crate) discharge: f64,
    /// Factor on the pressure coefficients of walls and roof.
    pub(crate) walls: f64,
    /// Coefficient of underfloor and cavities.
    pub(crate) underfloor: f64,
    /// Factor on the wind at the body.
    pub(crate) wind: f64,
    /// Imbalance that may be left, as a share of the through-flow.
    pub(crate) tolerance: f64,
}

/// Which inside air is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Want {
    /// As each case records it.
    Recorded,
    /// At the set temperature.
    SetTemperature,
    /// Both.
    Both,
}

/// Mean gross inflow of outside air over the sixteen directions, kg/s; zero where not asked for.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Inflow {
    pub(crate) recorded: f64,
    pub(crate) at_set_temperature: f64,
}

/// Room to work in, so that working out allocates nothing.
pub(crate) struct Workbench {
    members: Vec<Member>,
    joined: Vec<Option<JoinedMember>>,
    areas: Vec<f64>,
    /// One for each case.
    pub(crate) inflows: Vec<Inflow>,
}

impl Model {
    /// The vehicle as surveyed.
    pub(crate) fn as_surveyed(&self, tolerance: f64) -> Varied {
        Varied {
            factors: self
                .leaks
                .iter()
                .map(|leak| if leak.ledger.is_some() { 1.0 } else { 0.0 })
                .collect(),
            inner_factors: vec![1.0; self.inner_openings],
            discharge: 1.0,
            walls: 1.0,
            underfloor: self.underfloor,
            wind: 1.0,
            tolerance,
        }
    }

    /// Room to work this vehicle out.
    pub(crate) fn workbench(&self) -> Workbench {
        Workbench {
            members: self
                .standings
                .iter()
                .map(|standing| standing.ensemble.member())
                .collect(),
            joined: self
                .standings
                .iter()
                .map(|standing| standing.joined.as_ref().map(super::Joined::member))
                .collect(),
            areas: vec![0.0; self.sides],
            inflows: vec![Inflow::default(); self.cases.len()],
        }
    }

    /// Works the vehicle out in every case; the answers lie in [`Workbench::inflows`].
    ///
    /// # Errors
    /// [`NotKnown`] where a balance has no finite solution.
    pub(crate) fn evaluate(
        &self,
        bench: &mut Workbench,
        varied: &Varied,
        want: Want,
    ) -> Answer<()> {
        self.evaluate_cases(bench, varied, want, 0..self.cases.len())
    }

    /// The same in some cases only; the answers for the others stay as they were.
    ///
    /// # Errors
    /// As [`Model::evaluate`].
    pub(crate) fn evaluate_cases(
        &self,
        bench: &mut Workbench,
        varied: &Varied,
        want: Want,
        cases: std::ops::Range<usize>,
    ) -> Answer<()> {
        self.vary(bench, varied);
        bench.areas.fill(0.0);
        for (leak, factor) in self.leaks.iter().zip(&varied.factors) {
            bench.areas[leak.side] += leak.area * factor;
        }
        let widest = bench.areas.iter().copied().fold(0.0, f64::max);
        for at in cases {
            let case = &self.cases[at];
            if want != Want::SetTemperature {
                let inflow = self.mean_inflow(bench, varied, case, &case.recorded, widest)?;
                bench.inflows[at].recorded = inflow;
            }
            if want != Want::Recorded {
                let air = &case.at_set_temperature;
                let inflow = self.mean_inflow(bench, varied, case, air, widest)?;
                bench.inflows[at].at_set_temperature = inflow;
            }
        }
        Ok(())
    }

    fn vary(&self, bench: &mut Workbench, varied: &Varied) {
        let members = bench.members.iter_mut().zip(&mut bench.joined);
        for (standing, (member, joined)) in self.standings.iter().zip(members) {
            match (&standing.joined, joined) {
                (Some(spaces), Some(member)) => spaces.vary(member, varied),
                _ => standing
                    .ensemble
                    .vary(member, &varied.factors, varied.discharge),
            }
        }
    }

    fn mean_inflow(
        &self,
        bench: &mut Workbench,
        varied: &Varied,
        case: &Case,
        air: &InWind,
        widest: f64,
    ) -> Answer<f64> {
        let mut inflows = [0.0; DIRECTIONS];
        self.directions(bench, varied, case, air, widest, |at, _, inflow| {
            inflows[at] = inflow;
        })?;
        Ok(mean(&inflows))
    }

    /// Every direction's inside pressures and gross inflow.
    fn directions(
        &self,
        bench: &mut Workbench,
        varied: &Varied,
        case: &Case,
        air: &InWind,
        widest: f64,
        mut each: impl FnMut(usize, Found<'_>, f64),
    ) -> Answer<()> {
        let standing = &self.standings[air.standing];
        let ensemble = &standing.ensemble;
        let wind = (case.wind * varied.wind).max(LEAST_SPEED);
        let dynamic = dynamic_pressure(ensemble.density_out(), wind);
        let gusts = one_sided_flow(widest, wind) * ensemble.density_out();
        let ratio = dynamic / air.dynamic_pressure;
        if let (Some(spaces), Some(member)) = (&standing.joined, &mut bench.joined[air.standing]) {
            let held = Held { dynamic, ratio };
            let starts = &air.starts.joined;
            return spaces.directions(member, varied, held, starts, |at, state, inflow| {
                each(at, Found::Joined(state), inflow.max(gusts));
            });
        }
        let member = &mut bench.members[air.standing];
        ensemble.hold(
            member,
            dynamic,
            &[
                (&standing.underfloor, varied.underfloor),
                (&standing.fixed, 1.0),
            ],
        );
        let scale = dynamic * varied.walls;
        // How far the last direction lay from where the surveyed vehicle would lie.
        let mut shift = 0.0;
        for (at, coefficients) in standing.walls.iter().enumerate() {
            let usual = air.starts.single[at] * ratio;
            let struck = ensemble
                .solve(member, coefficients, scale, usual + shift, varied.tolerance)
                .map_err(|error| NotKnown::because(error.to_string()))?;
            shift = struck.inside_pressure - usual;
            let found = Found::Single(struck.inside_pressure);
            each(at, found, struck.inflow.max(gusts));
        }
        Ok(())
    }

    /// Works the vehicle out as surveyed and keeps the inside pressures to start from.
    pub(super) fn find_starts(&mut self) -> Answer<()> {
        const FINE: f64 = 1e-9;
        let varied = self.as_surveyed(FINE);
        let mut bench = self.workbench();
        self.vary(&mut bench, &varied);
        for at in 0..self.cases.len() {
            let case = &self.cases[at];
            let recorded = self.starts(&mut bench, &varied, case, &case.recorded)?;
            let warm = self.starts(&mut bench, &varied, case, &case.at_set_temperature)?;
            self.cases[at].recorded.starts = recorded;
            self.cases[at].at_set_temperature.starts = warm;
        }
        Ok(())
    }

    fn starts(
        &self,
        bench: &mut Workbench,
        varied: &Varied,
        case: &Case,
        air: &InWind,
    ) -> Answer<Starts> {
        let mut starts = Starts::default();
        self.directions(
            bench,
            varied,
            case,
            air,
            0.0,
            |direction, found, _| match found {
                Found::Single(pressure) => starts.single[direction] = pressure,
                Found::Joined(state) => starts.joined.push(state.clone()),
            },
        )?;
        Ok(starts)
    }
}

/// Where the surveyed vehicle's answers lie, direction by direction.
#[derive(Default)]
pub(super) struct Starts {
    /// Inside pressure, Pa.
    single: [f64; DIRECTIONS],
    /// Used in place of it where the inside is more than one space; empty until found.
    joined: Vec<JoinedState>,
}

/// Where the answer of one direction lies.
enum Found<'a> {
    Single(f64),
    Joined(&'a JoinedState),
}
