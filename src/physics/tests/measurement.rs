//! Lines, limits, fan tests, decays and water balances against certified sets, published examples and
//! scipy.

use crate::physics::Gas;
use crate::physics::leakage::LeakageArea;
use crate::physics::measurement::daily_means::{Period, days_needed, difference, paired};
use crate::physics::measurement::fan_test::{
    Direction, Doubt, FanTest, FanTestError, Point, Readings, both_directions,
};
use crate::physics::measurement::line::{Line, LineError};
use crate::physics::measurement::logger::{BelowFreezing, air, restated};
use crate::physics::measurement::tracer::{DecayError, Reading, decay};
use crate::physics::measurement::water_balance::{
    Collected, Measured, WaterBalanceError, dry_air_flow,
};
use crate::physics::measurement::{Limits, student::t_95};

fn close(found: f64, expected: f64, relative: f64) {
    assert!(
        (found / expected - 1.0).abs() < relative,
        "{found} is not {expected}"
    );
}

#[test]
fn a_line_has_the_certified_values_of_norris() {
    // NIST Statistical Reference Datasets, linear regression, Norris: x, y. Data and certified values
    // from memory [M]; that numpy finds the certified digits in these data confirms both [N].
    let points = [
        (0.2, 0.1),
        (337.4, 338.8),
        (118.2, 118.1),
        (884.6, 888.0),
        (10.1, 9.2),
        (226.5, 228.1),
        (666.3, 668.5),
        (996.3, 998.5),
        (448.6, 449.1),
        (777.0, 778.9),
        (558.2, 559.2),
        (0.4, 0.3),
        (0.6, 0.1),
        (775.5, 778.1),
        (666.9, 668.8),
        (338.0, 339.3),
        (447.5, 448.9),
        (11.6, 10.8),
        (556.0, 557.7),
        (228.1, 228.3),
        (995.8, 998.0),
        (887.6, 888.8),
        (120.2, 119.6),
        (0.3, 0.3),
        (0.3, 0.6),
        (556.8, 557.6),
        (339.1, 339.3),
        (887.2, 888.0),
        (999.0, 998.5),
        (779.0, 778.9),
        (11.1, 10.2),
        (118.3, 117.6),
        (229.2, 228.9),
        (669.1, 668.4),
        (448.9, 449.2),
        (0.5, 0.2),
    ];
    let line = Line::through(&points).expect("a line");
    close(line.slope, 1.002_116_818_020_45, 1e-12);
    close(line.intercept, -0.262_323_073_774_029, 1e-10);
    close(line.slope_error, 0.429_796_848_199_937e-3, 1e-10);
    close(line.intercept_error, 0.232_818_234_301_152, 1e-10);
    close(line.residual, 0.884_796_396_144_373, 1e-10);
    close(line.r_squared, 0.999_993_745_883_712, 1e-12);
}

#[test]
fn a_line_far_from_zero_loses_nothing() {
    // y = 3 + 2 x shifted by a million: exact in the slope by construction.
    let points: Vec<(f64, f64)> = (0..20)
        .map(|at| (1e6 + f64::from(at), 3.0 + 2.0 * (1e6 + f64::from(at))))
        .collect();
    let line = Line::through(&points).expect("a line");
    close(line.slope, 2.0, 1e-9);
    assert!(line.slope_limits().holds(2.0));
}

#[test]
fn points_that_tell_nothing_are_refused() {
    assert_eq!(
        Line::through(&[(0.0, 1.0), (1.0, 2.0)]).expect_err("two points"),
        LineError::TooFewPoints
    );
    assert_eq!(
        Line::through(&[(0.1, 1.0), (0.1, 2.0), (0.1, 3.0)]).expect_err("one place"),
        LineError::OnePlace
    );
    assert_eq!(
        Line::through(&[(0.0, 1.0), (1.0, f64::NAN), (2.0, 3.0)]).expect_err("no number"),
        LineError::NotFinite
    );
}

/// Points of the published fan test: Δp in Pa, q in m³/h.
const PUBLISHED: [(f64, f64); 6] = [
    (10.0, 237.0),
    (20.0, 364.0),
    (30.0, 444.0),
    (40.0, 625.0),
    (50.0, 688.0),
    (60.0, 704.0),
];

fn points(of: &[(f64, f64)]) -> Vec<Point> {
    of.iter()
        .zip(1..)
        .map(|((pressure_pa, m3_per_h), number)| Point {
            number,
            pressure_pa: *pressure_pa,
            flow: m3_per_h / 3600.0,
        })
        .collect()
}

