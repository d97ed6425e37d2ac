//! Whatever a survey holds, no way out of the program closes an opening that keeps people alive.

mod any_survey;
mod asked;
mod stories;

use super::super::{json, page};
use super::*;
use crate::assess::sealing::{Aim, Bill, Sealable, StaysOpen};
use crate::assess::shown::Shown;
use crate::sheet::contents::{Material, contents};
use crate::sheet::{Choices, Kind};
use crate::survey::leave::{self, Manner, Refusal};
use crate::survey::{
    Appliance, ApplianceId, ApplianceKind, BuildUp, Cavity, Closing, CostBasis, Edit,
    FabricElement, FabricId, FabricPart, Facing, Form, Gap, GapId, GapPart, GrilleMaterial,
    LeadsTo, Purpose, Record, Remedy, RemedyKind, Survey, VehicleKind, WorkState, ZoneId,
};
use std::collections::{BTreeMap, BTreeSet};

/// The plan as CSV, by the names of its columns.
fn plan_lines(study: &Study) -> Vec<BTreeMap<String, String>> {
    let Ok(bytes) = csv::plan(study, csv::ByteOrderMark::Without) else {
        return Vec::new();
    };
    let mut reader = ::csv::Reader::from_reader(bytes.as_slice());
    let heads = reader.headers().expect("headers").clone();
    let lines = reader.records().map(|line| {
        let line = line.expect("a line");
        let cells = heads.iter().zip(line.iter());
        cells
            .map(|(head, cell)| (head.to_owned(), cell.to_owned()))
            .collect()
    });
    lines.collect()
}

/// The gaps named in a list of the JSON, by the path to the list.
fn json_gaps(all: &serde_json::Value, path: &str) -> Vec<u32> {
    let list = all.pointer(path).and_then(serde_json::Value::as_array);
    let gap = |one: &serde_json::Value| one["gap"].as_u64().and_then(|id| u32::try_from(id).ok());
    list.into_iter().flatten().filter_map(gap).collect()
}

/// Every gap that any door offers to seal, with the remedy where the door names one.
fn offered(survey: &Survey) -> Vec<(&'static str, GapId, Option<RemedyKind>)> {
    let study = Study::of(survey);
    let mut all = Vec::new();
    let of = |one: &Sealable| (one.gap(), Some(one.remedy().kind));
    let mut add = |door, (gap, kind)| all.push((door, gap, kind));
    for aim in [Aim::AchWindy, Aim::Heat] {
        for one in study.ranking(aim).iter().flat_map(|found| &found.ranked) {
            add("ranking", of(&one.sealable));
        }
        for step in study.order(aim).iter().flat_map(|found| &found.steps) {
            add("order", of(&step.sealable));
        }
        let mut go_on = |_| std::ops::ControlFlow::Continue(());
        let best = study.best(aim, 1e6, &mut go_on).expect("not given up");
        for one in best.plan.iter().flat_map(|plan| &plan.gaps) {
            add("best set", of(&one.sealable));
        }
    }
    for one in study
        .planned_work()
        .plan
        .iter()
        .flatten()
        .flat_map(|plan| &plan.gaps)
    {
        add("plan", of(&one.sealable));
    }
    if let Ok(work) = study.work() {
        for step in &work.steps {
            add("work order", of(&step.sealable));
        }
        for purchase in &work.purchases {
            for gap in &purchase.gaps {
                add("shopping list", (*gap, Some(purchase.kind)));
            }
        }
    }
    let quotation = study
        .ordered()
        .work()
        .as_ref()
        .map(|work| work.bill().clone());
    for (door, bill) in [
        ("quotation", quotation.ok()),
        ("invoice", Bill::of_done_work(survey).ok()),
    ] {
        for line in bill.iter().flat_map(|bill| &bill.lines) {
            add(door, (line.gap, Some(line.kind)));
        }
    }
    if let Ok(comparison) = study.comparison() {
        for gap in comparison.after_plan.iter().flat_map(|plan| &plan.gaps) {
            add("drying after the plan", (*gap, None));
        }
    }
    for line in plan_lines(&study) {
        let kind = RemedyKind::ALL
            .into_iter()
            .find(|kind| crate::survey::word::Word::word(kind) == line["remedy"]);
        let gap = GapId(line["gap"].parse().expect("a number"));
        add("plan as CSV", (gap, kind));
    }
    let asked = Asked {
        draws: 0,
        aim: Aim::AchWindy,
        budget: Some(1e6),
    };
    let text = json::print(&study, asked).expect("JSON");
    let json: serde_json::Value = serde_json::from_str(&text).expect("JSON");
    for path in [
        "/sealing/ranking",
        "/sealing/order",
        "/sealing/best/plan/gaps",
        "/sealing/ticked/plan/gaps",
        "/papers/quotation/lines",
        "/papers/invoice/lines",
    ] {
        for gap in json_gaps(&json, path) {
            add("JSON", (GapId(gap), None));
        }
    }
    for gap in &survey.gaps {
        let states = leave::states(survey, gap);
        let closes = |state: &WorkState| {
            *state != gap.state && matches!(state, WorkState::Planned | WorkState::Sealed)
        };
        let fitter = leave::leave(survey, gap) == Err(Refusal::GasFitter);
        if states.iter().any(closes) && !fitter {
            add("states on the Gaps page", (gap.id, None));
        }
        for kind in leave::remedies(survey, gap) {
            add("remedies on the Gaps page", (gap.id, Some(kind)));
        }
        for state in [WorkState::Planned, WorkState::Sealed] {
            let mut put = gap.clone();
            put.state = state;
            let mut changed = survey.clone();
            let edit = Edit::Put(Record::Gap(Box::new(put)));
            if gap.state != state && changed.apply(edit).is_ok() && !fitter {
                add("an edit", (gap.id, None));
            }
        }
    }
    all
}

