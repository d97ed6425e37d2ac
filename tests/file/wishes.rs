//! What `plan` and `sheet` are to go by instead of what the file says: `--set-up`, `--budget`, `--aim`.

use crate::headless::{OnDisk, run};
use crate::sheet::{CARAVAN, arguments, text};
use gapledger::headless::{AimWord, Command, Outcome, SetUpWord, WishArguments};
use gapledger::sheet::Kind;
use gapledger::survey::file::parse;
use gapledger::survey::{SetUp, Survey};
use serde_json::Value;
use std::fs;

/// Money that buys some of the gaps and not all.
const BUDGET: f64 = 150.0;

fn caravan() -> Survey {
    parse(CARAVAN).unwrap()
}

/// A row of the plan: its fields by the names of their columns.
type Row = Vec<(String, String)>;

fn field<'a>(row: &'a Row, name: &str) -> &'a str {
    let found = row.iter().find(|(column, _)| column == name);
    &found.unwrap_or_else(|| panic!("no column {name}")).1
}

fn number(row: &Row, name: &str) -> f64 {
    let text = field(row, name);
    text.parse().unwrap_or_else(|_| panic!("{name}: {text}"))
}

fn ids(rows: &[Row]) -> Vec<String> {
    rows.iter()
        .map(|row| field(row, "gap").to_owned())
        .collect()
}

fn plan(survey: &Survey, wish: WishArguments) -> Vec<Row> {
    let on_disk = OnDisk::new(survey);
    let output = on_disk.path("plan.csv");
    let plan = run(Command::Plan {
        file: on_disk.file(),
        wish,
        output: output.clone(),
        byte_order_mark: false,
    });
    assert_ne!(plan.outcome, Outcome::Failed, "{}", plan.errors);
    let mut reader = csv::Reader::from_path(&output).unwrap();
    let heads: Vec<String> = reader
        .headers()
        .unwrap()
        .iter()
        .map(str::to_owned)
        .collect();
    let records = reader.records().map(|record| {
        let record = record.unwrap();
        heads
            .iter()
            .cloned()
            .zip(record.iter().map(str::to_owned))
            .collect()
    });
    records.collect()
}

fn order(survey: &Survey, wish: WishArguments, kind: Kind) -> String {
    let on_disk = OnDisk::new(survey);
    let output = on_disk.path("sheet.pdf");
    let mut asked = arguments(&on_disk.file(), &output);
    (asked.wish, asked.kind) = (wish, kind);
    let sheet = run(Command::Sheet(asked));
    assert_ne!(sheet.outcome, Outcome::Failed, "{}", sheet.errors);
    text(&fs::read(&output).unwrap())
}

fn within(budget: f64, aim: AimWord) -> WishArguments {
    WishArguments {
        budget: Some(budget),
        aim: Some(aim),
        ..WishArguments::default()
    }
}

fn aimed(aim: AimWord) -> WishArguments {
    WishArguments {
        aim: Some(aim),
        ..WishArguments::default()
    }
}

/// What each gap saves by itself of the heat, and what it costs, by JSON.
fn ranked(json: &Value) -> Vec<(String, f64, f64)> {
    let ranking = json["sealing"]["ranking"].as_array().unwrap();
    let each = ranking.iter().map(|one| {
        let saves = one["saves"]["air_heat_w"].as_f64().unwrap();
        let cost = one["cost"]["whole"].as_f64();
        (one["gap"].to_string(), saves, cost.unwrap_or(f64::INFINITY))
    });
    each.collect()
}

