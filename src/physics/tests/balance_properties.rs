//! Laws of nature every balance obeys, on random vehicles, hostile ones among them.

use proptest::collection::vec;
use proptest::prelude::*;

use super::super::flow_law::{FlowLaw, GapFlow, SHARP_DISCHARGE};
use super::super::network::*;
use super::network::any_fan;
use super::{Found, OneSpace, Weather, dry_air};

/// One random gap: its flow, heights and pressure coefficient.
#[derive(Clone, Debug)]
struct Gap {
    flow: GapFlow,
    z_one: f64,
    z_other: f64,
    coefficient: f64,
}

/// A random vehicle in random weather.
#[derive(Clone, Debug)]
struct Case {
    gaps: Vec<Gap>,
    outside_c: f64,
    inside_c: f64,
    dynamic_pressure: f64,
    supply: f64,
    extract: f64,
    fans: Vec<Fan>,
    start: f64,
}

impl Case {
    fn path(&self, gap: &Gap) -> Path {
        let (outside, inside) = (dry_air(self.outside_c), dry_air(self.inside_c));
        Path::new(&gap.flow, &outside, &inside, gap.z_one, gap.z_other)
    }

    fn conditions(&self) -> Weather {
        Weather {
            density_out: dry_air(self.outside_c).density,
            density_in: dry_air(self.inside_c).density,
            dynamic_pressure: self.dynamic_pressure,
            datum: 1.4,
        }
    }

    fn balance(&self) -> OneSpace {
        OneSpace {
            paths: self.gaps.iter().map(|gap| self.path(gap)).collect(),
            supply: self.supply,
            extract: self.extract,
            fans: self.fans.clone(),
        }
    }

    fn coefficients(&self) -> Vec<f64> {
        self.gaps.iter().map(|gap| gap.coefficient).collect()
    }

    fn solve(&self) -> Found {
        self.balance()
            .solve(&self.conditions(), &self.coefficients(), self.start)
            .unwrap()
    }

    fn inflow(&self) -> f64 {
        self.solve().inflow
    }
}

/// Gaps from pinholes of 1e-9 m² to doors of 1 m², of every kind.
fn any_law() -> impl Strategy<Value = FlowLaw> {
    prop_oneof![
        4 => (-9.0..0.0_f64).prop_map(|e| FlowLaw::Opening {
            area: 10f64.powf(e),
            discharge: SHARP_DISCHARGE
        }),
        4 => (0.01..4.0_f64, -4.5..-1.7_f64, -2.5..-1.0_f64, 0u32..3).prop_map(
            |(length, width, depth, bends)| FlowLaw::Crack {
                length,
                width: 10f64.powf(width),
                depth: 10f64.powf(depth),
                bends,
            }
        ),
        2 => (-9.0..-0.5_f64, 0.5..1.0_f64)
            .prop_map(|(c, exponent)| FlowLaw::Power { coefficient: 10f64.powf(c), exponent }),
    ]
}

fn any_gap() -> impl Strategy<Value = Gap> {
    (
        any_law(),
        prop::option::weighted(0.2, -7.0..-1.0_f64),
        0.2..3.0_f64,
        prop_oneof![Just(0.0), 0.0..2.0_f64],
        // Whole tenths, so that many gaps share the very same outside pressure.
        prop_oneof![
            (-10..=10_i32).prop_map(|tenths| f64::from(tenths) / 10.0),
            -1.0..1.0_f64
        ],
    )
        .prop_map(|(law, behind, z_one, rise, coefficient)| {
            let single = GapFlow::new(law).unwrap();
            let flow = match behind {
                Some(e) => single.behind(10f64.powf(e)).unwrap(),
                None => single,
            };
            Gap {
                flow,
                z_one,
                z_other: z_one + rise,
                coefficient,
            }
        })
}

