//! Cold surfaces: where mould, rust and water on the glass are to be expected, and what clears them.

use super::answer::Surface;
use super::equipment::Sources;
use super::ground::Ground;
use super::listed::Listed;
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
    /// where T_o' is the outside temperature that the surface sees ([`Listed::cold`]), T_i and p_v are
    /// those of the inside air, and φ_lim is the limit ([`Listed::limit`]). What clears it, removal
    /// or warmth, is the balance solved anew with the surface at φ_lim ([`Situation::clearing`]).
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
        let removal = found.clone().map(|found| found.removal);
        let kelvin = found.map(|found| found.warm_c.map(|warm_c| warm_c - own_c));
        (removal, kelvin)
    }
}
