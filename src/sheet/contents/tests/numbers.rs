//! The same number reads the same wherever it stands, and says where it comes from.

use super::*;
use crate::assess::uncertainty::{SEED, uncertainty};
use crate::survey::{Form, GapId, Purpose, Remedy};

const INTEGRATED: &str = include_str!("../../../../sample-surveys/forest-integrated.ron");

/// Gaps of the caravan that are sealed in these tests.
const SEALED: [u32; 4] = [7, 10, 12, 28];

fn sealed_caravan() -> Survey {
    let mut survey = file::parse(CARAVAN).expect("a sample");
    for gap in &mut survey.gaps {
        if SEALED.contains(&gap.id.0) {
            gap.state = WorkState::Sealed;
        }
    }
    survey
}

/// All words of a section.
fn words(sheet: &Sheet, title: &str) -> String {
    let section = section(sheet, title).unwrap_or_else(|| panic!("no section {title}"));
    serde_json::to_string(&section.blocks).expect("JSON")
}

/// The sums of the appendix's tables under a heading, one cell for each weather case.
fn results<'a>(sheet: &'a Sheet, heading: &str) -> Vec<&'a str> {
    let blocks = &section(sheet, "Appendix: workings and sources")
        .expect("the section")
        .blocks;
    let from = blocks
        .iter()
        .position(|block| matches!(block, Block::Heading { text } if text == heading));
    let rest = &blocks[from.expect("the heading")..];
    let table = rest.iter().find_map(|block| match block {
        Block::Table { table } => Some(table),
        _ => None,
    });
    let sums = table.expect("a table").rows.last().expect("a sum");
    sums.cells[1..].iter().map(String::as_str).collect()
}

#[test]
fn a_headline_reads_the_same_in_summary_and_working() {
    for sample in [COACH_BUILT, CARAVAN, INTEGRATED] {
        let report = sheet(
            &file::parse(sample).expect("a sample"),
            &Choices::new(Kind::Report),
        );
        for (label, heading, before, behind) in [
            ("Mean, /h", "Air change", "", "\u{a0}/h in the mean"),
            (
                TOGETHER,
                "Heat to hold the set temperature",
                "",
                "\u{a0}W: ",
            ),
            (HELD, "Water to remove", "; ", "\u{a0}L/day"),
        ] {
            for (cell, result) in of_cases(&report, label)
                .iter()
                .zip(results(&report, heading))
            {
                let shown = format!("{before}{cell}{behind}");
                assert!(result.contains(&shown), "{shown}: {result}");
            }
        }
    }
}

/// The row of the heat that holds the set temperature: the first of its name.
const TOGETHER: &str = "Together, W";
/// The row of the water to remove at the set temperature.
const HELD: &str = "Inside held at ";

/// The cells of a row of the table by weather, one for each case.
fn of_cases(sheet: &Sheet, label: &str) -> Vec<String> {
    rows_of_cases(sheet, label, 0)
}

/// The cells of a row so many below the first whose name begins so.
fn rows_of_cases(sheet: &Sheet, label: &str, below: usize) -> Vec<String> {
    let tables = tables(sheet, "Results by weather").into_iter();
    let cells = tables.flat_map(|table| {
        let rows = &table.rows;
        let at = rows.iter().position(|row| row.cells[0].starts_with(label));
        let at = at.unwrap_or_else(|| panic!("no row {label}"));
        rows[at + below].cells[1..].to_vec()
    });
    cells.collect()
}

/// What stands after the work in the table is what the workings behind it come to, even where an
/// opening that must be opened again is sealed.
#[test]
fn the_completion_sheets_workings_are_those_of_its_after() {
    let mut survey = sealed_caravan();
    let vent = |gap: &&mut crate::survey::Gap| gap.purpose == Purpose::SafetyVentilation;
    survey.gaps.iter_mut().find(vent).expect("one").state = WorkState::Sealed;
    let mut choices = Choices::new(Kind::Completion);
    choices.parts.insert(Part::Proof);
    let completion = sheet(&survey, &choices);
    let table = tables(&completion, "What was done")[0];
    let mut rows = plain_rows(table);
    let windy = rows.find(|row| row.cells[0].starts_with("Air changes with most wind"));
    let after = &windy.expect("a row").cells[2];
    let results = results(&completion, "Air change");
    let result = results.last().expect("the windiest case");
    assert!(
        result.starts_with(&format!("{after}\u{a0}/h in the mean")),
        "{after}: {result}"
    );
}

