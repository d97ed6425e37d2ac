//! Findings about the vehicle, its site, weather, targets, prices and fabric.

use super::{Finder, Finding, Item, Severity, called};
use crate::survey::fabric::{BuildUp, FabricElement, Layer};
use crate::survey::{InsideAir, Survey, WeatherCase};

pub(super) fn find(survey: &Survey, findings: &mut Vec<Finding>) {
    header(survey, findings);
    size(survey, findings);
    site(survey, findings);
    if survey.weather.is_empty() {
        Finder {
            findings,
            item: Item::Site,
            subject: String::new(),
        }
        .add(
            Severity::Error,
            "",
            "there is no weather case, so there is no air change to work out",
            "add at least one weather case, such as still: 0 m/s",
        );
    }
    for case in &survey.weather {
        weather(case, findings);
    }
    weights(survey, findings);
    for element in &survey.fabric {
        fabric(element, findings);
    }
}

fn header(survey: &Survey, findings: &mut Vec<Finding>) {
    let mut finder = Finder {
        findings,
        item: Item::Header,
        subject: String::new(),
    };
    if !is_date_or_empty(&survey.header.date) {
        finder.add(
            Severity::Warning,
            "date",
            format!(
                "the survey date \u{201c}{}\u{201d} is not a date",
                survey.header.date
            ),
            "write it as year-month-day, for example 2026-01-31",
        );
    }
}

/// Whether the text is empty or a calendar date `YYYY-MM-DD`.
pub(super) fn is_date_or_empty(text: &str) -> bool {
    if text.is_empty() {
        return true;
    }
    let parts: Vec<&str> = text.split('-').collect();
    let [year, month, day] = parts.as_slice() else {
        return false;
    };
    let digits =
        |part: &str, length| part.len() == length && part.bytes().all(|byte| byte.is_ascii_digit());
    if !(digits(year, 4) && digits(month, 2) && digits(day, 2)) {
        return false;
    }
    let (Ok(year), Ok(month), Ok(day)) = (
        year.parse::<u32>(),
        month.parse::<u32>(),
        day.parse::<u32>(),
    ) else {
        return false;
    };
    let leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
    let days = match month {
        1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
        4 | 6 | 9 | 11 => 30,
        2 if leap => 29,
        2 => 28,
        _ => return false,
    };
    (1..=days).contains(&day)
}

fn size(survey: &Survey, findings: &mut Vec<Finding>) {
    let vehicle = &survey.vehicle;
    let mut finder = Finder {
        findings,
        item: Item::Vehicle,
        subject: String::from("vehicle"),
    };
    finder.check("length_m", vehicle.length_m);
    finder.check("width_m", vehicle.width_m);
    finder.check("height_m", vehicle.height_m);
    finder.check("floor_height_m", vehicle.floor_height_m);
    finder.check("inside_length_m", vehicle.inside_length_m);
    finder.check("inside_width_m", vehicle.inside_width_m);
    finder.check("inside_height_m", vehicle.inside_height_m);
    finder.check("volume_m3", vehicle.volume_m3);
    finder.check("berths", f64::from(vehicle.berths));
    for (field, value) in [("length_m", vehicle.length_m), ("width_m", vehicle.width_m)] {
        finder.need(
            Severity::Warning,
            field,
            value,
            "wind on the faces and the ventilation table cannot be worked out",
        );
    }
    for (field, value) in [
        ("height_m", vehicle.height_m),
        ("floor_height_m", vehicle.floor_height_m),
    ] {
        finder.need(
            Severity::Warning,
            field,
            value,
            "the air change cannot be worked out",
        );
    }
    let volume = vehicle.gross_volume_m3();
    if volume.is_none() {
        finder.need(
            Severity::Warning,
            "volume_m3",
            volume,
            "nor are all three inside sizes, so air changes per hour are not known",
        );
    }
    if let (Some(height), Some(floor)) = (vehicle.height_m, vehicle.floor_height_m)
        && height <= floor
    {
        finder.add(
            Severity::Error,
            "height_m",
            format!("the roof ({height} m above ground) is not above the floor ({floor} m)"),
            "measure both from the ground",
        );
    }
    if vehicle.has_starting_sizes() {
        finder.add(
            Severity::Note,
            "length_m",
            format!(
                "the sizes are usual ones of a {}, not measured",
                vehicle.kind.name()
            ),
            "measure the vehicle and write its own sizes over them",
        );
    }
    outside_volume(survey, findings);
}

