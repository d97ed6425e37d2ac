//! Findings about the customer and the papers.

use super::finding::{Finder, Finding, Item};
use crate::survey::{Field, Survey, date};

pub(super) fn find(survey: &Survey, findings: &mut Vec<Finding>) {
    let job = &survey.job;
    let mut finder = Finder::new(findings, Item::Job, "");
    for (field, words, text) in [
        (
            Field::QuotationDate,
            "date of the quotation",
            &job.quotation_date,
        ),
        (
            Field::ValidUntil,
            "last day of the quotation",
            &job.valid_until,
        ),
        (Field::OrderDate, "date of the order", &job.order_date),
        (Field::InvoiceDate, "date of the invoice", &job.invoice_date),
        (Field::PayBy, "day of payment", &job.pay_by),
    ] {
        finder.check_date(field, words, text);
    }
    for (field, earlier, later, sentence) in [
        (
            Field::ValidUntil,
            &job.quotation_date,
            &job.valid_until,
            "the quotation ends before it is made",
        ),
        (
            Field::PayBy,
            &job.invoice_date,
            &job.pay_by,
            "the invoice is to be paid before it is made out",
        ),
    ] {
        if let (Some(earlier), Some(later)) = (date::parse(earlier), date::parse(later))
            && later < earlier
        {
            finder.warn(field, sentence, "put one of the two dates right");
        }
    }
}
