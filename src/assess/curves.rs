//! Curves over a range of weather.

use super::answer::{Answer, DirectionAnswer, NotKnown};
use super::envelope::mean;
use super::possible::possible;
use super::prepared::Prepared;
use super::weather::{air_states, same_water};
use crate::physics::units::SECONDS_PER_HOUR;
use crate::physics::wind::speed_at_body;
use crate::survey::{Facing, Field, Survey, WeatherCase, WeatherId};

/// Highest wind of the curve, m/s at the weather station.
const HIGHEST_WIND: u32 = 12;

/// ACH against wind speed, with the air states of the first weather case.
#[derive(Clone, Debug, PartialEq)]
pub struct WindCurve {
    /// Outside temperature, °C.
    pub outside_c: f64,
    /// Inside temperature, °C.
    pub inside_c: f64,
    /// One point for each whole m/s.
    pub points: Vec<WindPoint>,
}

/// One wind speed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WindPoint {
    /// At the weather station, m/s.
    pub wind_m_s: f64,
    /// ACH in the direction with the least, per hour.
    pub lowest_per_h: f64,
    /// Mean over all directions.
    pub mean_per_h: f64,
    /// In the direction with the most.
    pub highest_per_h: f64,
}

/// Works out the curve: a whole air balance for each wind speed and each of sixteen directions.
///
/// ```text
/// ACH = 3600 m/(ρ_i V)
/// ```
/// where m is the outside air coming in, kg/s, ρ_i the density of the inside air, kg/m³, and V
/// the gross volume, m³. The wind is brought from the weather station to the height of the roof
/// by the terrain ([`speed_at_body`], BS 5925 **\[R\]**) and is never below 0.5 m/s there **\[A\]**.
/// Temperatures are those of the first weather case, so that the curve shows the wind alone.
///
/// # Errors
/// [`NotKnown`] where the air change itself is not, or there is no weather case.
pub(super) fn ach_against_wind(survey: &Survey, prepared: &Prepared) -> Answer<WindCurve> {
    let case = survey
        .weather
        .first()
        .ok_or_else(|| NotKnown::because("there is no weather case"))?;
    let envelope = prepared.envelope.as_ref().map_err(Clone::clone)?;
    let volume = prepared.volume_m3.clone()?;
    let (outside, inside) = air_states(survey, case)?;
    let in_air = envelope.at(&outside, &inside);
    let per_h = SECONDS_PER_HOUR / (in_air.density_in() * volume);
    let point = |wind_m_s: f64| {
        let wind = speed_at_body(survey.site.terrain, wind_m_s, envelope.roof());
        let inflows = in_air.inflows(wind)?;
        Ok(WindPoint {
            wind_m_s,
            lowest_per_h: inflows.iter().copied().fold(f64::INFINITY, f64::min) * per_h,
            mean_per_h: mean(&inflows) * per_h,
            highest_per_h: inflows.iter().copied().fold(0.0, f64::max) * per_h,
        })
    };
    let points: Answer<Vec<WindPoint>> = (0..=HIGHEST_WIND)
        .map(|speed| point(f64::from(speed)))
        .collect();
    Ok(WindCurve {
        outside_c: outside.t_c,
        inside_c: inside.t_c,
        points: points?,
    })
}

/// Temperature differences of the curve, K warmer inside than outside.
const DIFFERENCES: [f64; 9] = [0.0, 2.5, 5.0, 7.5, 10.0, 15.0, 20.0, 25.0, 30.0];

/// ACH against the temperature difference in one weather case's wind.
#[derive(Clone, Debug, PartialEq)]
pub struct TemperatureCurve {
    /// The weather case.
    pub id: WeatherId,
    /// Its name.
    pub name: String,
    /// Outside temperature, °C.
    pub outside_c: f64,
    /// Kelvin warmer inside, and mean ACH over the directions at the inside air's density.
    pub points: Vec<(f64, f64)>,
}

/// Works out one curve for each weather case: the case's own wind and outside air, and the inside
/// warmer by 0 to 30 K with the water of the outside air.
///
/// The air change is the mean over sixteen directions, `3600 m/(ρ_i V)` as in
/// [`ach_against_wind`], with ρ_i at each inside temperature.
///
/// # Errors
/// [`NotKnown`] where the air change itself is not.
pub(super) fn ach_against_temperature(
    survey: &Survey,
    prepared: &Prepared,
) -> Answer<Vec<TemperatureCurve>> {
    let envelope = prepared.envelope.as_ref().map_err(Clone::clone)?;
    let volume = prepared.volume_m3.clone()?;
    let curve = |case: &WeatherCase| {
        possible(Field::Wind, Some(case.wind_m_s))?;
        let (outside, _) = air_states(survey, case)?;
        let wind = speed_at_body(survey.site.terrain, case.wind_m_s, envelope.roof());
        let point = |kelvin: f64| {
            let inside = same_water(&outside, outside.t_c + kelvin)?;
            let (inflow, density) = envelope.mean_inflow((&outside, &inside), wind)?;
            Ok((kelvin, inflow * SECONDS_PER_HOUR / (density * volume)))
        };
        let points: Answer<Vec<(f64, f64)>> = DIFFERENCES.into_iter().map(point).collect();
        Ok(TemperatureCurve {
            id: case.id,
            name: case.name.clone(),
            outside_c: outside.t_c,
            points: points?,
        })
    };
    survey.weather.iter().map(curve).collect()
}

/// Air in and out through all gaps of one face, kg/s.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FaceTotal {
    /// The face, or the cavity.
    pub facing: Facing,
    /// Outside air coming in.
    pub in_kg_s: f64,
    /// Inside air going out.
    pub out_kg_s: f64,
}

/// Sums of the flows in and out by face in one wind direction, kg/s. Only faces that have gaps in
/// the balance, in the order they are offered. Air may enter and leave through one gap, so in and
/// out are not set off against each other.
#[must_use]
pub fn face_totals(survey: &Survey, direction: &DirectionAnswer) -> Vec<FaceTotal> {
    let of = |facing: Facing| {
        let gaps = survey.gaps.iter().zip(&direction.flows);
        let flows = gaps
            .filter(|(gap, _)| gap.facing == facing)
            .filter_map(|(_, flow)| *flow);
        flows.fold(None, |total: Option<FaceTotal>, flow| {
            let (in_kg_s, out_kg_s) = total.map_or((0.0, 0.0), |sum| (sum.in_kg_s, sum.out_kg_s));
            Some(FaceTotal {
                facing,
                in_kg_s: in_kg_s + flow.in_kg_s,
                out_kg_s: out_kg_s + flow.out_kg_s,
            })
        })
    };
    Facing::ALL.into_iter().filter_map(of).collect()
}
