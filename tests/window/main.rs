//! The window, driven as a person would: by labels, clicks and keys, without a graphics card.

#![expect(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "helpers of tests stop the test"
)]

mod body;
mod counts;
mod dates;
mod division;
mod drying;
mod fields;
mod files;
mod fits;
mod fittings;
mod focus;
mod frame;
mod gaps;
mod glyphs;
mod help;
mod in_short;
mod keep;
mod killed;
mod ledger;
mod lightbox;
mod loggers;
mod looks;
mod many;
mod measurements;
mod once;
mod pages;
mod photos;
mod plan;
mod plan_work;
mod protected;
mod quick;
mod scroll;
mod sheet;
mod sight;
mod site;
mod spaces;
mod start;
mod surveyor;
mod trial_keys;
mod trials;
mod uncertainty;
mod units;
mod usual;
mod walk;
mod winter;

use eframe::egui;
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};
use gapledger::assess::uncertainty::Uncertainty;
use gapledger::assess::{Assessment, NotKnown, Study};
use gapledger::report::Material;
use gapledger::report::key_results::{KeyResult, key_results};
use gapledger::survey::{Edit, Facing, Form, Gap, GapId, GapPart, Record, Survey, VehicleKind};
use gapledger::window::app::{App, Start};
use std::path::{Path, PathBuf};

/// The window as tests drive it.
pub type Window<'a> = Harness<'a, App>;

/// The window at 1280 × 900 with what it starts with; on the Gaps page the ledger has all of the
/// width, so that every card of the form is in sight.
pub fn window(start: Start) -> Window<'static> {
    let mut harness = Harness::builder()
        .with_size(egui::vec2(1280.0, 900.0))
        .with_max_steps(30)
        .build_eframe(|cc| App::new(cc, start));
    harness.run();
    // A click beside a question would put it away.
    if harness.state().dialog().is_none()
        && let Some(ledger) = harness.query_by_role_and_label(Role::Button, "Ledger")
    {
        ledger.click();
    }
    harness.run();
    harness
}

/// The window with a file open.
pub fn opened(path: &Path) -> Window<'static> {
    window(Start::test(Some(path.to_owned())))
}

/// A sample survey of the repository.
pub fn sample(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("sample-surveys")
        .join(name)
}

/// A survey with two sized gaps, written to a folder of its own.
pub fn small_survey() -> (tempfile::TempDir, PathBuf) {
    let mut survey = Survey::new(VehicleKind::TouringCaravan);
    survey.vehicle.length_m = Some(5.0);
    survey.vehicle.width_m = Some(2.3);
    survey.vehicle.height_m = Some(2.6);
    survey.vehicle.floor_height_m = Some(0.5);
    survey.vehicle.inside_length_m = Some(4.8);
    survey.vehicle.inside_width_m = Some(2.2);
    survey.vehicle.inside_height_m = Some(1.95);
    survey.appliances_confirmed = true;
    for (id, facing, height) in [(1, Facing::Nearside, 0.6), (2, Facing::Offside, 2.4)] {
        let form = Form::NarrowGap {
            length_mm: Some(1000.0),
            width_mm: Some(2.0),
            depth_mm: Some(20.0),
            bends: 0,
        };
        let mut gap = Gap::new(GapId(id), survey.zones[4].id, facing, form);
        gap.name = format!("seal {id}");
        gap.part = GapPart::FixedJoint;
        gap.position.height_m = Some(height);
        survey.apply(Edit::Put(Record::Gap(Box::new(gap)))).unwrap();
    }
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("small.ron");
    std::fs::write(&path, gapledger::survey::file::print(&survey)).unwrap();
    (folder, path)
}

/// Presses a key with Ctrl.
pub fn ctrl(window: &mut Window<'_>, key: Key) {
    window.key_press_modifiers(Modifiers::COMMAND, key);
    window.run();
}

/// Goes to the Air change page and unfolds all of it.
pub fn air_change(window: &mut Window<'_>) {
    ctrl(window, Key::Num3);
    if window.state().view().air_change.unfolded() > 0 {
        return;
    }
    for heading in [
        "Weather cases side by side",
        "Air through each gap",
        "How sure, and what to measure next",
        "Air changes against the wind",
        "Warmth, parking, doors inside",
    ] {
        window
            .get_by_role_and_label(Role::Button, heading)
            .click_accesskit();
        window.run();
    }
    assert_eq!(window.state().view().air_change.unfolded(), 5);
}

/// Presses a key.
pub fn press(window: &mut Window<'_>, key: Key) {
    window.key_press(key);
    window.run();
}

/// Clicks the button with this name.
pub fn click_button(window: &mut Window<'_>, name: &str) {
    window.get_by_role_and_label(Role::Button, name).click();
    window.run();
}

/// Types into whatever has the focus.
pub fn type_text(window: &mut Window<'_>, text: &str) {
    window.event(egui::Event::Text(text.to_owned()));
    window.run();
}

/// Replaces the text of the input with this name.
pub fn replace_text(window: &mut Window<'_>, name: &str, text: &str) {
    window.get_by_role_and_label(Role::TextInput, name).focus();
    window.run();
    window.key_press_modifiers(Modifiers::COMMAND, Key::A);
    window.run();
    type_text(window, text);
}

/// What stands in the input with this name.
pub fn text_of(window: &Window<'_>, name: &str) -> String {
    window
        .get_by_role_and_label(Role::TextInput, name)
        .accesskit_node()
        .value()
        .unwrap_or_default()
}

/// Whether a label with these words is shown.
pub fn shows(window: &Window<'_>, words: &str) -> bool {
    window.query_all_by_label_contains(words).next().is_some()
}

/// What the strip is to show.
pub fn strip(
    survey: &Survey,
    assessment: &Assessment,
    uncertainty: Option<&Uncertainty>,
) -> [KeyResult; 5] {
    let study = Study::of(survey);
    key_results(&Material {
        study: &study,
        survey,
        assessment,
        comparison: &Err(NotKnown::because("it is not asked for")),
        uncertainty,
        uncertainty_before: None,
    })
}

/// The survey in the window.
pub fn survey<'a>(window: &'a Window<'_>) -> &'a Survey {
    window.state().survey().unwrap()
}

#[derive(Debug)]
struct Dropped(PathBuf);

impl egui::DroppedFile for Dropped {
    fn path(&self) -> &Path {
        &self.0
    }
    fn bytes(&self) -> Result<Vec<u8>, String> {
        std::fs::read(&self.0).map_err(|error| error.to_string())
    }
}

/// Holds a file over the window.
pub fn hold(window: &mut Window<'_>, path: &Path) {
    window.input_mut().hovered_files.push(egui::HoveredFile {
        path: Some(path.to_owned()),
        ..egui::HoveredFile::default()
    });
    window.step();
    window.step();
}

/// Drops a file onto the window.
pub fn drop_file(window: &mut Window<'_>, path: &Path) {
    drop_files(window, &[path]);
}

/// Drops several files at once onto the window.
pub fn drop_files(window: &mut Window<'_>, paths: &[&Path]) {
    window.input_mut().hovered_files.clear();
    for path in paths {
        let dropped = std::sync::Arc::new(Dropped((*path).to_owned()));
        window.input_mut().dropped_files.push(dropped);
    }
    window.run();
}
