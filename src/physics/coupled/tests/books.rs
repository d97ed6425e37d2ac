//! The books of water and heat over random rooms.

use super::*;
use crate::physics::coupled::{ColdSurface, CoupledError, Running, solve};
use proptest::prelude::*;
use std::cell::Cell;

/// An inside without its machine, the machine's kind and size, and the air flow's two numbers.
#[derive(Clone, Debug)]
struct Drawn {
    outside: (f64, f64),
    pressure: f64,
    fabric: f64,
    sources: (f64, f64),
    gains: f64,
    heater: Option<(f64, Option<f64>, f64)>,
    machine: Option<(Kind, f64, f64)>,
    hygrostat: Option<f64>,
    surfaces: Vec<ColdSurface>,
    /// Dry-air flow m = still + stack √|T_i − T_o|, kg/s.
    flow: (f64, f64),
}

fn or_none(most: f64) -> impl Strategy<Value = f64> {
    prop_oneof![Just(0.0), 0.0..most]
}

/// Surfaces of a vehicle, some without area, some that see a clear night sky.
pub(super) fn surfaces(outside_c: f64) -> impl Strategy<Value = Vec<ColdSurface>> {
    let one = (or_none(20.0), 0.0..1.0_f64, or_none(9.5));
    prop::collection::vec(one, 0..8).prop_map(move |all| {
        let surface = |(area, temperature_factor, sky): (f64, f64, f64)| ColdSurface {
            area,
            temperature_factor,
            outside_seen_c: outside_c - sky,
        };
        all.into_iter().map(surface).collect()
    })
}

fn drawn() -> impl Strategy<Value = Drawn> {
    let kind = prop_oneof![
        Just(Kind::Compressor),
        Just(Kind::Thermoelectric),
        Just(Kind::DesiccantRotor),
        Just(Kind::SaltTub)
    ];
    let heater = (
        20.0..3000.0_f64,
        prop::option::of(-5.0..30.0_f64),
        or_none(4e-8),
    );
    (
        (-15.0..30.0_f64, 0.05..1.0_f64),
        60_000.0..102_000.0_f64,
        1.0..300.0_f64,
        (or_none(3e-4), or_none(3e-4)),
        or_none(500.0),
        prop::option::of(heater),
        prop::option::of((kind, 0.05..60.0_f64, 20.0..900.0_f64)),
        prop::option::of(0.2..0.95_f64),
        (or_none(0.06), or_none(0.01)),
        surfaces(0.0),
    )
        .prop_map(
            |(
                outside,
                pressure,
                fabric,
                sources,
                gains,
                heater,
                machine,
                hygrostat,
                flow,
                surfaces,
            )| Drawn {
                surfaces: surfaces
                    .into_iter()
                    .map(|surface| ColdSurface {
                        outside_seen_c: outside.0 + surface.outside_seen_c,
                        ..surface
                    })
                    .collect(),
                outside,
                pressure,
                fabric,
                sources,
                gains,
                heater,
                machine,
                hygrostat,
                flow,
            },
        )
}

impl Drawn {
    fn solved(
        &self,
        check: impl FnOnce(&Inside<'_>, Result<Steady, CoupledError<Infallible>>, u32),
    ) {
        let outside =
            MoistAir::from_relative_humidity(self.outside.0, self.outside.1, self.pressure)
                .expect("a state");
        let machine = self.machine.map(|(kind, litres, power)| {
            let rated = MakerPoint {
                t_c: 25.0,
                rh: 0.7,
                removal: litres / DAY,
                power,
            };
            Machine::new(kind, &[rated], None).expect("a machine")
        });
        let inside = Inside {
            outside,
            fabric: self.fabric,
            vapour_source: self.sources.0,
            liquid_source: self.sources.1,
            gains: self.gains,
            heater: self
                .heater
                .map(|(rating, set_point_c, water_per_joule)| Heater {
                    rating,
                    set_point_c,
                    // Where no air flows at all the smallest flame wets the air without end, and
                    // none does not: there is nothing in between to find.
                    water_per_joule: if self.flow.0 + self.flow.1 > 0.0 {
                        water_per_joule
                    } else {
                        0.0
                    },
                }),
            machine: machine.as_ref(),
            hygrostat: self.hygrostat,
            surfaces: &self.surfaces,
        };
        let looks = Cell::new(0);
        let steady = solve(&inside, |t_c: f64| {
            looks.set(looks.get() + 1);
            Ok(self.flow.0 + self.flow.1 * (t_c - outside.t_c).abs().sqrt())
        });
        check(&inside, steady, looks.get());
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(10_000))]

    /// What comes in goes out: water and heat to 1e-9 of what passes through.
    #[test]
    fn the_books_of_water_and_heat_close(drawn in drawn()) {
        let mut outcome = Ok(());
        drawn.solved(|inside, steady, looks| {
            outcome = check(inside, steady, looks, &drawn);
        });
        outcome?;
    }
}

