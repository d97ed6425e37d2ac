//! Workings of the air change.
#![expect(
    clippy::indexing_slicing,
    reason = "lowest and highest are indices of the same sixteen directions"
)]

use super::{Sheet, not_known, with_unit};
use crate::assess::answer::{Assessment, CaseAir, CaseAnswer, Working};
use crate::physics::pressure_coefficient::{PressureSet, Underside};
use crate::physics::units::{CM2_PER_M2, LITRES_PER_M3};
use crate::physics::wind::{EXTRAPOLATED_BELOW, LEAST_SPEED, Shelter};
use crate::survey::{Survey, WeatherCase, WeatherId};

fn case<'a>(
    survey: &'a Survey,
    assessment: &'a Assessment,
    id: WeatherId,
) -> Option<(&'a WeatherCase, &'a CaseAnswer)> {
    let recorded = survey.weather_case(id)?;
    Some((
        recorded,
        assessment.cases.iter().find(|answer| answer.id == id)?,
    ))
}

pub(super) fn air_change(
    survey: &Survey,
    assessment: &Assessment,
    id: WeatherId,
) -> Option<Working> {
    let (recorded, answer) = case(survey, assessment, id)?;
    let mut sheet = Sheet::new(
        format!("Air change, {}", recorded.name),
        "for each gap Δp = Cp ½ρₒU² − pᵢ − (ρₒ − ρᵢ) g z;  pᵢ such that Σ flows and fans = 0;  ACH = mean gross inflow/(ρᵢ V)",
    );
    sheet.input("set-up", survey.set_up.name());
    sheet.typed("wind at the weather station U₁₀", recorded.wind_m_s, "m/s");
    match &answer.air {
        Ok(air) => figures(&mut sheet, survey, assessment, air),
        Err(reason) => sheet.unknown(reason),
    }
    sheet.relayed("wind at body height: BS 5925:1991, U = U₁₀ k zᵃ");
    wind_sources(&mut sheet, survey);
    if !survey.fans.is_empty() {
        sheet.assumed("a fan's flow falls in a straight line to nothing at the pressure that stops it, 60 Pa where its maker does not say; its ends are at mid-height, the outer one out of the wind");
    }
    sheet.assumed("mean over 16 wind directions relative to the vehicle");
    Some(sheet.finish())
}

/// Where the pressure coefficients are from.
fn wind_sources(sheet: &mut Sheet, survey: &Survey) {
    match survey.site.pressure_set {
        PressureSet::LowRise => sheet
            .read("pressure coefficients of walls and roof: AIVC, Liddament 1986, low-rise 2:1"),
        PressureSet::WallAverage => sheet.read(
            "pressure coefficients of the walls: Swami and Chandra, ASHRAE Transactions 94(1), 1988; roof from AIVC, Liddament 1986",
        ),
        PressureSet::VehicleBody => sheet.computed(
            "pressure coefficients of walls and roof: a vehicle's body in simulated wind, computed by this project; a cube on the ground agreed with measurements",
        ),
    };
    let sheltered = survey.site.shelter != Shelter::Exposed;
    if sheltered && survey.site.pressure_set == PressureSet::VehicleBody {
        sheet.assumed("the same where it is sheltered: × 0.7 part sheltered, × 0.45 sheltered");
    }
    match survey.vehicle.underside {
        Underside::Open => {
            sheet.computed("underfloor and cavities, by the wind's angle off the front: simulated wind, computed by this project; floor itself not validated against measurement");
            if sheltered {
                sheet.assumed(
                    "the same where it is sheltered: × 0.8 part sheltered, × 0.6 sheltered",
                );
            }
        }
        Underside::ClosedOneSide => {
            sheet.assumed(
                "underfloor and cavities, closed on one side: 0, within ±0.2; not computed",
            );
        }
        Underside::SkirtedLeaking | Underside::SkirtedTight => {
            sheet.read("underfloor and cavities behind skirts: mean of the four walls by the length of skirt, as a crawl space");
        }
    }
    sheet.assumed(
        "a cavity feels what the underfloor feels, where its own coefficient is not given",
    );
}

