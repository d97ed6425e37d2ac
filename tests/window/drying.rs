//! The Drying & heat page: verdicts, figures and findings of the comparison.

use super::pages::told;
use super::{
    Window, click_button, ctrl, opened, press, replace_text, sample, shows, small_survey, survey,
};
use eframe::egui;
use egui::Key;
use egui::accesskit::Role;
use egui_kittest::kittest::{NodeT, Queryable};
use gapledger::assess::drying::{OptionAnswer, OptionKind};
use gapledger::assess::quantity::Kind;
use gapledger::assess::{Comparison, DryingTopic, Topic, compare, drying_working};
use gapledger::survey::fabric::{BuildUp, FabricPart};
use gapledger::survey::{Edit, Gap, MachineKind, Purpose, Record, Survey, WorkState};
use gapledger::window::page::Page;

const SAMPLES: [&str; 4] = [
    "farmyard-caravan.ron",
    "street-panel-van.ron",
    "coastal-coachbuilt.ron",
    "forest-integrated.ron",
];

fn drying_page(name: &str) -> Window<'static> {
    let mut window = opened(&sample(name));
    ctrl(&mut window, Key::Num4);
    window
}

fn compared(window: &Window<'_>) -> Comparison {
    compare(survey(window)).unwrap()
}

/// The sentence as the page writes it.
fn written(option: &OptionAnswer) -> String {
    let mut letters = option.sentence.chars();
    let first: String = letters.next().unwrap().to_uppercase().collect();
    format!("{first}{}.", letters.as_str())
}

#[test]
fn every_option_shows_the_verdict_and_the_figures_of_the_comparison() {
    for name in SAMPLES {
        let window = drying_page(name);
        let all = compared(&window);
        for option in &all.options {
            assert!(shows(&window, &written(option)), "{name}: {}", option.name);
            for case in option.cases.iter().flatten() {
                let mut cells = vec![
                    Kind::Celsius.number(case.inside.t_c),
                    Kind::RelativeHumidity.number(case.rh),
                ];
                if case.removal_kg_s > 0.0 {
                    cells.push(Kind::LitresPerDay.number(case.removal_kg_s * 86_400.0));
                }
                for cell in cells {
                    let shown = window.query_all_by_label(&cell).count();
                    assert!(shown > 0, "{name}: {}: {cell}", option.name);
                }
            }
        }
        // Each verdict stands as often as the comparison gives it, before and after the plan.
        let stages = [Some(&all), all.sealed()].into_iter().flatten();
        let shown: Vec<String> = stages
            .flat_map(|of| of.options.iter().map(|option| option.signed_verdict(of)))
            .collect();
        for words in &shown {
            let wanted = shown.iter().filter(|other| *other == words).count();
            let shown = window.query_all_by_label(words).count();
            assert_eq!(shown, wanted, "{name}: {words}");
        }
    }
}

#[test]
fn planned_gaps_put_every_option_beside_itself_after_the_plan() {
    let mut window = drying_page("farmyard-caravan.ron");
    assert!(!shows(&window, "After the plan"));
    let unintended = |gap: &&Gap| gap.purpose == Purpose::Unintended;
    let gaps: Vec<Gap> = survey(&window)
        .gaps
        .iter()
        .filter(unintended)
        .cloned()
        .collect();
    for mut gap in gaps {
        gap.state = WorkState::Planned;
        let edit = Edit::Put(Record::Gap(Box::new(gap)));
        window.state_mut().queue().edit(edit, None);
        window.run();
    }
    window.run();
    let all = compared(&window);
    let plan = all.after_plan.as_ref().unwrap();
    let then = plan.comparison.as_ref().unwrap();
    assert!(shows(&window, &format!("{} gaps sealed", plan.gaps.len())));
    for option in &then.options {
        assert!(shows(&window, &written(option)), "{}", option.name);
    }
    let heads = window.query_all_by_label("After the plan:").count();
    assert_eq!(heads, all.options.len());
    // The figures stand in lines of their own, each with its working.
    let case = &all.cases[all.windiest];
    let state = then.options[0].cases[all.windiest].as_ref().unwrap();
    let inside = Kind::Celsius.number(state.inside.t_c);
    assert!(window.query_all_by_label(&inside).count() > 0);
    let name = format!(
        "how? 1 {}, {}, {} of the season, after the plan",
        all.options[0].name,
        case.name,
        Kind::Share.text(case.share)
    );
    window.get_by_role_and_label(Role::Link, &name).focus();
    window.run();
    press(&mut window, Key::Enter);
    let topic = Topic::Drying(DryingTopic::AfterPlan(0, case.id));
    assert_eq!(window.state().view().working, Some(topic));
    let survey = survey(&window).clone();
    let working = drying_working(&survey, &all, DryingTopic::AfterPlan(0, case.id)).unwrap();
    assert!(shows(&window, &working.result));
}

