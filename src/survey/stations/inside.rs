//! The stations inside, from the front to the rear and from the floor up.

use super::place::zone::{CAB, DOORS, FLOOR_EDGE, ROOFLIGHTS, SERVICES, WINDOWS};
use super::place::{
    CAB_DOORS, COACH_BUILT, DRIVEN, GARAGE, Look, NOT_DRIVEN, PANELLED, Station, UsualPlace, VAN,
    Which, place,
};
use crate::survey::FittingKind;
use crate::survey::gap::{Cavity, Facing};

const BAY: Facing = Facing::Cavity(Cavity::EngineBay);
const LOCKER: Facing = Facing::Cavity(Cavity::Locker);
const ARCH: Facing = Facing::Cavity(Cavity::WheelArch);
const BEHIND_REFRIGERATOR: Facing = Facing::Cavity(Cavity::RefrigeratorCompartment);

const GAS: &str = "Beside gas bottles and pipes: no flame, no spark, and nothing that is there for \
                   ventilation is ever closed.";
const HOT: &str = "Flues and their collars may be hot; let the appliances cool first.";

/// The stations inside.
pub(super) const STATIONS: &[Station] = &[
    Station {
        id: "cab",
        name: "cab",
        inside: true,
        caution: None,
        all: IN_THE_CAB,
    },
    Station {
        id: "floor_edge",
        name: "floor edge",
        inside: true,
        caution: None,
        all: ON_THE_FLOOR,
    },
    Station {
        id: "lockers",
        name: "lockers",
        inside: true,
        caution: Some(GAS),
        all: IN_LOCKERS,
    },
    Station {
        id: "services",
        name: "services",
        inside: true,
        caution: Some(HOT),
        all: AT_SERVICES,
    },
    Station {
        id: "doors",
        name: "doors",
        inside: true,
        caution: None,
        all: AT_DOORS,
    },
    Station {
        id: "windows",
        name: "windows",
        inside: true,
        caution: None,
        all: AT_WINDOWS,
    },
    Station {
        id: "rooflights",
        name: "rooflights",
        inside: true,
        caution: None,
        all: AT_ROOFLIGHTS,
    },
    Station {
        id: "ceiling",
        name: "ceiling",
        inside: true,
        caution: None,
        all: ON_THE_CEILING,
    },
];

const IN_THE_CAB: &[UsualPlace] = &[
    place(
        "dashboard_vents",
        "air vents of the dashboard",
        "ventilator that closes",
    )
    .at(CAB, Facing::Front, [0.0, 0.5, 0.4])
    .look(&[Look::Hand, Look::Smoke])
    .on(DRIVEN),
    place("pedals", "pedals", "pedal grommet")
        .at(CAB, BAY, [0.06, 0.75, 0.1])
        .look(&[Look::Torch, Look::Hand])
        .on(DRIVEN),
    place("steering_column", "steering column", "steering column boot")
        .at(CAB, BAY, [0.06, 0.7, 0.15])
        .look(&[Look::Torch, Look::Hand])
        .on(DRIVEN),
    place(
        "bulkhead_cables",
        "cables through the bulkhead",
        "cable loom through the bulkhead",
    )
    .at(CAB, BAY, [0.06, 0.3, 0.2])
    .look(&[Look::Torch, Look::Hand])
    .on(DRIVEN),
    place(
        "nearside_door_card",
        "card of the nearside cab door",
        "card of a cab door",
    )
    .at(CAB, Facing::Nearside, [0.15, 0.0, 0.3])
    .look(&[Look::Smoke, Look::Hand])
    .on(CAB_DOORS),
    place(
        "offside_door_card",
        "card of the offside cab door",
        "card of a cab door",
    )
    .at(CAB, Facing::Offside, [0.15, 1.0, 0.3])
    .look(&[Look::Smoke, Look::Hand])
    .on(DRIVEN),
    place(
        "cab_floor",
        "floor of the cab and seat boxes",
        "floor edge joint",
    )
    .at(CAB, Facing::Underfloor, [0.18, 0.5, 0.0])
    .look(&[Look::Torch, Look::Hand])
    .on(DRIVEN),
    place(
        "nearside_body_joint",
        "joint of body and cab, nearside",
        "body-to-cab joint",
    )
    .at(CAB, Facing::Nearside, [0.24, 0.0, 0.55])
    .look(&[Look::Smoke, Look::Torch])
    .on(COACH_BUILT),
    place(
        "offside_body_joint",
        "joint of body and cab, offside",
        "body-to-cab joint",
    )
    .at(CAB, Facing::Offside, [0.24, 1.0, 0.55])
    .look(&[Look::Smoke, Look::Torch])
    .on(COACH_BUILT),
];

