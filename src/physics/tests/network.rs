//! Spaces joined by inner openings: exact cases, limits, and laws of nature.

use proptest::collection::vec;
use proptest::prelude::*;

use super::super::flow_law::{GapFlow, Gas};
use super::super::network::*;
use super::{OneSpace, Weather, constant_fans, crack, dry_air, opening, power};

fn path(flow: &GapFlow, one: &Gas, other: &Gas, z_low: f64, rise: f64) -> Path {
    Path::new(flow, one, other, z_low, z_low + rise)
}

const AIR: Gas = Gas {
    density: 1.2,
    viscosity: 1.81e-5,
};

/// A network with its pressure coefficients.
#[derive(Clone)]
struct InWind {
    network: Network,
    coefficients: Vec<f64>,
}

impl InWind {
    fn solve(
        &self,
        dynamic_pressure: f64,
        workspace: &mut Workspace,
    ) -> Result<Solved, NetworkError> {
        self.network
            .solve(dynamic_pressure, &self.coefficients, workspace)
    }

    fn inflow(&self, dynamic_pressure: f64) -> f64 {
        let solved = self
            .solve(dynamic_pressure, &mut Workspace::default())
            .unwrap();
        assert!(
            solved.imbalance <= 1e-9 * solved.inflow.max(1e-12),
            "{solved:?}"
        );
        solved.inflow
    }
}

/// The same air everywhere, level gaps: wind alone.
fn windy(areas: &[(usize, f64, f64)], doors: &[(usize, usize, f64)], spaces: usize) -> InWind {
    let network = Network {
        outside: AIR,
        datum: 1.0,
        spaces: vec![Space { gas: AIR }; spaces],
        outer: areas
            .iter()
            .map(|(space, area, _)| OuterGap {
                space: *space,
                path: path(&opening(*area), &AIR, &AIR, 1.0, 0.0),
            })
            .collect(),
        inner: doors
            .iter()
            .map(|(from, to, area)| InnerOpening {
                from: *from,
                to: *to,
                path: path(&opening(*area), &AIR, &AIR, 1.0, 0.0),
            })
            .collect(),
        fans: vec![],
    };
    InWind {
        network,
        coefficients: areas.iter().map(|area| area.2).collect(),
    }
}

/// Openings in line: `m = Cd √(2 ρ Δp)/√(Σ 1/A²)` (series form of BS 5925 [R]).
#[test]
fn spaces_in_series_are_exact() {
    let areas = [0.01_f64, 0.002, 0.03, 0.0007, 0.02];
    let doors: Vec<_> = (0..3).map(|at| (at, at + 1, areas[at + 1])).collect();
    let network = windy(&[(0, areas[0], 0.6), (3, areas[4], -0.3)], &doors, 4);
    let series: f64 = areas.iter().map(|area| 1.0 / (area * area)).sum();
    let exact = 0.61 * (2.0 * 1.2 * 0.9 * 20.0_f64).sqrt() / series.sqrt();
    assert!((network.inflow(20.0) / exact - 1.0).abs() < 1e-10);
    // The pressures step down by the share of each opening.
    let mut workspace = Workspace::default();
    network.solve(20.0, &mut workspace).unwrap();
    let mut pressure = 0.6 * 20.0;
    for (found, area) in workspace.pressures().iter().zip(areas) {
        pressure -= 0.9 * 20.0 / (area * area) / series;
        assert!((found - pressure).abs() < 1e-9, "{found} {pressure}");
    }
}

/// Two ways in parallel from space to space are one opening with their areas added up
/// (parallel form of BS 5925 [R]); two spaces side by side carry their own flows.
#[test]
fn openings_and_spaces_in_parallel_are_exact() {
    let ends = [(0, 0.01, 0.6), (1, 0.015, -0.3)];
    let two = windy(&ends, &[(0, 1, 0.004), (1, 0, 0.003)], 2);
    let one = windy(&ends, &[(0, 1, 0.007)], 2);
    assert!((two.inflow(20.0) / one.inflow(20.0) - 1.0).abs() < 1e-10);
    let side_by_side = windy(
        &[
            (0, 0.01, 0.6),
            (0, 0.02, -0.3),
            (1, 0.003, 0.6),
            (1, 0.004, -0.3),
        ],
        &[],
        2,
    );
    let line = |a: f64, b: f64| 1.0 / (1.0 / (a * a) + 1.0 / (b * b)).sqrt();
    let exact =
        0.61 * (2.0 * 1.2 * 0.9 * 20.0_f64).sqrt() * (line(0.01, 0.02) + line(0.003, 0.004));
    assert!((side_by_side.inflow(20.0) / exact - 1.0).abs() < 1e-10);
}

