//! The fabric: walls, roof, floor, windows and doors with their build-ups.

use super::gap::Facing;
use super::ids::FabricId;

/// Which way heat leaves through the element; it decides the surface resistance.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum FabricPart {
    /// Wall, heat flows sideways.
    Wall,
    /// Roof, heat flows up.
    Roof,
    /// Floor, heat flows down.
    Floor,
    /// Window or windscreen.
    Window,
    /// Rooflight.
    Rooflight,
    /// Door.
    Door,
    /// Bare metal of the cab.
    CabMetal,
}

impl FabricPart {
    /// Every part, in the order offered.
    pub const ALL: [Self; 7] = [
        Self::Wall,
        Self::Roof,
        Self::Floor,
        Self::Window,
        Self::Rooflight,
        Self::Door,
        Self::CabMetal,
    ];

    /// The trade's word for it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Wall => "wall",
            Self::Roof => "roof",
            Self::Floor => "floor",
            Self::Window => "window",
            Self::Rooflight => "rooflight",
            Self::Door => "door",
            Self::CabMetal => "cab metal",
        }
    }
}

/// One layer of a build-up, from outside to inside.
#[derive(Clone, Debug, PartialEq)]
pub struct Layer {
    /// Material.
    pub material: String,
    /// Thickness, mm.
    pub thickness_mm: Option<f64>,
    /// Thermal conductivity, W/(m K).
    pub conductivity_w_per_m_k: Option<f64>,
    /// Thermal resistance, m² K/W, stated instead of thickness and conductivity (an air gap).
    pub resistance_m2_k_per_w: Option<f64>,
}

/// How heat transmittance is known.
#[derive(Clone, Debug, PartialEq)]
pub enum BuildUp {
    /// Layers from outside to inside.
    Layers(Vec<Layer>),
    /// Stated thermal transmittance, W/(m² K).
    Stated {
        /// U-value, W/(m² K).
        u_w_per_m2_k: Option<f64>,
    },
}

/// Where an opening of the fabric is drawn on its face.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outline {
    /// The face it is on.
    pub facing: Facing,
    /// Distance of its middle from the front (sides, roof) or nearside (front, rear), m.
    pub along_m: f64,
    /// Height of its middle above ground, or on roof and floor its distance from the nearside, m.
    pub up_m: f64,
    /// Width, m.
    pub width_m: f64,
    /// Height, m.
    pub height_m: f64,
}

/// One element of the fabric, or several alike.
#[derive(Clone, Debug, PartialEq)]
pub struct FabricElement {
    /// Its number.
    pub id: FabricId,
    /// The surveyor's name for it.
    pub name: String,
    /// Which part it is.
    pub part: FabricPart,
    /// Area of all of it, m².
    pub area_m2: Option<f64>,
    /// What it is made of.
    pub build_up: BuildUp,
    /// Addition for frames, ribs and other thermal bridges, %.
    pub bridge_percent: f64,
    /// Where to draw it, for windows, doors and rooflights.
    pub outline: Option<Outline>,
}
