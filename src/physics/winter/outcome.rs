//! What comes out of the integration.

/// The state inside.
#[derive(Clone, Debug, PartialEq)]
pub struct Inside {
    /// Temperature, °C.
    pub t_c: f64,
    /// Vapour pressure, Pa.
    pub vapour: f64,
    /// Water on each surface, kg.
    pub films: Vec<f64>,
    /// Water in the tub, kg.
    pub in_tub: f64,
}

/// Means over one hour, and its sums.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct HourInside {
    /// Inside temperature, °C.
    pub t_c: f64,
    /// Inside relative humidity, 0 to 1.
    pub rh: f64,
    /// Vapour pressure inside, Pa.
    pub vapour: f64,
    /// Dry air that flows through, kg/s.
    pub dry_air: f64,
    /// Heat of the heater, W.
    pub heater: f64,
    /// Power of the machine, W.
    pub machine: f64,
    /// Share of the hour that the machine runs.
    pub duty: f64,
    /// The machine was too cold to run for this share of the hour.
    pub too_cold: f64,
    /// Water that machine or tub took, kg.
    pub removed: f64,
    /// Water that condensed on surfaces and in the air, kg; what evaporated is not taken off.
    pub condensed: f64,
    /// Water that ran off, kg.
    pub run_off: f64,
}

/// All water and heat of a season: what came in, what went out, and what is there more at its end.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Books {
    /// Water that the air brought, kg.
    pub water_by_air: f64,
    /// Water that the air took, kg.
    pub water_out_by_air: f64,
    /// Water given off inside, kg.
    pub water_sources: f64,
    /// Water that machine or tub took, kg.
    pub water_removed: f64,
    /// Water that went onto surfaces, less what came back, kg.
    pub water_to_films: f64,
    /// Water that the air could not hold, kg.
    pub water_not_held: f64,
    /// Water more in the air and the materials, kg.
    pub water_stored: f64,
    /// Heat through shell and air, W s; negative where it left.
    pub heat_through: f64,
    /// Heat of sun and sky.
    pub heat_envelope: f64,
    /// Heat of heater, people and machine.
    pub heat_inside: f64,
    /// Heat of water that condensed or was taken, less that of water that evaporated.
    pub heat_of_water: f64,
    /// Heat more in air and contents, less what water in the materials left there.
    pub heat_stored: f64,
    /// Sum of all heat, whatever its sign, to hold the difference against.
    pub heat_moved: f64,
}

impl Books {
    /// Water that came in less what went out and is there more, as a share of what came in.
    #[must_use]
    pub fn water_open(&self) -> f64 {
        let into = self.water_by_air + self.water_sources;
        let out = self.water_out_by_air
            + self.water_removed
            + self.water_to_films
            + self.water_not_held
            + self.water_stored;
        (into - out) / into
    }

    /// Heat that came in less what is there more, as a share of all that moved.
    #[must_use]
    pub fn heat_open(&self) -> f64 {
        let into = self.heat_through + self.heat_envelope + self.heat_inside + self.heat_of_water;
        (into - self.heat_stored) / self.heat_moved
    }
}
