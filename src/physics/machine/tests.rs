//! The four kinds against their definitions **\[A\]**, Conde 2004 **\[S\]** and closed forms.

use super::salt::{TUB_MASS_TRANSFER, saturated_solution_rh, water_at_equilibrium};
use super::*;
use proptest::prelude::*;

const DAY: f64 = 86_400.0;

fn air(t_c: f64, rh: f64) -> MoistAir {
    MoistAir::from_relative_humidity(t_c, rh, STANDARD_PRESSURE).expect("a state")
}

fn point(t_c: f64, rh: f64, litres: f64, power: f64) -> MakerPoint {
    MakerPoint {
        t_c,
        rh,
        removal: litres / DAY,
        power,
    }
}

fn machine(kind: Kind, points: &[MakerPoint]) -> Machine {
    Machine::new(kind, points, None).expect("a machine")
}

fn litres(machine: &Machine, t_c: f64, rh: f64) -> f64 {
    machine.removal(&air(t_c, rh)) * DAY
}

#[test]
fn every_kind_gathers_its_rating_at_its_rating_state() {
    for kind in [
        Kind::Compressor,
        Kind::Thermoelectric,
        Kind::DesiccantRotor,
        Kind::SaltTub,
    ] {
        let machine = machine(kind, &[point(20.0, 0.6, 3.0, 400.0)]);
        assert!(
            (litres(&machine, 20.0, 0.6) - 3.0).abs() < 1e-12,
            "{kind:?}"
        );
        assert!(
            (machine.power(&air(20.0, 0.6)) - 400.0).abs() < 1e-9,
            "{kind:?}"
        );
    }
}

#[test]
fn frost_takes_seven_tenths_at_a_coil_of_minus_ten() {
    // [A]: frost 1 at a coil of 3 °C, 0.3 at −10 °C; the coil is 15 K below the room. Per unit of
    // W − W_sat(coil) the removals are as 1, 0.65 (halfway, −3.5 °C), 0.3.
    let machine = machine(Kind::Compressor, &[point(30.0, 0.8, 20.0, 280.0)]);
    let per_drive = |t_c: f64| {
        let room = air(t_c, 0.9);
        let coil = air(t_c - 15.0, 1.0);
        machine.removal(&room) / (room.humidity_ratio - coil.humidity_ratio)
    };
    let free = per_drive(18.0);
    assert!((per_drive(25.0) / free - 1.0).abs() < 1e-12);
    assert!((per_drive(11.5) / free - 0.65).abs() < 1e-12);
    assert!((per_drive(5.0) / free - 0.30).abs() < 1e-12);
}

#[test]
fn a_compressor_stops_below_its_lowest_room_temperature() {
    let rated = [point(30.0, 0.8, 20.0, 280.0)];
    let usual = machine(Kind::Compressor, &rated);
    assert!(litres(&usual, 5.0, 0.9) > 0.0 && litres(&usual, 4.99, 0.9) == 0.0);
    assert!(usual.power(&air(4.99, 0.9)) == 0.0);
    let hardy = Machine::new(Kind::Compressor, &rated, Some(2.0)).expect("a machine");
    assert!(litres(&hardy, 4.0, 0.9) > 0.0);
}

#[test]
fn a_thermoelectric_plate_finds_nothing_below_its_zero_degrees() {
    // [A]: the plate is never below 0 °C, where saturated air holds 3.79 g/kg (ASHRAE
    // Fundamentals 2017 tables [S]): 8 °C and 55 % hold 3.67.
    let machine = machine(Kind::Thermoelectric, &[point(30.0, 0.8, 0.5, 60.0)]);
    assert!(litres(&machine, 8.0, 0.55) == 0.0);
    assert!(litres(&machine, 8.0, 0.60) > 0.0);
}

