//! The vehicle worked out once more.

use super::beyond::Beyond;
use super::{Case, InWind, Model};
use crate::assess::answer::Answer;
use crate::assess::envelope::{DIRECTIONS, mean};
use crate::physics::counts::count;
use crate::physics::ensemble::{Arranged, Member, State};
use crate::physics::wind::{LEAST_SPEED, dynamic_pressure, one_sided_flow};

/// What is other than surveyed.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Varied {
    /// Factor on the flow of each leak.
    pub(crate) factors: Vec<f64>,
    /// Factor on the flow of each inner opening.
    pub(crate) inner_factors: Vec<f64>,
    /// Factor on the discharge coefficient of every sharp edge.
    pub(crate) discharge: f64,
    /// Factor on the pressure coefficients of walls and roof, and under a skirted floor.
    pub(crate) walls: f64,
    /// Factor on those of an underfloor without skirts and of cavities.
    pub(crate) underfloor: f64,
    /// What is added to the same.
    pub(crate) underfloor_shift: f64,
    /// Factor on what gusts exchange where all openings lie on one side.
    pub(crate) gusts: f64,
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

/// What one direction of the wind came to.
pub(super) struct Found<'a> {
    at: usize,
    pub(super) coefficients: &'a Arranged,
    /// Pascals for each coefficient.
    pub(super) scale: f64,
    /// Gross inflow, kg/s.
    inflow: f64,
    /// Whether gusts bring in more than the balance.
    by_gusts: bool,
}

/// Memory to work in, so that working out allocates nothing.
pub(crate) struct Workbench {
    members: Vec<Member>,
    pub(super) areas: Vec<f64>,
    /// One for each case.
    pub(crate) inflows: Vec<Inflow>,
    beyond: Beyond,
}

impl Model {
    /// The vehicle as surveyed.
    pub(crate) fn as_surveyed(&self, tolerance: f64) -> Varied {
        Varied {
            factors: self
                .leaks()
                .iter()
                .map(|leak| if leak.ledger.is_some() { 1.0 } else { 0.0 })
                .collect(),
            inner_factors: vec![1.0; self.envelope.openings()],
            discharge: 1.0,
            walls: 1.0,
            underfloor: 1.0,
            underfloor_shift: 0.0,
            gusts: 1.0,
            wind: 1.0,
            tolerance,
        }
    }

