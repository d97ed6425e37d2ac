//! Findings about appliances, machines, heaters, fans and moisture sources.

use crate::physics::machine::{self as physics, MachineError};

use super::finding::{Finder, Finding, Item, Severity, called};
use crate::survey::equipment::{HeaterFuel, Machine, MachineKind};
use crate::survey::{CodeOfPractice, Field, MoistureSource, SetUp, SourceKind, Survey};

pub(super) fn find(survey: &Survey, findings: &mut Vec<Finding>) {
    for appliance in &survey.appliances {
        let subject = called(appliance.kind.name(), &appliance.name);
        let mut finder = Finder::new(findings, Item::Appliance(appliance.id), subject);
        finder.check(Field::RatedInput, appliance.input_mj_per_h);
        if survey.vehicle.code_of_practice == CodeOfPractice::AsNzs5601 && !appliance.room_sealed {
            finder.need(
                Field::RatedInput,
                appliance.input_mj_per_h,
                "the free areas that AS/NZS 5601.2 asks for cannot be worked out",
            );
        }
    }
    for machine in &survey.machines {
        let subject = called(machine.kind.name(), &machine.name);
        let mut finder = Finder::new(findings, Item::Machine(machine.id), subject);
        machine_ranges(&mut finder, machine);
        machine_state(&mut finder, machine);
        machine_figures(&mut finder, machine);
    }
    for heater in &survey.heaters {
        let subject = called("heater", &heater.name);
        let mut finder = Finder::new(findings, Item::Heater(heater.id), subject);
        finder.check(Field::Rating, heater.rating_w);
        finder.check(Field::SetPoint, heater.set_point_c);
        finder.check(Field::Price, heater.price);
        finder.check(Field::Upkeep, heater.upkeep_per_month);
        finder.need(
            Field::Rating,
            heater.rating_w,
            "what it can hold cannot be worked out",
        );
        if heater.fuel == HeaterFuel::UnfluedGas {
            finder.danger(None,
                "a flame without a flue gives off carbon monoxide and water into the room",
                "do not use it to heat or dry a closed vehicle; fit a CO alarm (EN 50291-2 is the variant for leisure vehicles [S]) and ask a licensed fitter",
            );
        }
    }
    for fan in &survey.fans {
        let subject = called("fan", &fan.name);
        let mut finder = Finder::new(findings, Item::Fan(fan.id), subject);
        let before = finder.findings.len();
        finder.check(Field::FanFlow, fan.flow_m3_per_h);
        finder.check(Field::FanMostPressure, fan.most_pressure_pa);
        finder.need(
            Field::FanFlow,
            fan.flow_m3_per_h,
            "it is left out of the air balance",
        );
        if let Some(space) = fan.space
            && !survey.spaces.iter().any(|known| known.id == space)
        {
            finder.error(
                Field::Space,
                format!("it moves air of space {space}, which does not exist"),
                "choose one of the spaces listed, or none",
            );
        }
        let found = finder.findings.iter().skip(before);
        if found.filter(|one| one.severity == Severity::Error).count() > 0 {
            finder.warn(
                None,
                "it is left out of the air balance until that is mended",
                "mend what cannot be",
            );
        }
    }
    for source in &survey.sources {
        moisture_source(survey, source, findings);
    }
    if lacks_people(survey) {
        Finder::new(findings, Item::Drying, "").warn(
            None,
            NO_PEOPLE,
            "add who lives in it, and what is cooked and dried, among the moisture sources",
        );
    }
}

/// What [`lacks_people`] means for the results.
pub const NO_PEOPLE: &str =
    "nobody's breath, cooking or washing is written down: in use it is damper than worked out";

/// Whether people live in it, and what they give off is not written down.
#[must_use]
pub fn lacks_people(survey: &Survey) -> bool {
    let sleeps = survey.vehicle.berths > 0;
    survey.set_up == SetUp::InUse && sleeps && !survey.sources.iter().any(|one| one.in_use)
}

