//! Five typical winters that come with the program, so that nobody needs a weather file to start.
//!
//! All of them are invented: none is the climate of a place, and every figure is an assumption of
//! this project **\[A\]**. They are monthly means, from which the weather of each hour is made.

pub use crate::climate::{MonthlyWeather, WinterMeans};

/// A kind of winter.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum TypicalWinter {
    /// By a mild sea: wet, windy, little frost.
    MildMaritime,
    /// Inland plains: weeks around freezing.
    Continental,
    /// A valley between high mountains: cold nights, sun by day.
    Alpine,
    /// Far north: long frost, hardly any sun.
    Northern,
    /// A dry plateau: great swing between day and night, much sun.
    HighPlain,
}

impl TypicalWinter {
    /// All five, from the mildest.
    pub const ALL: [Self; 5] = [
        Self::MildMaritime,
        Self::HighPlain,
        Self::Continental,
        Self::Alpine,
        Self::Northern,
    ];

    /// What it is called.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::MildMaritime => "mild maritime",
            Self::Continental => "continental",
            Self::Alpine => "alpine",
            Self::Northern => "northern",
            Self::HighPlain => "high plain",
        }
    }

    /// What such a winter is like, and that its figures are assumed.
    #[must_use]
    pub fn description(self) -> &'static str {
        match self {
            Self::MildMaritime => {
                "Mild, damp and windy, with few nights of frost. Invented monthly means (assumed), of no real place."
            }
            Self::Continental => {
                "Grey weeks around freezing, with spells of hard frost. Invented monthly means (assumed), of no real place."
            }
            Self::Alpine => {
                "A high valley: clear cold nights, sun by day, little wind. Invented monthly means (assumed), of no real place."
            }
            Self::Northern => {
                "Months of frost with hardly any sun. Invented monthly means (assumed), of no real place."
            }
            Self::HighPlain => {
                "A dry plateau: sunny days, frosty nights, wind. Invented monthly means (assumed), of no real place."
            }
        }
    }

    /// Its figures **\[A\]**.
    #[must_use]
    pub fn means(self) -> WinterMeans {
        let [latitude_deg, altitude_m, design_outside_c, day_to_day_k] = self.place();
        WinterMeans {
            latitude_deg,
            altitude_m,
            design_outside_c,
            day_to_day_k,
            months: self.rows().map(|row| {
                let [
                    mean_c,
                    daily_range_k,
                    rh_percent,
                    wind_m_s,
                    sunshine_h_per_day,
                ] = row;
                MonthlyWeather {
                    mean_c,
                    daily_range_k,
                    rh_percent,
                    wind_m_s,
                    sunshine_h_per_day,
                }
            }),
        }
    }

    /// Latitude, altitude, design temperature, and how far days stray from their month.
    fn place(self) -> [f64; 4] {
        match self {
            Self::MildMaritime => [52.0, 60.0, -4.0, 3.2],
            Self::Continental => [50.0, 260.0, -14.0, 4.4],
            Self::Alpine => [47.0, 1150.0, -17.0, 4.2],
            Self::Northern => [63.0, 120.0, -27.0, 5.6],
            Self::HighPlain => [41.0, 900.0, -9.0, 3.6],
        }
    }

    /// Temperature °C, daily range K, RH %, wind m/s, sunshine h a day; January to December.
    fn rows(self) -> [[f64; 5]; 12] {
        match self {
            Self::MildMaritime => [
                [4.8, 5.0, 87.0, 5.2, 1.7],
                [5.0, 5.9, 84.0, 5.0, 2.6],
                [6.7, 7.3, 80.0, 4.7, 3.8],
                [9.1, 8.9, 75.0, 4.3, 5.4],
                [12.3, 9.4, 74.0, 4.0, 6.4],
                [15.2, 9.4, 74.0, 3.7, 6.5],
                [17.2, 9.5, 74.0, 3.6, 6.6],
                [17.0, 9.2, 76.0, 3.6, 6.0],
                [14.5, 8.5, 79.0, 3.9, 4.8],
                [11.2, 6.9, 84.0, 4.3, 3.3],
                [7.8, 5.6, 87.0, 4.7, 2.1],
                [5.4, 4.9, 88.0, 5.0, 1.5],
            ],
            Self::Continental => [
                [-1.6, 5.2, 85.0, 3.6, 1.7],
                [-0.3, 6.6, 81.0, 3.4, 2.8],
                [4.2, 8.9, 74.0, 3.6, 4.2],
                [9.4, 11.1, 67.0, 3.4, 5.9],
                [14.4, 11.6, 68.0, 3.0, 7.1],
                [17.5, 11.5, 69.0, 2.9, 7.6],
                [19.3, 11.7, 69.0, 2.8, 7.7],
                [18.8, 11.7, 71.0, 2.6, 7.2],
                [14.2, 10.5, 76.0, 2.8, 5.4],
                [9.0, 8.4, 81.0, 3.0, 3.7],
                [3.9, 5.3, 86.0, 3.2, 1.9],
                [-0.1, 4.6, 87.0, 3.5, 1.4],
            ],
            Self::Alpine => [
                [-4.6, 9.2, 79.0, 1.9, 3.3],
                [-3.4, 10.6, 75.0, 2.0, 4.3],
                [0.6, 11.4, 72.0, 2.2, 5.0],
                [5.0, 11.8, 69.0, 2.4, 5.4],
                [9.8, 12.1, 71.0, 2.3, 5.8],
                [13.0, 12.3, 73.0, 2.2, 6.2],
                [15.1, 12.6, 73.0, 2.1, 7.0],
                [14.7, 12.3, 76.0, 2.0, 6.5],
                [11.2, 11.8, 78.0, 1.9, 5.6],
                [6.9, 11.0, 78.0, 1.8, 4.7],
                [0.7, 9.0, 80.0, 1.8, 3.3],
                [-3.6, 8.4, 81.0, 1.8, 2.8],
            ],
            Self::Northern => [
                [-9.8, 7.4, 86.0, 2.7, 0.8],
                [-8.9, 8.6, 84.0, 2.7, 2.3],
                [-3.7, 9.8, 77.0, 2.9, 4.4],
                [2.2, 9.7, 69.0, 3.0, 6.1],
                [8.9, 11.1, 63.0, 3.1, 8.4],
                [14.0, 11.0, 66.0, 3.0, 9.0],
                [16.4, 10.9, 71.0, 2.7, 8.4],
                [14.1, 10.2, 77.0, 2.6, 6.7],
                [8.9, 8.7, 82.0, 2.7, 4.4],
                [3.1, 6.1, 86.0, 2.8, 2.3],
                [-2.8, 5.5, 89.0, 2.8, 1.0],
                [-7.4, 6.7, 88.0, 2.7, 0.4],
            ],
            Self::HighPlain => [
                [1.1, 10.2, 74.0, 3.5, 4.4],
                [2.8, 11.6, 67.0, 3.8, 5.6],
                [6.6, 13.2, 59.0, 4.1, 6.6],
                [9.6, 13.4, 57.0, 4.2, 7.6],
                [14.0, 14.4, 53.0, 3.8, 9.0],
                [19.2, 16.0, 46.0, 3.6, 10.6],
                [22.6, 17.0, 41.0, 3.6, 11.7],
                [22.2, 16.8, 42.0, 3.5, 10.8],
                [17.8, 15.0, 50.0, 3.3, 8.6],
                [11.8, 12.6, 62.0, 3.3, 6.4],
                [5.6, 10.9, 71.0, 3.4, 4.9],
                [2.0, 9.8, 76.0, 3.4, 4.0],
            ],
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Hours of daylight on the middle day of a month: `(24/π) acos(−tan φ tan δ)` with Cooper's
    /// declination (Solar Energy 12, 1969 [M]).
    fn daylight(latitude_deg: f64, month: usize) -> f64 {
        let day = 15.0 + 30.4 * f64::from(u32::try_from(month).expect("twelve"));
        let declination =
            23.45_f64.to_radians() * (std::f64::consts::TAU * (284.0 + day) / 365.0).sin();
        let half = -latitude_deg.to_radians().tan() * declination.tan();
        24.0 / std::f64::consts::PI * half.clamp(-1.0, 1.0).acos()
    }

    #[test]
    fn no_winter_has_more_sunshine_than_daylight_or_figures_that_cannot_be() {
        for winter in TypicalWinter::ALL {
            let means = winter.means();
            for (at, month) in means.months.iter().enumerate() {
                let day = daylight(means.latitude_deg, at);
                let sun = month.sunshine_h_per_day;
                assert!(
                    sun >= 0.0 && sun < 0.85 * day,
                    "{winter:?} {at}: {sun} {day}"
                );
                assert!((20.0..=95.0).contains(&month.rh_percent));
                assert!(month.daily_range_k > 0.0 && month.wind_m_s > 0.0);
                assert!(means.design_outside_c < month.mean_c - month.daily_range_k / 2.0);
            }
        }
    }

    #[test]
    fn every_winter_says_that_it_is_invented() {
        for winter in TypicalWinter::ALL {
            assert!(winter.description().contains("assumed"), "{winter:?}");
        }
    }

    #[test]
    fn winters_stand_from_the_mildest_to_the_coldest() {
        let coldest = TypicalWinter::ALL.map(|winter| {
            let months = winter.means().months;
            months
                .iter()
                .map(|month| month.mean_c)
                .fold(f64::MAX, f64::min)
        });
        assert!(
            coldest.windows(2).all(|pair| pair[1] < pair[0]),
            "{coldest:?}"
        );
    }
}
