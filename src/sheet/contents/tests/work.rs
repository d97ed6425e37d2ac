//! What is to be done, what it costs, and what must never be closed.

use super::*;
use crate::survey::{GapId, Purpose, SetUp};

#[test]
fn what_protects_people_is_never_work_to_do() {
    let mut survey = file::parse(COACH_BUILT).expect("a sample");
    for gap in &mut survey.gaps {
        gap.state = WorkState::Planned;
    }
    let protected: Vec<GapId> = survey
        .gaps
        .iter()
        .filter(|gap| gap.purpose.must_stay_open())
        .map(|gap| gap.id)
        .collect();
    assert!(!protected.is_empty());
    let study = Study::of(&survey);
    let work = study.work().as_ref().expect("work");
    for id in &protected {
        assert!(work.steps.iter().all(|step| step.sealable.gap() != *id));
        assert!(
            work.stays_open.iter().any(|left| left.gap == *id),
            "gap {id} is explained"
        );
        assert!(work.purchases.iter().all(|one| !one.gaps.contains(id)));
    }
    let order = sheet(&survey, &Choices::new(Kind::WorkOrder));
    let to_do = tables(&order, "Work to do, in this order");
    let must_not = tables(&order, "What must not be closed");
    for id in &protected {
        assert!(plain_rows(to_do[0]).all(|row| row.cells[2] != id.to_string()));
        assert!(plain_rows(must_not[0]).any(|row| row.cells[0] == id.to_string()));
    }
}

#[test]
fn a_proposal_holds_only_what_nobody_wanted() {
    let mut survey = file::parse(COACH_BUILT).expect("a sample");
    survey.gaps.retain(|gap| gap.state != WorkState::Planned);
    let study = Study::of(&survey);
    let work = study.work().as_ref().expect("work");
    assert!(!work.steps.is_empty());
    for step in &work.steps {
        let gap = survey.gap(step.sealable.gap()).expect("a gap");
        assert_eq!(gap.purpose, Purpose::Unintended);
    }
}

/// The list is the sum of what each gap takes, and the bill the sum of its lines.
#[test]
fn the_shopping_list_and_the_bill_add_up() {
    let mut survey = file::parse(CARAVAN).expect("a sample");
    survey.tariffs.workshop_per_hour = Some(60.0);
    survey.tariffs.tax_percent = Some(20.0);
    let study = Study::of(&survey);
    let work = study.work().as_ref().expect("work");
    let material: f64 = work.purchases.iter().map(|one| one.cost).sum();
    let lines = &work.bill().lines;
    assert_eq!(lines.len(), work.steps.len());
    let each: f64 = lines.iter().map(|line| line.material).sum();
    assert!((material - each).abs() < 1e-9);
    // By hand: material and time at 60 an hour, one fifth of tax on both, rounded once.
    let minutes: f64 = lines.iter().map(|line| line.minutes).sum();
    let by_hand = (each + minutes) * 1.2;
    assert!(
        (work.plan.cost - by_hand).abs() < 0.005_001,
        "{} {by_hand}",
        work.plan.cost
    );
    for purchase in &work.purchases {
        // Each gap's part of it is rounded to the cent.
        let slack = 0.005 * crate::physics::counts::count(purchase.gaps.len()) + 1e-9;
        assert!((purchase.quantity * purchase.unit_price - purchase.cost).abs() < slack);
        let alike = work.purchases.iter().filter(|other| {
            other.kind == purchase.kind
                && other.words == purchase.words
                && other.basis == purchase.basis
                && (other.unit_price - purchase.unit_price).abs() < 1e-9
        });
        assert_eq!(alike.count(), 1, "{purchase:?} stands twice");
    }
}

#[test]
fn work_goes_on_where_it_saves_and_ends_at_the_plan() {
    let survey = file::parse(CARAVAN).expect("a sample");
    let study = Study::of(&survey);
    let work = study.work().as_ref().expect("work");
    let after: Vec<f64> = work
        .steps
        .iter()
        .filter_map(|step| step.after.as_ref()?.ach_windy_per_h.clone().ok())
        .collect();
    let before = work.plan.before.ach_windy_per_h.clone().expect("known");
    let end = work.plan.after.ach_windy_per_h.clone().expect("known");
    assert!(after.len() > 2);
    for pair in [before].iter().chain(&after).collect::<Vec<_>>().windows(2) {
        assert!(pair[0] > pair[1], "{pair:?}");
    }
    let last = after.last().expect("some");
    assert!((last - end).abs() < 1e-4 * end, "{last} {end}");
}

