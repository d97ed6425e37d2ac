//! Wood and board in balance with the air.

/// Moisture of wood in balance with the air, share of its dry mass.
///
/// ```text
/// u = 18/W [K φ/(1 − K φ) + (K₁ K φ + 2 K₁ K₂ K² φ²)/(1 + K₁ K φ + K₁ K₂ K² φ²)]
/// W = 349 + 1.29 t + 0.0135 t²      K = 0.805 + 0.000736 t − 0.00000273 t²
/// K₁ = 6.27 − 0.00938 t − 0.000303 t²   K₂ = 1.91 + 0.0407 t − 0.000293 t²
/// ```
/// where φ is the relative humidity, 0 to 1 (taken as 0.99 at most), and t in °C. Hailwood and
/// Horrobin's form with the constants of the Wood Handbook of the US Forest Products Laboratory
/// **\[M\]**. Plywood, board and cushions take somewhat less **\[A\]**.
///
/// ```
/// use gapledger::physics::contents::equilibrium_moisture;
/// // The handbook's table [M]: 9.2 % at 21.1 °C and 50 %, 16.5 % at −1.1 °C and 80 %.
/// assert!((equilibrium_moisture(21.1, 0.5) - 0.092).abs() < 0.0006);
/// assert!((equilibrium_moisture(-1.1, 0.8) - 0.165).abs() < 0.0006);
/// ```
#[must_use]
pub fn equilibrium_moisture(t_c: f64, rh: f64) -> f64 {
    let w = 349.0 + 1.29 * t_c + 0.0135 * t_c * t_c;
    let k = 0.805 + 0.000_736 * t_c - 0.000_002_73 * t_c * t_c;
    let one = 6.27 - 0.009_38 * t_c - 0.000_303 * t_c * t_c;
    let two = 1.91 + 0.0407 * t_c - 0.000_293 * t_c * t_c;
    let held = k * rh.clamp(0.0, 0.99);
    let (first, second) = (one * held, one * two * held * held);
    18.0 / w * (held / (1.0 - held) + (first + 2.0 * second) / (1.0 + first + second))
}

/// Water that contents give off until they are in balance with the air, kg; none if they are
/// drier already: `m (u − u_eq)`.
#[must_use]
pub fn water_to_give_off(dry_mass: f64, moisture: f64, balance_moisture: f64) -> f64 {
    (dry_mass * (moisture - balance_moisture)).max(0.0)
}
