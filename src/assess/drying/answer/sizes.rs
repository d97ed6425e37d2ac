//! What to look for when buying: removal needed, rated capacities, heaters.

use crate::assess::answer::Answer;
use crate::survey::{MachineKind, WeatherId};

/// What to look for when buying.
#[derive(Clone, Debug, PartialEq)]
pub struct Sizing {
    /// Removal needed against the humidity to hold, one curve for each weather case, at the
    /// comparison's temperature.
    pub against_rh: Vec<NeedCurve>,
    /// Removal needed against the air changes, in the air of the windiest case.
    pub against_ach: Answer<Vec<AchPoint>>,
    /// Rated capacities.
    pub capacities: Vec<Capacity>,
    /// Heaters.
    pub heaters: Vec<HeaterSize>,
}

impl Sizing {
    /// The rating of a heater to look for, W, where it is known.
    #[must_use]
    pub fn look_for_w(&self, heater_for: HeaterFor) -> Option<f64> {
        let mut heaters = self.heaters.iter();
        let size = heaters.find(|size| size.heater_for == heater_for)?;
        size.rating_w.as_ref().ok().copied()
    }
}

/// Removal needed against the humidity to hold.
#[derive(Clone, Debug, PartialEq)]
pub struct NeedCurve {
    /// The weather case.
    pub id: WeatherId,
    /// Points: relative humidity, removal in kg/s.
    pub points: Answer<Vec<(f64, f64)>>,
}

/// Removal needed at one air change.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AchPoint {
    /// Air changes at inside-air density, per hour.
    pub ach_per_h: f64,
    /// With the inside at outside temperature, kg/s.
    pub at_outside_temperature_kg_s: f64,
    /// With the inside at the set temperature, kg/s.
    pub at_set_temperature_kg_s: f64,
}

/// The weather that a size is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum SizedFor {
    /// A weather case.
    Case(WeatherId),
    /// The design outside temperature in the windiest case's wind.
    Design,
}

/// Whether a size can be bought.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Offer {
    /// No water has to be removed.
    NoneNeeded,
    /// Makers offer such a size.
    Offered,
    /// No maker does: the air has to be lessened first.
    LessAir {
        /// The largest size offered at the rating state, kg/s.
        largest_kg_s: f64,
        /// Air changes at inside-air density now, per hour.
        now_per_h: f64,
        /// Air changes at which the largest size would just hold the target, per hour.
        at_most_per_h: f64,
        /// Air changes left with every gap sealed that may be, per hour: where that is more, no
        /// sealing comes to it.
        least_per_h: f64,
    },
    /// No maker does, and less air would not help: what is given off inside alone is too much.
    LessWater {
        /// The largest size offered at the rating state, kg/s.
        largest_kg_s: f64,
        /// Outside air is drier than what is to be held: more of it would carry the water off.
        air_dries: bool,
    },
}

/// The rated capacity to look for.
#[derive(Clone, Debug, PartialEq)]
pub struct Capacity {
    /// Kind of machine.
    pub kind: MachineKind,
    /// For which weather.
    pub sized_for: SizedFor,
    /// Inside temperature held, °C.
    pub inside_c: f64,
    /// Rating state that makers state capacities at: temperature, °C.
    pub rated_c: f64,
    /// And relative humidity.
    pub rated_rh: f64,
    /// Water to remove there, kg/s.
    pub needed_kg_s: Answer<f64>,
    /// Capacity at the rating state that removes it, kg/s, the margin added.
    pub rated_kg_s: Answer<f64>,
    /// Whether such a size can be bought.
    pub offer: Answer<Offer>,
}

/// What a heater is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum HeaterFor {
    /// Keeping the frost out.
    FrostGuard,
    /// The set temperature for drying.
    SetTemperature,
    /// Comfort.
    Comfort,
}

impl HeaterFor {
    /// Its words.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::FrostGuard => "frost guard",
            Self::SetTemperature => "set temperature while drying",
            Self::Comfort => "comfort",
        }
    }
}

/// A heater's size.
#[derive(Clone, Debug, PartialEq)]
pub struct HeaterSize {
    /// What it is for.
    pub heater_for: HeaterFor,
    /// Temperature to hold, °C.
    pub inside_c: f64,
    /// At the design outside temperature in the windiest case's wind: heat with the air, W.
    pub air_w: Answer<f64>,
    /// Heat through the fabric, W.
    pub fabric_w: f64,
    /// Rating to look for, both together with the margin, W.
    pub rating_w: Answer<f64>,
    /// Heat over a month of the weather cases by their shares, kWh.
    pub kwh_per_month: Answer<f64>,
}