const ON_THE_FLOOR: &[UsualPlace] = &[
    place("front_edge", "floor edge at the front", "floor edge joint")
        .at(FLOOR_EDGE, Facing::Underfloor, [0.02, 0.5, 0.0])
        .look(&[Look::Hand, Look::Gauge])
        .on(NOT_DRIVEN),
    place("nearside_edge", "floor edge, nearside", "floor edge joint")
        .at(FLOOR_EDGE, Facing::Underfloor, [0.6, 0.03, 0.0])
        .look(&[Look::Hand, Look::Gauge]),
    place("offside_edge", "floor edge, offside", "floor edge joint")
        .at(FLOOR_EDGE, Facing::Underfloor, [0.6, 0.97, 0.0])
        .look(&[Look::Hand, Look::Gauge]),
    place("rear_edge", "floor edge at the rear", "floor edge joint")
        .at(FLOOR_EDGE, Facing::Underfloor, [0.98, 0.5, 0.0])
        .look(&[Look::Hand, Look::Gauge])
        .on(PANELLED),
    place("nearside_arch", "wheel arch, nearside", "wheel-arch joint")
        .at(FLOOR_EDGE, ARCH, [0.75, 0.08, 0.1])
        .look(&[Look::Torch, Look::Gauge]),
    place("offside_arch", "wheel arch, offside", "wheel-arch joint")
        .at(FLOOR_EDGE, ARCH, [0.75, 0.92, 0.1])
        .look(&[Look::Torch, Look::Gauge]),
];

const IN_LOCKERS: &[UsualPlace] = &[
    place(
        "front_gas_locker",
        "joint towards the gas locker",
        "joint towards a locker",
    )
    .at(SERVICES, LOCKER, [0.08, 0.5, 0.2])
    .look(&[Look::Torch, Look::Gauge])
    .on(NOT_DRIVEN),
    place(
        "side_gas_locker",
        "joint towards the gas locker",
        "joint towards a locker",
    )
    .at(SERVICES, LOCKER, [0.65, 0.85, 0.2])
    .look(&[Look::Torch, Look::Gauge])
    .on(DRIVEN),
    place(
        "garage_joint",
        "joint towards the garage",
        "joint towards a locker",
    )
    .at(SERVICES, LOCKER, [0.82, 0.5, 0.3])
    .look(&[Look::Torch, Look::Gauge])
    .on(GARAGE),
    place(
        "bench_holes",
        "holes in benches and bed boxes",
        "open hole, no longer used",
    )
    .at(SERVICES, Facing::Underfloor, [0.7, 0.4, 0.0])
    .look(&[Look::Torch, Look::Hand]),
];

const AT_SERVICES: &[UsualPlace] = &[
    place(
        "refrigerator_surround",
        "surround of the refrigerator",
        "refrigerator surround",
    )
    .at(SERVICES, BEHIND_REFRIGERATOR, [0.55, 0.8, 0.35])
    .look(&[Look::Torch, Look::Smoke]),
    place("fuse_box", "cables behind the fuse box", "cable hole")
        .at(SERVICES, Facing::Underfloor, [0.4, 0.1, 0.0])
        .look(&[Look::Torch, Look::Hand]),
    place("tank_pipes", "pipes of the water tank", "water pipe hole")
        .at(SERVICES, Facing::Underfloor, [0.65, 0.2, 0.0])
        .look(&[Look::Torch, Look::Hand]),
    place("washroom_pipes", "pipes of the washroom", "waste pipe hole")
        .at(SERVICES, Facing::Underfloor, [0.8, 0.3, 0.0])
        .look(&[Look::Torch, Look::Hand]),
];

