//! The rates of a workshop's bill: for an hour, and of tax.

use crate::assess::answer::Answer;
use crate::assess::possible::possible;
use crate::survey::{Field, Survey};

/// The rates of tax on material and on work, %, where a bill is written and carries one.
///
/// # Errors
/// [`NotKnown`](crate::assess::answer::NotKnown) where a rate is not possible.
pub(super) fn tax_percents(survey: &Survey) -> Answer<[Option<f64>; 2]> {
    let tariffs = &survey.tariffs;
    if hourly_rate(survey)?.is_none_or(|rate| rate <= 0.0) {
        return Ok([None, None]);
    }
    let all = possible(Field::Tax, tariffs.tax_percent)?;
    let material = possible(Field::MaterialTax, tariffs.material_tax_percent)?;
    Ok([material.or(all), all])
}

/// What the workshop asks for an hour, where that is given.
///
/// # Errors
/// [`NotKnown`](crate::assess::answer::NotKnown) where it is not possible.
pub(super) fn hourly_rate(survey: &Survey) -> Answer<Option<f64>> {
    possible(Field::Workshop, survey.tariffs.workshop_per_hour)
}
