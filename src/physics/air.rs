//! Moist air: saturation, humidity, density, enthalpy, dew point, viscosity.
//!
//! Formulas of ASHRAE Handbook Fundamentals 2017, chapter 1 (Hyland and Wexler) **\[S\]**.

use thiserror::Error;

/// Pressure of the standard atmosphere at sea level, Pa.
pub const STANDARD_PRESSURE: f64 = 101_325.0;
/// Acceleration due to gravity, m/s².
pub const GRAVITY: f64 = 9.81;
/// 0 °C in kelvin.
pub const ZERO_CELSIUS: f64 = 273.15;
/// Lowest and highest air temperature this program accepts, °C.
pub const TEMPERATURE_SPAN_C: (f64, f64) = (-60.0, 60.0);

/// Triple point of water, K: the switch between the ice and the water formula.
const TRIPLE_POINT: f64 = 273.16;
/// Gas constant of dry air, J/(kg K).
const DRY_AIR_GAS_CONSTANT: f64 = 287.042;
/// Molar mass of water over that of dry air.
const MOLAR_MASS_RATIO: f64 = 0.621_945;
/// Span of the saturation formulas, K (−100 to 200 °C).
const FORMULA_SPAN: (f64, f64) = (173.15, 473.15);

/// Why a state of moist air could not be made.
#[derive(Clone, Copy, Debug, Error, PartialEq)]
pub enum AirError {
    /// Temperature outside [`TEMPERATURE_SPAN_C`] or not a number.
    #[error("The air temperature must lie between -60 and 60 °C, not {0} °C.")]
    Temperature(f64),
    /// Relative humidity outside 0 to 1.
    #[error("The relative humidity must lie between 0 and 1 (0 and 100 %), not {0}.")]
    RelativeHumidity(f64),
    /// Humidity ratio negative or not a number.
    #[error("The humidity ratio must be zero or a positive number, not {0}.")]
    HumidityRatio(f64),
    /// Total pressure not a positive number.
    #[error("The air pressure must be a positive number of pascals, not {0}.")]
    Pressure(f64),
    /// Vapour pressure at or above the total pressure.
    #[error(
        "The vapour pressure of {vapour_pressure} Pa must be below the air pressure of {pressure} Pa."
    )]
    VapourAboveTotal {
        /// Vapour pressure asked for, Pa.
        vapour_pressure: f64,
        /// Total pressure, Pa.
        pressure: f64,
    },
}

/// ln p and its derivative by T, from T in K.
type LnSaturation = fn(f64) -> (f64, f64);

/// ln p over ice and its derivative by T. T in K.
fn ln_saturation_over_ice(t: f64) -> (f64, f64) {
    let ln = -5.674_535_9e3 / t
        + 6.392_524_7
        + t * (-9.677_843e-3 + t * (6.221_570_1e-7 + t * (2.074_782_5e-9 - t * 9.484_024e-13)))
        + 4.163_501_9 * t.ln();
    let slope = 5.674_535_9e3 / (t * t) - 9.677_843e-3
        + t * (2.0 * 6.221_570_1e-7 + t * (3.0 * 2.074_782_5e-9 - t * 4.0 * 9.484_024e-13))
        + 4.163_501_9 / t;
    (ln, slope)
}

/// ln p over liquid water and its derivative by T. T in K.
fn ln_saturation_over_water(t: f64) -> (f64, f64) {
    let ln = -5.800_220_6e3 / t
        + 1.391_499_3
        + t * (-4.864_023_9e-2 + t * (4.176_476_8e-5 - t * 1.445_209_3e-8))
        + 6.545_967_3 * t.ln();
    let slope = 5.800_220_6e3 / (t * t) - 4.864_023_9e-2
        + t * (2.0 * 4.176_476_8e-5 - t * 3.0 * 1.445_209_3e-8)
        + 6.545_967_3 / t;
    (ln, slope)
}

/// Saturation vapour pressure, over ice up to the triple point (0.01 °C), over water above.
///
/// ```text
/// ice    ln p = −5.6745359e3/T + 6.3925247 − 9.677843e−3 T + 6.2215701e−7 T²
///               + 2.0747825e−9 T³ − 9.484024e−13 T⁴ + 4.1635019 ln T
/// water  ln p = −5.8002206e3/T + 1.3914993 − 4.8640239e−2 T + 4.1764768e−5 T²
///               − 1.4452093e−8 T³ + 6.5459673 ln T
/// ```
/// where p is in Pa and T in K; `t_c` is in °C. ASHRAE Fundamentals 2017 ch. 1 eqs 5 and 6 **\[S\]**.
/// Switching at the triple point rather than at 0 °C keeps the inversion to a dew point sound.
///
/// ```
/// use gapledger::physics::air::saturation_pressure;
/// // ASHRAE Fundamentals 2017 tables [S]: 3169.7 Pa at 25 °C, 401.74 Pa over ice at −5 °C.
/// assert!((saturation_pressure(25.0) / 3169.7 - 1.0).abs() < 3e-4);
/// assert!((saturation_pressure(-5.0) / 401.74 - 1.0).abs() < 3e-4);
/// ```
pub fn saturation_pressure(t_c: f64) -> f64 {
    let t = t_c + ZERO_CELSIUS;
    if t <= TRIPLE_POINT {
        ln_saturation_over_ice(t).0.exp()
    } else {
        ln_saturation_over_water(t).0.exp()
    }
}

