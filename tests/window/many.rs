//! Several gaps at once: copied, pasted, moved, changed in one form, and the menu of a gap.

use super::{
    Window, click_button, ctrl, opened, press, replace_text, shows, small_survey, survey, text_of,
    type_text,
};
use eframe::egui;
use egui::accesskit::Role;
use egui::{Event, Key, Modifiers, OutputCommand, PointerButton, Pos2, vec2};
use egui_kittest::kittest::{NodeT, Queryable};
use gapledger::survey::file::load;
use gapledger::survey::{Edit, Facing, Gap, GapId, Photo, Purpose, Record, WorkState};
use gapledger::window::commands::Command;
use std::path::PathBuf;

/// A survey of four gaps.
fn four() -> (tempfile::TempDir, PathBuf) {
    let (folder, path) = small_survey();
    let mut survey = load(&path).unwrap().survey;
    for id in [3, 4] {
        let mut gap = survey.gaps[0].clone();
        gap.id = GapId(id);
        gap.name = format!("seal {id}");
        gap.position.height_m = Some(f64::from(id) * 0.4);
        survey.apply(Edit::Put(Record::Gap(Box::new(gap)))).unwrap();
    }
    std::fs::write(&path, gapledger::survey::file::print(&survey)).unwrap();
    (folder, path)
}

fn order(window: &Window<'_>) -> Vec<u32> {
    survey(window).gaps.iter().map(|gap| gap.id.0).collect()
}

fn chosen(window: &Window<'_>) -> Vec<u32> {
    let chosen = window.state().view().gaps.chosen_in(survey(window));
    chosen.into_iter().map(|id| id.0).collect()
}

fn gap<'a>(window: &'a Window<'_>, id: u32) -> &'a Gap {
    survey(window).gap(GapId(id)).unwrap()
}

fn row(window: &Window<'_>, id: u32) -> egui::Rect {
    let start = format!("{id} seal");
    let mut rows = window.query_all_by_role(Role::ListBoxOption);
    let row = rows.find(|row| {
        let label = row.accesskit_node().label().unwrap_or_default();
        label.starts_with(&start)
    });
    row.unwrap().rect()
}

fn alt(window: &mut Window<'_>, key: Key) {
    window.key_press_modifiers(Modifiers::ALT, key);
    window.run();
}

/// What Ctrl+C puts on the clipboard, as the toolkit tells of it.
fn copied(window: &mut Window<'_>) -> String {
    window.event(Event::Copy);
    let mut text = None;
    for _ in 0..3 {
        window.step();
        for command in &window.output().platform_output.commands {
            if let OutputCommand::CopyText(copied) = command {
                text = Some(copied.clone());
            }
        }
    }
    window.run();
    text.unwrap()
}

fn paste(window: &mut Window<'_>, text: &str) {
    window.event(Event::Paste(text.to_owned()));
    window.run();
}

fn click(window: &mut Window<'_>, at: Pos2, button: PointerButton) {
    window.event(Event::PointerMoved(at));
    for pressed in [true, false] {
        window.event(Event::PointerButton {
            pos: at,
            button,
            pressed,
            modifiers: Modifiers::NONE,
        });
    }
    window.run();
}

#[test]
fn copied_gaps_are_pasted_here_and_in_another_window_in_one_step() {
    let (_folder, path) = four();
    let mut window = opened(&path);
    window.get_by_label_contains("3 seal 3:").click();
    window.run();
    window.key_press_modifiers(Modifiers::SHIFT, Key::ArrowDown);
    window.run();
    let text = copied(&mut window);
    assert!(shows(&window, "2 gaps copied"));
    paste(&mut window, &text);
    assert_eq!(order(&window), [1, 2, 3, 4, 5, 6]);
    assert_eq!(chosen(&window), [5, 6]);
    assert_eq!(gap(&window, 5).name, "seal 3");
    assert!(shows(&window, "2 gaps pasted"));
    ctrl(&mut window, Key::Z);
    assert_eq!(order(&window), [1, 2, 3, 4]);
    // The other window has another survey, with other zones.
    let (_other_folder, other) = small_survey();
    let mut loaded = load(&other).unwrap().survey;
    let known = loaded.zones.len();
    loaded.zones[4].name = "somewhere else".to_owned();
    std::fs::write(&other, gapledger::survey::file::print(&loaded)).unwrap();
    let mut other = opened(&other);
    paste(&mut other, &text);
    assert_eq!(order(&other), [1, 2, 3, 4]);
    assert_eq!(survey(&other).zones.len(), known + 1);
    ctrl(&mut other, Key::Z);
    assert_eq!(
        (survey(&other).zones.len(), order(&other).len()),
        (known, 2)
    );
}