#[test]
fn another_power_of_the_machine_moves_its_verdict() {
    let mut window = drying_page("farmyard-caravan.ron");
    let before = compared(&window);
    let rotor = |all: &Comparison| {
        all.options
            .iter()
            .find(|option| option.kind == OptionKind::Machine(MachineKind::DesiccantRotor))
            .cloned()
            .unwrap()
    };
    let old = rotor(&before);
    let mut machine = survey(&window)
        .machines
        .iter()
        .find(|machine| Some(machine.id) == old.machine)
        .cloned()
        .unwrap();
    // A tenth of its power and of all it gathers.
    machine.power_w = machine.power_w.map(|power| power / 10.0);
    machine.rated_removal_l_per_day = machine.rated_removal_l_per_day.map(|rated| rated / 10.0);
    for point in &mut machine.points {
        point.power_w /= 10.0;
        point.removal_l_per_day /= 10.0;
    }
    let edit = Edit::Put(Record::Machine(Box::new(machine)));
    window.state_mut().queue().edit(edit, None);
    window.run();
    window.run();
    let new = rotor(&compared(&window));
    assert_ne!(new.sentence, old.sentence);
    assert!(shows(&window, &written(&new)));
    assert!(!shows(&window, &written(&old)));
    ctrl(&mut window, Key::Z);
    window.run();
    assert!(shows(&window, &written(&old)));
}

/// The same litres a day in less warm and less damp air are those of a stronger machine.
#[test]
fn the_air_of_a_plate_fills_the_rating_and_moves_every_option_with_that_machine() {
    let mut window = opened(&sample("farmyard-caravan.ron"));
    let id = survey(&window).machines[0].id;
    assert_eq!(survey(&window).machines[0].kind, MachineKind::Compressor);
    let together = |window: &Window<'_>| {
        let all = compared(window);
        let mut options = all.options.into_iter();
        let found = options.find(|option| option.kind == OptionKind::HeatAndMachine);
        found.unwrap()
    };
    let removed = |option: &OptionAnswer| -> f64 {
        option
            .cases
            .iter()
            .flatten()
            .map(|case| case.removal_kg_s)
            .sum()
    };
    let old = together(&window);
    assert_eq!(old.machine, Some(id));
    let state = |window: &mut Window<'_>, words: &str| {
        ctrl(window, Key::Num1);
        window.get_by_role_and_label(Role::Tab, "Equipment").click();
        window.run();
        click_button(window, &format!("Stated at {words}, machine {id}"));
        ctrl(window, Key::Num4);
        window.run();
    };
    state(&mut window, "27 °C 60 %");
    let machine = &survey(&window).machines[0];
    assert_eq!(
        (machine.rated_temperature_c, machine.rated_rh_percent),
        (Some(27.0), Some(60.0))
    );
    let new = together(&window);
    assert!(
        removed(&new) > removed(&old),
        "{} {}",
        removed(&new),
        removed(&old)
    );
    assert!(shows(&window, &written(&new)) && !shows(&window, &written(&old)));
    state(&mut window, "30 °C 80 %");
    assert_eq!(together(&window), old);
    assert!(shows(&window, &written(&old)));
}

#[test]
fn the_target_typed_on_the_vehicle_page_is_the_one_compared_and_bad_ones_are_told() {
    let mut window = opened(&sample("farmyard-caravan.ron"));
    let open_targets = |window: &mut Window<'_>| {
        ctrl(window, Key::Num1);
        window
            .get_by_role_and_label(Role::Tab, "Weather and targets")
            .click();
        window.run();
    };
    open_targets(&mut window);
    replace_text(&mut window, "RH to hold", "62");
    press(&mut window, Key::Tab);
    ctrl(&mut window, Key::Num4);
    let all = compared(&window);
    assert!((all.target_rh - 0.62).abs() < 1e-12);
    assert!(shows(&window, "What would hold 62\u{a0}% RH"));
    assert!(shows(&window, &written(&all.options[0])));
    // An impossible target: no verdict at all, and the reason.
    open_targets(&mut window);
    let mut targets = survey(&window).targets.clone();
    targets.rh_percent = 0.0;
    window
        .state_mut()
        .queue()
        .edit(Edit::Targets(targets), None);
    window.run();
    ctrl(&mut window, Key::Num4);
    window.run();
    let why = compare(survey(&window)).unwrap_err();
    assert!(shows(&window, &why.reason));
    assert!(!shows(&window, "✔ in all "));
    assert!(!shows(&window, "✖ at no time"));
}