/// Saturation vapour pressure over liquid water at any temperature, also below freezing, Pa.
///
/// Hygrometers and weather stations state RH over liquid water below 0 °C (WMO practice
/// **\[M\]**). The formula is the water branch of [`saturation_pressure`].
pub fn saturation_pressure_over_water(t_c: f64) -> f64 {
    ln_saturation_over_water(t_c + ZERO_CELSIUS).0.exp()
}

/// Dew point (below the triple point: frost point) of a vapour pressure, °C.
///
/// Inverts [`saturation_pressure`] to better than 1e-9 K. `None` where there is no answer: dry
/// air (zero pressure) has no dew point, nor has a pressure outside the formulas' −100 to
/// 200 °C.
///
/// ```
/// use gapledger::physics::air::{dew_point, saturation_pressure};
/// let t_c = dew_point(saturation_pressure(7.5)).expect("inside the span");
/// assert!((t_c - 7.5).abs() < 1e-9);
/// assert!(dew_point(0.0).is_none());
/// ```
pub fn dew_point(vapour_pressure: f64) -> Option<f64> {
    if !(vapour_pressure > 0.0 && vapour_pressure.is_finite()) {
        return None;
    }
    let target = vapour_pressure.ln();
    // The branches do not quite meet at the triple point: the water branch starts 8e-8 K above
    // the end of the ice branch. A pressure in that sliver is the triple point's own.
    let over_ice = target <= ln_saturation_over_water(TRIPLE_POINT).0;
    let (law, mut low, mut high): (LnSaturation, f64, f64) = if over_ice {
        (ln_saturation_over_ice, FORMULA_SPAN.0, TRIPLE_POINT)
    } else {
        (ln_saturation_over_water, TRIPLE_POINT, FORMULA_SPAN.1)
    };
    if target < law(low).0 && over_ice || target > law(high).0 && !over_ice {
        return None;
    }
    let mut t = 0.5 * (low + high);
    for _ in 0..100 {
        let (ln, slope) = law(t);
        if ln > target {
            high = t;
        } else {
            low = t;
        }
        // Newton in 1/T, in which ln p is almost a straight line.
        let inverse = 1.0 / t - (target - ln) / (slope * t * t);
        let next = 1.0 / inverse;
        let next = if next >= low && next <= high {
            next
        } else {
            0.5 * (low + high)
        };
        let done = (next - t).abs() < 1e-11;
        t = next;
        if done {
            break;
        }
    }
    Some(t - ZERO_CELSIUS)
}

/// Pressure of the standard atmosphere at an altitude, Pa.
///
/// ```text
/// p = 101325 (1 − 2.25577e−5 Z)^5.2559
/// ```
/// where Z is the altitude in m, −5000 to 11000. ASHRAE Fundamentals 2017 ch. 1 eq. 3 **\[M\]**.
///
/// ```
/// use gapledger::physics::air::pressure_at_altitude;
/// // 95461 Pa at 500 m, the pressure of psychrolib's published tests [S].
/// assert!((pressure_at_altitude(500.0) - 95461.0).abs() < 1.0);
/// ```
pub fn pressure_at_altitude(altitude_m: f64) -> f64 {
    STANDARD_PRESSURE * (1.0 - 2.255_77e-5 * altitude_m).powf(5.2559)
}

/// Dynamic viscosity of air, Pa s, by Sutherland's formula **\[M\]**.
///
/// ```text
/// μ = 1.716e−5 (T/273.15)^1.5 (273.15 + 110.4)/(T + 110.4)
/// ```
/// where T is in K; `t_c` is in °C.
pub fn viscosity(t_c: f64) -> f64 {
    let t = t_c + ZERO_CELSIUS;
    let ratio = t / 273.15;
    1.716e-5 * ratio * ratio.sqrt() * (273.15 + 110.4) / (t + 110.4)
}

/// Humidity ratio from the vapour pressure, kg of vapour per kg of dry air.
///
/// ```text
/// W = 0.621945 p_v/(p − p_v)
/// ```
/// where p_v is the vapour pressure and p the total pressure, both Pa, p_v < p.
/// ASHRAE Fundamentals 2017 ch. 1 **\[S\]**.
///
/// ```
/// use gapledger::physics::air::humidity_ratio;
/// // psychrolib's published tests [S]
/// assert!((humidity_ratio(3169.7, 95461.0) / 0.021_360_399_8 - 1.0).abs() < 1e-6);
/// ```
pub fn humidity_ratio(vapour_pressure: f64, pressure: f64) -> f64 {
    MOLAR_MASS_RATIO * vapour_pressure / (pressure - vapour_pressure)
}

