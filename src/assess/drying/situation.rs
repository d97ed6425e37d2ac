//! One weather case: the vehicle's air flow at any inside temperature, and the balance in it.

use std::cell::RefCell;

use super::equipment::Sources;
use super::listed::WARMEST_C;
use crate::assess::answer::{Answer, NotKnown};
use crate::assess::envelope::Envelope;
use crate::assess::weather::same_water;
use crate::physics::MoistAir;
use crate::physics::coupled::{
    self, AirFlow, Clearing, ColdSurface, CoupledError, DryOut, Inside, Steady,
};
use crate::physics::machine::Machine;
use crate::physics::moisture::{dry_air_flow, required_removal};

/// An envelope in the weather of one case.
pub(crate) struct Situation<'a> {
    envelope: &'a Envelope,
    pub(crate) outside: MoistAir,
    /// Wind used at the roof's height, m/s.
    wind: f64,
    /// What water may condense on.
    cold: Vec<ColdSurface>,
    /// Dry air by inside temperature, as far as it has been worked out: the options ask for the
    /// same temperatures, and each answer is sixteen air balances.
    known: RefCell<Vec<(f64, f64)>>,
}

/// What is in the vehicle.
#[derive(Clone, Copy, Default)]
pub(crate) struct Fitted<'a> {
    pub(crate) machine: Option<&'a Machine>,
    pub(crate) hygrostat: Option<f64>,
    pub(crate) heater: Option<coupled::Heater>,
}

impl<'a> Situation<'a> {
    pub(crate) fn new(envelope: &'a Envelope, outside: MoistAir, wind: f64) -> Self {
        Self {
            envelope,
            outside,
            wind,
            cold: Vec::new(),
            known: RefCell::new(Vec::new()),
        }
    }

    /// The same with surfaces on which water may condense.
    pub(crate) fn with_surfaces(self, cold: Vec<ColdSurface>) -> Self {
        Self { cold, ..self }
    }

    /// The surfaces on which water may condense.
    pub(crate) fn surfaces(&self) -> &[ColdSurface] {
        &self.cold
    }

    /// Dry air that flows through with the inside at a temperature, kg/s, mean over all
    /// directions.
    ///
    /// ```text
    /// m_da = m/(1 + W_o)
    /// ```
    /// where m is the outside air coming in, kg/s, from the air balance with the inside at that
    /// temperature and the outside's water, and W_o the humidity ratio outside. What the inside's
    /// own humidity changes in its density is left out **\[A\]**.
    ///
    /// # Errors
    /// [`NotKnown`] where a balance has no finite solution.
    pub(crate) fn dry_air(&self, inside_c: f64) -> Answer<f64> {
        let found = self
            .known
            .borrow()
            .iter()
            .find(|(t_c, _)| t_c.total_cmp(&inside_c).is_eq())
            .map(|(_, flow)| *flow);
        if let Some(flow) = found {
            return Ok(flow);
        }
        let flow = self.dry_air_through(self.envelope, inside_c)?;
        self.known.borrow_mut().push((inside_c, flow));
        Ok(flow)
    }

    /// The same through another envelope in the same weather.
    ///
    /// # Errors
    /// [`NotKnown`] where a balance has no finite solution.
    pub(crate) fn dry_air_through(&self, envelope: &Envelope, inside_c: f64) -> Answer<f64> {
        let inside = same_water(&self.outside, inside_c)?;
        let (inflow, _) = envelope.mean_inflow((&self.outside, &inside), self.wind)?;
        Ok(dry_air_flow(inflow, self.outside.humidity_ratio))
    }

    fn inside<'b>(&'b self, fabric: f64, sources: &Sources, fitted: &Fitted<'b>) -> Inside<'b> {
        Inside {
            outside: self.outside,
            fabric,
            vapour_source: sources.vapour,
            liquid_source: sources.liquid,
            gains: sources.gains,
            heater: fitted.heater,
            machine: fitted.machine,
            hygrostat: fitted.hygrostat,
            surfaces: &self.cold,
        }
    }

    /// The steady state of heat and water together ([`coupled::solve`]), with the air flow that
    /// belongs to its temperature. `fabric` is ΣUA, W/K.
    ///
    /// # Errors
    /// [`NotKnown`] where there is none.
    pub(crate) fn steady(
        &self,
        fabric: f64,
        sources: &Sources,
        fitted: &Fitted<'_>,
    ) -> Answer<Steady> {
        let inside = self.inside(fabric, sources, fitted);
        coupled::solve(&inside, |t_c| self.dry_air(t_c)).map_err(not_known)
    }

