//! Workings of water and heat.

use super::{Sheet, celsius, not_known, with_unit};
use crate::assess::answer::{Answer, Assessment, CaseAnswer, HeatNeed, RequiredRemoval, Working};
use crate::assess::fabric::{element_u, element_words, heat_flow};
use crate::assess::quantity::Kind;
use crate::physics::fabric::OUTSIDE_SURFACE_RESISTANCE;
use crate::physics::units::GRAMS_PER_HOUR;
use crate::survey::fabric::BuildUp;
use crate::survey::{FabricId, Survey, WeatherId};

fn case(assessment: &Assessment, id: WeatherId) -> Option<&CaseAnswer> {
    assessment.cases.iter().find(|answer| answer.id == id)
}

fn removal_words(removal: &RequiredRemoval) -> String {
    format!(
        "{} ({}) with the inside at {}",
        Kind::LitresPerDay.text(removal.l_per_day()),
        Kind::GramsPerHour.text(removal.g_per_h()),
        celsius(removal.inside_c)
    )
}

pub(super) fn removal(survey: &Survey, assessment: &Assessment, id: WeatherId) -> Option<Working> {
    let answer = case(assessment, id)?;
    let mut sheet = Sheet::new(
        format!("Water to remove, {}", answer.name),
        "D = max(0, S + m_da (Wₒ − W*)),  m_da = gross inflow/(1 + Wₒ)",
    );
    sheet.input("set-up", survey.set_up.name());
    sheet.typed("target relative humidity", survey.targets.rh_percent, "%");
    match &answer.drying {
        Ok(drying) => {
            sheet.number(
                "water given off inside S",
                drying.source_kg_s * GRAMS_PER_HOUR,
                3,
                "g/h",
            );
            for removal in [&drying.at_outside_temperature, &drying.at_set_temperature] {
                let at = celsius(removal.inside_c);
                sheet.kg_per_h(&format!("m_da at {at} inside"), removal.dry_air_kg_s);
                sheet.number(
                    &format!("W* at {at} inside"),
                    removal.target_humidity_ratio * 1000.0,
                    3,
                    "g/kg",
                );
            }
            sheet.number(
                "Wₒ outside",
                drying.at_outside_temperature.outside_humidity_ratio * 1000.0,
                3,
                "g/kg",
            );
            sheet.result(format!(
                "{}; {}",
                removal_words(&drying.at_outside_temperature),
                removal_words(&drying.at_set_temperature)
            ));
        }
        Err(reason) => sheet.unknown(reason),
    }
    sheet
        .note("steady load only: a damp vehicle gives off more for weeks")
        .read("moist air: ASHRAE Fundamentals 2017, chapter 1")
        .assumed("steady balance of water at the mean air flow over 16 wind directions");
    Some(sheet.finish())
}

pub(super) fn set_temperature(assessment: &Assessment, id: WeatherId) -> Option<Working> {
    let answer = case(assessment, id)?;
    let need = answer.heat.clone().map(|heat| heat.set_temperature);
    Some(heat_sheet(
        format!("Heat to hold the set temperature, {}", answer.name),
        assessment,
        &need,
    ))
}

pub(super) fn frost_guard(assessment: &Assessment, id: WeatherId) -> Option<Working> {
    let answer = case(assessment, id)?;
    let need = answer.heat.clone().map(|heat| heat.frost_guard);
    let title = format!(
        "Heat for frost guard, {} wind, design outside temperature",
        answer.name
    );
    let mut working = heat_sheet(title, assessment, &need);
    working
        .notes
        .push("draining the water system is the first advice".to_owned());
    Some(working)
}

fn heat_sheet(title: String, assessment: &Assessment, need: &Answer<HeatNeed>) -> Working {
    let mut sheet = Sheet::new(
        title,
        "heat = (m_da (1006 + 1860 Wₒ) + Σ U A) (Tᵢ − Tₒ), none where it is warmer outside",
    );
    match need {
        Ok(need) => {
            sheet.typed("inside Tᵢ", need.inside_c, "°C");
            sheet.typed("outside Tₒ", need.outside_c, "°C");
            sheet.kg_per_h("dry air m_da", need.dry_air_kg_s);
            if let Ok(fabric) = &assessment.fabric {
                sheet.number("Σ U A with thermal bridges", fabric.ua_w_per_k, 3, "W/K");
            }
            let air = Kind::Watts.text(need.air_w);
            match (&need.fabric_w, &need.total_w()) {
                (Ok(fabric), Ok(total)) => sheet.result(format!(
                    "{}: {air} with the air, {} through the fabric",
                    Kind::Watts.text(*total),
                    Kind::Watts.text(*fabric)
                )),
                (Err(reason), _) | (_, Err(reason)) => sheet.result(format!(
                    "{air} with the air; through the fabric {}",
                    not_known(reason)
                )),
            };
        }
        Err(reason) => sheet.unknown(reason),
    }
    sheet
        .read("rule of thumb for the air: 0.33 n V W/K")
        .memory("U-values: ISO 6946")
        .note("steady heat, without sun, people or machines")
        .finish()
}

pub(super) fn element(survey: &Survey, id: FabricId) -> Option<Working> {
    let element = survey.fabric.iter().find(|element| element.id == id)?;
    let mut sheet = Sheet::new(
        format!("U-value of {}", element_words(element)),
        "U = 1/(Rsi + Σ d/λ + Rse);  loss = U A (1 + bridges)",
    );
    if let BuildUp::Layers(layers) = &element.build_up {
        let inside = heat_flow(element.part).inside_surface_resistance();
        sheet.number("Rsi", inside, 2, "m² K/W");
        for layer in layers {
            let value = match (
                layer.resistance_m2_k_per_w,
                layer.thickness_mm,
                layer.conductivity_w_per_m_k,
            ) {
                (Some(resistance), _, _) => with_unit(resistance, 3, "m² K/W"),
                (None, Some(thickness), Some(conductivity)) => format!(
                    "{} / {}",
                    with_unit(thickness, 3, "mm"),
                    with_unit(conductivity, 3, "W/(m K)")
                ),
                _ => "not given".to_owned(),
            };
            sheet.input(&layer.material, value);
        }
        sheet.number("Rse", OUTSIDE_SURFACE_RESISTANCE, 2, "m² K/W");
    }
    if let Some(area) = element.area_m2 {
        sheet.typed("area A", area, "m²");
    }
    sheet.typed("thermal bridges", element.bridge_percent, "%");
    match (element_u(element), element.area_m2) {
        (Ok(u), Some(area)) => sheet.result(format!(
            "U {}; loss {}",
            with_unit(u, 3, "W/(m² K)"),
            with_unit(u * area * (1.0 + element.bridge_percent / 100.0), 3, "W/K")
        )),
        (Ok(u), None) => sheet.result(format!("U {}; area not given", with_unit(u, 3, "W/(m² K)"))),
        (Err(reason), _) => sheet.result(not_known(&reason)),
    };
    sheet
        .memory("ISO 6946; inside surface resistance 0.13 wall, 0.10 up, 0.17 down; outside 0.04 m² K/W")
        .assumed("thermal bridges 10 to 25 % for frames, ribs and wheel arches");
    Some(sheet.finish())
}