#[test]
fn text_goes_into_text_and_other_text_is_refused_in_a_sentence() {
    let (_folder, path) = four();
    let mut window = opened(&path);
    let before = survey(&window).clone();
    paste(&mut window, "a letter");
    assert!(shows(&window, "What is on the clipboard are no gaps"));
    paste(&mut window, "// Gapledger gaps 1\n(format:2,gaps:[(id:1");
    assert!(shows(&window, "cut short or damaged"));
    assert_eq!(*survey(&window), before);
    // In a field the same keys are the text's own.
    replace_text(&mut window, "What it is", "");
    paste(&mut window, "a letter");
    assert_eq!(text_of(&window, "What it is"), "a letter");
    ctrl(&mut window, Key::A);
    type_text(&mut window, "lid");
    assert_eq!(gap(&window, 1).name, "lid");
    assert_eq!(chosen(&window), [1]);
}

#[test]
fn photos_and_the_work_stay_with_what_was_copied_and_it_is_said() {
    let (_folder, path) = four();
    let mut loaded = load(&path).unwrap().survey;
    loaded.gaps[0].photos.push(Photo::new("one.jpg"));
    loaded.gaps[0].state = WorkState::Sealed;
    std::fs::write(&path, gapledger::survey::file::print(&loaded)).unwrap();
    let mut window = opened(&path);
    let text = copied(&mut window);
    assert!(shows(&window, "1 photo stays here."));
    paste(&mut window, &text);
    assert!(shows(&window, "photos and the state of the work stay"));
    assert!(gap(&window, 5).photos.is_empty());
    assert_eq!(gap(&window, 5).state, WorkState::Open);
    window.get_by_label_contains("1 seal 1:").click();
    window.run();
    ctrl(&mut window, Key::D);
    assert!(gap(&window, 6).photos.is_empty());
    assert!(shows(&window, "Photos stay with the gap"));
}

#[test]
fn rows_are_moved_by_keys_in_one_step_each_and_the_order_is_saved() {
    let (_folder, path) = four();
    let mut window = opened(&path);
    window.get_by_label_contains("4 seal 4:").click();
    window.run();
    alt(&mut window, Key::ArrowUp);
    alt(&mut window, Key::ArrowUp);
    assert_eq!(order(&window), [1, 4, 2, 3]);
    assert_eq!(chosen(&window), [4]);
    alt(&mut window, Key::ArrowDown);
    assert_eq!(order(&window), [1, 2, 4, 3]);
    ctrl(&mut window, Key::S);
    let read = load(&path).unwrap().survey;
    assert_eq!(&read, survey(&window));
    ctrl(&mut window, Key::Z);
    assert!(shows(&window, "Undone: order of the gaps."));
    assert_eq!(order(&window), [1, 4, 2, 3]);
    assert_eq!(chosen(&window), [4]);
    // Rows that are sorted for the eye have no order that could be changed.
    window.get_by_label("Sort by name").click();
    window.run();
    alt(&mut window, Key::ArrowUp);
    assert!(shows(&window, "The rows are sorted by a column"));
    assert_eq!(order(&window), [1, 4, 2, 3]);
}

fn carry(window: &mut Window<'_>, from: Pos2, to: Pos2) {
    window.hover_at(from);
    window.step();
    window.drag_at(from);
    window.step();
    for share in [0.2, 0.6, 1.0] {
        window.hover_at(from.lerp(to, share));
        window.step();
    }
}

#[test]
fn a_row_is_dragged_by_its_number_and_esc_leaves_it() {
    let (_folder, path) = four();
    let mut window = opened(&path);
    let number = |window: &Window<'_>, id| row(window, id).left_center() + vec2(16.0, 0.0);
    let (from, to) = (number(&window, 4), number(&window, 2) - vec2(0.0, 8.0));
    carry(&mut window, from, to);
    window.drop_at(to);
    window.run();
    assert_eq!(order(&window), [1, 4, 2, 3]);
    let from = number(&window, 4);
    let below = number(&window, 3) + vec2(0.0, 60.0);
    carry(&mut window, from, below);
    press(&mut window, Key::Escape);
    window.drop_at(below);
    window.run();
    assert_eq!(order(&window), [1, 4, 2, 3]);
    let from = number(&window, 1);
    carry(&mut window, from, below);
    window.drop_at(below);
    window.run();
    assert_eq!(order(&window), [4, 2, 3, 1]);
    ctrl(&mut window, Key::Z);
    assert_eq!(order(&window), [1, 4, 2, 3]);
    // A click there is a click on the row.
    let at = number(&window, 3);
    click(&mut window, at, PointerButton::Primary);
    assert_eq!(chosen(&window), [3]);
}

