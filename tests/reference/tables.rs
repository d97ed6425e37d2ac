//! Rows of the committed tables. Column names carry the units.

use std::path::Path;

use serde::Deserialize;
use serde::de::DeserializeOwned;

/// One state of `moist_air.csv`.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct State {
    pub(crate) t_c: f64,
    pub(crate) rh: f64,
    pub(crate) pressure_pa: f64,
    pub(crate) saturation_pressure_pa: f64,
    pub(crate) vapour_pressure_pa: f64,
    pub(crate) humidity_ratio: f64,
    pub(crate) specific_volume_m3_per_kg: f64,
    pub(crate) density_kg_m3: f64,
    pub(crate) enthalpy_j_per_kg: f64,
    /// None for dry air.
    pub(crate) dew_point_c: Option<f64>,
}

/// One vehicle of `air_balance.csv`.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Vehicle {
    pub(crate) vehicle: u32,
    pub(crate) t_out_c: f64,
    pub(crate) rh_out: f64,
    pub(crate) t_in_c: f64,
    pub(crate) rh_in: f64,
    pub(crate) pressure_pa: f64,
    pub(crate) density_out_kg_m3: f64,
    pub(crate) viscosity_out_pa_s: f64,
    pub(crate) density_in_kg_m3: f64,
    pub(crate) viscosity_in_pa_s: f64,
    pub(crate) wind_m_s: f64,
    pub(crate) dynamic_pressure_pa: f64,
    pub(crate) datum_m: f64,
    pub(crate) supply_kg_s: f64,
    pub(crate) extract_kg_s: f64,
    pub(crate) inside_pressure_pa: f64,
    pub(crate) inflow_kg_s: f64,
    pub(crate) outflow_kg_s: f64,
}

/// One gap of `air_balance_gaps.csv`; sizes that its kind does not have are empty.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Gap {
    pub(crate) vehicle: u32,
    pub(crate) gap: u32,
    pub(crate) kind: String,
    pub(crate) cp: f64,
    pub(crate) z_low_m: f64,
    pub(crate) z_high_m: f64,
    pub(crate) multiplier: f64,
    pub(crate) behind_area_m2: Option<f64>,
    pub(crate) area_m2: Option<f64>,
    pub(crate) discharge: Option<f64>,
    pub(crate) length_m: Option<f64>,
    pub(crate) width_m: Option<f64>,
    pub(crate) depth_m: Option<f64>,
    pub(crate) bends: Option<u32>,
    pub(crate) coefficient_m3_per_s_pa_n: Option<f64>,
    pub(crate) exponent: Option<f64>,
    pub(crate) in_kg_s: f64,
    pub(crate) out_kg_s: f64,
}

/// One room of `coupled.csv`; what it does not have is empty.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Room {
    pub(crate) case: u32,
    pub(crate) t_out_c: f64,
    pub(crate) rh_out: f64,
    pub(crate) pressure_pa: f64,
    pub(crate) fabric_w_per_k: f64,
    pub(crate) vapour_kg_s: f64,
    pub(crate) liquid_kg_s: f64,
    pub(crate) gains_w: f64,
    pub(crate) heater_w: Option<f64>,
    pub(crate) set_point_c: Option<f64>,
    pub(crate) water_kg_per_j: f64,
    pub(crate) hygrostat_rh: Option<f64>,
    pub(crate) still_kg_s: f64,
    pub(crate) stack_kg_s_k05: f64,
    pub(crate) kind: String,
    pub(crate) tub_m2: Option<f64>,
    pub(crate) lowest_room_c: Option<f64>,
    /// `t_c/rh/removal_kg_s/power_w`, one after the other with semicolons between.
    pub(crate) figures: String,
    pub(crate) runs: u8,
    pub(crate) t_in_c: f64,
    pub(crate) humidity_ratio: f64,
    pub(crate) removal_kg_s: f64,
    pub(crate) duty: f64,
    pub(crate) machine_w: f64,
    pub(crate) heater_out_w: f64,
    pub(crate) condensation_kg_s: f64,
}

/// The rooms of the coupled balance.
pub(crate) fn rooms() -> Vec<Room> {
    read("coupled.csv")
}

/// The states of moist air.
pub(crate) fn states() -> Vec<State> {
    read("moist_air.csv")
}

/// Every vehicle with its gaps.
pub(crate) fn vehicles() -> Vec<(Vehicle, Vec<Gap>)> {
    let mut gaps = read::<Gap>("air_balance_gaps.csv").into_iter().peekable();
    let mut vehicles = Vec::new();
    for vehicle in read::<Vehicle>("air_balance.csv") {
        let mut own = Vec::new();
        while let Some(gap) = gaps.next_if(|gap| gap.vehicle == vehicle.vehicle) {
            own.push(gap);
        }
        vehicles.push((vehicle, own));
    }
    assert!(gaps.next().is_none(), "a gap belongs to no vehicle");
    vehicles
}

fn read<Row: DeserializeOwned>(name: &str) -> Vec<Row> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests/reference")
        .join(name);
    csv::Reader::from_path(&path)
        .unwrap()
        .deserialize()
        .map(|row| row.unwrap_or_else(|error| panic!("{name}: {error}")))
        .collect()
}
