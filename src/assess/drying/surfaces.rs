//! Cold surfaces: where mould, rust and water on the glass are to be expected.

use super::answer::{Spot, Surface};
use crate::assess::fabric::{element_u, heat_flow};
use crate::physics::MoistAir;
use crate::physics::air::{dew_point, humidity_ratio, saturation_pressure};
use crate::physics::coupled::Steady;
use crate::physics::fabric::{
    GLASS_JUDGING_RESISTANCE, Layer, OPAQUE_JUDGING_RESISTANCE, OUTSIDE_SURFACE_RESISTANCE,
    surface_temperature_c, temperature_factor,
};
use crate::survey::{FabricElement, FabricPart, Survey};

/// How much colder than the air the sky makes roof and glass on a clear night, K **\[A\]**.
pub(crate) const CLEAR_NIGHT_KELVIN: f64 = 3.0;
/// Surface humidity against mould, ISO 13788 **\[M\]**.
pub(crate) const MOULD_LIMIT: f64 = 0.8;
/// Surface humidity against corrosion of metal, ISO 13788 **\[M\]**.
pub(crate) const CORROSION_LIMIT: f64 = 0.6;
/// Share of an element's area that its thermal bridges take **\[A\]**: an addition of 15 % on the
/// whole is then 2.5 times the loss of the plain part on the bridge itself.
pub(crate) const BRIDGE_AREA_SHARE: f64 = 0.1;
/// Warmest inside that is worth a number, °C.
const WARMEST_C: f64 = 60.0;

/// Every cold surface of the fabric in a state. Elements whose build-up is not known are left out;
/// the findings name them.
pub(crate) fn surfaces(survey: &Survey, outside: &MoistAir, steady: &Steady) -> Vec<Surface> {
    survey
        .fabric
        .iter()
        .flat_map(|element| spots(element))
        .map(|(element, spot, factor)| surface(element, spot, factor, outside, steady))
        .collect()
}

/// The surfaces of an element with their temperature factors.
fn spots(element: &FabricElement) -> Vec<(&FabricElement, Spot, f64)> {
    let Ok(u) = element_u(element) else {
        return Vec::new();
    };
    let plain = match element.part {
        FabricPart::Window | FabricPart::Rooflight => Spot::Glass,
        FabricPart::CabMetal => Spot::Metal,
        FabricPart::Wall | FabricPart::Roof | FabricPart::Floor | FabricPart::Door => Spot::Plain,
    };
    let mut all = vec![(element, plain, factor(element, plain, u))];
    if plain == Spot::Plain && element.bridge_percent > 0.0 {
        let bridge = u * (1.0 + element.bridge_percent / 100.0 / BRIDGE_AREA_SHARE);
        all.push((element, Spot::Bridge, factor(element, Spot::Bridge, bridge)));
    }
    all
}

/// Temperature factor of a surface with this U-value: the layers are what is left of the
/// resistance, judged with the surface resistance for surfaces.
fn factor(element: &FabricElement, spot: Spot, u: f64) -> f64 {
    let inside = heat_flow(element.part).inside_surface_resistance();
    let layers = (1.0 / u - inside - OUTSIDE_SURFACE_RESISTANCE).max(0.0);
    let judging = match spot {
        Spot::Glass => GLASS_JUDGING_RESISTANCE,
        Spot::Plain | Spot::Bridge | Spot::Metal => OPAQUE_JUDGING_RESISTANCE,
    };
    temperature_factor(&[Layer::Resistance(layers)], judging)
}

fn surface(
    element: &FabricElement,
    spot: Spot,
    factor: f64,
    outside: &MoistAir,
    steady: &Steady,
) -> Surface {
    let sky = match element.part {
        FabricPart::Roof | FabricPart::Rooflight | FabricPart::Window => CLEAR_NIGHT_KELVIN,
        FabricPart::Wall | FabricPart::Floor | FabricPart::Door | FabricPart::CabMetal => 0.0,
    };
    let limit = match spot {
        Spot::Glass => 1.0,
        Spot::Metal => CORROSION_LIMIT,
        Spot::Plain | Spot::Bridge => MOULD_LIMIT,
    };
    let inside = &steady.inside;
    let outside_seen_c = outside.t_c - sky;
    let temperature_c = surface_temperature_c(factor, outside_seen_c, inside.t_c);
    let vapour = inside.vapour_pressure();
    let surface_rh = vapour / saturation_pressure(temperature_c);
    let exceeds = surface_rh > limit;
    // The surface clears at the temperature at which this vapour comes to the limit.
    let clear_c = dew_point(vapour / limit);
    let kelvin_to_clear = if exceeds {
        clear_c
            .map(|clear_c| outside_seen_c + (clear_c - outside_seen_c) / factor)
            .filter(|warm| *warm <= WARMEST_C)
            .map(|warm| warm - inside.t_c)
    } else {
        Some(0.0)
    };
    let most = limit * saturation_pressure(temperature_c);
    let ratio = humidity_ratio(most, inside.pressure);
    Surface {
        element: element.id,
        name: element.name.clone(),
        spot,
        temperature_factor: factor,
        outside_seen_c,
        temperature_c,
        surface_rh,
        limit,
        condenses: surface_rh > 1.0,
        exceeds,
        kelvin_to_clear,
        rh_to_clear: (most / saturation_pressure(inside.t_c)).min(1.0),
        removal_to_clear_kg_s: (steady.dry_air_flow * (inside.humidity_ratio - ratio)).max(0.0),
    }
}