#[test]
fn before_and_after_have_the_reports_intervals() {
    let survey = sealed_caravan();
    let found = file::parse(CARAVAN).expect("a sample");
    let uncertainty = |survey: &Survey| uncertainty(survey, SEED, 400).expect("known");
    let (before, after) = (uncertainty(&found), uncertainty(&survey));
    let report = |survey: &Survey, kind, now, before| {
        let study = Study::of(survey);
        let material = Material {
            told: report::Material {
                uncertainty: now,
                uncertainty_before: before,
                ..report::Material::of(&study)
            },
            now: survey,
            photos: &BTreeMap::new(),
        };
        contents(&material, &Choices::new(kind))
    };
    let completion = report(&survey, Kind::Completion, Some(&after), Some(&before));
    let table = tables(&completion, "What was done")[0];
    let heads: Vec<&str> = table.columns.iter().map(|one| one.head.as_str()).collect();
    assert_eq!(heads, ["", "Before", "95 %", "After", "95 %", "Change, %"]);
    for (survey, uncertainty, value) in [(&found, &before, 1), (&survey, &after, 3)] {
        let report = report(survey, Kind::Report, Some(uncertainty), None);
        for (words, label) in [
            ("Air changes with least wind, /h", "Mean, /h"),
            ("Air changes with most wind, /h", "Mean, /h"),
            ("Water to remove with least wind, L/day", HELD),
            ("Water to remove with most wind, L/day", HELD),
            ("Heat with least wind, W", TOGETHER),
            ("Heat with most wind, W", TOGETHER),
        ] {
            let mut rows = plain_rows(table).filter(|row| row.cells[0] == words);
            let row = rows.next().unwrap_or_else(|| panic!("no row {words}"));
            let [figures, likely] = [0, 1].map(|below| rows_of_cases(&report, label, below));
            let at = if words.contains("least") {
                0
            } else {
                figures.len() - 1
            };
            assert_eq!(row.cells[value], figures[at], "{words}");
            assert_eq!(row.cells[value + 1], likely[at], "{words}");
        }
    }
}

#[test]
fn the_working_of_a_sealed_gap_shows_what_its_remedy_leaves() {
    let mut survey = sealed_caravan();
    let set = |survey: &mut Survey, left| {
        let gap = survey.gaps.iter_mut().find(|gap| gap.id == GapId(28));
        let remedy: &mut Option<Remedy> = &mut gap.expect("a gap").remedy;
        remedy.as_mut().expect("a remedy").leak_left_percent = left;
    };
    set(&mut survey, Some(12.5));
    let put_in = |survey: &Survey, id: &str| {
        let report = sheet(survey, &Choices::new(Kind::Report));
        let gaps = tables(&report, "Appendix: workings and sources");
        let mut rows = gaps.last().expect("the gaps").rows.iter();
        let row = rows.find(|row| row.cells[0] == id).expect("its row");
        row.cells[1].clone()
    };
    let words = put_in(&survey, "28");
    assert!(
        words.contains("sealed, its remedy leaves 12.5\u{a0}%"),
        "{words}"
    );
    assert!(!put_in(&survey, "27").contains("leaves"));
    set(&mut survey, None);
    let words = put_in(&survey, "28");
    assert!(
        words.contains("leaves a share that is not given"),
        "{words}"
    );
}

#[test]
fn sizes_in_workings_are_as_they_were_typed() {
    let report = sheet(
        &file::parse(CARAVAN).expect("a sample"),
        &Choices::new(Kind::Report),
    );
    let text = words(&report, "Appendix: workings and sources").replace('\u{a0}', " ");
    assert!(
        text.contains("length L 2500 mm; width d 0.7 mm; depth z 42 mm; bends 1; count 1"),
        "{text}"
    );
}

#[test]
fn every_sheet_says_which_numbers_come_from_a_test() {
    let mut survey = file::parse(INTEGRATED).expect("a sample");
    let tested: Vec<GapId> = survey
        .gaps
        .iter()
        .filter(|gap| matches!(gap.form, Form::FlowTest { .. }))
        .map(|gap| gap.id)
        .collect();
    assert!(tested.len() > 2);
    for (kind, title, state) in [
        (Kind::Report, "Ledger of gaps", WorkState::Open),
        (
            Kind::WorkOrder,
            "Work to do, in this order",
            WorkState::Planned,
        ),
        (Kind::Completion, "What was done", WorkState::Sealed),
    ] {
        for gap in &mut survey.gaps {
            gap.state = state;
        }
        let sheet = sheet(&survey, &Choices::new(kind));
        let text = words(&sheet, title);
        let note = text.split("Measured by a flow test, as found: ").nth(1);
        let note = note.unwrap_or_else(|| panic!("{kind:?}: {text}"));
        for id in &tested {
            assert!(note.contains(&format!("gap {id}, ")), "{kind:?}: {note}");
        }
    }
    let caravan = file::parse(CARAVAN).expect("a sample");
    let report = sheet(&caravan, &Choices::new(Kind::Report));
    assert!(!words(&report, "Ledger of gaps").contains("flow test"));
}

