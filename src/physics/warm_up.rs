//! How long a vehicle takes to warm up: one heat capacity and one conductance.

/// Heat capacity of a vehicle's inside where none is given, J/K for each m³: furniture, linings
/// and air of about 20 kg/m³ at 1.5 kJ/(kg K) **\[A\]**.
pub const USUAL_HEAT_CAPACITY_PER_M3: f64 = 30e3;

/// Time to warm up by ΔT, s; `None` where the heat never suffices.
///
/// ```text
/// t = (C/H) ln(P/(P − H ΔT))
/// ```
/// where C is the heat capacity in J/K, H what fabric and air take in W/K, P the heat in W: the
/// solution of C dT/dt = P − H (T − T_o) from T = T_o.
///
/// ```
/// use gapledger::physics::warm_up::time;
/// // 750 kJ/K, 100 W/K, 2 kW, 10 K: 7500 ln 2 s.
/// let seconds = time(750e3, 100.0, 2000.0, 10.0).expect("it suffices");
/// assert!((seconds - 7500.0 * 2.0_f64.ln()).abs() < 1e-9);
/// assert!(time(750e3, 100.0, 900.0, 10.0).is_none());
/// ```
#[must_use]
pub fn time(heat_capacity: f64, conductance: f64, power: f64, rise: f64) -> Option<f64> {
    if rise <= 0.0 {
        return Some(0.0);
    }
    let needed = conductance * rise;
    if power <= needed {
        return None;
    }
    if conductance > 0.0 {
        Some(-heat_capacity / conductance * (-needed / power).ln_1p())
    } else {
        Some(heat_capacity * rise / power)
    }
}

/// Heat that warms up by ΔT in a given time, W.
///
/// ```text
/// P = H ΔT/(1 − exp(−H t/C))
/// ```
/// The inverse of [`time`].
///
/// ```
/// use gapledger::physics::warm_up::{power, time};
/// let watts = power(750e3, 100.0, 3600.0, 10.0);
/// let seconds = time(750e3, 100.0, watts, 10.0).expect("it suffices");
/// assert!((seconds - 3600.0).abs() < 1e-6);
/// ```
#[must_use]
pub fn power(heat_capacity: f64, conductance: f64, seconds: f64, rise: f64) -> f64 {
    let rise = rise.max(0.0);
    if conductance > 0.0 {
        conductance * rise / -(-conductance * seconds / heat_capacity).exp_m1()
    } else {
        heat_capacity * rise / seconds
    }
}
