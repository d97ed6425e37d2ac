//! The stations outside, once round the vehicle, then up and under.

use super::place::{
    COACH_BUILT, DRIVEN, GARAGE, Look, NOT_DRIVEN, PANELLED, Station, UsualPlace, VAN, Which, place,
};
use crate::survey::FittingKind;
use crate::survey::gap::Facing;

use super::place::zone::{CAB, FLOOR_EDGE, FRIDGE_VENTS, ROOFLIGHTS, SERVICES, WINDOWS};

const LADDER: &str =
    "Look from a ladder on firm ground, with somebody to hold it; do not stand on the roof.";
const CHOCKS: &str = "Only on level ground, wheels chocked, never under a vehicle held by a jack. \
                      What is open here may let leaked gas fall out: leave it open.";

/// The stations outside.
pub(super) const STATIONS: &[Station] = &[
    Station {
        id: "front",
        name: "front",
        inside: false,
        caution: None,
        all: FRONT,
    },
    Station {
        id: "offside",
        name: "offside (right)",
        inside: false,
        caution: None,
        all: OFFSIDE,
    },
    Station {
        id: "rear",
        name: "rear",
        inside: false,
        caution: None,
        all: REAR,
    },
    Station {
        id: "nearside",
        name: "nearside (left)",
        inside: false,
        caution: None,
        all: NEARSIDE,
    },
    Station {
        id: "roof",
        name: "roof",
        inside: false,
        caution: Some(LADDER),
        all: ROOF,
    },
    Station {
        id: "under",
        name: "under the floor",
        inside: false,
        caution: Some(CHOCKS),
        all: UNDER,
    },
];

const FRONT: &[UsualPlace] = &[
    place("windscreen", "joint of the windscreen", "fixed glass joint")
        .at(CAB, Facing::Front, [0.0, 0.5, 0.65])
        .look(&[Look::Hand, Look::Torch])
        .on(DRIVEN),
    place(
        "overcab_seam",
        "front seam of the overcab",
        "seam of wall or roof",
    )
    .at(CAB, Facing::Front, [0.0, 0.5, 0.85])
    .look(&[Look::Torch, Look::Hand])
    .on(COACH_BUILT),
    place(
        "front_seams",
        "seams of the front wall",
        "seam of wall or roof",
    )
    .at(CAB, Facing::Front, [0.0, 0.1, 0.5])
    .look(&[Look::Torch, Look::Hand])
    .on(NOT_DRIVEN),
];

const OFFSIDE: &[UsualPlace] = &[
    place(
        "lower_refrigerator_grille",
        "lower refrigerator grille",
        "refrigerator grille",
    )
    .at(FRIDGE_VENTS, Facing::Offside, [0.55, 1.0, 0.2])
    .with(FittingKind::RefrigeratorVent, Which::Lowest)
    .look(&[Look::Eye]),
    place(
        "upper_refrigerator_grille",
        "upper refrigerator grille",
        "refrigerator grille",
    )
    .at(FRIDGE_VENTS, Facing::Offside, [0.55, 1.0, 0.6])
    .with(FittingKind::RefrigeratorVent, Which::Highest)
    .look(&[Look::Eye]),
    place("heater_flue", "flue of the heater", "heater flue collar")
        .at(SERVICES, Facing::Offside, [0.4, 1.0, 0.2])
        .look(&[Look::Eye]),
    place("offside_flaps", "locker flaps, offside", "locker flap")
        .at(SERVICES, Facing::Offside, [0.7, 1.0, 0.1])
        .with(FittingKind::LockerFlap, Which::Largest)
        .look(&[Look::Paper, Look::Gauge])
        .on(PANELLED),
    place(
        "offside_sockets",
        "sockets and fillers, offside",
        "flap of a socket or filler",
    )
    .at(SERVICES, Facing::Offside, [0.8, 1.0, 0.15])
    .look(&[Look::Torch, Look::Gauge]),
];

const REAR: &[UsualPlace] = &[
    place("rear_lamps", "cables of the rear lamps", "cable hole")
        .at(SERVICES, Facing::Rear, [1.0, 0.9, 0.2])
        .look(&[Look::Torch, Look::Hand]),
    place(
        "rear_seams",
        "seams of the rear wall",
        "seam of wall or roof",
    )
    .at(FLOOR_EDGE, Facing::Rear, [1.0, 0.1, 0.5])
    .look(&[Look::Torch, Look::Hand])
    .on(PANELLED),
];

const NEARSIDE: &[UsualPlace] = &[
    place("toilet_flap", "flap of the toilet", "toilet flap")
        .at(SERVICES, Facing::Nearside, [0.75, 0.0, 0.15])
        .look(&[Look::Paper, Look::Gauge]),
    place("nearside_flaps", "locker flaps, nearside", "locker flap")
        .at(SERVICES, Facing::Nearside, [0.3, 0.0, 0.1])
        .with(FittingKind::LockerFlap, Which::Largest)
        .look(&[Look::Paper, Look::Gauge])
        .on(PANELLED),
    place("garage_door", "door of the garage", "locker flap")
        .at(SERVICES, Facing::Nearside, [0.88, 0.0, 0.3])
        .look(&[Look::Paper, Look::Torch])
        .on(GARAGE),
    place(
        "mains_inlet",
        "mains inlet and fillers, nearside",
        "flap of a socket or filler",
    )
    .at(SERVICES, Facing::Nearside, [0.85, 0.0, 0.15])
    .look(&[Look::Torch, Look::Gauge]),
    place(
        "awning_rail",
        "screws of the awning",
        "seam of wall or roof",
    )
    .at(WINDOWS, Facing::Nearside, [0.5, 0.0, 0.95])
    .look(&[Look::Hand, Look::Smoke]),
];

