//! What stands on the sheets, read without a typesetter.

use super::*;
use crate::assess::assess;
use crate::report::{Row, RowKind, Table};
use crate::survey::{GapId, Purpose, Survey, WorkState, file};

mod numbers;

const COACH_BUILT: &str = include_str!("../../../../sample-surveys/coastal-coachbuilt.ron");
const CARAVAN: &str = include_str!("../../../../sample-surveys/farmyard-caravan.ron");

pub(crate) fn sheet(survey: &Survey, choices: &Choices) -> Sheet {
    let study = Study::of(survey);
    contents(
        &Material::of(&study, choices.kind, &BTreeMap::new()),
        choices,
    )
}

fn section<'a>(sheet: &'a Sheet, title: &str) -> Option<&'a Section> {
    let mut sections = sheet.text.sections.iter();
    sections.find(|section| section.title == title)
}

fn tables<'a>(sheet: &'a Sheet, title: &str) -> Vec<&'a Table> {
    let section = section(sheet, title).unwrap_or_else(|| panic!("no section {title}"));
    let blocks = section.blocks.iter();
    blocks
        .filter_map(|block| match block {
            Block::Table { table } => Some(table),
            _ => None,
        })
        .collect()
}

fn plain_rows(table: &Table) -> impl Iterator<Item = &Row> {
    table.rows.iter().filter(|row| row.kind == RowKind::Plain)
}

