//! A small library of usual build-ups to start a fabric element from.
//!
//! Thicknesses are assumptions of this project **\[A\]**; conductivities are those of
//! [`crate::physics::fabric::Material`]. Layers stand from outside to inside.

use super::fabric::{BuildUp, FabricPart, Layer};
use crate::physics::fabric::Material;

/// Resistance of a narrow air gap between two panes, m² K/W **\[A\]**.
const PANE_GAP: f64 = 0.17;

/// A usual build-up.
#[derive(Clone, Debug, PartialEq)]
pub struct UsualBuildUp {
    /// Its name.
    pub name: &'static str,
    /// The part it is for.
    pub part: FabricPart,
    /// Its layers.
    pub build_up: BuildUp,
    /// Addition for frames, ribs and other thermal bridges, % **\[A\]**.
    pub bridge_percent: f64,
}

fn layer(material: &str, kind: Material, thickness_mm: f64) -> Layer {
    Layer {
        material: material.to_owned(),
        thickness_mm: Some(thickness_mm),
        conductivity_w_per_m_k: Some(kind.conductivity()),
        resistance_m2_k_per_w: None,
    }
}

fn gap(resistance: f64) -> Layer {
    Layer {
        material: "air gap".to_owned(),
        thickness_mm: None,
        conductivity_w_per_m_k: None,
        resistance_m2_k_per_w: Some(resistance),
    }
}

fn usual(
    name: &'static str,
    part: FabricPart,
    bridge_percent: f64,
    layers: Vec<Layer>,
) -> UsualBuildUp {
    UsualBuildUp {
        name,
        part,
        build_up: BuildUp::Layers(layers),
        bridge_percent,
    }
}

/// The library, in the order offered.
#[must_use]
pub fn usual_build_ups() -> Vec<UsualBuildUp> {
    let glass_fibre = |mm| layer("glass-fibre skin", Material::GlassFibre, mm);
    let aluminium = |mm| layer("aluminium skin", Material::Aluminium, mm);
    let expanded = |mm| {
        layer(
            "polystyrene foam, expanded",
            Material::ExpandedPolystyrene,
            mm,
        )
    };
    let extruded = |mm| {
        layer(
            "polystyrene foam, extruded",
            Material::ExtrudedPolystyrene,
            mm,
        )
    };
    let plywood = |mm| layer("plywood", Material::Plywood, mm);
    let acrylic = |mm| layer("acrylic pane", Material::Acrylic, mm);
    let steel = || layer("steel skin", Material::Steel, 0.8);
    let polyurethane = |mm| layer("polyurethane foam", Material::PolyurethaneFoam, mm);
    vec![
        usual(
            "wall: glass-fibre, 30 mm foam, plywood",
            FabricPart::Wall,
            15.0,
            vec![glass_fibre(1.5), expanded(30.0), plywood(3.0)],
        ),
        usual(
            "wall: aluminium, 32 mm foam, plywood",
            FabricPart::Wall,
            15.0,
            vec![aluminium(0.6), extruded(32.0), plywood(3.0)],
        ),
        usual(
            "wall: steel van side, 20 mm foam, plywood",
            FabricPart::Wall,
            25.0,
            vec![steel(), polyurethane(20.0), plywood(4.0)],
        ),
        usual(
            "roof: glass-fibre, 32 mm foam, plywood",
            FabricPart::Roof,
            15.0,
            vec![glass_fibre(1.5), extruded(32.0), plywood(3.0)],
        ),
        usual(
            "floor: plywood, 40 mm foam, plywood",
            FabricPart::Floor,
            10.0,
            vec![plywood(5.0), extruded(40.0), plywood(9.0)],
        ),
        usual(
            "roof: steel van roof, 20 mm foam, plywood",
            FabricPart::Roof,
            25.0,
            vec![steel(), polyurethane(20.0), plywood(4.0)],
        ),
        usual(
            "floor: steel van floor, 20 mm foam, plywood",
            FabricPart::Floor,
            20.0,
            vec![steel(), extruded(20.0), plywood(9.0)],
        ),
        usual(
            "window: double acrylic",
            FabricPart::Window,
            0.0,
            vec![acrylic(3.0), gap(PANE_GAP), acrylic(2.5)],
        ),
        usual(
            "rooflight: double acrylic",
            FabricPart::Rooflight,
            0.0,
            vec![acrylic(3.0), gap(PANE_GAP), acrylic(2.5)],
        ),
        usual(
            "windscreen: 5.5 mm glass",
            FabricPart::Window,
            0.0,
            vec![layer("glass", Material::Glass, 5.5)],
        ),
        usual("cab: bare steel", FabricPart::CabMetal, 0.0, vec![steel()]),
        usual(
            "door: aluminium, 25 mm foam, plywood",
            FabricPart::Door,
            20.0,
            vec![aluminium(0.6), expanded(25.0), plywood(3.0)],
        ),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::fabric::{HeatFlow, Layer as Physical, u_value};

    fn u(name: &str, flow: HeatFlow) -> f64 {
        let found = usual_build_ups()
            .into_iter()
            .find(|usual| usual.name == name)
            .expect("in the library");
        let BuildUp::Layers(layers) = found.build_up else {
            panic!("{name} has no layers");
        };
        let physical: Vec<Physical> = layers
            .iter()
            .map(|layer| match layer.resistance_m2_k_per_w {
                Some(resistance) => Physical::Resistance(resistance),
                None => Physical::Solid {
                    thickness: layer.thickness_mm.expect("a thickness") / 1000.0,
                    conductivity: layer.conductivity_w_per_m_k.expect("a conductivity"),
                },
            })
            .collect();
        u_value(&physical, flow)
    }

    #[test]
    fn u_values_are_those_worked_by_hand() {
        // ISO 6946 [M], worked by hand.
        for (name, flow, expected) in [
            (
                "wall: glass-fibre, 30 mm foam, plywood",
                HeatFlow::Horizontal,
                1.014,
            ),
            (
                "wall: aluminium, 32 mm foam, plywood",
                HeatFlow::Horizontal,
                0.882,
            ),
            ("floor: plywood, 40 mm foam, plywood", HeatFlow::Down, 0.669),
            (
                "roof: steel van roof, 20 mm foam, plywood",
                HeatFlow::Up,
                1.130,
            ),
            (
                "floor: steel van floor, 20 mm foam, plywood",
                HeatFlow::Down,
                1.153,
            ),
            ("window: double acrylic", HeatFlow::Horizontal, 2.699),
            ("windscreen: 5.5 mm glass", HeatFlow::Horizontal, 5.698),
            ("cab: bare steel", HeatFlow::Horizontal, 5.88),
        ] {
            let found = u(name, flow);
            assert!((found - expected).abs() < 2e-3, "{name}: {found}");
        }
    }

    #[test]
    fn names_stand_once_and_say_the_part() {
        let all = usual_build_ups();
        for (at, usual) in all.iter().enumerate() {
            assert!(all[..at].iter().all(|other| other.name != usual.name));
            assert!((0.0..=25.0).contains(&usual.bridge_percent));
        }
    }
}