#[test]
fn a_plan_for_a_sum_keeps_within_it_and_is_the_best_set_for_its_aim() {
    let survey = caravan();
    let all = plan(&survey, WishArguments::default());
    assert!(all.iter().all(|row| field(row, "chosen") == "proposed"));
    let cost = |rows: &[Row]| {
        rows.iter()
            .map(|row| number(row, "total_cost"))
            .sum::<f64>()
    };
    assert!(cost(&all) > BUDGET, "{}", cost(&all));
    for aim in [AimWord::AchWindy, AimWord::Heat] {
        let chosen = plan(&survey, within(BUDGET, aim));
        assert!(!chosen.is_empty() && chosen.len() < all.len());
        assert!(
            chosen
                .iter()
                .all(|row| field(row, "chosen") == "within_budget")
        );
        assert!(cost(&chosen) <= BUDGET, "{}", cost(&chosen));
    }
    // No single gap may be put in place of one of the set for more heat saved within the sum.
    let json = OnDisk::new(&survey).json_within(BUDGET);
    let ranked = ranked(&json);
    let chosen = plan(&survey, within(BUDGET, AimWord::Heat));
    let (taken, spent) = (ids(&chosen), cost(&chosen));
    let of = |id: &String| ranked.iter().find(|(gap, ..)| gap == id).unwrap();
    for (id, saves, price) in &ranked {
        if taken.contains(id) {
            continue;
        }
        assert!(spent + price > BUDGET, "gap {id} could be sealed besides");
        for out in &taken {
            let (_, lost, back) = of(out);
            // A tenth for what gaps do to each other.
            let fits = spent - back + price <= BUDGET;
            assert!(!fits || *saves < lost * 1.1, "gap {id} in place of {out}");
        }
    }
}

#[test]
fn a_plan_begins_with_what_saves_most_of_its_aim_for_the_money() {
    let survey = caravan();
    let json = OnDisk::new(&survey).json_within(BUDGET);
    let ranked = ranked(&json);
    let best = ranked
        .iter()
        .max_by(|one, other| (one.1 / one.2).total_cmp(&(other.1 / other.2)));
    let by_heat = ids(&plan(&survey, aimed(AimWord::Heat)));
    assert_eq!(by_heat.first(), best.map(|(id, ..)| id));
    let by_wind = ids(&plan(&survey, aimed(AimWord::AchWindy)));
    assert_ne!(by_heat, by_wind);
}

#[test]
fn a_plan_for_another_set_up_is_that_of_a_survey_that_shows_it() {
    let survey = caravan();
    let wish = WishArguments {
        set_up: Some(SetUpWord::InUse),
        ..WishArguments::default()
    };
    let mut in_use = survey.clone();
    assert_ne!(in_use.set_up, SetUp::InUse);
    in_use.set_up = SetUp::InUse;
    let (asked, shown) = (plan(&survey, wish), plan(&in_use, WishArguments::default()));
    assert_eq!(asked, shown);
    let laid_up = plan(&survey, WishArguments::default());
    let last = |rows: &[Row]| number(rows.last().unwrap(), "ach_windy_after_per_h");
    assert!(
        last(&asked) > last(&laid_up),
        "ventilators stand open in use"
    );
}

#[test]
fn a_work_order_for_a_sum_has_the_steps_of_that_plan_and_says_so() {
    let survey = caravan();
    let wish = within(BUDGET, AimWord::Heat);
    let order = order(&survey, wish, Kind::WorkOrder);
    let plain = self::order(&survey, WishArguments::default(), Kind::WorkOrder);
    let chosen = plan(&survey, wish);
    let all = plan(&survey, WishArguments::default());
    let work = |text: &str| {
        let from = text.find("Work to do, in this order").unwrap();
        let to = text.find("What must not be closed").unwrap();
        text[from..to].to_owned()
    };
    let (order, plain) = (work(&order), work(&plain));
    for (step, row) in (1..).zip(&chosen) {
        let named = format!("{step} {} {}", field(row, "gap"), field(row, "name"));
        assert!(order.contains(&named), "{named}: {order}");
    }
    let left = all
        .iter()
        .find(|row| !ids(&chosen).contains(&field(row, "gap").to_owned()));
    let name = field(left.unwrap(), "name");
    assert!(plain.contains(name) && !order.contains(name), "{name}");
    assert!(
        order.contains("the best set for the money named"),
        "{order}"
    );
    assert!(!plain.contains("the best set for the money named"));
}

#[test]
fn a_report_for_another_set_up_says_which_and_answers_for_it() {
    let survey = caravan();
    let wish = WishArguments {
        set_up: Some(SetUpWord::InUse),
        ..WishArguments::default()
    };
    let in_use = order(&survey, wish, Kind::Report);
    let laid_up = order(&survey, WishArguments::default(), Kind::Report);
    assert!(in_use.contains("humidity in use") && !in_use.contains("humidity while laid up"));
    assert!(laid_up.contains("humidity while laid up") && !laid_up.contains("humidity in use"));
    assert!(in_use.contains("Heated to 20 °C") && !laid_up.contains("Heated to 20 °C"));
}
