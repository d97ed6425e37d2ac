//! The ledger as a table: sorting, filtering, selecting several, editing in place.

use super::{Window, click_button, ctrl, opened, press, replace_text, shows, survey, type_text};
use eframe::egui;
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use egui_kittest::kittest::{NodeT, Queryable};
use gapledger::survey::{
    AreaConvention, Behind, Certainty, Edit, Facing, Form, Gap, GapId, GapPart, LeadsTo, Purpose,
    Record, RemedyKind, Survey, VehicleKind, WorkState,
};
use gapledger::window::pages::gaps::Column;
use std::path::PathBuf;

/// Five gaps of stated free areas. Areas of one kind let through in proportion to themselves, so
/// the shares are those of 60, 25, 10 and 5: percent. The last one is not sized.
fn five() -> (tempfile::TempDir, PathBuf) {
    written(|survey| {
        let zones: Vec<_> = survey.zones.iter().map(|zone| zone.id).collect();
        let gaps = [
            ("cable hole", 0, Facing::Underfloor, Some(250.0)),
            ("door seal", 1, Facing::Nearside, Some(600.0)),
            ("roof vent", 2, Facing::Roof, Some(100.0)),
            ("floor vent", 1, Facing::Underfloor, Some(50.0)),
            ("wheel arch", 0, Facing::Offside, None),
        ];
        survey.appliances_confirmed = true;
        for (id, (name, zone, facing, area_mm2)) in (1..).zip(gaps) {
            let mut gap = stated(GapId(id), zones[zone], facing, area_mm2);
            name.clone_into(&mut gap.name);
            if id == 3 {
                gap.note = "Smoke is drawn in at the hinge".to_owned();
                gap.purpose = Purpose::SafetyVentilation;
            }
            survey.apply(Edit::Put(Record::Gap(Box::new(gap)))).unwrap();
        }
    })
}

fn stated(id: GapId, zone: gapledger::survey::ZoneId, facing: Facing, area: Option<f64>) -> Gap {
    let form = Form::StatedArea {
        area_mm2: area,
        convention: AreaConvention::Free,
        exponent: None,
    };
    let mut gap = Gap::new(id, zone, facing, form);
    (gap.part, gap.purpose_confirmed) = (GapPart::FixedJoint, true);
    gap
}

fn written(fill: impl FnOnce(&mut Survey)) -> (tempfile::TempDir, PathBuf) {
    let mut survey = Survey::new(VehicleKind::TouringCaravan);
    fill(&mut survey);
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("ledger.ron");
    std::fs::write(&path, gapledger::survey::file::print(&survey)).unwrap();
    (folder, path)
}

/// The numbers of the rows shown, from the top.
fn rows(window: &Window<'_>) -> Vec<u32> {
    window
        .query_all_by_role(Role::ListBoxOption)
        .map(|row| {
            let words = row.accesskit_node().label().unwrap_or_default();
            words.split(' ').next().unwrap().parse().unwrap()
        })
        .collect()
}

/// The numbers of the rows that are told to be selected.
fn selected(window: &Window<'_>) -> Vec<u32> {
    let survey = survey(window);
    let chosen = window.state().view().gaps.chosen_in(survey);
    chosen.into_iter().map(|id| id.0).collect()
}

fn sort_by(window: &mut Window<'_>, words: &str) {
    window.get_by_label(&format!("Sort by {words}")).click();
    window.run();
}

/// Steps a choice down by its label.
fn step(window: &mut Window<'_>, label: &str, down: usize) {
    window.get_by_role_and_label(Role::ComboBox, label).focus();
    window.run();
    for _ in 0..down {
        press(window, Key::ArrowDown);
    }
}

fn shift(window: &mut Window<'_>, key: Key) {
    window.key_press_modifiers(Modifiers::SHIFT, key);
    window.run();
}

fn gap<'a>(window: &'a Window<'_>, id: u32) -> &'a Gap {
    survey(window).gap(GapId(id)).unwrap()
}

