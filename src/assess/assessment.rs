//! The whole assessment, put together.

use super::answer::{Answer, Assessment, CaseAnswer, NotKnown};
use super::prepared::Prepared;
use super::{flues, reach, safety};
use crate::survey::Survey;

/// Works out everything about a survey, for the set-up it shows.
#[must_use]
pub fn assess(survey: &Survey) -> Assessment {
    assessment(survey, &Prepared::new(survey))
}

/// The same for a survey made ready.
pub(super) fn assessment(survey: &Survey, prepared: &Prepared) -> Assessment {
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
    findings.extend(safety::findings(survey, &prepared.laws, &safety));
    findings.extend(flues::findings(survey, prepared, &safety.verdict, &cases));
    findings.extend(reach::findings(survey, &cases));
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
pub(super) fn calmest_and_windiest(survey: &Survey) -> Option<(usize, usize)> {
    let winds = || survey.weather.iter().map(|case| case.wind_m_s).enumerate();
    let calmest = winds().min_by(|a, b| a.1.total_cmp(&b.1))?.0;
    let windiest = winds().rev().max_by(|a, b| a.1.total_cmp(&b.1))?.0;
    Some((calmest, windiest))
}
