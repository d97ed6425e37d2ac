//! The range that physics, or plain sense, allows for every number of a survey.
//!
//! One table serves the findings, the window and the contributor's guide. A number outside its
//! range is an error at its field, and whatever depends on it is *not known*. The limits are
//! assumptions of this project \[A\]: wide enough for any leisure vehicle on a road.

/// What is allowed for one field.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FieldRange {
    /// Name of the field, as in the survey file.
    pub field: &'static str,
    /// Words for it, as a person would say them.
    pub words: &'static str,
    /// Unit, as shown behind the number; empty for a plain number.
    pub unit: &'static str,
    /// Lowest value allowed.
    pub lowest: f64,
    /// Highest value allowed.
    pub highest: f64,
}

const fn range(
    field: &'static str,
    words: &'static str,
    unit: &'static str,
    lowest: f64,
    highest: f64,
) -> FieldRange {
    FieldRange {
        field,
        words,
        unit,
        lowest,
        highest,
    }
}

/// Every field with a range, in the order of the survey file.
pub const RANGES: &[FieldRange] = &[
    // vehicle
    range("length_m", "length", "m", 1.5, 15.0),
    range("width_m", "width", "m", 1.0, 3.0),
    range("height_m", "height above ground", "m", 0.05, 4.5),
    range("floor_height_m", "floor height", "m", 0.1, 1.8),
    range("inside_length_m", "inside length", "m", 1.0, 15.0),
    range("inside_width_m", "inside width", "m", 0.8, 3.0),
    range("inside_height_m", "inside height", "m", 0.8, 3.0),
    range("volume_m3", "volume", "m³", 1.0, 120.0),
    range("berths", "berths", "", 0.0, 12.0),
    // site
    range("heading_deg", "heading", "°", 0.0, 360.0),
    range("altitude_m", "altitude", "m", -430.0, 5000.0),
    range(
        "prevailing_wind_deg",
        "prevailing wind from",
        "°",
        0.0,
        360.0,
    ),
    // gap
    range("gap_length_mm", "length", "mm", 0.1, 50_000.0),
    range("gap_width_mm", "width", "mm", 0.01, 3000.0),
    range("gap_depth_mm", "depth", "mm", 0.1, 500.0),
    range("bends", "bends", "", 0.0, 8.0),
    range("diameter_mm", "diameter", "mm", 0.1, 1500.0),
    range("gap_height_mm", "height", "mm", 0.01, 3000.0),
    range("hole_mm", "hole diameter", "mm", 0.1, 1500.0),
    range("pipe_mm", "pipe diameter", "mm", 0.0, 1500.0),
    range("free_percent", "free share", "%", 1.0, 100.0),
    range("area_mm2", "area", "mm²", 0.01, 5_000_000.0),
    range("free_area_mm2", "free area", "mm²", 0.01, 5_000_000.0),
    range("exponent", "flow exponent", "", 0.5, 1.0),
    range("flow_m3_per_h", "flow", "m³/h", 0.001, 20_000.0),
    range("at_pa", "test pressure", "Pa", 0.1, 500.0),
    range("count", "count", "", 1.0, 500.0),
    range("along_m", "place from the front", "m", -1.0, 15.0),
    range("across_m", "place from the nearside", "m", -0.5, 3.5),
    range("rise_m", "rise", "m", 0.0, 4.0),
    range(
        "cavity_pressure_coefficient",
        "cavity pressure coefficient",
        "",
        -3.0,
        1.0,
    ),
    range(
        "leaves_percent",
        "share that passes when closed",
        "%",
        0.0,
        100.0,
    ),
    range(
        "leak_left_percent",
        "share of the leak that remains",
        "%",
        0.0,
        100.0,
    ),
    range("material_cost", "material cost", "", 0.0, 100_000.0),
    range("minutes", "working time", "min", 0.0, 100_000.0),
    range(
        "leakage_not_found_percent",
        "leakage not found",
        "%",
        0.0,
        100.0,
    ),
    // spaces
    range("space_volume_m3", "volume", "m³", 0.05, 120.0),
    range(
        "warmer_by_k",
        "warmer than the first space by",
        "K",
        -40.0,
        40.0,
    ),
    // weather
    range("wind_m_s", "wind speed", "m/s", 0.0, 40.0),
    range("outside_c", "outside temperature", "°C", -40.0, 45.0),
    range(
        "outside_rh_percent",
        "outside relative humidity",
        "%",
        1.0,
        100.0,
    ),
    range("kelvin", "inside warmer by", "K", -20.0, 60.0),
    range("temperature_c", "inside temperature", "°C", -30.0, 50.0),
    range(
        "inside_rh_percent",
        "inside relative humidity",
        "%",
        1.0,
        100.0,
    ),
    range("weight", "weight", "", 0.0, 1000.0),
    // targets
    range("rh_percent", "target relative humidity", "%", 5.0, 95.0),
    range("set_temperature_c", "set temperature", "°C", -10.0, 35.0),
    range("frost_guard_c", "frost-guard set point", "°C", 0.5, 15.0),
    range("comfort_c", "comfort temperature", "°C", 10.0, 30.0),
    range(
        "design_outside_c",
        "design outside temperature",
        "°C",
        -40.0,
        20.0,
    ),
    // tariffs
    range(
        "electricity_per_kwh",
        "electricity price",
        "/kWh",
        0.0,
        1000.0,
    ),
    range("gas_per_kg", "gas price", "/kg", 0.0, 10_000.0),
    range(
        "liquid_fuel_per_l",
        "liquid fuel price",
        "/L",
        0.0,
        10_000.0,
    ),
    range("workshop_per_hour", "workshop hour", "/h", 0.0, 100_000.0),
    range("tax_percent", "tax", "%", 0.0, 100.0),
    // drying
    range("sun_w", "heat of the sun", "W", 0.0, 3000.0),
    range("contents_kg", "dry mass of the contents", "kg", 1.0, 5000.0),
    range(
        "contents_moisture_percent",
        "moisture of the contents",
        "%",
        0.0,
        150.0,
    ),
    range(
        "heat_capacity_kj_per_k",
        "heat capacity of the inside",
        "kJ/K",
        10.0,
        10_000.0,
    ),
    range("salt_kg", "dry salt in a tub", "kg", 0.05, 50.0),
    range("hookup_a", "electric supply", "A", 1.0, 63.0),
    range("battery_wh", "battery", "Wh", 10.0, 100_000.0),
    // fabric
    range("area_m2", "area", "m²", 0.01, 200.0),
    range("thickness_mm", "thickness", "mm", 0.05, 300.0),
    range(
        "conductivity_w_per_m_k",
        "conductivity",
        "W/(m K)",
        0.01,
        500.0,
    ),
    range("resistance_m2_k_per_w", "resistance", "m² K/W", 0.0, 10.0),
    range("u_w_per_m2_k", "U-value", "W/(m² K)", 0.05, 10.0),
    range("bridge_percent", "thermal bridges", "%", 0.0, 200.0),
    range("outline_along_m", "place along", "m", -1.0, 15.0),
    range("outline_up_m", "height or place across", "m", -0.5, 4.5),
    range("outline_width_m", "width", "m", 0.01, 6.0),
    range("outline_height_m", "height", "m", 0.01, 4.0),
    // equipment
    range(
        "rated_removal_l_per_day",
        "rated removal",
        "L/day",
        0.001,
        200.0,
    ),
    range(
        "rated_temperature_c",
        "rating temperature",
        "°C",
        -10.0,
        45.0,
    ),
    range(
        "rated_rh_percent",
        "rating relative humidity",
        "%",
        10.0,
        100.0,
    ),
    range("power_w", "power", "W", 0.0, 5000.0),
    range("airflow_m3_per_h", "own fan's flow", "m³/h", 0.0, 5000.0),
    range(
        "lowest_room_c",
        "lowest room temperature",
        "°C",
        -20.0,
        30.0,
    ),
    range("tub_area_m2", "tub surface", "m²", 0.0001, 5.0),
    range("point_temperature_c", "temperature", "°C", -10.0, 45.0),
    range("point_rh_percent", "relative humidity", "%", 1.0, 100.0),
    range("point_removal_l_per_day", "removal", "L/day", 0.0, 200.0),
    range("point_power_w", "power", "W", 0.0, 5000.0),
    range("rating_w", "rating", "W", 1.0, 30_000.0),
    range("set_point_c", "thermostat set point", "°C", -5.0, 40.0),
    range("fan_flow_m3_per_h", "flow", "m³/h", 0.0, 5000.0),
    range(
        "rate_g_per_h",
        "water given off by one",
        "g/h",
        0.0,
        10_000.0,
    ),
    range("hours_per_day", "hours a day", "h/day", 0.0, 24.0),
];

