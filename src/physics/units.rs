//! Factors between SI and the units that results are told in.

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