/// The column says what each gap saves after those above it; the sum is what they save together.
#[test]
fn savings_of_the_order_add_up() {
    let survey = file::parse(CARAVAN).expect("a sample");
    let report = sheet(&survey, &Choices::new(Kind::Report));
    let plan = tables(&report, "Sealing plan");
    let number = |cell: &str| cell.parse::<f64>().expect("a number");
    let each: Vec<f64> = plain_rows(plan[0])
        .map(|row| number(&row.cells[6]))
        .collect();
    let sum = number(&plan[0].rows.last().expect("a sum").cells[6]);
    // Each is rounded to two digits.
    let slack = 0.05 * sum;
    assert!(
        (each.iter().sum::<f64>() - sum).abs() < slack,
        "{each:?} {sum}"
    );
    let windy = plain_rows(plan[1]).find(|row| row.cells[0] == "Air changes with most wind, /h");
    let windy = windy.expect("a row");
    let less = number(&windy.cells[1]) - number(&windy.cells[2]);
    assert!((less - sum).abs() < 0.11, "{less} {sum}");
}

/// No white square where a rose would be.
#[test]
fn without_an_air_change_there_is_no_rose() {
    let mut survey = file::parse(CARAVAN).expect("a sample");
    let full = sheet(&survey, &Choices::new(Kind::Report));
    assert!(full.files.iter().any(|(name, _)| name == "rose"));
    survey.gaps.clear();
    let empty = sheet(&survey, &Choices::new(Kind::Report));
    assert!(empty.files.iter().all(|(name, _)| name != "rose"));
    assert!(words(&empty, "Where the gaps are").contains("Not known: no gap entered yet"));
}

#[test]
fn one_piece_is_no_plural_and_tax_has_its_currency() {
    let survey = file::parse(CARAVAN).expect("a sample");
    let order = sheet(&survey, &Choices::new(Kind::WorkOrder));
    for row in plain_rows(tables(&order, "Shopping list")[0]) {
        assert_eq!(
            row.cells[3] == "piece",
            row.cells[2] == "1" && row.cells[3] != "m"
        );
    }
    let report = sheet(&survey, &Choices::new(Kind::Report));
    assert!(words(&report, "Sealing plan").contains("The costs include EUR\u{a0}"));
}

/// The bars are the table's own numbers, sorted, and their picture says them.
#[test]
fn the_leakiest_gaps_and_the_steps_of_the_plan_are_drawn_before_their_tables() {
    let survey = file::parse(COACH_BUILT).expect("a sample");
    let study = Study::of(&survey);
    let told = crate::report::Material::of(&study);
    let leakiest = crate::report::ledger::leakiest(&told);
    assert_eq!(leakiest.len(), 12);
    assert!(
        leakiest
            .windows(2)
            .all(|pair| pair[0].value >= pair[1].value)
    );
    let steps = crate::report::sealing::step_by_step(&survey, study.work());
    assert!(steps.len() > 5);
    assert!(steps.windows(2).all(|pair| pair[0].value >= pair[1].value));
    let report = sheet(&survey, &Choices::new(Kind::Report));
    for (title, amounts) in [("Ledger of gaps", &leakiest), ("Sealing plan", &steps)] {
        let blocks = &section(&report, title).expect("a section").blocks;
        let figure = blocks
            .iter()
            .position(|block| matches!(block, Block::Figure { .. }));
        let table = blocks
            .iter()
            .position(|block| matches!(block, Block::Table { .. }));
        let (figure, table) = (figure.expect("a plot"), table.expect("a table"));
        assert_eq!(figure + 1, table, "{title}");
        let Some(Block::Figure { alt, .. }) = blocks.get(figure) else {
            panic!("no figure");
        };
        for amount in amounts {
            assert!(alt.contains(&amount.words), "{}: {alt}", amount.words);
        }
    }
    // Without drawings the tables stand alone.
    let mut plain = Choices::new(Kind::Report);
    plain.parts.remove(&Part::Drawings);
    let plain = sheet(&survey, &plain);
    let blocks = &section(&plain, "Sealing plan").expect("a section").blocks;
    assert!(
        !blocks
            .iter()
            .any(|block| matches!(block, Block::Figure { .. }))
    );
}