#[test]
fn a_rotor_needs_the_heat_to_drive_the_water_off() {
    // [A]: 2.5 MJ for each kg: 100 W can free 1.44 kg/kWh × 2.4 kWh = 3.456 L a day, whatever is
    // claimed, and no more than 1.2 times the rating.
    let claims = machine(Kind::DesiccantRotor, &[point(20.0, 0.6, 5.0, 100.0)]);
    assert!((litres(&claims, 20.0, 0.6) - 3.456).abs() < 1e-9);
    let strong = machine(Kind::DesiccantRotor, &[point(20.0, 0.6, 5.0, 900.0)]);
    assert!((litres(&strong, 35.0, 0.9) - 6.0).abs() < 1e-9);
    assert!(litres(&strong, 20.0, 0.15) == 0.0);
    // Half of the clamp at RH 0.325, and √(W/W_rated) beside it.
    let dry = air(20.0, 0.325).humidity_ratio / air(20.0, 0.6).humidity_ratio;
    assert!((litres(&strong, 20.0, 0.325) - 5.0 * 0.5 * dry.sqrt()).abs() < 1e-9);
}

#[test]
fn a_tub_gathers_by_the_difference_of_vapour_density() {
    // By hand, 5 °C 80 %, 0.02 m²: p_ws 872.6 Pa (ASHRAE 2017 [S]), solution 41 % (Conde [S]):
    // 2.1e-3 × 0.02 × 0.39 × 872.6/(461.5 × 278.15) = 1.1135e-7 kg/s, 9.62 g a day.
    let tub = Machine::salt_tub(0.02).expect("a tub");
    assert!((litres(&tub, 5.0, 0.80) - 9.62e-3).abs() < 5e-6);
    assert!(litres(&tub, 5.0, 0.41) < 1e-15 && litres(&tub, 5.0, 0.30) == 0.0);
    assert!(tub.power(&air(5.0, 0.8)) == 0.0);
    assert!((TUB_MASS_TRANSFER - 2.1e-3).abs() < 1e-12);
}

#[test]
fn calcium_chloride_takes_the_published_water() {
    // Conde, Int. J. Thermal Sciences 43 (2004) 367 [S].
    for (t_c, rh) in [(0.0, 0.43), (5.0, 0.41), (10.0, 0.39), (20.0, 0.34)] {
        assert!((saturated_solution_rh(t_c) - rh).abs() < 1e-12);
    }
    for (rh, water) in [
        (0.5, 1.85),
        (0.6, 2.22),
        (0.7, 2.76),
        (0.8, 3.70),
        (0.9, 6.17),
    ] {
        let found = water_at_equilibrium(5.0, rh).expect("it dissolves");
        assert!((found - water).abs() < 0.0051, "{rh}: {found}");
    }
    assert!(water_at_equilibrium(5.0, 0.40).is_none() && water_at_equilibrium(5.0, 1.0).is_none());
}

#[test]
fn figures_of_the_maker_are_met_where_they_were_stated() {
    let points = [
        point(30.0, 0.8, 20.0, 280.0),
        point(20.0, 0.6, 6.0, 250.0),
        point(10.0, 0.6, 1.8, 220.0),
    ];
    let machine = machine(Kind::Compressor, &points);
    for point in points {
        let there = air(point.t_c, point.rh);
        assert!(
            (machine.removal(&there) / point.removal - 1.0).abs() < 1e-12,
            "{point:?}"
        );
        assert!(
            (machine.power(&there) - point.power).abs() < 1e-9,
            "{point:?}"
        );
    }
    // Between two figures it lies between them, and power is held outside.
    let between = litres(&machine, 15.0, 0.6);
    assert!(between > 1.8 && between < 6.0);
    assert!((machine.power(&air(35.0, 0.9)) - 280.0).abs() < 1e-9);
    assert!((machine.power(&air(6.0, 0.4)) - 220.0).abs() < 1e-9);
}

