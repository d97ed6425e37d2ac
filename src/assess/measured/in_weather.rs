//! The air change that the survey leads one to expect of a test in its own weather.

use super::predicted::in_state;
use crate::assess::answer::{Answer, NotKnown};
use crate::assess::factors::Factors;
use crate::assess::model::{Model, Varied, Want};
use crate::assess::prepared::Prepared;
use crate::assess::spread::{SURVEYOR, sigma_of_size, sigma_within};
use crate::assess::uncertainty::{Spread, UncertainInput};
use crate::physics::pressure_coefficient::Underside;
use crate::physics::wind::speed_at;
use crate::survey::{
    AirTest, Certainty, GapId, InnerOpeningId, InsideAir, Survey, WeatherCase, WeatherId, leave,
};
use std::fmt;
use std::sync::Arc;

/// Relative humidity outside where none was read, %: it changes the density of the air by less than
/// one percent here **\[A\]**.
const ANY_RH_PERCENT: f64 = 50.0;

/// A leak in the state of a test.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Leaking {
    pub(crate) gap: GapId,
    pub(crate) certainty: Certainty,
    pub(crate) unintended: bool,
}

/// The vehicle in the state and the weather of a test, ready to be worked out with other factors.
pub(crate) struct InWeather {
    pub(crate) model: Arc<Model>,
    /// One for each leak of it.
    pub(crate) leaks: Vec<Leaking>,
    /// One for each opening between spaces.
    pub(crate) inner: Vec<(InnerOpeningId, Certainty)>,
}

/// What is expected of a test.
#[derive(Clone, Debug)]
pub struct ExpectedAir {
    /// Outside air that comes in, kg/s, mean of all wind directions.
    pub inflow_kg_s: f64,
    /// Air changes per hour.
    pub ach_per_h: Answer<f64>,
    /// Standard deviation of its logarithm, without any allowance for what nobody found.
    pub sigma: f64,
    /// By how much its logarithm changes with that of the flow of each gap.
    pub(crate) parts: Vec<(GapId, f64)>,
    /// By how much it changes with one standard deviation of each input that is no gap's size.
    pub(crate) besides: Vec<(UncertainInput, f64)>,
    pub(crate) state: Arc<InWeather>,
}

impl ExpectedAir {
    /// Works it out. The wind at the vehicle is the test's own; nobody knows how it turned, so that
    /// all directions count alike, as everywhere.
    ///
    /// # Errors
    /// [`NotKnown`] where the weather of the test or the air change itself is not known.
    pub(super) fn of(survey: &Survey, test: &AirTest) -> Answer<Self> {
        let given = |value: Option<f64>, what: &str| {
            value.ok_or_else(|| NotKnown::because(format!("{what} during the test is not given")))
        };
        let inside_c = given(test.inside_c, "the temperature inside")?;
        let outside_c = given(test.outside_c, "the temperature outside")?;
        let wind = given(test.wind_m_s, "the wind")?;
        let mut stood = in_state(survey, test.tested, &test.date);
        stood.set_up = test.set_up;
        let roof = Prepared::new(&stood, &Factors::default()).envelope?.roof();
        stood.weather = vec![WeatherCase {
            id: WeatherId(1),
            name: String::new(),
            wind_m_s: wind / speed_at(stood.site.terrain, 1.0, roof),
            outside_c,
            outside_rh_percent: test.outside_rh_percent.unwrap_or(ANY_RH_PERCENT),
            inside: InsideAir::HeldAt {
                temperature_c: inside_c,
            },
            inside_rh_percent: test.inside_rh_percent,
            weight: 1.0,
        }];
        let prepared = Prepared::new(&stood, &Factors::default());
        let model = Arc::new(Model::new(&stood, &prepared, false)?);
        let leaks = model.leaks().iter().filter_map(|leak| {
            let gap = stood.gaps.get(leak.ledger?)?;
            Some(Leaking {
                gap: gap.id,
                certainty: gap.certainty,
                unintended: leave::counts_as_leak(&stood, gap),
            })
        });
        let state = InWeather {
            leaks: leaks.collect(),
            inner: stood
                .inner_openings
                .iter()
                .map(|one| (one.id, one.certainty))
                .collect(),
            model,
        };
        Self::in_weather(Arc::new(state))
    }

