use super::*;
use crate::sheet::Kind;
use crate::survey::VehicleKind;
use crate::window::jobs::inline;
use std::sync::Mutex;

type Held = Arc<Mutex<Vec<Box<dyn FnOnce() + Send>>>>;

/// A spawner that keeps the work until the test runs it.
fn held() -> (Held, Spawner) {
    let held: Held = Arc::default();
    let kept = Arc::clone(&held);
    let spawner: Spawner = Arc::new(move |work| {
        kept.lock().unwrap().push(work);
        Ok(())
    });
    (held, spawner)
}

fn run_all(held: &Held) -> usize {
    let work = std::mem::take(&mut *held.lock().unwrap());
    let count = work.len();
    for piece in work {
        piece();
    }
    count
}

fn key(revision: u64, kind: Kind) -> SheetKey {
    let choices = SheetChoices {
        kind,
        ..SheetChoices::default()
    };
    SheetKey { revision, choices }
}

fn snapshot() -> Snapshot {
    Snapshot {
        survey: Arc::new(Survey::new(VehicleKind::PanelVan)),
        path: None,
    }
}

#[test]
fn a_sheet_wanted_twice_is_set_once() {
    let (held, spawner) = held();
    let mut desk = SheetDesk::new(spawner, Arc::new(|| {}));
    let (key, snapshot) = (key(1, Kind::WorkOrder), snapshot());
    for _ in 0..3 {
        desk.want(&key, &snapshot);
    }
    assert_eq!(desk.step(), Some(Step::Photos));
    assert_eq!(run_all(&held), 1);
    assert!(desk.collect(&egui::Context::default()).is_empty());
    assert!(desk.shows(&key));
    assert!(desk.pages().unwrap().pages() >= 1);
    desk.want(&key, &snapshot);
    assert_eq!(run_all(&held), 0);
}

#[test]
fn another_choice_gives_up_the_one_being_set() {
    let (held, spawner) = held();
    let mut desk = SheetDesk::new(spawner, Arc::new(|| {}));
    let (first, second) = (key(1, Kind::WorkOrder), key(1, Kind::Completion));
    let (ctx, snapshot) = (egui::Context::default(), snapshot());
    desk.want(&first, &snapshot);
    desk.want(&second, &snapshot);
    run_all(&held);
    desk.collect(&ctx);
    assert!(desk.pages().is_none(), "the first was given up");
    desk.want(&second, &snapshot);
    run_all(&held);
    desk.collect(&ctx);
    assert!(desk.shows(&second));
}

#[test]
fn cancel_stays_cancelled_until_asked_again() {
    let (held, spawner) = held();
    let mut desk = SheetDesk::new(spawner, Arc::new(|| {}));
    let (key, ctx, snapshot) = (
        key(1, Kind::WorkOrder),
        egui::Context::default(),
        snapshot(),
    );
    desk.want(&key, &snapshot);
    desk.cancel();
    run_all(&held);
    desk.collect(&ctx);
    desk.want(&key, &snapshot);
    assert_eq!(run_all(&held), 0);
    assert_eq!(desk.given_up(), Some("Cancelled."));
    desk.again();
    desk.want(&key, &snapshot);
    assert_eq!(run_all(&held), 1);
    desk.collect(&ctx);
    assert!(desk.shows(&key));
}

#[test]
fn only_pages_in_sight_are_drawn_and_kept() {
    let mut desk = SheetDesk::new(inline(), Arc::new(|| {}));
    let ctx = egui::Context::default();
    let text = include_str!("../../../sample-surveys/coastal-coachbuilt.ron");
    let snapshot = Snapshot {
        survey: Arc::new(crate::survey::file::parse(text).unwrap()),
        path: None,
    };
    desk.want(&key(1, Kind::WorkOrder), &snapshot);
    desk.collect(&ctx);
    let pages = desk.pages().unwrap().pages();
    assert!(pages >= 3, "{pages}");
    let drawn = |desk: &SheetDesk| -> Vec<usize> {
        (0..pages)
            .filter(|page| desk.picture(*page).is_some())
            .collect()
    };
    desk.show(0..1, 300);
    desk.collect(&ctx);
    assert_eq!(drawn(&desk), [0, 1]);
    assert_eq!(desk.picture(0).unwrap().size()[0], 300);
    desk.show(pages - 1..pages, 300);
    desk.collect(&ctx);
    assert_eq!(drawn(&desk), [pages - 2, pages - 1]);
}

#[test]
fn a_wrong_logo_is_told_on_the_page() {
    let mut desk = SheetDesk::new(inline(), Arc::new(|| {}));
    let mut key = key(1, Kind::WorkOrder);
    key.choices.logo = "/no/such/logo.png".to_owned();
    desk.want(&key, &snapshot());
    desk.collect(&egui::Context::default());
    let words = desk.given_up().unwrap();
    assert!(
        words.contains("the logo: \"/no/such/logo.png\": the file could not be read"),
        "{words}"
    );
}
