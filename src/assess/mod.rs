//! Survey in, answers out.
//!
//! [`assess`] is a pure function: the same survey gives the same answers, to the last bit.
//! It does no input or output, reads no clock and starts no thread.

pub mod answer;
pub mod cautions;
pub mod curves;
pub mod drying;
mod envelope;
mod exposure;
mod fabric;
mod in_air;
mod inside;
mod law;
mod leakage;
mod mark;
mod model;
mod parking;
mod prepared;
pub mod quantity;
pub mod safety;
pub mod sealing;
pub mod spaces;
mod study;
pub mod topic;
pub mod uncertainty;
mod weather;
pub mod words;
mod working;

pub use crate::survey::number;
pub use answer::{
    Answer, Assessment, CaseAir, CaseAnswer, CaseDrying, CaseHeat, CrossCheck, DirectionAnswer,
    Fabric, GapAirFlow, GapAnswer, GapLeakage, HeatNeed, InnerAirFlow, Leakage, LeakageFigures,
    LeakageTotal, NotKnown, RequiredRemoval, Safety, SafetyRequirement, SafetyVerdict, Source,
    SpaceAir, Working,
};
pub use curves::{FaceTotal, SetSensitivity, TemperatureCurve, WindCurve, WindPoint, face_totals};
pub use drying::{Comparison, compare};
pub use leakage::total as leakage_total;
pub use mark::Mark;
pub use parking::Parking;
pub use study::{Best, Drawing, Part, Study};
pub use topic::{DryingTopic, Topic};
pub use working::{drying_working, ranking_working, uncertainty_working, working};

use crate::survey::{Field, Finding, Item, Severity, Survey};
use prepared::Prepared;

/// Works out everything about a survey, for the set-up it shows.
#[must_use]
pub fn assess(survey: &Survey) -> Assessment {
    assessment(survey, &Prepared::new(survey))
}

fn assessment(survey: &Survey, prepared: &Prepared) -> Assessment {
    let safety = safety::safety(survey, &prepared.laws);
    let vehicle = prepared.vehicle(survey);
    let weights: f64 = survey.weather.iter().map(|case| case.weight).sum();
    let cases: Vec<CaseAnswer> = survey
        .weather
        .iter()
        .map(|case| {
            vehicle.case(
                case,
                if weights > 0.0 {
                    case.weight / weights
                } else {
                    0.0
                },
            )
        })
        .collect();
    let mut findings = prepared.findings.clone();
    findings.extend(safety::findings(survey, &safety));
    findings.sort_by_key(|finding| finding.severity);
    Assessment {
        set_up: survey.set_up,
        season_ach_per_h: season(&cases, weights),
        calmest_and_windiest: calmest_and_windiest(survey),
        findings,
        volume_m3: prepared.volume_m3.clone(),
        gaps: prepared.gaps.clone(),
        leakage: prepared.leakage.clone(),
        cases,
        fabric: prepared.fabric.clone(),
        safety,
    }
}

/// Gross internal volume, m³, unless a size it needs is missing or impossible.
fn volume_m3(survey: &Survey, findings: &[Finding]) -> Answer<f64> {
    const FIELDS: [Field; 4] = [
        Field::Volume,
        Field::InsideLength,
        Field::InsideWidth,
        Field::InsideHeight,
    ];
    let error = findings.iter().find(|finding| {
        finding.severity == Severity::Error
            && finding.place.item == Item::Vehicle
            && FIELDS.iter().any(|&field| finding.place.is_at(field))
    });
    if let Some(error) = error {
        return Err(NotKnown::because(error.sentence.clone()));
    }
    survey
        .vehicle
        .gross_volume_m3()
        .ok_or_else(|| NotKnown::because("neither the volume nor all three inside sizes are given"))
}

fn season(cases: &[CaseAnswer], weights: f64) -> Answer<f64> {
    if cases.is_empty() || weights <= 0.0 {
        return Err(NotKnown::because("no weather case has a weight"));
    }
    let mut sum = 0.0;
    for case in cases.iter().filter(|case| case.share > 0.0) {
        sum += case.share
            * case
                .air
                .as_ref()
                .map_err(Clone::clone)?
                .mean_ach_per_h
                .clone()?;
    }
    Ok(sum)
}

/// The first case with the least wind and the first with the most.
fn calmest_and_windiest(survey: &Survey) -> Option<(usize, usize)> {
    let winds = || survey.weather.iter().map(|case| case.wind_m_s).enumerate();
    let calmest = winds().min_by(|a, b| a.1.total_cmp(&b.1))?.0;
    let windiest = winds().rev().max_by(|a, b| a.1.total_cmp(&b.1))?.0;
    Some((calmest, windiest))
}

#[cfg(test)]
pub(crate) mod tests;
