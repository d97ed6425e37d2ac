//! Longer work: stopped, asked for again, given up for a newer survey.

use super::plan::{click_at, plan_page};
use super::{Window, click_button, ctrl, press, replace_text, sample, shows, survey, type_text};
use eframe::egui::Key;
use gapledger::assess::sealing::{Aim, Prospect};
use gapledger::survey::{Edit, Record};
use gapledger::window::answers::{Effort, LongWork};
use gapledger::window::app::Start;
use gapledger::window::background::Spawner;
use gapledger::window::background::Status;
use std::sync::{Arc, Mutex};

pub(crate) type Held = Arc<Mutex<Vec<Box<dyn FnOnce() + Send>>>>;

/// The window whose work waits until it is let go.
pub(crate) fn held(name: &str) -> (Window<'static>, Held) {
    let held: Held = Arc::default();
    let kept = Arc::clone(&held);
    let spawner: Spawner = Arc::new(move |work| {
        kept.lock().unwrap().push(work);
        Ok(())
    });
    let start = Start {
        spawner,
        ..Start::test(Some(sample(name)))
    };
    (super::window(start), held)
}

pub(crate) fn let_go(window: &mut Window<'_>, held: &Held) {
    let work = std::mem::take(&mut *held.lock().unwrap());
    for piece in work {
        piece();
    }
    window.run();
}

/// The sealing plan of the farmyard sample while it looks for the best set within a budget of 60.
pub(crate) fn searching() -> (Window<'static>, Held) {
    let (mut window, held) = held("farmyard-caravan.ron");
    let_go(&mut window, &held);
    ctrl(&mut window, Key::Num5);
    let_go(&mut window, &held);
    replace_text(&mut window, "Budget", "60");
    press(&mut window, Key::Tab);
    (window, held)
}

#[test]
fn a_search_is_stopped_and_asked_for_again() {
    let (mut window, held) = searching();
    let status = |window: &Window<'_>| window.state().answers().status(LongWork::Budget);
    assert!(matches!(status(&window), Status::Working(_)));
    click_at(&mut window, "Stop working out the best set");
    assert_eq!(status(&window), Status::Stopped);
    assert!(shows(
        &window,
        "the best set: stopped before it was worked out."
    ));
    let_go(&mut window, &held);
    // What was stopped leaves nothing behind.
    assert!(window.state().answers().best().is_none());
    click_at(&mut window, "Work out the best set");
    let_go(&mut window, &held);
    assert_eq!(status(&window), Status::Idle);
    assert!(window.state().answers().best().unwrap().answer.plan.is_ok());
}

#[test]
fn an_edit_while_it_is_worked_out_gives_up_the_old_survey() {
    let (mut window, held) = held("farmyard-caravan.ron");
    let_go(&mut window, &held);
    ctrl(&mut window, Key::Num5);
    let id = survey(&window).gaps[0].id;
    let mut gap = survey(&window).gap(id).unwrap().clone();
    gap.count += 1;
    let edit = Edit::Put(Record::Gap(Box::new(gap)));
    window.state_mut().queue().edit(edit, None);
    window.run();
    let_go(&mut window, &held);
    let results = window.state().results().unwrap().revision;
    let ranking = window.state().answers().ranking().unwrap();
    assert_eq!(ranking.revision, results);
    let wanted = Prospect::new(survey(&window)).unwrap().rank(Aim::AchWindy);
    assert_eq!(ranking.answer.as_ref().unwrap().ranked, wanted.unwrap());
}

#[test]
fn work_takes_no_more_threads_and_draws_than_it_is_given() {
    assert!(Effort::test().draws >= 100 && Effort::test().threads == 1);
    assert!(Effort::program().draws == gapledger::assess::uncertainty::DRAWS);
    let mut window = plan_page("two-opening-check.ron");
    type_text(&mut window, "");
    click_button(&mut window, "Survey");
    assert_eq!(
        window.state().answers().status(LongWork::Uncertainty),
        Status::Idle
    );
}
