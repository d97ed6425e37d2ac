//! Factors between SI and the units that people read and type.

/// Seconds in an hour.
pub const SECONDS_PER_HOUR: f64 = 3600.0;
/// Seconds in a day.
pub const SECONDS_PER_DAY: f64 = 86_400.0;
/// Litres of water a day for each kg/s: a litre holds a kilogram.
pub const LITRES_PER_DAY: f64 = SECONDS_PER_DAY;
/// Grams an hour for each kg/s.
pub const GRAMS_PER_HOUR: f64 = 1000.0 * SECONDS_PER_HOUR;
/// Joules in a kilowatt-hour.
pub const JOULES_PER_KWH: f64 = 3.6e6;
/// Grams in a kilogram.
pub const GRAMS_PER_KG: f64 = 1000.0;
/// Litres in a cubic metre.
pub const LITRES_PER_M3: f64 = 1000.0;
/// Centimetres in a metre.
pub const CM_PER_M: f64 = 100.0;
/// Minutes in an hour.
pub const MINUTES_PER_HOUR: f64 = 60.0;
/// Millimetres in a metre.
pub const MM_PER_M: f64 = 1000.0;
/// Square millimetres in a square metre.
pub const MM2_PER_M2: f64 = 1e6;
/// Square centimetres in a square metre.
pub const CM2_PER_M2: f64 = 1e4;
/// A millimetre, m.
pub const MM: f64 = 1e-3;
/// A square millimetre, m².
pub const MM2: f64 = 1e-6;