fn any_case(most_gaps: usize) -> impl Strategy<Value = Case> {
    let temperature = prop_oneof![1 => Just(5.0), 3 => -40.0..50.0_f64];
    let wind = prop_oneof![1 => Just(0.0), 4 => 0.0..100.0_f64, 1 => 1e-9..1e-3_f64];
    let fan = || prop_oneof![6 => Just(0.0), 1 => (-9.0..0.0_f64).prop_map(|e| 10f64.powf(e))];
    (
        vec(any_gap(), 1..=most_gaps),
        temperature.clone(),
        temperature,
        wind,
        fan(),
        fan(),
        prop_oneof![3 => vec(any_fan(1), 0), 1 => vec(any_fan(1), 1..4)],
        prop_oneof![Just(0.0), -100.0..100.0_f64, -1e9..1e9_f64],
    )
        .prop_map(
            |(gaps, outside_c, inside_c, dynamic_pressure, supply, extract, fans, start)| Case {
                gaps,
                outside_c,
                inside_c,
                dynamic_pressure,
                supply,
                extract,
                fans,
                start,
            },
        )
}

/// Slack for comparing two balances, each solved to 1e-9 of its through-flow.
fn slack(flow: f64) -> f64 {
    4e-9 * flow + 1e-21
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(800))]

    #[test]
    fn mass_balances_in_any_vehicle(case in any_case(300)) {
        let (body, conditions, coefficients) =
            (case.balance(), case.conditions(), case.coefficients());
        let solved = body.solve(&conditions, &coefficients, case.start).unwrap();
        let through = solved.inflow.max(solved.outflow);
        prop_assert!(solved.imbalance <= (1e-9 * through).max(1e-22), "{solved:?}");
        prop_assert!(solved.steps <= 60, "{}", solved.steps);
        // The flows gap by gap add up to the same.
        let (mut inflow, mut outflow) = (case.supply, case.extract);
        let fans = |way| {
            let own = case.fans.iter().filter(move |fan| fan.way == way);
            own.map(|fan| fan.at(solved.inside_pressure).flow).sum::<f64>()
        };
        inflow += fans(FanWay::Supply);
        outflow += fans(FanWay::Extract);
        for flow in &solved.flows {
            prop_assert!(flow.forward >= 0.0 && flow.back >= 0.0);
            inflow += flow.forward;
            outflow += flow.back;
        }
        prop_assert!((inflow - solved.inflow).abs() <= 1e-12 * through);
        prop_assert!((outflow - solved.outflow).abs() <= 1e-12 * through);
        // Where it started from makes no difference.
        let again = body.solve(&conditions, &coefficients, 0.0).unwrap();
        prop_assert!((again.inflow - solved.inflow).abs() <= slack(through));
        let warm = body.solve(&conditions, &coefficients, solved.inside_pressure).unwrap();
        prop_assert!((warm.inflow - solved.inflow).abs() <= slack(through));
    }

    #[test]
    fn inside_pressure_lies_among_the_outside_pressures(mut case in any_case(20)) {
        case.supply = 0.0;
        case.extract = 0.0;
        case.fans.clear();
        let conditions = case.conditions();
        let gradient = (conditions.density_out - conditions.density_in) * 9.81;
        let outside = |gap: &Gap, z: f64| {
            gap.coefficient * case.dynamic_pressure - gradient * (z - conditions.datum)
        };
        let ends = case.gaps.iter().flat_map(|gap| [outside(gap, gap.z_one), outside(gap, gap.z_other)]);
        let (low, high) = ends.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), end| {
            (low.min(end), high.max(end))
        });
        let inside = case.solve().inside_pressure;
        prop_assert!(inside >= low - 1e-9 && inside <= high + 1e-9, "{low} {inside} {high}");
    }

    #[test]
    fn another_gap_never_lowers_the_inflow(case in any_case(40), gap in any_gap()) {
        let before = case.inflow();
        let mut more = case;
        more.gaps.push(gap);
        let after = more.inflow();
        prop_assert!(after >= before - slack(after.max(before)), "{before} {after}");
    }

    #[test]
    fn widening_never_lowers_and_sealing_never_raises_the_inflow(
        case in any_case(40), which in any::<prop::sample::Index>(), factor in 0.0..1.0_f64,
    ) {
        let index = which.index(case.gaps.len());
        let before = case.inflow();
        for factor in [0.0, factor, 1.0 / (factor + 0.01)] {
            let mut body = case.balance();
            body.paths[index] = body.paths[index].scaled(factor);
            let fans_only = case.gaps.len() == 1 && factor <= 0.0;
            if fans_only && (case.supply - case.extract).abs() > 0.0 {
                continue;
            }
            let after = body.solve(&case.conditions(), &case.coefficients(), 0.0).unwrap().inflow;
            let spare = slack(after.max(before));
            if factor <= 1.0 {
                prop_assert!(after <= before + spare, "sealed: {before} {after}");
            }
            if factor >= 1.0 {
                prop_assert!(after >= before - spare, "widened: {before} {after}");
            }
        }
    }

    #[test]
    fn wider_crack_never_lowers_the_inflow(
        case in any_case(30), length in 0.1..4.0_f64, width in 1e-4..8e-3_f64, more in 1.0..3.0_f64,
        depth in 3e-3..0.1_f64, bends in 0u32..3, place in any_gap(),
    ) {
        let with = |width: f64| {
            let law = FlowLaw::Crack { length, width, depth, bends };
            let mut case = case.clone();
            case.gaps.push(Gap { flow: GapFlow::new(law).unwrap(), ..place.clone() });
            case.inflow()
        };
        let (narrow, wide) = (with(width), with(width * more));
        prop_assert!(wide >= narrow - slack(wide.max(narrow)), "{narrow} {wide}");
    }

    #[test]
    fn two_gaps_alike_are_one_gap_of_count_two(case in any_case(20), gap in any_gap()) {
        let mut twice = case.clone();
        twice.gaps.push(gap.clone());
        twice.gaps.push(gap.clone());
        let mut counted = case;
        counted.gaps.push(Gap { flow: gap.flow.times(2.0).unwrap(), ..gap });
        let (twice, counted) = (twice.solve(), counted.solve());
        let through = twice.inflow.max(twice.outflow);
        prop_assert!((twice.inflow - counted.inflow).abs() <= slack(through));
        prop_assert!((twice.outflow - counted.outflow).abs() <= slack(through));
    }

    #[test]
    fn order_of_the_gaps_makes_no_difference(case in any_case(60)) {
        let forward = case.solve();
        let mut turned = case;
        turned.gaps.reverse();
        let backward = turned.solve();
        prop_assert!((forward.inflow - backward.inflow).abs() <= slack(forward.inflow));
    }

    /// With equal densities and no fans the inflow rises with the wind in every direction: where
    /// p_i grows by less than the wind pressures, every inflow grows, else every outflow does.
    #[test]
    fn more_wind_never_lowers_the_inflow_without_stack_or_fans(
        mut case in any_case(40), factor in 1.0..30.0_f64,
    ) {
        case.supply = 0.0;
        case.extract = 0.0;
        case.fans.clear();
        case.inside_c = case.outside_c;
        let before = case.inflow();
        case.dynamic_pressure *= factor;
        let after = case.inflow();
        prop_assert!(after >= before - slack(after.max(before)), "{before} {after}");
    }

    /// Inside and outside exchanged, and all pressures turned round, the same air flows the other
    /// way: level gaps, equal densities.
    #[test]
    fn suction_is_pressure_reversed(mut case in any_case(40)) {
        case.inside_c = case.outside_c;
        let forward = case.solve();
        for gap in &mut case.gaps {
            gap.coefficient = -gap.coefficient;
        }
        std::mem::swap(&mut case.supply, &mut case.extract);
        for fan in &mut case.fans {
            fan.way = match fan.way {
                FanWay::Supply => FanWay::Extract,
                FanWay::Extract => FanWay::Supply,
            };
        }
        let backward = case.solve();
        let through = forward.inflow.max(forward.outflow);
        prop_assert!((forward.inflow - backward.outflow).abs() <= slack(through));
    }
}

/// With a stack the wind may well work against it: two level openings in a warm body, the wind
/// sucking at the lower one, pass less air at 3 m/s than in a calm.
#[test]
fn wind_may_work_against_the_stack() {
    let opening = FlowLaw::Opening {
        area: 0.01,
        discharge: SHARP_DISCHARGE,
    };
    let gap = |z, coefficient| Gap {
        flow: GapFlow::new(opening).unwrap(),
        z_one: z,
        z_other: z,
        coefficient,
    };
    let mut case = Case {
        gaps: vec![gap(0.5, -0.35), gap(2.5, 0.0)],
        outside_c: 0.0,
        inside_c: 20.0,
        dynamic_pressure: 0.0,
        supply: 0.0,
        extract: 0.0,
        fans: Vec::new(),
        start: 0.0,
    };
    let calm = case.inflow();
    case.dynamic_pressure = 0.5 * 1.29 * 3.0 * 3.0;
    assert!(case.inflow() < 0.5 * calm);
}
