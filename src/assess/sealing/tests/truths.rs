//! Truths about sealing that hold for any vehicle.

use super::*;

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    /// At fixed temperatures sealing an outer gap never raises the gross inflow of outside air:
    /// no gap saves less than nothing, and neither does a plan.
    #[test]
    fn sealing_never_raises_the_inflow(survey in any_vehicle(2..14)) {
        let prospect = Prospect::new(&survey).unwrap();
        for one in prospect.rank(Aim::AchWindy).unwrap() {
            for saving in [one.saves.ach_calm_per_h, one.saves.ach_windy_per_h] {
                prop_assert!(saving.unwrap() >= -1e-7);
            }
            prop_assert!(one.saves.air_heat_w >= -1e-5);
        }
        let order = prospect.order(Aim::AchWindy).unwrap();
        let ach: Vec<f64> = std::iter::once(&order.before)
            .chain(order.steps.iter().map(|step| &step.after))
            .map(|figures| figures.ach_windy_per_h.clone().unwrap())
            .collect();
        prop_assert!(ach.windows(2).all(|pair| pair[1] < pair[0]), "{ach:?}");
    }

    /// What the ranking says a gap saves is what a whole assessment says with that gap sealed in
    /// the survey itself.
    #[test]
    fn the_ranking_is_a_whole_assessment(survey in any_vehicle(2..12), which in 0..100_usize) {
        let ranked = Prospect::new(&survey).unwrap().rank(Aim::Heat).unwrap();
        let one = &ranked[which % ranked.len()];
        let done = after(&survey, std::slice::from_ref(&one.sealable)).unwrap();
        let (was, is) = (assess(&survey), assess(&done));
        let ach = |assessment: &crate::assess::Assessment, at: usize| {
            let air = assessment.cases[at].air.clone().unwrap();
            air.mean_ach_per_h.unwrap()
        };
        let heat = |assessment: &crate::assess::Assessment| -> f64 {
            let cases = assessment.cases.iter();
            cases.map(|case| case.share * case.heat.clone().unwrap().set_temperature.air_w).sum()
        };
        let water = |assessment: &crate::assess::Assessment| -> f64 {
            let cases = assessment.cases.iter();
            cases
                .map(|case| {
                    let removal = case.drying.clone().unwrap().at_set_temperature;
                    case.share * removal.l_per_day()
                })
                .sum()
        };
        let windy = one.saves.ach_windy_per_h.clone().unwrap();
        prop_assert!((windy - (ach(&was, 2) - ach(&is, 2))).abs() < 1e-6 * ach(&was, 2));
        prop_assert!((one.saves.air_heat_w - (heat(&was) - heat(&is))).abs() < 1e-6 * heat(&was));
        let removal = one.saves.removal_l_per_day.clone().unwrap();
        prop_assert!((removal - (water(&was) - water(&is))).abs() < 1e-6 * water(&was).max(1e-3));
    }

    /// The ranking falls, and its first gap is the one whose sealing leaves the least.
    #[test]
    fn the_first_of_the_ranking_saves_most(survey in any_vehicle(3..12)) {
        let ranked = Prospect::new(&survey).unwrap().rank(Aim::AchWindy).unwrap();
        let left = |at: usize| {
            let done = after(&survey, std::slice::from_ref(&ranked[at].sealable)).unwrap();
            assess(&done).cases[2].air.clone().unwrap().mean_ach_per_h.unwrap()
        };
        for at in 1..ranked.len() {
            prop_assert!(left(at - 1) <= left(at) * (1.0 + 1e-6));
        }
    }
}

/// Two openings in line in a cross wind: `m ∝ 1/√(1/A₁² + 1/A₂²)` (closed form of BS 5925 [R]).
/// Sealing the smaller one to a tenth saves far more than the larger one, and what both save
/// together is less than the sum of each alone.
#[test]
fn openings_in_line_do_not_add_up() {
    let mut survey = bare();
    for (area, coefficient) in [(100.0, 0.4), (200.0, -0.5)] {
        let cavity = Facing::Cavity(crate::survey::Cavity::Locker);
        let id = hole(&mut survey, cavity, 1.0, area);
        let gap = gap_mut(&mut survey, id);
        gap.cavity_pressure_coefficient = Some(coefficient);
        gap.remedy = Some(remedy(10.0, 5.0));
    }
    air(&mut survey, 5.0, 87.0, InsideAir::WarmerBy { kelvin: 0.0 });
    let sealables: Vec<Sealable> = [1, 2]
        .map(|id| Sealable::of(&survey, GapId(id)).unwrap())
        .to_vec();
    let plan = plan(&survey, &sealables).unwrap();
    let flow = |a: f64, b: f64| 1.0 / (1.0 / (a * a) + 1.0 / (b * b)).sqrt();
    let whole = plan.before.ach_windy_per_h.clone().unwrap() / flow(1.0, 2.0);
    let alone = |at: usize| plan.gaps[at].saves_alone.ach_windy_per_h.clone().unwrap() / whole;
    assert!((alone(0) - (flow(1.0, 2.0) - flow(0.1, 2.0))).abs() < 1e-6);
    assert!((alone(1) - (flow(1.0, 2.0) - flow(1.0, 0.2))).abs() < 1e-6);
    let windy = plan.together[0];
    assert_eq!(windy.aim, Aim::AchWindy);
    assert!((windy.together / whole - 0.9 * flow(1.0, 2.0)).abs() < 1e-6);
    assert!((windy.sum_alone / whole - alone(0) - alone(1)).abs() < 1e-9);
    assert!(windy.sum_alone > 1.5 * windy.together);
    // By area the larger one would come first.
    let ranked = Prospect::new(&survey).unwrap().rank(Aim::AchWindy).unwrap();
    let order: Vec<GapId> = ranked.iter().map(|one| one.sealable.gap()).collect();
    assert_eq!(order, [GapId(1), GapId(2)]);
    for (one, at) in ranked.iter().zip([0, 1]) {
        let saves = one.saves.ach_windy_per_h.clone().unwrap() / whole;
        assert!((saves - alone(at)).abs() < 1e-6);
    }
}

/// Rounding alone would put them in any order.
#[test]
fn gaps_that_save_alike_stay_in_the_order_of_the_ledger() {
    // Faces, heights and remedies come round again after 24 holes.
    const ROUND: usize = 24;
    let survey = vehicle(&[(7.0, 9.0); 2 * ROUND]);
    let prospect = Prospect::new(&survey).unwrap();
    let ranked = prospect.rank(Aim::AchWindy).unwrap();
    let ranked: Vec<GapId> = ranked.iter().map(|one| one.sealable.gap()).collect();
    let order = prospect.order(Aim::AchWindy).unwrap();
    let order: Vec<GapId> = order.steps.iter().map(|one| one.sealable.gap()).collect();
    let twins = survey.gaps.iter().zip(&survey.gaps[ROUND..]);
    for (one, other) in twins {
        for list in [&ranked, &order] {
            let place = |gap: &Gap| list.iter().position(|id| *id == gap.id);
            if let (Some(one), Some(other)) = (place(one), place(other)) {
                assert!(one < other, "{list:?}");
            }
        }
    }
    assert_eq!(ranked.len(), 2 * ROUND);
}