/// Vapour pressure from the humidity ratio, Pa: `p_v = p W/(0.621945 + W)`, the inverse of
/// [`humidity_ratio`].
#[must_use]
pub fn vapour_pressure(humidity_ratio: f64, pressure: f64) -> f64 {
    pressure * humidity_ratio / (MOLAR_MASS_RATIO + humidity_ratio)
}

/// A state of moist air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MoistAir {
    /// Dry-bulb temperature, °C.
    pub t_c: f64,
    /// Humidity ratio W, kg of vapour per kg of dry air.
    pub humidity_ratio: f64,
    /// Total pressure, Pa.
    pub pressure: f64,
}

impl MoistAir {
    /// Air with a given humidity ratio.
    ///
    /// # Errors
    /// Temperature outside −60 to 60 °C, negative humidity ratio, pressure not positive, or any
    /// of them not finite.
    pub fn new(t_c: f64, humidity_ratio: f64, pressure: f64) -> Result<Self, AirError> {
        check_temperature_and_pressure(t_c, pressure)?;
        if !(humidity_ratio.is_finite() && humidity_ratio >= 0.0) {
            return Err(AirError::HumidityRatio(humidity_ratio));
        }
        Ok(Self {
            t_c,
            humidity_ratio,
            pressure,
        })
    }

    /// Air with a given relative humidity (0 to 1), over ice below the triple point.
    ///
    /// # Errors
    /// As [`MoistAir::new`], and a relative humidity outside 0 to 1 or a vapour pressure that
    /// reaches the total pressure.
    ///
    /// ```
    /// use gapledger::physics::air::{MoistAir, STANDARD_PRESSURE};
    /// let outside = MoistAir::from_relative_humidity(5.0, 0.87, STANDARD_PRESSURE)?;
    /// assert!((outside.humidity_ratio - 0.004694).abs() < 2e-6);
    /// # Ok::<(), gapledger::physics::AirError>(())
    /// ```
    pub fn from_relative_humidity(t_c: f64, rh: f64, pressure: f64) -> Result<Self, AirError> {
        check_temperature_and_pressure(t_c, pressure)?;
        if !(0.0..=1.0).contains(&rh) {
            return Err(AirError::RelativeHumidity(rh));
        }
        let vapour_pressure = rh * saturation_pressure(t_c);
        if vapour_pressure >= pressure {
            return Err(AirError::VapourAboveTotal {
                vapour_pressure,
                pressure,
            });
        }
        Self::new(t_c, humidity_ratio(vapour_pressure, pressure), pressure)
    }

    /// Partial pressure of the vapour, Pa: `p_v = p W/(0.621945 + W)`.
    pub fn vapour_pressure(&self) -> f64 {
        vapour_pressure(self.humidity_ratio, self.pressure)
    }

    /// Relative humidity, 0 to 1 (above 1: more vapour than the air can hold), over ice below
    /// the triple point.
    pub fn relative_humidity(&self) -> f64 {
        self.vapour_pressure() / saturation_pressure(self.t_c)
    }

    /// Volume per kg of dry air, m³/kg: `v = 287.042 T (1 + 1.607858 W)/p`.
    /// ASHRAE Fundamentals 2017 ch. 1 **\[S\]**.
    pub fn specific_volume(&self) -> f64 {
        DRY_AIR_GAS_CONSTANT * (self.t_c + ZERO_CELSIUS) * (1.0 + 1.607_858 * self.humidity_ratio)
            / self.pressure
    }

    /// Density of the moist air, kg/m³: `ρ = (1 + W)/v`.
    ///
    /// ```
    /// use gapledger::physics::air::MoistAir;
    /// // psychrolib's published tests [S]
    /// let air = MoistAir::new(30.0, 0.02, 95461.0)?;
    /// assert!((air.density() / 1.084_119_9 - 1.0).abs() < 1e-6);
    /// # Ok::<(), gapledger::physics::AirError>(())
    /// ```
    pub fn density(&self) -> f64 {
        (1.0 + self.humidity_ratio) / self.specific_volume()
    }

    /// Enthalpy, J per kg of dry air, zero for dry air at 0 °C:
    /// `h = 1.006 t + W (2501 + 1.86 t)` kJ/kg. ASHRAE Fundamentals 2017 ch. 1 **\[S\]**.
    pub fn enthalpy(&self) -> f64 {
        1006.0 * self.t_c + self.humidity_ratio * (2.501e6 + 1860.0 * self.t_c)
    }

    /// Dew point, °C; `None` for dry air. See [`dew_point`].
    pub fn dew_point_c(&self) -> Option<f64> {
        dew_point(self.vapour_pressure())
    }

    /// Dynamic viscosity, Pa s. See [`viscosity`]; the vapour's share is neglected.
    pub fn viscosity(&self) -> f64 {
        viscosity(self.t_c)
    }
}

fn check_temperature_and_pressure(t_c: f64, pressure: f64) -> Result<(), AirError> {
    if !(TEMPERATURE_SPAN_C.0..=TEMPERATURE_SPAN_C.1).contains(&t_c) {
        return Err(AirError::Temperature(t_c));
    }
    if !(pressure.is_finite() && pressure > 0.0) {
        return Err(AirError::Pressure(pressure));
    }
    Ok(())
}