#[test]
fn findings_of_the_comparison_stand_on_the_page_and_lead_to_their_place() {
    let mut window = drying_page("farmyard-caravan.ron");
    let mut drying = survey(&window).drying.clone();
    drying.hookup_a = Some(1.0);
    window.state_mut().queue().edit(Edit::Drying(drying), None);
    window.run();
    window.run();
    let all = compared(&window);
    let found = all
        .findings
        .iter()
        .find(|finding| finding.place.is_at(gapledger::survey::Field::HookUp))
        .unwrap();
    assert!(found.sentence.contains("more than the 1"));
    assert!(shows(&window, &found.sentence));
    assert!(shows(&window, &found.advice));
    let place = found.place;
    window.state_mut().queue().go_to(place);
    window.run();
    assert_eq!(window.state().view().page, Page::Vehicle);
    assert!(shows(&window, "Supply at 230 V"));
}

#[test]
fn contents_sun_and_supply_are_typed_with_their_ranges() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    ctrl(&mut window, Key::Num1);
    window.get_by_role_and_label(Role::Tab, "Equipment").click();
    window.run();
    replace_text(&mut window, "Dry mass of contents", "400");
    press(&mut window, Key::Tab);
    assert_eq!(survey(&window).drying.contents_kg, Some(400.0));
    // The time to dry out needs both.
    assert!(shows(
        &window,
        "needs the mass of the contents and their moisture"
    ));
    replace_text(&mut window, "Moisture of contents", "18,5");
    press(&mut window, Key::Tab);
    assert_eq!(survey(&window).drying.contents_moisture_percent, Some(18.5));
    assert!(!shows(
        &window,
        "needs the mass of the contents and their moisture"
    ));
    replace_text(&mut window, "Supply at 230 V", "100");
    press(&mut window, Key::Tab);
    assert!(shows(&window, "outside 1 to 63 A"));
}

#[test]
fn every_how_of_the_comparison_opens_its_working() {
    let mut window = drying_page("farmyard-caravan.ron");
    let all = compared(&window);
    let id = all.cases[all.windiest].id;
    let options = 0..all.options.len();
    let mut topics: Vec<DryingTopic> = options.map(|at| DryingTopic::Option(at, id)).collect();
    topics.extend((0..all.sizing.capacities.len()).map(DryingTopic::Capacity));
    topics.extend((0..all.sizing.heaters.len()).map(DryingTopic::Heater));
    topics.extend((0..all.warm_up.len()).map(DryingTopic::WarmUp));
    topics.extend([
        DryingTopic::DryOut(1, all.cases[all.calmest].id),
        DryingTopic::Surface(0, id, 0),
        DryingTopic::NightAir,
    ]);
    for topic in topics {
        window
            .state_mut()
            .queue()
            .open_working(Topic::Drying(topic));
        window.run();
        let survey = survey(&window).clone();
        let working = drying_working(&survey, &all, topic).unwrap();
        assert!(shows(&window, &working.title), "{topic:?}");
        assert!(shows(&window, &working.result), "{topic:?}");
        assert!(!working.sources.is_empty(), "{topic:?}");
        for source in &working.sources {
            let [marked, meaning] = told(source);
            assert!(shows(&window, &marked), "{topic:?}: {marked}");
            assert!(shows(&window, &meaning), "{topic:?}: {meaning}");
        }
    }
    let case = &all.cases[all.windiest];
    let name = format!(
        "how? 1 {}, {}, {} of the season",
        all.options[0].name,
        case.name,
        Kind::Share.text(case.share)
    );
    window.state_mut().queue().close_working();
    window.run();
    // It stands further down than the page shows.
    window
        .get_by_role_and_label(Role::Link, &name)
        .click_accesskit();
    window.run();
    let topic = Topic::Drying(DryingTopic::Option(0, id));
    assert_eq!(window.state().view().working, Some(topic));
}