fn readings(points: &[Point]) -> Readings<'_> {
    Readings {
        direction: Direction::Depressurising,
        points,
        zero_flow_pa: &[0.0],
        inside_density: Gas::REFERENCE.density,
        outside_density: Gas::REFERENCE.density,
    }
}

#[test]
fn the_published_fan_test_is_found_again() {
    // C. Ghiaus, Dynamic Models for Building Energy Management, tutorial A06 [S]: n 0.6434 ± 0.0442,
    // C 53.3956 ± 8.1475 m³/h (one standard error each), r² 0.9815, 159.9 cm² at 10 Pa with Cd 1 and
    // ρ 1.2.
    let points = points(&PUBLISHED);
    let test = FanTest::from_readings(&readings(&points)).expect("a test");
    close(test.exponent().value, 0.6434, 1e-4);
    close(test.exponent_error(), 0.0442, 1e-3);
    close(test.coefficient().value * 3600.0, 53.3956, 1e-6);
    close(test.coefficient_error() * 3600.0, 8.1475, 1e-5);
    close(test.r_squared(), 0.9815, 1e-4);
    let flow_10 = test.flow_at(10.0).value;
    close(flow_10 / (2.0 * 10.0 / 1.2_f64).sqrt() * 1e4, 159.9, 1e-3);
    // t of 95 % for four degrees of freedom, scipy [N]: 2.776445.
    let half = test.exponent().high - test.exponent().value;
    close(half, 2.776_445_1 * test.exponent_error(), 1e-6);
    assert!(test.doubts.is_empty(), "{:?}", test.doubts);
}

#[test]
fn limits_of_the_flow_are_narrowest_among_the_readings() {
    let points = points(&PUBLISHED);
    let test = FanTest::from_readings(&readings(&points)).expect("a test");
    let width = |pressure: f64| test.flow_at(pressure).relative_half().expect("positive");
    assert!(width(4.0) > width(10.0) && width(10.0) > width(30.0) && width(90.0) > width(30.0));
    let area = test.area(LeakageArea::Ela4Pa);
    assert!(area.low < area.value && area.value < area.high);
    close(
        test.n50(25.0).value,
        test.flow_at(50.0).value * 144.0,
        1e-12,
    );
}

#[test]
fn the_air_of_the_test_is_brought_to_the_reference() {
    // Blowing out at 20 °C inside and 0 °C outside: 1.2041 and 1.2922 kg/m³. The envelope passes
    // outside air: q ρ_i/ρ_o, then C (ρ_o/ρ₀)^(1−n), worked by hand from ISO 9972's formulas [R].
    let law = |pressure: f64| 0.02 * pressure.powf(0.6);
    let list: Vec<Point> = [10.0, 20.0, 30.0, 40.0, 50.0]
        .map(|pressure_pa| Point {
            number: 0,
            pressure_pa,
            flow: law(pressure_pa),
        })
        .to_vec();
    let mut cold = readings(&list);
    cold.outside_density = 1.2922;
    let out = FanTest::from_readings(&cold).expect("a test");
    let by_hand = law(50.0)
        * (Gas::REFERENCE.density / 1.2922)
        * (1.2922_f64 / Gas::REFERENCE.density).powf(0.4);
    close(out.flow_at(50.0).value, by_hand, 1e-10);
    cold.direction = Direction::Pressurising;
    let into = FanTest::from_readings(&cold).expect("a test");
    close(
        into.flow_at(50.0).value,
        law(50.0) * 1.2922 / Gas::REFERENCE.density,
        1e-10,
    );
    let both = both_directions(out.flow_at(50.0), into.flow_at(50.0));
    close(
        both.value,
        f64::midpoint(out.flow_at(50.0).value, into.flow_at(50.0).value),
        1e-12,
    );
}

#[test]
fn the_zero_flow_pressure_is_taken_off() {
    let shifted: Vec<Point> = [10.0, 20.0, 30.0, 40.0, 50.0_f64]
        .map(|pressure_pa| Point {
            number: 0,
            pressure_pa: pressure_pa + 2.0,
            flow: 0.02 * pressure_pa.powf(0.6),
        })
        .to_vec();
    let mut of = readings(&shifted);
    of.zero_flow_pa = &[1.5, 2.5];
    let test = FanTest::from_readings(&of).expect("a test");
    close(test.exponent().value, 0.6, 1e-9);
    of.zero_flow_pa = &[12.5];
    assert_eq!(
        FanTest::from_readings(&of).expect_err("nothing left"),
        FanTestError::NothingLeft(0)
    );
}

