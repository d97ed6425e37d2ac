//! Cold surfaces against ISO 13788 **\[M\]** figures worked by hand.

use super::*;
use crate::physics::air::saturation_pressure;
use crate::survey::Layer;

fn layered(
    id: u32,
    name: &str,
    part: FabricPart,
    layers: &[(f64, f64)],
    bridge: f64,
) -> FabricElement {
    FabricElement {
        id: FabricId(id),
        name: name.to_owned(),
        part,
        area_m2: Some(5.0),
        build_up: BuildUp::Layers(
            layers
                .iter()
                .map(|&(thickness_mm, conductivity)| Layer {
                    material: String::new(),
                    thickness_mm: Some(thickness_mm),
                    conductivity_w_per_m_k: Some(conductivity),
                    resistance_m2_k_per_w: None,
                })
                .collect(),
        ),
        bridge_percent: bridge,
        outline: None,
    }
}

/// The body with a wall of glass-fibre, foam and ply with thermal bridges, a windscreen of 5.5 mm
/// glass, and bare steel.
fn clad() -> Survey {
    let mut survey = body();
    survey.fabric = vec![
        layered(
            1,
            "wall",
            FabricPart::Wall,
            &[(1.5, 0.40), (30.0, 0.038), (3.0, 0.13)],
            15.0,
        ),
        layered(2, "windscreen", FabricPart::Window, &[(5.5, 1.0)], 0.0),
        layered(3, "cab steel", FabricPart::CabMetal, &[(0.8, 50.0)], 0.0),
    ];
    survey
}

fn spot(case: &OptionCase, spot: Spot) -> &Surface {
    case.surfaces
        .iter()
        .find(|surface| surface.spot == spot)
        .expect("a surface")
}

#[test]
fn temperature_factors_are_those_of_the_standard() {
    let comparison = compared(&clad());
    let case = still(&comparison, COMPRESSOR);
    for (which, factor, within) in [
        (Spot::Plain, 0.774, 5e-4),
        (Spot::Glass, 0.259, 5e-4),
        (Spot::Metal, 0.138, 5e-4),
        // U 1.014 × (1 + 0.15/0.1) = 2.534: R 0.3946, less 0.13, over itself plus 0.25.
        (Spot::Bridge, 0.514, 1e-3),
    ] {
        let surface = spot(case, which);
        assert!(
            (surface.temperature_factor - factor).abs() < within,
            "{surface:?}"
        );
        let expected = surface.outside_seen_c + factor * (case.inside.t_c - surface.outside_seen_c);
        assert!((surface.temperature_c - expected).abs() < 0.02);
        let sky = if which == Spot::Glass { 3.0 } else { 0.0 };
        assert!((surface.outside_seen_c - (6.0 - sky)).abs() < 1e-12);
    }
}

#[test]
fn each_surface_has_its_own_limit() {
    let mut survey = clad();
    for case in &mut survey.weather {
        case.outside_rh_percent = 95.0;
    }
    let comparison = compared(&survey);
    let case = still(&comparison, OptionKind::Nothing);
    for (which, limit) in [
        (Spot::Plain, 0.8),
        (Spot::Bridge, 0.8),
        (Spot::Metal, 0.6),
        (Spot::Glass, 1.0),
    ] {
        let surface = spot(case, which);
        assert!((surface.limit - limit).abs() < 1e-12);
        let rh = case.inside.vapour_pressure() / saturation_pressure(surface.temperature_c);
        assert!((surface.surface_rh - rh).abs() < 1e-12);
        assert_eq!(surface.exceeds, rh > limit);
        assert_eq!(surface.condenses, rh > 1.0);
    }
    // At 6 °C 95 % all of it is as humid as the air; on the clear night the glass is wet.
    assert!(spot(case, Spot::Plain).exceeds && spot(case, Spot::Metal).exceeds);
    assert!(spot(case, Spot::Glass).condenses);
}

#[test]
fn the_warmth_and_the_drying_named_do_clear_the_surface() {
    let comparison = compared(&clad());
    let case = still(&comparison, OptionKind::Nothing);
    let vapour = case.inside.vapour_pressure();
    let mut cleared = 0;
    for surface in case.surfaces.iter().filter(|surface| surface.exceeds) {
        let surface_at = |inside_c: f64| {
            let seen = surface.outside_seen_c;
            seen + surface.temperature_factor * (inside_c - seen)
        };
        if let Some(kelvin) = surface.kelvin_to_clear {
            let warm = surface_at(case.inside.t_c + kelvin);
            assert!((vapour / saturation_pressure(warm) - surface.limit).abs() < 1e-9);
            cleared += 1;
        }
        let dry = surface.rh_to_clear * saturation_pressure(case.inside.t_c);
        let at_surface = dry / saturation_pressure(surface.temperature_c);
        assert!((at_surface - surface.limit).abs() < 1e-9);
        assert!(surface.removal_to_clear_kg_s > 0.0);
    }
    assert!(cleared >= 2, "{cleared}");
}
