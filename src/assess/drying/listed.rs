//! The surfaces of the fabric that can get cold, and how cold the outside is that each sees.

use super::answer::Spot;
use crate::assess::fabric::{element_u, heat_flow};
use crate::physics::clear_night::{self, Sees};
use crate::physics::coupled::ColdSurface;
use crate::physics::fabric::{
    GLASS_JUDGING_RESISTANCE, Layer, OPAQUE_JUDGING_RESISTANCE, OUTSIDE_SURFACE_RESISTANCE,
    temperature_factor,
};
use crate::survey::{FabricElement, FabricId, FabricPart, Survey};

/// Surface humidity against mould, ISO 13788 **\[M\]**.
const MOULD_LIMIT: f64 = 0.8;
/// Surface humidity against corrosion of metal, ISO 13788 **\[M\]**.
const CORROSION_LIMIT: f64 = 0.6;
/// Share of an element's area that its thermal bridges take **\[A\]**: an addition of 15 % on the
/// whole is then 2.5 times the loss of the plain part on the bridge itself.
const BRIDGE_AREA_SHARE: f64 = 0.1;
/// Warmest inside that is told to clear a surface, °C **\[A\]**.
pub(crate) const WARMEST_C: f64 = 30.0;

/// A surface of the fabric that can get cold.
pub(crate) struct Listed {
    pub(crate) element: FabricId,
    pub(crate) name: String,
    part: FabricPart,
    pub(crate) spot: Spot,
    pub(crate) factor: f64,
    /// Its area, m²: without one nothing condenses on it in the balance.
    pub(crate) area: Option<f64>,
}

impl Listed {
    /// Highest relative humidity at it, 0 to 1: 1 on glass, 0.6 on metal, 0.8 elsewhere.
    pub(crate) fn limit(&self) -> f64 {
        match self.spot {
            Spot::Glass => 1.0,
            Spot::Metal => CORROSION_LIMIT,
            Spot::Plain | Spot::Bridge => MOULD_LIMIT,
        }
    }

    /// It in the outside air, °C, and the wind at the body, m/s: roof and glass see a clear night
    /// sky ([`clear_night::kelvin`]).
    pub(crate) fn cold(&self, outside_c: f64, wind: f64) -> ColdSurface {
        let sky = match self.part {
            FabricPart::Roof | FabricPart::Rooflight => {
                clear_night::kelvin(Sees::TheWholeSky, wind)
            }
            FabricPart::Window => clear_night::kelvin(Sees::HalfTheSky, wind),
            FabricPart::Wall | FabricPart::Floor | FabricPart::Door | FabricPart::CabMetal => 0.0,
        };
        ColdSurface {
            area: self.area.unwrap_or(0.0),
            temperature_factor: self.factor,
            outside_seen_c: outside_c - sky,
        }
    }
}

/// Every cold surface of the fabric. Elements whose build-up is not known are left out; the
/// findings name them.
pub(crate) fn listed(survey: &Survey) -> Vec<Listed> {
    survey.fabric.iter().flat_map(spots).collect()
}

/// The surfaces as the balance knows them, in the same order.
pub(crate) fn cold(listed: &[Listed], outside_c: f64, wind: f64) -> Vec<ColdSurface> {
    listed.iter().map(|one| one.cold(outside_c, wind)).collect()
}

/// The surfaces of an element with their temperature factors: the plain part and, where bridges are
/// added, the bridge.
///
/// ```text
/// U_bridge = U (1 + b/100/s),   A_bridge = s A
/// ```
/// where U is the U-value of the plain part, W/(m² K), b the addition for bridges, %, A the area of
/// the element, m², and s the share of it that they take, [`BRIDGE_AREA_SHARE`].
fn spots(element: &FabricElement) -> Vec<Listed> {
    let Ok(u) = element_u(element) else {
        return Vec::new();
    };
    let plain = plain_spot(element.part);
    let one = |spot: Spot, u: f64, share: f64| Listed {
        element: element.id,
        name: element.name.clone(),
        part: element.part,
        spot,
        factor: factor(element, spot, u),
        area: element.area_m2.map(|area| area * share),
    };
    if plain == Spot::Plain && element.bridge_percent > 0.0 {
        let bridge = u * (1.0 + element.bridge_percent / 100.0 / BRIDGE_AREA_SHARE);
        vec![
            one(plain, u, 1.0 - BRIDGE_AREA_SHARE),
            one(Spot::Bridge, bridge, BRIDGE_AREA_SHARE),
        ]
    } else {
        vec![one(plain, u, 1.0)]
    }
}

/// Temperature factor f_Rsi of a surface with this U-value: the layers are what is left of the
/// resistance, judged with the surface resistance for surfaces.
///
/// ```text
/// R_layers = max(0, 1/U − Rsi − Rse),   f_Rsi = 1 − Rsi'/(Rsi' + R_layers + Rse)
/// ```
/// where Rsi and Rse are the surface resistances that are in the U-value, and Rsi' is 0.25 m²K/W
/// for opaque parts and 0.13 for glazing. ISO 13788 **\[M\]**.
fn factor(element: &FabricElement, spot: Spot, u: f64) -> f64 {
    let inside = heat_flow(element.part).inside_surface_resistance();
    let layers = (1.0 / u - inside - OUTSIDE_SURFACE_RESISTANCE).max(0.0);
    let judging = match spot {
        Spot::Glass => GLASS_JUDGING_RESISTANCE,
        Spot::Plain | Spot::Bridge | Spot::Metal => OPAQUE_JUDGING_RESISTANCE,
    };
    factor_with(layers, judging)
}

fn factor_with(layers: f64, judging: f64) -> f64 {
    temperature_factor(&[Layer::Resistance(layers)], judging)
}

/// The temperature factor of the plain surface of an element with this U-value.
pub(crate) fn plain_factor(element: &FabricElement, u: f64) -> f64 {
    factor(element, plain_spot(element.part), u)
}

/// The same with another surface resistance before it, m²K/W: behind cushions, in a locker.
pub(crate) fn factor_behind(element: &FabricElement, u: f64, resistance: f64) -> f64 {
    let inside = heat_flow(element.part).inside_surface_resistance();
    factor_with(
        (1.0 / u - inside - OUTSIDE_SURFACE_RESISTANCE).max(0.0),
        resistance,
    )
}

/// What the plain surface of a part is.
fn plain_spot(part: FabricPart) -> Spot {
    match part {
        FabricPart::Window | FabricPart::Rooflight => Spot::Glass,
        FabricPart::CabMetal => Spot::Metal,
        FabricPart::Wall | FabricPart::Roof | FabricPart::Floor | FabricPart::Door => Spot::Plain,
    }
}