/// The numbers in the column *Gap* of the tables that a page or sheet tells work in.
fn told_as_work(survey: &Survey) -> BTreeSet<u32> {
    let study = Study::of(survey);
    let none = BTreeMap::new();
    let mut told = BTreeSet::new();
    for kind in [Kind::WorkOrder, Kind::Report] {
        let sheet = contents(&Material::of(&study, kind, &none), &Choices::new(kind));
        for section in &sheet.text.sections {
            let work = ["Work to do, in this order", "Sealing plan", "Shopping list"];
            if !work.contains(&section.title.as_str()) {
                continue;
            }
            for block in &section.blocks {
                let crate::report::Block::Table { table } = block else {
                    continue;
                };
                let heads: Vec<&str> = table.columns.iter().map(|one| one.head.as_str()).collect();
                // Tables of what stays open have a column that says why.
                let gap = heads
                    .iter()
                    .position(|head| *head == "Gap" || *head == "For gaps");
                let (Some(gap), false) = (gap, heads.contains(&"Why")) else {
                    continue;
                };
                for cell in table.rows.iter().filter_map(|row| row.cells.get(gap)) {
                    told.extend(cell.split(", ").filter_map(|id| id.parse::<u32>().ok()));
                }
            }
        }
    }
    told
}

fn hole(diameter_mm: f64) -> Form {
    Form::RoundHole {
        diameter_mm: Some(diameter_mm),
    }
}

fn grille() -> Form {
    Form::Grille {
        width_mm: Some(300.0),
        height_mm: Some(150.0),
        material: GrilleMaterial::Metal,
        free_percent: None,
    }
}

fn slot(width_mm: f64) -> Form {
    Form::NarrowGap {
        length_mm: Some(2000.0),
        width_mm: Some(width_mm),
        depth_mm: Some(20.0),
        bends: 1,
    }
}