const AT_DOORS: &[UsualPlace] = &[
    place(
        "nearside_cab_door",
        "seal of the nearside cab door",
        "door seal all round",
    )
    .at(DOORS, Facing::Nearside, [0.15, 0.0, 0.5])
    .look(&[Look::Paper, Look::Torch])
    .on(CAB_DOORS),
    place(
        "offside_cab_door",
        "seal of the offside cab door",
        "door seal all round",
    )
    .at(DOORS, Facing::Offside, [0.15, 1.0, 0.5])
    .look(&[Look::Paper, Look::Torch])
    .on(DRIVEN),
    place(
        "sliding_door",
        "seal of the sliding door",
        "sliding door seal",
    )
    .at(DOORS, Facing::Nearside, [0.38, 0.0, 0.5])
    .with(FittingKind::SlidingDoor, Which::Largest)
    .look(&[Look::Paper, Look::Torch])
    .on(VAN),
    place(
        "entrance_door",
        "seal of the entrance door",
        "door seal all round",
    )
    .at(DOORS, Facing::Nearside, [0.5, 0.0, 0.45])
    .with(FittingKind::HabitationDoor, Which::Largest)
    .look(&[Look::Paper, Look::Torch])
    .on(PANELLED),
    place("rear_doors", "seal of the rear doors", "rear doors seal")
        .at(DOORS, Facing::Rear, [1.0, 0.5, 0.5])
        .look(&[Look::Paper, Look::Torch])
        .on(VAN),
];

const AT_WINDOWS: &[UsualPlace] = &[
    place("front_window", "seal of the front window", "window seal")
        .at(WINDOWS, Facing::Front, [0.0, 0.5, 0.65])
        .with(FittingKind::Window, Which::Largest)
        .look(&[Look::Paper, Look::Hand])
        .on(NOT_DRIVEN),
    place(
        "nearside_windows",
        "seals of the windows, nearside",
        "window seal",
    )
    .at(WINDOWS, Facing::Nearside, [0.65, 0.0, 0.65])
    .with(FittingKind::Window, Which::Largest)
    .look(&[Look::Paper, Look::Hand]),
    place(
        "offside_windows",
        "seals of the windows, offside",
        "window seal",
    )
    .at(WINDOWS, Facing::Offside, [0.65, 1.0, 0.65])
    .with(FittingKind::Window, Which::Largest)
    .look(&[Look::Paper, Look::Hand]),
    place("rear_window", "seal of the rear window", "window seal")
        .at(WINDOWS, Facing::Rear, [1.0, 0.5, 0.65])
        .with(FittingKind::Window, Which::Largest)
        .look(&[Look::Paper, Look::Hand]),
];

const AT_ROOFLIGHTS: &[UsualPlace] = &[
    place(
        "large_frame",
        "frame of the large rooflight",
        "large rooflight frame",
    )
    .at(ROOFLIGHTS, Facing::Roof, [0.4, 0.5, 1.0])
    .with(FittingKind::Rooflight, Which::LargestEdge)
    .look(&[Look::Hand, Look::Smoke]),
    place("large_lid", "lid of the large rooflight", "rooflight lid")
        .at(ROOFLIGHTS, Facing::Roof, [0.44, 0.5, 1.0])
        .with(FittingKind::Rooflight, Which::Largest)
        .look(&[Look::Paper, Look::Smoke]),
    place(
        "small_frame",
        "frame of the small rooflight",
        "rooflight frame",
    )
    .at(ROOFLIGHTS, Facing::Roof, [0.75, 0.4, 1.0])
    .with(FittingKind::Rooflight, Which::SecondEdge)
    .look(&[Look::Hand, Look::Smoke]),
    place("small_lid", "lid of the small rooflight", "rooflight lid")
        .at(ROOFLIGHTS, Facing::Roof, [0.79, 0.4, 1.0])
        .with(FittingKind::Rooflight, Which::Second)
        .look(&[Look::Paper, Look::Smoke]),
];

const ON_THE_CEILING: &[UsualPlace] = &[
    place(
        "lining",
        "joints of the ceiling lining",
        "ceiling lining joint",
    )
    .at(ROOFLIGHTS, Facing::Roof, [0.55, 0.25, 1.0])
    .look(&[Look::Hand, Look::Smoke]),
    place(
        "lamps",
        "lamps and switches in ceiling and walls",
        "cable hole",
    )
    .at(ROOFLIGHTS, Facing::Roof, [0.5, 0.6, 1.0])
    .look(&[Look::Hand, Look::Smoke]),
];
