//! The air that flows through in each hour of the season.

use super::hours::Outdoors;
use crate::assess::answer::Answer;
use crate::assess::envelope::Envelope;
use crate::assess::not_known::NotKnown;
use crate::assess::weather::same_water;
use crate::physics::moisture::dry_air_flow;
use crate::physics::winter::AirTable;

/// Dry air by hour and inside temperature, through an envelope in the season's wind.
///
/// ```text
/// m_da = m/(1 + W_o)
/// ```
/// where m is the outside air coming in from the balance in the hour's wind, from its direction
/// against the heading, kg/s; the mean over all directions where one of them is not known.
pub(super) fn air_table(envelope: Envelope, outdoors: &[Outdoors]) -> AirTable<NotKnown> {
    let hours: Vec<_> = outdoors
        .iter()
        .map(|hour| (hour.air, hour.wind, hour.from_front_deg))
        .collect();
    let outside_c = hours.iter().map(|(air, _, _)| air.t_c).collect();
    AirTable::new(outside_c, move |hour, inside_c| {
        let Some((outside, wind, from)) = hours.get(hour) else {
            return Err(NotKnown::because("there is no such hour"));
        };
        exact(&envelope, outside, (*wind, *from), inside_c)
    })
}

/// The same without a table, kg/s.
///
/// # Errors
/// [`NotKnown`] where the balance has no finite solution.
pub(super) fn exact(
    envelope: &Envelope,
    outside: &crate::physics::MoistAir,
    (wind, from_front_deg): (f64, Option<f64>),
    inside_c: f64,
) -> Answer<f64> {
    let inside = same_water(outside, inside_c.clamp(-59.0, 59.0))?;
    let in_air = envelope.at(outside, &inside);
    let inflow = match from_front_deg {
        Some(from_front_deg) => in_air.inflow_from(wind, from_front_deg)?,
        None => in_air.mean_inflow(wind)?,
    };
    Ok(dry_air_flow(inflow, outside.humidity_ratio))
}