#[test]
fn a_heading_sorts_one_way_then_the_other_then_as_the_survey_stands() {
    let (_folder, path) = five();
    let mut window = opened(&path);
    let before = survey(&window).clone();
    assert_eq!(rows(&window), [1, 2, 3, 4, 5]);
    sort_by(&mut window, "leakage area");
    assert_eq!(rows(&window), [2, 1, 3, 4, 5]);
    sort_by(&mut window, "leakage area");
    // What is not sized stands last either way.
    assert_eq!(rows(&window), [4, 3, 1, 2, 5]);
    sort_by(&mut window, "leakage area");
    assert_eq!(rows(&window), [1, 2, 3, 4, 5]);
    sort_by(&mut window, "name");
    assert_eq!(rows(&window), [1, 2, 4, 3, 5]);
    // Nothing but the view has changed.
    assert_eq!(*survey(&window), before);
    assert!(!window.state_mut().unsaved());
}

#[test]
fn the_order_is_chosen_by_keyboard_too() {
    let (_folder, path) = five();
    let mut window = opened(&path);
    click_button(&mut window, "Filter");
    // The survey's order, then every column shown in both directions; the second is the number
    // falling.
    step(&mut window, "Order of the rows", 2);
    assert_eq!(rows(&window), [5, 4, 3, 2, 1]);
}

#[test]
fn a_filter_says_how_many_it_shows_what_they_come_to_and_the_way_back() {
    let (_folder, path) = five();
    let mut window = opened(&path);
    assert!(shows(&window, "5 gaps"));
    click_button(&mut window, "Filter");
    step(&mut window, "Show facing", 6);
    assert_eq!(rows(&window), [1, 4]);
    assert!(shows(&window, "shows 2 of 5 gaps"));
    // 250 and 50 of 1000 mm².
    assert!(shows(&window, "30\u{a0}% of the leakage"));
    step(&mut window, "Show zone", 2);
    assert_eq!(rows(&window), [4]);
    window.get_by_label("show all").click();
    window.run();
    assert_eq!(rows(&window), [1, 2, 3, 4, 5]);
    assert!(!shows(&window, "% of the leakage"));
}

#[test]
fn the_most_leaking_are_the_fewest_that_make_four_fifths() {
    let (_folder, path) = five();
    let mut window = opened(&path);
    click_button(&mut window, "Filter");
    step(&mut window, "Show which gaps", 1);
    assert_eq!(rows(&window), [5]);
    assert!(shows(&window, "shows 1 of 5 gaps"));
    press(&mut window, Key::ArrowDown);
    // 60 % do not suffice, 60 + 25 % do.
    assert_eq!(rows(&window), [1, 2]);
    assert!(shows(&window, "85\u{a0}% of the leakage"));
}

#[test]
fn state_purpose_and_certainty_filter_and_nothing_left_is_told() {
    let (_folder, path) = five();
    let mut window = opened(&path);
    click_button(&mut window, "Filter");
    step(&mut window, "Show purpose", 3);
    assert_eq!(rows(&window), [3]);
    step(&mut window, "Show state", 3);
    assert_eq!(rows(&window), Vec::<u32>::new());
    assert!(shows(&window, "No gap matches: show all"));
    step(&mut window, "Show certainty", 1);
    assert!(shows(&window, "shows 0 of 5 gaps"));
}

#[test]
fn searching_looks_into_notes_zones_and_numbers() {
    let (_folder, path) = five();
    let mut window = opened(&path);
    let zone = survey(&window).zones[1].name.to_lowercase();
    ctrl(&mut window, Key::F);
    type_text(&mut window, "HINGE smoke");
    assert_eq!(rows(&window), [3]);
    press(&mut window, Key::Escape);
    assert_eq!(rows(&window), [1, 2, 3, 4, 5]);
    ctrl(&mut window, Key::F);
    type_text(&mut window, "4");
    assert_eq!(rows(&window), [4]);
    replace_text(&mut window, "Search the ledger", &zone);
    assert_eq!(rows(&window), [2, 4]);
    // Enter goes to the rows, to the first that was found.
    press(&mut window, Key::Enter);
    assert!(shows(&window, "Gap 2"));
}

