//! Whole plans.

use super::*;
use crate::survey::{Fan, FanDirection, FanId, Finding, SetUp, Severity};

#[test]
fn a_plan_shows_everything_before_and_after() {
    let mut survey = vehicle(&[
        (80.0, 10.0),
        (60.0, 5.0),
        (40.0, 8.0),
        (30.0, 2.0),
        (50.0, 4.0),
    ]);
    survey.gaps[4].purpose = Purpose::SafetyVentilation;
    survey.appliances.push(crate::survey::Appliance {
        id: crate::survey::ApplianceId(1),
        kind: crate::survey::ApplianceKind::Hob,
        name: "two burners".to_owned(),
        room_sealed: false,
        input_mj_per_h: None,
    });
    survey.gaps[1].damp = "24 %".to_owned();
    let sealables: Vec<Sealable> = [1, 2]
        .map(|id| Sealable::of(&survey, GapId(id)).unwrap())
        .to_vec();
    let plan = plan(&survey, &sealables).unwrap();
    assert!((plan.cost - 15.0).abs() < 1e-12 && (plan.minutes - 20.0).abs() < 1e-12);
    let fell = |before: &crate::assess::Answer<f64>, after: &crate::assess::Answer<f64>| {
        assert!(after.clone().unwrap() < before.clone().unwrap());
    };
    fell(&plan.before.ach_windy_per_h, &plan.after.ach_windy_per_h);
    fell(
        &plan.before.removal_l_per_day,
        &plan.after.removal_l_per_day,
    );
    fell(&plan.before.winter_cost, &plan.after.winter_cost);
    let eqla = |total: &crate::assess::Answer<crate::assess::LeakageTotal>| {
        total.clone().map(|all| all.figures.eqla)
    };
    let leakage = &plan.leakage_unintended;
    fell(&eqla(&leakage.0), &eqla(&leakage.1));
    // 151 days of 24 h at 0.3 a kWh.
    let cost = plan.before.winter_cost.clone().unwrap();
    assert!((cost / plan.before.air_heat_w - 151.0 * 24.0 * 0.3 / 1000.0).abs() < 1e-9);
    let saved = cost - plan.after.winter_cost.clone().unwrap();
    let Ok(Payback::Winters(winters)) = plan.payback else {
        panic!("{:?}", plan.payback);
    };
    assert!((winters - 15.0 / saved).abs() < 1e-9);
    // Less air passes the sealed gaps, and some of what they let in now comes by the others.
    assert_eq!(plan.shifts.len(), 5);
    let through = |flow: (f64, f64)| flow.0 + flow.1;
    let grew = |shift: &&FlowShift| through(shift.after_kg_s) > through(shift.before_kg_s);
    assert!(
        !plan
            .shifts
            .iter()
            .filter(|shift| shift.sealed)
            .any(|shift| grew(&shift))
    );
    assert!(
        plan.shifts
            .iter()
            .filter(|shift| !shift.sealed)
            .any(|shift| shift.after_kg_s.0 > shift.before_kg_s.0)
    );
    // The ventilator is too small for the table, before as after, and the plan says so.
    assert_eq!(plan.safety.0, plan.safety.1);
    assert_eq!(plan.findings[0].severity, Severity::Danger);
    assert!(plan.findings[0].sentence.contains("below the minimum"));
    assert!(
        plan.findings[1]
            .sentence
            .contains("gap 2 is in the plan and there is a damp reading")
    );
    let (was, will_be) = plan.air_per_sleeper;
    let (was, will_be) = (was.unwrap(), will_be.unwrap());
    assert!(will_be.windy_m3_per_h < was.windy_m3_per_h);
    // Two berths share what comes in: ACH × 25 m³/2.
    let ach = plan.before.ach_windy_per_h.unwrap();
    assert!((was.windy_m3_per_h - ach * 25.0 / 2.0).abs() < 1e-6 * ach * 25.0);
}

/// Of a plan, the last gap saves less than it would alone only where the rest left less to save;
/// either way all figures of the whole plan agree with the survey after the work.
#[test]
fn the_figures_after_are_those_of_the_survey_after() {
    let survey = vehicle(&[(80.0, 10.0), (60.0, 5.0), (40.0, 8.0), (30.0, 2.0)]);
    let prospect = Prospect::new(&survey).unwrap();
    let chosen = prospect.best_within(Aim::Heat, 14.0).unwrap();
    let plan = plan(&survey, &chosen).unwrap();
    assert!(!plan.gaps.is_empty() && plan.cost <= 14.0);
    let done = after(&survey, &chosen).unwrap();
    let anew = Prospect::new(&done).unwrap();
    assert!(
        (anew.before().air_heat_w - plan.after.air_heat_w).abs() < 1e-6 * plan.after.air_heat_w
    );
    for gap in &plan.gaps {
        let (alone, last) = (gap.saves_alone.air_heat_w, gap.saves_last.air_heat_w);
        assert!(alone > 0.0 && last > 0.0);
    }
}

#[test]
fn gaps_marked_as_planned_are_the_work() {
    let mut survey = vehicle(&[(80.0, 10.0), (60.0, 5.0), (40.0, 8.0)]);
    survey.gaps[0].state = WorkState::Planned;
    survey.gaps[2].state = WorkState::Planned;
    survey.gaps[2].purpose = Purpose::GasDropOut;
    let (sealables, refused) = marked_planned(&survey);
    assert_eq!(
        sealables.iter().map(Sealable::gap).collect::<Vec<_>>(),
        [GapId(1)]
    );
    assert_eq!(
        refused,
        [(
            GapId(3),
            StaysOpen::Refused(Refusal::ProtectsPeople(Purpose::GasDropOut))
        )]
    );
}

