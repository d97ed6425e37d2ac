//! Quotation and invoice: what they hold, and that their cents add up.

use super::*;
use crate::sheet::WorkshopTexts;
use crate::survey::{GapId, Job};
use proptest::prelude::*;

/// The caravan with a workshop's prices, a customer, and four gaps planned.
pub(crate) fn priced(rate: f64, tax: Option<f64>) -> Survey {
    let mut survey = file::parse(CARAVAN).expect("a sample");
    survey.tariffs.workshop_per_hour = Some(rate);
    survey.tariffs.tax_percent = tax;
    survey.job = Job {
        customer: "Nobody & Daughters".to_owned(),
        address: "2 Made-up Road\nNowhere".to_owned(),
        registration: "XX 00 YYY".to_owned(),
        quotation_number: "Q-7".to_owned(),
        ..Job::default()
    };
    for gap in &mut survey.gaps {
        let planned = [7, 10, 12, 28].contains(&gap.id.0);
        gap.state = if planned {
            WorkState::Planned
        } else {
            WorkState::Open
        };
    }
    survey
}

/// The four gaps sealed on this day.
pub(crate) fn sealed(mut survey: Survey, day: &str) -> Survey {
    for gap in &mut survey.gaps {
        if gap.state == WorkState::Planned {
            gap.state = WorkState::Sealed;
            gap.state_date = day.to_owned();
        }
    }
    survey
}

/// Cents of a cell.
fn cents(cell: &str) -> i64 {
    let (whole, part) = cell.split_once('.').unwrap_or_else(|| panic!("{cell}"));
    assert_eq!(part.len(), 2, "{cell}");
    format!("{whole}{part}")
        .parse()
        .unwrap_or_else(|_| panic!("{cell}"))
}

/// Cents as a number to reckon with.
fn whole(cents: i64) -> f64 {
    crate::physics::counts::seconds_as_f64(cents)
}

/// Net, tax and gross of a table, each the sum of what stands above it; cents.
fn adds_up(table: &Table, tax_percent: Option<f64>) -> (i64, i64) {
    let mut net = 0;
    for row in plain_rows(table) {
        let [material, labour, price] = [5, 7, 8].map(|at| cents(&row.cells[at]));
        assert_eq!(material + labour, price, "{row:?}");
        let each = row.cells[4].parse::<f64>().expect("a price");
        let many = row.cells[2].parse::<f64>().expect("a quantity");
        assert!(
            (each * many * 100.0 - whole(material)).abs() < 0.500_1,
            "{row:?}"
        );
        net += price;
    }
    let totals: Vec<&Row> = table
        .rows
        .iter()
        .filter(|row| row.kind == RowKind::Total)
        .collect();
    let last = |row: &Row| cents(row.cells.last().expect("cells"));
    match (tax_percent, totals.as_slice()) {
        (Some(percent), [first, tax, gross]) => {
            assert_eq!(last(first), net);
            let exact = whole(net) * percent / 100.0;
            assert!(
                (whole(last(tax)) - exact).abs() < 0.500_1,
                "{tax:?} {exact}"
            );
            assert_eq!(last(gross), net + last(tax));
            (net, last(gross))
        }
        (None, [total]) => {
            assert_eq!(last(total), net);
            (net, net)
        }
        _ => panic!("{totals:?}"),
    }
}

