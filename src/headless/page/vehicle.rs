//! What was surveyed, where it stands, and which set-up the results are for.

use super::layout::{Page, pad_right};
use super::words::{compass, figure, given, given_or_query, shelter, terrain};
use crate::assess::Assessment;
use crate::physics::pressure_coefficient::PressureSet;
use crate::survey::{SetUp, Survey};

const LABEL: usize = 12;

pub(super) fn print(page: &mut Page, survey: &Survey, assessment: &Assessment) {
    page.heading("Vehicle and set-up");
    let mut entry = |label: &str, text: String| {
        if !text.trim().is_empty() {
            page.hanging(&pad_right(label, LABEL), &text);
        }
    };
    let header = &survey.header;
    entry("scene", header.scene.clone());
    let by: Vec<&str> = [&header.surveyor, &header.date, &header.reference]
        .into_iter()
        .map(|text| text.trim())
        .filter(|text| !text.is_empty())
        .collect();
    entry("surveyed", by.join(", "));
    entry("vehicle", vehicle(survey));
    entry(
        "inside",
        match &assessment.volume_m3 {
            Ok(volume) => format!(
                "{} m³ gross volume; fitted furniture is not deducted",
                figure(*volume, 3)
            ),
            Err(unknown) => format!("gross volume not known: {}", unknown.reason),
        },
    );
    entry("stands", stands(survey));
    entry("set-up", set_up(assessment.set_up));
    entry("note", header.note.clone());
}

fn vehicle(survey: &Survey) -> String {
    let vehicle = &survey.vehicle;
    format!(
        "{}, {} × {} m outside; floor {} m and roof {} m above ground{}; {} berths",
        vehicle.kind.name(),
        given_or_query(vehicle.length_m),
        given_or_query(vehicle.width_m),
        given_or_query(vehicle.floor_height_m),
        given_or_query(vehicle.height_m),
        if vehicle.skirted { ", skirted" } else { "" },
        vehicle.berths
    )
}

fn stands(survey: &Survey) -> String {
    let site = &survey.site;
    let (terrain, shelter) = (terrain(site.terrain), shelter(site.shelter));
    let set = match site.pressure_set {
        PressureSet::LowRise => "low-rise",
        PressureSet::WallAverage => "wall-average",
    };
    let heading = site.heading_deg.map_or_else(
        || "heading not known".to_owned(),
        |heading| format!("front to {}", compass(heading)),
    );
    format!(
        "{terrain}, {shelter}; {heading}; {} m above sea level; {set} pressure coefficients",
        given(site.altitude_m)
    )
}

fn set_up(set_up: SetUp) -> String {
    let other = match set_up {
        SetUp::LaidUp => "in-use",
        SetUp::InUse => "laid-up",
    };
    format!(
        "{}: every figure below is for closable gaps, fans and moisture sources as they are then; \
         `--set-up {other}` shows the other set-up",
        set_up.name().to_uppercase()
    )
}
