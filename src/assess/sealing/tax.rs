//! The rates of tax on a workshop's bill.

use crate::survey::Survey;

/// The rates of tax on material and on work, %, where a bill is written and carries one.
pub(super) fn tax_percents(survey: &Survey) -> [Option<f64>; 2] {
    let tariffs = &survey.tariffs;
    if tariffs.workshop_per_hour.is_none_or(|rate| rate <= 0.0) {
        return [None, None];
    }
    let material = tariffs.material_tax_percent.or(tariffs.tax_percent);
    [material, tariffs.tax_percent]
}
