//! Format 2: how the vehicle stands through a winter, and which winter.

use super::super::stored::{Entry, Number, Text, list, record, words};
use super::usual::TypicalWinter;

words! {
    /// The colour of roof and walls.
    BodyColour {
        White = "white",
        Grey = "grey",
        Dark = "dark",
    }
}

record! {
    /// Means of one month.
    MonthlyWeather {
        mean_c: Number,
        daily_range_k: Number,
        rh_percent: Number,
        wind_m_s: Number,
        sunshine_h_per_day: Number,
    }
}

impl Entry for MonthlyWeather {
    const WORD: &'static str = "month";
    const MOST: usize = 12;
}

record! {
    /// How it stands through a winter.
    #[serde(default)]
    Stay {
        #[serde(skip_serializing_if = "Option::is_none")]
        winter: Option<TypicalWinter>,
        #[serde(deserialize_with = "list", skip_serializing_if = "Vec::is_empty")]
        months: Vec<MonthlyWeather>,
        #[serde(skip_serializing_if = "Text::is_empty")]
        weather_file: Text,
        #[serde(skip_serializing_if = "Text::is_empty")]
        weather_original: Text,
        #[serde(skip_serializing_if = "Option::is_none")]
        latitude_deg: Option<Number>,
        #[serde(skip_serializing_if = "Text::is_empty")]
        season_first: Text,
        #[serde(skip_serializing_if = "Text::is_empty")]
        season_last: Text,
        colour: BodyColour,
        blinds_drawn: bool,
        covered: bool,
        #[serde(skip_serializing_if = "Option::is_none")]
        present_from_h: Option<Number>,
        #[serde(skip_serializing_if = "Option::is_none")]
        present_to_h: Option<Number>,
        #[serde(skip_serializing_if = "Option::is_none")]
        stores_g_per_percent: Option<Number>,
    }
}

impl Default for Stay {
    fn default() -> Self {
        Self {
            winter: None,
            months: Vec::new(),
            weather_file: Text::default(),
            weather_original: Text::default(),
            latitude_deg: None,
            season_first: Text::default(),
            season_last: Text::default(),
            colour: BodyColour::White,
            blinds_drawn: false,
            covered: false,
            present_from_h: None,
            present_to_h: None,
            stores_g_per_percent: None,
        }
    }
}

impl Stay {
    /// Whether it is what a file that leaves it out stands for.
    pub(super) fn is_nothing(&self) -> bool {
        self.winter.is_none()
            && self.months.is_empty()
            && self.weather_file.is_empty()
            && self.weather_original.is_empty()
            && self.latitude_deg.is_none()
            && self.season_first.is_empty()
            && self.season_last.is_empty()
            && matches!(self.colour, BodyColour::White)
            && !self.blinds_drawn
            && !self.covered
            && self.present_from_h.is_none()
            && self.present_to_h.is_none()
            && self.stores_g_per_percent.is_none()
    }
}