#[test]
fn columns_are_chosen_and_outlast_the_survey() {
    let (_folder, path) = five();
    let mut window = opened(&path);
    assert!(window.query_by_label("Sort by note").is_none());
    click_button(&mut window, "Columns");
    window.get_by_role_and_label(Role::CheckBox, "note").click();
    window
        .get_by_role_and_label(Role::CheckBox, "facing")
        .click();
    window.run();
    let shown = |window: &Window<'_>, words: &str| {
        window.query_by_label(&format!("Sort by {words}")).is_some()
    };
    assert!(shown(&window, "note") && !shown(&window, "facing"));
    window.state_mut().open_file(&path);
    window.run();
    assert!(shown(&window, "note") && !shown(&window, "facing"));
    assert!(window.state().view().gaps.columns.shows(Column::Note));
}

#[test]
fn shift_and_arrows_select_several_and_they_change_in_one_step() {
    let (_folder, path) = five();
    let mut window = opened(&path);
    press(&mut window, Key::ArrowDown);
    shift(&mut window, Key::ArrowDown);
    shift(&mut window, Key::ArrowDown);
    assert_eq!(selected(&window), [2, 3, 4]);
    assert!(shows(&window, "3 gaps selected"));
    shift(&mut window, Key::ArrowUp);
    shift(&mut window, Key::End);
    assert_eq!(selected(&window), [2, 3, 4, 5]);
    let before = survey(&window).clone();
    step(&mut window, "Size found by, all selected gaps", 1);
    for id in 2..=5 {
        assert_eq!(gap(&window, id).certainty, Certainty::Guessed);
    }
    assert_eq!(gap(&window, 1).certainty, Certainty::Estimated);
    ctrl(&mut window, Key::Z);
    assert_eq!(*survey(&window), before);
    press(&mut window, Key::Escape);
    press(&mut window, Key::ArrowUp);
    assert_eq!(selected(&window).len(), 1);
}

#[test]
fn zone_and_remedy_change_together_but_safety_ventilation_is_left_open() {
    let (_folder, path) = five();
    let mut window = opened(&path);
    ctrl(&mut window, Key::A);
    assert_eq!(selected(&window).len(), 5);
    assert!(shows(&window, "1 of them must stay open"));
    // The zones differ: the first step down is the first zone.
    step(&mut window, "Zone, all selected gaps", 1);
    let first = survey(&window).zones[0].id;
    assert!(survey(&window).gaps.iter().all(|gap| gap.zone == first));
    step(&mut window, "Remedy, all selected gaps", 1);
    step(&mut window, "State, all selected gaps", 1);
    for gap in &survey(&window).gaps {
        let kind = gap.remedy.as_ref().map(|remedy| remedy.kind);
        if gap.id == GapId(3) {
            assert_eq!((kind, gap.state), (None, WorkState::Open));
        } else {
            let wanted = (Some(RemedyKind::Strip), WorkState::Planned);
            assert_eq!((kind, gap.state), wanted);
        }
    }
    for _ in 0..3 {
        ctrl(&mut window, Key::Z);
    }
    assert!(!window.state_mut().unsaved());
}

#[test]
fn clicks_with_ctrl_and_shift_select_and_what_is_filtered_out_is_let_go() {
    let (_folder, path) = five();
    let mut window = opened(&path);
    let click = |window: &mut Window<'_>, id: u32, modifiers: Modifiers| {
        let start = format!("{id} ");
        let rows = window.query_all_by_role(Role::ListBoxOption);
        let row = rows
            .into_iter()
            .find(|row| {
                let label = row.accesskit_node().label();
                label.is_some_and(|label| label.starts_with(&start))
            })
            .unwrap();
        row.click_modifiers(modifiers);
        window.run();
    };
    click(&mut window, 2, Modifiers::NONE);
    click(&mut window, 4, Modifiers::SHIFT);
    assert_eq!(selected(&window), [2, 3, 4]);
    click(&mut window, 3, Modifiers::COMMAND);
    assert_eq!(selected(&window), [2, 4]);
    click(&mut window, 1, Modifiers::COMMAND);
    assert_eq!(selected(&window), [1, 2, 4]);
    // Only gap 4 of them is left in sight: what is done is done to it alone.
    replace_text(&mut window, "Search the ledger", "floor vent");
    press(&mut window, Key::Enter);
    assert_eq!(selected(&window), [4]);
    press(&mut window, Key::Delete);
    assert_eq!(survey(&window).gaps.len(), 4);
    assert!(survey(&window).gap(GapId(4)).is_none());
}

