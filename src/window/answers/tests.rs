use super::*;
use crate::survey::VehicleKind;
use crate::window::background::{Held, held, inline};

fn follow(answers: &mut Answers, revision: u64) -> Vec<String> {
    let survey = Arc::new(Survey::new(VehicleKind::Other));
    let wanted = Wanted {
        aim: Aim::AchWindy,
        budget: None,
    };
    answers.follow(revision, &survey, Page::Vehicle, wanted)
}

fn answers(spawner: Spawner) -> Answers {
    Answers::new(spawner, Arc::new(|| {}), Effort::test())
}

#[test]
fn the_newest_survey_is_worked_out_and_no_other_waits() {
    let (held, spawner) = held();
    let mut answers = answers(spawner);
    for revision in 1..=5 {
        assert!(follow(&mut answers, revision).is_empty());
    }
    // The first is waited for, and then the newest of all is taken.
    for expected in [1, 5] {
        Held::run_all(&held);
        assert!(follow(&mut answers, 5).is_empty());
        assert_eq!(answers.results().unwrap().revision, expected);
    }
    assert_eq!(answers.results().unwrap().comparison_revision(), 5);
}

/// Draws on two threads beside a drawing of its own would halve its frames.
#[test]
fn while_surveys_follow_each_other_work_on_older_ones_is_given_up_but_for_results() {
    let (held, spawner) = held();
    let mut answers = answers(spawner);
    assert!(follow(&mut answers, 1).is_empty());
    let first = answers.newest.clone().unwrap();
    let draws = |answers: &Answers| answers.status(LongWork::Uncertainty);
    assert!(answers.take_in(1).is_empty());
    assert!(matches!(draws(&answers), Status::Working(_)));
    assert!(answers.take_in(2).is_empty());
    assert_eq!(draws(&answers), Status::Idle);
    Held::run_all(&held);
    assert!(answers.take_in(3).is_empty());
    assert_eq!(answers.results().unwrap().revision, 1);
    assert!(first.study.uncertainty().is_none());
    // What rests is worked out whole.
    assert!(follow(&mut answers, 3).is_empty());
    Held::run_all(&held);
    assert!(follow(&mut answers, 3).is_empty());
    assert_eq!(answers.results().unwrap().comparison_revision(), 3);
    assert!(answers.uncertainty(3).is_some());
}

/// With its results there, the rest of a survey is not waited for.
#[test]
fn once_results_are_there_what_else_is_told_of_an_older_survey_is_given_up() {
    let (held, spawner) = held();
    let mut answers = answers(spawner);
    assert!(follow(&mut answers, 1).is_empty());
    Held::run_all(&held);
    assert!(follow(&mut answers, 1).is_empty());
    answers.results_job.asked = None;
    assert!(follow(&mut answers, 1).is_empty());
    assert!(matches!(
        answers.results_job.task.status(),
        Status::Working(_)
    ));
    assert!(answers.take_in(2).is_empty());
    assert_eq!(answers.results_job.task.status(), Status::Idle);
}

#[test]
fn a_later_survey_starts_a_worker_again() {
    let mut answers = answers(inline());
    for revision in 1..=3 {
        assert!(follow(&mut answers, revision).is_empty());
        assert_eq!(answers.results().unwrap().revision, revision);
    }
}

#[test]
fn a_worker_that_cannot_start_is_told_and_tried_again() {
    let refusing: Spawner = Arc::new(|_| Err(std::io::Error::other("no threads left")));
    let mut answers = answers(refusing);
    for revision in 1..=2 {
        let refused = follow(&mut answers, revision);
        assert!(refused[0].contains("no threads left"), "{refused:?}");
    }
}