#[test]
fn a_quotation_says_what_is_offered_to_whom_and_fills_nothing_in() {
    let survey = priced(78.0, Some(20.0));
    let sheet = sheet(&survey, &Choices::new(Kind::Quotation));
    let facts: Vec<(&str, &str)> = sheet
        .text
        .facts
        .iter()
        .map(|(name, value)| (name.as_str(), value.as_str()))
        .collect();
    assert_eq!(
        facts,
        [
            ("Customer", "Nobody & Daughters"),
            ("Address", "2 Made-up Road\nNowhere"),
            ("Vehicle", "touring caravan"),
            ("Registration", "XX 00 YYY"),
            ("Quotation number", "Q-7"),
            ("Reference", "SAMPLE-1"),
        ]
    );
    let offered = tables(&sheet, "What is offered");
    assert_eq!(plain_rows(offered[0]).count(), 4);
    adds_up(offered[0], Some(20.0));
    let open = section(&sheet, "What stays open").expect("the section");
    let text = serde_json::to_string(&open.blocks).expect("JSON");
    for gap in survey
        .gaps
        .iter()
        .filter(|gap| gap.purpose.must_stay_open())
    {
        assert!(
            text.contains(&format!("(gap {}): ", gap.id)),
            "{}: {text}",
            gap.id
        );
    }
    for absent in ["Terms", "Warranty"] {
        assert!(section(&sheet, absent).is_none(), "nobody gave any");
    }
}

#[test]
fn the_workshops_own_words_stand_where_they_belong() {
    let texts = WorkshopTexts {
        name: "Invented Workshop".to_owned(),
        address: "1 Made-up Lane".to_owned(),
        tax_number: "XX 123".to_owned(),
        payment: "To account 00.".to_owned(),
        terms: "Prices for four weeks.".to_owned(),
        warranty: "Two winters on seals.".to_owned(),
        acceptance: "I order the work above.".to_owned(),
    };
    let done = sealed(priced(78.0, None), "2031-03-01");
    let of = |survey: &Survey, kind| {
        let mut choices = Choices::new(kind);
        choices.workshop.texts = texts.clone();
        sheet(survey, &choices)
    };
    let quotation = of(&priced(78.0, None), Kind::Quotation);
    let invoice = of(&done, Kind::Invoice);
    for (sheet, title, words, there) in [
        (&quotation, "Terms", "Prices for four weeks.", true),
        (&quotation, "Warranty", "Two winters on seals.", true),
        (&quotation, "Acceptance", "I order the work above.", true),
        (&quotation, "Payment", "", false),
        (&invoice, "Payment", "To account 00.", true),
        (&invoice, "Warranty", "Two winters on seals.", true),
        (&invoice, "Acceptance", "", false),
    ] {
        let found = section(sheet, title);
        assert_eq!(found.is_some(), there, "{title}");
        let text = serde_json::to_string(&found).expect("JSON");
        assert!(text.contains(words), "{title}: {text}");
    }
    assert_eq!(invoice.text.address, "1 Made-up Lane\nTax number XX 123");
    let order = of(&done, Kind::WorkOrder);
    assert_eq!(order.text.address, "1 Made-up Lane");
}

#[test]
fn what_a_paper_lacks_is_said_before_it_goes_out() {
    let told = |survey: &Survey, kind| {
        let sheet = sheet(survey, &Choices::new(kind));
        let first = section(&sheet, "Before this goes to the customer");
        first.map(|section| serde_json::to_string(&section.blocks).expect("JSON"))
    };
    let mut survey = priced(78.0, Some(20.0));
    for gap in &mut survey.gaps {
        if let Some(remedy) = &mut gap.remedy {
            remedy.material_cost = Some(3.0);
            remedy.minutes = Some(20.0);
        }
    }
    assert!(
        survey
            .gaps
            .iter()
            .all(|gap| gap.state != WorkState::Planned || gap.remedy.is_some())
    );
    assert_eq!(told(&survey, Kind::Quotation), None);
    let mut lacking = survey.clone();
    lacking.tariffs.tax_percent = None;
    assert!(
        told(&lacking, Kind::Quotation)
            .expect("told")
            .contains("No tax")
    );
    lacking.tariffs.workshop_per_hour = None;
    assert!(
        told(&lacking, Kind::Quotation)
            .expect("told")
            .contains("Work without a price")
    );
    let mut suggested = survey.clone();
    for gap in &mut suggested.gaps {
        gap.remedy = None;
    }
    assert!(
        told(&suggested, Kind::Quotation)
            .expect("told")
            .contains("Prices that nobody gave")
    );
    let mut done = sealed(survey, "2031-03-01");
    assert_eq!(told(&done, Kind::Invoice), None);
    let first = done
        .gaps
        .iter_mut()
        .find(|gap| gap.state == WorkState::Sealed);
    first.expect("a gap").state_date = "2030-11-20".to_owned();
    assert!(
        told(&done, Kind::Invoice)
            .expect("told")
            .contains("Which order?")
    );
    done.job.order_date = "2031-02-20".to_owned();
    assert_eq!(told(&done, Kind::Invoice), None);
    let invoice = sheet(&done, &Choices::new(Kind::Invoice));
    assert_eq!(plain_rows(tables(&invoice, "What was done")[0]).count(), 3);
}

