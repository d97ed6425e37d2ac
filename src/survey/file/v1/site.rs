//! Format 1: title, weather, states wanted inside, contents and prices, and words for the vehicle and
//! its place.

use super::super::stored::{Number, Text, choice, numbered, record, words};
use super::ids::WeatherId;

record! {
    /// Who made the survey, of what, where and when.
    #[derive(Default)]
    Header {
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        title: Text,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        scene: Text,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        surveyor: Text,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        date: Text,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        reference: Text,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        note: Text,
    }
}

impl Header {
    pub(in crate::survey::file) fn is_empty(&self) -> bool {
        [
            &self.title,
            &self.scene,
            &self.surveyor,
            &self.date,
            &self.reference,
            &self.note,
        ]
        .into_iter()
        .all(Text::is_empty)
    }
}

words! {
    /// What sort of vehicle.
    VehicleKind {
        TouringCaravan = "touring_caravan",
        PanelVan = "panel_van",
        CoachBuilt = "coach_built",
        Integrated = "integrated",
        Other = "other",
    }
    /// What an appliance is.
    ApplianceKind {
        Hob = "hob",
        Oven = "oven",
        SpaceHeater = "space_heater",
        WaterHeater = "water_heater",
        Refrigerator = "refrigerator",
        Stove = "stove",
        Other = "other",
    }
    /// The district.
    Terrain {
        OpenFlat = "open_flat",
        ScatteredWindbreaks = "scattered_windbreaks",
        Urban = "urban",
        City = "city",
    }
    /// The immediate surroundings.
    Shelter {
        Exposed = "exposed",
        PartSheltered = "part_sheltered",
        Sheltered = "sheltered",
    }
    /// Which of the closable gaps stand open.
    SetUp {
        LaidUp = "laid_up",
        InUse = "in_use",
    }
}

impl SetUp {
    pub(in crate::survey::file) fn laid_up() -> Self {
        Self::LaidUp
    }
}

record! {
    /// The states wanted inside.
    #[serde(default)]
    Targets {
        rh_percent: Number,
        set_temperature_c: Number,
        frost_guard_c: Number,
        comfort_c: Number,
        design_outside_c: Number,
    }
}

impl Default for Targets {
    fn default() -> Self {
        Self {
            rh_percent: Number(55.0),
            set_temperature_c: Number(10.0),
            frost_guard_c: Number(5.0),
            comfort_c: Number(20.0),
            design_outside_c: Number(-5.0),
        }
    }
}

record! {
    /// Contents, sun and supply, for drying and heating.
    #[serde(default)]
    Drying {
        sun_w: Number,
        #[serde(skip_serializing_if = "Option::is_none")]
        contents_kg: Option<Number>,
        #[serde(skip_serializing_if = "Option::is_none")]
        contents_moisture_percent: Option<Number>,
        #[serde(skip_serializing_if = "Option::is_none")]
        heat_capacity_kj_per_k: Option<Number>,
        #[serde(skip_serializing_if = "Option::is_none")]
        salt_kg: Option<Number>,
        #[serde(skip_serializing_if = "Option::is_none")]
        hookup_a: Option<Number>,
        #[serde(skip_serializing_if = "Option::is_none")]
        battery_wh: Option<Number>,
    }
}

impl Default for Drying {
    fn default() -> Self {
        Self {
            sun_w: Number(0.0),
            contents_kg: None,
            contents_moisture_percent: None,
            heat_capacity_kj_per_k: None,
            salt_kg: None,
            hookup_a: None,
            battery_wh: None,
        }
    }
}

choice! {
    /// How warm the inside is.
    InsideAir {
        WarmerBy = "warmer_by" { kelvin: Number, }
        HeldAt = "held_at" { temperature_c: Number, }
    }
}

impl InsideAir {
    pub(in crate::survey::file) fn two_kelvin_warmer() -> Self {
        Self::WarmerBy {
            kelvin: Number(2.0),
        }
    }
}

record! {
    /// A wind speed with outside and inside air states.
    WeatherCase {
        id: WeatherId,
        #[serde(default, skip_serializing_if = "Text::is_empty")]
        name: Text,
        wind_m_s: Number,
        outside_c: Number,
        outside_rh_percent: Number,
        #[serde(default = "InsideAir::two_kelvin_warmer")]
        inside: InsideAir,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        inside_rh_percent: Option<Number>,
        #[serde(default = "equal_weight")]
        weight: Number,
    }
}

fn equal_weight() -> Number {
    Number(1.0)
}

/// The weather of a file that lists none: still, breezy and windy.
pub(super) fn usual_weather() -> Vec<WeatherCase> {
    [
        (1, "still", 0.0, 0.3),
        (2, "breezy", 4.0, 0.5),
        (3, "windy", 8.0, 0.2),
    ]
    .into_iter()
    .map(|(id, name, wind_m_s, weight)| WeatherCase {
        id: WeatherId(id),
        name: Text(name.to_owned()),
        wind_m_s: Number(wind_m_s),
        outside_c: Number(5.0),
        outside_rh_percent: Number(87.0),
        inside: InsideAir::two_kelvin_warmer(),
        inside_rh_percent: None,
        weight: Number(weight),
    })
    .collect()
}

numbered!(WeatherCase = "weather case");
