//! The pages Vehicle, Air change, Drying & heat, and the working.

use super::{
    Window, air_change, click_button, ctrl, opened, press, replace_text, sample, shows,
    small_survey, survey, text_of,
};
use eframe::egui;
use egui::Key;
use egui::accesskit::Role;
use egui_kittest::kittest::{NodeT, Queryable};
use gapledger::assess::quantity::Kind;
use gapledger::assess::{Source, Topic, assess, working};
use gapledger::survey::fabric::{BuildUp, FabricPart};
use gapledger::survey::{Item, Place, WeatherId};
use gapledger::window::page::Page;

const SAMPLES: [&str; 5] = [
    "farmyard-caravan.ron",
    "street-panel-van.ron",
    "coastal-coachbuilt.ron",
    "forest-integrated.ron",
    "two-opening-check.ron",
];

const SECTIONS: [&str; 5] = [
    "Body and place",
    "Weather and targets",
    "Fabric",
    "Equipment",
    "Spaces inside",
];

fn open_section(window: &mut Window<'_>, name: &str) {
    ctrl(window, Key::Num1);
    window.get_by_role_and_label(Role::Tab, name).click();
    window.run();
}

/// Inputs without a name, by role.
pub(super) fn unnamed(window: &Window<'_>) -> Vec<String> {
    let inputs = [
        Role::TextInput,
        Role::MultilineTextInput,
        Role::ComboBox,
        Role::CheckBox,
        Role::Button,
        Role::Image,
    ];
    window
        .query_all_by(|node| inputs.contains(&node.role()))
        .filter(|node| {
            let node = node.accesskit_node();
            node.label().is_none_or(|label| label.trim().is_empty())
        })
        .map(|node| format!("{:?} {:?}", node.accesskit_node().role(), node.rect()))
        .collect()
}

#[test]
fn every_section_of_every_sample_names_its_inputs_and_rests() {
    for name in SAMPLES {
        let mut window = opened(&sample(name));
        for section in SECTIONS {
            open_section(&mut window, section);
            let unnamed = unnamed(&window);
            assert!(unnamed.is_empty(), "{name}, {section}: {unnamed:?}");
            for viewport in window.output().viewport_output.values() {
                let delay = viewport.repaint_delay;
                assert_eq!(delay, std::time::Duration::MAX, "{name}, {section}");
            }
        }
    }
}

#[test]
fn the_volume_follows_the_inside_sizes() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    open_section(&mut window, "Body and place");
    // 4.8 × 2.2 × 1.95 = 20.592 m³, and with 4.6 m of length 19.734 m³.
    assert!(shows(&window, "20.6\u{a0}m³"));
    replace_text(&mut window, "Length inside", "2*2,3");
    press(&mut window, Key::Tab);
    assert_eq!(survey(&window).vehicle.inside_length_m, Some(4.6));
    assert!(shows(&window, "19.7\u{a0}m³"));
    replace_text(&mut window, "Length inside", "4+");
    press(&mut window, Key::Tab);
    assert!(shows(&window, "the sum is not finished"));
    assert_eq!(survey(&window).vehicle.inside_length_m, Some(4.6));
    replace_text(&mut window, "Length inside", "99");
    press(&mut window, Key::Tab);
    assert_eq!(text_of(&window, "Length inside"), "99");
    assert!(shows(&window, "outside 1 to 15 m"));
}

#[test]
fn a_weather_case_is_added_typed_and_removed() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    open_section(&mut window, "Weather and targets");
    let before = survey(&window).clone();
    click_button(&mut window, "Add weather case");
    let added = survey(&window).weather.last().unwrap().clone();
    assert_eq!(survey(&window).weather.len(), before.weather.len() + 1);
    air_change(&mut window);
    assert!(shows(&window, &added.name));
    open_section(&mut window, "Weather and targets");
    click_button(&mut window, &format!("Remove {}", added.name));
    assert_eq!(survey(&window), &before);
}