/// The order is the same before and after it is carried out, and no new proposal takes its place.
#[test]
fn an_order_that_was_carried_out_is_printed_again() {
    let survey = priced(78.0, Some(20.0));
    let done = sealed(survey.clone(), "2031-03-01");
    for kind in [Kind::Quotation, Kind::WorkOrder] {
        let title = if kind == Kind::Quotation {
            "What is offered"
        } else {
            "Work to do, in this order"
        };
        let rows = |survey: &Survey| -> Vec<Vec<String>> {
            let sheet = sheet(survey, &Choices::new(kind));
            let table = tables(&sheet, title)[0].clone();
            plain_rows(&table)
                .map(|row| row.cells[1..].to_vec())
                .collect()
        };
        assert_eq!(rows(&survey).len(), 4);
        assert_eq!(rows(&survey), rows(&done), "{kind:?}");
    }
    // What is planned next is another order, and nobody pays for the first one again.
    let mut next = done;
    let gap = next
        .gaps
        .iter_mut()
        .find(|gap| gap.id == GapId(37))
        .expect("a gap");
    gap.state = WorkState::Planned;
    let order = sheet(&next, &Choices::new(Kind::WorkOrder));
    let table = tables(&order, "Work to do, in this order")[0];
    assert_eq!(plain_rows(table).count(), 1);
}

/// By hand: material and work are told apart by two rates, each rounded once on its own sum.
#[test]
fn material_of_another_rate_has_a_tax_of_its_own() {
    let mut survey = priced(78.0, Some(20.0));
    survey.tariffs.material_tax_percent = Some(7.0);
    let quotation = sheet(&survey, &Choices::new(Kind::Quotation));
    let table = tables(&quotation, "What is offered")[0];
    let sum = |column: usize| {
        plain_rows(table)
            .map(|row| cents(&row.cells[column]))
            .sum::<i64>()
    };
    // In hundredths of a cent, half a cent upwards.
    let share = |cents: i64, percent: i64| (cents * percent + 50) / 100;
    let (material, labour) = (sum(5), sum(7));
    let totals: Vec<(&str, i64)> = table
        .rows
        .iter()
        .filter(|row| row.kind == RowKind::Total)
        .map(|row| (row.cells[1].as_str(), cents(&row.cells[8])))
        .collect();
    let (on_material, on_labour) = (share(material, 7), share(labour, 20));
    let rate =
        |percent: u32, net: i64| format!("Tax, {percent}\u{a0}% of {}.{:02}", net / 100, net % 100);
    assert_eq!(
        totals,
        [
            ("Net", material + labour),
            (rate(7, material).as_str(), on_material),
            (rate(20, labour).as_str(), on_labour),
            (
                "Total with tax",
                material + labour + on_material + on_labour
            ),
        ]
    );
    // Equal rates are one.
    survey.tariffs.material_tax_percent = Some(20.0);
    let quotation = sheet(&survey, &Choices::new(Kind::Quotation));
    adds_up(tables(&quotation, "What is offered")[0], Some(20.0));
}

