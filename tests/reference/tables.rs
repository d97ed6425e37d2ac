//! Rows of the committed tables. Column names carry the units.

use std::path::{Path, PathBuf};

use gapledger::physics::{Fan, FanWay};
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

/// One moment of `sun.csv`.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct SunRow {
    pub(crate) year: i32,
    pub(crate) month: u8,
    pub(crate) day: u8,
    pub(crate) hour_ut: f64,
    pub(crate) latitude_deg: f64,
    pub(crate) longitude_deg: f64,
    pub(crate) pressure_pa: f64,
    pub(crate) elevation_deg: f64,
    pub(crate) azimuth_deg: f64,
    pub(crate) direct_w_m2: f64,
    pub(crate) diffuse_w_m2: f64,
    pub(crate) global_w_m2: f64,
    pub(crate) facing_deg: f64,
    pub(crate) level_w_m2: f64,
    pub(crate) upright_w_m2: f64,
}

/// One hour of `winter.csv`.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct WinterRow {
    pub(crate) vehicle: u32,
    pub(crate) weather: u32,
    #[expect(dead_code, reason = "it numbers the rows for those who read the table")]
    pub(crate) hour: u32,
    pub(crate) t_c: f64,
    pub(crate) rh: f64,
    pub(crate) removed_kg: f64,
    pub(crate) heater_wh: f64,
    pub(crate) machine_wh: f64,
}

/// One hour of `epw.csv`; empty where nothing was recorded.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct WeatherHour {
    pub(crate) hour: u32,
    pub(crate) temp_air: Option<f64>,
    pub(crate) temp_dew: Option<f64>,
    pub(crate) relative_humidity: Option<f64>,
    pub(crate) atmospheric_pressure: Option<f64>,
    pub(crate) ghi_infrared: Option<f64>,
    pub(crate) ghi: Option<f64>,
    pub(crate) dni: Option<f64>,
    pub(crate) dhi: Option<f64>,
    pub(crate) wind_direction: Option<f64>,
    pub(crate) wind_speed: Option<f64>,
    pub(crate) total_sky_cover: Option<f64>,
    pub(crate) opaque_sky_cover: Option<f64>,
    pub(crate) visibility: Option<f64>,
    pub(crate) albedo: Option<f64>,
    pub(crate) snow_depth: Option<f64>,
    pub(crate) precipitable_water: Option<f64>,
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
    /// `area_m2/factor/seen_c`, one after the other with semicolons between.
    pub(crate) surfaces: String,
    /// Highest relative humidity at the first of them.
    pub(crate) limit: Option<f64>,
    pub(crate) runs: u8,
    pub(crate) t_in_c: f64,
    pub(crate) humidity_ratio: f64,
    pub(crate) removal_kg_s: f64,
    pub(crate) duty: f64,
    pub(crate) machine_w: f64,
    pub(crate) heater_out_w: f64,
    pub(crate) condensation_kg_s: f64,
    pub(crate) on_surfaces_kg_s: f64,
    /// What clears the first surface; empty where it is clear, or not told.
    pub(crate) clearing_removal_kg_s: Option<f64>,
    pub(crate) clearing_c: Option<f64>,
}

/// One vehicle of `network.csv`.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct NetworkVehicle {
    pub(crate) vehicle: u32,
    pub(crate) density_out_kg_m3: f64,
    pub(crate) viscosity_out_pa_s: f64,
    pub(crate) dynamic_pressure_pa: f64,
    pub(crate) datum_m: f64,
    pub(crate) inflow_kg_s: f64,
}

/// One space of `network_spaces.csv`, counted from 0.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct NetworkSpace {
    pub(crate) vehicle: u32,
    pub(crate) space: usize,
    pub(crate) density_kg_m3: f64,
    pub(crate) viscosity_pa_s: f64,
    pub(crate) supply_kg_s: f64,
    pub(crate) extract_kg_s: f64,
    pub(crate) pressure_pa: f64,
}

/// One way for air of `network_ways.csv`: from outside where no space is named.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct NetworkWay {
    pub(crate) vehicle: u32,
    pub(crate) from_space: Option<usize>,
    pub(crate) to_space: usize,
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

/// One fan of `air_balance_fans.csv` or `network_fans.csv`, with what it moves.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct FanRow {
    pub(crate) vehicle: u32,
    pub(crate) space: usize,
    pub(crate) way: String,
    pub(crate) free_kg_s: f64,
    pub(crate) most_pressure_pa: f64,
    pub(crate) flow_kg_s: f64,
}

impl FanRow {
    /// Its fan.
    pub(crate) fn fan(&self) -> Fan {
        Fan {
            space: self.space,
            way: match self.way.as_str() {
                "supply" => FanWay::Supply,
                "extract" => FanWay::Extract,
                other => panic!("no such way: {other}"),
            },
            free_flow: self.free_kg_s,
            most_pressure: self.most_pressure_pa,
        }
    }
}

