//! Photos: taken in by path, dialog, drop and paste, shown, removed, kept.

use super::{
    Window, click_button, ctrl, drop_file, hold, press, replace_text, shows, small_survey, survey,
    window,
};
use eframe::egui;
use egui::{Color32, ColorImage, Event, Key};
use egui_kittest::kittest::Queryable;
use gapledger::survey::file::{PhotoState, load, photo_folder, photo_state};
use gapledger::survey::{GapId, Severity};
use gapledger::window::app::Start;
use gapledger::window::picker::{Picked, Way};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::mpsc::sync_channel;

/// A folder with a survey of two gaps, a folder for photos held, and pictures.
pub(crate) struct Site {
    folder: tempfile::TempDir,
    survey: PathBuf,
}

impl Site {
    pub(crate) fn new() -> Self {
        let (folder, survey) = small_survey();
        Self { folder, survey }
    }

    fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    fn start(&self) -> Start {
        Start {
            photo_holding: Some(self.path("holding")),
            ..Start::test(Some(self.survey.clone()))
        }
    }

    pub(crate) fn opened(&self) -> Window<'static> {
        window(self.start())
    }

    /// A picture of one shade, so that each is of other content.
    pub(crate) fn picture(&self, name: &str, shade: u8) -> PathBuf {
        let path = self.path(name);
        image::RgbImage::from_pixel(400, 300, image::Rgb([shade, 80, 40]))
            .save(&path)
            .unwrap();
        path
    }

    fn photos(&self) -> PathBuf {
        photo_folder(&self.survey)
    }
}

pub(crate) fn add(window: &mut Window<'_>, path: &Path) {
    click_button(window, "Add photos…");
    let path = path.display().to_string();
    replace_text(window, "Path of the file", &path);
    press(window, Key::Enter);
    window.run();
}

pub(crate) fn names(window: &Window<'_>, gap: u32) -> Vec<String> {
    let gap = survey(window).gap(GapId(gap)).unwrap();
    gap.photos.iter().map(|photo| photo.name.clone()).collect()
}

#[test]
fn a_photo_is_added_by_path_shown_saved_beside_the_survey_and_there_again() {
    let site = Site::new();
    let mut window = site.opened();
    add(&mut window, &site.picture("door.jpg", 10));
    let name = names(&window, 1)[0].clone();
    assert!(name.ends_with(".jpg") && name != "door.jpg");
    assert!(window.state_mut().unsaved());
    // Until the survey is saved its folder is left alone.
    assert!(!site.photos().exists());
    assert!(site.path("holding").join(&name).exists());
    assert_eq!(window.state().photos().uploaded(), 1);
    ctrl(&mut window, Key::S);
    assert_eq!(photo_state(&site.survey, &name), PhotoState::Present);
    assert!(
        site.photos()
            .join("print")
            .join(format!("{name}.jpg"))
            .exists()
    );
    drop(window);
    let again = window_without_holding(&site);
    assert_eq!(names(&again, 1), [name]);
    assert_eq!(again.state().photos().uploaded(), 1);
    assert!(!shows(&again, "is missing"));
}

fn window_without_holding(site: &Site) -> Window<'static> {
    window(Start::test(Some(site.survey.clone())))
}

#[test]
fn photos_chosen_in_the_dialog_are_one_step_for_undo() {
    let site = Site::new();
    let chosen = vec![site.picture("a.png", 1), site.picture("b.jpg", 200)];
    let mut start = site.start();
    start.picker = Arc::new(move |pick, _, _| {
        assert_eq!(pick.way, Way::Several);
        let (sender, receiver) = sync_channel(1);
        sender.send(Picked::Paths(chosen.clone())).unwrap();
        receiver
    });
    let mut window = window(start);
    click_button(&mut window, "Add photos…");
    window.run();
    assert_eq!(names(&window, 1).len(), 2);
    press(&mut window, Key::Escape);
    ctrl(&mut window, Key::Z);
    assert!(names(&window, 1).is_empty());
    ctrl(&mut window, Key::Y);
    assert_eq!(names(&window, 1).len(), 2);
}

#[test]
fn a_dialog_put_away_at_once_is_not_taken_for_none() {
    let site = Site::new();
    let mut start = site.start();
    start.picker = Arc::new(move |_, _, _| {
        let (sender, receiver) = sync_channel(1);
        sender.send(Picked::Cancelled).unwrap();
        receiver
    });
    let mut window = window(start);
    click_button(&mut window, "Add photos…");
    window.run();
    assert!(!shows(&window, "type the path"));
    ctrl(&mut window, Key::O);
    assert!(window.state().dialog().is_none());
}

#[test]
fn without_a_dialog_the_other_ways_are_told() {
    let site = Site::new();
    let mut window = site.opened();
    click_button(&mut window, "Add photos…");
    window.run();
    assert!(shows(&window, "type the path, or drop the photo"));
}

