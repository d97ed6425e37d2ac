//! Cold surfaces: closed forms, and advice that is true when it is followed.

use super::books::surfaces;
use super::*;
use crate::physics::air::{ZERO_CELSIUS, saturation_pressure};
use crate::physics::coupled::{
    AirFlow, Clearing, ColdSurface, SURFACE_MASS_TRANSFER, clearing, dry_out, solve,
};
use crate::physics::moisture::{HEAT_OF_VAPORISATION, ventilation_conductance};
use proptest::prelude::*;

/// Warmest inside that the advice looks for, °C (METHOD 8).
const WARMEST_C: f64 = 30.0;

fn close(found: f64, wanted: f64, within: f64) {
    assert!((found - wanted).abs() <= within, "{found} is not {wanted}");
}

fn glass(area: f64, outside_seen_c: f64) -> ColdSurface {
    ColdSurface {
        area,
        temperature_factor: 0.259,
        outside_seen_c,
    }
}

fn surface_rh(surface: &ColdSurface, inside: &MoistAir) -> f64 {
    inside.vapour_pressure() / saturation_pressure(surface.temperature_c(inside.t_c))
}

/// The densities by the gas law with 461.5 J/(kg K).
fn density(vapour: f64, t_c: f64) -> f64 {
    vapour / (461.5 * (t_c + ZERO_CELSIUS))
}

#[test]
fn without_air_flow_a_surface_takes_all_that_is_given_off() {
    // Closed form: ρ_v = ρ_sat(T_s) + S/(h_m A), held at 10 °C by a fabric without resistance.
    let panes = [glass(4.0, 0.0)];
    let mut damp = inside(air(10.0, 0.5), 1e15);
    damp.surfaces = &panes;
    damp.vapour_source = 5e-6;
    let state = steady(&damp, 0.0);
    let here = 0.259 * 10.0;
    let wanted = density(saturation_pressure(here), here) + 5e-6 / (2.1e-3 * 4.0);
    close(density(state.inside.vapour_pressure(), 10.0), wanted, 1e-12);
    close(state.on_surfaces, 5e-6, 1e-17);
    close(state.condensation, 0.0, 0.0);
    close(SURFACE_MASS_TRANSFER, 2.1e-3, 0.0);
    assert!(state.relative_humidity() < 0.75);
}

#[test]
fn a_surface_gives_back_its_share_of_the_heat() {
    // All of S condenses on the pane: as vapour it brings f S h_fg into the room and no more; as
    // liquid it takes S h_fg first, so (1 − f) S h_fg leaves through the pane.
    let panes = [glass(400.0, -10.0)];
    let mut closed = inside(air(10.0, 0.6), 70.0);
    closed.surfaces = &panes;
    closed.vapour_source = 5e-5;
    let state = steady(&closed, 0.0);
    let heat = 5e-5 * HEAT_OF_VAPORISATION;
    close(state.on_surfaces, 5e-5, 1e-16);
    close(state.inside.t_c, 10.0 + 0.259 * heat / 70.0, 1e-9);
    closed.vapour_source = 0.0;
    closed.liquid_source = 5e-5;
    close(
        steady(&closed, 0.0).inside.t_c,
        10.0 - (1.0 - 0.259) * heat / 70.0,
        1e-9,
    );
}

#[test]
fn with_nothing_given_off_and_no_air_flow_the_coldest_surface_dries_the_air() {
    let panes = [glass(1.0, 0.0), glass(1e-6, -6.0)];
    let mut closed = inside(air(10.0, 0.9), 1e15);
    closed.surfaces = &panes;
    let here = -6.0 + 0.259 * 16.0;
    let wanted = density(saturation_pressure(here), here);
    for flow in [0.0, 1e-18] {
        let state = steady(&closed, flow);
        let found = density(state.inside.vapour_pressure(), 10.0);
        close(found, wanted, 1e-6);
        close(state.on_surfaces, 0.0, 1e-17);
    }
}

#[test]
fn what_the_surfaces_do_not_take_still_condenses_at_saturation() {
    let panes = [glass(0.5, 5.0)];
    let mut wet = inside(air(5.0, 0.87), 70.0);
    wet.surfaces = &panes;
    wet.vapour_source = 4e-5;
    let state = steady(&wet, 1e-4);
    close(state.relative_humidity(), 1.0, 1e-12);
    assert!(state.on_surfaces > 1e-7 && state.condensation > 1e-6);
    let (water, through) = state.water_book(&wet);
    close(water, 0.0, 1e-9 * through);
}

