//! How the vehicle stands through a winter: what sun, sky, people and contents do to it.

use super::typical_winters::{MonthlyWeather, TypicalWinter, WinterMeans};
pub use crate::climate::MonthDay;

/// The colour of roof and walls.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum BodyColour {
    /// White or nearly so.
    White,
    /// Grey, silver, beige.
    Grey,
    /// Dark.
    Dark,
}

impl BodyColour {
    /// All, from the lightest.
    pub const ALL: [Self; 3] = [Self::White, Self::Grey, Self::Dark];

    /// What it is called.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::White => "white",
            Self::Grey => "grey",
            Self::Dark => "dark",
        }
    }

    /// Share of the sun that it takes up: 0.3, 0.7, 0.9 **\[S\]** for paint, which of them a body
    /// has **\[A\]**.
    #[must_use]
    pub fn absorbs(self) -> f64 {
        match self {
            Self::White => 0.3,
            Self::Grey => 0.7,
            Self::Dark => 0.9,
        }
    }
}

/// Hours of the day in which somebody is there, local standard time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Presence {
    /// From, hours after midnight.
    pub from_h: f64,
    /// To; below `from_h` where they stay through midnight.
    pub to_h: f64,
}

impl Presence {
    /// Whether somebody is there at an hour of the day.
    #[must_use]
    pub fn at(&self, hour: f64) -> bool {
        if self.from_h <= self.to_h {
            (self.from_h..self.to_h).contains(&hour)
        } else {
            hour >= self.from_h || hour < self.to_h
        }
    }

    /// Hours of a day.
    #[must_use]
    pub fn hours(&self) -> f64 {
        let hours = self.to_h - self.from_h;
        if hours < 0.0 { hours + 24.0 } else { hours }
    }
}

/// Months by which the seasons of the south differ.
const HALF_A_YEAR: usize = 6;

/// How the vehicle stands through a winter, and which winter it is.
#[derive(Clone, Debug, PartialEq)]
pub struct Stay {
    /// The typical winter; `None`: nobody has chosen one.
    pub winter: Option<TypicalWinter>,
    /// Its monthly means, January to December, where they are the user's own; otherwise empty.
    pub months: Vec<MonthlyWeather>,
    /// Name of a weather file in the data folder of the survey, or beside the survey, which outranks
    /// the typical winter; empty for none.
    pub weather_file: String,
    /// Name that it had when it was chosen and kept by its content; empty where the file was named by
    /// hand.
    pub weather_original: String,
    /// Where it stands, degrees north; `None`: that of the typical winter. A weather file has its
    /// own.
    pub latitude_deg: Option<f64>,
    /// First day of the season, `11-01`; empty: 1 November, in the south 1 May.
    pub season_first: String,
    /// Last day of the season; empty: 31 March, in the south 30 September.
    pub season_last: String,
    /// Colour of roof and walls.
    pub colour: BodyColour,
    /// Blinds are drawn over the windows.
    pub blinds_drawn: bool,
    /// It stands under a roof or a whole cover: neither sun nor sky reaches it.
    pub covered: bool,
    /// In use, somebody is there from so many hours after midnight; `None`: all the time.
    pub present_from_h: Option<f64>,
    /// To so many; below the other where they stay through midnight.
    pub present_to_h: Option<f64>,
    /// Water that contents and linings store for each point of humidity, g; `None`: the usual for
    /// the volume.
    pub stores_g_per_percent: Option<f64>,
}

impl Stay {
    /// When somebody is there, in use; `None`: all the time.
    #[must_use]
    pub fn presence(&self) -> Option<Presence> {
        let (from_h, to_h) = (self.present_from_h?, self.present_to_h?);
        Some(Presence { from_h, to_h })
    }

    /// What its weather file is called by whoever chose it; empty for none.
    #[must_use]
    pub fn weather_name(&self) -> &str {
        if self.weather_file.is_empty() || self.weather_original.is_empty() {
            return &self.weather_file;
        }
        &self.weather_original
    }

    /// Whether there is a winter to work out.
    #[must_use]
    pub fn has_winter(&self) -> bool {
        self.winter.is_some() || !self.weather_file.is_empty()
    }

    /// What the hours of the typical winter are made of: its figures, with the user's own months and
    /// latitude where they are given. `None` where no winter is chosen. South of the equator the
    /// months of a typical winter stand half a year later; the user's own stand as they are written.
    #[must_use]
    pub fn means(&self) -> Option<WinterMeans> {
        let mut means = self.winter?.means();
        if let Some(latitude_deg) = self.latitude_deg {
            means.latitude_deg = latitude_deg;
        }
        if means.latitude_deg < 0.0 {
            means.months.rotate_left(HALF_A_YEAR);
        }
        for (month, own) in means.months.iter_mut().zip(&self.months) {
            *month = *own;
        }
        Some(means)
    }

    /// First and last day of the season as written down; `None` where it is the usual one.
    #[must_use]
    pub fn season_days(&self) -> (Option<MonthDay>, Option<MonthDay>) {
        (
            MonthDay::parse(&self.season_first),
            MonthDay::parse(&self.season_last),
        )
    }
}

impl Default for Stay {
    /// No winter chosen; a white body, blinds up, nothing over it.
    fn default() -> Self {
        Self {
            winter: None,
            months: Vec::new(),
            weather_file: String::new(),
            weather_original: String::new(),
            latitude_deg: None,
            season_first: String::new(),
            season_last: String::new(),
            colour: BodyColour::White,
            blinds_drawn: false,
            covered: false,
            present_from_h: None,
            present_to_h: None,
            stores_g_per_percent: None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn in_the_south_a_typical_winter_comes_half_a_year_later_and_own_months_stand_as_written() {
        let mut stay = Stay {
            winter: Some(TypicalWinter::Alpine),
            latitude_deg: Some(-43.0),
            ..Stay::default()
        };
        let january = TypicalWinter::Alpine.means().months[0];
        let south = stay.means().expect("chosen");
        assert_eq!(south.months[6], january);
        assert!((south.latitude_deg + 43.0).abs() < 1e-9);
        stay.months = vec![january; 12];
        assert_eq!(stay.means().expect("chosen").months, [january; 12]);
        stay.winter = None;
        assert_eq!(stay.means(), None);
    }

    #[test]
    fn who_stays_through_midnight_is_there_late_and_early() {
        let night = Presence {
            from_h: 18.0,
            to_h: 8.0,
        };
        assert!(night.at(23.5) && night.at(7.5) && !night.at(12.0) && !night.at(8.0));
        assert!((night.hours() - 14.0).abs() < 1e-12);
        let day = Presence {
            from_h: 9.0,
            to_h: 17.0,
        };
        assert!(day.at(9.0) && !day.at(17.0) && !day.at(3.0));
        assert!((day.hours() - 8.0).abs() < 1e-12);
    }
}