#[test]
fn files_held_over_the_window_are_told_where_they_go_and_dropped_onto_the_selected_gap() {
    let site = Site::new();
    let mut window = site.opened();
    press(&mut window, Key::ArrowDown);
    let path = site.picture("roof.jpg", 30);
    hold(&mut window, &path);
    assert!(shows(&window, "Drop to add photos to gap 2 “seal 2”"));
    drop_file(&mut window, &path);
    assert_eq!(names(&window, 2).len(), 1);
    assert!(names(&window, 1).is_empty());
    assert!(!shows(&window, "Drop to add"));
}

#[test]
fn a_survey_file_dropped_is_opened() {
    let site = Site::new();
    let mut window = window(Start::test(None));
    drop_file(&mut window, &site.survey);
    assert_eq!(window.state().path(), Some(site.survey.as_path()));
}

#[test]
fn a_picture_and_paths_are_pasted_and_other_text_is_not() {
    let site = Site::new();
    let mut window = site.opened();
    press(&mut window, Key::Escape);
    let image = ColorImage::filled([32, 24], Color32::from_rgb(9, 90, 200));
    window.event(Event::PasteImage(Arc::new(image)));
    window.run();
    let name = names(&window, 1)[0].clone();
    let pasted = image::open(site.path("holding").join(&name))
        .unwrap()
        .to_rgb8();
    assert_eq!(pasted.dimensions(), (32, 24));
    assert_eq!(pasted.get_pixel(5, 5).0, [9, 90, 200]);
    let path = site.picture("two words.jpg", 50);
    let address = format!("file://{}", path.display().to_string().replace(' ', "%20"));
    window.event(Event::Paste(address));
    window.run();
    assert_eq!(names(&window, 1).len(), 2);
    window.event(Event::Paste("just words".into()));
    window.run();
    assert_eq!(names(&window, 1).len(), 2);
}

#[test]
fn what_cannot_be_taken_is_told_with_what_to_do_and_changes_nothing() {
    let site = Site::new();
    let mut window = site.opened();
    for (name, bytes, words) in [
        ("drawing.jpg", &b"<svg width='1'/>"[..], "kind SVG"),
        (
            "phone.jpg",
            b"\0\0\0\x18ftypheic....",
            "save it as JPEG first",
        ),
        ("none.jpg", b"", "is empty"),
        ("half.jpg", b"\xff\xd8\xff\xe0\0\x10JFIF", "cut short"),
    ] {
        let path = site.path(name);
        std::fs::write(&path, bytes).unwrap();
        add(&mut window, &path);
        assert!(shows(&window, words), "{name}");
        assert!(shows(&window, &format!("“{name}” was not added")));
    }
    add(&mut window, Path::new("/nowhere/x.jpg"));
    assert!(shows(&window, "could not be read"));
    assert!(names(&window, 1).is_empty() && !window.state_mut().unsaved());
}

#[test]
fn the_same_photo_is_in_a_gap_once_and_may_be_in_two_gaps() {
    let site = Site::new();
    let mut window = site.opened();
    let path = site.picture("door.jpg", 10);
    add(&mut window, &path);
    add(&mut window, &path);
    assert_eq!(names(&window, 1).len(), 1);
    assert!(shows(&window, "has that photo already"));
    press(&mut window, Key::Escape);
    press(&mut window, Key::ArrowDown);
    add(&mut window, &path);
    assert_eq!(names(&window, 1), names(&window, 2));
}

#[test]
fn a_missing_photo_and_a_broken_one_are_placeholders_and_findings() {
    let site = Site::new();
    let mut window = site.opened();
    add(&mut window, &site.picture("a.jpg", 1));
    add(&mut window, &site.picture("b.jpg", 200));
    ctrl(&mut window, Key::S);
    let names = names(&window, 1);
    drop(window);
    std::fs::remove_file(site.photos().join(&names[0])).unwrap();
    let broken = site.photos().join(&names[1]);
    let whole = std::fs::read(&broken).unwrap();
    std::fs::remove_dir_all(site.photos().join("print")).unwrap();
    std::fs::write(&broken, &whole[..whole.len() / 2]).unwrap();
    let mut window = window_without_holding(&site);
    assert!(shows(&window, "open photo 1 of 2: the file is not there"));
    assert!(shows(
        &window,
        "open photo 2 of 2: the picture is cut short"
    ));
    let findings = &window.state().results().unwrap().findings;
    for (name, words) in [
        (&names[0], "is missing"),
        (&names[1], "is not a complete picture"),
    ] {
        let about = |sentence: &str| sentence.contains(name.as_str()) && sentence.contains(words);
        let finding = findings.iter().find(|finding| about(&finding.sentence));
        assert_eq!(finding.unwrap().severity, Severity::Warning, "{words}");
    }
    assert_eq!(window.state().photos().uploaded(), 0);
    // Put back by hand while the window was elsewhere, it is there again.
    std::fs::write(&broken, whole).unwrap();
    window.event(Event::WindowFocused(true));
    window.run();
    assert_eq!(window.state().photos().uploaded(), 1);
    assert!(!shows(&window, "is not a complete picture"));
}

