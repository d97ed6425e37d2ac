//! What to buy and what it costs.

use super::bill::{ROUNDED, hourly_rate, not_in_it, sums};
use super::blocks::{Align, Reasons, Section, Table};
use super::sealing::{any_suggested, in_currency, what_for, when_paid_back};
use super::words::{digits, duration};
use crate::assess::quantity::money;
use crate::assess::sealing::Work;
use crate::assess::words::given;
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
        let mut cells = vec![String::new(), "Material".to_owned()];
        cells.extend([const { String::new() }; 4]);
        cells.push(money(work.bill().material));
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

/// Material, labour, net, tax, total.
pub(crate) fn section(survey: &Survey, work: &Work) -> Section {
    let mut section = Section::new("Costs");
    if work.steps.is_empty() {
        return section;
    }
    let bill = work.bill();
    let mut table = Table::default()
        .wide("", Align::Left, 1)
        .column(survey.tariffs.currency.trim(), Align::Decimal);
    table.row(["Material".to_owned(), money(bill.material)]);
    if let Some(rate) = hourly_rate(survey) {
        let time = duration(bill.minutes());
        let words = format!("Working time, {time} at {} an hour", digits(rate, 2, 4));
        table.row([words, money(bill.labour)]);
    }
    sums(&mut table, survey, bill);
    section.table(table, &Reasons::default());
    not_in_it(&mut section, bill);
    section.note(ROUNDED);
    section.paragraph(what_for(&work.plan));
    if work.plan.payback.is_ok() {
        section.note(when_paid_back(&work.plan));
    }
    section
}