#[test]
fn figures_that_contradict_each_other_make_no_machine() {
    let wetter_gathers_less = [point(20.0, 0.6, 6.0, 250.0), point(25.0, 0.7, 3.0, 250.0)];
    let error = Machine::new(Kind::Compressor, &wetter_gathers_less, None);
    assert!(
        matches!(error, Err(MachineError::Contradiction { .. })),
        "{error:?}"
    );
    let same_state = [point(20.0, 0.6, 6.0, 250.0), point(20.0, 0.6, 3.0, 250.0)];
    assert!(Machine::new(Kind::Compressor, &same_state, None).is_err());
    let rounded = [point(20.0, 0.6, 6.0, 250.0), point(21.0, 0.6, 5.9, 250.0)];
    assert!(Machine::new(Kind::Compressor, &rounded, None).is_ok());
    // A plate that is never below 0 °C cannot gather at 2 °C and 50 %.
    let nothing = Machine::new(Kind::Thermoelectric, &[point(2.0, 0.5, 0.3, 60.0)], None);
    assert!(matches!(nothing, Err(MachineError::NothingThere { .. })));
    assert_eq!(
        Machine::new(Kind::Compressor, &[], None),
        Err(MachineError::NoPoint)
    );
    let none = [point(20.0, 0.6, 0.0, 250.0)];
    assert_eq!(
        Machine::new(Kind::Compressor, &none, None),
        Err(MachineError::NoPoint)
    );
    let negative = [point(20.0, 0.6, -1.0, 250.0)];
    assert_eq!(
        Machine::new(Kind::Compressor, &negative, None),
        Err(MachineError::NotPositive)
    );
    assert!(Machine::salt_tub(0.0).is_err() && Machine::salt_tub(f64::NAN).is_err());
}

#[test]
fn figures_the_wrong_way_round_are_replaced_by_their_mean() {
    // Warmer but drier against colder but wetter: neither dominates, and the generic law puts the
    // first below the second, so both stand for the mean of the two.
    let points = [point(27.0, 0.5, 9.0, 250.0), point(20.0, 0.6, 8.0, 250.0)];
    let machine = machine(Kind::Compressor, &points);
    for (t_c, rh) in [(27.0, 0.5), (20.0, 0.6)] {
        assert!((litres(&machine, t_c, rh) - 8.5).abs() < 1e-9);
    }
}

fn kinds() -> impl Strategy<Value = Kind> {
    prop_oneof![
        Just(Kind::Compressor),
        Just(Kind::Thermoelectric),
        Just(Kind::DesiccantRotor),
        Just(Kind::SaltTub)
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    /// The moisture balance has one answer only where removal never falls with humidity.
    #[test]
    fn removal_never_falls_as_the_air_gets_wetter(
        kind in kinds(),
        figures in prop::collection::vec((15.0..35.0_f64, 0.6..0.95_f64, 0.1..30.0_f64, 20.0..900.0_f64), 1..5),
        t_c in -10.0..35.0_f64,
        one in 0.0..1.0_f64,
        other in 0.0..1.0_f64,
    ) {
        let points: Vec<_> = figures.iter().map(|&(t, rh, d, p)| point(t, rh, d, p)).collect();
        if let Ok(machine) = Machine::new(kind, &points, None) {
            let (drier, wetter) = (one.min(other), one.max(other));
            let (low, high) = (litres(&machine, t_c, drier), litres(&machine, t_c, wetter));
            prop_assert!(low >= 0.0 && low.is_finite() && high.is_finite());
            // A rotor whose stated power falls with humidity may be held back by it.
            if kind != Kind::DesiccantRotor {
                prop_assert!(low <= high * (1.0 + 1e-12) + 1e-15, "{low} {high}");
            }
            let power = machine.power(&air(t_c, wetter));
            let most = figures.iter().map(|figure| figure.3).fold(0.0, f64::max);
            prop_assert!(power >= 0.0 && power <= most);
        }
    }
}
