//! What a new survey starts with.

use super::drying::Drying;
use super::gap::Zone;
use super::ids::{WeatherId, ZoneId};
use super::site::{InsideAir, SetUp, Site, Targets, Tariffs, WeatherCase};
use super::vehicle::{Vehicle, VehicleKind};
use super::{Header, Survey};
use crate::physics::pressure_coefficient::PressureSet;
use crate::physics::wind::{Shelter, Terrain};

/// The default zones, in the order of a walk round.
pub const ZONE_NAMES: [&str; 7] = [
    "cab",
    "floor edge",
    "rooflights",
    "fridge vents",
    "doors",
    "windows",
    "lockers & service holes",
];

impl Survey {
    /// A new survey of a vehicle of this kind: nothing measured, the default zones and weather.
    #[must_use]
    pub fn new(kind: VehicleKind) -> Self {
        Self {
            header: Header::default(),
            vehicle: Vehicle {
                kind,
                length_m: None,
                width_m: None,
                height_m: None,
                floor_height_m: None,
                inside_length_m: None,
                inside_width_m: None,
                inside_height_m: None,
                volume_m3: None,
                skirted: false,
                berths: 2,
            },
            site: Site {
                terrain: Terrain::ScatteredWindbreaks,
                shelter: Shelter::PartSheltered,
                pressure_set: PressureSet::LowRise,
                heading_deg: None,
                altitude_m: 0.0,
                prevailing_wind_deg: None,
            },
            targets: Targets::default(),
            tariffs: Tariffs::default(),
            drying: Drying::default(),
            set_up: SetUp::LaidUp,
            zones: (1..)
                .zip(ZONE_NAMES)
                .map(|(id, name)| zone(id, name))
                .collect(),
            gaps: Vec::new(),
            weather: default_weather(),
            fabric: Vec::new(),
            appliances: Vec::new(),
            machines: Vec::new(),
            heaters: Vec::new(),
            fans: Vec::new(),
            sources: Vec::new(),
            spaces: Vec::new(),
            inner_openings: Vec::new(),
            leakage_not_found_percent: None,
        }
    }
}

fn zone(id: u32, name: &str) -> Zone {
    Zone {
        id: ZoneId(id),
        name: name.to_owned(),
    }
}

/// Still, breezy and windy: 0, 4 and 8 m/s at 10 m, weights 0.3, 0.5 and 0.2, outside 5 °C and
/// 87 %, inside 2 K warmer \[A, assumptions of this project; 8.0 m/s is the lower bound of
/// Beaufort 5 \[M\]\].
#[must_use]
pub fn default_weather() -> Vec<WeatherCase> {
    [
        ("still", 0.0, 0.3),
        ("breezy", 4.0, 0.5),
        ("windy", 8.0, 0.2),
    ]
    .into_iter()
    .zip(1..)
    .map(|((name, wind_m_s, weight), id)| WeatherCase {
        id: WeatherId(id),
        name: name.to_owned(),
        wind_m_s,
        outside_c: 5.0,
        outside_rh_percent: 87.0,
        inside: InsideAir::WarmerBy { kelvin: 2.0 },
        inside_rh_percent: None,
        weight,
    })
    .collect()
}
