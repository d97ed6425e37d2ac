//! Headings as they are met, by what decides of each.

use super::*;
use proptest::prelude::*;

fn taken(heading: &str) -> Option<(What, Option<Unit>)> {
    said(heading).map(|said| (said.what, said.unit))
}

#[test]
fn the_name_of_a_sensor_is_not_taken_for_a_sign_that_stands_within_it() {
    for (temperature, humidity, sensor) in [
        ("T out", "RH out", "out"),
        ("Cab °C", "Cab % RH", "Cab"),
        ("Attic (C)", "Attic RH (%)", "Attic"),
        ("front locker °F", "front locker humidity %", "front locker"),
        ("Temperature shed", "Relative humidity shed", "shed"),
        ("T", "RH", ""),
        ("T1 [°C]", "RH1 %", "1"),
        ("living_t_c", "living_rh", "living"),
        ("Wohnraum Temperatur °C", "Wohnraum Feuchte %", "Wohnraum"),
        ("BaroTemp (°C)", "Baro RH (%)", "Baro"),
        ("BedroomTemp", "BedroomRH", "Bedroom"),
    ] {
        for heading in [temperature, humidity] {
            match says(heading) {
                Says::Readings(said) => assert_eq!(said.sensor, sensor, "{heading}"),
                other => panic!("{heading}: {other:?}"),
            }
        }
    }
}

#[test]
fn a_letter_within_a_name_is_no_unit() {
    for heading in [
        "temp_front (°C)",
        "van_temp_fridge °C",
        "temp_floor_c",
        "front_temp_c",
        "T_degC",
        "T/°C",
        "CH1(℃)",
        "Temp, °C",
        "Temp_C",
        "temp_1_c",
        "Temp (&deg;C)",
        "Shed temperature F1 (°C)",
    ] {
        assert_eq!(
            taken(heading),
            Some((What::Temperature, Some(Unit::Celsius))),
            "{heading}"
        );
    }
    for heading in [
        "temp_front",
        "Temperature_Freezer",
        "temp_fridge",
        "Temp sensor F",
    ] {
        assert_eq!(taken(heading), Some((What::Temperature, None)), "{heading}");
    }
    for heading in [
        "Temp degF",
        "TempF",
        "Temperature F",
        "Temp/F",
        "Temp (℉)",
        "Temp, F",
        "Temp (*F)",
        "temp_f",
        "temp_front_f",
        "Outdoor_Temperature_Fahrenheit",
        "T_F_Avg",
        "Temp (deg F)",
        "tempf",
        "T.ext °F",
    ] {
        assert_eq!(
            taken(heading),
            Some((What::Temperature, Some(Unit::Fahrenheit))),
            "{heading}"
        );
    }
}

#[test]
fn what_a_word_can_also_mean_does_not_take_a_column_away() {
    for (heading, what) in [
        ("Wet bay temp (°C)", What::Temperature),
        ("Dry bulb temperature (°C)", What::Temperature),
        ("Set 1 temp (°C)", What::Temperature),
        ("A/C temp (°C)", What::Temperature),
        ("Temp (min)", What::Temperature),
        ("temp.in", What::Temperature),
        ("Hum.Int %", What::RelativeHumidity),
        ("Battery box humidity (%)", What::RelativeHumidity),
        ("Temp (max)", What::Temperature),
        ("Current humidity", What::RelativeHumidity),
        ("Humidity level", What::RelativeHumidity),
        ("Battery box humidity", What::RelativeHumidity),
        ("Position 1 RH", What::RelativeHumidity),
        ("Cloud RH (%)", What::RelativeHumidity),
        ("CO2 level", What::CarbonDioxide),
        ("Solar radiation (W/m²)", What::Global),
        ("絶対湿度", What::AbsoluteHumidity),
        ("Абсолютная влажность", What::AbsoluteHumidity),
        ("Точка росы, °C", What::DewPoint),
        ("露点温度(℃)", What::DewPoint),
    ] {
        assert_eq!(
            taken(heading).map(|(what, _)| what),
            Some(what),
            "{heading}"
        );
    }
}

