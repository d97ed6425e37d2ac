use super::*;
use crate::survey::{
    Appliance, ApplianceId, ApplianceKind, BuildUp, Edit, FabricId, History, InsideAir, Record,
    Site, Survey, WeatherCase,
};

fn filled(kind: VehicleKind) -> Survey {
    let mut survey = Survey::starting(kind);
    survey
        .apply(Edit::Usual(TypicalWinter::Continental))
        .unwrap();
    survey
}

#[test]
fn areas_are_those_of_walls_roof_and_floor_and_build_ups_those_of_the_library() {
    for kind in VehicleKind::ALL {
        let mut survey = Survey::starting(kind);
        let vehicle = &mut survey.vehicle;
        // 2 (6 + 2.2)(2.7 − 0.6) + 2 × 6 × 2.2 = 34.44 + 26.4, by hand.
        (vehicle.length_m, vehicle.width_m) = (Some(6.0), Some(2.2));
        (vehicle.height_m, vehicle.floor_height_m) = (Some(2.7), Some(0.6));
        survey.apply(Edit::Usual(TypicalWinter::Alpine)).unwrap();
        let areas = survey.fabric.iter().map(|element| element.area_m2.unwrap());
        let sum: f64 = areas.sum();
        // Each is written to the hundredth.
        assert!((sum - 60.84).abs() < 0.03, "{kind:?}: {sum}");
        for element in &survey.fabric {
            let layers = matches!(&element.build_up, BuildUp::Layers(layers) if !layers.is_empty());
            assert!(layers, "{kind:?} {}", element.name);
            assert!(survey.usual.fabric.contains(&element.id));
        }
    }
}

#[test]
fn the_list_of_appliances_stays_unconfirmed_and_a_look_takes_the_mark() {
    let mut survey = filled(VehicleKind::CoachBuilt);
    assert!(!survey.appliances.is_empty() && !survey.appliances_confirmed);
    assert_eq!(survey.usual.appliances.len(), survey.appliances.len());
    survey.apply(Edit::AppliancesConfirmed(true)).unwrap();
    assert!(survey.usual.appliances.is_empty());
}

/// Everything that somebody may have entered, each alone.
fn entered() -> Vec<(&'static str, Survey)> {
    let with = |name, change: fn(&mut Survey)| {
        let mut survey = Survey::starting(VehicleKind::PanelVan);
        change(&mut survey);
        (name, survey)
    };
    vec![
        with("sizes", |survey| survey.vehicle.length_m = Some(5.99)),
        with("fabric", |survey| {
            survey.fabric = fabric::of(&survey.vehicle);
            survey.fabric.truncate(1);
        }),
        with("appliances", |survey| {
            survey.appliances.push(Appliance {
                id: ApplianceId(1),
                kind: ApplianceKind::Stove,
                name: "stove".to_owned(),
                room_sealed: false,
                input_mj_per_h: None,
            });
        }),
        with("none confirmed", |survey| {
            survey.appliances_confirmed = true
        }),
        with("weather", |survey| survey.weather[1].outside_c = 3.0),
        with("targets", |survey| survey.targets.design_outside_c = -20.0),
        with("site", |survey| survey.site.altitude_m = 700.0),
    ]
}

#[test]
fn nothing_that_somebody_entered_is_changed() {
    for (name, before) in entered() {
        let mut after = before.clone();
        after.apply(Edit::Usual(TypicalWinter::Northern)).unwrap();
        let kept = match name {
            "sizes" => after.vehicle == before.vehicle,
            "fabric" => after.fabric == before.fabric && after.usual.fabric.is_empty(),
            "appliances" | "none confirmed" => {
                after.appliances == before.appliances && after.usual.appliances.is_empty()
            }
            "weather" => after.weather == before.weather && after.usual.weather.is_empty(),
            "targets" => after.targets == before.targets && !after.usual.design_outside,
            _ => after.site == before.site && !after.usual.altitude,
        };
        assert!(kept, "{name}");
        assert!(!after.usual.is_nothing(), "{name}: the rest is filled");
    }
}