#[test]
fn deleting_and_copying_several_is_one_step_each() {
    let (_folder, path) = five();
    let mut window = opened(&path);
    let before = survey(&window).clone();
    shift(&mut window, Key::ArrowDown);
    ctrl(&mut window, Key::D);
    assert_eq!(survey(&window).gaps.len(), 7);
    assert_eq!(selected(&window), [6, 7]);
    assert_eq!(gap(&window, 7).name, "door seal");
    ctrl(&mut window, Key::M);
    assert_eq!(gap(&window, 9).facing, Facing::Offside);
    ctrl(&mut window, Key::Z);
    ctrl(&mut window, Key::Z);
    assert_eq!(*survey(&window), before);
    ctrl(&mut window, Key::A);
    press(&mut window, Key::Delete);
    assert!(survey(&window).gaps.is_empty());
    assert!(shows(&window, "5 gaps were deleted."));
    ctrl(&mut window, Key::Z);
    assert_eq!(*survey(&window), before);
}

#[test]
fn an_outer_opening_goes_with_what_lies_behind_it_but_not_without() {
    let (_folder, path) = written(|survey| {
        let zone = survey.zones[0].id;
        let mut outer = stated(GapId(1), zone, Facing::Offside, Some(900.0));
        outer.leads_to = LeadsTo::Compartment;
        let mut inner = stated(GapId(2), zone, Facing::Offside, Some(100.0));
        inner.behind = Some(Behind::Gap(GapId(1)));
        let last = stated(GapId(3), zone, Facing::Offside, Some(100.0));
        for gap in [outer, inner, last] {
            survey.apply(Edit::Put(Record::Gap(Box::new(gap)))).unwrap();
        }
    });
    let mut window = opened(&path);
    press(&mut window, Key::Delete);
    assert_eq!(survey(&window).gaps.len(), 3);
    assert!(shows(&window, "lies behind it"));
    shift(&mut window, Key::ArrowDown);
    press(&mut window, Key::Delete);
    assert_eq!(survey(&window).gaps.len(), 1);
    assert_eq!(selected(&window), [3]);
}

#[test]
fn a_cell_is_edited_in_its_place_and_esc_takes_it_back() {
    let (_folder, path) = five();
    let mut window = opened(&path);
    press(&mut window, Key::ArrowRight);
    press(&mut window, Key::Enter);
    let cell = window.get_by_role_and_label(Role::TextInput, "What it is, gap 1");
    assert!(cell.is_focused());
    ctrl(&mut window, Key::A);
    type_text(&mut window, "plug");
    assert_eq!(gap(&window, 1).name, "plug");
    press(&mut window, Key::Escape);
    assert_eq!(gap(&window, 1).name, "cable hole");
    assert!(!window.state_mut().unsaved());
    // Down takes the words and goes on in the next row.
    press(&mut window, Key::Enter);
    ctrl(&mut window, Key::A);
    type_text(&mut window, "cable");
    press(&mut window, Key::ArrowDown);
    ctrl(&mut window, Key::A);
    type_text(&mut window, "door");
    press(&mut window, Key::Enter);
    assert_eq!(
        (gap(&window, 1).name.as_str(), gap(&window, 2).name.as_str()),
        ("cable", "door")
    );
    // Back in the ledger: arrows move rows, and each cell was a step.
    press(&mut window, Key::ArrowDown);
    assert_eq!(selected(&window), [3]);
    ctrl(&mut window, Key::Z);
    assert_eq!(gap(&window, 2).name, "door seal");
    assert_eq!(gap(&window, 1).name, "cable");
}

