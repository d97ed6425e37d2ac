//! What was in the way of somebody who surveys a vehicle by mouse, keyboard and finger.

use super::photos::{Site, add};
use super::{
    Window, click_button, ctrl, opened, press, replace_text, shows, small_survey, survey, text_of,
    type_text, window,
};
use eframe::egui;
use egui::accesskit::Role;
use egui::{Event, Key, Modifiers, PointerButton, Pos2, Rect, vec2};
use egui_kittest::kittest::Queryable;
use gapledger::survey::file::load;
use gapledger::survey::{Edit, Facing, Form, GapId, PhotoMark, Position, Severity, ZoneId};
use gapledger::window::app::Start;
use gapledger::window::commands::Command;

fn sizes(window: &Window<'_>) -> (Option<f64>, Option<f64>) {
    match survey(window).gap(GapId(1)).unwrap().form {
        Form::NarrowGap {
            length_mm,
            width_mm,
            ..
        } => (length_mm, width_mm),
        _ => (None, None),
    }
}

fn key(key: Key) -> Event {
    Event::Key {
        key,
        physical_key: None,
        pressed: true,
        repeat: false,
        modifiers: Modifiers::NONE,
    }
}

/// Everything in one frame, as on a machine that is slower than the fingers.
fn at_once(window: &mut Window<'_>, events: Vec<Event>) {
    window.input_mut().events.extend(events);
    window.run();
}

fn text(text: &str) -> Event {
    Event::Text(text.to_owned())
}

fn click_at(window: &mut Window<'_>, pos: Pos2) {
    window.event(Event::PointerMoved(pos));
    for pressed in [true, false] {
        window.event(Event::PointerButton {
            pos,
            button: PointerButton::Primary,
            pressed,
            modifiers: Modifiers::NONE,
        });
    }
    window.run();
}

fn focused(window: &Window<'_>, role: Role, name: &str) -> bool {
    let node = window.query_by_role_and_label(role, name);
    node.is_some_and(|node| node.is_focused())
}

fn selected(window: &Window<'_>) -> Vec<GapId> {
    window.state().view().gaps.chosen_in(survey(window))
}

#[test]
fn of_refused_text_no_fragment_is_left_behind() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    replace_text(&mut window, "Length", "3");
    for letter in ["0", " ", "c", "n"] {
        type_text(&mut window, letter);
    }
    press(&mut window, Key::Tab);
    assert_eq!(text_of(&window, "Length"), "30 cn");
    assert_eq!(sizes(&window), (Some(1000.0), Some(2.0)));
    ctrl(&mut window, Key::S);
    assert!(!window.state_mut().unsaved());
    assert_eq!(&load(&path).unwrap().survey, survey(&window));
    // Esc gives the value before the edit, and there is nothing to undo.
    window
        .get_by_role_and_label(Role::TextInput, "Length")
        .focus();
    window.run();
    press(&mut window, Key::Escape);
    assert_eq!(text_of(&window, "Length"), "1000");
    ctrl(&mut window, Key::Z);
    assert_eq!(sizes(&window), (Some(1000.0), Some(2.0)));
}

#[test]
fn what_is_typed_faster_than_the_frames_goes_into_the_field_it_was_typed_into() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    replace_text(&mut window, "Length", "3");
    at_once(&mut window, vec![text("0"), text(" cn"), key(Key::Tab)]);
    assert_eq!(text_of(&window, "Length"), "30 cn");
    assert_eq!(sizes(&window), (Some(1000.0), Some(2.0)));
    replace_text(&mut window, "Length", "4");
    let both = vec![text("50"), key(Key::Tab), text("1,5"), key(Key::Enter)];
    at_once(&mut window, both);
    assert_eq!(sizes(&window), (Some(450.0), Some(1.5)));
}

#[test]
fn the_first_click_on_a_field_selects_all_of_it_and_the_next_sets_the_caret() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    let at = |window: &Window<'_>, name: &str| {
        let node = window.get_by_role_and_label(Role::TextInput, name);
        node.rect().center()
    };
    let place = at(&window, "Length");
    click_at(&mut window, place);
    type_text(&mut window, "250");
    assert_eq!(sizes(&window).0, Some(250.0));
    let place = at(&window, "What it is");
    click_at(&mut window, place);
    type_text(&mut window, "sill");
    assert_eq!(survey(&window).gap(GapId(1)).unwrap().name, "sill");
    click_at(&mut window, place);
    type_text(&mut window, "s");
    assert_eq!(survey(&window).gap(GapId(1)).unwrap().name, "sills");
}

