use super::super::air::{MoistAir, STANDARD_PRESSURE};
use super::super::basic_model::{self, ShelterClass, stack_coefficient};
use super::super::fabric::*;
use super::super::moisture::*;
use super::near;

const SECONDS_PER_HOUR: f64 = 3600.0;
const SECONDS_PER_DAY: f64 = 86_400.0;

fn air(t_c: f64, rh: f64) -> MoistAir {
    MoistAir::from_relative_humidity(t_c, rh, STANDARD_PRESSURE).unwrap()
}

#[test]
fn transmittances_agree_with_hand_worked_build_ups() {
    // ISO 6946 [M] with the conductivities of [S] and [M], worked by hand.
    use Material::*;
    let wall = |layers: &[Layer]| u_value(layers, HeatFlow::Horizontal);
    let grp = [
        Layer::of(GlassFibre, 1.5e-3),
        Layer::of(ExpandedPolystyrene, 30e-3),
        Layer::of(Plywood, 3e-3),
    ];
    near(wall(&grp), 1.014, 5e-4);
    let aluminium = [
        Layer::of(Aluminium, 0.6e-3),
        Layer::of(ExtrudedPolystyrene, 32e-3),
        Layer::of(Plywood, 3e-3),
    ];
    near(wall(&aluminium), 0.882, 5e-4);
    let floor = [
        Layer::of(Plywood, 5e-3),
        Layer::of(ExtrudedPolystyrene, 40e-3),
        Layer::of(Plywood, 9e-3),
    ];
    near(u_value(&floor, HeatFlow::Down), 0.669, 5e-4);
    let double_acrylic = [
        Layer::of(Acrylic, 3e-3),
        Layer::Resistance(0.17),
        Layer::of(Acrylic, 2.5e-3),
    ];
    near(wall(&double_acrylic), 2.699, 5e-4);
    near(wall(&[Layer::of(Glass, 5.5e-3)]), 5.698, 5e-4);
    near(wall(&[Layer::of(Steel, 1e-3)]), 5.88, 5e-3);
    // Heat leaves a roof more easily than a floor.
    assert!(u_value(&grp, HeatFlow::Up) > u_value(&grp, HeatFlow::Down));
}

#[test]
fn surface_temperature_factors_agree_with_hand_worked_values() {
    // ISO 13788 [M]: bare steel 0.138 and GRP/EPS wall 0.774 at Rsi 0.25; 5.5 mm glass 0.259 at 0.13.
    let steel = [Layer::of(Material::Steel, 1e-3)];
    near(
        temperature_factor(&steel, OPAQUE_JUDGING_RESISTANCE),
        0.138,
        5e-4,
    );
    let grp = [
        Layer::of(Material::GlassFibre, 1.5e-3),
        Layer::of(Material::ExpandedPolystyrene, 30e-3),
        Layer::of(Material::Plywood, 3e-3),
    ];
    near(
        temperature_factor(&grp, OPAQUE_JUDGING_RESISTANCE),
        0.774,
        5e-4,
    );
    let glass = [Layer::of(Material::Glass, 5.5e-3)];
    let factor = temperature_factor(&glass, GLASS_JUDGING_RESISTANCE);
    near(factor, 0.259, 5e-4);
    // Glass between 0 °C outside and 10 °C inside: 2.59 °C.
    near(surface_temperature_c(factor, 0.0, 10.0), 2.59, 5e-3);
}

#[test]
fn unheated_body_in_winter_air_needs_what_was_worked_by_hand() {
    // 25 m³ at 0.5 /h, outside and inside 5 °C, outside 87 %, hold 55 %. Worked by hand with the
    // density of dry air at 5 °C (1.2691 kg/m³): m_da 15.86 kg/h, W_o 0.004694, 661 g/day.
    let outside = air(5.0, 0.87);
    near(outside.humidity_ratio, 0.004_694, 1.5e-6);
    let dry = MoistAir::new(5.0, 0.0, STANDARD_PRESSURE).unwrap();
    let dry_flow = 0.5 * 25.0 * dry.density() / SECONDS_PER_HOUR;
    near(dry_flow * SECONDS_PER_HOUR, 15.86, 5e-3);
    let target = air(5.0, 0.55).humidity_ratio;
    let removal = required_removal(0.0, dry_flow, outside.humidity_ratio, target);
    near(removal * SECONDS_PER_DAY * 1e3, 661.0, 0.6);
    // Inside at 10 °C: 195 g/day.
    let warm = MoistAir::new(10.0, 0.0, STANDARD_PRESSURE).unwrap();
    let warm_flow = 0.5 * 25.0 * warm.density() / SECONDS_PER_HOUR;
    let target = air(10.0, 0.55).humidity_ratio;
    let removal = required_removal(0.0, warm_flow, outside.humidity_ratio, target);
    near(removal * SECONDS_PER_DAY * 1e3, 195.0, 0.5);
    // The vapour takes its share of the room: counted, m_da is 0.75 % less.
    let inflow = 0.5 * 25.0 * outside.density() / SECONDS_PER_HOUR;
    let exact = dry_air_flow(inflow, outside.humidity_ratio);
    near(exact * SECONDS_PER_HOUR, 15.745, 5e-3);
    near(
        exact / (0.5 * 25.0 * (1.0 / outside.specific_volume()) / SECONDS_PER_HOUR),
        1.0,
        1e-12,
    );
}