#[test]
fn inside_air_changes_from_warmer_by_to_held_at_the_same_temperature() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    open_section(&mut window, "Weather and targets");
    let before = survey(&window).weather[0].inside_c();
    let choices: Vec<_> = window
        .get_all_by_role_and_label(Role::ComboBox, "Inside")
        .collect();
    choices[0].focus();
    drop(choices);
    window.run();
    press(&mut window, Key::ArrowDown);
    let case = &survey(&window).weather[0];
    assert!(matches!(
        case.inside,
        gapledger::survey::InsideAir::HeldAt { .. }
    ));
    assert!((case.inside_c() - before).abs() < 1e-12);
}

/// GRP 1.5, EPS 30, plywood 3 mm, a wall: U 1.014 W/(m² K) with Rsi 0.13 and Rse 0.04
/// (ISO 6946 \[M\]; conductivities \[S\] and \[M\] as the table of materials states).
#[test]
fn a_wall_of_three_layers_shows_its_u_value() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    open_section(&mut window, "Fabric");
    click_button(&mut window, "Add element");
    replace_text(&mut window, "Total area", "10");
    for (number, (material, thickness)) in [("GRP", "1,5"), ("EPS foam", "30"), ("plywood", "3")]
        .into_iter()
        .enumerate()
    {
        click_button(&mut window, &format!("Add layer: {material}"));
        let name = format!("Thickness of layer {} (mm)", number + 1);
        replace_text(&mut window, &name, thickness);
    }
    let element = survey(&window).fabric[0].clone();
    assert_eq!(element.part, FabricPart::Wall);
    assert!(matches!(&element.build_up, BuildUp::Layers(layers) if layers.len() == 3));
    assert!(shows(&window, "1.01\u{a0}W/(m²\u{a0}K)"));
    // 10 m² with 10 % of thermal bridges: 11.2 W/K.
    assert!(shows(&window, "11.2\u{a0}W/K"));
    click_button(&mut window, "Layer 3 away");
    let BuildUp::Layers(layers) = &survey(&window).fabric[0].build_up else {
        unreachable!("nothing chose another build-up")
    };
    assert_eq!(layers.len(), 2);
}

#[test]
fn equipment_is_added_and_removed_one_by_one() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    open_section(&mut window, "Equipment");
    let mut before = survey(&window).clone();
    // One more appliance: that the list was whole is to be confirmed anew.
    before.appliances_confirmed = false;
    for button in [
        "Add appliance",
        "Add heater",
        "Add drying machine",
        "Add moisture source",
        "Add fan",
    ] {
        click_button(&mut window, button);
    }
    let now = survey(&window);
    let counts = [
        now.appliances.len(),
        now.heaters.len(),
        now.machines.len(),
        now.sources.len(),
        now.fans.len(),
    ];
    assert_eq!(counts, [1; 5]);
    assert!(unnamed(&window).is_empty());
    // A plate that says litres a day alone: the air that it commonly means, at a click.
    let id = survey(&window).machines[0].id;
    for (words, temperature_c, rh_percent) in
        [("27 °C 60 %", 27.0, 60.0), ("30 °C 80 %", 30.0, 80.0)]
    {
        click_button(&mut window, &format!("Stated at {words}, machine {id}"));
        let machine = &survey(&window).machines[0];
        assert_eq!(machine.rated_temperature_c, Some(temperature_c));
        assert_eq!(machine.rated_rh_percent, Some(rh_percent));
    }
    for button in [
        "Remove hob",
        "Remove electric heater",
        "Remove compressor dehumidifier",
        "Remove person asleep",
        "Remove fan",
    ] {
        click_button(&mut window, button);
    }
    assert_eq!(survey(&window), &before);
}

