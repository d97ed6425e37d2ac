//! Whole plans.

use super::*;
use crate::survey::Severity;

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
