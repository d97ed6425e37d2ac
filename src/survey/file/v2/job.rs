//! Format 2: the customer, and the papers about the job.

use super::super::stored::{Text, record};

record! {
    /// Whom the work is for, and the numbers and dates of the papers about it.
    #[derive(Default)]
    Job {
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        customer: Text,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        address: Text,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        registration: Text,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        quotation_number: Text,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        quotation_date: Text,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        valid_until: Text,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        order_number: Text,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        order_date: Text,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        invoice_number: Text,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        invoice_date: Text,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        pay_by: Text,
    }
}

impl Job {
    pub(in crate::survey::file) fn is_empty(&self) -> bool {
        [
            &self.customer,
            &self.address,
            &self.registration,
            &self.quotation_number,
            &self.quotation_date,
            &self.valid_until,
            &self.order_number,
            &self.order_date,
            &self.invoice_number,
            &self.invoice_date,
            &self.pay_by,
        ]
        .into_iter()
        .all(Text::is_empty)
    }
}