#[test]
fn what_the_standard_would_not_accept_is_told() {
    let few = points(&[(5.0, 100.0), (10.0, 240.0), (20.0, 560.0)]);
    let mut of = readings(&few);
    of.zero_flow_pa = &[];
    let test = FanTest::from_readings(&of).expect("a test");
    assert!(test.doubts.contains(&Doubt::FewPoints(3)));
    assert!(test.doubts.contains(&Doubt::LowPressure(20.0)));
    assert!(test.doubts.contains(&Doubt::NoZeroFlow));
    assert!(
        test.doubts
            .iter()
            .any(|doubt| matches!(doubt, Doubt::Exponent(n) if n.value > 1.0))
    );
    let words = |flows: [f64; 5]| {
        let points: Vec<(f64, f64)> = [10.0, 20.0, 30.0, 40.0, 50.0]
            .into_iter()
            .zip(flows)
            .collect();
        let points = self::points(&points);
        let test = FanTest::from_readings(&readings(&points)).expect("a test");
        let exponent = test
            .doubts
            .iter()
            .find(|one| matches!(one, Doubt::Exponent(_)));
        exponent.map(ToString::to_string).unwrap_or_default()
    };
    // Sharp edges, 0.5, and readings that scatter by half a percent: nothing moved.
    let scattered = words([100.5, 141.4, 173.2, 200.0, 222.0]);
    assert!(
        scattered.contains("the scatter of the readings alone"),
        "{scattered}"
    );
    let moved = words([100.0, 131.95, 155.18, 174.11, 190.37]);
    assert!(
        moved.contains("exponent is 0.400 (0.4") && moved.contains("something moved"),
        "{moved}"
    );
    of.zero_flow_pa = &[-1.0, 6.0];
    let gusty = FanTest::from_readings(&of);
    assert!(gusty.is_ok_and(|test| test.doubts.contains(&Doubt::ZeroFlow(6.0))));
}

#[test]
fn a_decay_has_the_air_changes_of_the_worked_example() {
    // METHOD's check by scipy [N]: 2600 … 590 above background at 0 to 2 h: 0.7441 ± 0.0471 per hour.
    let list: Vec<Reading> = [2600.0, 1850.0, 1210.0, 870.0, 590.0]
        .iter()
        .zip([0.0, 0.5, 1.0, 1.5, 2.0])
        .zip(1..)
        .map(|((above, hours), number)| Reading {
            number,
            time_s: 3600.0 * hours,
            inside: 420.0 + above,
            background: 420.0,
        })
        .collect();
    let found = decay(&list).expect("a decay");
    close(found.per_hour.value, 0.744_147_216, 1e-8);
    close(
        found.per_hour.high - found.per_hour.value,
        0.047_088_289,
        1e-7,
    );
    close(
        found.per_hour.value - found.per_hour.low,
        0.047_088_289,
        1e-7,
    );
    let mut below = list;
    below[3].inside = 410.0;
    assert_eq!(decay(&below).expect_err("below"), DecayError::NotAbove(4));
}

#[test]
fn days_that_resemble_each_other_count_for_fewer() {
    // numpy and scipy, tests of the formula with the same days [N].
    let damp =
        Period::of_days(&[81.2, 83.5, 84.1, 82.0, 79.4, 80.8, 83.9, 85.1, 84.4]).expect("days");
    let dried = Period::of_days(&[64.0, 62.1, 66.3, 67.7, 65.2, 60.9, 61.5]).expect("days");
    close(damp.effective_days, 3.787_125_057, 1e-9);
    close(dried.effective_days, 3.617_807_794, 1e-9);
    let limits = damp.limits().expect("enough days");
    close(limits.high - limits.value, 3.304_215_745_7, 1e-7);
    let by = difference(&damp, &dried).expect("enough days");
    close(by.value, -18.753_968_254, 1e-9);
    close(by.high - by.value, 4.355_983_424, 1e-7);
}

