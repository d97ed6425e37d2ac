//! Wheel and drag scroll what is under them, and nothing else.

use super::{Window, click_button, opened, survey};
use eframe::egui;
use egui::accesskit::Role;
use egui::{
    Event, Modifiers, MouseWheelSource, MouseWheelUnit, PointerButton, Pos2, TouchDeviceId,
    TouchId, TouchPhase, vec2,
};
use egui_kittest::kittest::Queryable;
use gapledger::survey::{Edit, Facing, Form, Gap, GapId, Survey, VehicleKind};
use gapledger::window::commands::Command;
use gapledger::window::page::Page;

/// A window on forty gaps: ledger and form are both longer than their room.
fn long() -> (tempfile::TempDir, Window<'static>) {
    let mut survey = Survey::starting(VehicleKind::PanelVan);
    for id in 1..=40 {
        let form = Form::RoundHole {
            diameter_mm: Some(12.0),
        };
        let mut gap = Gap::new(GapId(id), survey.zones[0].id, Facing::Rear, form);
        gap.name = format!("hole {id}");
        survey.apply(Edit::gap(gap)).unwrap();
    }
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("long.ron");
    std::fs::write(&path, gapledger::survey::file::print(&survey)).unwrap();
    let mut window = opened(&path);
    window.set_size(vec2(1280.0, 760.0));
    click_button(&mut window, "Both");
    window.run();
    (folder, window)
}

fn wheel(window: &mut Window<'_>, at: Pos2, by: f32) {
    window.hover_at(at);
    window.step();
    for _ in 0..3 {
        window.event(Event::MouseWheel {
            unit: MouseWheelUnit::Point,
            delta: vec2(0.0, by),
            phase: TouchPhase::Move,
            modifiers: Modifiers::NONE,
            source: MouseWheelSource::Wheel,
        });
        window.run();
    }
}

/// A finger that is put down and drawn upwards: what a touch screen tells, and the pointer that
/// follows from it.
fn draw_up(window: &mut Window<'_>, from: Pos2) {
    let touch = |phase, pos| Event::Touch {
        device_id: TouchDeviceId(1),
        id: TouchId(1),
        phase,
        pos,
        force: None,
    };
    let button = |pos, pressed| Event::PointerButton {
        pos,
        button: PointerButton::Primary,
        pressed,
        modifiers: Modifiers::NONE,
    };
    window.event(touch(TouchPhase::Start, from));
    window.event(Event::PointerMoved(from));
    window.event(button(from, true));
    window.step();
    let at = |part: u8| from - vec2(0.0, 12.0 * f32::from(part));
    for part in 1..=8 {
        window.event(touch(TouchPhase::Move, at(part)));
        window.event(Event::PointerMoved(at(part)));
        window.step();
    }
    window.event(touch(TouchPhase::End, at(8)));
    window.event(button(at(8), false));
    window.event(Event::PointerGone);
    window.run_steps(30);
}

/// What may scroll, each by something that goes with it: the second row of the ledger, a heading of
/// the form, and how large the body is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Seen {
    rows: f32,
    form: f32,
    body: f32,
}

fn seen(window: &Window<'_>) -> Seen {
    let row = |window: &Window<'_>| {
        let mut rows: Vec<(u32, f32)> = Vec::new();
        for id in 1..=40 {
            let name = format!("{id} hole {id}:");
            let node = window.query_all_by_label_contains(&name).next();
            rows.extend(node.map(|node| (id, node.rect().top())));
        }
        // Any row tells where the first is.
        let (id, top) = rows[0];
        let (next, below) = rows[1];
        let height = (below - top) / f32::from(u16::try_from(next - id).unwrap());
        top - height * f32::from(u16::try_from(id - 1).unwrap())
    };
    let place = |along: f64| gapledger::survey::Position {
        along_m: Some(along),
        across_m: Some(0.5),
        height_m: Some(1.0),
        rise_m: None,
    };
    let body = window.state().view().gaps.body();
    let from = body.on_screen(Facing::Nearside, &place(1.0)).unwrap();
    let to = body.on_screen(Facing::Nearside, &place(3.0)).unwrap();
    let form = window.get_by_role_and_label(Role::ComboBox, "Form").rect();
    Seen {
        rows: row(window),
        form: form.top(),
        body: (to - from).length(),
    }
}

