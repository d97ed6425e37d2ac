//! The appliances that a kind of vehicle usually has **\[A\]**: somebody has still to look for them.
//!
//! None has a rated input: that stands on its plate. Heaters are taken for room-sealed, as those that
//! are built in mostly are \[C\]; the refrigerator is not, for whether its burner is cut off from the room
//! can only be seen, and one that is not asks for more fixed ventilation.

use crate::survey::{Appliance, ApplianceId, ApplianceKind, VehicleKind};

/// The appliances, with whether each is room-sealed.
fn list(kind: VehicleKind) -> &'static [(ApplianceKind, bool)] {
    use ApplianceKind as K;
    match kind {
        VehicleKind::TouringCaravan | VehicleKind::CoachBuilt | VehicleKind::Integrated => &[
            (K::Hob, false),
            (K::Oven, false),
            (K::Refrigerator, false),
            (K::SpaceHeater, true),
            (K::WaterHeater, true),
        ],
        VehicleKind::PanelVan => &[(K::Hob, false), (K::SpaceHeater, true)],
        VehicleKind::Other => &[],
    }
}

pub(super) fn of(kind: VehicleKind) -> Vec<Appliance> {
    (1..)
        .zip(list(kind))
        .map(|(id, (kind, room_sealed))| Appliance {
            id: ApplianceId(id),
            kind: *kind,
            name: String::new(),
            room_sealed: *room_sealed,
            input_mj_per_h: None,
        })
        .collect()
}