/// A tall doorway between two closed spaces of the same size and other warmth: the neutral level
/// is in the middle and `m = (Cd A/3) √(g h ρ Δρ)` each way, ρ the mean (BS 5925 form [R], exact
/// to the second order in Δρ/ρ).
#[test]
fn a_tall_doorway_exchanges_air_both_ways() {
    let (cold, warm) = (dry_air(5.0), dry_air(20.0));
    let (width, height) = (0.6, 1.8);
    let door = opening(width * height);
    let network = Network {
        outside: AIR,
        datum: 1.0,
        spaces: vec![Space { gas: cold }, Space { gas: warm }],
        outer: vec![],
        inner: vec![InnerOpening {
            from: 0,
            to: 1,
            path: path(&door, &cold, &warm, 0.6, height),
        }],
        fans: vec![],
    };
    let mut workspace = Workspace::default();
    network.solve(0.0, &[], &mut workspace).unwrap();
    let flow = workspace.inner_flows()[0];
    assert!((flow.forward / flow.back - 1.0).abs() < 1e-9, "{flow:?}");
    let (mean, difference) = (
        0.5 * (cold.density + warm.density),
        cold.density - warm.density,
    );
    let form = 0.61 * width * height / 3.0 * (9.81 * height * mean * difference).sqrt();
    assert!(
        (flow.forward / form - 1.0).abs() < 2e-3,
        "{} {form}",
        flow.forward
    );
}

/// A fan draws from the washroom what the gaps of both spaces let in.
#[test]
fn a_fan_draws_through_the_door() {
    let mut network = windy(&[(0, 0.01, 0.0)], &[(0, 1, 0.002)], 2);
    network.network.fans = constant_fans(1, 0.0, 0.012);
    let mut workspace = Workspace::default();
    let solved = network.solve(0.0, &mut workspace).unwrap();
    assert!((solved.inflow - 0.012).abs() < 1e-14);
    // Δp = ρ/2 (Q/(Cd A))², by hand at ρ 1.2, Q 0.01 m³/s.
    let drop = |area: f64| 0.6 * (0.01 / (0.61 * area)).powi(2);
    assert!((workspace.pressures()[0] + drop(0.01)).abs() < 1e-10);
    assert!((workspace.pressures()[1] + drop(0.01) + drop(0.002)).abs() < 1e-9);
}

#[test]
fn what_cannot_be_is_refused() {
    let room = &mut Workspace::default();
    let mut network = windy(&[(0, 0.01, 0.5)], &[(0, 1, 0.01)], 2);
    network.network.fans = constant_fans(1, 0.0, 0.01);
    network.network.inner[0].path = network.network.inner[0].path.scaled(0.0);
    assert_eq!(network.solve(9.0, room), Err(NetworkError::NoOpening));
    network.network.fans = constant_fans(1, 0.0, f64::NAN);
    assert_eq!(network.solve(9.0, room), Err(NetworkError::NotFinite));
    network.network.fans.clear();
    assert!(network.solve(9.0, room).is_ok());
    assert_eq!(
        network.network.solve(9.0, &[], room),
        Err(NetworkError::CoefficientCount {
            gaps: 1,
            coefficients: 0
        })
    );
    network.network.inner[0].to = 2;
    assert_eq!(network.solve(9.0, room), Err(NetworkError::NoSuchSpace));
    network.network.inner[0].to = 0;
    assert_eq!(network.solve(9.0, room), Err(NetworkError::NoSuchSpace));
}

fn any_flow() -> impl Strategy<Value = GapFlow> {
    let one = prop_oneof![
        (-6.0..-0.3_f64).prop_map(|e| opening(10f64.powf(e))),
        (0.1..4.0_f64, 2e-4..6e-3_f64, 5e-3..60e-3_f64, 0u32..3)
            .prop_map(|(length, width, depth, bends)| crack(length, width, depth, bends)),
        (-6.0..-2.0_f64, 0.5..1.0_f64).prop_map(|(c, n)| power(10f64.powf(c), n)),
    ];
    (one, prop::option::weighted(0.2, -4.0..-2.0_f64)).prop_map(|(flow, behind)| match behind {
        Some(e) => flow.behind(10f64.powf(e)).unwrap(),
        None => flow,
    })
}