#[test]
fn completion_is_the_vehicle_before_and_as_it_is_now() {
    let mut survey = file::parse(CARAVAN).expect("a sample");
    let found = assess(&survey)
        .leakage
        .unintended
        .expect("known")
        .figures
        .eqla;
    let study = Study::of(&survey);
    let work = study.work().as_ref();
    let planned: Vec<GapId> = work
        .expect("work")
        .steps
        .iter()
        .map(|step| step.sealable.gap())
        .collect();
    for gap in &mut survey.gaps {
        if planned.contains(&gap.id) {
            gap.state = WorkState::Sealed;
        }
    }
    let now = assess(&survey)
        .leakage
        .unintended
        .expect("known")
        .figures
        .eqla;
    assert!(now < found);
    let sheet = sheet(&survey, &Choices::new(Kind::Completion));
    let tables = tables(&sheet, "What was done");
    assert_eq!(plain_rows(tables[1]).count(), planned.len());
    let eqla = plain_rows(tables[0]).next().expect("a row");
    // At least so much: a gap of the sample is not sized.
    let shown = |cell: &str| {
        let number = cell.strip_prefix("≥\u{a0}").expect("a lower bound");
        number.parse::<f64>().expect("a number") / 1e4
    };
    assert!(
        (shown(&eqla.cells[1]) / found - 1.0).abs() < 5e-3,
        "{eqla:?}"
    );
    assert!((shown(&eqla.cells[2]) / now - 1.0).abs() < 5e-3, "{eqla:?}");
}

#[test]
fn without_prices_a_work_order_names_no_money() {
    let survey = file::parse(CARAVAN).expect("a sample");
    let mut choices = Choices::new(Kind::WorkOrder);
    choices.parts.remove(&Part::Costs);
    let sheet = sheet(&survey, &choices);
    let currency = survey.tariffs.currency.as_str();
    for section in &sheet.text.sections {
        let text = serde_json::to_string(&section.blocks).expect("JSON");
        assert!(!text.contains(currency), "{}: {text}", section.title);
    }
}

/// The boxes of the first section: their title and text.
fn first_boxes(sheet: &Sheet) -> Vec<(&str, &str)> {
    let blocks = sheet.text.sections[0].blocks.iter();
    blocks
        .filter_map(|block| match block {
            Block::Finding { title, text, .. } => Some((title.as_str(), text.as_str())),
            _ => None,
        })
        .collect()
}

#[test]
fn every_sheet_begins_with_what_is_closed_though_it_must_stay_open() {
    let mut survey = file::parse(CARAVAN).expect("a sample");
    let (mut sealed, mut planned) = (None, None);
    for gap in &mut survey.gaps {
        match gap.purpose {
            Purpose::GasDropOut if sealed.is_none() => {
                gap.state = WorkState::Sealed;
                sealed = Some((gap.id, gap.name.clone()));
            }
            Purpose::SafetyVentilation if planned.is_none() => {
                gap.state = WorkState::Planned;
                planned = Some((gap.id, gap.name.clone()));
            }
            Purpose::Unintended if gap.id.0 % 2 == 0 => gap.state = WorkState::Sealed,
            _ => {}
        }
    }
    let (sealed, planned) = (sealed.expect("one"), planned.expect("one"));
    for kind in Kind::ALL {
        let mut choices = Choices::new(kind);
        choices.parts.clear();
        let sheet = sheet(&survey, &choices);
        let boxes = first_boxes(&sheet);
        for ((id, name), words) in [
            (
                &sealed,
                "is marked sealed: it must stay open. Open it again at once",
            ),
            (
                &planned,
                "is marked planned but must stay open: do not close it",
            ),
        ] {
            let of_it: Vec<_> = boxes
                .iter()
                .filter(|(_, text)| text.contains(name))
                .collect();
            assert_eq!(of_it.len(), 1, "{kind:?}: {boxes:?}");
            let (title, text) = of_it[0];
            assert_eq!(*title, "Danger");
            assert!(text.starts_with(&format!("Gap {id} “{name}”")), "{text}");
            assert!(text.contains(words), "{text}");
        }
        let all = serde_json::to_string(&sheet.text).expect("JSON");
        assert_eq!(all.matches("is marked sealed: it must").count(), 1);
    }
    let completion = sheet(&survey, &Choices::new(Kind::Completion));
    let done = tables(&completion, "What was done");
    assert!(plain_rows(done[1]).count() > 2);
    for (id, _) in [&sealed, &planned] {
        assert!(plain_rows(done[1]).all(|row| row.cells[0] != id.to_string()));
    }
    assert_eq!(done.len(), 2, "before and after is still worked out");
    let order = sheet(&survey, &Choices::new(Kind::WorkOrder));
    let open = tables(&order, "What must not be closed");
    for ((id, _), words) in [
        (&sealed, "Open it again at once"),
        (&planned, "Do not close it"),
    ] {
        let mut rows = plain_rows(open[0]).filter(|row| row.cells[0] == id.to_string());
        let row = rows.next().expect("a row");
        assert!(row.cells[2].contains(words), "{row:?}");
    }
}

