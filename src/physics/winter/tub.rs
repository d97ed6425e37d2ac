//! A tub of salt over a season: it dissolves, thins, and is full.

use crate::physics::air::saturation_pressure;
use crate::physics::machine::salt::{
    TUB_MASS_TRANSFER, brine_volume, saturated_solution_rh, solution_rh, vapour_density,
    water_at_equilibrium,
};

/// Density of water, kg/m³.
const WATER: f64 = 1000.0;

/// A tub of calcium chloride.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tub {
    /// Its free surface, m².
    pub surface: f64,
    /// Anhydrous salt in it at first, kg; `None`: it never runs out.
    pub salt: Option<f64>,
    /// Brine that it holds, m³; `None`: it never fills.
    pub holds: Option<f64>,
}

/// How a tub stands in one step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Standing {
    surface: f64,
    /// Relative humidity over its brine.
    pub(super) rh: f64,
    full: bool,
}

impl Tub {
    /// With so much water in it, kg, at a temperature, °C.
    pub(super) fn standing(&self, water: f64, t_c: f64) -> Standing {
        let saturated_rh = saturated_solution_rh(t_c);
        let whole = Standing {
            surface: self.surface,
            rh: saturated_rh,
            full: false,
        };
        // Without the weight of its salt it is as full as the water alone makes it.
        let Some(salt) = self.salt.filter(|salt| *salt > 0.0) else {
            return Standing {
                full: self.holds.is_some_and(|holds| water >= holds * WATER),
                ..whole
            };
        };
        let of_salt = water / salt;
        // Water for each kg of salt that the saturated solution has.
        let saturated = water_at_equilibrium(t_c, saturated_rh).unwrap_or(1.5);
        let (rh, volume) = if of_salt <= saturated {
            (saturated_rh, brine_volume(saturated) * of_salt / saturated)
        } else {
            (
                solution_rh(1.0 / (1.0 + of_salt), t_c).max(saturated_rh),
                brine_volume(of_salt),
            )
        };
        Standing {
            rh,
            full: self.holds.is_some_and(|holds| salt * volume >= holds),
            ..whole
        }
    }
}

impl Standing {
    /// Water taken from air with a vapour pressure, Pa, at a temperature, °C, kg/s.
    ///
    /// ```text
    /// D = h_m A (ρ_v − φ_w ρ_sat(T)), never negative
    /// ```
    /// where h_m is that of a tub, φ_w the humidity over its brine, and A its surface.
    pub(super) fn removal(&self, vapour: f64, t_c: f64) -> f64 {
        if self.full {
            return 0.0;
        }
        let over = vapour_density(self.rh * saturation_pressure(t_c), t_c);
        TUB_MASS_TRANSFER * self.surface * (vapour_density(vapour, t_c) - over).max(0.0)
    }

    /// Whether it takes nothing more.
    pub(super) fn is_full(&self) -> bool {
        self.full
    }
}