    fn in_weather(state: Arc<InWeather>) -> Answer<Self> {
        const FINE: f64 = 1e-9;
        let model = &state.model;
        let plain = model.as_surveyed(FINE);
        let inflow = state.inflow(&plain)?;
        if inflow <= 0.0 {
            return Err(NotKnown::because("nothing leaks by the survey"));
        }
        let mut bench = model.workbench();
        let slopes = model.inflow_slopes(&mut bench, &plain, Want::Recorded, &[(0, 1.0)])?;
        let leaks = state.leaks.iter().zip(slopes);
        let parts: Vec<(GapId, f64)> = leaks
            .map(|(leak, slope)| (leak.gap, slope / inflow))
            .collect();
        let besides = state.besides(&plain, inflow)?;
        let own =
            state.leaks.iter().zip(&parts).map(|(leak, (_, part))| {
                part * part * sigma_of_size(leak.certainty).powi(2).exp_m1()
            });
        let all: f64 = parts.iter().map(|(_, part)| part).sum();
        let variance = own.sum::<f64>().ln_1p()
            + (all * sigma_within(SURVEYOR)).powi(2)
            + besides.iter().map(|(_, by)| by * by).sum::<f64>();
        let ach_per_h = match model.cases.first() {
            Some(case) => model.ach_per_kg_s(case).map(|per| per * inflow),
            None => Err(NotKnown::because("there is no weather")),
        };
        Ok(Self {
            inflow_kg_s: inflow,
            ach_per_h,
            sigma: variance.sqrt(),
            parts,
            besides,
            state,
        })
    }
}

impl fmt::Debug for InWeather {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut told = out.debug_struct("InWeather");
        told.field("leaks", &self.leaks).finish_non_exhaustive()
    }
}

impl InWeather {
    /// Outside air that comes in with other factors, kg/s.
    fn inflow(&self, varied: &Varied) -> Answer<f64> {
        let mut bench = self.model.workbench();
        self.model.evaluate(&mut bench, varied, Want::Recorded)?;
        let inflow = bench.inflows.first().map(|inflow| inflow.recorded);
        inflow.ok_or_else(|| NotKnown::because("there is no weather"))
    }

    /// The change of its logarithm with one standard deviation of what is common to all gaps.
    fn besides(&self, plain: &Varied, inflow: f64) -> Answer<Vec<(UncertainInput, f64)>> {
        let shifted = self.model.underside == Underside::ClosedOneSide;
        let set = |varied: &mut Varied, input: UncertainInput, value: f64| match input {
            UncertainInput::Discharge => varied.discharge = value,
            UncertainInput::WallPressure => varied.walls = value,
            UncertainInput::UnderfloorPressure if shifted => varied.underfloor_shift = value,
            UncertainInput::UnderfloorPressure => varied.underfloor = value,
            UncertainInput::Gusts => varied.gusts = value,
            _ => varied.wind = value,
        };
        [
            UncertainInput::Discharge,
            UncertainInput::WallPressure,
            UncertainInput::UnderfloorPressure,
            UncertainInput::Gusts,
            UncertainInput::Wind,
        ]
        .into_iter()
        .map(|input| {
            let spread = Spread::of_common(input, self.model.underside);
            let at = |z: f64| {
                let mut varied = plain.clone();
                set(&mut varied, input, spread.at(z));
                self.inflow(&varied)
            };
            Ok((
                input,
                0.5 * ((at(1.0)? / inflow).ln() - (at(-1.0)? / inflow).ln()),
            ))
        })
        .collect()
    }
}