#[test]
fn a_removed_photo_leaves_the_folder_at_save_and_undo_still_brings_it_back() {
    let site = Site::new();
    let mut window = site.opened();
    add(&mut window, &site.picture("a.jpg", 1));
    ctrl(&mut window, Key::S);
    let name = names(&window, 1)[0].clone();
    let beside = site.photos().join(&name);
    window.get_by_label("remove photo 1").click_accesskit();
    window.run();
    assert!(names(&window, 1).is_empty());
    assert!(beside.exists(), "nothing goes before the save");
    ctrl(&mut window, Key::S);
    assert!(!beside.exists());
    press(&mut window, Key::Escape);
    ctrl(&mut window, Key::Z);
    assert_eq!(names(&window, 1), [name]);
    assert!(shows(&window, "open photo 1 of 1"));
    assert_eq!(window.state().photos().uploaded(), 1);
    ctrl(&mut window, Key::S);
    assert!(beside.exists());
}

#[test]
fn deleting_a_gap_keeps_its_photos_for_undo() {
    let site = Site::new();
    let mut window = site.opened();
    add(&mut window, &site.picture("a.jpg", 1));
    ctrl(&mut window, Key::S);
    press(&mut window, Key::Escape);
    ctrl(&mut window, Key::Delete);
    assert_eq!(survey(&window).gaps.len(), 1);
    ctrl(&mut window, Key::S);
    ctrl(&mut window, Key::Z);
    let name = names(&window, 1)[0].clone();
    ctrl(&mut window, Key::S);
    assert_eq!(photo_state(&site.survey, &name), PhotoState::Present);
}

#[test]
fn save_as_takes_the_photos_along_and_leaves_those_of_the_old_file() {
    let site = Site::new();
    let mut window = site.opened();
    add(&mut window, &site.picture("a.jpg", 1));
    ctrl(&mut window, Key::S);
    let name = names(&window, 1)[0].clone();
    window.key_press_modifiers(egui::Modifiers::COMMAND | egui::Modifiers::SHIFT, Key::S);
    window.run();
    let other = site.path("other.ron");
    replace_text(
        &mut window,
        "Path of the file",
        &other.display().to_string(),
    );
    press(&mut window, Key::Enter);
    assert_eq!(photo_state(&other, &name), PhotoState::Present);
    assert_eq!(photo_state(&site.survey, &name), PhotoState::Present);
    assert_eq!(load(&other).unwrap().survey, *survey(&window));
}

#[test]
fn photos_that_cannot_be_put_beside_the_survey_are_told_and_kept() {
    let site = Site::new();
    let mut window = site.opened();
    add(&mut window, &site.picture("a.jpg", 1));
    std::fs::write(site.photos(), "a file where the folder should be").unwrap();
    ctrl(&mut window, Key::S);
    window.run();
    assert!(shows(
        &window,
        "1 file(s) could not be put beside the survey"
    ));
    let name = names(&window, 1)[0].clone();
    assert!(site.path("holding").join(name).exists());
    assert!(shows(&window, "open photo 1 of 1"));
}

type Held = Arc<std::sync::Mutex<Vec<Box<dyn FnOnce() + Send>>>>;

/// A worker that works only when told.
fn held() -> (Held, gapledger::window::background::Spawner) {
    let held: Held = Arc::default();
    let kept = Arc::clone(&held);
    let spawner: gapledger::window::background::Spawner = Arc::new(move |work| {
        kept.lock().unwrap().push(work);
        Ok(())
    });
    (held, spawner)
}

fn let_work(held: &Held, window: &mut Window<'_>) {
    let work = std::mem::take(&mut *held.lock().unwrap());
    for piece in work {
        piece();
    }
    window.run();
}

fn closes(window: &Window<'_>) -> bool {
    let output = &window.output().viewport_output[&egui::ViewportId::ROOT];
    output.commands.contains(&egui::ViewportCommand::Close)
}

#[test]
fn the_window_waits_with_closing_until_photos_are_beside_their_survey() {
    let site = Site::new();
    let (held, spawner) = held();
    let mut start = site.start();
    start.photo_spawner = spawner;
    let mut window = window(start);
    add(&mut window, &site.picture("a.jpg", 1));
    assert!(names(&window, 1).is_empty(), "the window does not wait");
    let_work(&held, &mut window);
    let name = names(&window, 1)[0].clone();
    ctrl(&mut window, Key::S);
    window.key_press_modifiers(egui::Modifiers::COMMAND, Key::Q);
    window.step();
    window.step();
    assert!(!closes(&window));
    assert!(shows(&window, "The window then closes"));
    let work = std::mem::take(&mut *held.lock().unwrap());
    for piece in work {
        piece();
    }
    window.step();
    assert!(closes(&window));
    assert_eq!(photo_state(&site.survey, &name), PhotoState::Present);
}

#[test]
fn a_photo_for_a_survey_that_was_left_does_not_land_in_another() {
    let site = Site::new();
    let other = Site::new();
    let (held, spawner) = held();
    let mut start = site.start();
    start.photo_spawner = spawner;
    let mut window = window(start);
    add(&mut window, &site.picture("a.jpg", 1));
    window.state_mut().open_file(&other.survey);
    let_work(&held, &mut window);
    assert_eq!(window.state().path(), Some(other.survey.as_path()));
    assert!(names(&window, 1).is_empty());
}