fn figures(sheet: &mut Sheet, survey: &Survey, assessment: &Assessment, air: &CaseAir) {
    sheet.number("wind at the roof's height", air.wind_at_body, 3, "m/s");
    sheet.number("wind used U", air.wind_used, 3, "m/s");
    if air.wind_at_body < LEAST_SPEED {
        sheet.note(format!(
            "air is never quite still: at least {LEAST_SPEED} m/s is used [A]"
        ));
    }
    if survey
        .vehicle
        .height_m
        .is_some_and(|height| height < EXTRAPOLATED_BELOW)
    {
        sheet.note("below about 3 m the wind profile extrapolates");
    }
    sheet.typed("outside", air.outside.t_c, "°C");
    sheet.number("outside density ρₒ", air.outside.density(), 4, "kg/m³");
    sheet.typed("inside", air.inside.t_c, "°C");
    sheet.number("inside density ρᵢ", air.inside.density(), 4, "kg/m³");
    sheet.kg_per_h("mean gross inflow", air.mean_inflow_kg_s);
    if let Ok(volume) = assessment.volume_m3 {
        sheet.number("volume V", volume, 3, "m³");
    }
    if air.directions.iter().any(|direction| direction.one_sided) {
        sheet.note("in some directions gusts through the openings of one face exchange more than the steady balance: 0.025 A U (BS 5925 [R]) is used there");
    }
    let (lowest, highest) = (&air.directions[air.lowest], &air.directions[air.highest]);
    match (&air.mean_ach_per_h, &lowest.ach_per_h, &highest.ach_per_h) {
        (Ok(mean), Ok(least), Ok(most)) => sheet.result(format!(
            "{} in the mean; {} with wind {}° from the front, {} with wind {}° from the front",
            with_unit(*mean, 2, "/h"),
            with_unit(*least, 2, "/h"),
            lowest.from_front_deg,
            with_unit(*most, 2, "/h"),
            highest.from_front_deg
        )),
        (Err(reason), _, _) | (_, Err(reason), _) | (_, _, Err(reason)) => {
            sheet.result(not_known(reason))
        }
    };
    sheet.note("ACH is quoted at inside-air density");
}

pub(super) fn cross_check(
    survey: &Survey,
    assessment: &Assessment,
    id: WeatherId,
) -> Option<Working> {
    let (recorded, answer) = case(survey, assessment, id)?;
    let mut sheet = Sheet::new(
        format!("Cross-check by the basic model, {}", recorded.name),
        "Q = A_L √(Cs ΔT + Cw U²) in L/s, A_L the ELA in cm²;  ACH = Q/V",
    );
    if let Ok(total) = &assessment.leakage.all {
        sheet.number("A_L, all gaps", total.figures.ela * CM2_PER_M2, 3, "cm²");
    }
    sheet.typed(
        "temperature difference",
        recorded.inside_c() - recorded.outside_c,
        "K",
    );
    sheet.typed("wind at the weather station U", recorded.wind_m_s, "m/s");
    let check = answer
        .air
        .as_ref()
        .map_err(Clone::clone)
        .and_then(|air| air.cross_check.clone());
    match check {
        Ok(check) => {
            sheet.number("Cs", check.stack_coefficient, 3, "(L/s)²/(cm⁴ K)");
            sheet.number("Cw", check.wind_coefficient, 3, "(L/s)²/(cm⁴ (m/s)²)");
            sheet.number("Q", check.flow * LITRES_PER_M3, 3, "L/s");
            sheet.result(with_unit(check.ach_per_h, 2, "/h"));
        }
        Err(reason) => sheet.unknown(&reason),
    }
    sheet
        .read("ASHRAE Fundamentals, basic model; Cs scaled by height/2.5 m, one storey")
        .assumed("shelter class 1, 3, 5 for exposed, part sheltered, sheltered")
        .note("a rough model made for houses: half to double is agreement");
    Some(sheet.finish())
}
