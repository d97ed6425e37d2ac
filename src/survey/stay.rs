//! How the vehicle stands through a winter: what sun, sky, people and contents do to it.

use super::typical_winters::TypicalWinter;

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

/// How the vehicle stands through a winter.
#[derive(Clone, Debug, PartialEq)]
pub struct Stay {
    /// The winter, where no weather file is given.
    pub winter: TypicalWinter,
    /// Colour of roof and walls.
    pub colour: BodyColour,
    /// Blinds are drawn over the windows.
    pub blinds_drawn: bool,
    /// It stands under a roof or a whole cover: neither sun nor sky reaches it.
    pub covered: bool,
    /// When somebody is there, in use; `None`: all the time.
    pub presence: Option<Presence>,
    /// Water that contents and linings store for each point of humidity, g; `None`: the usual for
    /// the volume.
    pub stores_g_per_percent: Option<f64>,
}

impl Default for Stay {
    /// A white body in a mild maritime winter, blinds up, nothing over it.
    fn default() -> Self {
        Self {
            winter: TypicalWinter::MildMaritime,
            colour: BodyColour::White,
            blinds_drawn: false,
            covered: false,
            presence: None,
            stores_g_per_percent: None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

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