#[test]
fn without_closed_openings_no_sheet_speaks_of_them() {
    let survey = file::parse(CARAVAN).expect("a sample");
    for kind in Kind::ALL {
        let sheet = sheet(&survey, &Choices::new(kind));
        assert!(section(&sheet, "Openings that must stay open").is_none());
    }
}

#[test]
fn a_planned_gap_without_size_is_work_and_its_saving_is_not_known() {
    let mut survey = file::parse(CARAVAN).expect("a sample");
    let not_sized = GapId(37);
    for gap in &mut survey.gaps {
        if gap.id == not_sized {
            gap.state = WorkState::Planned;
        }
    }
    let study = Study::of(&survey);
    let work = study.work().as_ref().expect("work");
    let step = work
        .steps
        .iter()
        .find(|step| step.sealable.gap() == not_sized);
    assert!(step.expect("a step").not_sized);
    assert!(work.stays_open.iter().all(|left| left.gap != not_sized));
    let order = sheet(&survey, &Choices::new(Kind::WorkOrder));
    let text = serde_json::to_string(&order.text).expect("JSON");
    assert!(text.contains("Gap 37 is not sized: what sealing it saves is not known."));
    let report = sheet(&survey, &Choices::new(Kind::Report));
    let plan = tables(&report, "Sealing plan");
    let mut rows = plain_rows(plan[0]).filter(|row| row.cells[1] == "37");
    assert!(rows.next().expect("a row").cells[6].starts_with("not known ("));
}

/// Whoever reckons after the bill from what is printed comes to the same cents.
#[test]
fn what_is_printed_multiplies() {
    let mut survey = file::parse(CARAVAN).expect("a sample");
    survey.tariffs.workshop_per_hour = Some(78.0);
    let order = sheet(&survey, &Choices::new(Kind::WorkOrder));
    let number = |cell: &str| cell.parse::<f64>().expect("a number");
    let jobs = tables(&order, "Work to do, in this order")[0];
    let each: f64 = plain_rows(jobs).map(|row| number(&row.cells[6])).sum();
    let total = jobs.rows.last().expect("a sum");
    assert!((each - number(&total.cells[6])).abs() < 0.05);
    let costs = tables(&order, "Costs")[0];
    let labour = plain_rows(costs).find(|row| row.cells[0].contains(" at 78.00 an hour"));
    let labour = number(&labour.expect("a row").cells[1]);
    let reckoned = number(&total.cells[6]) / 60.0 * 78.0;
    assert!((labour - reckoned).abs() < 0.015, "{labour} {reckoned}");
    for row in plain_rows(tables(&order, "Shopping list")[0]) {
        let (many, price) = (number(&row.cells[2]), number(&row.cells[5]));
        let together = number(&row.cells[6]);
        assert!((many * price - together).abs() < 0.015, "{row:?}");
    }
}