/// Goes right to a column; the name is the first.
fn to_column(window: &mut Window<'_>, column: Column) {
    let shown = window.state().view().gaps.columns.shown().to_vec();
    let at = |wanted| shown.iter().position(|column| *column == wanted).unwrap();
    for _ in at(Column::Name)..=at(column) {
        press(window, Key::ArrowRight);
    }
}

#[test]
fn a_cell_of_several_options_offers_them() {
    let (_folder, path) = five();
    let mut window = opened(&path);
    to_column(&mut window, Column::State);
    press(&mut window, Key::Enter);
    assert!(shows(&window, "open, chosen by Enter"));
    press(&mut window, Key::ArrowDown);
    press(&mut window, Key::Escape);
    assert_eq!(gap(&window, 1).state, WorkState::Open);
    press(&mut window, Key::Enter);
    type_text(&mut window, "d");
    assert!(shows(&window, "deferred, chosen by Enter"));
    press(&mut window, Key::Enter);
    assert_eq!(gap(&window, 1).state, WorkState::Deferred);
    // The row is still the selected one, and arrows move on.
    press(&mut window, Key::ArrowDown);
    assert_eq!(selected(&window), [2]);
    ctrl(&mut window, Key::Z);
    assert_eq!(gap(&window, 1).state, WorkState::Open);
}

#[test]
fn a_count_that_cannot_be_read_keeps_its_cell_open() {
    let (_folder, path) = five();
    let mut window = opened(&path);
    to_column(&mut window, Column::Count);
    press(&mut window, Key::Enter);
    ctrl(&mut window, Key::A);
    type_text(&mut window, "2.5");
    press(&mut window, Key::Enter);
    assert_eq!(gap(&window, 1).count, 1);
    window.get_by_role_and_label(Role::TextInput, "How many alike, gap 1");
    ctrl(&mut window, Key::A);
    type_text(&mut window, "2*2");
    press(&mut window, Key::Tab);
    assert_eq!(gap(&window, 1).count, 4);
    let name = "How many alike, gap 1";
    assert!(
        window
            .query_by_role_and_label(Role::TextInput, name)
            .is_none()
    );
}

#[test]
fn a_cell_of_sizes_leads_to_the_first_size() {
    let (_folder, path) = five();
    let mut window = opened(&path);
    to_column(&mut window, Column::Form);
    press(&mut window, Key::Enter);
    let field = window.get_by_role_and_label(Role::TextInput, "Area");
    assert!(field.is_focused());
}

#[test]
fn a_thousand_gaps_are_listed_once_for_each_change_and_drawn_where_seen() {
    let (_folder, path) = written(|survey| {
        let zone = survey.zones[0].id;
        for id in 1..=1000 {
            let area = Some(f64::from(id));
            let gap = stated(GapId(id), zone, Facing::Nearside, area);
            survey.apply(Edit::Put(Record::Gap(Box::new(gap)))).unwrap();
        }
    });
    let mut window = opened(&path);
    sort_by(&mut window, "leakage area");
    let listed = window.state().view().gaps.times_listed();
    press(&mut window, Key::Home);
    for _ in 0..10 {
        press(&mut window, Key::PageDown);
    }
    let drawn = rows(&window);
    assert!((5..40).contains(&drawn.len()), "{}", drawn.len());
    // Sorted falling: further down stand smaller numbers.
    assert!(drawn[0] < 1000 && drawn.is_sorted_by(|a, b| a > b));
    assert_eq!(window.state().view().gaps.times_listed(), listed);
    press(&mut window, Key::End);
    assert_eq!(rows(&window).last(), Some(&1));
    ctrl(&mut window, Key::A);
    assert_eq!(selected(&window).len(), 1000);
    step(&mut window, "Size found by, all selected gaps", 1);
    let guessed = |gap: &Gap| gap.certainty == Certainty::Guessed;
    assert!(survey(&window).gaps.iter().all(guessed));
    // The edit and its results are two changes.
    assert!(window.state().view().gaps.times_listed() <= listed + 2);
}
