//! The inside as more than one space.

use super::{air, bare, gap_mut, hole};
use crate::assess::sealing::{Aim, Prospect};
use crate::assess::spaces::ClosingEffect;
use crate::assess::uncertainty::{SEED, uncertainty};
use crate::assess::{Assessment, Study, assess};
use crate::survey::{
    Closing, Facing, Fan, FanDirection, FanId, Form, GapId, InnerOpening, InnerOpeningId,
    InsideAir, Space, SpaceId, Survey,
};

fn space(id: u32, volume_m3: f64, warmer_by_k: f64) -> Space {
    Space {
        id: SpaceId(id),
        name: format!("space {id}"),
        volume_m3: Some(volume_m3),
        warmer_by_k,
    }
}

fn doorway(area_mm: f64) -> InnerOpening {
    let form = Form::RectangularHole {
        width_mm: Some(area_mm),
        height_mm: Some(area_mm),
    };
    let mut opening = InnerOpening::new(InnerOpeningId(1), SpaceId(1), SpaceId(2), form);
    opening.height_m = Some(1.4);
    opening
}

/// A living space and a leaky cab, 6 K warmer than outside, joined by an opening.
fn two_spaces(opening: InnerOpening) -> Survey {
    let mut survey = bare();
    let living = [
        hole(&mut survey, Facing::Nearside, 0.8, 30.0),
        hole(&mut survey, Facing::Roof, 2.6, 20.0),
        hole(&mut survey, Facing::Rear, 1.6, 15.0),
    ];
    let cab = [
        hole(&mut survey, Facing::Front, 0.9, 60.0),
        hole(&mut survey, Facing::Underfloor, 0.5, 80.0),
        hole(&mut survey, Facing::Offside, 1.5, 40.0),
    ];
    survey.spaces = vec![space(1, 20.0, 0.0), space(2, 5.0, 0.0)];
    for (ids, space) in [(living, 1), (cab, 2)] {
        for id in ids {
            gap_mut(&mut survey, id).space = (space == 2).then_some(SpaceId(2));
        }
    }
    survey.inner_openings = vec![opening];
    air(&mut survey, 5.0, 87.0, InsideAir::WarmerBy { kelvin: 6.0 });
    survey
}

fn mean_inflows(answers: &Assessment) -> Vec<f64> {
    let airs = answers.cases.iter().map(|case| case.air.as_ref().unwrap());
    airs.map(|air| air.mean_inflow_kg_s).collect()
}

/// Joined without limit, two spaces of the same air are one; apart, each has what it has alone.
#[test]
fn the_limits_are_one_space_and_two() {
    let mut joined = two_spaces(doorway(3000.0));
    joined.inner_openings[0].count = 500;
    let mut single = joined.clone();
    single.spaces.clear();
    single.inner_openings.clear();
    for gap in &mut single.gaps {
        gap.space = None;
    }
    let (one, two) = (
        mean_inflows(&assess(&single)),
        mean_inflows(&assess(&joined)),
    );
    for (one, two) in one.iter().zip(&two) {
        assert!((one - two).abs() < 1e-6 * one, "{one} {two}");
    }
    let mut apart = joined.clone();
    apart.inner_openings.clear();
    let alone = |id: Option<SpaceId>| {
        let mut alone = single.clone();
        let own = apart.gaps.iter().filter(|gap| gap.space == id);
        alone.gaps = own.cloned().collect();
        for gap in &mut alone.gaps {
            gap.space = None;
        }
        mean_inflows(&assess(&alone))
    };
    let each = alone(None).into_iter().zip(alone(Some(SpaceId(2))));
    for (both, (living, cab)) in mean_inflows(&assess(&apart)).iter().zip(each) {
        assert!((both - living - cab).abs() < 1e-8 * both);
    }
}

/// Ranking and uncertainty work the spaces out as the assessment does: with a doorway without limit
/// they are those of the single space.
#[test]
fn ranking_and_uncertainty_know_the_spaces() {
    let mut joined = two_spaces(doorway(3000.0));
    joined.inner_openings[0].count = 500;
    let mut single = joined.clone();
    single.spaces.clear();
    single.inner_openings.clear();
    for gap in &mut single.gaps {
        gap.space = None;
    }
    let rank = |survey: &Survey| Prospect::new(survey).unwrap().rank(Aim::Heat).unwrap();
    for (one, two) in rank(&single).iter().zip(rank(&joined)) {
        assert_eq!(one.sealable.gap(), two.sealable.gap());
        let apart = one.saves.air_heat_w - two.saves.air_heat_w;
        assert!(apart.abs() < 1e-4 * one.saves.air_heat_w);
    }
    let uncertainty = |survey: &Survey| {
        uncertainty(survey, SEED, 200).unwrap().cases[1]
            .ach_per_h
            .clone()
    };
    let (one, two) = (uncertainty(&single).unwrap(), uncertainty(&joined).unwrap());
    assert!((one.high / two.high - 1.0).abs() < 1e-3 && (one.low / two.low - 1.0).abs() < 1e-3);
}