#[test]
fn surfaces_without_area_or_warmer_than_the_dew_point_change_nothing() {
    let mut asleep = inside(air(5.0, 0.6), 70.0);
    asleep.vapour_source = 80e-3 / 3600.0;
    asleep.heater = Some(electric(3000.0, Some(18.0)));
    let bare = steady(&asleep, 30.0 / 3600.0);
    let dry = [
        glass(0.0, -20.0),
        ColdSurface {
            area: 40.0,
            temperature_factor: 0.774,
            outside_seen_c: 5.0,
        },
    ];
    asleep.surfaces = &dry;
    assert_eq!(steady(&asleep, 30.0 / 3600.0), bare);
}

#[test]
fn contents_dry_onto_cold_surfaces_too() {
    // Held at 80 % and 10 °C: what evaporates is C_s + m (W − W_o), from the definition.
    let panes = [glass(3.0, -4.0)];
    let mut damp = inside(air(10.0, 0.5), 1e15);
    damp.surfaces = &panes;
    let out = dry_out(&damp, 0.8, |_| Ok::<_, Infallible>(5e-3)).expect("a state");
    let held = out.steady.inside;
    let here = -4.0 + 0.259 * 14.0;
    let onto = 2.1e-3
        * 3.0
        * (density(held.vapour_pressure(), 10.0) - density(saturation_pressure(here), here));
    let carried = 5e-3 * (held.humidity_ratio - damp.outside.humidity_ratio);
    close(out.from_contents, onto + carried, 1e-13);
    assert!(onto > 1e-6);
}

#[test]
fn removal_that_clears_by_hand() {
    // 12 °C inside, outside 5 °C 90 %, 20 kg/h, 120 g/h given off; bare steel that sees 5 °C with
    // f 0.138 is at 5.966 °C. Kept under 60 % there: p 0.6 × 933.0 Pa (ASHRAE's formula), W
    // 3.4556 g/kg, W_o 4.8568 g/kg; nothing condenses that dry. D = 120 + 20 × 1.4012 g/h =
    // 148.02 g/h = 3.553 L a day.
    let steel = ColdSurface {
        area: 5.0,
        temperature_factor: 0.138,
        outside_seen_c: 5.0,
    };
    let mut damp = inside(air(5.0, 0.9), 70.0);
    damp.vapour_source = 120e-3 / 3600.0;
    damp.heater = Some(electric(5000.0, Some(12.0)));
    let all = [steel];
    damp.surfaces = &all;
    let flow = 20.0 / 3600.0;
    let state = steady(&damp, flow);
    let found = clear(&damp, &steel, &state, 0.6, |_| flow);
    close(found.removal * DAY, 3.553, 2e-3);
}

fn clear(
    inside: &Inside<'_>,
    surface: &ColdSurface,
    state: &Steady,
    limit: f64,
    flow: impl Fn(f64) -> f64,
) -> Clearing {
    let flow = AirFlow {
        exact: |t_c| Ok::<_, Infallible>(flow(t_c)),
        near: |_| None,
    };
    clearing(inside, state, (surface, limit), WARMEST_C, &flow).expect("an answer")
}