    /// What clears a surface in a steady state, each by itself ([`coupled::clearing`]); the
    /// vehicle is ΣUA, W/K, the sources and what is in it.
    ///
    /// # Errors
    /// [`NotKnown`] where an air flow is not known.
    pub(crate) fn clearing(
        &self,
        (fabric, sources, fitted): (f64, &Sources, &Fitted<'_>),
        steady: &Steady,
        at_limit: (&ColdSurface, f64),
    ) -> Answer<Clearing> {
        let inside = self.inside(fabric, sources, fitted);
        let flow = AirFlow {
            exact: |t_c| self.dry_air(t_c),
            near: |t_c| self.nearly(t_c),
        };
        coupled::clearing(&inside, steady, at_limit, WARMEST_C, &flow).map_err(not_known)
    }

    /// The dry air between the two temperatures next to this one at which it is known, kg/s, by a
    /// straight line, and how far apart they are, K.
    fn nearly(&self, inside_c: f64) -> Option<(f64, f64)> {
        let known = self.known.borrow();
        let below = known.iter().filter(|(t_c, _)| *t_c <= inside_c);
        let above = known.iter().filter(|(t_c, _)| *t_c >= inside_c);
        let (cold_c, cold) = *below.max_by(|one, other| one.0.total_cmp(&other.0))?;
        let (warm_c, warm) = *above.min_by(|one, other| one.0.total_cmp(&other.0))?;
        let apart = warm_c - cold_c;
        let share = if apart > 0.0 {
            (inside_c - cold_c) / apart
        } else {
            0.0
        };
        Some((cold + share * (warm - cold), apart))
    }

    /// The inside air at a temperature with nothing but the sources and the surfaces in it
    /// ([`coupled::air_without_machine`]); `flow` is the dry air that flows through, kg/s.
    ///
    /// # Errors
    /// [`NotKnown`] where the state cannot be.
    pub(crate) fn alone(&self, sources: &Sources, t_c: f64, flow: f64) -> Answer<MoistAir> {
        let nothing = self.inside(0.0, sources, &Fitted::default());
        Ok(coupled::air_without_machine(&nothing, t_c, flow)?)
    }

    /// What can be taken from damp contents at a relative humidity: the state held there, and the
    /// water that then has to come from the contents ([`coupled::dry_out`]).
    ///
    /// # Errors
    /// [`NotKnown`] where there is no steady state.
    pub(crate) fn dry_out(
        &self,
        fabric: f64,
        sources: &Sources,
        fitted: &Fitted<'_>,
        rh: f64,
    ) -> Answer<DryOut> {
        let inside = self.inside(fabric, sources, fitted);
        coupled::dry_out(&inside, rh, |t_c| self.dry_air(t_c)).map_err(not_known)
    }

    /// Water to remove to hold a relative humidity with the inside at a temperature, kg/s.
    ///
    /// ```text
    /// D = S + m_da (W_o − W_t)
    /// ```
    /// where S is the water given off inside, kg/s, m_da the dry air at that temperature, and W_o
    /// and W_t the humidity ratios outside and of the state to hold ([`required_removal`]).
    ///
    /// # Errors
    /// [`NotKnown`] where the air flow is not, or the state cannot be.
    pub(crate) fn load(&self, inside_c: f64, rh: f64, source: f64) -> Answer<f64> {
        let target = state(inside_c, rh, self.outside.pressure)?.humidity_ratio;
        let flow = self.dry_air(inside_c)?;
        Ok(required_removal(
            source,
            flow,
            self.outside.humidity_ratio,
            target,
        ))
    }
}

fn not_known(error: CoupledError<NotKnown>) -> NotKnown {
    match error {
        CoupledError::Flow(unknown) => unknown,
        other => NotKnown::because(other.to_string()),
    }
}

/// A state of air.
///
/// # Errors
/// [`NotKnown`] where it cannot be.
pub(crate) fn state(t_c: f64, rh: f64, pressure: f64) -> Answer<MoistAir> {
    Ok(MoistAir::from_relative_humidity(t_c, rh, pressure)?)
}
