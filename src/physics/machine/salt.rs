//! Calcium chloride, the salt of moisture tubs: the air it can live with, the water it takes.

use crate::physics::air::{ZERO_CELSIUS, saturation_pressure};
use crate::physics::root::{Guess, Probe, falling_root};
use std::convert::Infallible;

/// Mass transfer coefficient of a tub in still room air, m/s: natural convection of 2.5 W/(m² K)
/// through the Lewis relation **\[A\]**.
pub const TUB_MASS_TRANSFER: f64 = 2.1e-3;
/// Gas constant of water vapour, J/(kg K) **\[M\]**.
const VAPOUR_GAS_CONSTANT: f64 = 461.5;
/// Relative humidity over the saturated solution by temperature, °C: Conde, Int. J. Thermal
/// Sciences 43 (2004) 367 **\[S\]**.
const SATURATED: [(f64, f64); 4] = [(0.0, 0.43), (5.0, 0.41), (10.0, 0.39), (20.0, 0.34)];
/// Density of water, kg/m³ **\[M\]**.
const WATER_DENSITY: f64 = 1000.0;
/// Steps of the sum over the water taken up.
const STEPS: u32 = 200;
/// Critical temperature of water, K.
const CRITICAL: f64 = 647.096;
/// Humidity to which the share of salt in a solution is found: a search through a whole season asks for it
/// at every step.
const CLOSE: f64 = 1e-14;
/// The saturated solution has about 0.39 of salt between 0 and 20 °C, where the humidity falls by 2.5 for
/// each unit of it: a guess.
const NEAR_SATURATION: Guess = Guess {
    start: 0.39,
    slope: 2.5,
    finest: 0.0,
};

/// Relative humidity over a saturated solution of calcium chloride, 0 to 1.
///
/// Straight lines between the values of Conde 2004 at 0, 5, 10 and 20 °C **\[S\]**; below 0 and
/// above 20 °C the nearest value holds **\[A\]**, which above 20 °C understates the salt a little.
///
/// ```
/// use gapledger::physics::machine::salt::saturated_solution_rh;
/// assert!((saturated_solution_rh(5.0) - 0.41).abs() < 1e-12); // Conde 2004 [S]
/// ```
#[must_use]
pub fn saturated_solution_rh(t_c: f64) -> f64 {
    let [first, .., last] = SATURATED;
    if t_c <= first.0 {
        return first.1;
    }
    for pair in SATURATED.windows(2) {
        if let [(t_one, rh_one), (t_other, rh_other)] = *pair
            && t_c <= t_other
        {
            return rh_one + (rh_other - rh_one) * (t_c - t_one) / (t_other - t_one);
        }
    }
    last.1
}

/// Density of water vapour, kg/m³: `ρ_v = p_v/(461.5 T)`.
#[must_use]
pub fn vapour_density(vapour_pressure: f64, t_c: f64) -> f64 {
    vapour_pressure / (VAPOUR_GAS_CONSTANT * (t_c + ZERO_CELSIUS))
}

/// Vapour density over the saturated solution, kg/m³.
pub(super) fn solution_vapour_density(t_c: f64) -> f64 {
    vapour_density(saturated_solution_rh(t_c) * saturation_pressure(t_c), t_c)
}

/// Relative humidity over a solution of calcium chloride, 0 to 1.
///
/// ```text
/// φ = π₂₅(ξ) f(ξ, θ),  θ = T/647.096 K
/// π₂₅ = 1 − [1 + (ξ/0.478)^−5.20]^−0.40 − 0.018 exp(−(ξ − 0.1)²/0.005)
/// f = 2 − [1 + (ξ/0.31)^3.698]^0.60 + {[1 + (ξ/0.231)^4.584]^0.49 − 1} θ
/// ```
/// where ξ is kg of anhydrous salt per kg of solution. Conde 2004; the constants are from memory
/// **\[M\]** and give the published water uptake at 5 °C **\[S\]** to three digits.
pub(in crate::physics) fn solution_rh(salt_share: f64, t_c: f64) -> f64 {
    let theta = (t_c + ZERO_CELSIUS) / CRITICAL;
    let at_25 = 1.0
        - (1.0 + (salt_share / 0.478).powf(-5.20)).powf(-0.40)
        - 0.018 * (-(salt_share - 0.1).powi(2) / 0.005).exp();
    let a = 2.0 - (1.0 + (salt_share / 0.31).powf(3.698)).powf(0.60);
    let b = (1.0 + (salt_share / 0.231).powf(4.584)).powf(0.49) - 1.0;
    at_25 * (a + b * theta)
}

