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
/// Warmest inside that is worth a number, °C **\[A\]**.
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

/// The surfaces of an element with their temperature factors: the plain part and, where bridges are
/// added, the bridge.
///
/// ```text
/// U_bridge = U (1 + b/100/s)
/// ```
/// where U is the U-value of the plain part, W/(m² K), b the addition for bridges, %, and s the
/// share of the area that they take, [`BRIDGE_AREA_SHARE`].
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
    temperature_factor(&[Layer::Resistance(layers)], judging)
}

/// One surface in a state: how cold, how humid, and what would clear it.
///
/// ```text
/// T_s = T_o' + f_Rsi (T_i − T_o'),   φ_s = p_v/p_ws(T_s)
/// T_clear = T_o' + (T_d(p_v/φ_lim) − T_o')/f_Rsi
/// ΔW = max(0, m_da (W_i − W(φ_lim p_ws(T_s))))
/// ```
/// where T_o' is the outside temperature that the surface sees (roof and glass see a clear sky,
/// [`CLEAR_NIGHT_KELVIN`] colder than the air), T_i and p_v are those of the inside air, φ_lim is the
/// limit (1 on glass, 0.6 on metal, 0.8 elsewhere), T_d the dew point, m_da the dry air that flows
/// through, kg/s, and W the humidity ratio. T_clear is the inside temperature that clears the
/// surface with the vapour as it is, told up to 60 °C; ΔW the removal that clears it with the
/// temperature as it is.
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