/// The range of a field, by its name.
#[must_use]
pub fn range_of(field: &str) -> Option<&'static FieldRange> {
    RANGES.iter().find(|range| range.field == field)
}

impl FieldRange {
    /// Whether the value is a number inside the range.
    #[must_use]
    pub fn allows(&self, value: f64) -> bool {
        value.is_finite() && (self.lowest..=self.highest).contains(&value)
    }

    /// The range in words: `0.5 to 15 m`.
    #[must_use]
    pub fn in_words(&self) -> String {
        let unit = if self.unit.is_empty() {
            String::new()
        } else {
            format!(" {}", self.unit)
        };
        format!("{} to {}{unit}", self.lowest, self.highest)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_field_stands_once_and_its_range_is_not_empty() {
        for (at, range) in RANGES.iter().enumerate() {
            assert!(range.lowest < range.highest, "{}", range.field);
            assert!(
                RANGES[..at].iter().all(|other| other.field != range.field),
                "{}",
                range.field
            );
        }
    }

    #[test]
    fn no_range_allows_what_is_not_a_number() {
        for range in RANGES {
            assert!(
                !range.allows(f64::NAN) && !range.allows(f64::INFINITY),
                "{}",
                range.field
            );
            assert!(
                range.allows(range.lowest) && range.allows(range.highest),
                "{}",
                range.field
            );
        }
    }
}
