//! The page In short: the answer, and the ways from it.

use super::{Window, ctrl, opened, sample, shows};
use eframe::egui;
use egui::Key;
use egui::accesskit::Role;
use egui_kittest::kittest::Queryable;
use gapledger::window::commands::Command;
use gapledger::window::page::Page;

fn in_short(window: &mut Window<'_>) {
    ctrl(window, Key::Num7);
    assert_eq!(window.state().view().page, Page::InShort);
    // The answers come from tasks.
    for _ in 0..400 {
        window.run();
        if shows(window, "Never close these") {
            return;
        }
        std::thread::sleep(std::time::Duration::from_millis(25));
    }
    panic!("the page never came");
}

#[test]
fn the_page_says_what_is_wrong_and_its_lines_lead_to_their_pages() {
    let mut window = opened(&sample("farmyard-caravan.ron"));
    for (page, name) in [
        (Page::Gaps, "Gaps: "),
        (Page::AirChange, "Air change: "),
        (Page::DryingHeat, "Drying & heat: "),
    ] {
        in_short(&mut window);
        let found = window.query_all_by(|node| {
            node.role() == Role::Link && node.label().is_some_and(|label| label.starts_with(name))
        });
        let link = found.into_iter().next().expect("a way");
        link.click();
        window.run();
        assert_eq!(window.state().view().page, page);
    }
}

#[test]
fn nothing_of_the_page_is_wider_than_a_small_window() {
    let folder = std::fs::read_dir(sample("")).unwrap();
    let paths = folder.map(|entry| entry.unwrap().path());
    let surveys: Vec<_> = paths
        .filter(|path| path.extension().is_some_and(|ending| ending == "ron"))
        .collect();
    assert_eq!(surveys.len(), 7);
    for path in surveys {
        let name = path.file_name().unwrap().to_string_lossy();
        let mut window = opened(&path);
        window.set_size(egui::vec2(1024.0, 700.0));
        for touch in [false, true] {
            if touch {
                window.state_mut().queue().command(Command::TouchSize);
            }
            in_short(&mut window);
            let roles = [Role::Label, Role::Link, Role::Image, Role::Button];
            let nodes = window.query_all_by(|node| roles.contains(&node.role()));
            let mut seen = 0;
            for node in nodes {
                let rect = node.rect();
                let within = rect.left() >= -0.5 && rect.right() <= 1024.5;
                assert!(within, "{name}, touch {touch}: {rect:?}");
                seen += 1;
            }
            assert!(seen > 20, "{name}: {seen}");
        }
    }
}
