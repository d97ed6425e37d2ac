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
