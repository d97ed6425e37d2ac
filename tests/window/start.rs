//! The start page: surveys that were open last, and samples.

use super::{Window, ctrl, shows, survey, type_text, window};
use eframe::egui::Key;
use eframe::egui::accesskit::Role;
use egui_kittest::kittest::Queryable;
use gapledger::survey::file::{load, print};
use gapledger::survey::{Survey, VehicleKind};
use gapledger::window::app::Start;
use gapledger::window::data_folder::DataFolder;
use gapledger::window::page::Page;
use gapledger::window::samples::SAMPLES;
use std::path::Path;

fn started(data: &Path, path: Option<&Path>) -> Window<'static> {
    let mut window = window(Start {
        data: Some(DataFolder::at(data)),
        samples: SAMPLES,
        photo_holding: Some(data.join("photos")),
        ..Start::test(path.map(Path::to_owned))
    });
    window.state_mut().finish_writing_down();
    window.run();
    window
}

#[test]
fn recent_surveys_are_told_by_title_date_and_kind_and_drawn() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("data");
    let path = folder.path().join("van-of-mine.ron");
    let mut survey = Survey::new(VehicleKind::PanelVan);
    survey.header.title = "Ducks and drakes".to_owned();
    survey.header.date = "2026-11-03".to_owned();
    std::fs::write(&path, print(&survey)).unwrap();
    drop(started(&data, Some(&path)));
    let start = started(&data, None);
    assert!(shows(&start, "2026-11-03, panel-van camper, in "));
    let open = format!("Open {}", path.display());
    let link = start.get_by_role_and_label(Role::Link, &open);
    let beside = link.rect();
    let drawn = start.output().shapes.iter().any(|clipped| {
        let lines = matches!(clipped.shape, eframe::egui::Shape::Path(_));
        let at = clipped.shape.visual_bounding_rect();
        lines
            && at.right() < beside.left()
            && at.center().y > beside.top() - 4.0
            && at.center().y < beside.bottom() + 30.0
    });
    assert!(drawn, "no drawing beside {beside:?}");
    // What has become of a file meanwhile is told and opens nothing by itself.
    std::fs::write(&path, "(".repeat(100_000)).unwrap();
    let start = started(&data, None);
    assert!(shows(&start, "no survey, as far as its beginning shows"));
}

#[test]
fn a_sample_opens_as_a_copy_that_says_so_and_is_saved_only_under_a_name() {
    let folder = tempfile::tempdir().unwrap();
    let mut window = started(&folder.path().join("data"), None);
    for sample in SAMPLES {
        let there = window.query_by_role_and_label(Role::Link, sample.title);
        assert!(there.is_some(), "{}", sample.title);
    }
    let with_photos = SAMPLES.iter().find(|sample| !sample.photos.is_empty());
    let title = with_photos.unwrap().title;
    window.get_by_role_and_label(Role::Link, title).click();
    window.run();
    assert!(shows(&window, "This is a copy of a sample"));
    assert_eq!(survey(&window).header.title, title);
    assert_eq!(window.state().path(), None);
    assert!(!window.state_mut().unsaved());
    // What is told of it goes with it.
    ctrl(&mut window, Key::W);
    assert!(!shows(&window, "This is a copy of a sample"));
    window.get_by_role_and_label(Role::Link, title).click();
    window.run();
    // Its photos are there, and come along when it is saved.
    ctrl(&mut window, Key::Num2);
    assert_eq!(window.state().view().page, Page::Gaps);
    ctrl(&mut window, Key::S);
    let path = folder.path().join("mine.ron");
    ctrl(&mut window, Key::A);
    type_text(&mut window, &path.display().to_string());
    window.key_press(Key::Enter);
    window.run();
    assert_eq!(&load(&path).unwrap().survey, survey(&window));
    let photos = folder.path().join("mine.photos");
    for (name, bytes) in with_photos.unwrap().photos {
        assert_eq!(&std::fs::read(photos.join(name)).unwrap(), bytes);
    }
}

#[test]
fn without_a_folder_of_its_own_the_program_says_what_it_does_not_keep() {
    let window = window(Start {
        no_data_folder: true,
        ..Start::test(None)
    });
    assert!(shows(&window, "not written down for a rescue"));
    assert!(shows(&window, "HOME is not set"));
}
