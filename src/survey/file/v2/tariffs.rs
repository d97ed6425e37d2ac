//! Format 2: what energy and work cost.

use super::super::stored::{Number, Text, record};

record! {
    /// What energy and work cost.
    #[serde(default)]
    Tariffs {
        currency: Text,
        #[serde(skip_serializing_if = "Option::is_none")]
        electricity_per_kwh: Option<Number>,
        #[serde(skip_serializing_if = "Option::is_none")]
        gas_per_kg: Option<Number>,
        #[serde(skip_serializing_if = "Option::is_none")]
        liquid_fuel_per_l: Option<Number>,
        #[serde(skip_serializing_if = "Option::is_none")]
        workshop_per_hour: Option<Number>,
        #[serde(skip_serializing_if = "Option::is_none")]
        tax_percent: Option<Number>,
        #[serde(skip_serializing_if = "Option::is_none")]
        material_tax_percent: Option<Number>,
    }
}

impl Default for Tariffs {
    fn default() -> Self {
        Self {
            currency: Text(String::from("EUR")),
            electricity_per_kwh: None,
            gas_per_kg: None,
            liquid_fuel_per_l: None,
            workshop_per_hour: None,
            tax_percent: None,
            material_tax_percent: None,
        }
    }
}