fn over_ledger(window: &Window<'_>) -> Pos2 {
    let ledger = window.get_by_role_and_label(Role::ListBox, "Gap ledger");
    ledger.rect().center()
}

/// Beside the labels of the form, where nothing else takes the pointer.
fn over_form(window: &Window<'_>) -> Pos2 {
    let form = window.get_by_role_and_label(Role::ComboBox, "Form").rect();
    form.left_center() - vec2(60.0, 0.0)
}

#[test]
fn the_wheel_scrolls_ledger_form_or_body_whichever_is_under_it() {
    let (_folder, mut window) = long();
    let before = seen(&window);
    let at = over_ledger(&window);
    wheel(&mut window, at, -60.0);
    let ledger = seen(&window);
    assert!(ledger.rows < before.rows - 50.0, "{ledger:?} {before:?}");
    assert_eq!((ledger.form, ledger.body), (before.form, before.body));
    let at = over_form(&window);
    wheel(&mut window, at, -20.0);
    let form = seen(&window);
    assert!(form.form < ledger.form - 15.0, "{form:?} {ledger:?}");
    assert_eq!((form.rows, form.body), (ledger.rows, ledger.body));
    let place = gapledger::survey::Position::default();
    let body = window.state().view().gaps.body();
    let at = body.on_screen(Facing::Nearside, &place).unwrap();
    wheel(&mut window, at, 40.0);
    let body = seen(&window);
    assert!(body.body > form.body * 1.1, "{body:?} {form:?}");
    assert_eq!((body.rows, body.form), (form.rows, form.form));
}

#[test]
fn a_finger_drawn_over_ledger_or_form_scrolls_it_and_changes_nothing() {
    let (_folder, mut window) = long();
    window.state_mut().queue().command(Command::TouchSize);
    window.set_size(vec2(1280.0, 900.0));
    window.run();
    let before = seen(&window);
    let gaps = survey(&window).gaps.clone();
    let at = over_ledger(&window);
    draw_up(&mut window, at);
    let ledger = seen(&window);
    assert!(ledger.rows < before.rows - 40.0, "{ledger:?} {before:?}");
    assert_eq!((ledger.form, ledger.body), (before.form, before.body));
    let at = over_form(&window);
    draw_up(&mut window, at);
    let form = seen(&window);
    assert!(form.form < ledger.form - 40.0, "{form:?} {ledger:?}");
    assert_eq!((form.rows, form.body), (ledger.rows, ledger.body));
    assert_eq!(survey(&window).gaps, gaps);
}

#[test]
fn in_touch_size_a_finger_scrolls_the_menu_and_not_the_page_behind_it() {
    let (_folder, mut window) = long();
    window.set_size(vec2(1024.0, 700.0));
    window.state_mut().queue().command(Command::TouchSize);
    window
        .state_mut()
        .queue()
        .command(Command::Show(Page::Vehicle));
    window.run();
    let behind = |window: &Window<'_>| {
        let field = window.get_by_role_and_label(Role::TextInput, "Length");
        field.rect().top()
    };
    let page = behind(&window);
    window.get_by_label("View").click();
    window.run();
    let last = |window: &Window<'_>| window.get_by_label("Touch size").rect();
    let first = last(&window);
    assert!(first.bottom() > 700.0, "the menu is longer: {first:?}");
    let within = window.get_by_label("View").rect().center() + vec2(20.0, 350.0);
    for _ in 0..12 {
        draw_up(&mut window, within);
    }
    let reached = last(&window);
    assert!(reached.bottom() <= 700.0, "{reached:?}");
    assert!((behind(&window) - page).abs() < 0.5);
}