/// A fan from a washroom's to one far too strong, that a draught or next to nothing stops.
pub(super) fn any_fan(spaces: usize) -> impl Strategy<Value = Fan> {
    let way = prop_oneof![Just(FanWay::Supply), Just(FanWay::Extract)];
    (0..spaces, way, -4.0..0.0_f64, 0.0..2.5_f64).prop_map(|(space, way, free, most)| Fan {
        space,
        way,
        free_flow: 10f64.powf(free),
        most_pressure: 10f64.powf(most),
    })
}

/// A vehicle of one to sixteen spaces of any warmth, everything joined anyhow by openings from
/// pinholes to doorways a million times too wide.
#[derive(Clone, Debug)]
pub(super) struct Vehicle {
    pub(super) outside: Gas,
    pub(super) airs: Vec<Gas>,
    /// Space, flow, lower end, rise, pressure coefficient.
    pub(super) outer: Vec<(usize, GapFlow, f64, f64, f64)>,
    /// Spaces, flow, lower end, rise.
    pub(super) inner: Vec<(usize, usize, GapFlow, f64, f64)>,
    /// What each space loses whatever the pressure, kg/s.
    pub(super) extracts: Vec<f64>,
    /// Fans that pressure slows.
    pub(super) fans: Vec<Fan>,
    pub(super) dynamic_pressure: f64,
}

impl Vehicle {
    /// As the fast balance takes it.
    pub(super) fn body(&self) -> Body {
        let placed = |flow: &GapFlow, z_low: f64, rise: f64| PlacedFlow {
            flow: *flow,
            z_low,
            z_high: z_low + rise,
        };
        let extracts = self.extracts.iter().enumerate();
        let outer = self.outer.iter();
        let inner = self.inner.iter();
        Body {
            outside: self.outside,
            datum: 1.4,
            spaces: self.airs.iter().map(|gas| Space { gas: *gas }).collect(),
            gaps: outer
                .map(|(space, flow, z, rise, _)| (*space, placed(flow, *z, *rise)))
                .collect(),
            openings: inner
                .map(|(from, to, flow, z, rise)| ([*from, *to], placed(flow, *z, *rise)))
                .collect(),
            fans: extracts
                .flat_map(|(space, extract)| constant_fans(space, 0.0, *extract))
                .chain(self.fans.iter().copied())
                .collect(),
        }
    }

    pub(super) fn coefficients(&self) -> Vec<f64> {
        self.outer.iter().map(|gap| gap.4).collect()
    }

    fn in_wind(&self) -> InWind {
        InWind {
            network: self.body().network(),
            coefficients: self.coefficients(),
        }
    }

    fn inflow(&self) -> f64 {
        self.in_wind().inflow(self.dynamic_pressure)
    }
}

pub(super) fn any_vehicle() -> impl Strategy<Value = Vehicle> {
    let rise = || prop_oneof![Just(0.0), 0.05..1.9_f64];
    let degrees = prop_oneof![Just(12.0), -5.0..30.0_f64];
    (
        prop_oneof![1usize..6, 2usize..17],
        -15.0..25.0_f64,
        vec(degrees, 16),
        prop_oneof![Just(0.15), 0.0..60.0_f64],
    )
        .prop_flat_map(move |(spaces, outside, degrees, dynamic_pressure)| {
            let outer = (0..spaces, any_flow(), 0.3..2.0_f64, rise(), -1.0..0.6_f64);
            let doors = (any_flow(), prop_oneof![2 => Just(0.0), 1 => -6.0..6.0_f64])
                .prop_map(|(flow, wider)| flow.times(10f64.powf(wider)).unwrap());
            let inner = (0..spaces, 0..spaces, doors, 0.4..0.8_f64, rise());
            let fans = prop_oneof![3 => Just(0.0), 1 => 0.0..0.02_f64];
            (
                vec(outer, 1..14),
                vec(inner, 0..2 * spaces),
                vec(fans, spaces),
                vec(any_fan(spaces), 0..4),
            )
                .prop_map(move |(mut outer, inner, extracts, fans)| {
                    // A fan must find air: every space has a gap of its own.
                    for at in 0..spaces {
                        outer.push((at, crack(1.0, 1e-3, 20e-3, 0), 0.5, 0.0, 0.1));
                    }
                    Vehicle {
                        outside: dry_air(outside),
                        airs: degrees.iter().take(spaces).map(|t| dry_air(*t)).collect(),
                        outer,
                        inner: inner.into_iter().filter(|one| one.0 != one.1).collect(),
                        extracts,
                        fans,
                        dynamic_pressure,
                    }
                })
        })
}

