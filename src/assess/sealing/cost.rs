//! What sealing a gap costs.

use super::library::{starting_minutes, starting_price};
use crate::assess::answer::{Answer, NotKnown};
use crate::survey::{CostBasis, Form, Gap, Remedy, Survey};

/// Cost of one remedy, in the survey's currency.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cost {
    /// Pieces or metres of material, as the remedy counts it.
    pub quantity: f64,
    /// Material.
    pub material: f64,
    /// Working time, minutes.
    pub minutes: f64,
    /// Working time at the workshop's rate; `None` where no rate is given, as when the owner does
    /// it.
    pub labour: Option<f64>,
    /// Tax on the workshop's bill.
    pub tax: f64,
    /// All together.
    pub total: f64,
    /// Whether a price or a time is this program's suggestion \[A\].
    pub assumed: bool,
}

/// Material by piece or metre, time at the workshop's rate, and tax on a workshop's bill.
///
/// # Errors
/// [`NotKnown`] where the material goes by the metre and the gap has no length.
pub(super) fn of(survey: &Survey, gap: &Gap, remedy: &Remedy) -> Answer<Cost> {
    let pieces = f64::from(gap.count);
    let quantity = match remedy.cost_basis {
        CostBasis::Piece => pieces,
        CostBasis::Metre => {
            pieces
                * length(&gap.form).ok_or_else(|| {
                    NotKnown::because(
                        "the material is counted by the metre, but the gap's length is not known",
                    )
                })?
        }
    };
    let price = remedy.material_cost;
    let material = quantity * price.unwrap_or_else(|| starting_price(remedy.kind));
    let minutes = remedy
        .minutes
        .unwrap_or_else(|| quantity * starting_minutes(remedy.kind));
    let labour = survey
        .tariffs
        .workshop_per_hour
        .map(|rate| rate * minutes / 60.0);
    // Only a workshop writes a bill.
    let tax = match (labour, survey.tariffs.tax_percent) {
        (Some(labour), Some(percent)) => (material + labour) * percent / 100.0,
        _ => 0.0,
    };
    Ok(Cost {
        quantity,
        material,
        minutes,
        labour,
        tax,
        total: material + labour.unwrap_or(0.0) + tax,
        assumed: price.is_none() || gap.remedy.is_none(),
    })
}

/// Length of seal that one gap takes, m: along a narrow gap, round a hole.
fn length(form: &Form) -> Option<f64> {
    let mm = match *form {
        Form::NarrowGap { length_mm, .. } => length_mm?,
        Form::RoundHole { diameter_mm } => std::f64::consts::PI * diameter_mm?,
        Form::RingGap { hole_mm, .. } => std::f64::consts::PI * hole_mm?,
        Form::RectangularHole {
            width_mm,
            height_mm,
        }
        | Form::Grille {
            width_mm,
            height_mm,
            ..
        } => 2.0 * (width_mm? + height_mm?),
        Form::StatedArea { .. } | Form::FlowTest { .. } => return None,
    };
    Some(mm / 1000.0)
}