/// Next to no water, and air that flows only where the temperatures differ: the flow that carries
/// it off hangs on 2e-11 K.
#[test]
fn the_books_close_where_the_flow_hangs_on_the_last_bits_of_the_temperature() {
    let drawn = Drawn {
        outside: (22.904_996_243_833_83, 0.05),
        pressure: 60_000.0,
        fabric: 1.0,
        sources: (5.130_944_041_207_667e-10, 0.0),
        gains: 0.0,
        heater: None,
        machine: None,
        hygrostat: None,
        surfaces: Vec::new(),
        flow: (0.0, 0.004_077_063_457_617_441),
    };
    drawn.solved(|inside, steady, looks| {
        let checked = check(inside, steady, looks, &drawn);
        assert!(checked.is_ok(), "{checked:?}");
    });
}

fn check(
    inside: &Inside<'_>,
    steady: Result<Steady, CoupledError<Infallible>>,
    looks: u32,
    drawn: &Drawn,
) -> Result<(), TestCaseError> {
    prop_assert!(looks < 150, "{looks} looks at the air flow");
    let steady = match steady {
        // Strong heaters in small conductances: said, not answered.
        Err(CoupledError::TooWarm) => {
            prop_assert!(
                drawn.heater.is_some()
                    || drawn.machine.is_some()
                    || drawn.gains > 0.0
                    || drawn.sources.0 > 0.0
            );
            return Ok(());
        }
        other => other.map_err(|error| TestCaseError::fail(format!("{error:?}")))?,
    };
    let (water, through) = steady.water_book(inside);
    // Where next to nothing passes, the last bit of W is what is left: with a strong machine that
    // comes to a hundred-thousandth of a milligram a day.
    prop_assert!(
        water.abs() <= (1e-9 * through).max(1e-16),
        "water {water:e} of {through:e}: {steady:?}"
    );
    let (heat, gains) = steady.heat_book(inside);
    // And the last bits of T: 1e-13 K at some hundred W/K.
    prop_assert!(
        heat.abs() <= (1e-9 * gains).max(1e-10),
        "heat {heat:e} of {gains:e}: {steady:?}"
    );
    on_surfaces(inside, &steady)?;
    let rh = steady.relative_humidity();
    prop_assert!((0.0..=1.0 + 1e-12).contains(&rh), "RH {rh}");
    prop_assert!(steady.condensation >= 0.0 && steady.removal >= 0.0);
    if steady.condensation > 0.0 {
        // The air flow here rises with the root of the difference of temperature: where that is
        // but some last bits of T, 6e-14 at 300 K, those bits move the flow and RH with it.
        let away = (steady.inside.t_c - inside.outside.t_c).abs();
        let near = 1e-12 + 2.5e-13 / away.max(1e-13);
        prop_assert!(rh > 1.0 - near, "condenses at RH {rh}, {away:e} K apart");
    }
    prop_assert!((0.0..=1.0).contains(&steady.duty));
    if let (Some(heater), watts) = (inside.heater, steady.heater_power) {
        prop_assert!((0.0..=heater.rating).contains(&watts));
        if let Some(set) = heater.set_point_c {
            let (t, free) = (steady.inside.t_c, 1e-9);
            prop_assert!(watts >= heater.rating || t >= set - free, "too cold at {t}");
            prop_assert!(watts <= 0.0 || t <= set + free, "too warm at {t}");
        }
    }
    hygrostat(inside, &steady)
}

/// The surfaces take what each takes by itself, and give back their share.
fn on_surfaces(inside: &Inside<'_>, steady: &Steady) -> Result<(), TestCaseError> {
    let each = inside.surfaces.iter().map(|surface| {
        (
            surface.temperature_factor,
            surface.condensation(&steady.inside),
        )
    });
    let (taken, back) = each.fold((0.0, 0.0), |(taken, back), (factor, one)| {
        (taken + one, back + factor * one)
    });
    // Last bits of W and T again, by the surfaces' whole conductance.
    let near = |found: f64, wanted: f64| (found - wanted).abs() <= 1e-6 * wanted + 1e-13;
    prop_assert!(near(steady.on_surfaces, taken), "{taken:e}: {steady:?}");
    prop_assert!(near(steady.given_back, back), "{back:e}: {steady:?}");
    prop_assert!(steady.on_surfaces >= 0.0 && steady.given_back <= steady.on_surfaces);
    Ok(())
}

fn hygrostat(inside: &Inside<'_>, steady: &Steady) -> Result<(), TestCaseError> {
    let (Some(setting), Running::Runs) = (inside.hygrostat, steady.running) else {
        return Ok(());
    };
    // Where the air flow rises without bound of slope, as it does here at no difference of
    // temperature, the last bits of T move the RH: a ten-thousandth of a point.
    let (rh, near) = (steady.relative_humidity(), 1e-6);
    if steady.duty >= 1.0 {
        prop_assert!(
            rh >= setting - near,
            "runs all the time at {rh} below {setting}"
        );
    } else if steady.duty > 0.0 {
        prop_assert!(
            (rh - setting).abs() < near,
            "holds {rh} instead of {setting}"
        );
    } else {
        prop_assert!(rh <= setting + near, "idle at {rh} above {setting}");
    }
    Ok(())
}
