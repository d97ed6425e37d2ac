//! The whole chain against what the trade sees. **Common practice, no source**: a leaky body of
//! 20 m³ at about one air change an hour in still winter air, Σ U A near 70 W/K with the air.

use super::*;

/// Without hygrostat, as the observations are of machines that run all the time.
fn running_all_the_time() -> Comparison {
    let mut survey = body();
    survey.targets.rh_percent = 20.0;
    compared(&survey)
}

#[test]
fn the_body_is_as_leaky_as_the_observations_say() {
    let comparison = running_all_the_time();
    let ach = |case: &OptionCase| case.ach_per_h.clone().expect("a volume");
    let calm = ach(still(&comparison, COMPRESSOR));
    let wind = ach(windy(&comparison, COMPRESSOR));
    assert!((0.8..1.25).contains(&calm), "{calm}");
    assert!((3.0..4.2).contains(&wind), "{wind}");
}

#[test]
fn a_salt_tub_gathers_tens_of_millilitres_and_changes_nothing() {
    let comparison = running_all_the_time();
    let tub = still(&comparison, TUB);
    let millilitres = tub.removal_kg_s * DAY * 1000.0;
    assert!((5.0..60.0).contains(&millilitres), "{millilitres}");
    // Less than a point: nothing that a hygrometer shows.
    assert!(tub.rh > 0.84, "{}", tub.rh);
}

#[test]
fn a_thermoelectric_unit_gathers_a_tenth_of_a_litre_and_warms_more_than_it_dries() {
    let comparison = running_all_the_time();
    let plate = still(&comparison, PLATE);
    assert!(plate.removal_kg_s * DAY < 0.12);
    let fall = plate.fall.expect("a small fall");
    assert!(fall.warmth_share > 0.5, "{fall:?}");
    assert!(fall.rh_without - plate.rh < 0.10);
}

#[test]
fn a_large_compressor_halves_its_work_with_its_own_warmth() {
    let comparison = running_all_the_time();
    let large = still(&comparison, COMPRESSOR);
    let litres = large.removal_kg_s * DAY;
    assert!((0.5..=1.0).contains(&litres), "{litres}");
    assert!((0.45..=0.60).contains(&large.rh), "{}", large.rh);
    let fall = large.fall.expect("a fall");
    assert!((0.4..0.7).contains(&fall.warmth_share), "{fall:?}");
    let fan = option(&comparison, COMPRESSOR).room_volumes_per_h.clone();
    let volumes = fan.expect("a fan").expect("a volume");
    assert!((8.0..=12.0).contains(&volumes), "{volumes}");
    let rh = windy(&comparison, COMPRESSOR).rh;
    assert!((0.55..=0.60).contains(&rh), "windy {rh}");
}

#[test]
fn four_kelvin_alone_take_six_degrees_eighty_percent_to_sixty_one() {
    // 280 W into 70 W/K is +4 K, which alone takes 6 °C 80 % to about 61 %.
    let mut survey = body();
    for case in &mut survey.weather {
        case.outside_rh_percent = 80.0;
    }
    survey.targets.rh_percent = 20.0;
    let comparison = compared(&survey);
    let warm = still(&comparison, OptionKind::SameHeat);
    assert!((warm.heater_w - 280.0).abs() < 1e-9);
    assert!((warm.inside.t_c - 10.0).abs() < 0.35, "{}", warm.inside.t_c);
    assert!((warm.rh - 0.61).abs() < 0.015, "{}", warm.rh);
    assert!((warm.fall.expect("a fall").warmth_share - 1.0).abs() < 1e-9);
}