#[test]
fn the_ledger_holds_every_gap_once_under_its_zone() {
    let survey = file::parse(COACH_BUILT).expect("a sample");
    let sheet = sheet(&survey, &Choices::new(Kind::Report));
    let tables = tables(&sheet, "Ledger of gaps");
    let mut zone = String::new();
    let mut found = Vec::new();
    for row in &tables[0].rows {
        match row.kind {
            RowKind::Group => zone.clone_from(&row.cells[0]),
            RowKind::Plain => found.push((row.cells[0].clone(), zone.clone())),
            RowKind::Total => {}
        }
    }
    for gap in &survey.gaps {
        let zone = survey.zone(gap.zone).expect("its zone");
        let wanted = (gap.id.to_string(), zone.name.clone());
        assert_eq!(
            found.iter().filter(|one| **one == wanted).count(),
            1,
            "{wanted:?}"
        );
    }
    assert_eq!(found.len(), survey.gaps.len());
}

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
        assert!(plain_rows(to_do[0]).all(|row| row.cells[1] != id.to_string()));
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
    let lines: Vec<_> = work.costs().collect();
    assert_eq!(lines.len(), work.steps.len());
    let each: f64 = lines.iter().map(|cost| cost.material).sum();
    assert!((material - each).abs() < 1e-9);
    // By hand: material and time at 60 an hour, one fifth of tax on both.
    let minutes: f64 = lines.iter().map(|cost| cost.minutes).sum();
    let by_hand = (each + minutes) * 1.2;
    assert!(
        (work.plan.cost - by_hand).abs() < 1e-6,
        "{} {by_hand}",
        work.plan.cost
    );
    for purchase in &work.purchases {
        assert!((purchase.quantity * purchase.unit_price - purchase.cost).abs() < 1e-9);
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
fn parts_may_be_left_out_but_never_safety_and_cautions() {
    let survey = file::parse(CARAVAN).expect("a sample");
    for kind in Kind::ALL {
        let full = sheet(&survey, &Choices::new(kind));
        let mut choices = Choices::new(kind);
        choices.parts.clear();
        let least = sheet(&survey, &choices);
        assert!(least.text.sections.len() < full.text.sections.len());
        assert!(section(&least, "Cautions").is_some(), "{kind:?}");
        if kind != Kind::WorkOrder {
            let title = "Safety ventilation: never to be sealed";
            assert!(section(&least, title).is_some(), "{kind:?}");
        }
    }
}

#[test]
fn what_the_marks_mean_is_said_once_on_every_sheet() {
    let survey = file::parse(CARAVAN).expect("a sample");
    for kind in Kind::ALL {
        let mut choices = Choices::new(kind);
        for _ in 0..2 {
            let sheet = sheet(&survey, &choices);
            let text = serde_json::to_string(&sheet.text).expect("JSON");
            assert_eq!(
                text.matches("[S] read in the source;").count(),
                1,
                "{kind:?}"
            );
            choices.parts.clear();
        }
    }
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

#[test]
fn a_photo_that_is_not_there_is_named() {
    let mut survey = file::parse(CARAVAN).expect("a sample");
    survey.gaps[0].photos = vec![crate::survey::Photo::new("lost.jpg")];
    let sheet = sheet(&survey, &Choices::new(Kind::Report));
    let photos = section(&sheet, "Photos").expect("the section");
    let text = serde_json::to_string(&photos.blocks).expect("JSON");
    assert!(text.contains("lost.jpg (gap "), "{text}");
}

#[test]
fn an_empty_survey_says_what_is_missing() {
    let survey = Survey::new(crate::survey::VehicleKind::Other);
    for kind in Kind::ALL {
        let sheet = sheet(&survey, &Choices::new(kind));
        let text = serde_json::to_string(&sheet.text).expect("JSON");
        assert!(
            text.contains("no gap") || text.contains("No gap"),
            "{kind:?}: {text}"
        );
        assert!(!text.contains("NaN") && !text.contains("inf "), "{text}");
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
    let each: f64 = plain_rows(jobs).map(|row| number(&row.cells[5])).sum();
    let total = jobs.rows.last().expect("a sum");
    assert!((each - number(&total.cells[5])).abs() < 0.05);
    let costs = tables(&order, "Costs")[0];
    let labour = plain_rows(costs).find(|row| row.cells[0].contains(" at 78.00 an hour"));
    let labour = number(&labour.expect("a row").cells[1]);
    let reckoned = number(&total.cells[5]) / 60.0 * 78.0;
    assert!((labour - reckoned).abs() < 0.015, "{labour} {reckoned}");
    for row in plain_rows(tables(&order, "Shopping list")[0]) {
        let (many, price) = (number(&row.cells[2]), number(&row.cells[5]));
        let together = number(&row.cells[6]);
        assert!((many * price - together).abs() < 0.015, "{row:?}");
    }
}

#[test]
fn a_survey_without_gaps_does_not_read_as_tight() {
    let mut survey = file::parse(CARAVAN).expect("a sample");
    survey.gaps.clear();
    let report = sheet(&survey, &Choices::new(Kind::Report));
    let summary = section(&report, "Results in plain words").expect("the section");
    let text = serde_json::to_string(&summary.blocks).expect("JSON");
    assert!(text.contains("No gaps are written down yet"), "{text}");
    for tight in ["sides of 0", "EqLA", "replaced 0", "0\u{a0}L of water"] {
        assert!(!text.contains(tight), "{tight}: {text}");
    }
}

#[test]
fn windy_is_never_a_case_of_that_name_with_less_wind() {
    let mut survey = file::parse(CARAVAN).expect("a sample");
    let explains = |survey: &Survey| {
        let report = sheet(survey, &Choices::new(Kind::Report));
        let drying = section(&report, "Drying and heating").expect("the section");
        let text = serde_json::to_string(&drying.blocks).expect("JSON");
        text.contains("windy the one with most, “gale”")
    };
    assert!(!explains(&survey));
    let mut gale = survey.weather.last().expect("a case").clone();
    gale.id = crate::survey::WeatherId(99);
    gale.name = "gale".to_owned();
    gale.wind_m_s = 14.0;
    survey.weather.push(gale);
    assert!(explains(&survey));
    let report = sheet(&survey, &Choices::new(Kind::Report));
    for title in ["Results in plain words", "Sealing plan"] {
        let blocks = &section(&report, title).expect("the section").blocks;
        for block in blocks {
            if let Block::Table { table } = block {
                let heads: String = table.columns.iter().map(|one| one.head.as_str()).collect();
                assert!(!heads.contains("windy"), "{heads}");
                let rows = plain_rows(table).map(|row| row.cells[0].as_str());
                assert!(
                    rows.filter(|cell| *cell != "windy")
                        .all(|cell| !cell.contains("windy"))
                );
            } else if let Block::Plain { sentences } = block {
                assert!(
                    sentences.iter().all(|one| !one.contains("windy")),
                    "{sentences:?}"
                );
            }
        }
    }
}

/// Each space has its rows with a cell for each weather case; a single space has none.
#[test]
fn the_air_of_each_space_is_printed() {
    let text = include_str!("../../../../sample-surveys/vineyard-coachbuilt.ron");
    let survey = file::parse(text).expect("a sample");
    let printed = sheet(&survey, &Choices::new(Kind::Report));
    let table = tables(&printed, "Results by weather")[0];
    let cells = |label: String| {
        let mut rows = plain_rows(table).filter(|row| row.cells[0] == label);
        let row = rows.next().unwrap_or_else(|| panic!("no row {label}"));
        row.cells[1..].to_vec()
    };
    let mut count = 0;
    for (at, space) in survey.spaces.iter().enumerate() {
        let name = survey.space_name(space.id);
        let outside = cells(format!("{name}: outside air, /h"));
        let others = cells(format!("{name}: from other spaces, /h"));
        for (case, (outside, others)) in assess(&survey)
            .cases
            .iter()
            .zip(outside.iter().zip(&others))
        {
            let own = &case.air.as_ref().expect("its air").spaces[at];
            let changes = |ach: &crate::assess::Answer<f64>| {
                crate::assess::words::figure(*ach.as_ref().expect("its volume"), 2)
            };
            assert_eq!(*outside, changes(&own.ach_per_h));
            assert_eq!(*others, changes(&own.from_spaces_per_h));
            count += 1;
        }
    }
    assert_eq!(count, 12);
    let single = file::parse(CARAVAN).expect("a sample");
    let sheet = sheet(&single, &Choices::new(Kind::Report));
    let mut rows = tables(&sheet, "Results by weather")
        .into_iter()
        .flat_map(plain_rows);
    assert!(rows.all(|row| !row.cells[0].contains("other spaces")));
}