#[test]
fn a_list_opened_by_mouse_takes_the_keyboard_and_the_rows_stay_selected() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    ctrl(&mut window, Key::A);
    assert_eq!(selected(&window), [GapId(1), GapId(2)]);
    let zone = survey(&window).gap(GapId(1)).unwrap().zone;
    let of_all = "Zone, all selected gaps";
    window.get_by_role_and_label(Role::ComboBox, of_all).click();
    window.run();
    assert!(egui::Popup::is_any_open(&window.ctx));
    press(&mut window, Key::ArrowUp);
    // Nothing is chosen until Enter.
    assert_eq!(survey(&window).gap(GapId(1)).unwrap().zone, zone);
    assert_eq!(selected(&window), [GapId(1), GapId(2)]);
    press(&mut window, Key::Enter);
    assert!(!egui::Popup::is_any_open(&window.ctx));
    assert_eq!(selected(&window), [GapId(1), GapId(2)]);
    let before = survey(&window).zones[3].id;
    for gap in &survey(&window).gaps {
        assert_eq!(gap.zone, before);
    }
    // Esc closes the list and changes nothing.
    window.get_by_role_and_label(Role::ComboBox, of_all).click();
    window.run();
    press(&mut window, Key::ArrowUp);
    press(&mut window, Key::Escape);
    assert!(!egui::Popup::is_any_open(&window.ctx));
    assert!(focused(&window, Role::ComboBox, of_all));
    assert_eq!(survey(&window).gap(GapId(2)).unwrap().zone, before);
}

#[test]
fn a_space_in_a_name_being_spelled_is_a_letter() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    window.get_by_role_and_label(Role::ComboBox, "Form").focus();
    window.run();
    window.input_mut().events.push(text("ring"));
    window.step();
    at_once(&mut window, vec![key(Key::Space), text(" r")]);
    assert!(!egui::Popup::is_any_open(&window.ctx));
    let form = &survey(&window).gap(GapId(1)).unwrap().form;
    assert!(matches!(form, Form::RingGap { .. }), "{form:?}");
}

#[test]
fn undo_takes_back_a_stray_click_says_so_and_selects_what_was_selected() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    click_button(&mut window, "Both");
    window.get_by_label_contains("2 seal 2:").click();
    window.run();
    assert_eq!(selected(&window), [GapId(2)]);
    let free = Position {
        along_m: Some(1.4),
        across_m: Some(2.3),
        height_m: Some(1.1),
        rise_m: None,
    };
    let body = window.state().view().gaps.body();
    let free = body.on_screen(Facing::Offside, &free).unwrap();
    click_at(&mut window, free);
    assert_eq!(survey(&window).gaps.len(), 3);
    assert!(focused(&window, Role::TextInput, "What it is"));
    ctrl(&mut window, Key::Z);
    assert_eq!(survey(&window).gaps.len(), 2);
    assert!(shows(&window, "Undone: gap 3"));
    assert_eq!(selected(&window), [GapId(2)]);
    // Gaps that come back are selected, both of them.
    ctrl(&mut window, Key::A);
    window.state_mut().queue().command(Command::DeleteGap);
    window.run();
    assert!(survey(&window).gaps.is_empty());
    window.state_mut().queue().command(Command::Undo);
    window.run();
    assert!(shows(&window, "Undone: 2 gaps deleted."));
    assert_eq!(selected(&window), [GapId(1), GapId(2)]);
}

#[test]
fn a_caption_stays_when_esc_closes_the_photo() {
    let site = Site::new();
    let mut window = site.opened();
    add(&mut window, &site.picture("a.jpg", 1));
    open_photo(&mut window);
    replace_text(&mut window, "What it shows", "lower corner");
    press(&mut window, Key::Escape);
    let photo = &survey(&window).gap(GapId(1)).unwrap().photos[0];
    assert_eq!(photo.caption, "lower corner");
    assert!(!shows(&window, "Photo 1 of 1 –"));
}

fn open_photo(window: &mut Window<'_>) {
    window.get_by_label_contains("open photo 1 of").click();
    window.run();
}

