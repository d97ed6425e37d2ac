//! Cold surfaces: the water that condenses on them before the air as a whole is saturated.

use std::cell::OnceCell;

use super::Inside;
use crate::physics::air::{MoistAir, ZERO_CELSIUS, humidity_ratio, saturation_pressure};
use crate::physics::fabric::surface_temperature_c;
use crate::physics::machine::salt::{TUB_MASS_TRANSFER, vapour_density};

/// Mass transfer coefficient of a surface in still room air, m/s: that of a tub **\[A\]**.
pub const SURFACE_MASS_TRANSFER: f64 = TUB_MASS_TRANSFER;

/// A surface of the fabric on which water condenses where the air's vapour is denser than what
/// is saturated at its temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ColdSurface {
    /// Area A_s, m².
    pub area: f64,
    /// Temperature factor f_Rsi, 0 to 1.
    pub temperature_factor: f64,
    /// Outside temperature that it sees, °C: below that of the air on a clear night.
    pub outside_seen_c: f64,
}

impl ColdSurface {
    /// Its temperature with the inside at a temperature, both °C: `T_s = T_o + f_Rsi (T_i − T_o)`.
    /// The heat that water condensing on it gives it is left out, which makes [`Self::condensation`]
    /// some 20 to 45 % high **\[A\]**.
    #[must_use]
    pub fn temperature_c(&self, inside_c: f64) -> f64 {
        surface_temperature_c(self.temperature_factor, self.outside_seen_c, inside_c)
    }

    /// Water that condenses on it, kg/s.
    ///
    /// ```text
    /// C_s = h_m A_s max(0, ρ_v(T_i) − ρ_v,sat(T_s))
    /// ```
    /// where h_m is [`SURFACE_MASS_TRANSFER`], m/s, A_s the area, m², ρ_v the density of the vapour
    /// inside and ρ_v,sat that of saturated vapour at the surface, kg/m³, each at its own
    /// temperature. Natural convection through the Lewis relation **\[A\]**.
    ///
    /// ```
    /// use gapledger::physics::MoistAir;
    /// use gapledger::physics::coupled::ColdSurface;
    /// // 10 °C 90 %: 0.9 × 1228.0 Pa (psychrolib) over 461.5 × 283.15 is 8.458 g/m³. Glass that sees
    /// // 0 °C with f 0.259 is at 2.59 °C, where saturated vapour has 736.3 Pa, 5.786 g/m³. A square
    /// // metre of it takes 2.1e-3 × 2.672e-3 kg/s: 0.485 L a day.
    /// let inside = MoistAir::from_relative_humidity(10.0, 0.9, 101_325.0)?;
    /// let glass = ColdSurface { area: 1.0, temperature_factor: 0.259, outside_seen_c: 0.0 };
    /// assert!((glass.condensation(&inside) * 86_400.0 - 0.485).abs() < 1e-3);
    /// # Ok::<(), gapledger::physics::AirError>(())
    /// ```
    #[must_use]
    pub fn condensation(&self, inside: &MoistAir) -> f64 {
        let here = self.temperature_c(inside.t_c);
        let surplus = vapour_density(inside.vapour_pressure(), inside.t_c)
            - vapour_density(saturation_pressure(here), here);
        SURFACE_MASS_TRANSFER * self.area * surplus.max(0.0)
    }

    /// Vapour pressure of the air inside above which water condenses on it, Pa.
    fn wet_above(&self, inside_c: f64) -> f64 {
        let here = self.temperature_c(inside_c);
        saturation_pressure(here) * (inside_c + ZERO_CELSIUS) / (here + ZERO_CELSIUS)
    }
}

/// Water on all surfaces together, kg/s.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct OnSurfaces {
    /// What condenses, Σ C_s.
    pub(super) condensed: f64,
    /// The part of it whose heat comes back to the room, Σ f_Rsi C_s.
    pub(super) given_back: f64,
}

/// One surface at one inside temperature.
#[derive(Clone, Copy)]
struct Film {
    /// kg/s for each Pa above `wet_above`.
    conductance: f64,
    wet_above: f64,
    temperature_factor: f64,
}

/// All surfaces at one inside temperature. Their saturations are worked out only where the
/// coldest is wet.
pub(super) struct Cold<'a> {
    surfaces: &'a [ColdSurface],
    inside_c: f64,
    /// The least vapour pressure at which water condenses anywhere, Pa; endless without surfaces.
    wet_above: f64,
    films: OnceCell<Vec<Film>>,
}

impl<'a> Cold<'a> {
    pub(super) fn new(inside: &Inside<'a>, inside_c: f64) -> Self {
        let surfaces = inside.surfaces.iter().filter(|surface| surface.area > 0.0);
        let coldest = surfaces.min_by(|one, other| {
            let of = |surface: &ColdSurface| surface.temperature_c(inside_c);
            of(one).total_cmp(&of(other))
        });
        Self {
            surfaces: inside.surfaces,
            inside_c,
            wet_above: coldest.map_or(f64::INFINITY, |coldest| coldest.wet_above(inside_c)),
            films: OnceCell::new(),
        }
    }

    /// The most humid air that leaves every surface dry, kg/kg.
    pub(super) fn dry_up_to(&self, pressure: f64) -> f64 {
        if self.wet_above < pressure {
            humidity_ratio(self.wet_above, pressure)
        } else {
            f64::INFINITY
        }
    }

    /// What condenses at a vapour pressure, Pa.
    pub(super) fn at(&self, vapour: f64) -> OnSurfaces {
        let mut all = OnSurfaces::default();
        if vapour <= self.wet_above {
            return all;
        }
        for film in self.films() {
            let condensed = film.conductance * (vapour - film.wet_above).max(0.0);
            all.condensed += condensed;
            all.given_back += film.temperature_factor * condensed;
        }
        all
    }

    /// How much more condenses for each Pa more, kg/(s Pa), with all surfaces wet.
    pub(super) fn steepest(&self) -> f64 {
        self.films().iter().map(|film| film.conductance).sum()
    }

    fn films(&self) -> &[Film] {
        self.films.get_or_init(|| {
            let per_area = SURFACE_MASS_TRANSFER * vapour_density(1.0, self.inside_c);
            let film = |surface: &ColdSurface| Film {
                conductance: per_area * surface.area,
                wet_above: surface.wet_above(self.inside_c),
                temperature_factor: surface.temperature_factor,
            };
            self.surfaces.iter().map(film).collect()
        })
    }
}
