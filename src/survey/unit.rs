//! The units that a number may be typed or shown in, and what each is of the coherent SI unit.
//!
//! One table for reading, for showing and for the conversions between. Factors: NIST Special
//! Publication 811, appendix B \[S\], each as the exact product of the inch (0.0254 m), the pound
//! (0.453 592 37 kg), the US gallon (231 cubic inches), and the International Table Btu
//! (1055.055 852 62 J).

use Dimension as D;

/// What a unit measures. Only units of one dimension are changed into each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Dimension {
    /// A length, m.
    Length,
    /// An area, m².
    Area,
    /// A volume, m³.
    Volume,
    /// A flow of air, m³/s.
    Flow,
    /// A flow of air by area, m/s.
    FlowByArea,
    /// A volume of water a day, m³/s.
    VolumeRate,
    /// A mass in time, kg/s.
    MassRate,
    /// A temperature, °C.
    Temperature,
    /// A difference of temperatures, K.
    Difference,
    /// A mass, kg.
    Mass,
    /// Power, W.
    Power,
    /// Energy, J.
    Energy,
    /// A speed, m/s.
    Speed,
    /// A pressure, Pa.
    Pressure,
    /// Thermal transmittance, W/(m² K).
    Transmittance,
    /// Thermal conductivity, W/(m K).
    Conductivity,
    /// Thermal resistance, m² K/W.
    Resistance,
    /// Heat loss for each degree, W/K.
    LossRate,
    /// Heat capacity, J/K.
    Capacity,
    /// A density, kg/m³.
    Density,
    /// Water in air, kg/kg.
    HumidityRatio,
    /// A share, percent.
    Share,
    /// An angle, degrees.
    Angle,
    /// A time, s.
    Time,
    /// A current, A.
    Current,
    /// Hours of a day.
    HoursADay,
    /// A price for energy.
    PriceOfEnergy,
    /// A price for mass.
    PriceOfMass,
    /// A price for volume.
    PriceOfVolume,
    /// A price for time.
    PriceOfTime,
}

/// A unit: how it is written, and what one of it is of the coherent unit of its dimension.
#[derive(Debug, PartialEq)]
pub struct Unit {
    /// What it measures.
    pub dimension: Dimension,
    /// As it is shown.
    pub symbol: &'static str,
    /// Other spellings that are read.
    pub spellings: &'static [&'static str],
    /// How many of the coherent unit it is.
    pub factor: f64,
    /// Where its zero lies, in the coherent unit: not 0 for degrees Fahrenheit alone.
    pub zero: f64,
}

impl Unit {
    /// A number of this unit in another of the same dimension, without noise of the last digits.
    #[must_use]
    pub fn to(&self, other: &Self, value: f64) -> f64 {
        if self.symbol == other.symbol {
            return value;
        }
        rounded(value.mul_add(self.factor, self.zero - other.zero) / other.factor)
    }
}

/// Twelve significant digits: `0.1+0.2` is 0.3.
pub(super) fn rounded(value: f64) -> f64 {
    format!("{value:.11e}").parse().unwrap_or(value)
}

/// The unit that is written so in the catalogue of fields and in results. Spaces that do not break
/// are as good as others.
#[must_use]
pub fn named(symbol: &str) -> Option<&'static Unit> {
    if symbol.is_empty() {
        return None;
    }
    let plain = symbol.replace(['\u{a0}', '\u{202f}'], " ");
    ALL.iter().find(|unit| unit.symbol == plain)
}

/// The unit in which US readers expect what is metric here; `None` for what they use too, such as
/// watts, kilowatt-hours and the pascals of a fan test.
#[must_use]
pub fn customary(metric: &Unit) -> Option<&'static Unit> {
    let (_, symbol) = CUSTOMARY
        .iter()
        .find(|(symbol, _)| *symbol == metric.symbol)?;
    let same = |unit: &&Unit| unit.dimension == metric.dimension && unit.symbol == *symbol;
    ALL.iter().find(same)
}

/// Every metric unit that has a customary one, and which. Watts stay: plug-in heaters, dryers and
/// batteries are rated in them in the United States as well, and a sum of heat and electric power
/// reads alike throughout. The heat input of gas appliances, rated in MJ/h, becomes BTU/h.
const CUSTOMARY: [(&str, &str); 27] = [
    ("mm", "in"),
    ("cm", "in"),
    ("m", "ft"),
    ("mm²", "in²"),
    ("cm²", "in²"),
    ("m²", "ft²"),
    ("m³", "ft³"),
    ("L", "pt"),
    ("m³/h", "cfm"),
    ("m³/(h m²)", "cfm/ft²"),
    ("L/day", "pt/day"),
    ("g/h", "oz/h"),
    ("kg/h", "lb/h"),
    ("°C", "°F"),
    ("K", "°F"),
    ("kg", "lb"),
    ("MJ/h", "BTU/h"),
    ("m/s", "mph"),
    ("W/(m² K)", "BTU/(h ft² °F)"),
    ("W/(m K)", "BTU in/(h ft² °F)"),
    ("m² K/W", "h ft² °F/BTU"),
    ("W/K", "BTU/(h °F)"),
    ("kJ/K", "BTU/°F"),
    ("g/kg", "gr/lb"),
    ("kg/m³", "lb/ft³"),
    ("/kg", "/lb"),
    ("/L", "/gal"),
];

