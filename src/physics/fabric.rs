//! Heat through walls, roof, floor and windows, and how cold their inside surface gets.
//!
//! U-values after ISO 6946 **\[M\]**, surface temperatures after ISO 13788 **\[M\]**.

/// Outside surface resistance Rse, m²K/W **\[M\]**.
pub const OUTSIDE_SURFACE_RESISTANCE: f64 = 0.04;
/// Inside surface resistance for judging surface temperatures of opaque parts, m²K/W **\[M\]**.
pub const OPAQUE_JUDGING_RESISTANCE: f64 = 0.25;
/// Inside surface resistance for judging surface temperatures of glazing, m²K/W **\[M\]**.
pub const GLASS_JUDGING_RESISTANCE: f64 = 0.13;

/// Direction in which heat leaves through a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum HeatFlow {
    /// Through a wall or window.
    Horizontal,
    /// Up, through the roof.
    Up,
    /// Down, through the floor.
    Down,
}

impl HeatFlow {
    /// Inside surface resistance Rsi, m²K/W: 0.13 wall, 0.10 up, 0.17 down **\[M\]**.
    pub fn inside_surface_resistance(self) -> f64 {
        match self {
            Self::Horizontal => 0.13,
            Self::Up => 0.10,
            Self::Down => 0.17,
        }
    }
}

/// A building material of vehicle bodies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Material {
    /// Glass.
    Glass,
    /// Acrylic sheet.
    Acrylic,
    /// Glass-fibre reinforced plastic.
    GlassFibre,
    /// Steel.
    Steel,
    /// Aluminium alloy.
    Aluminium,
    /// Softwood.
    Softwood,
    /// Plywood.
    Plywood,
    /// Polyurethane foam.
    PolyurethaneFoam,
    /// Expanded polystyrene.
    ExpandedPolystyrene,
    /// Extruded polystyrene.
    ExtrudedPolystyrene,
}

impl Material {
    /// Thermal conductivity λ, W/(m K): glass, acrylic, GRP, steel, aluminium, softwood and PU
    /// foam **\[S\]**; EPS, XPS and plywood **\[M\]**.
    pub fn conductivity(self) -> f64 {
        match self {
            Self::Glass => 1.0,
            Self::Acrylic => 0.18,
            Self::GlassFibre => 0.40,
            Self::Steel => 50.0,
            Self::Aluminium => 160.0,
            Self::Softwood | Self::Plywood => 0.13,
            Self::PolyurethaneFoam => 0.028,
            Self::ExpandedPolystyrene => 0.038,
            Self::ExtrudedPolystyrene => 0.034,
        }
    }
}

/// One layer of a part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Layer {
    /// A solid layer.
    Solid {
        /// Thickness d, m.
        thickness: f64,
        /// Thermal conductivity λ, W/(m K).
        conductivity: f64,
    },
    /// A layer known by its resistance, such as an air gap.
    Resistance(f64),
}

impl Layer {
    /// A layer of a known material, `thickness` in m.
    pub fn of(material: Material, thickness: f64) -> Self {
        Self::Solid {
            thickness,
            conductivity: material.conductivity(),
        }
    }

    /// Thermal resistance, m²K/W: `d/λ`.
    pub fn resistance(&self) -> f64 {
        match *self {
            Self::Solid {
                thickness,
                conductivity,
            } => thickness / conductivity,
            Self::Resistance(resistance) => resistance,
        }
    }
}

/// Resistance of all layers without the surfaces, m²K/W: `Σ d/λ`.
pub fn resistance(layers: &[Layer]) -> f64 {
    layers.iter().map(Layer::resistance).sum()
}

/// Thermal transmittance, W/(m²K).
///
/// ```text
/// U = 1/(Rsi + Σ d/λ + Rse)
/// ```
/// where Rsi follows the direction of the heat and Rse is 0.04 m²K/W. ISO 6946 **\[M\]**.
///
/// ```
/// use gapledger::physics::fabric::{HeatFlow, Layer, Material, u_value};
/// // Wall of 1.5 mm GRP, 30 mm EPS and 3 mm plywood: 1.014 W/m²K (worked by hand).
/// let wall = [
///     Layer::of(Material::GlassFibre, 1.5e-3),
///     Layer::of(Material::ExpandedPolystyrene, 30e-3),
///     Layer::of(Material::Plywood, 3e-3),
/// ];
/// assert!((u_value(&wall, HeatFlow::Horizontal) - 1.014).abs() < 5e-4);
/// ```
pub fn u_value(layers: &[Layer], direction: HeatFlow) -> f64 {
    let inside = direction.inside_surface_resistance();
    1.0 / (inside + resistance(layers) + OUTSIDE_SURFACE_RESISTANCE)
}

/// Temperature factor of the inside surface, 0 to 1.
///
/// ```text
/// f_Rsi = 1 − Rsi/(Rsi + R_layers + Rse)
/// ```
/// with the same Rsi in both places: [`OPAQUE_JUDGING_RESISTANCE`] or
/// [`GLASS_JUDGING_RESISTANCE`]. ISO 13788 **\[M\]**.
pub fn temperature_factor(layers: &[Layer], inside_surface_resistance: f64) -> f64 {
    let beyond = resistance(layers) + OUTSIDE_SURFACE_RESISTANCE;
    beyond / (inside_surface_resistance + beyond)
}

/// Temperature of the inside surface, °C: `T_s = T_o + f_Rsi (T_i − T_o)`.
pub fn surface_temperature_c(factor: f64, outside_c: f64, inside_c: f64) -> f64 {
    outside_c + factor * (inside_c - outside_c)
}
