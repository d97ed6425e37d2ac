//! What to buy and what it costs.

use super::blocks::{Align, Reasons, Section, Table};
use super::sealing::{any_suggested, in_currency, paid_back};
use super::words::{digits, duration};
use crate::assess::quantity::money;
use crate::assess::sealing::Work;
use crate::assess::words::{given, sentence};
use crate::survey::number::gaps;
use crate::survey::{CostBasis, GapId, Survey};

/// The shopping list.
pub(crate) fn shopping(survey: &Survey, work: &Work, prices: bool) -> Section {
    let mut section = Section::new("Shopping list");
    if work.purchases.is_empty() {
        return section;
    }
    let currency = survey.tariffs.currency.trim();
    let mut table = Table::default()
        .column("Got", Align::Tick)
        .wide("Material", Align::Left, 3)
        .column("How much", Align::Decimal)
        .column("", Align::Left)
        .wide("For gaps", Align::Left, 2);
    if prices {
        table = table
            .column(in_currency("Each", currency), Align::Decimal)
            .column(in_currency("Together", currency), Align::Decimal);
    }
    for purchase in &work.purchases {
        let words = match purchase.words.trim() {
            "" => purchase.kind.name().to_owned(),
            words => format!("{}: {words}", purchase.kind.name()),
        };
        let (amount, unit) = match purchase.basis {
            CostBasis::Piece => (
                given(purchase.quantity),
                if (purchase.quantity - 1.0).abs() < 1e-9 {
                    "piece"
                } else {
                    "pieces"
                },
            ),
            CostBasis::Metre => (digits(purchase.quantity, 0, 3), "m"),
        };
        let gaps: Vec<String> = purchase.gaps.iter().map(GapId::to_string).collect();
        let mut cells = vec![
            String::new(),
            words,
            amount,
            unit.to_owned(),
            gaps.join(", "),
        ];
        if prices {
            cells.extend([digits(purchase.unit_price, 2, 4), money(purchase.cost)]);
        }
        table.row(cells);
    }
    if prices {
        let all: f64 = work.purchases.iter().map(|purchase| purchase.cost).sum();
        let mut cells = vec![String::new(), "Material".to_owned()];
        cells.extend([const { String::new() }; 4]);
        cells.push(money(all));
        table.total(cells);
    }
    section.table(table, &Reasons::default());
    let suggested = any_suggested(work.steps.iter().map(|step| &step.sealable));
    section.note(if prices && suggested {
        "Lengths as measured along the gaps: add for waste. Remedies of the steps marked * and prices of \
         those marked † are suggestions of this program: enter the workshop's own."
    } else {
        "Lengths as measured along the gaps: add for waste."
    });
    section
}

/// Material, labour, tax, total.
pub(crate) fn section(survey: &Survey, work: &Work) -> Section {
    let mut section = Section::new("Costs");
    if work.steps.is_empty() {
        return section;
    }
    let currency = survey.tariffs.currency.trim();
    let mut table = Table::default()
        .wide("", Align::Left, 1)
        .column(currency, Align::Decimal);
    let material: f64 = work.costs().map(|cost| cost.material).sum();
    let labour: f64 = work.costs().filter_map(|cost| cost.labour).sum();
    let tax: f64 = work.costs().map(|cost| cost.tax).sum();
    table.row(["Material".to_owned(), money(material)]);
    let time = duration(work.plan.minutes);
    match survey.tariffs.workshop_per_hour {
        Some(rate) => {
            table.row([
                format!("Working time, {time} at {} an hour", digits(rate, 2, 4)),
                money(labour),
            ]);
            match survey.tariffs.tax_percent {
                Some(percent) => table.row([format!("Tax, {}\u{a0}%", given(percent)), money(tax)]),
                None => table.row(["Tax: not given, not in the total".to_owned()]),
            };
        }
        None => {
            table.row([format!(
                "Working time, {time}: no rate is given, so neither work nor tax is in the total"
            )]);
        }
    }
    table.total(["Total".to_owned(), money(work.plan.cost)]);
    section.table(table, &Reasons::default());
    let unknown: Vec<String> = work
        .plan
        .cost_not_known
        .iter()
        .map(GapId::to_string)
        .collect();
    if !unknown.is_empty() {
        section.note(format!(
            "Not in the total, because what it costs is not known: {}.",
            gaps(&unknown)
        ));
    }
    if let Ok(payback) = work.plan.payback {
        section.note(sentence(&paid_back(payback)));
    }
    section
}
