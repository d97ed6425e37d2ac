//! The weather cases side by side: weather, air change, air of each space, water to remove, heat.

mod columns;
mod needs;

use super::Material;
use super::blocks::{Fact, Reasons, Section};
use super::direction;
use super::results::{ach, air, air_change, season};
use super::uncertainty::very_likely;
use crate::assess::quantity::Kind;
use crate::assess::words::{compass, figure};
use crate::assess::{Answer, CaseAir, CaseAnswer, DirectionAnswer, NotKnown, SpaceAir, Topic};
use crate::physics::units::SECONDS_PER_HOUR;
use crate::survey::WeatherCase;
use columns::Columns;

/// Weather cases that one table has room for; of more the rest goes into a further one.
const SIDE_BY_SIDE: usize = 6;

/// A group of rows of the table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// Wind and air states.
    Weather,
    /// Air changes: lowest, mean, highest.
    AirChange,
    /// What the balance of air came to besides: pressure, neutral level, cross-check.
    Balance,
    /// Air into each space, where there is more than one.
    Spaces,
    /// Water to remove.
    Water,
    /// Heat to hold temperatures.
    Heat,
}

impl Part {
    /// All of them, in their order.
    pub const ALL: [Self; 6] = [
        Self::Weather,
        Self::AirChange,
        Self::Balance,
        Self::Spaces,
        Self::Water,
        Self::Heat,
    ];
}

/// Some parts of the table, with what must be known to read it.
#[must_use]
pub fn section(told: &Material<'_>, parts: &[Part]) -> Section {
    let mut section = Section::new("Results by weather");
    let cases = &told.assessment.cases;
    if cases.is_empty() {
        return section.ending("There is no weather case: add one, such as still air, 0 m/s.");
    }
    for some in by_wind(told).chunks(SIDE_BY_SIDE) {
        let mut columns = Columns::new(told, some);
        for part in parts {
            columns.part(*part);
        }
        section.table(columns.table, &columns.reasons);
    }
    if parts.contains(&Part::AirChange) {
        let mean = Fact::new("Mean air change over the season", season(told).sentence());
        section.facts(vec![mean], &Reasons::default());
    }
    section.note(notes(told, parts).join(" "));
    section
}

/// The cases from the least wind to the most; those of one wind as in the survey.
fn by_wind<'a>(told: &Material<'a>) -> Vec<&'a CaseAnswer> {
    let wind = |case: &CaseAnswer| {
        let case = told.survey.weather_case(case.id);
        case.map_or(f64::INFINITY, |case| case.wind_m_s)
    };
    let mut cases: Vec<&CaseAnswer> = told.assessment.cases.iter().collect();
    cases.sort_by(|a, b| wind(a).total_cmp(&wind(b)));
    cases
}

/// What must be known to read the table.
fn notes(told: &Material<'_>, parts: &[Part]) -> Vec<String> {
    let mut notes: Vec<String> = Vec::new();
    let mut of = |part: Part, text: &str| {
        if parts.contains(&part) {
            notes.push(text.to_owned());
        }
    };
    of(
        Part::Weather,
        "Wind as at a weather station, 10 m above open country; air is never quite still: at least \
         0.5 m/s at the roof's height is used [A].",
    );
    of(
        Part::AirChange,
        "Means are over 16 wind directions relative to the vehicle. Air changes count the gross \
         inflow of outside air, at inside-air density. Directions are clockwise from the front: \
         90° is the offside, 180° the rear, 270° the nearside. Closed parked vehicles in light \
         wind have measured 0.15 to 3 /h [S].",
    );
    if told.survey.spaces.len() > 1 {
        of(
            Part::Spaces,
            "Air into a space is by the volume of the space itself. Air from other spaces comes \
             through the openings inside: that is not outside air.",
        );
    }
    of(
        Part::Water,
        "Water is the steady load: a damp vehicle gives off water for weeks besides, and that \
         comes on top.",
    );
    of(
        Part::Heat,
        "Heat is steady, without sun, people or machines. Draining the water system is the first \
         protection against frost; heat is the second.",
    );
    notes.extend(told.uncertainty.map(very_likely));
    notes
}

