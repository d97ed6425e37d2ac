//! The Job sheet page: choosing, seeing and writing.

use crate::*;
use gapledger::sheet::{Kind, Part};
use gapledger::window::commands::Command;
use gapledger::window::page::Page;
use gapledger::window::questions::Dialog;
use gapledger::window::typesetting::Setter;
use std::fs;

fn on_the_page() -> (tempfile::TempDir, Window<'static>) {
    let (folder, path) = small_survey();
    let mut window = opened(&path);
    ctrl(&mut window, Key::Num6);
    assert_eq!(window.state().view().page, Page::JobSheet);
    (folder, window)
}

fn command(window: &mut Window<'_>, command: Command) {
    window.state_mut().queue().command(command);
    window.run();
}

fn choose(window: &mut Window<'_>, role: Role, name: &str) {
    window.get_by_role_and_label(role, name).click();
    window.run();
}

/// The number of pages that the page tells.
fn pages(window: &Window<'_>) -> usize {
    let images = window.query_all_by_role(Role::Image);
    let labels: Vec<String> = images
        .filter_map(|image| image.accesskit_node().label())
        .collect();
    let of = labels
        .iter()
        .filter(|label| label.starts_with("Page 1 of "))
        .collect::<Vec<_>>();
    assert_eq!(of.len(), 1, "{labels:?}");
    of[0].trim_start_matches("Page 1 of ").parse().unwrap()
}

#[test]
fn choices_set_the_pages_anew() {
    let (_folder, mut window) = on_the_page();
    let report = pages(&window);
    assert!(report >= 4, "{report}");
    choose(&mut window, Role::RadioButton, "work order");
    let order = pages(&window);
    assert!(order < report, "{order} {report}");
    choose(&mut window, Role::CheckBox, "drawings");
    assert!(pages(&window) <= order);
    let choices = &window.state().view().job_sheet.choices;
    assert_eq!(choices.kind, Kind::WorkOrder);
    assert!(!choices.parts.contains(&Part::Drawings));
    choose(&mut window, Role::RadioButton, "Letter");
    assert!(shows(&window, " page"));
}

#[test]
fn the_sheet_and_the_tables_are_written_and_nothing_is_lost_unasked() {
    let (folder, mut window) = on_the_page();
    let path = |name: &str| folder.path().join(name);
    for (asked, name, begins) in [
        (Command::SaveSheet, "sheet.pdf", "%PDF-"),
        (Command::SaveLedger, "ledger.csv", "gap,"),
        (Command::SavePlan, "plan.csv", "order,"),
    ] {
        command(&mut window, asked);
        replace_text(
            &mut window,
            "Path of the file",
            &path(name).to_string_lossy(),
        );
        click_button(&mut window, "Write");
        let bytes = fs::read(path(name)).unwrap();
        assert!(bytes.starts_with(begins.as_bytes()), "{name}");
        assert!(shows(&window, "Written to "));
    }
    fs::write(path("ledger.csv"), "precious").unwrap();
    command(&mut window, Command::SaveLedger);
    replace_text(
        &mut window,
        "Path of the file",
        &path("ledger.csv").to_string_lossy(),
    );
    click_button(&mut window, "Write");
    assert!(matches!(
        window.state().dialog(),
        Some(Dialog::Replace { .. })
    ));
    assert_eq!(fs::read_to_string(path("ledger.csv")).unwrap(), "precious");
    click_button(&mut window, "Overwrite");
    assert!(
        fs::read_to_string(path("ledger.csv"))
            .unwrap()
            .starts_with("gap,")
    );
    let survey = path("small.ron");
    let before = fs::read(&survey).unwrap();
    click_button(&mut window, "Save as PDF…");
    replace_text(&mut window, "Path of the file", &survey.to_string_lossy());
    click_button(&mut window, "Write");
    click_button(&mut window, "Overwrite");
    assert_eq!(fs::read(&survey).unwrap(), before);
    assert!(shows(&window, "never overwritten"));
}

#[test]
fn the_workshop_is_printed_when_its_field_is_left() {
    let (folder, mut window) = on_the_page();
    replace_text(&mut window, "Name", "Invented Workshop");
    assert_eq!(window.state().view().job_sheet.choices.workshop.name, "");
    press(&mut window, Key::Tab);
    assert_eq!(
        window.state().view().job_sheet.choices.workshop.name,
        "Invented Workshop"
    );
    replace_text(&mut window, "Name", "Another");
    press(&mut window, Key::Escape);
    assert_eq!(
        window.state().view().job_sheet.choices.workshop.name,
        "Invented Workshop"
    );
    let logo = folder.path().join("none.png");
    replace_text(&mut window, "Path of the logo", &logo.to_string_lossy());
    press(&mut window, Key::Tab);
    assert!(shows(&window, "the logo: "));
    let survey = window.state().survey().unwrap().clone();
    assert_eq!(survey.gaps.len(), 2, "choosing changes no survey");
    assert!(!window.state_mut().unsaved());
}

#[test]
fn edits_are_on_the_pages_when_they_are_seen_next() {
    let (_folder, mut window) = on_the_page();
    let before = pages(&window);
    ctrl(&mut window, Key::Num2);
    for _ in 0..60 {
        window.key_press_modifiers(Modifiers::COMMAND, Key::N);
        window.run();
    }
    ctrl(&mut window, Key::Num6);
    assert!(pages(&window) > before, "{} {before}", pages(&window));
}

#[test]
fn an_idle_page_asks_for_no_frame() {
    let (_folder, mut window) = on_the_page();
    window.run();
    assert_eq!(window.run(), 1, "nothing is left to draw");
}