#[test]
fn a_finding_leads_to_its_field_on_the_vehicle_page() {
    let mut window = opened(&sample("farmyard-caravan.ron"));
    let machine = survey(&window).machines[0].id;
    window.state_mut().queue().go_to(Place {
        item: Item::Machine(machine),
        field: Some(gapledger::survey::Field::Power),
    });
    window.run();
    assert_eq!(window.state().view().page, Page::Vehicle);
    let focused = window.query_all_by(|node| node.is_focused()).next();
    let label = focused.unwrap().accesskit_node().label();
    assert_eq!(label.as_deref(), Some("Electric power"));
}

#[test]
fn air_changes_stand_side_by_side_as_the_assessment_gives_them() {
    for name in SAMPLES {
        let mut window = opened(&sample(name));
        air_change(&mut window);
        let assessment = assess(survey(&window));
        assert!(!assessment.cases.is_empty());
        for case in &assessment.cases {
            match &case.air {
                Ok(air) => {
                    let mean = Kind::AirChanges.number(air.mean_ach_per_h.clone().unwrap());
                    assert!(shows(&window, &mean), "{name}, {}: {mean}", case.name);
                }
                Err(why) => assert!(shows(&window, &why.reason), "{name}, {}", case.name),
            }
        }
        let plots = window.query_all_by(|node| node.role() == Role::Image);
        let named = plots.filter(|node| {
            let label = node.accesskit_node().label();
            label.is_some_and(|label| label.starts_with("Plot of air changes"))
        });
        assert_eq!(named.count(), 3, "{name}");
    }
}

#[test]
fn the_wind_steps_round_the_vehicle_by_button_and_by_key() {
    let mut window = opened(&sample("two-opening-check.ron"));
    air_change(&mut window);
    assert_eq!(window.state().view().air_change.direction(), 0);
    let step = |window: &mut Window<'_>, name: &str| {
        window
            .get_by_role_and_label(Role::Button, name)
            .click_accesskit();
        window.run();
    };
    step(&mut window, "Wind from one step clockwise");
    assert_eq!(window.state().view().air_change.direction(), 1);
    for _ in 0..2 {
        step(&mut window, "Wind from one step anticlockwise");
    }
    assert_eq!(window.state().view().air_change.direction(), 15);
    window
        .get_by_role_and_label(Role::ComboBox, "Wind direction of the flows")
        .focus();
    window.run();
    press(&mut window, Key::ArrowUp);
    assert_eq!(window.state().view().air_change.direction(), 14);
}

#[test]
fn water_and_heat_stand_as_the_assessment_gives_them() {
    let mut window = opened(&sample("farmyard-caravan.ron"));
    ctrl(&mut window, Key::Num4);
    let assessment = assess(survey(&window));
    for case in &assessment.cases {
        let drying = case.drying.as_ref().unwrap();
        for removal in [&drying.at_outside_temperature, &drying.at_set_temperature] {
            assert!(shows(
                &window,
                &Kind::LitresPerDay.number(removal.l_per_day())
            ));
        }
        let heat = case.heat.as_ref().unwrap();
        for need in [&heat.set_temperature, &heat.frost_guard, &heat.comfort] {
            assert!(shows(&window, &Kind::Watts.number(need.total_w().unwrap())));
        }
    }
    assert!(shows(&window, "Never heat or dry a closed vehicle"));
    assert!(shows(&window, "Free area"));
}

#[test]
fn what_is_not_known_says_why_and_never_shows_zero() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    ctrl(&mut window, Key::Num4);
    let assessment = assess(survey(&window));
    let why = assessment.fabric.clone().unwrap_err();
    assert!(shows(&window, &why.reason));
    assert!(shows(&window, "not known"));
    assert!(!shows(&window, " 0 W"));
    assert!(!shows(&window, " 0\u{a0}W"));
    let labels: Vec<String> = window
        .query_all_by_role(Role::Label)
        .filter_map(|node| node.accesskit_node().value())
        .collect();
    let rows = labels
        .windows(2)
        .filter(|pair| pair[0] == "Through the fabric, W");
    let cells: Vec<&String> = rows.map(|pair| &pair[1]).collect();
    assert!(!cells.is_empty());
    for cell in cells {
        assert!(cell.starts_with("not known"), "{cell}");
    }
}

