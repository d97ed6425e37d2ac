//! The results of a weather case that are told in more than one place, each by itself or with its
//! interval.

use super::Material;
use crate::assess::quantity::{Kind, Quantity};
use crate::assess::uncertainty::{CaseUncertainty, Interval};
use crate::assess::{Answer, CaseAir, CaseAnswer, CaseDrying, CaseHeat};

/// The mean air change of a case, with its interval.
#[must_use]
pub fn air_change(told: &Material<'_>, case: &CaseAnswer) -> Quantity {
    Kind::AirChanges
        .of(ach(case))
        .within(interval(told, case, |found| &found.ach_per_h))
}

/// Water to remove to hold the target humidity at the set temperature, with its interval.
#[must_use]
pub fn water(told: &Material<'_>, case: &CaseAnswer) -> Quantity {
    Kind::LitresPerDay
        .of(litres(case))
        .within(interval(told, case, |found| &found.removal_l_per_day))
}

/// Heat to hold the set temperature, with its interval.
#[must_use]
pub fn heat(told: &Material<'_>, case: &CaseAnswer) -> Quantity {
    Kind::Watts
        .of(watts(case))
        .within(interval(told, case, |found| &found.heat_w))
}

/// The mean air change of a case alone, per hour.
pub(crate) fn ach(case: &CaseAnswer) -> Answer<f64> {
    air(case)?.mean_ach_per_h.clone()
}

/// Water to remove in a case alone, L/day.
pub(crate) fn litres(case: &CaseAnswer) -> Answer<f64> {
    Ok(drying(case)?.at_set_temperature.l_per_day())
}

/// Heat to hold the set temperature in a case alone, W.
pub(crate) fn watts(case: &CaseAnswer) -> Answer<f64> {
    needs(case)?.set_temperature.total_w()
}

/// Mean air change over the cases by their weights, with its interval.
#[must_use]
pub fn season(told: &Material<'_>) -> Quantity {
    let found = told.uncertainty;
    Kind::AirChanges
        .of(told.assessment.season_ach_per_h.clone())
        .within(found.and_then(|found| found.season_ach_per_h.as_ref().ok()))
}

fn interval<'a>(
    told: &Material<'a>,
    case: &CaseAnswer,
    of: impl Fn(&'a CaseUncertainty) -> &'a Answer<Interval>,
) -> Option<&'a Interval> {
    let cases = &told.uncertainty?.cases;
    of(cases.iter().find(|one| one.id == case.id)?)
        .as_ref()
        .ok()
}

/// The balance of air in a case.
pub(super) fn air(case: &CaseAnswer) -> Answer<&CaseAir> {
    case.air.as_ref().map_err(Clone::clone)
}

/// What there is to dry in a case.
pub(super) fn drying(case: &CaseAnswer) -> Answer<&CaseDrying> {
    case.drying.as_ref().map_err(Clone::clone)
}

/// The heat that a case asks for.
pub(super) fn needs(case: &CaseAnswer) -> Answer<&CaseHeat> {
    case.heat.as_ref().map_err(Clone::clone)
}
