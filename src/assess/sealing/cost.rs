//! What sealing a gap costs.

use super::library::{starting_minutes, starting_price};
use super::tax::{hourly_rate, tax_percents};
use crate::assess::answer::{Answer, NotKnown};
use crate::assess::money;
use crate::survey::{CostBasis, Form, Gap, Remedy, Survey};

/// Minutes of an hour.
const MINUTES_PER_HOUR: f64 = 60.0;

/// Cost of one remedy, in the survey's currency.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cost {
    /// Pieces or metres of material, as the remedy counts it.
    pub quantity: f64,
    /// Price of one.
    pub unit_price: f64,
    /// Material, to the cent.
    pub material: f64,
    /// Working time, whole minutes.
    pub minutes: f64,
    /// Working time at the hourly rate, to the cent; `None` where there is work but no rate. An owner who counts
    /// no money for it gives a rate of nothing.
    pub labour: Option<f64>,
    /// Its part of the tax on the workshop's bill, not rounded: the bill rounds it once for all.
    pub tax: f64,
    /// All that is priced together: without the work where its price is not known.
    pub priced: f64,
    /// Whether a price or a time is this program's suggestion \[A\].
    pub assumed: bool,
}

impl Cost {
    /// The sign in front of what is priced, where that is not the whole.
    #[must_use]
    pub fn at_least(&self) -> &'static str {
        if self.labour.is_some() {
            ""
        } else {
            "≥\u{a0}"
        }
    }

    /// Everything together.
    ///
    /// # Errors
    /// [`NotKnown`] where there is work but no hourly rate: it does not come for nothing unless
    /// somebody says so.
    pub fn whole(&self) -> Answer<f64> {
        if self.labour.is_some() {
            Ok(self.priced)
        } else {
            Err(not_priced(self.minutes))
        }
    }
}

/// Why work of so many minutes has no price.
pub(super) fn not_priced(minutes: f64) -> NotKnown {
    NotKnown::because(format!(
        "no hourly rate is given, so that the work, {} min, has no price",
        // To hundredths, as sheets print them.
        crate::assess::words::given((minutes * 100.0).round() / 100.0)
    ))
}

/// Material by piece or metre, time at the workshop's rate, and tax on a workshop's bill.
///
/// ```text
/// c = (q p + r t/60) (1 + x/100)
/// ```
/// where q is the pieces, or the metres of [`length`] times the gaps alike, p the price of one, r the
/// workshop's hourly rate, t the minutes for the whole gap, and x the tax, %: none without a rate
/// above nothing. Minutes are whole, begun ones counted whole. A price or time that is not given is
/// the program's suggestion for that remedy \[A\]; the cost then says that it is assumed. Quantities are taken to the thousandth, as they are printed; q p and r t/60 are rounded to the cent
/// each, half a cent away from zero.
///
/// # Errors
/// [`NotKnown`] where the material goes by the metre and the gap has no length, an hourly rate or a
/// tax is not possible, or an amount is too large.
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
    let quantity = money::quantity(quantity);
    let price = remedy.material_cost;
    let unit_price = price.unwrap_or_else(|| starting_price(remedy.kind));
    let material = money::product(quantity, unit_price, 1.0)?;
    let usual = || quantity * starting_minutes(remedy.kind);
    let minutes = whole_minutes(remedy.minutes.unwrap_or_else(usual));
    let labour = match hourly_rate(survey)? {
        Some(rate) => Some(money::product(rate, minutes, MINUTES_PER_HOUR)?),
        None if minutes > 0.0 => None,
        None => Some(0.0),
    };
    let tax = tax_percents(survey)?
        .into_iter()
        .zip([Some(material), labour])
        .filter_map(|(percent, net)| Some(net? * percent? / 100.0))
        .sum();
    Ok(Cost {
        quantity,
        unit_price,
        material,
        minutes,
        labour,
        tax,
        // Work that nobody priced is left out, and `whole` then says so.
        priced: material + labour.into_iter().sum::<f64>() + tax,
        assumed: price.is_none() || gap.remedy.is_none(),
    })
}

/// Minutes begun, so that what is told adds up to what is told of all.
fn whole_minutes(minutes: f64) -> f64 {
    // A product such as 3.9 × 6 must not gain a minute by its last bit.
    (minutes - 1e-9).ceil().max(0.0)
}

/// Length of seal that one gap takes, m: along a narrow gap, round a hole; `None` where a size is
/// missing or the form has none.
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
