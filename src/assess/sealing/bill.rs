//! What sealing some gaps comes to on a bill: lines, net, tax, gross, each to the cent.

use super::sealable::Sealable;
use super::tax::tax_percents;
use crate::assess::answer::{Answer, NotKnown};
use crate::assess::money;
use crate::survey::{CostBasis, GapId, RemedyKind, Survey, WorkState};

/// A bill. Every amount is a whole number of cents, in the survey's currency.
#[derive(Clone, Debug, PartialEq)]
pub struct Bill {
    /// A line for each gap whose cost is known.
    pub lines: Vec<Line>,
    /// Gaps whose cost is not known: they are in no sum.
    pub not_known: Vec<(GapId, NotKnown)>,
    /// Working time that no price is known for, minutes.
    pub minutes_not_priced: f64,
    /// Material of all lines.
    pub material: f64,
    /// Working time of all lines, as far as it has a price.
    pub labour: f64,
    /// The lines together.
    pub net: f64,
    /// The taxes on them by their rates; none where no rate is given, or nobody writes a bill.
    pub taxes: Vec<Tax>,
    /// All taxes together; `None` where there are none.
    pub tax: Option<f64>,
    /// Net and tax together.
    pub gross: f64,
}

/// One line: a gap.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// The gap.
    pub gap: GapId,
    /// What is used.
    pub kind: RemedyKind,
    /// The words of the remedy.
    pub words: String,
    /// Pieces or metres.
    pub quantity: f64,
    /// What it is counted by.
    pub basis: CostBasis,
    /// Price of one.
    pub unit_price: f64,
    /// Quantity times price.
    pub material: f64,
    /// Working time, minutes.
    pub minutes: f64,
    /// Working time at the hourly rate; `None` where there is work but no rate.
    pub labour: Option<f64>,
    /// Both together.
    pub price: f64,
    /// Whether a price or a time is this program's suggestion \[A\].
    pub assumed: bool,
}

/// Tax of one rate on a bill.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tax {
    /// Its rate, %.
    pub percent: f64,
    /// What of the net sum has this rate.
    pub net: f64,
    /// What it comes to.
    pub amount: f64,
}

impl Bill {
    /// The bill for sealing some gaps.
    ///
    /// ```text
    /// line = round(q p) + round(r t/60),   net = Σ line,   tax = Σ round(netₓ x/100),   gross = net + tax
    /// ```
    /// with the quantities of [`Cost`](super::Cost). Each material and each work is rounded to the
    /// cent by itself, half a cent away from zero, so that lines add up to what is printed; netₓ is
    /// what of the net sum has the rate x, and tax is rounded once for each rate. Only a workshop
    /// writes a bill: without an hourly rate above nothing there is no tax.
    ///
    /// # Errors
    /// [`NotKnown`] where an hourly rate or a tax is not possible, or a sum is too large to be told to
    /// the cent.
    pub fn of<'a>(
        survey: &Survey,
        sealables: impl IntoIterator<Item = &'a Sealable>,
    ) -> Answer<Self> {
        Self::with(survey, sealables, Vec::new())
    }

    /// The same with gaps that are in no sum for another reason.
    fn with<'a>(
        survey: &Survey,
        sealables: impl IntoIterator<Item = &'a Sealable>,
        mut not_known: Vec<(GapId, NotKnown)>,
    ) -> Answer<Self> {
        let mut lines = Vec::new();
        for sealable in sealables {
            match sealable.cost() {
                Ok(cost) => lines.push(Line {
                    gap: sealable.gap(),
                    kind: sealable.remedy().kind,
                    words: sealable.remedy().words.clone(),
                    quantity: cost.quantity,
                    basis: sealable.remedy().cost_basis,
                    unit_price: cost.unit_price,
                    material: cost.material,
                    minutes: cost.minutes,
                    labour: cost.labour,
                    price: money::sum([cost.material].into_iter().chain(cost.labour))?,
                    assumed: cost.assumed,
                }),
                Err(why) => not_known.push((sealable.gap(), why)),
            }
        }
        let net = money::sum(lines.iter().map(|line| line.price))?;
        let material = money::sum(lines.iter().map(|line| line.material))?;
        let labour = money::sum(lines.iter().filter_map(|line| line.labour))?;
        // Where no line is priced, since a rate is not possible, nothing is taxed either.
        let taxes = match taxes(survey, material, labour) {
            Err(_) if lines.is_empty() => Vec::new(),
            taxes => taxes?,
        };
        let tax = if taxes.is_empty() {
            None
        } else {
            Some(money::sum(taxes.iter().map(|tax| tax.amount))?)
        };
        let without_price = lines.iter().filter(|line| line.labour.is_none());
        Ok(Self {
            minutes_not_priced: without_price.map(|line| line.minutes).sum(),
            material,
            labour,
            gross: money::sum([net].into_iter().chain(tax))?,
            lines,
            not_known,
            net,
            taxes,
            tax,
        })
    }

    /// The bill for what was sealed as part of the order.
    ///
    /// # Errors
    /// [`NotKnown`] where nothing was, or as [`Bill::of`].
    pub fn of_done_work(survey: &Survey) -> Answer<Self> {
        let (mut before, mut sealed) = (survey.clone(), Vec::new());
        for (gap, now) in before.gaps.iter_mut().zip(&survey.gaps) {
            if survey.sealed_in_order(now) {
                gap.state = WorkState::Planned;
                sealed.push(gap.id);
            }
        }
        if sealed.is_empty() {
            return Err(NotKnown::because(
                "no gap is marked as sealed since the order was placed",
            ));
        }
        tax_percents(survey)?;
        let (mut done, mut not_known) = (Vec::new(), Vec::new());
        for id in sealed {
            match Sealable::of(&before, id) {
                Ok(sealable) => done.push(sealable),
                Err(why) => not_known.push((id, NotKnown::because(why.to_string()))),
            }
        }
        Self::with(survey, &done, not_known)
    }

    /// Working time, minutes.
    #[must_use]
    pub fn minutes(&self) -> f64 {
        self.lines.iter().map(|line| line.minutes).sum()
    }
}

/// The taxes on material and work; one, where both have the same rate.
fn taxes(survey: &Survey, material: f64, labour: f64) -> Answer<Vec<Tax>> {
    let parts = match tax_percents(survey)? {
        [Some(one), Some(other)] if one.total_cmp(&other).is_eq() => {
            vec![(one, money::sum([material, labour])?)]
        }
        rates => rates
            .into_iter()
            .zip([material, labour])
            .filter_map(|(rate, net)| Some((rate?, net)))
            .collect(),
    };
    let tax = |(percent, net)| {
        let amount = money::share(net, percent)?;
        Ok(Tax {
            percent,
            net,
            amount,
        })
    };
    parts.into_iter().map(tax).collect()
}