#[test]
fn of_two_units_none_is_taken_for_said() {
    match says("Temp °C/°F") {
        Says::Readings(said) => {
            assert_eq!((said.unit, said.doubt), (None, Some(Doubt::TwoUnits)));
        }
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_unit_decides_before_the_name_of_what_was_measured() {
    for name in [
        "Sidewall",
        "Window",
        "Windscreen",
        "Roof vent",
        "Compressor",
        "Dehumidifier outlet",
        "Event",
        "Espresso",
        "Diffuser",
        "Cloud",
        "Ventilraum",
        "Drucktank",
        "Global",
        "Solar radiator",
        "24 hr",
        "RF probe",
        "TD probe 1",
        "Barometer",
        "AH battery",
        "CO2 sensor",
    ] {
        let heading = format!("{name} temp (°C)");
        assert_eq!(
            taken(&heading),
            Some((What::Temperature, Some(Unit::Celsius))),
            "{heading}"
        );
        let heading = format!("{name} Temp");
        assert_eq!(
            taken(&heading),
            Some((What::Temperature, None)),
            "{heading}"
        );
        let heading = format!("{name} RH (%)");
        assert_eq!(
            taken(&heading),
            Some((What::RelativeHumidity, Some(Unit::Percent))),
            "{heading}"
        );
    }
}

#[test]
fn humidity_is_known_in_many_languages_and_short_forms() {
    for heading in [
        "Hum(%)",
        "H [%]",
        "RH1 %",
        "UR %",
        "Hum. rel. %",
        "Umid. rel. (%)",
        "RelH (%)",
        "Hrel (%)",
        "rel.F [%]",
        "rLF [%]",
        "%",
        "Wilgotność (%)",
        "Vlhkost (%)",
        "Luftfuktighet (%)",
        "Umidade (%)",
        "Hygrométrie (%)",
        "Moisture (%)",
        "Влажность, %",
        "湿度(%)",
        "湿度(%RH)",
        "%rH",
        "Hr (%)",
        "Luftfeuchtigkeit (%)",
        "rel. Feuchte % rF",
        "Vochtigheid %",
        "Kosteus %",
        "RH (sensor 2) %",
        "RH pct",
        "RH/%",
        "RH, %",
        "HR %",
        "RF %",
    ] {
        assert_eq!(
            taken(heading),
            Some((What::RelativeHumidity, Some(Unit::Percent))),
            "{heading}"
        );
    }
    for heading in [
        "hum",
        "Humedad",
        "RH",
        "HR",
        "RF",
        "rel. Feuchte",
        "Umidità relativa",
    ] {
        assert_eq!(
            taken(heading),
            Some((What::RelativeHumidity, None)),
            "{heading}"
        );
    }
    assert_eq!(
        taken("RH (0-1)"),
        Some((What::RelativeHumidity, Some(Unit::Share)))
    );
}

#[test]
fn a_dew_point_is_never_a_temperature() {
    for heading in [
        "Dauwpunt (°C)",
        "Punkt rosy (°C)",
        "Ponto de orvalho (°C)",
        "Daggpunkt (°C)",
        "Dugpunkt °C",
        "Punto de rocio (°C)",
        "Punto de rocío (°C)",
        "Punto di rugiada (°C)",
        "Point de rosée °C",
        "Taupunkt [°C]",
        "DP (°C)",
        "Frost point (°C)",
        "Kastepiste (°C)",
        "Rosný bod (°C)",
        "T tau °C",
        "Tdew (°C)",
        "DewPt_C",
        "Td (°C)",
        "T_dp (°C)",
        "dpt [°C]",
        "Dew point temperature (°C)",
        "dew_point_2m (°C)",
    ] {
        assert_eq!(
            taken(heading),
            Some((What::DewPoint, Some(Unit::Celsius))),
            "{heading}"
        );
    }
}

#[test]
fn absolute_humidity_is_no_relative_one() {
    for heading in [
        "Absolute humidity (g/m³)",
        "AH",
        "Absolute Feuchte [g/m³]",
        "Humidité absolue (g/m3)",
        "Humedad absoluta",
        "Umidità assoluta",
        "abs. Luftfeuchte",
        "Abs humidity g/m^3",
        "Abs_humidity_gm3",
        "Humidité absolue",
        "abs. Feuchte (g/m3)",
        "Humidity (g/m³)",
        "Water vapour g·m⁻³",
    ] {
        let found = taken(heading).map(|(what, _)| what);
        assert_eq!(found, Some(What::AbsoluteHumidity), "{heading}");
    }
}

#[test]
fn what_is_no_quantity_of_ours_is_not_taken() {
    for heading in [
        "Elapsed (hr)",
        "Temps écoulé (min)",
        "Tempo (s)",
        "Event count",
        "Window open",
        "RF level (dBm)",
        "VOC (ppm)",
        "CO (ppm)",
        "Dehumidifier power (W)",
        "VPD (kPa)",
        "Vapour pressure (hPa)",
        "Mixing ratio (g/kg)",
        "Specific humidity (g/kg)",
        "Humidex (°C)",
        "Heat index (°C)",
        "Wet bulb (°C)",
        "Battery level %",
        "Acceleration (m/s²)",
        "Soil moisture %",
        "Wood moisture (%)",
        "Holzfeuchte (%)",
        "Temp max alarm (°C)",
        "Vent position",
        "Compressor on",
        "Attempts",
        "PM2.5 (µg/m³)",
        "Enthalpy (kJ/kg)",
        "Light (lux)",
        "Precipitation (mm)",
        "Temperature setpoint (°C)",
        "Battery (V)",
        "No.",
        "Speed (km/h)",
        "Fan %",
        "Humidifier on",
        "Tyre pressure (bar)",
        "A/C",
        "A/C on",
        "Room F",
        "Sensors A, F",
        "Battery Ah",
        "Humidity ratio",
        "Humidity battery (%)",
        "RH sensor battery level %",
        "Humidity battery",
        "Wind chill (°C)",
        "Set temp (°C)",
        "dT (°C)",
        "Bulbo umido (°C)",
        "Solar",
        "",
    ] {
        assert_eq!(taken(heading), None, "{heading}");
    }
}

#[test]
fn a_unit_that_is_not_read_is_not_taken_for_another() {
    for (heading, unit) in [
        ("Temperature (K)", "K"),
        ("T [Kelvin]", "Kelvin"),
        ("Pressure (kPa)", "kPa"),
        ("Pressure (inHg)", "inHg"),
        ("Pressure (bar)", "bar"),
        ("Pressure psi", "psi"),
        ("Temp (m°C)", "m°C"),
        ("Temp (0.1 °C)", "0.1 °C"),
        ("RH (0.1 %)", "0.1 %"),
    ] {
        assert_eq!(
            says(heading),
            Says::StrangeUnit(unit.to_owned()),
            "{heading}"
        );
    }
}

#[test]
fn other_quantities_keep_their_words() {
    for (heading, what, unit) in [
        ("Pressure (hPa)", What::Pressure, Some(Unit::Hectopascal)),
        ("Pressure [Pa]", What::Pressure, Some(Unit::Pascal)),
        ("Luftdruck mbar", What::Pressure, Some(Unit::Hectopascal)),
        ("press_panel_hpa", What::Pressure, Some(Unit::Hectopascal)),
        (
            "Pressure patio (hPa)",
            What::Pressure,
            Some(Unit::Hectopascal),
        ),
        ("Baro mmHg", What::Pressure, Some(Unit::MmOfMercury)),
        ("Pressure", What::Pressure, None),
        ("Wind km/h", What::Wind, Some(Unit::KilometresPerHour)),
        ("wind_m_s", What::Wind, Some(Unit::MetresPerSecond)),
        (
            "wind_speed_10m (km/h)",
            What::Wind,
            Some(Unit::KilometresPerHour),
        ),
        (
            "Vitesse du vent (m/s)",
            What::Wind,
            Some(Unit::MetresPerSecond),
        ),
        ("Wind dir °", What::WindDirection, Some(Unit::Degrees)),
        (
            "wind direction (°)",
            What::WindDirection,
            Some(Unit::Degrees),
        ),
        ("CO2 (ppm)", What::CarbonDioxide, Some(Unit::Ppm)),
        ("CO₂", What::CarbonDioxide, None),
        (
            "global radiation (W/m²)",
            What::Global,
            Some(Unit::WattsPerM2),
        ),
        (
            "diffuse radiation (W/m²)",
            What::Diffuse,
            Some(Unit::WattsPerM2),
        ),
        (
            "direct normal irradiance (W/m²)",
            What::Direct,
            Some(Unit::WattsPerM2),
        ),
        ("cloud cover (%)", What::CloudCover, Some(Unit::Percent)),
    ] {
        assert_eq!(taken(heading), Some((what, unit)), "{heading}");
    }
}

#[test]
fn a_heading_of_any_length_is_read_at_once() {
    for word in ["Temp", "T/", "(", "°", "%", "a_", "TempC"] {
        let _ = says(&word.repeat(50_000));
    }
}

proptest! {
    #[test]
    fn no_heading_and_no_cell_brings_the_reader_down(
        text in "[ -~°℃µ²³−é\u{130}\u{307}温度%/()_,.0-9TCFhRtempabs]{0,60}"
    ) {
        let _ = (says(&text), behind(&text), zone(&text));
        let cells = |line: &str| line.split(',').map(str::to_owned).collect();
        let lines: Vec<Vec<String>> = text.split('a').map(cells).collect();
        let _ = headings(&lines, 3);
    }
}