/// Pressure of the space behind a gap that passes `flow`: that of the balance of one space with
/// this one gap and a fan that moves as much, a search of its own.
fn lawful_drop(path: &Path, densities: [f64; 2], wind: f64, flow: OpeningFlow) -> f64 {
    let net = flow.forward - flow.back;
    let lone = OneSpace {
        paths: vec![*path],
        supply: (-net).max(0.0),
        extract: net.max(0.0),
        ..OneSpace::default()
    };
    let conditions = Weather {
        density_out: densities[0],
        density_in: densities[1],
        dynamic_pressure: wind,
        datum: 1.4,
    };
    lone.solve(&conditions, &[1.0], 0.0)
        .unwrap()
        .inside_pressure
}

/// As many random vehicles as the environment asks for (`PROPTEST_CASES`), at least 1500.
fn cases() -> ProptestConfig {
    let given = ProptestConfig::default();
    ProptestConfig {
        cases: given.cases.max(1500),
        ..given
    }
}

proptest! {
    #![proptest_config(cases())]

    /// Every space balances, and every flow obeys its own law at the pressures found.
    #[test]
    fn every_space_balances_and_every_law_holds(vehicle in any_vehicle()) {
        let InWind { network, coefficients } = vehicle.in_wind();
        let mut workspace = Workspace::default();
        let wind = vehicle.dynamic_pressure;
        let solved = network.solve(wind, &coefficients, &mut workspace).unwrap();
        prop_assert!(solved.imbalance <= 1e-9 * solved.inflow, "{solved:?}");
        let span = wind + 3.0;
        let pressures = workspace.pressures();
        let density = |space: usize| network.spaces[space].gas.density;
        let gaps = network.outer.iter().zip(&coefficients);
        for ((gap, coefficient), flow) in gaps.zip(workspace.outer_flows()) {
            let densities = [vehicle.outside.density, density(gap.space)];
            let lawful = lawful_drop(&gap.path, densities, wind * coefficient, *flow);
            let apart = (lawful - pressures[gap.space]).abs();
            prop_assert!(apart <= 1e-5 * span.max(lawful.abs()), "{apart}");
        }
        for (fan, flow) in network.fans.iter().zip(workspace.fan_flows()) {
            let against = match fan.way {
                FanWay::Supply => pressures[fan.space],
                FanWay::Extract => -pressures[fan.space],
            };
            let lawful = fan.free_flow * (1.0 - against / fan.most_pressure).clamp(0.0, 1.0);
            prop_assert!((flow - lawful).abs() <= 1e-6 * fan.free_flow, "{flow} {fan:?}");
        }
        for (door, flow) in network.inner.iter().zip(workspace.inner_flows()) {
            let densities = [density(door.from), density(door.to)];
            let lawful = lawful_drop(&door.path, densities, 0.0, *flow);
            let apart = (lawful - (pressures[door.to] - pressures[door.from])).abs();
            prop_assert!(apart <= 1e-5 * span.max(lawful.abs()), "{apart}");
        }
    }

    /// A space of its own beside another, sealed one: both searches find the same, since the
    /// first is for one unknown and the second for any number.
    #[test]
    fn one_space_is_found_the_same_by_both_searches(vehicle in any_vehicle()) {
        let mut vehicle = vehicle;
        vehicle.airs.truncate(1);
        vehicle.extracts.truncate(1);
        vehicle.inner.clear();
        for gap in &mut vehicle.outer {
            gap.0 = 0;
        }
        vehicle.fans.iter_mut().for_each(|fan| fan.space = 0);
        let alone = vehicle.in_wind();
        let mut beside = alone.clone();
        beside.network.spaces.push(Space { gas: AIR });
        let mut found = [Workspace::default(), Workspace::default()];
        let wind = vehicle.dynamic_pressure;
        let one = alone.solve(wind, &mut found[0]).unwrap();
        let two = beside.solve(wind, &mut found[1]).unwrap();
        prop_assert!((one.inflow - two.inflow).abs() <= 1e-9 * one.inflow, "{one:?} {two:?}");
        prop_assert!((one.outflow - two.outflow).abs() <= 1e-9 * one.inflow, "{one:?} {two:?}");
        let [one, two] = found.each_ref().map(|found| found.pressures()[0]);
        prop_assert!((one - two).abs() <= 1e-6 * one.abs().max(1.0), "{one} {two}");
    }

    /// An inner opening without limit makes two spaces of the same air one; a closed one leaves
    /// two that know nothing of each other.
    #[test]
    fn inner_openings_have_their_limits(vehicle in any_vehicle()) {
        let mut vehicle = vehicle;
        vehicle.airs = vec![vehicle.airs[0]; 2];
        vehicle.extracts = vec![vehicle.extracts[0], 0.0];
        for gap in &mut vehicle.outer {
            gap.0 %= 2;
        }
        vehicle.fans.iter_mut().for_each(|fan| fan.space %= 2);
        vehicle.inner = vec![(0, 1, opening(1e5), 1.0, 0.0)];
        let joined = vehicle.inflow();
        vehicle.inner.clear();
        let apart = vehicle.inflow();
        vehicle.inner = vec![(0, 1, opening(1.0).times(0.0).unwrap(), 1.0, 0.0)];
        let shut = vehicle.inflow();
        prop_assert!((shut - apart).abs() <= 1e-10 * apart);
        let each = |at: usize| {
            let mut alone = vehicle.clone();
            alone.inner.clear();
            alone.outer.retain(|gap| gap.0 == at);
            alone.outer.iter_mut().for_each(|gap| gap.0 = 0);
            alone.airs.truncate(1);
            alone.extracts = vec![vehicle.extracts[at]];
            alone.fans.retain(|fan| fan.space == at);
            alone.fans.iter_mut().for_each(|fan| fan.space = 0);
            alone.inflow()
        };
        prop_assert!((apart - each(0) - each(1)).abs() <= 1e-9 * apart);
        vehicle.inner.clear();
        vehicle.airs.truncate(1);
        vehicle.extracts.truncate(1);
        vehicle.outer.iter_mut().for_each(|gap| gap.0 = 0);
        vehicle.fans.iter_mut().for_each(|fan| fan.space = 0);
        let one = vehicle.inflow();
        prop_assert!((joined - one).abs() <= 1e-7 * one, "{joined} {one}");
    }

    /// Sealing an outer gap never raises the gross inflow of outside air.
    #[test]
    fn sealing_an_outer_gap_never_raises_the_inflow(
        vehicle in any_vehicle(),
        which in any::<prop::sample::Index>(),
        left in 0.0..1.0_f64,
    ) {
        let before = vehicle.inflow();
        let mut sealed = vehicle.in_wind();
        // The gaps that every space was given last keep fans supplied.
        let at = which.index(sealed.network.outer.len());
        sealed.network.outer[at].path = sealed.network.outer[at].path.scaled(left.max(1e-6));
        let after = sealed.inflow(vehicle.dynamic_pressure);
        prop_assert!(after <= before * (1.0 + 1e-9), "{before} rose to {after}");
    }
}

/// Closing an inner opening may raise the gross inflow: a supply fan in one space that used to
/// hold the wind off in the other no longer does.
#[test]
fn closing_an_inner_opening_may_raise_the_inflow() {
    // The wind blows through the second space from one side to the other; the fan's air came in
    // through the doorway and took the place of some of it.
    let mut network = windy(
        &[(0, 0.0005, 0.0), (1, 0.02, 0.6), (1, 0.02, -0.3)],
        &[(0, 1, 0.05)],
        2,
    );
    network.network.fans = constant_fans(0, 0.03, 0.0);
    let open = network.inflow(10.0);
    network.network.inner[0].path = network.network.inner[0].path.scaled(1e-3);
    let shut = network.inflow(10.0);
    assert!(shut > 1.03 * open, "{open} {shut}");
}