fn outside_volume(survey: &Survey, findings: &mut Vec<Finding>) {
    let vehicle = &survey.vehicle;
    let mut finder = Finder {
        findings,
        item: Item::Vehicle,
        subject: String::from("vehicle"),
    };
    let outside = (|| {
        let height = vehicle.height_m? - vehicle.floor_height_m?;
        Some(vehicle.length_m? * vehicle.width_m? * height)
    })();
    if let (Some(volume), Some(outside)) = (vehicle.gross_volume_m3(), outside)
        && volume > outside
        && outside > 0.0
    {
        finder.add(
            Severity::Warning,
            "volume_m3",
            format!("the inside volume, {volume:.1} m³, is more than the outside sizes hold, {outside:.1} m³"),
            "check the inside and outside sizes",
        );
    }
}

fn site(survey: &Survey, findings: &mut Vec<Finding>) {
    let mut finder = Finder {
        findings,
        item: Item::Site,
        subject: String::from("site"),
    };
    finder.check("heading_deg", survey.site.heading_deg);
    finder.check("altitude_m", survey.site.altitude_m);
    finder.check("prevailing_wind_deg", survey.site.prevailing_wind_deg);
    let targets = &survey.targets;
    let mut finder = Finder {
        findings,
        item: Item::Targets,
        subject: String::from("targets"),
    };
    finder.check("rh_percent", targets.rh_percent);
    finder.check("set_temperature_c", targets.set_temperature_c);
    finder.check("frost_guard_c", targets.frost_guard_c);
    finder.check("comfort_c", targets.comfort_c);
    finder.check("design_outside_c", targets.design_outside_c);
    let tariffs = &survey.tariffs;
    let mut finder = Finder {
        findings,
        item: Item::Tariffs,
        subject: String::from("prices"),
    };
    finder.check("electricity_per_kwh", tariffs.electricity_per_kwh);
    finder.check("gas_per_kg", tariffs.gas_per_kg);
    finder.check("liquid_fuel_per_l", tariffs.liquid_fuel_per_l);
    finder.check("workshop_per_hour", tariffs.workshop_per_hour);
    finder.check("tax_percent", tariffs.tax_percent);
    drying(survey, findings);
}

fn drying(survey: &Survey, findings: &mut Vec<Finding>) {
    let drying = &survey.drying;
    let mut finder = Finder {
        findings,
        item: Item::Drying,
        subject: String::from("drying"),
    };
    finder.check("sun_w", drying.sun_w);
    finder.check("contents_kg", drying.contents_kg);
    finder.check(
        "contents_moisture_percent",
        drying.contents_moisture_percent,
    );
    finder.check("heat_capacity_kj_per_k", drying.heat_capacity_kj_per_k);
    finder.check("salt_kg", drying.salt_kg);
    finder.check("hookup_a", drying.hookup_a);
    finder.check("battery_wh", drying.battery_wh);
    let missing = match (drying.contents_kg, drying.contents_moisture_percent) {
        (Some(_), None) => "contents_moisture_percent",
        (None, Some(_)) => "contents_kg",
        _ => return,
    };
    let both = "the time to dry out needs the mass of the contents and their moisture";
    finder.need(Severity::Note, missing, None, both);
}

fn weather(case: &WeatherCase, findings: &mut Vec<Finding>) {
    let subject = called("weather case", &case.name);
    let mut finder = Finder {
        findings,
        item: Item::Weather(case.id),
        subject,
    };
    finder.check("wind_m_s", case.wind_m_s);
    finder.check("outside_c", case.outside_c);
    finder.check("outside_rh_percent", case.outside_rh_percent);
    finder.check("inside_rh_percent", case.inside_rh_percent);
    finder.check("weight", case.weight);
    match case.inside {
        InsideAir::WarmerBy { kelvin } => finder.check("kelvin", kelvin),
        InsideAir::HeldAt { temperature_c } => finder.check("temperature_c", temperature_c),
    }
}

