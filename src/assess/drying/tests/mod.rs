//! The comparison on a body that is easily worked out by hand.

mod after_plan;
mod against;
mod bad_input;
mod money;
mod season;
mod sentences;
mod sizes;
mod surfaces;
mod trade;
mod truths;
mod workings;

use super::*;
use crate::assess::compare;
use crate::survey::{
    BuildUp, Certainty, Drying, FabricElement, FabricId, FabricPart, Facing, Form, Gap, GapId,
    GapPart, Heater, HeaterFuel, HeaterId, InsideAir, Machine, MachineId, MachineKind,
    MoistureSource, SetUp, SourceId, SourceKind, VehicleKind, ZoneId,
};

const DAY: f64 = 86_400.0;

fn hole(id: u32, facing: Facing, height: f64, diameter: f64) -> Gap {
    let mut gap = Gap::new(
        GapId(id),
        ZoneId(1),
        facing,
        Form::RoundHole {
            diameter_mm: Some(diameter),
        },
    );
    gap.name = format!("hole {id}");
    gap.position.height_m = Some(height);
    gap.certainty = Certainty::Measured;
    gap.part = GapPart::FixedJoint;
    gap.purpose_confirmed = true;
    gap
}

/// A leaky body of 20 m³ with Σ U A of 62 W/K, outside 6 °C and 85 %: about one air change an hour
/// in still air with a few kelvin inside, three to four in the windy case.
pub(super) fn body() -> Survey {
    let mut survey = Survey::new(VehicleKind::TouringCaravan);
    survey.header.title = "Invented body".to_owned();
    survey.appliances_confirmed = true;
    let vehicle = &mut survey.vehicle;
    vehicle.length_m = Some(5.5);
    vehicle.width_m = Some(2.2);
    vehicle.height_m = Some(2.6);
    vehicle.floor_height_m = Some(0.6);
    vehicle.volume_m3 = Some(20.0);
    vehicle.berths = 2;
    survey.gaps = vec![
        hole(1, Facing::Nearside, 0.7, 105.0),
        hole(2, Facing::Offside, 0.7, 105.0),
        hole(3, Facing::Front, 2.4, 105.0),
        hole(4, Facing::Rear, 2.4, 105.0),
    ];
    survey.fabric = vec![FabricElement {
        id: FabricId(1),
        name: "all round".to_owned(),
        part: FabricPart::Wall,
        area_m2: Some(50.0),
        build_up: BuildUp::Stated {
            u_w_per_m2_k: Some(1.24),
        },
        bridge_percent: 0.0,
        outline: None,
    }];
    for case in &mut survey.weather {
        case.outside_c = 6.0;
        case.outside_rh_percent = 85.0;
        case.inside = InsideAir::WarmerBy { kelvin: 2.0 };
    }
    survey.weather[2].wind_m_s = 6.5;
    survey.appliances_confirmed = true;
    survey
}

fn compared(survey: &Survey) -> Comparison {
    compare(survey).expect("a comparison")
}

fn option(comparison: &Comparison, kind: OptionKind) -> &OptionAnswer {
    comparison
        .options
        .iter()
        .find(|option| option.kind == kind)
        .expect("an option")
}

fn still(comparison: &Comparison, kind: OptionKind) -> &OptionCase {
    let case = &option(comparison, kind).cases[comparison.calmest];
    case.as_ref().expect("a state")
}

fn windy(comparison: &Comparison, kind: OptionKind) -> &OptionCase {
    let case = &option(comparison, kind).cases[comparison.windiest];
    case.as_ref().expect("a state")
}

const COMPRESSOR: OptionKind = OptionKind::Machine(MachineKind::Compressor);
const ROTOR: OptionKind = OptionKind::Machine(MachineKind::DesiccantRotor);
const PLATE: OptionKind = OptionKind::Machine(MachineKind::Thermoelectric);
const TUB: OptionKind = OptionKind::Machine(MachineKind::SaltTub);

/// A machine with one figure at 20 °C and 60 %.
fn own_machine(id: u32, kind: MachineKind, litres: f64, watts: f64) -> Machine {
    Machine {
        id: MachineId(id),
        name: format!("own {}", kind.name()),
        rated_removal_l_per_day: Some(litres),
        rated_temperature_c: Some(20.0),
        rated_rh_percent: Some(60.0),
        power_w: Some(watts),
        ..library::machine(kind)
    }
}

/// Two sleepers in use, all day: 40 g/h each (BS 5250 **\[M\]**).
fn sleepers() -> MoistureSource {
    MoistureSource {
        id: SourceId(1),
        name: "sleepers".to_owned(),
        kind: SourceKind::PersonAsleep,
        count: 2,
        rate_g_per_h: Some(40.0),
        hours_per_day: 24.0,
        laid_up: false,
        in_use: true,
    }
}

fn own_heater(id: u32, fuel: HeaterFuel, watts: Option<f64>, set: Option<f64>) -> Heater {
    Heater {
        name: format!("heater {id}"),
        rating_w: watts,
        set_point_c: set,
        ..Heater::new(HeaterId(id), fuel)
    }
}