/// Fans of a space that move their flow whatever the pressure.
pub(crate) fn constant_fans(space: usize, supply: f64, extract: f64) -> [Fan; 2] {
    let ways = [(FanWay::Supply, supply), (FanWay::Extract, extract)];
    ways.map(|(way, free_flow)| Fan {
        space,
        way,
        free_flow,
        most_pressure: f64::INFINITY,
    })
}

impl NetworkWay {
    /// Its gap.
    pub(crate) fn gap(&self) -> Gap {
        Gap {
            vehicle: self.vehicle,
            gap: 0,
            kind: self.kind.clone(),
            cp: self.cp,
            z_low_m: self.z_low_m,
            z_high_m: self.z_high_m,
            multiplier: self.multiplier,
            behind_area_m2: self.behind_area_m2,
            area_m2: self.area_m2,
            discharge: self.discharge,
            length_m: self.length_m,
            width_m: self.width_m,
            depth_m: self.depth_m,
            bends: self.bends,
            coefficient_m3_per_s_pa_n: self.coefficient_m3_per_s_pa_n,
            exponent: self.exponent,
            in_kg_s: self.in_kg_s,
            out_kg_s: self.out_kg_s,
        }
    }
}

/// One gap of `uncertainty_gaps.csv`.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct UncertainGap {
    pub(crate) face: String,
    pub(crate) height_m: f64,
    pub(crate) area_mm2: f64,
    pub(crate) certainty: String,
}

/// One figure of `uncertainty.csv`: mean, standard deviation and the middle 95 % of the draws.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct UncertaintyRow {
    pub(crate) what: String,
    pub(crate) mean: f64,
    pub(crate) standard_deviation: f64,
    pub(crate) low: f64,
    pub(crate) high: f64,
}

/// The gaps of the vehicle drawn.
pub(crate) fn uncertainty_gaps() -> Vec<UncertainGap> {
    read("uncertainty_gaps.csv")
}

/// Its figures.
pub(crate) fn uncertainty_rows() -> Vec<UncertaintyRow> {
    read("uncertainty.csv")
}

/// The fans of vehicles of several spaces.
pub(crate) fn network_fans() -> Vec<FanRow> {
    read("network_fans.csv")
}

/// The fans of vehicles of one space.
pub(crate) fn fans() -> Vec<FanRow> {
    read("air_balance_fans.csv")
}

/// Every vehicle of several spaces with its spaces and ways.
pub(crate) fn networks() -> Vec<(NetworkVehicle, Vec<NetworkSpace>, Vec<NetworkWay>)> {
    let mut spaces = read::<NetworkSpace>("network_spaces.csv")
        .into_iter()
        .peekable();
    let mut ways = read::<NetworkWay>("network_ways.csv")
        .into_iter()
        .peekable();
    let mut vehicles = Vec::new();
    for vehicle in read::<NetworkVehicle>("network.csv") {
        let (mut own_spaces, mut own_ways) = (Vec::new(), Vec::new());
        while let Some(space) = spaces.next_if(|space| space.vehicle == vehicle.vehicle) {
            own_spaces.push(space);
        }
        while let Some(way) = ways.next_if(|way| way.vehicle == vehicle.vehicle) {
            own_ways.push(way);
        }
        vehicles.push((vehicle, own_spaces, own_ways));
    }
    let all_taken = spaces.next().is_none() && ways.next().is_none();
    assert!(all_taken, "a space or a way belongs to no vehicle");
    vehicles
}

/// The sun at places and moments.
pub(crate) fn suns() -> Vec<SunRow> {
    read("sun.csv")
}

/// The hours of the weather file as pvlib reads it.
pub(crate) fn weather_hours() -> Vec<WeatherHour> {
    read("epw.csv")
}

/// The hours of five vehicles in two weathers.
pub(crate) fn winter_hours() -> Vec<WinterRow> {
    read("winter.csv")
}

/// Frost in a weather, counted by pandas.
#[derive(Deserialize)]
pub(crate) struct FrostRow {
    pub(crate) weather: u32,
    pub(crate) hours: usize,
    pub(crate) longest_h: usize,
    pub(crate) nights: usize,
    pub(crate) degree_hours: f64,
}

/// Frost in both weathers.
pub(crate) fn frosts() -> Vec<FrostRow> {
    read("frost.csv")
}

/// The survey of one of those vehicles.
pub(crate) fn winter_survey(vehicle: u32) -> String {
    std::fs::read_to_string(place(&format!("winter_{vehicle}.ron"))).unwrap()
}

/// One of those weathers.
pub(crate) fn winter_weather(weather: u32) -> Vec<u8> {
    std::fs::read(place(&format!("winter_weather_{weather}.epw"))).unwrap()
}

/// The weather file itself.
pub(crate) fn weather_file() -> Vec<u8> {
    std::fs::read(place("weather.epw")).unwrap()
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

/// Where a table stands.
fn place(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests/reference")
        .join(name)
}

fn read<Row: DeserializeOwned>(name: &str) -> Vec<Row> {
    let path = place(name);
    csv::Reader::from_path(&path)
        .unwrap()
        .deserialize()
        .map(|row| row.unwrap_or_else(|error| panic!("{name}: {error}")))
        .collect()
}
