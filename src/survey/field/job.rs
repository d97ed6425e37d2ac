//! The fields of the customer and of the papers about the job.

use super::entry::{Entry, Field as F, of};

/// What stands in an empty field for a day.
const DAY: &str = "year-month-day";

pub(super) const FIELDS: &[Entry] = &[
    of(F::Customer, "customer", "Customer")
        .help("Whom the work is for, as the name is to stand on quotation and invoice."),
    of(F::CustomerAddress, "address", "Customer\u{2019}s address")
        .rows(3)
        .help("The customer's address, one line below the other as on a letter."),
    of(F::Registration, "registration", "Registration").help(
        "The number plate of the vehicle, or its chassis number, so that nobody mixes two up.",
    ),
    of(F::QuotationNumber, "quotation_number", "Quotation number")
        .help("The workshop's own number; the program never makes one up."),
    of(F::QuotationDate, "quotation_date", "Quotation date")
        .empty(DAY)
        .help("The day on which the quotation is made."),
    of(F::ValidUntil, "valid_until", "Valid until")
        .empty(DAY)
        .help("The last day on which the customer may take the quotation up."),
    of(F::OrderNumber, "order_number", "Order number")
        .help("The number under which the order was placed: the customer's or the workshop's own."),
    of(F::OrderDate, "order_date", "Order date")
        .empty(DAY)
        .help(
            "The day on which the order was placed. What was sealed before it is on no \
         bill of this order.",
        ),
    of(F::InvoiceNumber, "invoice_number", "Invoice number")
        .help("The workshop's own number, in its own row; the program never makes one up."),
    of(F::InvoiceDate, "invoice_date", "Invoice date")
        .empty(DAY)
        .help("The day on which the invoice is made out."),
    of(F::PayBy, "pay_by", "To be paid by")
        .empty(DAY)
        .help("The last day on which the invoice is paid in time."),
];