fn marks(window: &Window<'_>) -> Vec<PhotoMark> {
    let photo = &survey(window).gap(GapId(1)).unwrap().photos[0];
    photo.marks.clone()
}

fn drag(window: &mut Window<'_>, from: (f32, f32), to: (f32, f32)) {
    let rect = window.get_by_role(Role::Image).rect();
    let at = |share: (f32, f32)| rect.min + vec2(share.0 * rect.width(), share.1 * rect.height());
    window.hover_at(at(from));
    window.step();
    window.drag_at(at(from));
    window.step();
    for part in [0.3, 0.7, 1.0] {
        window.hover_at(at(from).lerp(at(to), part));
        window.step();
    }
    window.drop_at(at(to));
    window.run();
}

#[test]
fn any_mark_is_moved_by_its_line_and_none_is_drawn_instead() {
    let site = Site::new();
    let mut window = site.opened();
    add(&mut window, &site.picture("a.jpg", 1));
    open_photo(&mut window);
    window.get_by_label("Arrow").click();
    window.run();
    drag(&mut window, (0.1, 0.1), (0.3, 0.1));
    window.get_by_label("Circle").click();
    window.run();
    drag(&mut window, (0.6, 0.5), (0.7, 0.5));
    assert_eq!(marks(&window).len(), 2);
    // The circle is selected; the arrow is taken by its line all the same.
    drag(&mut window, (0.2, 0.1), (0.2, 0.3));
    assert_eq!(marks(&window).len(), 2);
    assert!((marks(&window)[0].place().1 - 0.3).abs() < 0.01);
    // Now the circle by its line; from its middle something new is drawn.
    drag(&mut window, (0.7, 0.5), (0.7, 0.7));
    assert_eq!(marks(&window).len(), 2);
    assert!((marks(&window)[1].place().1 - 0.7).abs() < 0.01);
    drag(&mut window, (0.2, 0.3), (0.2, 0.35));
    drag(&mut window, (0.6, 0.7), (0.65, 0.7));
    assert_eq!(marks(&window).len(), 3);
}

#[test]
fn marks_are_painted_within_the_photo() {
    let site = Site::new();
    let mut window = site.opened();
    add(&mut window, &site.picture("a.jpg", 1));
    open_photo(&mut window);
    drag(&mut window, (0.9, 0.9), (0.3, 0.9));
    let rect = window.get_by_role(Role::Image).rect();
    let circles: Vec<Rect> = window
        .output()
        .shapes
        .iter()
        .filter_map(|clipped| match &clipped.shape {
            egui::Shape::Circle(circle) => Some((clipped.clip_rect, circle.radius)),
            _ => None,
        })
        .filter(|(_, radius)| *radius > rect.width() / 3.0)
        .map(|(clip, _)| clip)
        .collect();
    assert!(!circles.is_empty());
    for clip in circles {
        assert!(rect.expand(0.5).contains_rect(clip), "{clip:?} {rect:?}");
    }
}

#[test]
fn touch_size_can_be_left_on_a_low_screen() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    window.set_size(vec2(1024.0, 700.0));
    window.state_mut().queue().command(Command::TouchSize);
    window.run();
    window.get_by_label("View").click();
    window.run();
    let entry = |window: &Window<'_>| window.get_by_label("Touch size").rect();
    assert!(entry(&window).top() > 300.0);
    let over = window.get_by_label("View").rect().center() + vec2(20.0, 150.0);
    window.hover_at(over);
    window.step();
    for _ in 0..4 {
        window.event(Event::MouseWheel {
            unit: egui::MouseWheelUnit::Point,
            delta: vec2(0.0, -300.0),
            phase: egui::TouchPhase::Move,
            modifiers: Modifiers::NONE,
            source: egui::MouseWheelSource::Wheel,
        });
        window.run();
    }
    let reached = entry(&window);
    assert!(reached.bottom() <= 700.0, "{reached:?}");
    window.get_by_label("Touch size").click();
    window.run();
    let style = window.ctx.global_style();
    assert!(style.spacing.interact_size.y < 30.0);
}

#[test]
fn a_new_survey_begins_in_its_length() {
    let mut window = window(Start::test(None));
    click_button(&mut window, "panel-van camper");
    assert!(focused(&window, Role::TextInput, "Length"));
    type_text(&mut window, "6");
    assert_eq!(survey(&window).vehicle.length_m, Some(6.0));
}

