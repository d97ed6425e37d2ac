//! The vehicle with one leak at a time letting through less, for many leaks at once.

use super::evaluate::{Inflow, Varied, Workbench};
use super::{Case, InWind, Model};
use crate::assess::answer::Answer;
use crate::assess::envelope::DIRECTIONS;
use crate::physics::counts::count;
use crate::physics::ensemble::Change;
use std::ops::Range;

impl Model {
    /// The inflows in every case with each of some changes made and no other, those that `which`
    /// picks out of `all`. All are looked for near the balance as surveyed, so that it hangs on
    /// `all` alone, and not on `which`, what comes out.
    ///
    /// # Errors
    /// As [`Model::evaluate`].
    pub(crate) fn one_by_one(
        &self,
        all: &[Change],
        which: Range<usize>,
        tolerance: f64,
    ) -> Answer<Vec<Vec<Inflow>>> {
        let varied = self.as_surveyed(tolerance);
        let picked = &all[which];
        let mut areas = Vec::new();
        let widest: Vec<f64> = picked
            .iter()
            .map(|(changed, left)| {
                let factor = |leak: usize| {
                    let left = if leak == *changed { *left } else { 1.0 };
                    left * varied.factors[leak]
                };
                self.envelope.widest_side(&mut areas, factor)
            })
            .collect();
        let mut bench = self.workbench();
        self.vary(&mut bench, &varied);
        let mut means = |case: &Case, air: &InWind| {
            let gusts = |widest: &f64| self.gusts((case, air), &varied, *widest);
            let gusts: Vec<f64> = widest.iter().map(gusts).collect();
            self.means(&mut bench, &varied, (case, air), (all, picked), &gusts)
        };
        let mut inflows = vec![vec![Inflow::default(); self.cases.len()]; picked.len()];
        for (at, case) in self.cases.iter().enumerate() {
            let recorded = means(case, &case.recorded)?;
            let warm = means(case, &case.at_set_temperature)?;
            for (place, found) in inflows.iter_mut().enumerate() {
                found[at] = Inflow {
                    recorded: recorded[place],
                    at_set_temperature: warm[place],
                };
            }
        }
        Ok(inflows)
    }

    /// Whether there is but one space, which all its leaks join to outside.
    pub(crate) fn is_one_space(&self) -> bool {
        let mut bodies = self.in_airs.iter().map(|known| known.ensemble.body());
        bodies.all(|body| body.spaces.len() == 1)
    }

    /// Mean gross inflow over the directions with each of the picked changes made, kg/s, none below
    /// what gusts exchange.
    fn means(
        &self,
        bench: &mut Workbench,
        varied: &Varied,
        (case, air): (&Case, &InWind),
        (all, picked): (&[Change], &[Change]),
        gusts: &[f64],
    ) -> Answer<Vec<f64>> {
        let ensemble = &self.in_airs[air.in_air].ensemble;
        let mut sums = vec![0.0; picked.len()];
        let mut failed = None;
        self.directions(bench, varied, case, air, 0.0, |found, member| {
            let (coefficients, scale) = (found.coefficients, found.scale);
            let near = ensemble.near(member, (coefficients, scale), all);
            let near = near.as_ref();
            let beside = (&*member, coefficients, scale);
            for ((sum, change), gusts) in sums.iter_mut().zip(picked).zip(gusts) {
                match ensemble.solve_changed(near, beside, *change, varied.tolerance) {
                    Ok(solved) => *sum += solved.inflow.max(*gusts),
                    Err(error) => failed = Some(error),
                }
            }
        })?;
        match failed {
            Some(error) => Err(error.into()),
            None => Ok(sums.iter().map(|sum| sum / count(DIRECTIONS)).collect()),
        }
    }
}