impl Columns<'_> {
    fn part(&mut self, part: Part) {
        match part {
            Part::Weather => self.weather(),
            Part::AirChange => self.air_changes(),
            Part::Balance => self.balance(),
            Part::Spaces => self.spaces(),
            Part::Water => self.water(),
            Part::Heat => self.heat(),
        }
    }

    fn weather(&mut self) {
        self.table.group("Weather");
        self.row("Share of the season, %", |case| {
            Ok(Kind::Share.number(case.share))
        });
        self.recorded("Wind at a weather station, m/s", |case| case.wind_m_s);
        let used = "Wind used, at the roof's height";
        self.of_air(used, Kind::MetresPerSecond, |air| air.wind_used);
        self.recorded("Outside air, °C", |case| case.outside_c);
        self.recorded("Outside relative humidity, %", |case| {
            case.outside_rh_percent
        });
        self.recorded("Inside air, °C", WeatherCase::inside_c);
    }

    fn air_changes(&mut self) {
        self.table.group("Air changes");
        self.extreme("Lowest", |air| air.lowest);
        self.result("Mean", Topic::AirChange, air_change);
        self.extreme("Highest", |air| air.highest);
        let inflow = "Outside air that comes in, mean";
        self.of_air(inflow, Kind::KilogramsPerHour, |air| {
            air.mean_inflow_kg_s * SECONDS_PER_HOUR
        });
    }

    /// The air change in one wind direction, and which that is.
    fn extreme(&mut self, label: &str, which: fn(&CaseAir) -> usize) {
        self.numbers(label, Kind::AirChanges, |case| {
            in_direction(case, which)?.ach_per_h.clone()
        });
        self.row("with wind from, off the front", |case| {
            let direction = in_direction(case, which)?;
            Ok(direction::off_the_front(direction.from_front_deg))
        });
        if self.told.survey.site.front_points_to().is_some() {
            self.row("by compass", |case| {
                let degrees = in_direction(case, which)?.compass_deg;
                degrees
                    .map(compass)
                    .ok_or_else(|| NotKnown::because("the heading is not given"))
            });
        }
    }

    fn balance(&mut self) {
        let vehicle = &self.told.survey.vehicle;
        let body = vehicle.floor_height_m.zip(vehicle.height_m);
        self.table.group("Balance of air");
        let density = Kind::KilogramsPerCubicMetre;
        self.of_air("Density of the outside air", density, |air| {
            air.outside.density()
        });
        self.of_air("Density of the inside air", density, |air| {
            air.inside.density()
        });
        self.row("Inside pressure at mid-height, Pa", |case| {
            let span = span(&air(case)?.directions, |one| Some(one.inside_pressure));
            Ok(span.map_or_else(String::new, |(low, high)| Kind::Pascals.span(low, high)))
        });
        self.row("Neutral level above the ground, m", |case| {
            let span = span(&air(case)?.directions, |one| one.neutral_level);
            Ok(span.map_or_else(|| "none".to_owned(), |span| level(span, body)))
        });
        self.row(
            "Directions in which gusts through one face decide",
            |case| {
                let directions = air(case)?.directions.iter();
                Ok(directions.filter(|one| one.one_sided).count().to_string())
            },
        );
        let check = |case: &CaseAnswer| Ok(air(case)?.cross_check.clone()?.ach_per_h);
        let basic = "Cross-check by a basic model for houses";
        self.numbers(basic, Kind::AirChanges, check);
        self.worked_out(Topic::CrossCheck);
        self.row("times the mean", |case| {
            let (check, mean) = (check(case)?, ach(case)?);
            Ok(if mean > 0.0 {
                figure(check / mean, 2)
            } else {
                "–".to_owned()
            })
        });
    }

    fn spaces(&mut self) {
        let survey = self.told.survey;
        if survey.spaces.len() < 2 {
            return;
        }
        self.table.group("Air into each space, mean");
        for (at, space) in survey.spaces.iter().enumerate() {
            let own = |case: &CaseAnswer| -> Answer<SpaceAir> {
                let found = air(case)?.spaces.get(at).cloned();
                found.ok_or_else(|| NotKnown::because("the spaces were not worked out"))
            };
            let name = survey.space_name(space.id);
            let (changes, flow) = (Kind::AirChanges, Kind::KilogramsPerHour);
            let outside = format!("{name}: outside air");
            self.numbers(&outside, changes, |case| own(case)?.ach_per_h);
            self.numbers(&outside, flow, |case| {
                Ok(own(case)?.mean_inflow_kg_s * SECONDS_PER_HOUR)
            });
            let others = format!("{name}: from other spaces");
            self.numbers(&others, changes, |case| own(case)?.from_spaces_per_h);
            self.numbers(&others, flow, |case| {
                Ok(own(case)?.mean_from_spaces_kg_s * SECONDS_PER_HOUR)
            });
        }
    }
}