#[test]
fn enter_after_a_search_edits_a_gap_that_was_found() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    replace_text(&mut window, "Search the ledger", "offside");
    press(&mut window, Key::Enter);
    assert_eq!(selected(&window), [GapId(2)]);
    press(&mut window, Key::Enter);
    replace_text(&mut window, "What it is", "hatch");
    assert_eq!(survey(&window).gap(GapId(2)).unwrap().name, "hatch");
    // Where nothing is found, the keys of the rows reach no gap.
    replace_text(&mut window, "Search the ledger", "nowhere");
    press(&mut window, Key::Enter);
    press(&mut window, Key::Delete);
    press(&mut window, Key::Enter);
    assert_eq!(survey(&window).gaps.len(), 2);
    assert!(!focused(&window, Role::TextInput, "What it is"));
}

#[test]
fn an_error_goes_with_its_cause() {
    let (folder, path) = small_survey();
    let mut window = opened(&path);
    let absent = folder.path().join("absent.ron");
    window.state_mut().open_file(&absent);
    window.run();
    let told = |window: &Window<'_>| window.state().notices().list().len();
    assert_eq!(told(&window), 1);
    replace_text(&mut window, "Length", "900");
    press(&mut window, Key::Tab);
    assert_eq!(told(&window), 1, "an error stays while nothing has changed");
    ctrl(&mut window, Key::S);
    window.state_mut().open_file(&path);
    window.run();
    assert!(!shows(&window, "absent.ron"));
}

#[test]
fn messages_make_room_for_newer_ones_and_go_once_the_user_goes_on() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    let told = |window: &Window<'_>| window.state().notices().list().len();
    window.state_mut().queue().command(Command::CopyGaps);
    window.run();
    assert_eq!(told(&window), 1);
    ctrl(&mut window, Key::S);
    assert!(!shows(&window, "copied"), "news takes the place of news");
    assert!(told(&window) <= 1);
    window.state_mut().queue().command(Command::CopyGaps);
    window.run();
    assert_eq!(told(&window), 1);
    replace_text(&mut window, "Length", "900");
    press(&mut window, Key::Tab);
    assert_eq!(told(&window), 0, "it is not in the way of what comes next");
}

#[test]
fn a_refused_change_is_told_until_another_is_taken() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    let told = |window: &Window<'_>| window.state().notices().list().len();
    let mut gap = survey(&window).gaps[0].clone();
    gap.zone = ZoneId(99);
    window.state_mut().queue().edit(Edit::gap(gap), None);
    window.run();
    assert_eq!(told(&window), 1);
    ctrl(&mut window, Key::S);
    let still = window.state().notices().list();
    assert!(
        still
            .iter()
            .any(|notice| notice.severity == Severity::Warning)
    );
    replace_text(&mut window, "Length", "900");
    press(&mut window, Key::Tab);
    assert_eq!(told(&window), 0);
}

#[test]
fn without_file_dialogs_none_is_offered_and_a_path_is() {
    let mut window = window(Start::test(None));
    click_button(&mut window, "panel-van camper");
    ctrl(&mut window, Key::S);
    window.run();
    assert!(shows(&window, "The system offers no file dialog here"));
    assert!(
        window
            .query_by_role_and_label(Role::Button, "Browse…")
            .is_none()
    );
    let offered = text_of(&window, "Path of the file");
    assert!(offered.ends_with(".ron") && offered.len() > 6, "{offered}");
    // What is typed takes its place.
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("van.ron");
    type_text(&mut window, &path.display().to_string());
    press(&mut window, Key::Enter);
    assert!(load(&path).is_ok());
}

#[test]
fn a_place_beside_the_body_is_refused() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    let across = |window: &Window<'_>| survey(window).gap(GapId(1)).unwrap().position.across_m;
    replace_text(&mut window, "From the nearside", "3.4");
    press(&mut window, Key::Tab);
    assert_eq!(across(&window), None);
    assert!(shows(&window, "outside the body, which ends at 2.3 m"));
    replace_text(&mut window, "From the nearside", "0");
    press(&mut window, Key::Tab);
    assert_eq!(across(&window), Some(0.0));
}