/// A van with a hob, its appliances confirmed, and one plain joint that may always be sealed.
fn van() -> Survey {
    let mut survey = Survey::starting(VehicleKind::PanelVan);
    survey.appliances.push(Appliance {
        id: ApplianceId(1),
        kind: ApplianceKind::Hob,
        name: String::new(),
        room_sealed: false,
        input_mj_per_h: None,
    });
    survey.appliances_confirmed = true;
    survey.fabric.push(FabricElement {
        id: FabricId(1),
        name: "all round".to_owned(),
        part: FabricPart::Wall,
        area_m2: Some(45.0),
        build_up: BuildUp::Stated {
            u_w_per_m2_k: Some(1.5),
        },
        bridge_percent: 0.0,
        outline: None,
    });
    survey.tariffs.electricity_per_kwh = Some(0.3);
    survey.tariffs.workshop_per_hour = Some(50.0);
    let joint = add(
        &mut survey,
        "floor edge",
        "seam of the wheel box",
        Facing::Front,
        slot(1.0),
    );
    joint.part = GapPart::FixedJoint;
    survey
}

/// Adds a gap in the zone of that name.
fn add<'a>(
    survey: &'a mut Survey,
    zone: &str,
    name: &str,
    facing: Facing,
    form: Form,
) -> &'a mut Gap {
    let zone = survey.zones.iter().find(|one| one.name == zone);
    let zone = zone.expect("a usual zone").id;
    let mut gap = Gap::new(survey.free_gap_id(), zone, facing, form);
    gap.name = name.to_owned();
    gap.position.height_m = Some(0.8);
    survey.gaps.push(gap);
    survey.gaps.last_mut().expect("just added")
}

/// The doors that offer a gap.
fn doors(survey: &Survey, gap: GapId) -> BTreeSet<&'static str> {
    let all = offered(survey).into_iter();
    let mut doors: BTreeSet<&str> = all.filter(|one| one.1 == gap).map(|one| one.0).collect();
    if told_as_work(survey).contains(&gap.0) {
        doors.insert("paper");
    }
    doors
}

const JOINT: GapId = GapId(1);
const OTHER: GapId = GapId(2);

fn remedy(kind: RemedyKind) -> Remedy {
    Remedy {
        kind,
        words: String::new(),
        leak_left_percent: Some(10.0),
        material_cost: Some(3.0),
        cost_basis: CostBasis::Piece,
        minutes: Some(5.0),
    }
}

/// Every door there is: the joint goes through all of them, once it is planned.
#[test]
fn a_joint_is_offered_at_every_door() {
    let mut survey = van();
    let open = doors(&survey, JOINT);
    survey.gaps[0].state = WorkState::Planned;
    let planned = doors(&survey, JOINT);
    survey.gaps[0].state = WorkState::Sealed;
    let sealed = doors(&survey, JOINT);
    let both: BTreeSet<&str> = open.union(&planned).copied().collect();
    let all: BTreeSet<&str> = both.union(&sealed).copied().collect();
    let wanted = [
        "JSON",
        "an edit",
        "best set",
        "drying after the plan",
        "invoice",
        "order",
        "paper",
        "plan",
        "plan as CSV",
        "quotation",
        "ranking",
        "remedies on the Gaps page",
        "shopping list",
        "states on the Gaps page",
        "work order",
    ];
    assert_eq!(all, BTreeSet::from(wanted));
}

/// No door offers the gap, whatever state it is in, and the page says why.
fn refused_everywhere(survey: &Survey, why: &str) {
    for state in WorkState::ALL {
        let mut survey = survey.clone();
        survey.gaps[1].state = state;
        assert_eq!(doors(&survey, OTHER), BTreeSet::new(), "{state:?}");
        assert!(
            doors(&survey, JOINT).contains("ranking"),
            "the rest is offered"
        );
        let text = text_page(&survey);
        assert!(text.contains(why), "{why} is not in\n{text}");
    }
}

fn text_page(survey: &Survey) -> String {
    let asked = Asked {
        draws: 0,
        aim: Aim::AchWindy,
        budget: None,
    };
    let text = page::render(&Study::of(survey), asked, Shown::default());
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
