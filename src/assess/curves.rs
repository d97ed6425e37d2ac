//! Curves over a range of weather.

use super::answer::{Answer, NotKnown};
use super::envelope::{Envelope, mean};
use super::law::laws;
use super::weather::air_states;
use crate::physics::wind::speed_at_body;
use crate::survey::Survey;
use crate::survey::findings;

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

/// Works out the curve.
///
/// # Errors
/// [`NotKnown`] where the air change itself is not.
pub fn ach_against_wind(survey: &Survey) -> Answer<WindCurve> {
    let case = survey
        .weather
        .first()
        .ok_or_else(|| NotKnown::because("there is no weather case"))?;
    let findings = findings::find(survey);
    let envelope = Envelope::new(survey, &laws(survey, &findings))?;
    let volume = super::volume_m3(survey, &findings)?;
    let (outside, inside) = air_states(survey, case)?;
    let standing = envelope.at(&outside, &inside);
    let per_h = 3600.0 / (standing.density_in() * volume);
    let point = |wind_m_s: f64| {
        let wind = speed_at_body(survey.site.terrain, wind_m_s, envelope.roof());
        let inflows = standing.inflows(wind)?;
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