/// One of a case's wind directions.
fn in_direction(case: &CaseAnswer, which: fn(&CaseAir) -> usize) -> Answer<&DirectionAnswer> {
    let air = air(case)?;
    let found = air.directions.get(which(air));
    found.ok_or_else(|| NotKnown::because("no wind direction was worked out"))
}

/// Lowest and highest of a figure over the directions.
fn span(
    directions: &[DirectionAnswer],
    of: impl Fn(&DirectionAnswer) -> Option<f64>,
) -> Option<(f64, f64)> {
    directions.iter().filter_map(of).fold(None, |span, value| {
        let (low, high) = span.unwrap_or((value, value));
        Some((value.min(low), value.max(high)))
    })
}

/// Neutral levels in words: what lies above or below the body is told as such, not in metres of
/// sky.
fn level((low, high): (f64, f64), body: Option<(f64, f64)>) -> String {
    let Some((floor, roof)) = body else {
        return Kind::Metres.span(low, high);
    };
    let place = |level: f64| {
        if level > roof {
            "above the roof".to_owned()
        } else if level < floor {
            "below the floor".to_owned()
        } else {
            Kind::Metres.span(level, level)
        }
    };
    let (low, high) = (place(low), place(high));
    if low == high {
        low
    } else {
        format!("{low} to {high}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_neutral_level_above_or_below_the_body_is_told_in_words() {
        let body = Some((0.5, 2.5));
        assert_eq!(level((62.0, 100.0), body), "above the roof");
        assert_eq!(level((-3.0, 1.24), body), "below the floor to 1.2");
        assert_eq!(level((1.0, 2.0), body), "1.0 to 2.0");
        assert_eq!(level((1.0, 9.0), None), "1.0 to 9.0");
    }

    #[test]
    fn cases_stand_in_one_table_in_order_of_wind_whatever_their_order_in_the_survey() {
        use crate::assess::Study;
        use crate::report::Block;
        use crate::survey::{Edit, Record, Survey, VehicleKind};
        let mut survey = Survey::starting(VehicleKind::PanelVan);
        survey.weather.reverse();
        for (wind, name) in [(2.0, "light"), (12.0, "gale"), (6.0, "fresh")] {
            let mut case = survey.weather[0].clone();
            case.id = survey.free_weather_id();
            (case.wind_m_s, case.name) = (wind, name.to_owned());
            let put = Edit::Put(Record::Weather(case));
            survey.apply(put).expect("a case more");
        }
        let study = Study::of(&survey);
        let found = section(&Material::of(&study), &Part::ALL);
        let tables = found.blocks.iter().filter_map(|block| match block {
            Block::Table { table } => Some(table),
            _ => None,
        });
        let heads: Vec<Vec<&str>> = tables
            .map(|table| table.columns.iter().map(|one| one.head.as_str()).collect())
            .collect();
        let order = [
            "Weather case",
            "still",
            "light",
            "breezy",
            "fresh",
            "windy",
            "gale",
        ];
        assert_eq!(heads, [order]);
    }
}