/// Water that one kg of anhydrous calcium chloride has taken once it is in balance with the air,
/// kg; `None` where the air is too dry for the salt to dissolve, or saturated.
///
/// Solves the relation of Conde 2004 (above) for the salt's share in the solution.
///
/// ```
/// use gapledger::physics::machine::salt::water_at_equilibrium;
/// // Conde 2004 [S]: 5 °C and 80 %: 3.70 kg.
/// let water = water_at_equilibrium(5.0, 0.80).expect("it dissolves");
/// assert!((water - 3.70).abs() < 0.005);
/// assert!(water_at_equilibrium(5.0, 0.35).is_none());
/// ```
#[must_use]
pub fn water_at_equilibrium(t_c: f64, rh: f64) -> Option<f64> {
    if !(rh >= saturated_solution_rh(t_c) && rh < 0.999) {
        return None;
    }
    // The relation falls with the share of salt over this span.
    let over = |salt_share: f64| -> Result<Probe, Infallible> {
        let value = solution_rh(salt_share, t_c) - rh;
        let close = value.abs() <= CLOSE;
        Ok(Probe { value, close })
    };
    let found = falling_root(over, (1e-3, 0.6), NEAR_SATURATION).ok()?;
    let salt_share = f64::midpoint(found.above, found.below);
    Some((1.0 - salt_share) / salt_share)
}

/// Volume of the brine of one kg of anhydrous salt with so much water, m³.
///
/// ```text
/// V = (1 + w)/ρ,   ρ = 1000 (1 + 0.836014 z − 0.436300 z² + 0.105642 z³),   z = 1/w
/// ```
/// where w is the water, kg for each kg of salt, and ρ the density, kg/m³. Conde 2004; the constants
/// are from memory **\[M\]** and give 1184 kg/m³ at a fifth of salt (tables: 1178 **\[M\]**).
pub(in crate::physics) fn brine_volume(water: f64) -> f64 {
    let z = 1.0 / water;
    let density = WATER_DENSITY * (1.0 + z * (0.836_014 + z * (-0.436_300 + z * 0.105_642)));
    (1.0 + water) / density
}

/// How long a tub lasts in air that stays as it is, s.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TubTimes {
    /// Until the salt has dissolved; `None` where the air is too dry for it.
    pub dissolved: Option<f64>,
    /// Until the brine fills the tub; `None` where it comes into balance with the air first.
    pub full: Option<f64>,
}

/// How long `salt` kg of anhydrous calcium chloride last that take `removal` kg/s from air of this
/// temperature, °C, and relative humidity, 0 to 1, while some of it is still solid; the tub holds
/// `volume` m³.
///
/// ```text
/// t_dissolved = M w_sat/D,   t_full = t_dissolved + M ∫ dw/D(w),   D(w) = D (φ − φ_w)/(φ − φ_sat)
/// ```
/// where M is the salt, w the water for each kg of it, w_sat that of the saturated solution and φ_sat
/// the humidity over it ([`saturated_solution_rh`]), φ_w the humidity over the thinner solution (the
/// relation of Conde 2004, above), up to the w at which the brine fills the tub. A tub that the
/// saturated solution fills already is full in proportion **\[A\]**.
///
/// ```
/// use gapledger::physics::machine::salt::tub_times;
/// // 1 kg at 5 °C and 80 % that takes 9.6 mL a day: 1.58 kg to dissolve, 165 days. In balance it has
/// // taken 3.70 kg (Conde 2004 [S]), 3.9 L of brine: a tub of 5 L never fills.
/// let day = 86_400.0;
/// let times = tub_times(1.0, 5e-3, 5.0, 0.8, 9.6e-3 / day);
/// assert!((times.dissolved.expect("it dissolves") / day - 165.0).abs() < 1.0);
/// assert_eq!(times.full, None);
/// // One of 3 L is full after 411.6 days (scipy's quad over the same relation).
/// let full = tub_times(1.0, 3e-3, 5.0, 0.8, 9.6e-3 / day).full.expect("it fills");
/// assert!((full / day - 411.6).abs() < 0.2);
/// ```
#[must_use]
pub fn tub_times(salt: f64, volume: f64, t_c: f64, rh: f64, removal: f64) -> TubTimes {
    let none = TubTimes {
        dissolved: None,
        full: None,
    };
    let saturated_rh = saturated_solution_rh(t_c);
    let Some(saturated) = water_at_equilibrium(t_c, saturated_rh) else {
        return none;
    };
    if !(removal > 0.0 && rh > saturated_rh) {
        return none;
    }
    let dissolved = salt * saturated / removal;
    let fills = |water: f64| salt * brine_volume(water) >= volume;
    if fills(saturated) {
        let full = dissolved * volume / (salt * brine_volume(saturated));
        return TubTimes {
            dissolved: Some(dissolved),
            full: Some(full),
        };
    }
    // The most that it takes: in balance with the air, or without end in saturated air.
    let balance = water_at_equilibrium(t_c, rh).unwrap_or(f64::INFINITY);
    let most = volume * WATER_DENSITY / salt;
    if !volume.is_finite() || !fills(balance.min(most)) {
        return TubTimes {
            dissolved: Some(dissolved),
            full: None,
        };
    }
    let (mut low, mut high) = (saturated, balance.min(most));
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        if fills(middle) {
            high = middle;
        } else {
            low = middle;
        }
    }
    // Midpoints of equal steps of water.
    let step = (high - saturated) / f64::from(STEPS);
    let slowed: f64 = (0..STEPS)
        .map(|at| {
            let water = saturated + (f64::from(at) + 0.5) * step;
            (rh - saturated_rh) / (rh - solution_rh(1.0 / (1.0 + water), t_c))
        })
        .sum();
    TubTimes {
        dissolved: Some(dissolved),
        full: Some(dissolved + salt * slowed * step / removal),
    }
}