/// Without a price of electricity heat still has watts but no cost; without berths nobody sleeps.
#[test]
fn what_is_not_known_is_not_zero() {
    let mut survey = vehicle(&[(80.0, 10.0), (60.0, 5.0)]);
    survey.tariffs.electricity_per_kwh = None;
    survey.vehicle.berths = 0;
    survey.vehicle.volume_m3 = None;
    let prospect = Prospect::new(&survey).unwrap();
    assert!(prospect.rank(Aim::WinterCost).is_err() && prospect.rank(Aim::AchWindy).is_err());
    assert!(prospect.best_within(Aim::Heat, f64::NAN).is_err());
    let chosen = prospect.best_within(Aim::Heat, 20.0).unwrap();
    assert_eq!(chosen.len(), 2);
    let plan = plan(&survey, &chosen).unwrap();
    assert!(plan.payback.is_err() && plan.air_per_sleeper.0.is_err());
    assert!(
        plan.together
            .iter()
            .all(|one| one.aim == Aim::Heat || one.aim == Aim::Water)
    );
}

/// A closable vent is closed by hand: it is in no ranking, shut or open.
#[test]
fn what_closes_by_hand_is_not_ranked() {
    let mut survey = vehicle(&[(80.0, 10.0), (60.0, 5.0)]);
    survey.gaps[0].purpose = Purpose::UserVentilation;
    survey.gaps[0].closing = Some(closable());
    for set_up in crate::survey::SetUp::ALL {
        survey.set_up = set_up;
        let prospect = Prospect::new(&survey).unwrap();
        let ranked = prospect.rank(Aim::AchWindy).unwrap();
        let gaps: Vec<GapId> = ranked.iter().map(|one| one.sealable.gap()).collect();
        assert_eq!(gaps, [GapId(2)]);
        let why = StaysOpen::Refused(Refusal::Setting);
        assert_eq!(prospect.left_open(), [LeftOpen { gap: GapId(1), why }]);
    }
}

/// What a plan says of people, and what is found once it is carried out and in use.
fn told_and_found(survey: &Survey, gaps: &[u32], words: &str) -> (Vec<Finding>, Vec<Finding>) {
    let sealables: Vec<Sealable> = gaps
        .iter()
        .map(|id| Sealable::of(survey, GapId(*id)).unwrap())
        .collect();
    let told = plan(survey, &sealables).unwrap().findings;
    let mut done = after(survey, &sealables).unwrap();
    done.set_up = SetUp::InUse;
    let such = |all: Vec<Finding>| {
        let mut all = all;
        all.retain(|one| one.sentence.contains(words));
        all
    };
    (such(told), such(assess(&done).findings))
}

/// The work stays when people come back: laid up too, a plan says what their air becomes.
#[test]
fn a_plan_says_what_it_leaves_sleepers_to_breathe() {
    let mut survey = vehicle(&[(200.0, 10.0), (200.0, 5.0)]);
    for (set_up, once) in [
        (
            SetUp::LaidUp,
            "once this is sealed and it is in use again, ",
        ),
        (SetUp::InUse, "once this is sealed, "),
    ] {
        survey.set_up = set_up;
        let (told, found) = told_and_found(&survey, &[1, 2], "carbon dioxide");
        assert_eq!((told.len(), found.len()), (1, 1), "{told:?}");
        assert_eq!(found[0].severity, Severity::Danger);
        assert_eq!(told[0].severity, Severity::Danger);
        assert_eq!(told[0].sentence, format!("{once}{}", found[0].sentence));
        assert!(told[0].advice.starts_with("make ventilation"));
    }
    // As it stands it is no danger, and nothing sealed is nothing to say.
    let now = assess(&survey).findings.into_iter();
    assert!(
        now.filter(|one| one.sentence.contains("carbon dioxide"))
            .all(|one| one.severity > Severity::Danger)
    );
    let (told, _) = told_and_found(&survey, &[], "carbon dioxide");
    assert!(told.is_empty(), "{told:?}");
    survey.vehicle.berths = 0;
    let (told, _) = told_and_found(&survey, &[1, 2], "carbon dioxide");
    assert!(told.is_empty(), "{told:?}");
}

/// 60 m³/h through 200 cm² lower the inside by 1.1 Pa; through 67 by more than the 4 from which flue gas
/// may spill [M].
#[test]
fn a_plan_says_that_fans_then_draw_flue_gas_back() {
    let mut survey = vehicle(&[(140.0, 10.0), (30.0, 5.0), (30.0, 5.0)]);
    survey.fans = vec![Fan {
        id: FanId(1),
        name: "kitchen fan".to_owned(),
        direction: FanDirection::Extract,
        flow_m3_per_h: Some(60.0),
        most_pressure_pa: None,
        on_laid_up: false,
        on_in_use: true,
        space: None,
    }];
    survey.appliances.push(crate::survey::Appliance {
        id: crate::survey::ApplianceId(1),
        kind: crate::survey::ApplianceKind::WaterHeater,
        name: "geyser".to_owned(),
        room_sealed: false,
        input_mj_per_h: None,
    });
    let spills = "from 4 Pa on its flue gas may spill";
    let before = assess(&survey).findings;
    assert!(before.iter().all(|one| !one.sentence.contains(spills)));
    let (told, found) = told_and_found(&survey, &[1], spills);
    assert_eq!((told.len(), found.len()), (1, 1), "{told:?}");
    assert_eq!(told[0].severity, Severity::Danger);
    assert!(told[0].sentence.ends_with(&found[0].sentence));
}
