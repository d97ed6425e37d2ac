//! Monthly means, from which the weather of each hour can be made.

/// Means of one month.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MonthlyWeather {
    /// Mean temperature, °C.
    pub mean_c: f64,
    /// Warmest less coldest hour of a mean day, K.
    pub daily_range_k: f64,
    /// Mean relative humidity, %.
    pub rh_percent: f64,
    /// Mean wind at 10 m over open country, m/s.
    pub wind_m_s: f64,
    /// Sunshine, hours a day.
    pub sunshine_h_per_day: f64,
}

/// What a winter is made of.
#[derive(Clone, Debug, PartialEq)]
pub struct WinterMeans {
    /// Degrees north; south of the equator negative.
    pub latitude_deg: f64,
    /// Height above sea level, m.
    pub altitude_m: f64,
    /// Outside temperature to size heaters for, °C.
    pub design_outside_c: f64,
    /// How far the mean of a day strays from the month's: standard deviation, K.
    pub day_to_day_k: f64,
    /// January to December.
    pub months: [MonthlyWeather; 12],
}