fn menu_is_open(window: &Window<'_>) -> bool {
    egui::Popup::is_any_open(&window.ctx)
}

fn focused(window: &Window<'_>) -> String {
    let id = window.ctx.memory(|memory| memory.focused());
    let mut all = window.query_all_by(|node| node.is_focused());
    let label = all.next().and_then(|node| node.accesskit_node().label());
    label.unwrap_or_else(|| format!("{id:?}"))
}

#[test]
fn the_menu_of_a_gap_opens_by_right_click_and_by_keys_and_works_by_keyboard() {
    let (_folder, path) = four();
    let mut window = opened(&path);
    let at = row(&window, 3).center();
    click(&mut window, at, PointerButton::Secondary);
    assert!(menu_is_open(&window));
    assert_eq!(chosen(&window), [3]);
    assert_eq!(focused(&window), "Copy gaps");
    press(&mut window, Key::ArrowDown);
    press(&mut window, Key::ArrowDown);
    assert_eq!(focused(&window), "Duplicate gap");
    press(&mut window, Key::Enter);
    assert!(!menu_is_open(&window));
    assert_eq!(order(&window), [1, 2, 3, 4, 5]);
    // Esc closes it, and the ledger has the focus again.
    window.get_by_label_contains("2 seal 2:").click();
    window.run();
    window.key_press_modifiers(Modifiers::SHIFT, Key::F10);
    window.run();
    assert!(menu_is_open(&window));
    press(&mut window, Key::Escape);
    assert!(!menu_is_open(&window));
    assert_eq!(focused(&window), "Gap ledger");
    press(&mut window, Key::ArrowDown);
    assert_eq!(chosen(&window), [3]);
    press(&mut window, Key::Menu);
    press(&mut window, Key::ArrowUp);
    assert_eq!(focused(&window), "Delete gap");
    press(&mut window, Key::Enter);
    assert_eq!(order(&window), [1, 2, 4, 5]);
    // A right click on one of several selected keeps them.
    ctrl(&mut window, Key::A);
    let at = row(&window, 2).center();
    click(&mut window, at, PointerButton::Secondary);
    assert_eq!(chosen(&window), [1, 2, 4, 5]);
}

#[test]
fn the_menu_opens_on_the_drawing_too() {
    let (_folder, path) = four();
    let mut window = opened(&path);
    click_button(&mut window, "Both");
    let body = window.state().view().gaps.body();
    let mark = body.mark_on_screen(GapId(2)).unwrap();
    click(&mut window, mark, PointerButton::Secondary);
    assert!(menu_is_open(&window));
    assert_eq!(chosen(&window), [2]);
    press(&mut window, Key::Escape);
    click(&mut window, mark, PointerButton::Primary);
    window.key_press_modifiers(Modifiers::SHIFT, Key::F10);
    window.run();
    assert!(menu_is_open(&window));
}

fn choose(window: &mut Window<'_>, field: &str, down: usize) {
    let name = format!("{field}, all selected gaps");
    window.get_by_role_and_label(Role::ComboBox, &name).focus();
    window.run();
    for _ in 0..down {
        press(window, Key::ArrowDown);
    }
}

#[test]
fn the_form_of_several_says_how_many_and_what_differs_and_changes_all() {
    let (_folder, path) = four();
    let mut window = opened(&path);
    ctrl(&mut window, Key::A);
    assert_eq!(chosen(&window), [1, 2, 3, 4]);
    assert!(shows(&window, "4 gaps selected"));
    assert!(shows(&window, "3 nearside (left) and 1 offside (right)."));
    assert!(
        window
            .query_by_role_and_label(Role::TextInput, "Length")
            .is_none()
    );
    // Enter goes to the form, as with one gap.
    press(&mut window, Key::Enter);
    assert_eq!(focused(&window), "Zone, all selected gaps");
    choose(&mut window, "Facing", 1);
    for gap in &survey(&window).gaps {
        assert_eq!(gap.facing, Facing::Front);
    }
    assert!(!shows(&window, "1 offside (right)."));
    choose(&mut window, "Size found by", 1);
    let certainty = gap(&window, 1).certainty;
    assert!(
        survey(&window)
            .gaps
            .iter()
            .all(|gap| gap.certainty == certainty)
    );
    ctrl(&mut window, Key::Z);
    ctrl(&mut window, Key::Z);
    assert_eq!(gap(&window, 1).facing, Facing::Nearside);
    assert_eq!(gap(&window, 2).facing, Facing::Offside);
}