fn weights(survey: &Survey, findings: &mut Vec<Finding>) {
    let total: f64 = survey.weather.iter().map(|case| case.weight).sum();
    if !survey.weather.is_empty() && total <= 0.0 {
        let mut finder = Finder {
            findings,
            item: Item::Site,
            subject: String::from("weather"),
        };
        finder.add(
            Severity::Error,
            "weight",
            "the weights of all weather cases together are zero",
            "give at least one case a weight above zero",
        );
    }
}

fn fabric(element: &FabricElement, findings: &mut Vec<Finding>) {
    let subject = called(element.part.name(), &element.name);
    let mut finder = Finder {
        findings,
        item: Item::Fabric(element.id),
        subject,
    };
    finder.check("area_m2", element.area_m2);
    finder.check("bridge_percent", element.bridge_percent);
    finder.need(
        Severity::Warning,
        "area_m2",
        element.area_m2,
        "the heat through the fabric is not known",
    );
    match &element.build_up {
        BuildUp::Stated { u_w_per_m2_k } => {
            finder.check("u_w_per_m2_k", *u_w_per_m2_k);
            finder.need(
                Severity::Warning,
                "u_w_per_m2_k",
                *u_w_per_m2_k,
                "the heat through the fabric is not known",
            );
        }
        BuildUp::Layers(layers) => {
            if layers.is_empty() {
                finder.add(
                    Severity::Warning,
                    "",
                    "it has no layers, so the heat through it is not known",
                    "add its layers from outside to inside, or state a U-value",
                );
            }
            for layer in layers {
                check_layer(&mut finder, layer);
            }
        }
    }
    if let Some(outline) = &element.outline {
        finder.check("outline_along_m", outline.along_m);
        finder.check("outline_up_m", outline.up_m);
        finder.check("outline_width_m", outline.width_m);
        finder.check("outline_height_m", outline.height_m);
    }
}

fn check_layer(finder: &mut Finder<'_>, layer: &Layer) {
    finder.check("thickness_mm", layer.thickness_mm);
    finder.check("conductivity_w_per_m_k", layer.conductivity_w_per_m_k);
    finder.check("resistance_m2_k_per_w", layer.resistance_m2_k_per_w);
    let by_thickness = layer.thickness_mm.is_some() && layer.conductivity_w_per_m_k.is_some();
    match (by_thickness, layer.resistance_m2_k_per_w.is_some()) {
        (false, false) => finder.add(
            Severity::Warning,
            "resistance_m2_k_per_w",
            format!(
                "{} has neither thickness and conductivity nor a resistance",
                called("layer", &layer.material)
            ),
            "enter thickness in mm and conductivity in W/(m K), or a resistance for an air gap",
        ),
        (true, true) => finder.add(
            Severity::Note,
            "resistance_m2_k_per_w",
            format!(
                "{} states a resistance besides its thickness and conductivity; the resistance is used",
                called("layer", &layer.material)
            ),
            "clear the one that is not meant",
        ),
        _ => {}
    }
}

#[cfg(test)]
mod tests {
    use crate::survey::fabric::{BuildUp, FabricElement, FabricPart};
    use crate::survey::findings::find;
    use crate::survey::{FabricId, Survey, VehicleKind};

    #[test]
    fn an_element_without_a_name_is_called_so() {
        let mut survey = Survey::new(VehicleKind::Other);
        survey.fabric.push(FabricElement {
            id: FabricId(1),
            name: " ".to_owned(),
            part: FabricPart::Wall,
            area_m2: None,
            build_up: BuildUp::Layers(Vec::new()),
            bridge_percent: 0.0,
            outline: None,
        });
        let sentence = |survey: &Survey| {
            let found = find(survey);
            let of_area = found.iter().find(|one| one.place.field == "area_m2");
            of_area.map(|one| one.sentence.clone()).unwrap_or_default()
        };
        let unnamed = sentence(&survey);
        assert!(unnamed.starts_with("wall without a name: "), "{unnamed}");
        survey.fabric[0].name = "front".to_owned();
        let named = sentence(&survey);
        assert!(named.starts_with("wall \u{201c}front\u{201d}: "), "{named}");
    }
}
