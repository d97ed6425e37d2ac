//! The usual fabric of a kind of vehicle: areas from its outside sizes, usual build-ups.
//!
//! How much of the sides and of the roof is glass, door or bare metal is an assumption of this project
//! **\[A\]**. All areas together are those of walls, roof and floor.

use crate::survey::build_ups::usual_build_ups;
use crate::survey::{BuildUp, FabricElement, FabricId, FabricPart, Vehicle, VehicleKind};

/// A part of the walls or of the roof: its name, its share, and its usual build-up.
type Share = (&'static str, f64, &'static str);

const WINDOWS: &str = "window: double acrylic";
const GLASS: &str = "windscreen: 5.5 mm glass";
const METAL: &str = "cab: bare steel";
const DOOR: &str = "door: aluminium, 25 mm foam, plywood";
const ROOFLIGHTS: &str = "rooflight: double acrylic";

/// Shares of the walls, the first taking what the others leave **\[A\]**.
fn walls(kind: VehicleKind) -> (&'static str, &'static [Share]) {
    match kind {
        VehicleKind::TouringCaravan => (
            "wall: aluminium, 32 mm foam, plywood",
            &[("windows", 0.12, WINDOWS), ("door", 0.03, DOOR)],
        ),
        VehicleKind::PanelVan => (
            "wall: steel van side, 20 mm foam, plywood",
            &[
                ("windscreen and cab windows", 0.07, GLASS),
                ("cab doors and bulkhead", 0.14, METAL),
                ("windows", 0.05, WINDOWS),
            ],
        ),
        VehicleKind::CoachBuilt => (
            "wall: glass-fibre, 30 mm foam, plywood",
            &[
                ("windscreen and cab windows", 0.05, GLASS),
                ("cab doors and bulkhead", 0.09, METAL),
                ("windows", 0.08, WINDOWS),
                ("door", 0.03, DOOR),
            ],
        ),
        VehicleKind::Integrated => (
            "wall: glass-fibre, 30 mm foam, plywood",
            &[
                ("windscreen and side windows in front", 0.10, GLASS),
                ("windows", 0.07, WINDOWS),
                ("door", 0.03, DOOR),
            ],
        ),
        VehicleKind::Other => (
            "wall: aluminium, 32 mm foam, plywood",
            &[("windows", 0.08, WINDOWS), ("door", 0.03, DOOR)],
        ),
    }
}

/// Build-ups of roof and floor.
fn roof_and_floor(kind: VehicleKind) -> (&'static str, &'static str) {
    match kind {
        VehicleKind::PanelVan => (
            "roof: steel van roof, 20 mm foam, plywood",
            "floor: steel van floor, 20 mm foam, plywood",
        ),
        _ => (
            "roof: glass-fibre, 32 mm foam, plywood",
            "floor: plywood, 40 mm foam, plywood",
        ),
    }
}

/// Share of the roof that is rooflights **\[A\]**.
const ROOFLIGHT_SHARE: f64 = 0.04;

/// The elements; their areas are not known while a size is missing.
///
/// ```text
/// walls 2 (L + W)(H − F),  roof and floor each L W
/// ```
/// where L and W are outside length and width, H and F the heights of roof and floor above ground, m.
pub(super) fn of(vehicle: &Vehicle) -> Vec<FabricElement> {
    let plan = vehicle.plan_area_m2();
    let sides = (|| {
        let height = vehicle.height_m? - vehicle.floor_height_m?;
        Some(2.0 * (vehicle.length_m? + vehicle.width_m?) * height).filter(|area| *area > 0.0)
    })();
    let (wall, parts) = walls(vehicle.kind);
    let (roof, floor) = roof_and_floor(vehicle.kind);
    let left: f64 = 1.0 - parts.iter().map(|(_, share, _)| share).sum::<f64>();
    let walls = std::iter::once(("walls", left, wall)).chain(parts.iter().copied());
    let above = [
        ("roof", 1.0 - ROOFLIGHT_SHARE, roof),
        ("rooflights", ROOFLIGHT_SHARE, ROOFLIGHTS),
        ("floor", 1.0, floor),
    ];
    let all = walls
        .map(|part| (part, sides))
        .chain(above.into_iter().map(|part| (part, plan)));
    (1..)
        .zip(all)
        .map(|(id, ((name, share, build_up), of))| {
            let area = of.map(|of| to_the_hundredth(of * share));
            element(FabricId(id), name, area, build_up)
        })
        .collect()
}

/// Nobody knows a usual area to the square millimetre.
fn to_the_hundredth(area: f64) -> f64 {
    (area * 100.0).round() / 100.0
}

fn element(id: FabricId, name: &str, area_m2: Option<f64>, build_up: &str) -> FabricElement {
    let usual = usual_build_ups()
        .into_iter()
        .find(|usual| usual.name == build_up);
    let (part, build_up, bridge_percent) = match usual {
        Some(usual) => (usual.part, usual.build_up, usual.bridge_percent),
        // A test holds every name against the library.
        None => (FabricPart::Wall, BuildUp::Layers(Vec::new()), 0.0),
    };
    FabricElement {
        id,
        name: name.to_owned(),
        part,
        area_m2,
        build_up,
        bridge_percent,
        outline: None,
    }
}