/// The state once the removal is followed: a machine without power takes just that much in air of
/// this state and ever more in wetter, beside the one that is there no more, and the fabric is
/// made such that the temperature stays.
fn with_removal(
    inside: &Inside<'_>,
    before: &Steady,
    surface: &ColdSurface,
    limit: f64,
    removal: f64,
) -> Option<Steady> {
    let t_c = before.inside.t_c;
    let rh = limit * saturation_pressure(surface.temperature_c(t_c)) / saturation_pressure(t_c);
    let rated = MakerPoint {
        t_c,
        rh,
        removal,
        power: 0.0,
    };
    // Rated at standard pressure, which is the inside's.
    let machine = Machine::new(Kind::SaltTub, &[rated], None).ok()?;
    let held = MoistAir::from_relative_humidity(t_c, rh, inside.outside.pressure).ok()?;
    let back: f64 = inside
        .surfaces
        .iter()
        .map(|one| one.temperature_factor * one.condensation(&held))
        .sum();
    let gains = before.heater_power
        + inside.gains
        + (removal + back - before.evaporated) * HEAT_OF_VAPORISATION;
    let air = ventilation_conductance(before.dry_air_flow, inside.outside.humidity_ratio);
    let fabric = gains / (t_c - inside.outside.t_c) - air;
    if !(fabric.is_finite() && fabric >= 0.0) {
        return None;
    }
    let followed = Inside {
        fabric,
        heater: inside.heater.map(|heater| Heater {
            rating: before.heater_power,
            set_point_c: None,
            ..heater
        }),
        machine: Some(&machine),
        hygrostat: None,
        ..*inside
    };
    solve(&followed, |_| Ok::<_, Infallible>(before.dry_air_flow)).ok()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(3000))]

    /// The advice followed and the balance solved again, the surface is at its limit.
    #[test]
    fn advice_is_true_when_it_is_followed(
        (outside_c, cold) in (-12.0..18.0_f64).prop_flat_map(|c| (Just(c), surfaces(c))),
        rh in 0.5..1.0_f64,
        fabric in 20.0..150.0_f64,
        sources in (0.0..6e-5_f64, 0.0..6e-5_f64),
        heat in (0.0..900.0_f64, prop_oneof![Just(0.0), 0.0..4e-8_f64]),
        machine_of in prop::option::of((2.0..30.0_f64, 50.0..400.0_f64, prop::option::of(0.4..0.9_f64))),
        limit in prop_oneof![Just(0.6), Just(0.8), Just(1.0)],
        (still, stack) in (1e-3..0.05_f64, 0.0..0.01_f64),
    ) {
        prop_assume!(!cold.is_empty());
        let machine = machine_of.map(|(litres, power, _)| machine(Kind::Compressor, 30.0, 0.8, litres, power));
        let mut room = inside(air(outside_c, rh), fabric);
        (room.vapour_source, room.liquid_source) = sources;
        room.gains = 10.0;
        room.heater = Some(Heater { rating: heat.0, set_point_c: None, water_per_joule: heat.1 });
        room.machine = machine.as_ref();
        room.hygrostat = machine_of.and_then(|(_, _, setting)| setting);
        room.surfaces = &cold;
        let flow = |t_c: f64| still + stack * (t_c - outside_c).abs().sqrt();
        let answered = |room: &Inside<'_>| solve(room, |t_c| Ok::<_, Infallible>(flow(t_c)));
        let Ok(state) = answered(&room) else {
            return Ok(());
        };
        for surface in &cold {
            if surface_rh(surface, &state.inside) <= limit {
                continue;
            }
            let found = clear(&room, surface, &state, limit, flow);
            prop_assert!(found.removal >= state.removal * (1.0 - 1e-9) - 1e-13);
            if let Some(then) = with_removal(&room, &state, surface, limit, found.removal) {
                prop_assert!((then.inside.t_c - state.inside.t_c).abs() < 1e-6);
                prop_assert!((then.removal - found.removal).abs() < 1e-6 * found.removal + 1e-13);
                let there = surface_rh(surface, &then.inside);
                prop_assert!((there - limit).abs() < 1e-6, "{there} with {found:?}");
            }
            let raised = |set: f64| Inside {
                heater: room.heater.map(|heater| Heater {
                    rating: 1e6,
                    set_point_c: Some(set),
                    ..heater
                }),
                ..room
            };
            match found.warm_c {
                Some(warm_c) => {
                    let then = answered(&raised(warm_c)).expect("a state");
                    // A compressor that the warmth lets start warms further, and takes the surface
                    // below its limit at once.
                    let starts = then.running != state.running;
                    let apart = then.inside.t_c - warm_c;
                    prop_assert!(apart.abs() < 1e-6 || starts && apart > 0.0);
                    prop_assert!(warm_c > state.inside.t_c && warm_c <= WARMEST_C);
                    let there = surface_rh(surface, &then.inside);
                    prop_assert!((there - limit).abs() < 1e-6 || starts && there < limit,
                        "{there} at {warm_c}");
                }
                None if state.inside.t_c < WARMEST_C => {
                    let then = answered(&raised(WARMEST_C)).expect("a state");
                    prop_assert!(surface_rh(surface, &then.inside) > limit);
                }
                None => {}
            }
        }
    }

    /// A surface takes water, so that the air never holds more with it than without, nor more
    /// than saturation, and the larger it is the less.
    #[test]
    fn a_larger_surface_never_leaves_more_water_in_the_air(
        t_c in -10.0..15.0_f64,
        rh in 0.5..1.0_f64,
        source in 0.0..1e-4_f64,
        flow in 0.0..0.05_f64,
        factor in 0.0..0.9_f64,
        one in 0.0..20.0_f64,
        other in 0.0..20.0_f64,
    ) {
        let state = |area: f64| {
            let surface = [ColdSurface { area, temperature_factor: factor, outside_seen_c: t_c - 6.0 }];
            let mut room = inside(air(t_c, rh), 1e15);
            room.vapour_source = source;
            room.surfaces = &surface;
            steady(&room, flow)
        };
        let (small, large) = (state(one.min(other)), state(one.max(other)));
        prop_assert!(large.inside.humidity_ratio <= small.inside.humidity_ratio * (1.0 + 1e-12));
        prop_assert!(small.relative_humidity() <= 1.0 + 1e-12);
        prop_assert!(large.on_surfaces >= small.on_surfaces - 1e-16);
    }
}