#[test]
fn an_edit_by_hand_takes_the_mark_of_what_it_changes_and_no_other() {
    let before = filled(VehicleKind::TouringCaravan);
    let case = |change: fn(&mut WeatherCase)| {
        let mut case = before.weather[0].clone();
        change(&mut case);
        Edit::Put(Record::Weather(case))
    };
    let site = |change: fn(&mut Site)| {
        let mut site = before.site.clone();
        change(&mut site);
        Edit::Site(site)
    };
    let mut targets = before.targets.clone();
    targets.design_outside_c = -3.0;
    let first = before.weather[0].id;
    let edits = [
        (case(|case| case.wind_m_s = 1.0), UsualPart::Weather(first)),
        (site(|site| site.altitude_m = 5.0), UsualPart::Altitude),
        (Edit::Targets(targets), UsualPart::DesignOutside),
        (
            Edit::Known(UsualPart::Fabric(FabricId(2))),
            UsualPart::Fabric(FabricId(2)),
        ),
    ];
    for (edit, part) in edits {
        let mut after = before.clone();
        after.apply(edit).unwrap();
        assert!(before.usual.has(part) && !after.usual.has(part), "{part:?}");
        let mut rest = before.usual.clone();
        rest.forget(part);
        assert_eq!(after.usual, rest);
    }
    // What stays as it was keeps its mark.
    let mut after = before.clone();
    after.apply(case(|_| {})).unwrap();
    after
        .apply(site(|site| site.heading_deg = Some(90.0)))
        .unwrap();
    assert_eq!(after.usual, before.usual);
}

#[test]
fn marked_areas_follow_the_sizes_and_those_of_somebody_stay() {
    let mut survey = filled(VehicleKind::TouringCaravan);
    let area = |survey: &Survey, name: &str| {
        let mut fabric = survey.fabric.iter();
        fabric
            .find(|one| one.name == name)
            .and_then(|one| one.area_m2)
    };
    let mut windows = survey.fabric[1].clone();
    assert_eq!(windows.name, "windows");
    windows.area_m2 = Some(4.2);
    let put = Edit::Put(Record::Fabric(Box::new(windows)));
    survey.apply(put).unwrap();
    let mut vehicle = survey.vehicle.clone();
    (vehicle.length_m, vehicle.width_m) = (Some(7.0), Some(2.0));
    survey.apply(Edit::Vehicle(vehicle.clone())).unwrap();
    assert_eq!(area(&survey, "floor"), Some(14.0));
    assert_eq!(area(&survey, "windows"), Some(4.2));
    vehicle.length_m = None;
    survey.apply(Edit::Vehicle(vehicle)).unwrap();
    assert_eq!(area(&survey, "floor"), None);
    assert_eq!(area(&survey, "windows"), Some(4.2));
}

#[test]
fn another_kind_takes_its_own_usual_parts() {
    let mut survey = filled(VehicleKind::TouringCaravan);
    let mut vehicle = survey.vehicle.clone();
    vehicle.kind = VehicleKind::PanelVan;
    survey.apply(Edit::Vehicle(vehicle)).unwrap();
    let mut names = survey.fabric.iter().map(|one| one.name.as_str());
    assert!(names.any(|name| name == "cab doors and bulkhead"));
    assert_eq!(survey.appliances.len(), 2);
    assert_eq!(survey.usual.appliances.len(), 2);
}

#[test]
fn another_winter_replaces_only_what_is_still_marked() {
    let mut survey = filled(VehicleKind::Integrated);
    let mut case = survey.weather[2].clone();
    case.inside = InsideAir::HeldAt { temperature_c: 8.0 };
    let own = survey.clone();
    survey.apply(Edit::Put(Record::Weather(case))).unwrap();
    let weather = survey.weather.clone();
    survey.apply(Edit::Usual(TypicalWinter::Northern)).unwrap();
    assert_eq!(survey.weather, weather);
    assert!((survey.targets.design_outside_c + 27.0).abs() < 1e-9);
    let mut other = own.clone();
    other.apply(Edit::Usual(TypicalWinter::Northern)).unwrap();
    assert_ne!(other.weather, own.weather);
    assert_eq!(other.fabric, own.fabric);
}

#[test]
fn the_fill_is_one_step_that_undo_names_and_takes_back() {
    let mut history = History::new(Survey::starting(VehicleKind::PanelVan));
    let first = history.survey().clone();
    let fill = Edit::Usual(TypicalWinter::MildMaritime);
    history.apply(fill, None).unwrap();
    assert_eq!(
        history.last_step().as_deref(),
        Some("usual panel-van camper")
    );
    let known = Edit::Known(UsualPart::Altitude);
    history.apply(known, None).unwrap();
    assert_eq!(
        history.last_step().as_deref(),
        Some("mark of what is usual")
    );
    assert!(history.undo() && history.undo());
    assert_eq!(*history.survey(), first);
}

#[test]
fn a_vehicle_without_any_size_takes_the_usual_ones() {
    let mut survey = Survey::new(VehicleKind::CoachBuilt);
    survey.apply(Edit::Usual(TypicalWinter::Alpine)).unwrap();
    assert!(survey.vehicle.has_starting_sizes());
    let mut survey = Survey::new(VehicleKind::CoachBuilt);
    survey.vehicle.width_m = Some(2.3);
    survey.apply(Edit::Usual(TypicalWinter::Alpine)).unwrap();
    assert_eq!(survey.vehicle.length_m, None);
    assert!(survey.fabric.iter().all(|one| one.area_m2.is_none()));
}