const INCH: f64 = 0.0254;
const FOOT: f64 = 12.0 * INCH;
const MILE: f64 = 5280.0 * FOOT;
const POUND: f64 = 0.453_592_37;
const OUNCE: f64 = POUND / 16.0;
const GALLON: f64 = 231.0 * INCH * INCH * INCH;
const PINT: f64 = GALLON / 8.0;
const BTU: f64 = 1_055.055_852_62;
const HOUR: f64 = 3600.0;
const DAY: f64 = 86_400.0;
const RANKINE: f64 = 5.0 / 9.0;

const fn unit(
    dimension: Dimension,
    symbol: &'static str,
    spellings: &'static [&'static str],
    factor: f64,
) -> Unit {
    Unit {
        dimension,
        symbol,
        spellings,
        factor,
        zero: 0.0,
    }
}

/// Every unit. The first of a dimension are those that a message offers.
pub const ALL: &[Unit] = &[
    unit(
        D::Length,
        "mm",
        &["millimetre", "millimetres", "millimeter", "millimeters"],
        1e-3,
    ),
    unit(
        D::Length,
        "cm",
        &["centimetre", "centimetres", "centimeter", "centimeters"],
        1e-2,
    ),
    unit(D::Length, "m", &["metre", "metres", "meter", "meters"], 1.0),
    unit(
        D::Length,
        "in",
        &[
            "inch",
            "inches",
            "\"",
            "\u{201d}",
            "\u{2033}",
            "''",
            "\u{2019}\u{2019}",
        ],
        INCH,
    ),
    unit(
        D::Length,
        "ft",
        &["foot", "feet", "'", "\u{2019}", "\u{2032}"],
        FOOT,
    ),
    unit(D::Length, "dm", &[], 0.1),
    unit(D::Length, "km", &[], 1e3),
    unit(D::Length, "yd", &["yard", "yards"], 3.0 * FOOT),
    unit(D::Area, "mm²", &["mm2", "mm^2", "sq mm"], 1e-6),
    unit(D::Area, "cm²", &["cm2", "cm^2", "sq cm"], 1e-4),
    unit(D::Area, "m²", &["m2", "m^2", "sq m"], 1.0),
    unit(
        D::Area,
        "in²",
        &["in2", "in^2", "sq in", "sq. in", "sq. in."],
        INCH * INCH,
    ),
    unit(
        D::Area,
        "ft²",
        &["ft2", "ft^2", "sq ft", "sq. ft", "sq. ft."],
        FOOT * FOOT,
    ),
    unit(
        D::Volume,
        "L",
        &["litre", "litres", "liter", "liters"],
        1e-3,
    ),
    unit(D::Volume, "ml", &["millilitre", "millilitres"], 1e-6),
    unit(D::Volume, "m³", &["m3", "m^3"], 1.0),
    unit(
        D::Volume,
        "ft³",
        &["ft3", "ft^3", "cu ft", "cu. ft", "cu. ft."],
        FOOT * FOOT * FOOT,
    ),
    unit(D::Volume, "pt", &["pint", "pints"], PINT),
    unit(D::Volume, "qt", &["quart", "quarts"], GALLON / 4.0),
    unit(D::Volume, "gal", &["gallon", "gallons"], GALLON),
    unit(D::Flow, "m³/h", &["m3/h", "m^3/h"], 1.0 / HOUR),
    unit(D::Flow, "L/s", &[], 1e-3),
    unit(
        D::Flow,
        "cfm",
        &["ft³/min", "ft3/min", "ft^3/min", "cu ft/min"],
        FOOT * FOOT * FOOT / 60.0,
    ),
    unit(D::Flow, "L/min", &[], 1e-3 / 60.0),
    unit(D::Flow, "m³/s", &["m3/s", "m^3/s"], 1.0),
    unit(D::FlowByArea, "m³/(h m²)", &[], 1.0 / HOUR),
    unit(D::FlowByArea, "cfm/ft²", &["cfm/ft2"], FOOT / 60.0),
    unit(D::VolumeRate, "L/day", &["L/d"], 1e-3 / DAY),
    unit(D::VolumeRate, "ml/day", &["ml/d"], 1e-6 / DAY),
    unit(D::VolumeRate, "pt/day", &["pints/day", "pt/d"], PINT / DAY),
    unit(
        D::VolumeRate,
        "gal/day",
        &["gallons/day", "gal/d"],
        GALLON / DAY,
    ),
    unit(D::MassRate, "g/h", &[], 1e-3 / HOUR),
    unit(D::MassRate, "kg/h", &[], 1.0 / HOUR),
    unit(D::MassRate, "oz/h", &[], OUNCE / HOUR),
    unit(D::MassRate, "lb/h", &[], POUND / HOUR),
    unit(D::MassRate, "kg/day", &["kg/d"], 1.0 / DAY),
    unit(D::MassRate, "kg/s", &[], 1.0),
    unit(D::Temperature, "°C", &["C", "ºC"], 1.0),
    Unit {
        dimension: D::Temperature,
        symbol: "°F",
        spellings: &["F", "ºF"],
        factor: RANKINE,
        // 32 °F is 0 °C.
        zero: -32.0 * RANKINE,
    },
    unit(D::Difference, "K", &["°C", "ºC", "C"], 1.0),
    // As wide as a degree Fahrenheit, and said so, so that a difference is never read as a reading.
    unit(D::Difference, "°F", &["ºF", "F"], RANKINE),
    unit(D::Mass, "kg", &["kilo", "kilos"], 1.0),
    unit(D::Mass, "g", &["gram", "grams"], 1e-3),
    unit(D::Mass, "lb", &["lbs", "pound", "pounds"], POUND),
    unit(D::Mass, "oz", &["ounce", "ounces"], OUNCE),
    unit(D::Power, "W", &["watt", "watts"], 1.0),
    unit(D::Power, "kW", &[], 1e3),
    unit(D::Power, "MJ/h", &[], 1e6 / HOUR),
    unit(D::Power, "BTU/h", &["BTUH", "BTU/hr"], BTU / HOUR),
    unit(D::Energy, "Wh", &[], HOUR),
    unit(D::Energy, "kWh", &[], 1e3 * HOUR),
    unit(D::Speed, "m/s", &[], 1.0),
    unit(D::Speed, "km/h", &["kmh", "kph"], 1e3 / HOUR),
    unit(D::Speed, "mph", &[], MILE / HOUR),
    unit(D::Speed, "kn", &["knots", "knot", "kt"], 1852.0 / HOUR),
    unit(D::Pressure, "Pa", &[], 1.0),
    unit(D::Pressure, "hPa", &["mbar"], 100.0),
    unit(D::Pressure, "kPa", &[], 1e3),
    unit(
        D::Pressure,
        "inH2O",
        &["in wc", "in w.c.", "inH₂O"],
        249.088_91,
    ),
    unit(
        D::Transmittance,
        "W/(m² K)",
        &["W/m²K", "W/m2K", "W/(m²K)", "W/(m2K)", "W/(m2 K)"],
        1.0,
    ),
    unit(
        D::Transmittance,
        "BTU/(h ft² °F)",
        &["BTU/(h ft2 °F)", "BTU/h ft² °F"],
        BTU / HOUR / (FOOT * FOOT) / RANKINE,
    ),
    unit(D::Conductivity, "W/(m K)", &["W/mK", "W/(mK)"], 1.0),
    unit(
        D::Conductivity,
        "BTU in/(h ft² °F)",
        &["BTU in/(h ft2 °F)"],
        BTU / HOUR * INCH / (FOOT * FOOT) / RANKINE,
    ),
    unit(D::Resistance, "m² K/W", &["m2 K/W", "m²K/W", "m2K/W"], 1.0),
    unit(
        D::Resistance,
        "h ft² °F/BTU",
        &["h ft2 °F/BTU", "ft² °F h/BTU"],
        FOOT * FOOT * RANKINE * HOUR / BTU,
    ),
    unit(D::LossRate, "W/K", &[], 1.0),
    unit(D::LossRate, "BTU/(h °F)", &[], BTU / HOUR / RANKINE),
    unit(D::Capacity, "kJ/K", &[], 1e3),
    unit(D::Capacity, "BTU/°F", &[], BTU / RANKINE),
    unit(D::Density, "kg/m³", &["kg/m3"], 1.0),
    unit(
        D::Density,
        "lb/ft³",
        &["lb/ft3"],
        POUND / (FOOT * FOOT * FOOT),
    ),
    unit(D::HumidityRatio, "g/kg", &[], 1e-3),
    unit(D::HumidityRatio, "gr/lb", &[], 1.0 / 7000.0),
    unit(D::Share, "%", &["percent", "per cent"], 1.0),
    unit(D::Angle, "°", &["deg", "degrees"], 1.0),
    unit(D::Time, "min", &["minute", "minutes"], 60.0),
    unit(D::Time, "h", &["hour", "hours"], HOUR),
    unit(D::Current, "A", &["amp", "amps"], 1.0),
    unit(D::HoursADay, "h/day", &["h", "hours", "h/d"], 1.0),
    unit(D::HoursADay, "min/day", &["min", "minutes"], 1.0 / 60.0),
    unit(D::PriceOfEnergy, "/kWh", &[], 1.0),
    unit(D::PriceOfMass, "/kg", &[], 1.0),
    unit(D::PriceOfMass, "/lb", &[], 1.0 / POUND),
    unit(D::PriceOfVolume, "/L", &[], 1.0 / 1e-3),
    unit(D::PriceOfVolume, "/gal", &[], 1.0 / GALLON),
    unit(D::PriceOfTime, "/h", &[], 1.0),
];
