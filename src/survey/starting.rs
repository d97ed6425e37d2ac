//! What a new survey starts with.

use super::drying::Drying;
use super::gap::Zone;
use super::ids::{WeatherId, ZoneId};
use super::site::{InsideAir, SetUp, Site, Targets, Tariffs, WeatherCase};
use super::vehicle::{CodeOfPractice, Vehicle, VehicleKind};
use super::{Header, Job, Stay, Survey, Usual};
use crate::physics::pressure_coefficient::{PressureSet, Underside};
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

/// The name of the first zone: what is towed has no cab, its first zone is the front.
pub(super) fn first_zone(kind: VehicleKind) -> &'static str {
    let [cab, ..] = ZONE_NAMES;
    if kind == VehicleKind::TouringCaravan {
        "front"
    } else {
        cab
    }
}

impl Survey {
    /// A new survey to begin on: [`Survey::new`] with the usual sizes of such a vehicle. A finding
    /// says that they are not measured until one of them is changed. What is towed has no cab: its
    /// first zone is the front.
    #[must_use]
    pub fn starting(kind: VehicleKind) -> Self {
        let mut survey = Self::new(kind);
        if let Some(first) = survey.zones.first_mut() {
            first_zone(kind).clone_into(&mut first.name);
        }
        survey.vehicle.take_starting_sizes();
        survey
    }

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
                underside: Underside::Open,
                skirt_free_area_mm2: None,
                underfloor_by_place: false,
                berths: 2,
                code_of_practice: CodeOfPractice::En721,
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
            job: Job::default(),
            drying: Drying::default(),
            stay: Stay::default(),
            set_up: SetUp::LaidUp,
            zones: (1..)
                .zip(ZONE_NAMES)
                .map(|(id, name)| zone(id, name))
                .collect(),
            gaps: Vec::new(),
            weather: default_weather(),
            fabric: Vec::new(),
            appliances: Vec::new(),
            appliances_confirmed: false,
            machines: Vec::new(),
            heaters: Vec::new(),
            fans: Vec::new(),
            sources: Vec::new(),
            spaces: Vec::new(),
            inner_openings: Vec::new(),
            fittings: None,
            leakage_not_found_percent: None,
            walk: Vec::new(),
            fan_tests: Vec::new(),
            air_tests: Vec::new(),
            calibrated: true,
            series: Vec::new(),
            trials: Vec::new(),
            usual: Usual::default(),
        }
    }
}

/// Usual sizes of a kind of vehicle, in metres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StartingSizes {
    /// External length without drawbar, m.
    pub length_m: f64,
    /// External width without mirrors, m.
    pub width_m: f64,
    /// Height of the roof above ground, m.
    pub height_m: f64,
    /// Height of the floor above ground, m.
    pub floor_height_m: f64,
    /// Inside length, m.
    pub inside_length_m: f64,
    /// Inside width, m.
    pub inside_width_m: f64,
    /// Inside height, m.
    pub inside_height_m: f64,
}

/// The sizes that a new survey of such a vehicle starts with: invented ones of a vehicle of
/// middling size that is no maker's, to be measured and written over \[A\]. `None` for a vehicle
/// that may be anything.
#[must_use]
pub fn starting_sizes(kind: VehicleKind) -> Option<StartingSizes> {
    let sizes = |outside: [f64; 4], inside: [f64; 3]| {
        let [length_m, width_m, height_m, floor_height_m] = outside;
        let [inside_length_m, inside_width_m, inside_height_m] = inside;
        Some(StartingSizes {
            length_m,
            width_m,
            height_m,
            floor_height_m,
            inside_length_m,
            inside_width_m,
            inside_height_m,
        })
    };
    match kind {
        VehicleKind::TouringCaravan => sizes([5.33, 2.37, 2.57, 0.47], [5.14, 2.25, 1.96]),
        VehicleKind::PanelVan => sizes([5.72, 2.11, 2.63, 0.58], [4.57, 1.88, 1.91]),
        VehicleKind::CoachBuilt => sizes([6.83, 2.37, 2.93, 0.69], [6.03, 2.21, 2.01]),
        VehicleKind::Integrated => sizes([7.07, 2.37, 2.93, 0.69], [6.47, 2.21, 2.01]),
        VehicleKind::Other => None,
    }
}

