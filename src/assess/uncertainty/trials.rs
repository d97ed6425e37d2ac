//! The draws: everything that is uncertain drawn, the vehicle worked out again.
#![expect(
    clippy::indexing_slicing,
    reason = "parallel lists built together; a missing number must never turn into a silent default"
)]

use super::input::{Spread, UncertainInput};
use super::round::{Drawn, Round};
use super::targets::{Common, Ready, Room};
use super::weighing::{resampled, weights};
use crate::assess::answer::{Answer, NotKnown};
use crate::assess::calibration::Calibration;
use crate::assess::factors::Factors;
use crate::assess::leakage;
use crate::assess::model::{Model, Varied, Want, Workbench};
use crate::assess::prepared::Prepared;
use crate::physics::flow_law::{FlowLaw, Gas};
use crate::physics::leakage::LeakageArea;
use crate::physics::pressure_coefficient::Underside;
use crate::survey::number::given;
use crate::survey::{Certainty, Field, Form, Item, Survey, leave};
use std::ops::Range;
use std::sync::Arc;

/// Imbalance left in a draw, as a share of the through-flow; the inflow is corrected for it, and
/// what remains is far below the scatter of the draws.
const TOLERANCE: f64 = 1e-4;

/// A survey made ready for the draws.
pub struct Trials {
    pub(super) model: Arc<Model>,
    /// One for each leak: what is uncertain about it, and how much.
    uncertainties: Vec<(UncertainInput, Spread)>,
    /// Share of the found leakage that was not found, 0…1.
    pub(super) not_found: Option<f64>,
    /// Which leaks are unintended.
    unintended: Vec<bool>,
    /// What is uncertain about each inner opening, and how much.
    inner_uncertainties: Vec<(UncertainInput, Spread)>,
    /// Every gap's name and certainty, by leak; then those of the inner openings.
    pub(super) sized: Vec<Sized>,
    /// How many of them are gaps.
    gaps: usize,
    /// Flows of each leak at 4, 10 and 50 Pa, with sharp edges as they are, m³/s.
    flows: Vec<[f64; 3]>,
    /// Equivalent leakage area of the gaps found, m².
    pub(super) found_eqla: f64,
    /// The measurements that weigh the draws; none where nothing was measured. With any of them a
    /// factor common to all unintended leakage stands for what nobody found.
    pub(super) targets: Vec<Ready>,
    /// What they make of the flow of each gap.
    factors: Factors,
    /// Imbalance that may be left in a draw, as a share of the through-flow.
    pub(super) tolerance: f64,
}

/// A size that somebody took, or could take.
pub(super) struct Sized {
    pub(super) item: Item,
    pub(super) name: String,
    pub(super) certainty: Certainty,
    pub(super) form: Form,
}

/// Some of the draws, worked out.
#[derive(Clone, Debug, PartialEq)]
pub struct Chunk {
    pub(super) seed: u64,
    /// Rounds before its own.
    pub(super) round: u32,
    pub(super) draws: Range<u32>,
    /// One row for each draw.
    pub(super) rows: Answer<Vec<f64>>,
}

/// Columns of a row before those of the cases: ELA, EqLA, EqLA of the unintended gaps, flow at
/// 50 Pa.
pub(super) const LEAKAGE_COLUMNS: usize = 4;
/// Place of the EqLA of the unintended gaps among them.
const UNINTENDED: usize = 2;
/// Columns behind those of the cases, where measurements weigh, before what is predicted of each:
/// how much likelier the draw is than its round makes it, and the EqLA that nobody found.
pub(super) const WEIGHING_COLUMNS: usize = 2;
/// Draws from which the likely ones are taken where only few are wanted.
const CANDIDATES: u32 = 2_000;
/// Columns of each case: inflow as recorded, inflow at the set temperature, kg/s.
pub(super) const CASE_COLUMNS: usize = 2;

/// Pressures of ELA, EqLA and the flow at 50 Pa.
const PRESSURES: [f64; 3] = [leakage::LOW, leakage::MIDDLE, leakage::HIGH];

