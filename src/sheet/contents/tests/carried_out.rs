//! An order printed again while it is carried out and after.

use super::papers::{priced, sealed};
use super::*;
use crate::assess::sealing::{Aim, Chosen, Wish};
use crate::survey::{Gap, GapId};
use std::sync::Arc;

/// What the work order and the quotation say of what is sealed already.
fn told(survey: &Survey) -> [String; 2] {
    let order = match survey.as_ordered() {
        Some(_) => "Done already",
        None => "Before this goes to the workshop",
    };
    [
        (Kind::WorkOrder, order),
        (Kind::Quotation, "Before this goes to the customer"),
    ]
    .map(|(kind, title)| {
        let sheet = sheet(survey, &Choices::new(kind));
        let found = section(&sheet, title);
        let blocks = found.map(|section| serde_json::to_string(&section.blocks).expect("JSON"));
        blocks.unwrap_or_default()
    })
}

/// Changes the gaps that are sealed, told how many came before.
fn each_sealed(survey: &mut Survey, mut change: impl FnMut(usize, &mut Gap)) {
    let sealed = survey
        .gaps
        .iter_mut()
        .filter(|gap| gap.state == WorkState::Sealed);
    for (at, gap) in sealed.enumerate() {
        change(at, gap);
    }
}

#[test]
fn an_order_carried_out_says_which_steps_were_sealed_when() {
    let mut done = sealed(priced(78.0, Some(20.0)), "2031-03-01");
    let ids: Vec<String> = done
        .gaps
        .iter()
        .filter(|gap| gap.state == WorkState::Sealed)
        .map(|gap| gap.id.to_string())
        .collect();
    let [order, quotation] = told(&done);
    let words = format!(
        "shown below as ordered: gaps {} on 2031-03-01.",
        ids.join(", ")
    );
    assert!(order.contains(&words), "{order}");
    assert!(!order.contains("Which order?") && !quotation.contains("Which order?"));
    let words = format!(
        "Sealed already, and shown below as it was ordered: gaps {} on 2031-03-01. To offer other work",
        ids.join(", ")
    );
    assert!(quotation.contains(&words), "{quotation}");
    done.job.order_date = "2031-02-20".to_owned();
    each_sealed(&mut done, |at, gap| {
        if at == 0 {
            gap.state_date.clear();
        }
    });
    let [order, _] = told(&done);
    assert!(
        order.contains(&format!("gap {}, no day given; gaps ", ids[0])),
        "{order}"
    );
    assert!(!order.contains("Which order?"), "{order}");
}

#[test]
fn steps_that_may_be_of_an_earlier_order_are_told_until_its_date_is_given() {
    let done = sealed(priced(78.0, Some(20.0)), "2031-03-01");
    for (day, why) in [
        (
            "2030-11-20",
            "sealed on several days (2030-11-20, 2031-03-01)",
        ),
        ("", "sealed on several days (no day given, 2031-03-01)"),
    ] {
        let mut doubtful = done.clone();
        each_sealed(&mut doubtful, |at, gap| {
            if at == 0 {
                gap.state_date = day.to_owned();
            }
        });
        for told in told(&doubtful) {
            assert!(told.contains(why), "{told}");
            assert!(told.contains("Enter the date of the order."), "{told}");
        }
        doubtful.job.order_date = "2031-02-20".to_owned();
        assert!(
            told(&doubtful)
                .iter()
                .all(|told| !told.contains("Which order?"))
        );
    }
    // The sample was surveyed in January 2026: what was sealed the year before was no part of it.
    let mut before = done;
    each_sealed(&mut before, |_, gap| {
        gap.state_date = "2025-05-01".to_owned()
    });
    for told in told(&before) {
        assert!(
            told.contains("were sealed before the vehicle was surveyed"),
            "{told}"
        );
    }
}

#[test]
fn half_an_order_without_a_date_names_the_steps_that_are_not_on_it() {
    let mut half = sealed(priced(78.0, Some(20.0)), "2031-03-01");
    each_sealed(&mut half, |at, gap| {
        if at == 0 {
            gap.state = WorkState::Planned;
        }
    });
    let rows = |survey: &Survey| {
        let sheet = sheet(survey, &Choices::new(Kind::WorkOrder));
        plain_rows(tables(&sheet, "Work to do, in this order")[0]).count()
    };
    assert_eq!(rows(&half), 1);
    for told in told(&half) {
        assert!(told.contains("only the planned ones are here"), "{told}");
        for gap in &half.gaps {
            if gap.state == WorkState::Sealed {
                assert!(told.contains(&gap.id.to_string()), "{told}");
            }
        }
    }
    half.job.order_date = "2031-02-20".to_owned();
    assert_eq!(rows(&half), 4);
    let [order, quotation] = told(&half);
    assert!(!order.contains("Which order?") && !quotation.contains("Which order?"));
    assert!(order.contains("on 2031-03-01"), "{order}");
}

#[test]
fn before_any_work_nothing_is_said_of_it() {
    let [order, quotation] = told(&priced(78.0, Some(20.0)));
    assert_eq!(order, "");
    assert!(!quotation.contains("Which order?"), "{quotation}");
    assert!(!quotation.contains("Sealed already"), "{quotation}");
}

/// What is wished of the work holds for an order carried out too; the best set for a sum is new work.
#[test]
fn a_wish_reaches_an_order_that_was_carried_out() {
    let done = Arc::new(sealed(priced(78.0, Some(20.0)), "2031-03-01"));
    let of = |wish: Wish| {
        let study = Study::wishing(Arc::clone(&done), wish);
        study.ordered().work().as_ref().expect("work").clone()
    };
    let by_heat = of(Wish {
        aim: Some(Aim::Heat),
        budget: None,
    });
    assert_eq!((by_heat.aim, by_heat.chosen), (Aim::Heat, Chosen::Planned));
    let within = of(Wish {
        aim: None,
        budget: Some(90.0),
    });
    assert_eq!(within.chosen, Chosen::Within);
    let open = |gap: GapId| {
        let gap = done.gap(gap).expect("a gap");
        gap.state == WorkState::Open
    };
    assert!(!within.steps.is_empty());
    assert!(within.steps.iter().all(|step| open(step.sealable.gap())));
}