fn machine_ranges(finder: &mut Finder<'_>, machine: &Machine) {
    finder.check(Field::RatedRemoval, machine.rated_removal_l_per_day);
    finder.check(Field::RatedTemperature, machine.rated_temperature_c);
    finder.check(Field::RatedRh, machine.rated_rh_percent);
    finder.check(Field::Power, machine.power_w);
    finder.check(Field::Airflow, machine.airflow_m3_per_h);
    finder.check(Field::LowestRoom, machine.lowest_room_c);
    finder.check(Field::TubArea, machine.tub_area_m2);
    finder.check(Field::TubHolds, machine.tub_l);
    finder.check(Field::Price, machine.price);
    finder.check(Field::Upkeep, machine.upkeep_per_month);
    for point in &machine.points {
        finder.check(Field::PointTemperature, point.temperature_c);
        finder.check(Field::PointRh, point.rh_percent);
        finder.check(Field::PointRemoval, point.removal_l_per_day);
        finder.check(Field::PointPower, point.power_w);
    }
}

fn machine_state(finder: &mut Finder<'_>, machine: &Machine) {
    if machine.kind == MachineKind::SaltTub {
        finder.need(
            Field::TubArea,
            machine.tub_area_m2,
            "what it gathers cannot be worked out",
        );
        return;
    }
    if machine.points.is_empty() {
        finder.need(
            Field::RatedRemoval,
            machine.rated_removal_l_per_day,
            "what it gathers cannot be worked out",
        );
    }
    let state = machine.rated_temperature_c.is_some() && machine.rated_rh_percent.is_some();
    if machine.rated_removal_l_per_day.is_some() && !state {
        finder.warn(Field::RatedTemperature,
            "its removal is given without the temperature and humidity it was stated at",
            "look for both beside the maker's figure: the same machine gathers far less in cold air",
        );
    }
    finder.need(
        Field::Power,
        machine.power_w,
        "its warmth and its running cost are not known",
    );
}

/// Figures that contradict each other, or the way the machine works.
fn machine_figures(finder: &mut Finder<'_>, machine: &Machine) {
    let points = machine.maker_points();
    if points.is_empty() {
        return;
    }
    let found = physics::Machine::new(machine.kind.behaviour(), &points, machine.lowest_room_c);
    let (field, advice) = match found {
        Ok(_) | Err(MachineError::NotPositive | MachineError::State(_)) => return,
        Err(MachineError::NoPoint) => (
            Field::RatedRemoval,
            "look up what the maker says it removes, and at which temperature and humidity",
        ),
        Err(MachineError::NothingThere { .. }) => (
            Field::RatedTemperature,
            "check the state that belongs to the figure, and the kind of machine",
        ),
        Err(MachineError::Contradiction { .. }) => (
            Field::PointRemoval,
            "check both figures and their states against the maker's sheet",
        ),
    };
    if let Err(error) = found {
        finder.error(field, error.to_string(), advice);
    }
}

fn moisture_source(survey: &Survey, source: &MoistureSource, findings: &mut Vec<Finding>) {
    let subject = called("moisture source", &source.name);
    let mut finder = Finder::new(findings, Item::Source(source.id), subject);
    finder.check(Field::SourceRate, source.rate_g_per_h);
    finder.check(Field::SourceHours, source.hours_per_day);
    finder.check(Field::SourceCount, f64::from(source.count));
    finder.need(
        Field::SourceRate,
        source.rate_g_per_h,
        "the water to remove is not known",
    );
    if source.kind == SourceKind::UnfluedFlame {
        finder.danger(None,
            "a flame without a flue gives off carbon monoxide and water into the room",
            "never use it as a heater; fit a CO alarm (EN 50291-2 is the variant for leisure vehicles [S]) and ask a licensed fitter",
        );
    }
    let people = matches!(
        source.kind,
        SourceKind::PersonAwake | SourceKind::PersonAsleep
    );
    if people && source.laid_up && survey.set_up == SetUp::LaidUp {
        finder.remark(
            Field::SourceLaidUp,
            "people are present in a vehicle that is laid up",
            "untick laid up, unless somebody does stay in it",
        );
    }
}