impl Trials {
    /// Makes a survey ready, `prepared` as surveyed, whatever was measured; `found` gives the model of what was found, which is used as it is
    /// where nothing is added for what was not.
    ///
    /// # Errors
    /// [`NotKnown`] where the air change itself is not.
    pub(crate) fn new(
        survey: &Survey,
        prepared: &Prepared,
        calibration: &Calibration,
        found: impl FnOnce() -> Answer<Arc<Model>>,
    ) -> Answer<Self> {
        let percent = survey.leakage_not_found_percent.filter(|p| *p > 0.0);
        // Measurements say what was not found.
        let percent = percent.filter(|_| !calibration.is_any());
        if let Some(percent) = survey.leakage_not_found_percent
            && !Field::NotFound.allows(percent)
        {
            return Err(NotKnown::because(format!(
                "leakage not found is {} %, which is not possible",
                given(percent)
            )));
        }
        let model = match percent {
            None => found()?,
            Some(_) => Arc::new(Model::new(survey, prepared, true)?),
        };
        let mut uncertainties = Vec::new();
        let mut unintended = Vec::new();
        let mut sized = Vec::new();
        for leak in model.leaks() {
            match leak.ledger {
                Some(at) => {
                    let gap = &survey.gaps[at];
                    uncertainties
                        .push((UncertainInput::Gap(gap.id), Spread::of_gap(gap.certainty)));
                    unintended.push(leave::counts_as_leak(survey, gap));
                    sized.push(Sized {
                        item: Item::Gap(gap.id),
                        name: gap.name.clone(),
                        certainty: gap.certainty,
                        form: gap.form.clone(),
                    });
                }
                None => {
                    uncertainties.push((
                        UncertainInput::NotFound,
                        Spread::of_common(UncertainInput::NotFound, model.underside),
                    ));
                    unintended.push(true);
                }
            }
        }
        let flows: Vec<[f64; 3]> = model
            .leaks()
            .iter()
            .map(|leak| {
                let curve = leak.placed.flow.at(&Gas::REFERENCE);
                PRESSURES.map(|pressure| curve.flow(pressure))
            })
            .collect();
        let gaps = sized.len();
        let found = flows.iter().take(gaps).map(|flow| flow[1]).sum();
        let inner = survey.inner_openings.iter();
        let mut inner_uncertainties = Vec::new();
        for opening in inner {
            let spread = Spread::of_gap(opening.certainty);
            inner_uncertainties.push((UncertainInput::InnerOpening(opening.id), spread));
            sized.push(Sized {
                item: Item::InnerOpening(opening.id),
                name: opening.name.clone(),
                certainty: opening.certainty,
                form: opening.form.clone(),
            });
        }
        Ok(Self {
            found_eqla: LeakageArea::Eqla10Pa.area(found),
            model,
            uncertainties,
            not_found: percent.map(|percent| percent / 100.0),
            unintended,
            inner_uncertainties,
            sized,
            gaps,
            flows,
            targets: (0..)
                .zip(&calibration.by)
                .map(|(at, one)| Ready::of(at, &one.target))
                .collect(),
            factors: calibration.factors().clone(),
            tolerance: TOLERANCE,
        })
    }

    /// Everything that is uncertain, in a fixed order: gaps first, then inner openings.
    pub(super) fn inputs(&self) -> Vec<(UncertainInput, Spread)> {
        let mut inputs: Vec<(UncertainInput, Spread)> = self.uncertainties[..self.gaps].to_vec();
        inputs.extend(&self.inner_uncertainties);
        let mut common = vec![
            UncertainInput::Surveyor,
            UncertainInput::Discharge,
            UncertainInput::WallPressure,
            UncertainInput::UnderfloorPressure,
            UncertainInput::Gusts,
            UncertainInput::Wind,
        ];
        if self.uncertainties.len() > self.gaps || self.is_weighed() {
            common.push(UncertainInput::NotFound);
        }
        inputs.extend(
            common
                .into_iter()
                .map(|uncertainty| (uncertainty, self.spread(uncertainty)))
                .filter(|(_, spread)| spread.varies()),
        );
        inputs
    }

    /// Whether measurements weigh the draws.
    pub(super) fn is_weighed(&self) -> bool {
        !self.targets.is_empty()
    }