/// Whom the work is for belongs to the survey; what the workshop says is its own.
#[test]
fn a_quotation_is_made_out_on_the_page() {
    let (_folder, mut window) = on_the_page();
    choose(&mut window, Role::RadioButton, "quotation");
    replace_text(&mut window, "Customer", "Nobody & Daughters");
    press(&mut window, Key::Tab);
    replace_text(&mut window, "Valid until", "soon");
    press(&mut window, Key::Tab);
    let job = window.state().survey().unwrap().job.clone();
    assert_eq!(
        (job.customer.as_str(), job.valid_until.as_str()),
        ("Nobody & Daughters", "")
    );
    // What is no date is refused at its field, and a date is taken.
    assert!(shows(&window, "is no date: write it as year-month-day"));
    replace_text(&mut window, "Valid until", "2026-12-24");
    press(&mut window, Key::Tab);
    let job = window.state().survey().unwrap().job.clone();
    assert_eq!(job.valid_until, "2026-12-24");
    assert!(window.state_mut().unsaved());
    assert_eq!(
        window.state().view().job_sheet.choices.kind,
        Kind::Quotation
    );
}

#[test]
fn the_logo_is_chosen_by_its_path_in_a_dialog() {
    let (folder, mut window) = on_the_page();
    let logo = folder.path().join("logo.png");
    image::RgbImage::new(8, 8).save(&logo).unwrap();
    let choose = window.get_by_role_and_label(Role::Button, "Choose the logo…");
    choose.focus();
    window.run();
    press(&mut window, Key::Enter);
    replace_text(&mut window, "Path of the file", &logo.to_string_lossy());
    click_button(&mut window, "Choose");
    assert_eq!(
        window.state().view().job_sheet.choices.logo,
        logo.display().to_string()
    );
}

#[test]
fn a_picture_dropped_on_the_page_is_the_logo_and_no_photo_of_a_gap() {
    let (folder, mut window) = on_the_page();
    let logo = folder.path().join("logo.png");
    image::RgbImage::new(8, 8).save(&logo).unwrap();
    hold(&mut window, &logo);
    assert!(shows(
        &window,
        "Drop a picture to make it the workshop\u{2019}s logo"
    ));
    assert!(!shows(&window, "Drop to add photos"));
    drop_file(&mut window, &logo);
    let chosen = |window: &Window<'_>| window.state().view().job_sheet.choices.logo.clone();
    assert_eq!(chosen(&window), logo.display().to_string());
    assert_eq!(window.state().view().page, Page::JobSheet);
    assert!(!shows(&window, "the logo: "));
    assert!(pages(&window) >= 4);
    let survey = window.state().survey().unwrap();
    assert!(survey.gaps.iter().all(|gap| gap.photos.is_empty()));
    assert!(!window.state_mut().unsaved());
    // What is no picture is told, with the sheet held back until another is chosen.
    let notes = folder.path().join("notes.svg");
    fs::write(&notes, "no picture").unwrap();
    drop_file(&mut window, &notes);
    assert_eq!(chosen(&window), notes.display().to_string());
    assert!(shows(&window, "the logo: "));
    drop_file(&mut window, &logo);
    assert!(!shows(&window, "the logo: "));
}

/// The sheet of the survey at `path` set by another process.
fn set_by(program: &std::path::Path, path: &std::path::Path) -> Window<'static> {
    let mut window = window(Start {
        setter: Setter::Program(program.to_owned()),
        ..Start::test(Some(path.to_owned()))
    });
    ctrl(&mut window, Key::Num6);
    window
}

#[test]
fn another_process_sets_the_same_sheet() {
    let (folder, path) = small_survey();
    let mut written = Vec::new();
    for (name, mut window) in [
        ("here.pdf", opened(&path)),
        (
            "there.pdf",
            set_by(env!("CARGO_BIN_EXE_gapledger").as_ref(), &path),
        ),
    ] {
        ctrl(&mut window, Key::Num6);
        assert!(pages(&window) >= 4, "{name}");
        command(&mut window, Command::SaveSheet);
        let file = folder.path().join(name);
        replace_text(&mut window, "Path of the file", &file.to_string_lossy());
        click_button(&mut window, "Write");
        written.push(fs::read(file).unwrap());
    }
    assert!(written[0].starts_with(b"%PDF-"));
    assert!(written[0] == written[1], "the PDFs differ");
}

#[cfg(unix)]
#[test]
fn the_window_survives_a_typesetter_that_is_starved_or_killed() {
    use std::os::unix::fs::PermissionsExt;
    let (folder, path) = small_survey();
    let program = folder.path().join("starved");
    let itself = env!("CARGO_BIN_EXE_gapledger");
    for (lines, told) in [
        (
            format!("exec '{itself}' \"$@\" --megabytes 1"),
            "The sheet took more than 1 MB of memory and was given up: leave parts out",
        ),
        (
            format!("exec '{itself}' \"$@\" --seconds 0"),
            "The sheet was not set after 0 seconds and was given up: leave parts out",
        ),
        (
            "kill -9 $$".to_owned(),
            "because its worker did not finish: signal: 9 (SIGKILL)",
        ),
    ] {
        fs::write(&program, format!("#!/bin/sh\n{lines}\n")).unwrap();
        fs::set_permissions(&program, fs::Permissions::from_mode(0o700)).unwrap();
        let mut window = set_by(&program, &path);
        assert!(shows(&window, told), "{lines}");
        assert!(!window.state_mut().unsaved());
        // The next try is whole.
        fs::write(&program, format!("#!/bin/sh\nexec '{itself}' \"$@\"\n")).unwrap();
        click_button(&mut window, "Set the pages again");
        assert!(pages(&window) >= 4, "{lines}");
    }
}
