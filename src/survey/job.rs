//! Whom the work is for, and the numbers and dates of the papers about it.

/// The customer, and the numbers and dates of quotation, order and invoice. All of it is what
/// somebody gave; what is empty is left out of the papers.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Job {
    /// Name of the customer.
    pub customer: String,
    /// The customer's address, one line below the other.
    pub address: String,
    /// Registration of the vehicle.
    pub registration: String,
    /// Number of the quotation.
    pub quotation_number: String,
    /// Date of the quotation, `YYYY-MM-DD`, or empty.
    pub quotation_date: String,
    /// The last day on which the quotation may be taken up, `YYYY-MM-DD`, or empty.
    pub valid_until: String,
    /// Number of the order.
    pub order_number: String,
    /// Date of the order, `YYYY-MM-DD`, or empty. What was sealed before it is no part of it.
    pub order_date: String,
    /// Number of the invoice.
    pub invoice_number: String,
    /// Date of the invoice, `YYYY-MM-DD`, or empty.
    pub invoice_date: String,
    /// The day by which it is to be paid, `YYYY-MM-DD`, or empty.
    pub pay_by: String,
}