impl Vehicle {
    /// Whether its sizes are the ones that a new survey starts with, every one of them.
    #[must_use]
    pub fn has_starting_sizes(&self) -> bool {
        starting_sizes(self.kind).is_some_and(|sizes| {
            let mut as_at_first = self.clone();
            as_at_first.set_sizes(sizes);
            as_at_first == *self
        })
    }

    /// Takes the sizes that a new survey of such a vehicle starts with, where there are any.
    pub(super) fn take_starting_sizes(&mut self) {
        if let Some(sizes) = starting_sizes(self.kind) {
            self.set_sizes(sizes);
        }
    }

    fn set_sizes(&mut self, sizes: StartingSizes) {
        self.length_m = Some(sizes.length_m);
        self.width_m = Some(sizes.width_m);
        self.height_m = Some(sizes.height_m);
        self.floor_height_m = Some(sizes.floor_height_m);
        self.inside_length_m = Some(sizes.inside_length_m);
        self.inside_width_m = Some(sizes.inside_width_m);
        self.inside_height_m = Some(sizes.inside_height_m);
    }
}

fn zone(id: u32, name: &str) -> Zone {
    Zone {
        id: ZoneId(id),
        name: name.to_owned(),
    }
}

/// Still, breezy and windy: 0, 4 and 8 m/s at 10 m, weights 0.3, 0.5 and 0.2, outside 2 °C and
/// 90 %, 6 °C and 85 %, 8 °C and 82 %, for wind comes with mild air; inside 2 K warmer \[A,
/// assumptions of this project; 8.0 m/s is the lower bound of Beaufort 5 \[M\]\]. None of them lies
/// at the 5 °C below which a compressor does not start.
#[must_use]
pub fn default_weather() -> Vec<WeatherCase> {
    [
        ("still", 0.0, (2.0, 90.0), 0.3),
        ("breezy", 4.0, (6.0, 85.0), 0.5),
        ("windy", 8.0, (8.0, 82.0), 0.2),
    ]
    .into_iter()
    .zip(1..)
    .map(|((name, wind_m_s, outside, weight), id)| WeatherCase {
        id: WeatherId(id),
        name: name.to_owned(),
        wind_m_s,
        outside_c: outside.0,
        outside_rh_percent: outside.1,
        inside: InsideAir::WarmerBy { kelvin: 2.0 },
        inside_rh_percent: None,
        weight,
    })
    .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::findings::find;

    fn told(survey: &Survey) -> bool {
        let findings = find(survey);
        findings
            .iter()
            .any(|finding| finding.sentence.contains("not measured"))
    }

    #[test]
    fn a_new_survey_says_that_its_sizes_are_not_measured_until_one_is() {
        for kind in VehicleKind::ALL {
            let mut survey = Survey::starting(kind);
            assert_eq!(told(&survey), kind != VehicleKind::Other, "{kind:?}");
            survey.vehicle.length_m = Some(5.73);
            assert!(!told(&survey), "{kind:?}");
            assert!(!told(&Survey::new(kind)), "{kind:?}");
        }
    }

    #[test]
    fn only_what_is_driven_starts_with_a_cab() {
        for kind in VehicleKind::ALL {
            let survey = Survey::starting(kind);
            let names: Vec<&str> = survey.zones.iter().map(|zone| zone.name.as_str()).collect();
            let first = if kind == VehicleKind::TouringCaravan {
                "front"
            } else {
                "cab"
            };
            assert_eq!(names[0], first, "{kind:?}");
            assert_eq!(names[1..], ZONE_NAMES[1..], "{kind:?}");
        }
    }

    /// Sizes are ours \[A\]. What they must keep: inside fits into outside, nobody stoops much
    /// (1.85 m), and the width is one that roads allow: 2.55 m, Council Directive 96/53/EC,
    /// annex I, 1.2 \[M\].
    #[test]
    fn starting_sizes_could_be_those_of_a_vehicle() {
        for sizes in VehicleKind::ALL.into_iter().filter_map(starting_sizes) {
            assert!(sizes.inside_length_m < sizes.length_m);
            assert!(sizes.inside_width_m < sizes.width_m && sizes.width_m <= 2.55);
            let room = sizes.height_m - sizes.floor_height_m;
            assert!(sizes.inside_height_m < room && sizes.inside_height_m >= 1.85);
        }
    }
}