/// How a source stands in a working: its mark behind it, and what the mark means.
pub(super) fn told(source: &Source) -> [String; 2] {
    let letter = source.mark.letter();
    [
        format!("{} [{letter}]", source.text),
        format!("[{letter}] {}", source.mark.words()),
    ]
}

#[test]
fn every_headline_opens_its_working_with_sources_and_marks() {
    let mut window = opened(&sample("farmyard-caravan.ron"));
    let cases: Vec<WeatherId> = survey(&window).weather.iter().map(|case| case.id).collect();
    let gap = survey(&window).gaps[0].id;
    let mut topics = vec![
        Topic::Volume,
        Topic::LeakageArea,
        Topic::Exponent,
        Topic::SafetyVentilation,
        Topic::Gap(gap),
    ];
    for case in cases {
        topics.extend([
            Topic::AirChange(case),
            Topic::CrossCheck(case),
            Topic::Removal(case),
            Topic::Heat(case),
            Topic::FrostGuard(case),
        ]);
    }
    for topic in topics {
        window.state_mut().queue().open_working(topic);
        window.run();
        let survey = survey(&window).clone();
        let working = working(&survey, &assess(&survey), topic).unwrap();
        assert!(shows(&window, &working.title), "{topic:?}");
        assert!(shows(&window, &working.result), "{topic:?}");
        for source in &working.sources {
            let [marked, meaning] = told(source);
            assert!(shows(&window, &marked), "{topic:?}: {marked}");
            assert!(shows(&window, &meaning), "{topic:?}: {meaning}");
        }
    }
}

#[test]
fn the_working_opens_by_its_link_follows_edits_and_closes_by_key() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    open_section(&mut window, "Body and place");
    window
        .get_by_role_and_label(Role::Link, "how? volume")
        .click();
    window.run();
    assert_eq!(window.state().view().working, Some(Topic::Volume));
    let result = |window: &Window<'_>| {
        let survey = survey(window);
        working(survey, &assess(survey), Topic::Volume)
            .unwrap()
            .result
    };
    let before = result(&window);
    assert!(shows(&window, &before));
    replace_text(&mut window, "Length inside", "5");
    let after = result(&window);
    assert_ne!(before, after);
    assert!(shows(&window, &after));
    // The first Esc belongs to the field that is being typed in.
    press(&mut window, Key::Escape);
    assert_eq!(window.state().view().working, Some(Topic::Volume));
    assert!(shows(&window, &before));
    press(&mut window, Key::Escape);
    assert_eq!(window.state().view().working, None);
}

#[test]
fn air_change_opens_with_the_picture_and_its_tables_folded() {
    let mut window = opened(&sample("farmyard-caravan.ron"));
    ctrl(&mut window, Key::Num3);
    let told = "of air come in, the largest part, ";
    assert!(shows(&window, told));
    assert!(shows(&window, "Air changes, mean of the season"));
    let image = |window: &Window<'_>, words: &str| {
        let mut images = window.query_all_by(|node| node.role() == Role::Image);
        images.find_map(|node| {
            let label = node.accesskit_node().label()?;
            label.contains(words).then(|| node.rect())
        })
    };
    let rose = image(&window, "against the direction the wind comes from").unwrap();
    let height = window.state().view().air_change.unfolded();
    assert_eq!(height, 0);
    assert!(rose.bottom() < 900.0 && rose.left() > 640.0, "{rose:?}");
    assert!(!shows(&window, "Wind used, at the roof"));
    click_button(&mut window, "Weather cases side by side");
    assert!(shows(&window, "Wind used, at the roof"));
    // It stays so with another survey.
    window
        .state_mut()
        .open_file(&sample("street-panel-van.ron"));
    window.run();
    ctrl(&mut window, Key::Num3);
    assert_eq!(window.state().view().air_change.unfolded(), 1);
}
