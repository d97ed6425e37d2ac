//! The sizes that a vehicle is drawn with: its own, and usual ones of its kind where it has none.

use crate::survey::{Vehicle, VehicleKind, starting_sizes};

/// Sizes of a vehicle that may be anything, m.
const LENGTH: f64 = 6.0;
const WIDTH: f64 = 2.2;
const HEIGHT: f64 = 2.7;
const FLOOR: f64 = 0.5;
/// A room lower than this is no room, m.
const LEAST_ROOM: f64 = 0.5;

/// The sizes that a vehicle is drawn with, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sizes {
    /// What sort of vehicle.
    pub kind: VehicleKind,
    /// Outside length without drawbar, m.
    pub length_m: f64,
    /// Outside width, m.
    pub width_m: f64,
    /// Roof above ground, m.
    pub height_m: f64,
    /// Floor above ground, m.
    pub floor_height_m: f64,
    /// Which of them were recorded and are not only usual ones.
    pub recorded: Recorded,
}

/// Which sizes of the vehicle were recorded. A place on a drawing tells nothing in a direction
/// whose size is only a usual one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Recorded {
    /// Outside length.
    pub length: bool,
    /// Outside width.
    pub width: bool,
    /// Roof above ground.
    pub height: bool,
    /// Floor above ground.
    pub floor: bool,
}

impl Sizes {
    /// The sizes to draw a vehicle with: what is missing or impossible is drawn as usual.
    #[must_use]
    pub fn of(vehicle: &Vehicle) -> Self {
        let sane = |value: Option<f64>, lowest: f64, highest: f64| {
            value.filter(|value| (lowest..=highest).contains(value))
        };
        let length = sane(vehicle.length_m, 1.5, 15.0);
        let width = sane(vehicle.width_m, 1.0, 3.0);
        let height = sane(vehicle.height_m, 1.0, 4.5);
        let floor = sane(vehicle.floor_height_m, 0.1, 1.8);
        let usual = Self::usual(vehicle.kind);
        let mut sizes = Self {
            kind: vehicle.kind,
            length_m: length.unwrap_or(usual.length_m),
            width_m: width.unwrap_or(usual.width_m),
            height_m: height.unwrap_or(usual.height_m),
            floor_height_m: floor.unwrap_or(usual.floor_height_m),
            recorded: Recorded {
                length: length.is_some(),
                width: width.is_some(),
                height: height.is_some(),
                floor: floor.is_some(),
            },
        };
        if sizes.height_m < sizes.floor_height_m + LEAST_ROOM {
            sizes.height_m = sizes.floor_height_m + LEAST_ROOM;
            sizes.recorded.height = false;
        }
        sizes
    }

    /// Usual sizes of a kind, none of them recorded.
    #[must_use]
    pub fn usual(kind: VehicleKind) -> Self {
        let usual = starting_sizes(kind);
        Self {
            kind,
            length_m: usual.map_or(LENGTH, |sizes| sizes.length_m),
            width_m: usual.map_or(WIDTH, |sizes| sizes.width_m),
            height_m: usual.map_or(HEIGHT, |sizes| sizes.height_m),
            floor_height_m: usual.map_or(FLOOR, |sizes| sizes.floor_height_m),
            recorded: Recorded {
                length: false,
                width: false,
                height: false,
                floor: false,
            },
        }
    }

    /// How far the drawbar of what is towed reaches beyond the body, m; nothing on others.
    #[must_use]
    pub fn drawbar_m(&self) -> f64 {
        match self.kind {
            VehicleKind::TouringCaravan => (0.2 * self.length_m).clamp(0.5, 1.1),
            _ => 0.0,
        }
    }
}