#[test]
fn the_weather_of_the_chart_is_chosen_by_keyboard_and_its_states_stand_in_a_table() {
    let mut window = drying_page("farmyard-caravan.ron");
    let all = compared(&window);
    window.get_by_role_and_label(Role::Link, "chart").click();
    window.run();
    window
        .get_by_role_and_label(Role::DisclosureTriangle, "States as a table")
        .click();
    window.run();
    let dew_point = |at: usize| {
        let state = all.options[0].cases[at].as_ref().unwrap();
        Kind::Celsius.number(state.inside.dew_point_c().unwrap())
    };
    let ratio = |at: usize| {
        let state = all.options[0].cases[at].as_ref().unwrap();
        Kind::GramsPerKilogram.number(state.inside.humidity_ratio)
    };
    assert!(shows(&window, &dew_point(all.windiest)));
    assert!(shows(&window, &ratio(all.windiest)));
    let choice = window.get_by_role_and_label(Role::ComboBox, "Weather shown");
    assert_eq!(
        choice.accesskit_node().value().unwrap(),
        all.cases[all.windiest].name
    );
    choice.focus();
    window.run();
    press(&mut window, Key::ArrowUp);
    let choice = window.get_by_role_and_label(Role::ComboBox, "Weather shown");
    assert_eq!(
        choice.accesskit_node().value().unwrap(),
        all.cases[all.windiest - 1].name
    );
    // The table of surfaces follows the same choice.
    let surfaces = window.get_by_role_and_label(Role::ComboBox, "Surfaces in weather");
    assert_eq!(
        surfaces.accesskit_node().value().unwrap(),
        all.cases[all.windiest - 1].name
    );
}

#[test]
fn pointing_at_the_chart_tells_the_state_there() {
    let mut window = drying_page("farmyard-caravan.ron");
    window.get_by_role_and_label(Role::Link, "chart").click();
    window.run();
    assert!(shows(&window, "Point at the chart to read a state."));
    let chart = window
        .get_all_by_role(Role::Image)
        .find(|node| {
            let label = node.accesskit_node().label();
            label.is_some_and(|label| label.starts_with("Psychrometric chart"))
        })
        .unwrap()
        .rect();
    // The lower middle of the chart is dry air that exists.
    window.hover_at(chart.center() + egui::vec2(40.0, 110.0));
    window.run();
    assert!(!shows(&window, "Point at the chart to read a state."));
    assert!(shows(&window, "g/kg, dew point"));
}

#[test]
fn a_survey_without_fabric_says_why_nothing_can_be_compared() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    ctrl(&mut window, Key::Num4);
    let why = compare(survey(&window)).unwrap_err();
    assert!(shows(&window, &why.reason));
    assert!(!shows(&window, "Holds"));
}

#[test]
fn a_usual_build_up_fills_the_layers_in_one_step_and_says_what_it_is() {
    let mut window = opened(&sample("farmyard-caravan.ron"));
    ctrl(&mut window, Key::Num1);
    window.get_by_role_and_label(Role::Tab, "Fabric").click();
    window.run();
    click_button(&mut window, "Add element");
    let last = |survey: &Survey| survey.fabric.last().unwrap().clone();
    let id = last(survey(&window)).id;
    let mut element = last(survey(&window));
    element.part = FabricPart::Floor;
    element.area_m2 = Some(8.0);
    let edit = Edit::Put(Record::Fabric(Box::new(element)));
    window.state_mut().queue().edit(edit, None);
    window.run();
    let before = last(survey(&window));
    assert!(!shows(&window, "not a measurement"));
    click_button(
        &mut window,
        "Usual build-up: floor: plywood, 40 mm foam, plywood",
    );
    let after = last(survey(&window));
    assert_eq!(after.id, id);
    let BuildUp::Layers(layers) = &after.build_up else {
        panic!("no layers");
    };
    let thick: Vec<Option<f64>> = layers.iter().map(|layer| layer.thickness_mm).collect();
    assert_eq!(thick, [Some(5.0), Some(40.0), Some(9.0)]);
    assert!(shows(&window, "not a measurement"));
    // Worked by hand, ISO 6946 [M]: 1/(0.17 + 0.005/0.13 + 0.040/0.034 + 0.009/0.13 + 0.04).
    assert!(shows(&window, "0.669\u{a0}W/(m²\u{a0}K)"));
    ctrl(&mut window, Key::Z);
    assert_eq!(last(survey(&window)), before);
}
