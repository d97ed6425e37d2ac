//! Which way to park for a wind that mostly comes from one side.
#![expect(
    clippy::indexing_slicing,
    reason = "sixteen directions built together; a missing number must never turn into a silent default"
)]

use super::answer::{Answer, Assessment, CaseAir, NotKnown};
use super::envelope::{DIRECTIONS, direction_deg};
use super::possible::possible;
use super::words::compass_point;
use crate::survey::{Field, Survey};

/// Best and worst heading for the prevailing wind, in the windiest weather case.
#[derive(Clone, Debug, PartialEq)]
pub struct Parking {
    /// Where the prevailing wind comes from, degrees clockwise from north.
    pub wind_from_deg: f64,
    /// Name of the weather case.
    pub case: String,
    /// Heading with the least air change, degrees clockwise from north, and that air change, /h.
    pub best: (f64, f64),
    /// Heading with the most, and that.
    pub worst: (f64, f64),
    /// The vehicle as it stands, where its heading is known.
    pub now: Option<(f64, f64)>,
    /// The same in a sentence.
    pub sentence: String,
}

/// Works out how to park: which heading of the sixteen lets in the least air.
///
/// ```text
/// heading = wind − a   (mod 360°)
/// ```
/// where *wind* is where the prevailing wind comes from, clockwise from north, and *a* the wind's
/// direction clockwise from the vehicle's front, for which the air change is known from the
/// windiest weather case. Headings between are not tried; the vehicle as it stands is read
/// linearly between the two neighbours **\[A\]**.
///
/// # Errors
/// [`NotKnown`] where the prevailing wind, the weather or the air change is not.
pub(super) fn parking(survey: &Survey, assessment: &Assessment) -> Answer<Parking> {
    let wind_from_deg = possible(Field::PrevailingWind, survey.site.prevailing_wind_deg)?
        .ok_or_else(|| NotKnown::because("where the prevailing wind comes from is not given"))?;
    let (_, windiest) = assessment
        .calmest_and_windiest
        .ok_or_else(|| NotKnown::because("there is no weather case"))?;
    let case = &assessment.cases[windiest];
    let air = case.air.as_ref().map_err(Clone::clone)?;
    let ach = ach_by_direction(air)?;
    // With the wind `a` degrees from the front, the front points `a` degrees to its other side.
    let heading = |direction: usize| {
        let from_front = direction_deg(direction);
        (
            (wind_from_deg - from_front).rem_euclid(360.0),
            ach[direction],
        )
    };
    let (best, worst) = (heading(air.lowest), heading(air.highest));
    let now = survey.site.front_points_to().map(|heading| {
        let from_front = (wind_from_deg - heading).rem_euclid(360.0);
        (heading, between(&ach, from_front))
    });
    let from = now.map_or(worst.1, |(_, ach)| ach);
    Ok(Parking {
        wind_from_deg,
        case: case.name.clone(),
        best,
        worst,
        now,
        sentence: sentence(&case.name, wind_from_deg, best, from, now.is_some()),
    })
}

/// Air change in each direction, per hour.
///
/// # Errors
/// [`NotKnown`] where one of them is not known.
fn ach_by_direction(air: &CaseAir) -> Answer<[f64; DIRECTIONS]> {
    let mut ach = [0.0; DIRECTIONS];
    for (ach, direction) in ach.iter_mut().zip(&air.directions) {
        *ach = direction.ach_per_h.clone()?;
    }
    Ok(ach)
}

/// Air change for the wind at an angle from the front, per hour: linear between two of the sixteen
/// directions, round the circle.
fn between(ach: &[f64; DIRECTIONS], from_front_deg: f64) -> f64 {
    let place = from_front_deg / direction_deg(1);
    let share = place - place.floor();
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a place among sixteen"
    )]
    let below = place.floor() as usize % DIRECTIONS;
    let above = (below + 1) % DIRECTIONS;
    ach[below] + share * (ach[above] - ach[below])
}

/// What turning the vehicle changes. A fall of less than one part in twenty is told as none
/// **\[A\]**.
fn sentence(case: &str, wind: f64, best: (f64, f64), from: f64, stands: bool) -> String {
    let (to, from_words) = (best.1, if stands { "as it stands" } else { "at worst" });
    if to > 0.95 * from {
        return format!(
            "for wind from {} turning the vehicle changes little: {case}, {from:.2} air changes an hour {from_words}, {to:.2} at best",
            compass_point(wind)
        );
    }
    format!(
        "parked with its front to {}, for wind from {}, the {case} air change falls from {from:.2} an hour {from_words} to {to:.2}",
        compass_point(best.0),
        compass_point(wind)
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_wind_has_one_name_wherever_it_is_told() {
        let told = |to| sentence("windy", 255.0, (165.0, to), 2.0, true);
        for sentence in [told(1.0), told(1.99)] {
            let name = crate::assess::words::compass(255.0);
            assert_eq!(name, "255° WSW");
            assert!(sentence.contains("for wind from WSW"), "{sentence}");
        }
        assert!(told(1.0).contains("its front to SSE"), "{}", told(1.0));
    }

    #[test]
    fn between_two_directions_it_is_linear() {
        let mut next = -1.0;
        let ach = std::array::from_fn(|_| {
            next += 1.0;
            next
        });
        assert!((between(&ach, 33.75) - 1.5).abs() < 1e-12);
        // From the last direction back to the first.
        assert!((between(&ach, 348.75) - 7.5).abs() < 1e-12);
        assert!(between(&ach, 0.0).abs() < 1e-12);
    }
}
