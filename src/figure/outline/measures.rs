//! The lines of a vehicle that more than one of its faces shows, from its own sizes. Shares are
//! invented ones of no maker's vehicle, for drawings only.

use super::sizes::Sizes;
use crate::survey::VehicleKind;

/// Radius of a wheel, m, where there is room for it.
const WHEEL: f64 = 0.34;

/// Where the parts of a vehicle begin and end, m from the front or above the ground.
#[derive(Clone, Copy, Debug)]
pub(super) struct Measures {
    /// Lower edge of the body.
    pub(super) sill: f64,
    /// Upper end of the bonnet, and lower edge of the cab's glass.
    pub(super) belt: f64,
    /// Rear end of the bonnet, at the foot of the windscreen.
    pub(super) bonnet: f64,
    /// Where the windscreen ends above.
    pub(super) screen_end: f64,
    /// How high the windscreen reaches.
    pub(super) screen_top: f64,
    /// Behind the seats of the cab.
    pub(super) cab_end: f64,
    /// Radius of a wheel.
    pub(super) wheel: f64,
}

impl Measures {
    pub(super) fn of(sizes: &Sizes) -> Self {
        let (length, roof) = (sizes.length_m, sizes.height_m);
        let room = roof - sizes.floor_height_m;
        let sill = match sizes.kind {
            VehicleKind::TouringCaravan => sizes.floor_height_m - 0.06,
            VehicleKind::Other => sizes.floor_height_m,
            _ => 0.55 * sizes.floor_height_m,
        };
        let of_length = |share: f64, most: f64| (share * length).min(most);
        let (belt, bonnet, screen, cab) = match sizes.kind {
            VehicleKind::PanelVan => (0.40, of_length(0.155, 0.95), of_length(0.12, 0.75), 0.34),
            VehicleKind::CoachBuilt => (0.34, of_length(0.13, 0.95), of_length(0.09, 0.7), 0.31),
            VehicleKind::Integrated => (0.30, of_length(0.02, 0.15), of_length(0.06, 0.5), 0.24),
            VehicleKind::TouringCaravan | VehicleKind::Other => (0.4, 0.0, 0.0, 0.0),
        };
        let belt = sizes.floor_height_m + belt * room;
        let screen_top = match sizes.kind {
            // Under the overcab.
            VehicleKind::CoachBuilt => roof - 0.36 * room,
            VehicleKind::PanelVan => roof - 0.10 * room,
            _ => roof - 0.14 * room,
        };
        Self {
            sill,
            belt,
            bonnet,
            screen_end: bonnet + screen,
            screen_top,
            cab_end: of_length(cab, 2.25),
            wheel: WHEEL.min(0.07 * length).min(0.22 * roof),
        }
    }
}

/// Where the axles are, m from the front.
pub(super) fn axles(sizes: &Sizes) -> Vec<f64> {
    let shares: &[f64] = match sizes.kind {
        VehicleKind::TouringCaravan => &[0.56],
        VehicleKind::PanelVan => &[0.17, 0.77],
        VehicleKind::CoachBuilt | VehicleKind::Integrated => &[0.14, 0.70],
        VehicleKind::Other => &[0.2, 0.8],
    };
    shares.iter().map(|share| share * sizes.length_m).collect()
}

/// Behind the seats of the cab, m from the front, of what has a cab.
#[must_use]
pub fn cab_end(sizes: &Sizes) -> Option<f64> {
    let has_cab = sizes.kind.has_cab();
    has_cab.then(|| Measures::of(sizes).cab_end)
}

/// What stands behind the cab, in a word or two.
#[must_use]
pub fn cab_end_name(kind: VehicleKind) -> &'static str {
    match kind {
        VehicleKind::PanelVan => "bulkhead",
        _ => "back of the cab",
    }
}