/// Whoever works reads beside each step which opening next to it must not be closed with it.
#[test]
fn a_step_names_the_openings_beside_it_that_stay_open() {
    let mut survey = file::parse(CARAVAN).expect("a sample");
    let vent = survey
        .gaps
        .iter()
        .find(|gap| gap.purpose == Purpose::SafetyVentilation);
    let vent = vent.expect("one").clone();
    for gap in &mut survey.gaps {
        gap.state = WorkState::Open;
    }
    let near = survey
        .gaps
        .iter_mut()
        .find(|gap| gap.id == GapId(7))
        .expect("a gap");
    near.facing = vent.facing;
    near.position = vent.position;
    near.state = WorkState::Planned;
    let words = |survey: &Survey| {
        let order = sheet(survey, &Choices::new(Kind::WorkOrder));
        let table = tables(&order, "Work to do, in this order")[0];
        plain_rows(table).next().expect("a step").cells[3].clone()
    };
    // Others may lie beside it too.
    let told = format!(" {} {}", vent.id, vent.name);
    let beside = |survey: &Survey| {
        let words = words(survey);
        let (_, beside) = words.split_once("stays open beside it:")?;
        Some(beside.to_owned())
    };
    let there = beside(&survey).expect("what stays open");
    assert!(there.contains(&told), "{there}");
    let near = survey
        .gaps
        .iter_mut()
        .find(|gap| gap.id == GapId(7))
        .expect("a gap");
    near.position.along_m = vent.position.along_m.map(|along| along + 2.5);
    near.position.height_m = vent.position.height_m.map(|height| height + 2.5);
    near.position.across_m = vent.position.across_m.map(|across| across + 2.5);
    let there = beside(&survey).unwrap_or_default();
    assert!(!there.contains(&told), "{there}");
}

/// The drawing of a work order shows the steps alone, by their numbers.
#[test]
fn the_drawing_of_a_work_order_is_numbered_by_step() {
    let mut survey = file::parse(CARAVAN).expect("a sample");
    for gap in &mut survey.gaps {
        let planned = [7, 10, 28].contains(&gap.id.0);
        gap.state = if planned {
            WorkState::Planned
        } else {
            WorkState::Open
        };
    }
    let order = sheet(&survey, &Choices::new(Kind::WorkOrder));
    let drawn = order
        .files
        .iter()
        .find(|(name, _)| name == "body")
        .expect("a drawing");
    let text = String::from_utf8_lossy(&drawn.1.bytes).into_owned();
    for (number, there) in [
        ("1", true),
        ("2", true),
        ("3", true),
        ("10", false),
        ("28", false),
    ] {
        let marked =
            text.contains(&format!(">{number}<")) || text.contains(&format!(">{number} ?<"));
        assert_eq!(marked, there, "{number}");
    }
}

/// Whoever orders, offers or hands over the work is told what it leaves sleepers to breathe: with a
/// hundredth of every gap left, far less than the 3.7 m³/h of four below which it is a danger.
#[test]
fn every_paper_of_the_work_says_what_it_leaves_sleepers_to_breathe() {
    let mut survey = super::papers::priced(78.0, Some(20.0));
    survey.set_up = SetUp::LaidUp;
    survey.gaps.retain(|gap| [7, 10].contains(&gap.id.0));
    for gap in &mut survey.gaps {
        if let Some(remedy) = &mut gap.remedy {
            remedy.leak_left_percent = Some(1.0);
        }
    }
    let told = |survey: &Survey, kind, title: &str| {
        let sheet = sheet(survey, &Choices::new(kind));
        let section = section(&sheet, title).unwrap_or_else(|| panic!("no section {title}"));
        serde_json::to_string(&section.blocks).expect("JSON")
    };
    let order = "Work to do, in this order";
    for (kind, title) in [
        (Kind::Quotation, "What is offered"),
        (Kind::WorkOrder, order),
    ] {
        let told = told(&survey, kind, title);
        let words = "nce this is sealed and it is in use again, with a sleeper in each berth";
        assert!(
            told.contains(words) && told.contains("carbon dioxide"),
            "{told}"
        );
    }
    let done = super::papers::sealed(survey, "2031-03-01");
    let told = told(&done, Kind::Completion, "What was done");
    let words = "nce it is in use again, with a sleeper in each berth the carbon dioxide settles";
    assert!(told.contains(words), "{told}");
}
