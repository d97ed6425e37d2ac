//! The vehicle: kind, size, and the appliances in it.

use super::ids::ApplianceId;
use crate::physics::Underside;

/// What sort of leisure vehicle it is. Only drawings and starting sizes depend on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum VehicleKind {
    /// Towed caravan.
    TouringCaravan,
    /// Camper built into a panel van.
    PanelVan,
    /// Motor caravan: living body built onto a cab chassis, the cab kept.
    CoachBuilt,
    /// Motor caravan whose body includes the driver's place.
    Integrated,
    /// Anything else; drawn as a plain box.
    Other,
}

impl VehicleKind {
    /// Every kind, in the order offered.
    pub const ALL: [Self; 5] = [
        Self::TouringCaravan,
        Self::PanelVan,
        Self::CoachBuilt,
        Self::Integrated,
        Self::Other,
    ];

    /// The trade's word for it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::TouringCaravan => "touring caravan",
            Self::PanelVan => "panel-van camper",
            Self::CoachBuilt => "coach-built motor caravan",
            Self::Integrated => "integrated motor caravan",
            Self::Other => "other vehicle",
        }
    }

    /// One of them, within a sentence.
    #[must_use]
    pub fn one(self) -> String {
        let name = self.name();
        let article = match name.starts_with(['a', 'e', 'i', 'o', 'u']) {
            true => "an",
            false => "a",
        };
        format!("{article} {name}")
    }

    /// Whether there is a driver's cab.
    #[must_use]
    pub fn has_cab(self) -> bool {
        matches!(self, Self::PanelVan | Self::CoachBuilt | Self::Integrated)
    }
}

/// The code of practice that fixed ventilation is held against.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum CodeOfPractice {
    /// EN 721, of Europe.
    En721,
    /// AS/NZS 5601.2, of Australia and New Zealand.
    AsNzs5601,
}

impl CodeOfPractice {
    /// Both, in the order offered.
    pub const ALL: [Self; 2] = [Self::En721, Self::AsNzs5601];

    /// Its number.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::En721 => "EN 721",
            Self::AsNzs5601 => "AS/NZS 5601.2",
        }
    }
}

/// Size and kind of the vehicle. Lengths in metres; what was not measured is `None`.
#[derive(Clone, Debug, PartialEq)]
pub struct Vehicle {
    /// What sort of vehicle.
    pub kind: VehicleKind,
    /// External length of the body without drawbar, m.
    pub length_m: Option<f64>,
    /// External width without mirrors, m.
    pub width_m: Option<f64>,
    /// Height of the roof above ground, m.
    pub height_m: Option<f64>,
    /// Height of the floor above ground, m.
    pub floor_height_m: Option<f64>,
    /// Inside length, m; with the other two inside sizes it gives the volume.
    pub inside_length_m: Option<f64>,
    /// Inside width, m.
    pub inside_width_m: Option<f64>,
    /// Inside height, floor to ceiling, m.
    pub inside_height_m: Option<f64>,
    /// Gross internal volume, m³, where it is known better than length × width × height.
    /// Fitted furniture is not deducted.
    pub volume_m3: Option<f64>,
    /// How the space under the floor stands to the wind.
    pub underside: Underside,
    /// Free area that a tight skirt leaves all round, mm²: its own gaps and vents together.
    pub skirt_free_area_mm2: Option<f64>,
    /// Gaps under an open floor take the wind's pressure of their own place there, not the mean of
    /// the floor.
    pub underfloor_by_place: bool,
    /// Number of sleeping places.
    pub berths: u32,
    /// The code of practice for its fixed ventilation.
    pub code_of_practice: CodeOfPractice,
}

impl Vehicle {
    /// Gross internal volume, m³: the stated one, otherwise the product of the inside sizes.
    #[must_use]
    pub fn gross_volume_m3(&self) -> Option<f64> {
        self.volume_m3
            .or_else(|| Some(self.inside_length_m? * self.inside_width_m? * self.inside_height_m?))
    }

    /// Plan area for the ventilation table, m²: external length × width.
    #[must_use]
    pub fn plan_area_m2(&self) -> Option<f64> {
        Some(self.length_m? * self.width_m?)
    }

    /// Height halfway between floor and roof above ground, m: where inside pressure is stated.
    #[must_use]
    pub fn middle_height_m(&self) -> Option<f64> {
        Some(f64::midpoint(self.floor_height_m?, self.height_m?))
    }
}

/// What an appliance is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum ApplianceKind {
    /// Gas hob.
    Hob,
    /// Gas oven or grill.
    Oven,
    /// Space heater that burns gas or fuel.
    SpaceHeater,
    /// Water heater that burns gas.
    WaterHeater,
    /// Absorption refrigerator with a gas burner.
    Refrigerator,
    /// Solid-fuel stove.
    Stove,
    /// Another appliance that burns something.
    Other,
}

impl ApplianceKind {
    /// Every kind, in the order offered.
    pub const ALL: [Self; 7] = [
        Self::Hob,
        Self::Oven,
        Self::SpaceHeater,
        Self::WaterHeater,
        Self::Refrigerator,
        Self::Stove,
        Self::Other,
    ];

    /// The trade's word for it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Hob => "hob",
            Self::Oven => "oven or grill",
            Self::SpaceHeater => "space heater",
            Self::WaterHeater => "water heater",
            Self::Refrigerator => "gas refrigerator",
            Self::Stove => "solid-fuel stove",
            Self::Other => "other burning appliance",
        }
    }
}

/// An appliance that burns something inside the vehicle.
#[derive(Clone, Debug, PartialEq)]
pub struct Appliance {
    /// Its number.
    pub id: ApplianceId,
    /// What it is.
    pub kind: ApplianceKind,
    /// The surveyor's name for it.
    pub name: String,
    /// Draws its air from outside and gives its products outside, sealed from the room.
    pub room_sealed: bool,
    /// Rated heat input, MJ/h.
    pub input_mj_per_h: Option<f64>,
}

impl Appliance {
    /// Whether it burns the room's air and has a flue, from which gas may spill back: all that is
    /// not room-sealed but hobs and ovens.
    #[must_use]
    pub fn has_open_flue(&self) -> bool {
        !self.room_sealed && !matches!(self.kind, ApplianceKind::Hob | ApplianceKind::Oven)
    }

    /// Whether it burns into the room, with no flue: a hob or an oven.
    #[must_use]
    pub fn burns_without_flue(&self) -> bool {
        !self.room_sealed && matches!(self.kind, ApplianceKind::Hob | ApplianceKind::Oven)
    }
}