#[test]
fn welchs_limits_are_scipys_where_days_are_independent() {
    // scipy.stats.ttest_ind(equal_var=False).confidence_interval() [N]; neighbours swing apart in
    // both, so that every day counts.
    let without = Period::of_days(&[81.0, 84.0, 80.0, 83.0, 79.0, 85.0]).expect("days");
    let with = Period::of_days(&[64.0, 61.0, 66.0, 62.0, 67.0, 60.0]).expect("days");
    let by = difference(&without, &with).expect("enough days");
    close(by.low, -22.017_609_500_9, 1e-8);
    close(by.high, -15.315_723_832_5, 1e-8);
    let pairs = paired(&[-18.2, -17.1, -20.4]).expect("enough pairs");
    close(pairs.value, -18.566_666_667, 1e-9);
    close(pairs.high - pairs.value, 4.174_041_337, 1e-8);
}

#[test]
fn three_days_have_no_limits() {
    let short = Period::of_days(&[80.0, 81.0, 79.0]).expect("days");
    let long = Period::of_days(&[70.0, 71.0, 69.0, 70.0, 72.0]).expect("days");
    assert!(short.limits().is_none());
    assert!(difference(&short, &long).is_none());
    assert!(paired(&[1.0]).is_none());
    // By the formula in Python [N]: effect 2, variance 4, r₁ 0.4 asks for 21 days.
    assert_eq!(days_needed(2.0, 4.0, 0.4), Some(21));
    assert_eq!(days_needed(0.01, 4.0, 0.4), None);
}

#[test]
fn the_flow_by_collected_water_has_fiellers_limits() {
    let of = |removed: f64, difference: f64, error: f64| Collected {
        removed: Measured {
            value: removed,
            error: 2e-6,
        },
        sources: Measured {
            value: 0.0,
            error: 0.0,
        },
        from_store: Measured {
            value: 0.0,
            error: 0.0,
        },
        difference: Measured {
            value: difference,
            error,
        },
    };
    // Four million draws of the quotient in numpy [N]: 2.5 % and 97.5 % at 0.016343 and 0.024668.
    let flow = dry_air_flow(&of(3.0e-5, 1.5e-3, 1.2e-4)).expect("a flow");
    close(flow.value, 0.02, 1e-12);
    close(flow.low, 0.016_343, 5e-4);
    close(flow.high, 0.024_668, 5e-4);
    assert_eq!(
        dry_air_flow(&of(3.0e-5, 2.0e-4, 1.2e-4)).expect_err("too alike"),
        WaterBalanceError::TooAlike
    );
    assert_eq!(
        dry_air_flow(&of(1.0e-6, 1.5e-3, 1.2e-4)).expect_err("nothing"),
        WaterBalanceError::NothingLeft
    );
    // Air drier than the inside carries out what is given off: the same quotient with both signs turned.
    let out = dry_air_flow(&of(-3.0e-5, -1.5e-3, 1.2e-4)).expect("a flow");
    assert_eq!(out, flow);
    // It brings none in.
    for (removed, difference) in [(3.0e-5, -1.5e-3), (-3.0e-5, 1.5e-3)] {
        assert_eq!(
            dry_air_flow(&of(removed, difference, 1.2e-4)).expect_err("the wrong way"),
            WaterBalanceError::WrongWay
        );
    }
}

#[test]
fn a_loggers_humidity_is_taken_over_water_or_ice_as_the_instrument_has_it() {
    // ASHRAE Fundamentals 2017 tables [S]: 401.74 Pa over ice at −5 °C; over water 421.7 Pa, WMO
    // formula [M].
    let over_ice = air(-5.0, 0.8, 101_325.0, BelowFreezing::OverIce).expect("air");
    close(over_ice.vapour_pressure(), 0.8 * 401.74, 3e-4);
    let over_water = air(-5.0, 0.8, 101_325.0, BelowFreezing::OverWater).expect("air");
    close(over_water.vapour_pressure(), 0.8 * 421.7, 1e-3);
    // Warmed to 10 °C without water added: 337.4/1228 Pa [S, table 10 °C].
    let warmed = restated(over_water.humidity_ratio, 10.0, 101_325.0).expect("air");
    close(warmed, 0.8 * 421.7 / 1228.0, 2e-3);
}

#[test]
fn limits_keep_their_order() {
    let limits = Limits::around(2.0, 0.5).map(f64::exp);
    assert!(limits.low < limits.value && limits.value < limits.high);
    assert!(limits.holds(7.0) && !limits.holds(20.0));
    assert!(t_95(0.5).is_none());
}
