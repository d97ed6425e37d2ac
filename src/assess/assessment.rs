//! The whole assessment, put together.

use super::answer::{Answer, Assessment, CaseAnswer};
use super::calibration::Calibration;
use super::possible::{share, weights};
use super::prepared::Prepared;
use super::{flues, reach, safety};
use crate::survey::Survey;

/// Works out everything about a survey, for the set-up it shows.
#[must_use]
pub fn assess(survey: &Survey) -> Assessment {
    let calibration = Calibration::of(survey);
    assessment(survey, &Prepared::new(survey, calibration.factors()))
}

/// The same for a survey made ready.
pub(super) fn assessment(survey: &Survey, prepared: &Prepared) -> Assessment {
    let safety = safety::safety(survey, &prepared.laws);
    let weights = weights(survey);
    let cases = cases(survey, prepared, &weights);
    // Sleepers are not told of more air than comes through what was seen.
    let careful = prepared.factors.any_above_one().then(|| {
        let careful = Prepared::new(survey, &prepared.factors.at_most_one());
        self::cases(survey, &careful, &weights)
    });
    let careful = careful.as_ref().unwrap_or(&cases);
    let mut findings = prepared.findings.clone();
    findings.extend(safety::findings(survey, &prepared.laws, &safety));
    findings.extend(flues::findings(survey, prepared, &safety.verdict, careful));
    findings.extend(reach::findings(survey, &cases));
    findings.sort_by_key(|finding| finding.severity);
    Assessment {
        set_up: survey.set_up,
        season_ach_per_h: season(&cases, &weights),
        calmest_and_windiest: calmest_and_windiest(survey),
        findings,
        volume_m3: prepared.volume_m3.clone(),
        gaps: prepared.gaps.clone(),
        leakage: prepared.leakage.clone(),
        cases,
        fabric: prepared.fabric.clone(),
        safety,
        calibrated: prepared.factors.each(),
    }
}

fn cases(survey: &Survey, prepared: &Prepared, weights: &Answer<f64>) -> Vec<CaseAnswer> {
    let vehicle = prepared.vehicle(survey);
    let cases = survey.weather.iter();
    cases
        .map(|case| vehicle.case(case, share(case, weights)))
        .collect()
}

fn season(cases: &[CaseAnswer], weights: &Answer<f64>) -> Answer<f64> {
    weights.clone()?;
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
