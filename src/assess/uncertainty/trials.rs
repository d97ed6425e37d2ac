//! The draws: everything that is uncertain drawn, the vehicle worked out again.
#![expect(
    clippy::indexing_slicing,
    reason = "parallel lists built together; a missing number must never turn into a silent default"
)]

use super::input::{Spread, UncertainInput};
use super::random::Draw;
use crate::assess::answer::{Answer, NotKnown};
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
    pub(super) draws: Range<u32>,
    /// One row for each draw.
    pub(super) rows: Answer<Vec<f64>>,
}

/// Columns of a row before those of the cases: ELA, EqLA, EqLA of the unintended gaps, flow at
/// 50 Pa.
pub(super) const LEAKAGE_COLUMNS: usize = 4;
/// Columns of each case: inflow as recorded, inflow at the set temperature, kg/s.
pub(super) const CASE_COLUMNS: usize = 2;

/// Pressures of ELA, EqLA and the flow at 50 Pa.
const PRESSURES: [f64; 3] = [leakage::LOW, leakage::MIDDLE, leakage::HIGH];

impl Trials {
    /// Makes a survey ready; `found` gives the model of what was found, which is used as it is
    /// where nothing is added for what was not.
    ///
    /// # Errors
    /// [`NotKnown`] where the air change itself is not.
    pub(crate) fn new(
        survey: &Survey,
        prepared: &Prepared,
        found: impl FnOnce() -> Answer<Arc<Model>>,
    ) -> Answer<Self> {
        let percent = survey.leakage_not_found_percent.filter(|p| *p > 0.0);
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
        if self.uncertainties.len() > self.gaps {
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

    pub(super) fn columns(&self) -> usize {
        LEAKAGE_COLUMNS + CASE_COLUMNS * self.model.cases.len()
    }

    /// Works out some of the draws; `draws` counts from 0. Pieces may be worked out in any order
    /// and on any thread.
    #[must_use]
    pub fn draw_chunk(&self, seed: u64, draws: Range<u32>) -> Chunk {
        let mut bench = self.model.workbench();
        let mut varied = self.model.as_surveyed(TOLERANCE);
        let room = draws.len() * self.columns();
        let rows = draws
            .clone()
            .try_fold(Vec::with_capacity(room), |mut rows, number| {
                self.draw(Draw::new(seed, number), &mut varied, &mut bench, &mut rows)?;
                Ok(rows)
            });
        Chunk { seed, draws, rows }
    }

    /// How many times as much outside air comes in in each draw as in the vehicle as surveyed, by
    /// the wind of each weather case, m/s at the roof's height, in rising order.
    ///
    /// # Errors
    /// [`NotKnown`] where a balance has no finite solution.
    pub(crate) fn air_factors(&self, seed: u64, draws: Range<u32>) -> Answer<Vec<Vec<(f64, f64)>>> {
        let mut bench = self.model.workbench();
        let mut varied = self.model.as_surveyed(TOLERANCE);
        let recorded = |bench: &Workbench| -> Vec<f64> {
            let inflows = bench.inflows.iter();
            inflows.map(|inflow| inflow.recorded).collect()
        };
        self.model.evaluate(&mut bench, &varied, Want::Recorded)?;
        let surveyed = recorded(&bench);
        draws
            .map(|number| {
                self.vary(Draw::new(seed, number), &mut varied);
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
    fn vary(&self, draw: Draw, varied: &mut Varied) {
        let common = |uncertainty: UncertainInput| self.spread(uncertainty).draw(draw, uncertainty);
        let surveyor = common(UncertainInput::Surveyor);
        for (factor, (uncertainty, spread)) in varied.factors.iter_mut().zip(&self.uncertainties) {
            let own = spread.draw(draw, *uncertainty);
            *factor = surveyor
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
            *factor = surveyor * spread.draw(draw, *uncertainty);
        }
        varied.discharge = common(UncertainInput::Discharge);
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
    }

    fn draw(
        &self,
        draw: Draw,
        varied: &mut Varied,
        bench: &mut Workbench,
        rows: &mut Vec<f64>,
    ) -> Answer<()> {
        self.vary(draw, varied);
        rows.extend(self.leakage(varied));
        self.model.evaluate(bench, varied, Want::Both)?;
        for inflow in &bench.inflows {
            rows.extend([inflow.recorded, inflow.at_set_temperature]);
        }
        Ok(())
    }

    /// How anything but a single size is spread.
    fn spread(&self, uncertainty: UncertainInput) -> Spread {
        Spread::of_common(uncertainty, self.model.underside)
    }

    /// ELA, EqLA, EqLA of the unintended gaps, flow at 50 Pa.
    fn leakage(&self, varied: &Varied) -> [f64; LEAKAGE_COLUMNS] {
        let (mut sums, mut unintended) = ([0.0; 3], 0.0);
        for (at, leak) in self.model.leaks().iter().enumerate() {
            let flows = match leak.placed.flow.law() {
                FlowLaw::Power { .. } if leak.placed.flow.behind_area().is_none() => self.flows[at],
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
