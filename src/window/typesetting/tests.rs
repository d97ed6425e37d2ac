use super::*;
use crate::sheet::Kind;
use crate::survey::Survey;
use crate::survey::VehicleKind;
use crate::window::answers::Answers;
use crate::window::background::{held, inline};

fn key(revision: u64, kind: Kind) -> SheetKey {
    let choices = SheetChoices {
        kind,
        ..SheetChoices::default()
    };
    SheetKey { revision, choices }
}

fn look() -> Look {
    Look {
        width: 300,
        first: 0,
    }
}

fn revised(survey: Survey) -> Arc<Revised> {
    let mut answers = Answers::new(inline(), Arc::new(|| {}), Effort::test());
    answers.of(1, &Arc::new(survey))
}

fn blank() -> Arc<Revised> {
    revised(Survey::new(VehicleKind::PanelVan))
}

fn typesetting(spawner: Spawner) -> Typesetting {
    Typesetting::new(spawner, Arc::new(|| {}), Effort::test(), Setter::Here)
}

#[test]
fn a_sheet_wanted_twice_is_set_once() {
    let (held, spawner) = held();
    let mut sheets = typesetting(spawner);
    let (key, of) = (key(1, Kind::WorkOrder), blank());
    for _ in 0..3 {
        sheets.want(&key, look(), &of, None);
    }
    assert_eq!(sheets.step(), Some(Step::Photos));
    assert_eq!(held.run_all(), 1);
    assert!(sheets.collect(&egui::Context::default()).is_empty());
    assert!(sheets.shows(&key));
    assert!(sheets.pages().unwrap().pages() >= 1);
    sheets.want(&key, look(), &of, None);
    assert_eq!(held.run_all(), 0);
}

#[test]
fn another_choice_gives_up_the_one_being_set() {
    let (held, spawner) = held();
    let mut sheets = typesetting(spawner);
    let (first, second) = (key(1, Kind::WorkOrder), key(1, Kind::Completion));
    let (ctx, of) = (egui::Context::default(), blank());
    sheets.want(&first, look(), &of, None);
    sheets.want(&second, look(), &of, None);
    assert_eq!(held.run_all(), 1, "one worker for both");
    sheets.collect(&ctx);
    assert!(sheets.shows(&second));
    assert_eq!(sheets.step(), None);
}

#[test]
fn cancel_stays_cancelled_until_asked_again() {
    let (held, spawner) = held();
    let mut sheets = typesetting(spawner);
    let (key, ctx, of) = (key(1, Kind::WorkOrder), egui::Context::default(), blank());
    sheets.want(&key, look(), &of, None);
    sheets.cancel();
    held.run_all();
    sheets.collect(&ctx);
    sheets.want(&key, look(), &of, None);
    assert_eq!(held.run_all(), 0);
    assert_eq!(sheets.given_up(), Some("Cancelled."));
    sheets.again();
    sheets.want(&key, look(), &of, None);
    assert_eq!(held.run_all(), 1);
    sheets.collect(&ctx);
    assert!(sheets.shows(&key));
}

#[test]
fn only_pages_in_sight_are_drawn_and_kept() {
    let mut sheets = typesetting(inline());
    let ctx = egui::Context::default();
    let text = include_str!("../../../sample-surveys/coastal-coachbuilt.ron");
    let of = revised(crate::survey::file::parse(text).unwrap());
    sheets.want(&key(1, Kind::WorkOrder), look(), &of, None);
    sheets.collect(&ctx);
    let pages = sheets.pages().unwrap().pages();
    assert!(pages >= 3, "{pages}");
    let drawn = |sheets: &Typesetting| -> Vec<usize> {
        (0..pages)
            .filter(|page| sheets.picture(*page).is_some())
            .collect()
    };
    sheets.show(0..1);
    sheets.collect(&ctx);
    assert_eq!(drawn(&sheets), [0]);
    assert_eq!(sheets.picture(0).unwrap().size()[0], 300);
    sheets.show(pages - 1..pages);
    sheets.collect(&ctx);
    assert_eq!(drawn(&sheets), [pages - 1]);
    // Nothing unpacked is kept of a page that was left; the sheet is there as it was set.
    sheets.left();
    assert!(drawn(&sheets).is_empty());
    assert!(sheets.shows(&key(1, Kind::WorkOrder)));
    sheets.show(0..2);
    sheets.collect(&ctx);
    assert_eq!(drawn(&sheets), [0, 1]);
}

#[test]
fn pages_are_drawn_anew_for_another_width_and_the_pdf_stays() {
    let (held, spawner) = held();
    let mut sheets = typesetting(spawner);
    let (key, ctx, of) = (key(1, Kind::WorkOrder), egui::Context::default(), blank());
    let work = |sheets: &mut Typesetting, width, kept| {
        let look = Look { width, first: 0 };
        sheets.want(&key, look, &of, None);
        assert_eq!(sheets.shows(&key), kept, "{width}");
        assert_eq!(sheets.step().is_none(), kept, "{width}");
        held.run_all();
        sheets.collect(&ctx);
        sheets.show(0..1);
        held.run_all();
        sheets.collect(&ctx);
        sheets.picture(0).unwrap().size()[0]
    };
    assert_eq!(work(&mut sheets, 300, false), 300);
    assert_eq!(work(&mut sheets, 200, true), 200);
    assert!(sheets.shows(&key));
}

#[test]
fn what_was_not_set_when_its_page_was_left_is_set_when_it_is_seen_again() {
    let (held, spawner) = held();
    let mut sheets = typesetting(spawner);
    let (key, ctx, of) = (key(1, Kind::WorkOrder), egui::Context::default(), blank());
    sheets.want(&key, look(), &of, None);
    sheets.left();
    held.run_all();
    sheets.collect(&ctx);
    assert!(sheets.pages().is_none());
    sheets.want(&key, look(), &of, None);
    held.run_all();
    sheets.collect(&ctx);
    assert!(sheets.shows(&key));
}

#[test]
fn a_worker_that_cannot_be_started_ends_in_a_sentence_and_may_be_tried_again() {
    let setter = Setter::Program("/no/such/program".into());
    let mut sheets = Typesetting::new(inline(), Arc::new(|| {}), Effort::test(), setter);
    let (key, of) = (key(1, Kind::WorkOrder), blank());
    sheets.want(&key, look(), &of, None);
    sheets.collect(&egui::Context::default());
    let words = sheets.given_up().unwrap();
    assert!(
        words.starts_with("The sheet could not be set, because its worker did not finish: "),
        "{words}"
    );
    assert!(sheets.pages().is_none() && sheets.step().is_none());
    sheets.again();
    assert_eq!(sheets.given_up(), None);
}

#[test]
fn a_wrong_logo_is_told_on_the_page() {
    let mut sheets = typesetting(inline());
    let mut key = key(1, Kind::WorkOrder);
    key.choices.logo = "/no/such/logo.png".to_owned();
    sheets.want(&key, look(), &blank(), None);
    sheets.collect(&egui::Context::default());
    let words = sheets.given_up().unwrap();
    assert!(
        words.contains("the logo: \"/no/such/logo.png\": the file could not be read"),
        "{words}"
    );
}