const ROOF: &[UsualPlace] = &[
    place("aerial", "aerial", "aerial or cable through the roof")
        .at(ROOFLIGHTS, Facing::Roof, [0.8, 0.75, 1.0])
        .look(&[Look::Hand, Look::Smoke]),
    place(
        "solar_cables",
        "cables of the solar panel",
        "aerial or cable through the roof",
    )
    .at(ROOFLIGHTS, Facing::Roof, [0.6, 0.75, 1.0])
    .look(&[Look::Hand, Look::Smoke]),
    place(
        "roof_ventilator",
        "fixed ventilator in the roof",
        "fixed ventilator in the roof",
    )
    .at(ROOFLIGHTS, Facing::Roof, [0.6, 0.5, 1.0])
    .look(&[Look::Eye]),
    place(
        "cooker_hood",
        "outlet of the cooker hood",
        "ventilator that closes",
    )
    .at(ROOFLIGHTS, Facing::Roof, [0.5, 0.85, 1.0])
    .look(&[Look::Hand, Look::Smoke]),
    place("toilet_vent", "vent of the toilet tank", "toilet tank vent")
        .at(SERVICES, Facing::Roof, [0.78, 0.12, 1.0])
        .look(&[Look::Eye]),
    place(
        "roof_seams",
        "seams and edge trims of the roof",
        "seam of wall or roof",
    )
    .at(ROOFLIGHTS, Facing::Roof, [0.5, 0.03, 1.0])
    .look(&[Look::Hand, Look::Smoke])
    .on(PANELLED),
];

const UNDER: &[UsualPlace] = &[
    place(
        "front_drop_out",
        "drop-out of the gas locker",
        "gas drop-out in the floor",
    )
    .at(SERVICES, Facing::Underfloor, [0.05, 0.5, 0.0])
    .into_compartment()
    .look(&[Look::Eye])
    .on(NOT_DRIVEN),
    place(
        "side_drop_out",
        "drop-out of the gas locker",
        "gas drop-out in the floor",
    )
    .at(SERVICES, Facing::Underfloor, [0.65, 0.92, 0.0])
    .into_compartment()
    .look(&[Look::Eye])
    .on(DRIVEN),
    place(
        "appliance_drop_out",
        "drop-out beneath cooker and heater",
        "gas drop-out in the floor",
    )
    .at(SERVICES, Facing::Underfloor, [0.45, 0.85, 0.0])
    .look(&[Look::Eye]),
    place(
        "floor_ventilator",
        "fixed ventilator in the floor",
        "fixed ventilator in the floor",
    )
    .at(SERVICES, Facing::Underfloor, [0.4, 0.7, 0.0])
    .look(&[Look::Eye]),
    place(
        "heater_intake",
        "air intake of the heater",
        "heater air intake",
    )
    .at(SERVICES, Facing::Underfloor, [0.35, 0.85, 0.0])
    .look(&[Look::Eye]),
    place(
        "battery_vent",
        "vent of the battery box",
        "battery box vent",
    )
    .at(SERVICES, Facing::Underfloor, [0.25, 0.2, 0.0])
    .look(&[Look::Eye]),
    place(
        "gas_pipe",
        "gas pipe through the floor",
        "gas pipe through the floor",
    )
    // Among lockers it would pass for their drop-out.
    .at(FLOOR_EDGE, Facing::Underfloor, [0.5, 0.9, 0.0])
    .look(&[Look::Torch]),
    place("waste_pipes", "waste pipes", "waste pipe hole")
        .at(SERVICES, Facing::Underfloor, [0.55, 0.75, 0.0])
        .look(&[Look::Torch, Look::Hand]),
    place("water_pipes", "water pipes", "water pipe hole")
        .at(SERVICES, Facing::Underfloor, [0.6, 0.65, 0.0])
        .look(&[Look::Torch, Look::Hand]),
    place("drain", "drain of the shower", "shower or floor drain")
        .at(SERVICES, Facing::Underfloor, [0.75, 0.25, 0.0])
        .look(&[Look::Hand]),
    place("cables", "cables through the floor", "cable hole")
        .at(SERVICES, Facing::Underfloor, [0.3, 0.35, 0.0])
        .look(&[Look::Torch, Look::Hand]),
    place("step_well", "seam of the step well", "step well seam")
        .at(FLOOR_EDGE, Facing::Underfloor, [0.5, 0.08, 0.0])
        .look(&[Look::Torch, Look::Gauge]),
    place(
        "old_holes",
        "holes no longer used",
        "open hole, no longer used",
    )
    .at(SERVICES, Facing::Underfloor, [0.5, 0.5, 0.0])
    .look(&[Look::Torch]),
    place(
        "rear_floor_seams",
        "floor seams at the rear",
        "floor edge joint",
    )
    .at(FLOOR_EDGE, Facing::Underfloor, [0.95, 0.5, 0.0])
    .look(&[Look::Torch, Look::Hand])
    .on(VAN),
];
