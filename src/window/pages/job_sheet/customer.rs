//! Whom the work is for, and the papers about it.

use super::super::fields::Fields;
use super::view::JobSheetContext;
use crate::survey::{Edit, Field, Item};
use eframe::egui::Ui;

/// Draws the card's fields.
pub(super) fn show(ui: &mut Ui, context: &mut JobSheetContext<'_>) {
    let job = &context.survey.job;
    let mut fields = Fields::new(ui, context, Item::Job, job, &Edit::Job);
    fields.text(Field::Customer, |job| &mut job.customer);
    fields.text(Field::CustomerAddress, |job| &mut job.address);
    fields.text(Field::Registration, |job| &mut job.registration);
    fields.text(Field::QuotationNumber, |job| &mut job.quotation_number);
    fields.text(Field::QuotationDate, |job| &mut job.quotation_date);
    fields.text(Field::ValidUntil, |job| &mut job.valid_until);
    fields.text(Field::OrderNumber, |job| &mut job.order_number);
    fields.text(Field::OrderDate, |job| &mut job.order_date);
    fields.text(Field::InvoiceNumber, |job| &mut job.invoice_number);
    fields.text(Field::InvoiceDate, |job| &mut job.invoice_date);
    fields.text(Field::PayBy, |job| &mut job.pay_by);
    fields.noticed();
}
