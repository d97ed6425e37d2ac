//! How much colder than the air the sky makes roof and glass on a clear night.

/// Which way a surface faces the sky.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Sees {
    /// All of it: the roof and what is set in it.
    TheWholeSky,
    /// Half of it: glass that stands upright.
    HalfTheSky,
}

/// Wind at the body, m/s, with the fall of roof and of upright glass, K **\[S\]**: worked out by
/// this project from Berdahl and Martin's clear sky (1984) and McAdams' coefficient of heat
/// transfer, `h_e = 2.8 + 3.0 U + 4.5`, W/m²K.
const FALLS: [(f64, f64, f64); 3] = [(0.5, 9.5, 5.0), (2.0, 6.0, 3.0), (4.0, 4.0, 2.0)];

/// Kelvin by which the outside that a surface sees lies below the outside air on a clear night,
/// for the wind at the height of the body in m/s; under cloud it is none.
///
/// Linear between 0.5, 2 and 4 m/s **\[A\]**. No case has less than 0.5 m/s at the body; above
/// 4 m/s the fall is held, though it lessens further there, so that a surface is rather told too
/// cold than too warm **\[A\]**.
///
/// ```
/// use gapledger::physics::clear_night::{Sees, kelvin};
/// assert!((kelvin(Sees::TheWholeSky, 2.0) - 6.0).abs() < 1e-12);
/// assert!((kelvin(Sees::HalfTheSky, 1.25) - 4.0).abs() < 1e-12);
/// ```
pub fn kelvin(sees: Sees, wind: f64) -> f64 {
    let fall = |(_, roof, glass): (f64, f64, f64)| match sees {
        Sees::TheWholeSky => roof,
        Sees::HalfTheSky => glass,
    };
    let [calm, light, fresh] = FALLS;
    let between = |low: (f64, f64, f64), high: (f64, f64, f64)| {
        let share = ((wind - low.0) / (high.0 - low.0)).clamp(0.0, 1.0);
        fall(low) + share * (fall(high) - fall(low))
    };
    if wind < light.0 {
        between(calm, light)
    } else {
        between(light, fresh)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Fall of a surface by its radiation balance, K: `F ε (σ T⁴ − IR)/h_e`, with the clear sky
    /// of Berdahl and Martin 1984 [S] and McAdams' h_e [S] at 5 °C, dew point 2.9 °C, 1013 hPa,
    /// midnight, where the sky's emissivity is 0.742 [S].
    fn by_radiation(view: f64, wind: f64) -> f64 {
        let lost = 0.9 * (1.0 - 0.742) * 5.670_374e-8 * 278.15_f64.powi(4);
        view * lost / (2.8 + 3.0 * wind + 4.5)
    }

    #[test]
    fn the_fall_is_that_of_the_radiation_balance() {
        for wind in [0.5, 1.0, 2.0, 3.0, 4.0] {
            for (sees, view) in [(Sees::TheWholeSky, 1.0), (Sees::HalfTheSky, 0.5)] {
                let (found, expected) = (kelvin(sees, wind), by_radiation(view, wind));
                // Rounded to half a kelvin, and linear where the balance is curved.
                assert!((found - expected).abs() < 0.9, "{wind}: {found} {expected}");
            }
        }
    }

    #[test]
    fn more_wind_never_makes_the_sky_colder() {
        for sees in [Sees::TheWholeSky, Sees::HalfTheSky] {
            let falls: Vec<f64> = (0..60)
                .map(|at| kelvin(sees, 0.2 * f64::from(at)))
                .collect();
            assert!(falls.windows(2).all(|pair| pair[1] <= pair[0]));
            assert!((kelvin(sees, 20.0) - kelvin(sees, 4.0)).abs() < 1e-12);
        }
    }
}
