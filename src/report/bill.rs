//! Bills: lines, sums, and what is not in them.

use super::blocks::{Align, Reasons, Section, Table};
use super::sealing::in_currency;
use super::words::{digits, duration, minutes, name, place};
use crate::assess::quantity::money;
use crate::assess::sealing::{Bill, Line};
use crate::assess::words::given;
use crate::survey::number::gaps;
use crate::survey::{CostBasis, Field, GapId, Survey};

/// How amounts are rounded.
pub(crate) const ROUNDED: &str = "Each material and each work is rounded to the cent, half a cent upwards; the net sum is \
    that of the lines, and tax is rounded once for each rate.";

/// The lines of a bill in this order, with their sums.
pub(crate) fn lines(section: &mut Section, survey: &Survey, bill: &Bill, order: &[GapId]) {
    let currency = survey.tariffs.currency.trim();
    let mut table = Table::default()
        .column("", Align::Right)
        .wide("What is sealed, and how", Align::Left, 4)
        .column("How much", Align::Decimal)
        .column("", Align::Left)
        .column(in_currency("Each", currency), Align::Decimal)
        .column("Material", Align::Decimal)
        .column("Minutes", Align::Decimal)
        .column("Work", Align::Decimal)
        .column(in_currency("Price", currency), Align::Decimal);
    let mut lines: Vec<&Line> = bill.lines.iter().collect();
    lines.sort_by_key(|line| order.iter().position(|gap| *gap == line.gap));
    for (number, line) in (1..).zip(lines) {
        table.row([
            number.to_string(),
            what(survey, line),
            amount(line),
            unit(line).to_owned(),
            digits(line.unit_price, 2, 4),
            money(line.material),
            minutes(line.minutes),
            line.labour.map_or_else(|| "not priced".to_owned(), money),
            money(line.price),
        ]);
    }
    sums(&mut table, survey, bill);
    section.table(table, &Reasons::default());
    if let Some(rate) = hourly_rate(survey).filter(|rate| *rate > 0.0) {
        let (time, rate) = (duration(bill.minutes()), digits(rate, 2, 4));
        let rate = format!("{currency}\u{a0}{rate}");
        let rate = rate.trim();
        section.note(format!("Working time in all: {time}, at {rate} an hour."));
    }
    not_in_it(section, bill);
    section.note(ROUNDED);
}

/// What the workshop asks for an hour, where that is given and possible.
pub(crate) fn hourly_rate(survey: &Survey) -> Option<f64> {
    let rate = survey.tariffs.workshop_per_hour;
    rate.filter(|rate| Field::Workshop.allows(*rate))
}

/// A gap and its remedy, as the customer reads it.
fn what(survey: &Survey, line: &Line) -> String {
    let gap = survey.gap(line.gap);
    let mut lines: Vec<String> = gap
        .map(|gap| format!("{} (gap {}), {}", name(gap), gap.id, place(gap)))
        .into_iter()
        .collect();
    lines.push(match line.words.trim() {
        "" => line.kind.name().to_owned(),
        words => format!("{}: {words}", line.kind.name()),
    });
    if line.assumed
        && let Some(last) = lines.last_mut()
    {
        last.push_str(" †");
    }
    lines.join("\n")
}

fn amount(line: &Line) -> String {
    match line.basis {
        CostBasis::Piece => given(line.quantity),
        CostBasis::Metre => digits(line.quantity, 0, 3),
    }
}

fn unit(line: &Line) -> &'static str {
    match line.basis {
        CostBasis::Piece if (line.quantity - 1.0).abs() < 1e-9 => "piece",
        CostBasis::Piece => "pieces",
        CostBasis::Metre => "m",
    }
}

/// Net, tax and total, under the last column of a table.
pub(crate) fn sums(table: &mut Table, survey: &Survey, bill: &Bill) {
    let last = table.columns.len().saturating_sub(1);
    let words = last.min(1).min(last.saturating_sub(1));
    let mut add = |text: String, amount: f64| {
        let mut cells = vec![String::new(); last + 1];
        if let Some(cell) = cells.get_mut(words) {
            *cell = text;
        }
        if let Some(cell) = cells.get_mut(last) {
            *cell = money(amount);
        }
        table.total(cells);
    };
    if bill.taxes.is_empty() {
        return add(total_without_tax(survey).to_owned(), bill.gross);
    }
    add("Net".to_owned(), bill.net);
    for tax in &bill.taxes {
        let rate = format!("Tax, {}\u{a0}%", given(tax.percent));
        let words = if bill.taxes.len() == 1 {
            rate
        } else {
            format!("{rate} of {}", money(tax.net))
        };
        add(words, tax.amount);
    }
    add("Total with tax".to_owned(), bill.gross);
}

/// What the total is called where there is no tax in it.
fn total_without_tax(survey: &Survey) -> &'static str {
    match survey.tariffs.tax_percent {
        Some(_) => "Total",
        None => "Total, no tax given",
    }
}

/// What is not in the total.
pub(crate) fn not_in_it(section: &mut Section, bill: &Bill) {
    for (gap, why) in &bill.not_known {
        section.note(format!(
            "Not in the total: gap {gap}, whose cost is not known: {}.",
            why.reason
        ));
    }
    if bill.minutes_not_priced > 0.0 {
        section.note(format!(
            "Not in the total: {} of work, because no hourly rate is given.",
            duration(bill.minutes_not_priced)
        ));
    }
}

/// The gaps whose price is a suggestion of this program.
pub(crate) fn suggested(bill: &Bill) -> Option<String> {
    let lines = bill.lines.iter().filter(|line| line.assumed);
    let lines: Vec<String> = lines.map(|line| line.gap.to_string()).collect();
    (!lines.is_empty()).then(|| gaps(&lines))
}
