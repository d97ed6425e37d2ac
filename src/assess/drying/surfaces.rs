//! Cold surfaces: where mould, rust and water on the glass are to be expected.

use super::answer::Surface;
use super::cold_surfaces::Listed;
use super::equipment::Sources;
use super::ground::Ground;
use super::situation::{Fitted, Situation};
use crate::assess::answer::Answer;
use crate::physics::air::saturation_pressure;
use crate::physics::coupled::{ColdSurface, Steady};

/// Every cold surface in a steady state.
pub(crate) fn surfaces(
    ground: &Ground<'_>,
    situation: &Situation<'_>,
    fitted: &Fitted<'_>,
    steady: &Steady,
) -> Vec<Surface> {
    let state = State {
        fabric: ground.fabric,
        sources: &ground.sources,
        situation,
        fitted,
        steady,
    };
    let all = ground.listed.iter().zip(situation.surfaces());
    all.map(|(listed, cold)| state.surface(listed, cold))
        .collect()
}

/// A steady state and how it came about.
struct State<'a> {
    fabric: f64,
    sources: &'a Sources,
    situation: &'a Situation<'a>,
    fitted: &'a Fitted<'a>,
    steady: &'a Steady,
}

impl State<'_> {
    /// One surface: how cold, how humid, what condenses on it, and what would clear it.
    ///
    /// ```text
    /// T_s = T_o' + f_Rsi (T_i − T_o'),   φ_s = p_v/p_ws(T_s)
    /// C_s = h_m A_s max(0, ρ_v(T_i) − ρ_v,sat(T_s))
    /// ```
    /// where T_o' is the outside temperature that the surface sees (roof and glass see a clear night
    /// sky, [`crate::physics::clear_night`]), T_i and p_v are those of the inside air; the
    /// limit φ_lim is 1 on glass, 0.6 on metal, 0.8 elsewhere. What clears it, removal or warmth,
    /// is the balance solved anew with the surface at φ_lim
    /// ([`crate::physics::coupled::clearing`]), warmth up to [`super::WARMEST_C`].
    fn surface(&self, listed: &Listed, cold: &ColdSurface) -> Surface {
        let inside = &self.steady.inside;
        let limit = listed.limit();
        let temperature_c = cold.temperature_c(inside.t_c);
        let saturation = saturation_pressure(temperature_c);
        let surface_rh = inside.vapour_pressure() / saturation;
        let exceeds = surface_rh > limit;
        let (removal_to_clear_kg_s, kelvin_to_clear) = if exceeds {
            self.clearing(cold, limit)
        } else {
            (Ok(0.0), Ok(Some(0.0)))
        };
        Surface {
            element: listed.element,
            name: listed.name.clone(),
            spot: listed.spot,
            area_m2: listed.area,
            temperature_factor: listed.factor,
            outside_seen_c: cold.outside_seen_c,
            temperature_c,
            surface_rh,
            limit,
            condenses: surface_rh > 1.0,
            condensed_kg_s: cold.condensation(inside),
            exceeds,
            kelvin_to_clear,
            rh_to_clear: (limit * saturation / saturation_pressure(inside.t_c)).min(1.0),
            removal_to_clear_kg_s,
        }
    }

    fn clearing(&self, cold: &ColdSurface, limit: f64) -> (Answer<f64>, Answer<Option<f64>>) {
        let vehicle = (self.fabric, self.sources, self.fitted);
        let found = self.situation.clearing(vehicle, self.steady, (cold, limit));
        let own_c = self.steady.inside.t_c;
        let removal = found.as_ref().map(|found| found.removal);
        let warmth = found.as_ref().map(|found| found.warm_c);
        (
            removal.map_err(Clone::clone),
            warmth
                .map(|warm_c| warm_c.map(|warm_c| warm_c - own_c))
                .map_err(Clone::clone),
        )
    }
}