    /// Memory to work this vehicle out in.
    pub(crate) fn workbench(&self) -> Workbench {
        let members = self.in_airs.iter().map(|known| known.ensemble.member());
        let members: Vec<Member> = members.collect();
        let nothing = State::default();
        let like = members.first().map_or(&nothing, Member::state);
        Workbench {
            beyond: Beyond::new(DIRECTIONS, like),
            members,
            areas: Vec::new(),
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
        let factor = |leak: usize| varied.factors[leak];
        let widest = self.envelope.widest_side(&mut bench.areas, factor);
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

    pub(super) fn vary(&self, bench: &mut Workbench, varied: &Varied) {
        bench.beyond.forget();
        let (factors, inner) = (&varied.factors, &varied.inner_factors);
        for (known, member) in self.in_airs.iter().zip(&mut bench.members) {
            let ensemble = &known.ensemble;
            ensemble.vary(member, factors, inner, varied.discharge);
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
        self.directions(bench, varied, case, air, widest, |found, _| {
            inflows[found.at] = found.inflow;
        })?;
        Ok(mean(&inflows))
    }

    /// How the sum over some cases of the inflow times a weight changes with the factor of each
    /// leak, kg/s: as surveyed for a factor of one. Leaks do nothing where gusts exchange more.
    ///
    /// # Errors
    /// As [`Model::evaluate`].
    pub(crate) fn inflow_slopes(
        &self,
        bench: &mut Workbench,
        varied: &Varied,
        want: Want,
        weights: &[(usize, f64)],
    ) -> Answer<Vec<f64>> {
        self.vary(bench, varied);
        let widest = self
            .envelope
            .widest_side(&mut bench.areas, |leak| varied.factors[leak]);
        let mut slopes = vec![0.0; self.leaks().len()];
        for (at, weight) in weights {
            let case = &self.cases[*at];
            let air = match want {
                Want::Recorded => &case.recorded,
                Want::SetTemperature | Want::Both => &case.at_set_temperature,
            };
            let ensemble = &self.in_airs[air.in_air].ensemble;
            let open = ensemble.member();
            let share = weight / count(DIRECTIONS);
            self.directions(bench, varied, case, air, widest, |found, member| {
                if !found.by_gusts {
                    let wind = (found.coefficients, found.scale);
                    ensemble.add_inflow_slopes((member, &open), wind, share, &mut slopes);
                }
            })?;
        }
        Ok(slopes)
    }

    /// Every direction's state and gross inflow, looked for as far beyond where the surveyed vehicle
    /// has it as the balances lay that were found before with the same factors.
    pub(super) fn directions(
        &self,
        bench: &mut Workbench,
        varied: &Varied,
        case: &Case,
        air: &InWind,
        widest: f64,
        mut each: impl FnMut(Found<'_>, &mut Member),
    ) -> Answer<()> {
        let in_air = &self.in_airs[air.in_air];
        let member = &mut bench.members[air.in_air];
        let ensemble = &in_air.ensemble;
        let density_out = ensemble.body().outside.density;
        let dynamic = dynamic_pressure(density_out, wind_at(case, varied));
        let gusts = self.gusts((case, air), varied, widest);
        let ratio = dynamic / air.dynamic_pressure;
        let scale = dynamic * varied.walls;
        if air.starts.is_empty() {
            member.state_mut().pressures.fill(0.0);
        }
        let beyond = &mut bench.beyond;
        beyond.go_on_to(dynamic);
        let by_direction = in_air.walls.iter().zip(&in_air.underfloor);
        for (at, (coefficients, underfloor)) in by_direction.enumerate() {
            let held = [
                (underfloor, varied.underfloor),
                (&in_air.unskirted, varied.underfloor_shift),
                (&in_air.fixed, 1.0),
            ];
            ensemble.hold(member, dynamic, &held);
            let solved = if let Some(start) = air.starts.get(at) {
                let surveyed = (start, ratio);
                beyond.look_from(at, surveyed, member.state_mut());
                let solved = ensemble.solve(member, coefficients, scale, varied.tolerance);
                beyond.keep(at, surveyed, member.state());
                solved
            } else {
                ensemble.solve_from_afar(member, coefficients, scale, varied.tolerance)
            };
            let inflow = solved?.inflow;
            let found = Found {
                at,
                coefficients,
                scale,
                inflow: inflow.max(gusts),
                by_gusts: gusts > inflow,
            };
            each(found, member);
        }
        Ok(())
    }

    /// What gusts alone exchange where the side with the most has so many m² of openings, kg/s.
    pub(super) fn gusts(&self, (case, air): (&Case, &InWind), varied: &Varied, widest: f64) -> f64 {
        let density_out = self.in_airs[air.in_air].ensemble.body().outside.density;
        one_sided_flow(widest, wind_at(case, varied)) * density_out * varied.gusts
    }

    /// Works the vehicle out as surveyed and keeps the states to start from.
    pub(super) fn find_starts(&mut self) -> Answer<()> {
        const FINE: f64 = 1e-9;
        let varied = self.as_surveyed(FINE);
        let mut bench = self.workbench();
        self.vary(&mut bench, &varied);
        for at in 0..self.cases.len() {
            let case = &self.cases[at];
            let mut starts = |air: &InWind| {
                let mut states = Vec::with_capacity(DIRECTIONS);
                self.directions(&mut bench, &varied, case, air, 0.0, |_, member| {
                    states.push(member.state().clone());
                })?;
                Answer::Ok(states)
            };
            let (recorded, warm) = (starts(&case.recorded)?, starts(&case.at_set_temperature)?);
            self.cases[at].recorded.starts = recorded;
            self.cases[at].at_set_temperature.starts = warm;
        }
        Ok(())
    }
}

/// Wind at the body, m/s.
fn wind_at(case: &Case, varied: &Varied) -> f64 {
    (case.wind * varied.wind).max(LEAST_SPEED)
}