    pub(super) fn columns(&self) -> usize {
        let own = LEAKAGE_COLUMNS + CASE_COLUMNS * self.model.cases.len();
        if self.is_weighed() {
            own + WEIGHING_COLUMNS + self.targets.len()
        } else {
            own
        }
    }

    /// Works out some of the draws; `draws` counts from 0. Pieces may be worked out in any order
    /// and on any thread.
    #[must_use]
    pub fn draw_chunk(&self, seed: u64, draws: Range<u32>) -> Chunk {
        self.draw_in_round(seed, draws, &Round::default())
    }

    /// The same in a round.
    #[must_use]
    pub fn draw_in_round(&self, seed: u64, draws: Range<u32>, round: &Round) -> Chunk {
        let mut bench = self.model.workbench();
        let mut rooms = self.rooms();
        let mut varied = self.model.as_surveyed(self.tolerance);
        let room = draws.len() * self.columns();
        let rows = draws
            .clone()
            .try_fold(Vec::with_capacity(room), |mut rows, number| {
                let drawn = round.draw(seed, number);
                self.draw(&drawn, &mut varied, (&mut bench, &mut rooms), &mut rows)?;
                Ok(rows)
            });
        Chunk {
            seed,
            round: round.number(),
            draws,
            rows,
        }
    }

    /// The draws that stand for those asked for: the same, or where measurements weigh as many of
    /// the likely ones.
    fn likely(&self, seed: u64, draws: Range<u32>) -> Answer<Vec<u32>> {
        if !self.is_weighed() {
            return Ok(draws.collect());
        }
        let round = Round::default();
        let numbers: Vec<u32> = (0..CANDIDATES.max(draws.end)).collect();
        let mut rooms = self.rooms();
        let mut logarithms = Vec::with_capacity(numbers.len());
        for number in &numbers {
            let drawn = round.draw(seed, *number);
            let common = self.common(&drawn);
            let mut sum = 0.0;
            for (target, room) in self.targets.iter().zip(&mut rooms) {
                sum += target.ln_likelihood(target.predicted(&drawn, &common, room)?);
            }
            logarithms.push(sum);
        }
        let places = resampled(&weights(&logarithms), draws.len());
        Ok(places.into_iter().map(|at| numbers[at]).collect())
    }

    fn rooms(&self) -> Vec<Room> {
        self.targets.iter().map(Ready::room).collect()
    }

    fn common(&self, drawn: &Drawn<'_>) -> Common {
        let of = |input| drawn.of(input, self.spread(input));
        Common {
            surveyor: of(UncertainInput::Surveyor),
            found: if self.is_weighed() {
                of(UncertainInput::NotFound)
            } else {
                1.0
            },
            discharge: of(UncertainInput::Discharge),
        }
    }

    /// How many times as much outside air comes in in each draw as in the vehicle as surveyed, or as
    /// measurements make it, by
    /// the wind of each weather case, m/s at the roof's height, in rising order.
    ///
    /// # Errors
    /// [`NotKnown`] where a balance has no finite solution.
    pub(crate) fn air_factors(&self, seed: u64, draws: Range<u32>) -> Answer<Vec<Vec<(f64, f64)>>> {
        let mut bench = self.model.workbench();
        let mut varied = self.model.as_surveyed(self.tolerance);
        let recorded = |bench: &Workbench| -> Vec<f64> {
            let inflows = bench.inflows.iter();
            inflows.map(|inflow| inflow.recorded).collect()
        };
        for (factor, (input, _)) in varied.factors.iter_mut().zip(&self.uncertainties) {
            if let UncertainInput::Gap(gap) = input {
                *factor = self.factors.of_gap(*gap);
            }
        }
        self.model.evaluate(&mut bench, &varied, Want::Recorded)?;
        let surveyed = recorded(&bench);
        let round = Round::default();
        let draws = self.likely(seed, draws)?.into_iter();
        draws
            .map(|number| {
                self.vary(&round.draw(seed, number), &mut varied);
                self.model.evaluate(&mut bench, &varied, Want::Recorded)?;
                let cases = self.model.cases.iter().zip(recorded(&bench));
                let mut factors: Vec<(f64, f64)> = cases
                    .zip(&surveyed)
                    .filter(|(_, surveyed)| **surveyed > 0.0)
                    .map(|((case, inflow), surveyed)| (case.wind(), inflow / surveyed))
                    .collect();
                factors.sort_by(|one, other| one.0.total_cmp(&other.0));
                Ok(factors)
            })
            .collect()
    }

