//! The minimum free areas that a code of practice asks for.
//!
//! EN 721, as three guides to conversion approval relay it, edition unstated (the current one is
//! EN 721:2019) \[R\]; and AS/NZS 5601.2, as relayed \[R\].

use crate::assess::answer::{Answer, HeatInput, NotKnown, SafetyRequirement};
use crate::physics::units::SECONDS_PER_HOUR;
use crate::survey::findings::called;
use crate::survey::{Appliance, ApplianceKind, CodeOfPractice, Field, Heater, HeaterFuel, Survey};

/// Rows of the table: plan area up to, m²; then high in the roof, high elsewhere and low, mm².
const OPEN_FLUED: [(f64, [f64; 3]); 5] = [
    (5.0, [7_500.0, 15_000.0, 1_000.0]),
    (10.0, [10_000.0, 20_000.0, 1_500.0]),
    (15.0, [12_500.0, 25_000.0, 2_000.0]),
    (20.0, [15_000.0, 30_000.0, 3_000.0]),
    (f64::INFINITY, [20_000.0, 40_000.0, 5_000.0]),
];

/// Only room-sealed appliances or none, plan area up to [`ROOM_SEALED_PLAN_AREA_M2`], mm² \[R, one
/// source\].
const ROOM_SEALED: [f64; 3] = [1_500.0, 3_000.0, 500.0];
/// Where the row of room-sealed appliances ends, m² \[R, one source\].
const ROOM_SEALED_PLAN_AREA_M2: f64 = 10.0;

/// Square metres in a square millimetre.
const MM2: f64 = 1e-6;

/// What the survey's code of practice asks for with the appliances listed.
///
/// # Errors
/// [`NotKnown`] where what it goes by is not given, or where it has no figure for the vehicle.
pub(super) fn asked(survey: &Survey, plan_area_m2: &Answer<f64>) -> Answer<SafetyRequirement> {
    match survey.vehicle.code_of_practice {
        CodeOfPractice::En721 => by_plan_area(plan_area_m2.clone()?, takes_air(survey)),
        CodeOfPractice::AsNzs5601 => Ok(by_heat_input(HeatInput {
            mj_per_h: heat_input(survey)?,
            berths: survey.vehicle.berths,
        })),
    }
}

/// Whether anything there takes its air from the room: an appliance that is not room-sealed, or a heater
/// without flue, listed among the appliances or not.
pub(super) fn takes_air(survey: &Survey) -> bool {
    let mut appliances = survey.appliances.iter();
    appliances.any(|one| !one.room_sealed) || without_flue(survey).next().is_some()
}

/// Heaters that are there and burn into the room.
fn without_flue(survey: &Survey) -> impl Iterator<Item = &Heater> {
    let heaters = survey.heaters.iter();
    heaters.filter(|heater| heater.owned && heater.fuel == HeaterFuel::UnfluedGas)
}

/// Rated heat input of all that is not room-sealed, MJ/h. A space heater may stand among the appliances
/// and among the heaters: of both lists that with the greater sum counts.
///
/// # Errors
/// [`NotKnown`] where one of them has none that could be.
fn heat_input(survey: &Survey) -> Answer<f64> {
    let taking_air = |space_heaters: bool| {
        let appliances = survey.appliances.iter().filter(|one| !one.room_sealed);
        let such =
            appliances.filter(move |one| (one.kind == ApplianceKind::SpaceHeater) == space_heaters);
        such.map(input).sum::<Answer<f64>>()
    };
    let heaters: Answer<f64> = without_flue(survey).map(all_its_heat).sum();
    Ok(taking_air(false)? + taking_air(true)?.max(heaters?))
}

/// Rated heat input of an appliance, MJ/h.
fn input(one: &Appliance) -> Answer<f64> {
    let input = one
        .input_mj_per_h
        .filter(|&input| Field::RatedInput.allows(input));
    input.ok_or_else(|| {
        let what = match one.name.trim() {
            "" => one.kind.name().to_owned(),
            name => format!("{} \u{201c}{name}\u{201d}", one.kind.name()),
        };
        NotKnown::because(format!(
            "the heat input of the {what}, which is not room-sealed, is not given"
        ))
    })
}

/// Heat input of a heater without flue, MJ/h: all of it is given to the room.
fn all_its_heat(heater: &Heater) -> Answer<f64> {
    let watts = heater.rating_w.filter(|&watts| Field::Rating.allows(watts));
    let watts = watts.ok_or_else(|| {
        NotKnown::because(format!(
            "the rating of {}, which has no flue, is not given",
            called("heater", &heater.name)
        ))
    })?;
    Ok(watts * SECONDS_PER_HOUR / JOULES_PER_MJ)
}

/// Joules in a megajoule.
const JOULES_PER_MJ: f64 = 1e6;

/// Minimum free areas, m², for a plan area in m²: external length without drawbar × width without
/// mirrors. The first row of the table whose plan area is not exceeded; `open_flued` where any
/// appliance is not sealed from the room.
///
/// | plan area up to, m² | high in the roof, mm² | high elsewhere, mm² | low, mm² |
/// |---|---|---|---|
/// | 5 | 7 500 | 15 000 | 1 000 |
/// | 10 | 10 000 | 20 000 | 1 500 |
/// | 15 | 12 500 | 25 000 | 2 000 |
/// | 20 | 15 000 | 30 000 | 3 000 |
/// | above | 20 000 | 40 000 | 5 000 |
/// | 10, all room-sealed | 1 500 | 3 000 | 500 |
///
/// EN 721 as relayed \[R\]; the last row from one source alone.
///
/// # Errors
/// [`NotKnown`] where the table has no row: only room-sealed appliances above 10 m².
pub fn by_plan_area(plan_area_m2: f64, open_flued: bool) -> Answer<SafetyRequirement> {
    let row = if open_flued {
        OPEN_FLUED
            .iter()
            .find(|(up_to, _)| plan_area_m2 <= *up_to)
            .map(|(_, row)| *row)
    } else if plan_area_m2 <= ROOM_SEALED_PLAN_AREA_M2 {
        Some(ROOM_SEALED)
    } else {
        None
    };
    let [high_in_roof, high_elsewhere, low] = row.ok_or_else(|| {
        NotKnown::because(
            "the figures at hand for vehicles with only room-sealed appliances end at 10 m² of plan area; ask a licensed fitter",
        )
    })?;
    Ok(SafetyRequirement {
        high_in_roof: high_in_roof * MM2,
        high_elsewhere: high_elsewhere * MM2,
        low: low * MM2,
        open_flued,
        heat_input: None,
    })
}

/// Minimum free areas by heat input and berths.
///
/// ```text
/// V = max(4 000, 610 U + 650 P) mm²
/// ```
/// where U is the heat input of the appliances that are not room-sealed, MJ/h, and P the berths. It
/// is asked for high, in the roof or elsewhere, and as much low. Check: 29 MJ/h and 2 berths give
/// 18 990 mm².
///
/// AS/NZS 5601.2, as relayed \[R\]; that each of high and low has all of V, and what counts as
/// either, is taken the safe way \[A\].
#[must_use]
pub fn by_heat_input(input: HeatInput) -> SafetyRequirement {
    let free = (610.0 * input.mj_per_h + 650.0 * f64::from(input.berths)).max(4_000.0) * MM2;
    SafetyRequirement {
        high_in_roof: free,
        high_elsewhere: free,
        low: free,
        open_flued: input.mj_per_h > 0.0,
        heat_input: Some(input),
    }
}