#[test]
fn warmth_alone_dries_the_air() {
    // Outside 5 °C 87 %: 61.8 % inside at 10 °C, 60 % at 10.45 °C (worked by hand).
    let outside = air(5.0, 0.87);
    let inside = MoistAir::new(10.0, outside.humidity_ratio, STANDARD_PRESSURE).unwrap();
    near(inside.relative_humidity(), 0.618, 5e-4);
    near(warmth_alone_c(5.0, 0.87, 0.60).unwrap(), 10.45, 5e-3);
    // 4 K on outside air of 6 °C 80 %: about 61 %.
    let outside = air(6.0, 0.80);
    let inside = MoistAir::new(10.0, outside.humidity_ratio, STANDARD_PRESSURE).unwrap();
    near(inside.relative_humidity(), 0.61, 5e-3);
    // A target above the outside humidity means cooling.
    assert!(warmth_alone_c(5.0, 0.60, 0.87).unwrap() < 5.0);
    for (outside_rh, target_rh) in [(1.2, 0.6), (0.8, 0.0), (0.0, 0.6), (0.8, f64::NAN)] {
        assert!(warmth_alone_c(5.0, outside_rh, target_rh).is_err());
    }
}

#[test]
fn removal_is_never_negative_and_counts_the_source() {
    near(required_removal(0.0, 0.004, 0.003, 0.005), 0.0, 0.0);
    // 50 g/h from a person with nothing gained or lost by air: 50 g/h.
    let source = 0.050 / SECONDS_PER_HOUR;
    near(required_removal(source, 0.004, 0.005, 0.005), source, 1e-18);
    near(
        required_removal(source, 0.004, 0.006, 0.005),
        source + 4e-6,
        1e-18,
    );
}

#[test]
fn ventilation_heat_agrees_with_the_rule_of_thumb() {
    // 0.335 × 0.5 /h × 25 m³ × 15 K = 63 W [S].
    let outside = air(5.0, 0.87);
    let flow = 0.5 * 25.0 * 1.2 / SECONDS_PER_HOUR;
    near(
        ventilation_conductance(flow, outside.humidity_ratio) * 15.0,
        63.0,
        0.8,
    );
}

#[test]
fn basic_model_agrees_with_the_handbook_examples() {
    // Handbook examples [M]: 690 cm², 16.7 K, 2.7 m/s, class 4, 255 m³ → 38.9 L/s, 0.55 /h.
    let class_4 = ShelterClass::Four.wind_coefficient();
    let one = basic_model::flow(0.0690, stack_coefficient(2.5), class_4, 16.7, 2.7);
    near(one * 1e3, 38.9, 0.05);
    near(one * SECONDS_PER_HOUR / 255.0, 0.55, 5e-3);
    // 500 cm², two storeys (Cs 0.000290, Cw 0.000231), 39 K, 6.7 m/s, 340 m³ → 73.6 L/s, 0.78 /h.
    near(stack_coefficient(5.0), 0.000_290, 1e-9);
    let two = basic_model::flow(0.0500, stack_coefficient(5.0), 0.000_231, 39.0, 6.7);
    near(two * 1e3, 73.6, 0.05);
    near(two * SECONDS_PER_HOUR / 340.0, 0.78, 5e-3);
    // A body colder than outside leaks as much as one that is as much warmer.
    near(
        basic_model::flow(0.05, 0.0001, 0.0, -9.0, 0.0),
        basic_model::flow(0.05, 0.0001, 0.0, 9.0, 0.0),
        0.0,
    );
}