    /// Draws all that is uncertain.
    fn vary(&self, drawn: &Drawn<'_>, varied: &mut Varied) -> Common {
        let common = |uncertainty: UncertainInput| drawn.of(uncertainty, self.spread(uncertainty));
        let all = self.common(drawn);
        let surveyor = all.surveyor;
        let leaks = self.uncertainties.iter().zip(&self.unintended);
        for (factor, ((uncertainty, spread), unintended)) in varied.factors.iter_mut().zip(leaks) {
            let own = drawn.of(*uncertainty, *spread);
            let found = if *unintended { all.found } else { 1.0 };
            *factor = surveyor
                * found
                * match (uncertainty, self.not_found) {
                    (UncertainInput::NotFound, Some(share)) => share * own,
                    _ => own,
                };
        }
        let inner = varied
            .inner_factors
            .iter_mut()
            .zip(&self.inner_uncertainties);
        for (factor, (uncertainty, spread)) in inner {
            *factor = surveyor * drawn.of(*uncertainty, *spread);
        }
        varied.discharge = all.discharge;
        varied.walls = common(UncertainInput::WallPressure);
        let underfloor = common(UncertainInput::UnderfloorPressure);
        match self.model.underside {
            Underside::ClosedOneSide => varied.underfloor_shift = underfloor,
            Underside::Open | Underside::SkirtedLeaking | Underside::SkirtedTight => {
                varied.underfloor = underfloor;
            }
        }
        varied.gusts = common(UncertainInput::Gusts);
        varied.wind = common(UncertainInput::Wind);
        all
    }

    fn draw(
        &self,
        drawn: &Drawn<'_>,
        varied: &mut Varied,
        (bench, rooms): (&mut Workbench, &mut [Room]),
        rows: &mut Vec<f64>,
    ) -> Answer<()> {
        let common = self.vary(drawn, varied);
        let leakage = self.leakage(varied);
        rows.extend(leakage);
        self.model.evaluate(bench, varied, Want::Both)?;
        for inflow in &bench.inflows {
            rows.extend([inflow.recorded, inflow.at_set_temperature]);
        }
        if self.is_weighed() {
            let unintended = leakage[UNINTENDED];
            let not_found = unintended - unintended / common.found;
            rows.extend([drawn.ln_prior_over_round(), not_found]);
            for (target, room) in self.targets.iter().zip(rooms) {
                rows.push(target.predicted(drawn, &common, room)?);
            }
        }
        Ok(())
    }

    /// How anything but a single size is spread.
    fn spread(&self, uncertainty: UncertainInput) -> Spread {
        match uncertainty {
            UncertainInput::NotFound if self.is_weighed() => Spread::COMMON,
            _ => Spread::of_common(uncertainty, self.model.underside),
        }
    }

    /// ELA, EqLA, EqLA of the unintended gaps, flow at 50 Pa.
    fn leakage(&self, varied: &Varied) -> [f64; LEAKAGE_COLUMNS] {
        let (mut sums, mut unintended) = ([0.0; 3], 0.0);
        for (at, leak) in self.model.leaks().iter().enumerate() {
            let flows = match leak.placed.flow.law() {
                FlowLaw::Power { .. } if leak.placed.flow.behind_area().is_none() => self.flows[at],
                // All its edges are sharp.
                FlowLaw::Opening { .. } => self.flows[at].map(|flow| flow * varied.discharge),
                _ => {
                    let curve = leak
                        .placed
                        .flow
                        .at_discharge(&Gas::REFERENCE, varied.discharge);
                    PRESSURES.map(|pressure| curve.flow(pressure))
                }
            };
            let factor = varied.factors[at];
            for (sum, flow) in sums.iter_mut().zip(flows) {
                *sum += factor * flow;
            }
            if self.unintended[at] {
                unintended += factor * flows[1];
            }
        }
        [
            LeakageArea::Ela4Pa.area(sums[0]),
            LeakageArea::Eqla10Pa.area(sums[1]),
            LeakageArea::Eqla10Pa.area(unintended),
            sums[2],
        ]
    }
}
