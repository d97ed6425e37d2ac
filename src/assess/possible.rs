//! Numbers of the survey that results are worked out with, unless they are not possible.

use super::answer::{Answer, NotKnown};
use crate::physics::air::pressure_at_altitude;
use crate::survey::{Field, Survey, WeatherCase};

/// A number of a field, where one is given.
///
/// # Errors
/// [`NotKnown`] with the sentence of the finding where the field cannot hold it.
pub(crate) fn possible(field: Field, value: Option<f64>) -> Answer<Option<f64>> {
    match value.and_then(|value| field.impossible(value)) {
        Some(sentence) => Err(NotKnown::because(sentence)),
        None => Ok(value),
    }
}

/// The air's pressure where the vehicle stands, Pa, by its altitude.
///
/// # Errors
/// [`NotKnown`] where the altitude is not possible.
pub(crate) fn site_pressure(survey: &Survey) -> Answer<f64> {
    let altitude = survey.site.altitude_m;
    possible(Field::Altitude, Some(altitude))?;
    Ok(pressure_at_altitude(altitude))
}

/// A size of the vehicle, m.
///
/// # Errors
/// [`NotKnown`] where it is not given, or not possible.
pub(crate) fn size_of_vehicle(field: Field, size: Option<f64>, what: &str) -> Answer<f64> {
    possible(field, size)?
        .ok_or_else(|| NotKnown::because(format!("the {what} of the vehicle is not given")))
}

/// Heights above ground of roof and floor, m.
///
/// # Errors
/// [`NotKnown`] where one is not given or not possible, or the roof is not above the floor.
pub(crate) fn roof_and_floor(survey: &Survey) -> Answer<(f64, f64)> {
    let vehicle = &survey.vehicle;
    let roof = size_of_vehicle(Field::RoofHeight, vehicle.height_m, "height above ground")?;
    let floor = size_of_vehicle(Field::FloorHeight, vehicle.floor_height_m, "floor height")?;
    if roof <= floor {
        let why = "the roof of the vehicle is not above its floor";
        return Err(NotKnown::because(why));
    }
    Ok((roof, floor))
}

/// Outside length and width, m.
///
/// # Errors
/// [`NotKnown`] where one is not given or not possible.
pub(crate) fn length_and_width(survey: &Survey) -> Answer<(f64, f64)> {
    let vehicle = &survey.vehicle;
    let length = size_of_vehicle(Field::Length, vehicle.length_m, "length")?;
    let width = size_of_vehicle(Field::Width, vehicle.width_m, "width")?;
    Ok((length, width))
}

/// The weights of all weather cases together.
///
/// # Errors
/// [`NotKnown`] where one is not possible, or no case has any.
pub(crate) fn weights(survey: &Survey) -> Answer<f64> {
    let mut all = 0.0;
    for case in &survey.weather {
        possible(Field::Weight, Some(case.weight))?;
        all += case.weight;
    }
    if all > 0.0 {
        Ok(all)
    } else {
        Err(NotKnown::because("no weather case has a weight"))
    }
}

/// Share of a case in all weights; none where those are not known.
pub(crate) fn share(case: &WeatherCase, weights: &Answer<f64>) -> f64 {
    weights.as_ref().map_or(0.0, |all| case.weight / all)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assess::tests::{bare, hole};
    use crate::assess::{Study, assess};
    use crate::survey::Facing;

    fn van() -> Survey {
        let mut survey = bare();
        hole(&mut survey, Facing::Front, 1.5, 30.0);
        hole(&mut survey, Facing::Rear, 0.8, 30.0);
        survey
    }

    #[test]
    fn what_needs_a_size_that_is_not_possible_is_not_known_and_the_rest_is() {
        let sound = assess(&van());
        assert!(sound.season_ach_per_h.is_ok() && sound.leakage.envelope_m2.is_ok());
        let mut short = van();
        short.vehicle.length_m = Some(-5.0);
        let why = assess(&short).leakage.envelope_m2.unwrap_err().reason;
        assert!(why.contains("5 m, which is not possible"), "{why}");
        let mut high = van();
        high.site.altitude_m = 50_000.0;
        let study = Study::of(&high);
        let why = &study.wind_curve().as_ref().unwrap_err().reason;
        assert!(why.contains("m, which is not possible"), "{why}");
        let mut moist = van();
        moist.weather[0].outside_rh_percent = 1e308;
        let study = Study::of(&moist);
        let why = &study.wind_curve().as_ref().unwrap_err().reason;
        assert!(
            why.contains("%, which is not possible") && why.len() < 100,
            "{why}"
        );
        let mut stormy = van();
        stormy.weather[0].wind_m_s = 1e6;
        let study = Study::of(&stormy);
        let why = &study.temperature_curves().as_ref().unwrap_err().reason;
        assert!(why.contains("m/s, which is not possible"), "{why}");
    }

    #[test]
    fn with_a_weight_that_is_not_possible_the_season_is_not_known() {
        let mut survey = van();
        survey.weather[0].weight = -70_001.0;
        let found = assess(&survey);
        let why = found.season_ach_per_h.unwrap_err().reason;
        assert!(why.contains("which is not possible"), "{why}");
        assert!(found.cases.iter().all(|case| case.share.abs() < 1e-12));
    }

    #[test]
    fn the_front_points_nowhere_where_its_direction_is_not_possible() {
        let mut survey = van();
        survey.site.heading_deg = Some(-70_001.0);
        let found = assess(&survey);
        let air = found.cases[0].air.as_ref().unwrap();
        assert!(air.directions.iter().all(|one| one.compass_deg.is_none()));
    }
}
