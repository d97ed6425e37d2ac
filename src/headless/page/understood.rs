//! Air change understood: parking, the choice of coefficients, closing an inner opening.

use super::Unknowns;
use super::layout::Page;
use super::old_table::{Set, Table};
use super::words::{air_changes, capital, figure, given};
use crate::headless::decisions::Decisions;
use crate::physics::PressureSet;
use crate::survey::Survey;

pub(super) fn print(page: &mut Page, survey: &Survey, decisions: &Decisions) {
    if survey.weather.is_empty() {
        return;
    }
    page.heading("Air change understood");
    let mut unknowns = Unknowns::default();
    let mut table = Table::default().column("air changes an hour, mean", Set::Words, 34);
    for set in &decisions.pressure_sets {
        let name = match set.set {
            PressureSet::LowRise => "Liddament",
            PressureSet::WallAverage => "Swami",
        };
        table = table.column(name, Set::Numbers, 13);
    }
    let curves = decisions.against_temperature.as_ref().ok();
    let kelvins = curves
        .and_then(|curves| curves.first())
        .map_or_else(Vec::new, |curve| warmer(&curve.points));
    for kelvin in &kelvins {
        table = table.column(format!("+{} K", given(*kelvin)), Set::Numbers, 13);
    }
    for (at, case) in survey.weather.iter().enumerate() {
        let mut row = vec![case.name.clone()];
        for set in &decisions.pressure_sets {
            if let Some(ach) = set.mean_ach_per_h.get(at) {
                row.push(unknowns.or(ach, |ach| air_changes(*ach)));
            }
        }
        let curve = curves.and_then(|curves| curves.get(at));
        for (kelvin, ach) in curve.iter().flat_map(|curve| &curve.points) {
            if kelvins.iter().any(|shown| (shown - kelvin).abs() < 1e-9) {
                row.push(air_changes(*ach));
            }
        }
        table.row(row);
    }
    table.print(page);
    unknowns.print(page);
    page.hanging(
        "  ",
        "Pressure coefficients of Liddament [M], and of Swami and Chandra [M]; then, with the set \
         chosen, the inside so many kelvin warmer than outside.",
    );
    if let Ok(parking) = &decisions.parking {
        page.hanging("  ", &format!("{}.", capital(&parking.sentence)));
    }
    for effect in &decisions.closing {
        for (case, recorded) in effect.cases.iter().zip(&survey.weather) {
            let words = match &case.inflow_kg_s {
                Err(unknown) => format!("not known: {}", unknown.reason),
                Ok((open, closed)) if closed > open => format!(
                    "{}: closing it raises the outside air that comes in by {} %",
                    recorded.name,
                    figure((closed / open - 1.0) * 100.0, 2)
                ),
                Ok((open, closed)) => format!(
                    "{}: closing it saves {} % of the outside air that comes in",
                    recorded.name,
                    figure((1.0 - closed / open) * 100.0, 2)
                ),
            };
            page.hanging("  ", &format!("{}, {words}", effect.name));
        }
    }
}

/// Temperature differences that are printed: those of whole ten kelvin.
fn warmer(points: &[(f64, f64)]) -> Vec<f64> {
    let kelvins = points.iter().map(|(kelvin, _)| *kelvin);
    kelvins
        .filter(|kelvin| (kelvin % 10.0).abs() < 1e-9)
        .collect()
}
