//! Looks, keys, messages and first steps.

use super::{opened, press, replace_text, sample, shows, small_survey, window};
use eframe::egui::accesskit::Role;
use eframe::egui::{Key, Shape};
use egui_kittest::kittest::{NodeT, Queryable};
use gapledger::survey::file::print;
use gapledger::survey::{Survey, VehicleKind};
use gapledger::window::app::Start;
use gapledger::window::commands::{self, Command};
use gapledger::window::page::Page;
use gapledger::window::theme::{DARK, LIGHT, TOUCH_TARGET};

/// Roles that a finger has to meet.
const TOUCHED: [Role; 6] = [
    Role::Button,
    Role::TextInput,
    Role::CheckBox,
    Role::RadioButton,
    Role::ComboBox,
    Role::Link,
];

/// Painted once more all over the window, the page would take as long as all that stands on it.
#[test]
fn every_frame_begins_with_the_colour_of_the_page_and_does_not_paint_it_again() {
    let mut window = opened(&sample("farmyard-caravan.ron"));
    for (command, colour) in [(Command::Light, LIGHT.page), (Command::Dark, DARK.page)] {
        window.state_mut().queue().command(command);
        for page in Page::ALL {
            window.state_mut().queue().command(Command::Show(page));
            window.run();
            let style = window.ctx.global_style();
            let begun = eframe::App::clear_color(window.state(), &style.visuals);
            let expected = colour.to_normalized_gamma_f32();
            assert_eq!(begun.map(f32::to_bits), expected.map(f32::to_bits));
            let again = window.output().shapes.iter().find(|clipped| {
                matches!(&clipped.shape, Shape::Rect(shape)
                    if shape.fill == colour && shape.rect.area() > 100_000.0)
            });
            assert!(again.is_none(), "{page:?}: {again:?}");
            // Its fields go on below, and fade out into it.
            let fades = |shape: &Shape| match shape {
                Shape::Mesh(mesh) => mesh
                    .vertices
                    .iter()
                    .any(|vertex| vertex.color.a() > 0 && vertex.color.a() < 255),
                _ => false,
            };
            let shapes = &window.output().shapes;
            let faded = shapes.iter().any(|clipped| fades(&clipped.shape));
            assert!(faded || page != Page::Vehicle);
        }
    }
}

#[test]
fn in_touch_size_every_target_is_large_enough_for_a_finger() {
    let mut window = opened(&sample("farmyard-caravan.ron"));
    window.state_mut().queue().command(Command::TouchSize);
    window.run();
    let mut small = Vec::new();
    for page in Page::ALL {
        window.state_mut().queue().command(Command::Show(page));
        window.run();
        for role in TOUCHED {
            for node in window.query_all_by_role(role) {
                let rect = node.rect();
                if rect.height() < TOUCH_TARGET - 0.1 {
                    let name = node.accesskit_node().label().unwrap_or_default();
                    small.push(format!(
                        "{}: {role:?} {name:?} is {:.0} high",
                        page.name(),
                        rect.height()
                    ));
                }
            }
        }
    }
    assert!(small.is_empty(), "{}", small.join("\n"));
    window.state_mut().queue().command(Command::TouchSize);
    window.run();
    window
        .state_mut()
        .queue()
        .command(Command::Show(Page::Gaps));
    window.run();
    for node in window.query_all_by_role(Role::ComboBox) {
        let rect = node.rect();
        let name = node.accesskit_node().label();
        assert!(rect.height() < TOUCH_TARGET, "{name:?} {rect:?}");
    }
}

#[test]
fn the_sheet_of_keys_names_every_command_that_has_keys() {
    let mut window = window(Start::test(None));
    window.state_mut().queue().command(Command::Keys);
    window.run();
    for line in commands::all().filter(|line| !line.shortcuts.is_empty()) {
        assert!(shows(&window, line.tooltip), "{}", line.name);
    }
    press(&mut window, Key::Enter);
    assert!(window.state().dialog().is_none());
}

#[test]
fn what_was_told_can_be_read_again() {
    let mut window = window(Start::test(Some("nowhere/at-all.ron".into())));
    let told = window.state().notices().list()[0].sentence.clone();
    window.get_by_label(&format!("dismiss: {told}")).click();
    window.run();
    assert!(!shows(&window, &told));
    window.state_mut().queue().command(Command::Messages);
    window.run();
    assert!(shows(&window, &told));
}

#[test]
fn first_steps_lead_through_the_job_and_get_out_of_the_way() {
    let (_folder, path) = small_survey();
    let mut window = window(Start {
        guide: true,
        ..Start::test(Some(path))
    });
    assert!(
        window
            .query_by_label("First steps: Vehicle size, done")
            .is_some()
    );
    assert!(window.query_by_label("First steps: Gaps, done").is_some());
    window
        .get_by_label("First steps: Air change, to do")
        .click();
    window.run();
    assert_eq!(window.state().view().page, Page::AirChange);
    assert!(
        window
            .query_by_label("First steps: Air change, done")
            .is_some()
    );
    window.get_by_label("Close the first steps").click();
    window.run();
    assert!(
        window
            .query_by_label("First steps: Air change, done")
            .is_none()
    );
    window.state_mut().queue().command(Command::FirstSteps);
    window.run();
    assert!(
        window
            .query_by_label("First steps: Air change, done")
            .is_some()
    );
}

/// A survey as it begins: its sizes are usual ones, and no page has anything to show.
#[test]
fn first_steps_tick_only_what_was_done() {
    let survey = Survey::starting(VehicleKind::TouringCaravan);
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("new.ron");
    std::fs::write(&path, print(&survey)).unwrap();
    let mut window = window(Start {
        guide: true,
        ..Start::test(Some(path))
    });
    for page in Page::ALL {
        window.state_mut().queue().command(Command::Show(page));
        window.run();
    }
    for step in [
        "Vehicle size",
        "Gaps",
        "Air change",
        "Drying & heat",
        "Sealing plan",
        "Job sheet",
    ] {
        let to_do = format!("First steps: {step}, to do");
        assert!(window.query_by_label(&to_do).is_some(), "{step}");
    }
    window
        .state_mut()
        .queue()
        .command(Command::Show(Page::Vehicle));
    window.run();
    replace_text(&mut window, "Length inside", "4.87");
    press(&mut window, Key::Enter);
    let measured = "First steps: Vehicle size, done";
    assert!(window.query_by_label(measured).is_some());
}
