//! Where the vehicle stands, the weather it meets, the states wanted inside, and prices.

use super::field::Field;
use super::ids::WeatherId;
use crate::physics::pressure_coefficient::PressureSet;
use crate::physics::wind::{Shelter, Terrain};

/// Which of the closable gaps stand open: every result says for which set-up it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum SetUp {
    /// Standing unused through winter.
    LaidUp,
    /// People live in it.
    InUse,
}

impl SetUp {
    /// Both set-ups, in the order offered.
    pub const ALL: [Self; 2] = [Self::LaidUp, Self::InUse];

    /// The trade's word for it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::LaidUp => "laid up",
            Self::InUse => "in use",
        }
    }

    /// Of two things said for the two set-ups, that for this one.
    #[must_use]
    pub fn choose<T>(self, laid_up: T, in_use: T) -> T {
        match self {
            Self::LaidUp => laid_up,
            Self::InUse => in_use,
        }
    }
}

/// Where the vehicle stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Site {
    /// The district: how much it slows the wind on the way.
    pub terrain: Terrain,
    /// The immediate surroundings: what stands close by.
    pub shelter: Shelter,
    /// Which set of pressure coefficients to use.
    pub pressure_set: PressureSet,
    /// Compass direction the front points to, degrees clockwise from north.
    pub heading_deg: Option<f64>,
    /// Height of the place above sea level, m.
    pub altitude_m: f64,
    /// Prevailing wind: compass direction it comes from, degrees.
    pub prevailing_wind_deg: Option<f64>,
}

impl Site {
    /// Where the front points to, degrees clockwise from north: nowhere where what is recorded is
    /// not possible.
    #[must_use]
    pub fn front_points_to(&self) -> Option<f64> {
        let recorded = self.heading_deg;
        recorded.filter(|heading| Field::Heading.allows(*heading))
    }
}

/// How warm the inside is in a weather case.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum InsideAir {
    /// Unheated: so many kelvin warmer than outside.
    WarmerBy {
        /// Kelvin above outside.
        kelvin: f64,
    },
    /// Held at a temperature.
    HeldAt {
        /// Temperature, °C.
        temperature_c: f64,
    },
}

/// A wind speed with outside and inside air states.
#[derive(Clone, Debug, PartialEq)]
pub struct WeatherCase {
    /// Its number.
    pub id: WeatherId,
    /// Its name: still, breezy, windy.
    pub name: String,
    /// Wind speed at a weather station, 10 m above open country, m/s.
    pub wind_m_s: f64,
    /// Outside temperature, °C.
    pub outside_c: f64,
    /// Outside relative humidity, %.
    pub outside_rh_percent: f64,
    /// Inside temperature.
    pub inside: InsideAir,
    /// Inside relative humidity, %, where it was read; `None` takes the outside air's water.
    pub inside_rh_percent: Option<f64>,
    /// Share of the season with such weather, any scale; all weights are made to sum to one.
    pub weight: f64,
}

impl WeatherCase {
    /// Inside temperature, °C.
    #[must_use]
    pub fn inside_c(&self) -> f64 {
        match self.inside {
            InsideAir::WarmerBy { kelvin } => self.outside_c + kelvin,
            InsideAir::HeldAt { temperature_c } => temperature_c,
        }
    }
}

/// The states wanted inside.
#[derive(Clone, Debug, PartialEq)]
pub struct Targets {
    /// Relative humidity to hold, %.
    pub rh_percent: f64,
    /// Temperature held while drying, °C.
    pub set_temperature_c: f64,
    /// Frost-guard set point, °C.
    pub frost_guard_c: f64,
    /// Comfort temperature with people inside, °C.
    pub comfort_c: f64,
    /// Outside temperature to size heaters for, °C.
    pub design_outside_c: f64,
}

impl Default for Targets {
    fn default() -> Self {
        Self {
            rh_percent: 55.0,
            set_temperature_c: 10.0,
            frost_guard_c: 5.0,
            comfort_c: 20.0,
            design_outside_c: -5.0,
        }
    }
}

/// What energy and work cost, in the user's own currency.
#[derive(Clone, Debug, PartialEq)]
pub struct Tariffs {
    /// Sign or code of the currency.
    pub currency: String,
    /// Electricity, per kWh.
    pub electricity_per_kwh: Option<f64>,
    /// Gas, per kg.
    pub gas_per_kg: Option<f64>,
    /// Liquid fuel, per litre.
    pub liquid_fuel_per_l: Option<f64>,
    /// Workshop hour.
    pub workshop_per_hour: Option<f64>,
    /// Tax on the workshop's bill, %.
    pub tax_percent: Option<f64>,
    /// The same on material, %, where it is another; unknown: as on work.
    pub material_tax_percent: Option<f64>,
}

impl Default for Tariffs {
    fn default() -> Self {
        Self {
            currency: String::from("EUR"),
            electricity_per_kwh: None,
            gas_per_kg: None,
            liquid_fuel_per_l: None,
            workshop_per_hour: None,
            tax_percent: None,
            material_tax_percent: None,
        }
    }
}
