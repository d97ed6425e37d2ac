//! The air that flows through in each hour of the season.

use super::hours::Outdoors;
use crate::assess::answer::Answer;
use crate::assess::envelope::Envelope;
use crate::assess::not_known::NotKnown;
use crate::assess::weather::same_water;
use crate::physics::MoistAir;
use crate::physics::moisture::dry_air_flow;
use crate::physics::winter::{AirTable, HourInWork};
use std::sync::OnceLock;

/// What of an hour the air answers to.
struct AirHour {
    outside: MoistAir,
    wind: f64,
    from_front_deg: Option<f64>,
    /// Pressure coefficients in its wind, one for each gap.
    coefficients: OnceLock<Vec<f64>>,
}

/// Dry air by hour and inside temperature, through an envelope in the season's wind.
///
/// ```text
/// m_da = m/(1 + W_o)
/// ```
/// where m is the outside air coming in from the balance in the hour's wind, from its direction
/// against the heading, kg/s; the mean over all directions where one of them is not known.
pub(super) fn air_table(envelope: Envelope, outdoors: &[Outdoors]) -> AirTable<NotKnown> {
    let hours: Vec<AirHour> = outdoors
        .iter()
        .map(|hour| AirHour {
            outside: hour.air,
            wind: hour.wind,
            from_front_deg: hour.from_front_deg,
            coefficients: OnceLock::new(),
        })
        .collect();
    let outside_c = hours.iter().map(|hour| hour.outside.t_c).collect();
    AirTable::new(outside_c, move |hour, inside_c, in_work| {
        let Some(hour) = hours.get(hour) else {
            return Err(NotKnown::because("there is no such hour"));
        };
        hour.flow(&envelope, inside_c, in_work)
    })
}

impl AirHour {
    fn flow(&self, envelope: &Envelope, inside_c: f64, in_work: &mut HourInWork) -> Answer<f64> {
        let outside = &self.outside;
        let inside = same_water(outside, inside_c.clamp(-59.0, 59.0))?;
        let in_air = match in_work.network.take() {
            Some(network) => envelope.refilled(network, &inside),
            None => envelope.at(outside, &inside),
        };
        let inflow = match self.from_front_deg {
            Some(from) => {
                let coefficients = self
                    .coefficients
                    .get_or_init(|| envelope.coefficients_from(from));
                in_air.inflow_with(self.wind, coefficients, &mut in_work.workspace)?
            }
            None => in_air.mean_inflow(self.wind)?,
        };
        in_work.network = Some(in_air.into_network());
        Ok(dry_air_flow(inflow, outside.humidity_ratio))
    }
}

/// The same without a table, kg/s.
///
/// # Errors
/// [`NotKnown`] where the balance has no finite solution.
#[cfg(test)]
pub(super) fn exact(
    envelope: &Envelope,
    outside: &MoistAir,
    (wind, from_front_deg): (f64, Option<f64>),
    inside_c: f64,
) -> Answer<f64> {
    let hour = AirHour {
        outside: *outside,
        wind,
        from_front_deg,
        coefficients: OnceLock::new(),
    };
    hour.flow(envelope, inside_c, &mut HourInWork::default())
}