/// What the doorway passes, space by space: each balances, its pressure is its own.
#[test]
fn flows_through_the_doorway_balance_each_space() {
    let survey = two_spaces(doorway(100.0));
    let answers = assess(&survey);
    for case in &answers.cases {
        let air = case.air.as_ref().unwrap();
        for direction in &air.directions {
            assert_eq!(direction.space_pressures.len(), 2);
            let inner = direction.inner_flows[0];
            let cab: f64 = direction.flows[3..]
                .iter()
                .map(|flow| flow.unwrap().in_kg_s - flow.unwrap().out_kg_s)
                .sum();
            let through = inner.back_kg_s - inner.forward_kg_s;
            assert!(
                (cab - through).abs() < 1e-9 * direction.inflow_kg_s,
                "{cab} {through}"
            );
        }
        // Outside air of both spaces is all of it, and the cab's own volume its own air change.
        let [living, cab] = air.spaces.as_slice() else {
            panic!("two spaces")
        };
        let sum = living.mean_inflow_kg_s + cab.mean_inflow_kg_s;
        assert!((sum - air.mean_inflow_kg_s).abs() < 1e-9 * sum);
        // What one gets from the other is what the doorway passed that way.
        let flows = air
            .directions
            .iter()
            .map(|direction| direction.inner_flows[0]);
        let (to_cab, to_living) = flows.fold((0.0, 0.0), |sums, flow| {
            (sums.0 + flow.forward_kg_s, sums.1 + flow.back_kg_s)
        });
        let (to_cab, to_living) = (to_cab / 16.0, to_living / 16.0);
        assert!((cab.mean_from_spaces_kg_s - to_cab).abs() < 1e-12);
        assert!((living.mean_from_spaces_kg_s - to_living).abs() < 1e-12);
        let others = to_cab * 3600.0 / (air.inside.density() * 5.0);
        assert!((cab.from_spaces_per_h.clone().unwrap() - others).abs() < 1e-9);
        let own = cab.mean_inflow_kg_s * 3600.0 / (air.inside.density() * 5.0);
        assert!((cab.ach_per_h.clone().unwrap() - own).abs() < 1e-9 * own);
    }
}

fn curtain() -> InnerOpening {
    let mut opening = doorway(1000.0);
    opening.name = "curtain".to_owned();
    opening.closing = Some(Closing {
        open_laid_up: true,
        open_in_use: true,
        leaves_percent: 1.0,
    });
    opening
}

fn effects(survey: &Survey) -> Vec<ClosingEffect> {
    Study::of(survey).closing_effects().clone()
}

/// A curtain across a leaky cab saves air where the wind went through both spaces.
#[test]
fn a_curtain_across_the_cab_saves_air() {
    let effects = effects(&two_spaces(curtain()));
    assert!(effects[0].name == "curtain" && effects[0].stands_open);
    for case in &effects[0].cases {
        let (open, closed) = case.inflow_kg_s.clone().unwrap();
        assert!(closed < open, "{open} {closed}");
        let (ach_open, ach_closed) = case.ach_per_h.clone().unwrap();
        assert!((ach_closed / ach_open - closed / open).abs() < 1e-12);
    }
}

/// It may also raise it: a supply fan in the cab kept the wind out of the living space.
#[test]
fn a_curtain_may_raise_the_inflow() {
    let mut survey = bare();
    hole(&mut survey, Facing::Nearside, 1.4, 200.0);
    hole(&mut survey, Facing::Offside, 1.4, 200.0);
    let id = hole(&mut survey, Facing::Underfloor, 1.4, 3.0);
    survey.spaces = vec![space(1, 20.0, 0.0), space(2, 5.0, 0.0)];
    gap_mut(&mut survey, id).space = Some(SpaceId(2));
    survey.inner_openings = vec![curtain()];
    survey.fans = vec![Fan {
        id: FanId(1),
        name: String::new(),
        direction: FanDirection::Supply,
        flow_m3_per_h: Some(90.0),
        on_laid_up: true,
        most_pressure_pa: Some(2000.0),
        on_in_use: true,
        space: Some(SpaceId(2)),
    }];
    air(&mut survey, 5.0, 87.0, InsideAir::WarmerBy { kelvin: 0.0 });
    let windy = effects(&survey)[0].cases[2].clone();
    let (open, closed) = windy.inflow_kg_s.unwrap();
    assert!(closed > 1.005 * open, "{open} {closed}");
}

/// A colder cab is denser: through a tall doorway warm air leaves high and cold comes in low.
#[test]
fn a_colder_cab_exchanges_air_through_a_tall_doorway() {
    let mut opening = doorway(800.0);
    opening.rise_m = Some(0.8);
    let mut survey = two_spaces(opening);
    survey.spaces[1].warmer_by_k = -6.0;
    let still = assess(&survey).cases[0].air.clone().unwrap();
    let flow = still.directions[0].inner_flows[0];
    assert!(flow.forward_kg_s > 0.0 && flow.back_kg_s > 0.0, "{flow:?}");
}

#[test]
fn an_inner_opening_without_size_leaves_the_air_unknown() {
    let mut survey = two_spaces(doorway(100.0));
    survey.inner_openings[0].form = Form::RoundHole { diameter_mm: None };
    let unknown = assess(&survey).cases[0].air.clone().unwrap_err();
    assert!(unknown.reason.contains("not sized"), "{unknown}");
    assert!(effects(&survey).is_empty());
    survey.inner_openings[0] = doorway(100.0);
    survey.inner_openings[0].to = SpaceId(7);
    let unknown = assess(&survey).cases[0].air.clone().unwrap_err();
    assert!(
        unknown.reason.contains("space 7, which does not exist"),
        "{unknown}"
    );
    survey.inner_openings[0] = doorway(100.0);
    gap_mut(&mut survey, GapId(1)).space = Some(SpaceId(9));
    let answers = assess(&survey);
    assert_eq!(answers.leakage.left_out, vec![GapId(1)]);
    assert!(answers.cases[0].air.is_ok());
}