#[test]
fn without_work_there_is_nothing_to_bill() {
    let survey = priced(78.0, None);
    let invoice = sheet(&survey, &Choices::new(Kind::Invoice));
    let text = serde_json::to_string(&invoice.text.sections).expect("JSON");
    assert!(
        text.contains("No gap is marked as sealed since the order was placed. Mark as sealed"),
        "{text}"
    );
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// Prices of any number of digits, times and rates: what is printed adds up to the cent, and the
    /// bill for the work done is the quotation for it.
    #[test]
    fn cents_add_up_whatever_the_prices(
        prices in prop::collection::vec((0_u32..10_000_000, 0_u32..5), 4),
        minutes in prop::collection::vec(0_u32..1_000, 4),
        rate in 1_u32..20_000,
        tax in prop::option::of(0_u32..1_000),
    ) {
        let tax = tax.map(|tax| f64::from(tax) / 10.0);
        let mut survey = priced(f64::from(rate) / 100.0, tax);
        let gaps = survey.gaps.iter_mut().filter(|gap| gap.state == WorkState::Planned);
        for ((gap, (price, digits)), minutes) in gaps.zip(prices).zip(minutes) {
            let remedy = gap.remedy.get_or_insert_with(|| crate::survey::Remedy {
                kind: crate::survey::RemedyKind::Strip,
                words: String::new(),
                leak_left_percent: Some(10.0),
                material_cost: None,
                cost_basis: crate::survey::CostBasis::Metre,
                minutes: None,
            });
            remedy.material_cost = Some(f64::from(price) / 10_f64.powi(i32::try_from(digits).unwrap_or(0)));
            remedy.minutes = Some(f64::from(minutes));
        }
        let quotation = sheet(&survey, &Choices::new(Kind::Quotation));
        let offered = adds_up(tables(&quotation, "What is offered")[0], tax);
        let study = Study::of(&survey);
        let cost = study.work().as_ref().expect("work").plan.cost;
        prop_assert_eq!(format!("{cost:.2}"), format!("{}.{:02}", offered.1 / 100, offered.1 % 100));
        let invoice = sheet(&sealed(survey, "2031-03-01"), &Choices::new(Kind::Invoice));
        prop_assert_eq!(offered, adds_up(tables(&invoice, "What was done")[0], tax));
    }
}

/// Nobody is asked for money, or offered any, by a rate that cannot be.
#[test]
fn a_rate_that_is_not_possible_is_on_no_paper() {
    for (rate, tax) in [(-78.0, Some(20.0)), (60.0, Some(-50.0)), (1e20, None)] {
        let survey = priced(rate, tax);
        let study = crate::assess::Study::of(&survey);
        let quotation = crate::report::papers::quotation(&survey, &survey, study.work());
        let quotation = format!("{quotation:?}");
        assert!(quotation.contains("which is not possible"), "{quotation}");
        assert!(!quotation.contains("78.00 an hour"), "{quotation}");
        let invoice = format!(
            "{:?}",
            crate::report::papers::invoice(&sealed(survey, "2026-10-01"))
        );
        assert!(invoice.contains("which is not possible"), "{invoice}");
        assert!(!invoice.contains("To be paid"), "{invoice}");
    }
}

#[test]
fn a_quotation_says_what_is_for_an_electrician_alone() {
    let mut survey = priced(78.0, None);
    let words = |survey: &Survey| {
        let sheet = sheet(survey, &Choices::new(Kind::Quotation));
        let offered = section(&sheet, "What is offered").expect("the section");
        serde_json::to_string(&offered.blocks).expect("JSON")
    };
    assert!(!words(&survey).contains("electrician only"));
    let gap = survey.gaps.iter_mut().find(|gap| gap.id == GapId(12));
    gap.expect("planned").name = "mains inlet".to_owned();
    assert!(words(&survey).contains("Gap 12: electrician only."));
}