#[test]
fn giving_up_what_protects_people_is_asked_of_several_too() {
    let (_folder, path) = four();
    let mut loaded = load(&path).unwrap().survey;
    loaded.gaps[1].purpose = Purpose::GasDropOut;
    std::fs::write(&path, gapledger::survey::file::print(&loaded)).unwrap();
    let mut window = opened(&path);
    ctrl(&mut window, Key::A);
    assert!(shows(&window, "1 of them must stay open"));
    let before = survey(&window).clone();
    // From *different* to the first purpose, which protects nobody.
    choose(&mut window, "Purpose", 1);
    assert!(window.state().dialog().is_some());
    assert_eq!(*survey(&window), before);
    press(&mut window, Key::Escape);
    assert_eq!(*survey(&window), before);
    // What must stay open is not planned with the others.
    choose(&mut window, "State", 1);
    assert_eq!(gap(&window, 2).state, WorkState::Open);
    assert_eq!(gap(&window, 1).state, WorkState::Planned);
}

#[test]
fn the_drawing_marks_all_that_are_selected() {
    let (_folder, path) = four();
    let mut window = opened(&path);
    click_button(&mut window, "Both");
    // The outermost circle round the mark of a gap.
    let ring = |window: &Window<'_>, id: u32| {
        let body = window.state().view().gaps.body();
        let at = body.mark_on_screen(GapId(id)).unwrap();
        let shapes = window.output().shapes.iter();
        let circles = shapes.filter_map(|clipped| match &clipped.shape {
            egui::Shape::Circle(circle) if circle.center.distance(at) < 1.0 => Some(*circle),
            _ => None,
        });
        let outermost = circles.max_by(|a, b| a.radius.total_cmp(&b.radius));
        outermost.map(|circle| circle.stroke.color)
    };
    window.get_by_label_contains("1 seal 1:").click();
    window.run();
    let selected = ring(&window, 1);
    assert!(selected.is_some() && ring(&window, 2) != selected);
    // With Ctrl a mark is selected beside it.
    let body = window.state().view().gaps.body();
    let at = body.mark_on_screen(GapId(2)).unwrap();
    window.event(Event::PointerMoved(at));
    for pressed in [true, false] {
        let button = Event::PointerButton {
            pos: at,
            button: PointerButton::Primary,
            pressed,
            modifiers: Modifiers::COMMAND,
        };
        window.event_modifiers(button, Modifiers::COMMAND);
    }
    window.run();
    assert_eq!(chosen(&window), [1, 2]);
    assert_eq!(ring(&window, 2), selected);
    ctrl(&mut window, Key::A);
    for id in 1..=4 {
        assert_eq!(ring(&window, id), selected, "gap {id}");
    }
}

#[test]
fn a_caret_in_a_field_does_not_have_the_window_drawn_again() {
    let (_folder, path) = four();
    let mut window = opened(&path);
    window
        .get_by_role_and_label(Role::TextInput, "What it is")
        .focus();
    window.run();
    window.event(Event::WindowFocused(true));
    window.run();
    for _ in 0..3 {
        window.step();
    }
    assert_eq!(focused(&window), "What it is");
    let root = &window.output().viewport_output[&egui::ViewportId::ROOT];
    assert_eq!(root.repaint_delay, std::time::Duration::MAX);
}

#[test]
fn a_command_from_the_menu_asks_the_system_for_its_clipboard() {
    let (_folder, path) = four();
    let mut window = opened(&path);
    let text = copied(&mut window);
    // The focus is in a field: what was asked for from the menu is pasted as gaps all the same.
    replace_text(&mut window, "What it is", "lid");
    window.state_mut().queue().command(Command::PasteGaps);
    window.step();
    paste(&mut window, &text);
    assert_eq!(order(&window), [1, 2, 3, 4, 5]);
}
