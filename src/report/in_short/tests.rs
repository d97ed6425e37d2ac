//! What the page says of surveys whose advice would mislead.

use super::*;
use crate::assess::Study;
use crate::survey::file::parse;
use crate::survey::{ApplianceKind, GapPart, HeaterFuel, Purpose, SetUp, Survey};

fn farmyard() -> Survey {
    let text = include_str!("../../../sample-surveys/farmyard-caravan.ron");
    parse(text).expect("a sample")
}

/// Every line of the page, with plain spaces.
fn page(survey: &Survey) -> Vec<String> {
    let study = Study::of(survey);
    let page = in_short(&Material::of(&study));
    let lines = page.lines().map(|line| line.text.replace('\u{a0}', " "));
    lines.collect()
}

fn used() -> Survey {
    let mut survey = farmyard();
    survey.set_up = SetUp::InUse;
    survey
}

#[test]
fn in_use_without_a_heater_one_has_to_be_bought_and_its_size_is_that_of_comfort() {
    let mut survey = used();
    survey.heaters.clear();
    let lines = page(&survey);
    let text = lines.join("\n");
    assert!(!text.contains("✔ Nothing has to be bought"), "{text}");
    let bought = lines.iter().find_map(|line| {
        let (_, behind) = line.split_once("No machine has to be bought, only a heater of ")?;
        behind.split_once(": ").map(|(watts, _)| watts)
    });
    let watts = bought.unwrap_or_else(|| panic!("{text}"));
    assert!(text.contains(&format!("look for {watts}.")), "{text}");
    survey.heaters = used().heaters;
    survey.heaters[0].owned = true;
    // 500 W do not keep 20 °C.
    let text = page(&survey).join("\n");
    assert!(text.contains("only a stronger heater: "), "{text}");
    survey.heaters[0].fuel = HeaterFuel::FluedGas;
    survey.heaters[0].rating_w = Some(6000.0);
    let text = page(&survey).join("\n");
    assert!(text.contains("✔ Nothing has to be bought"), "{text}");
}

#[test]
fn a_heater_without_a_flue_has_no_tick_on_the_page() {
    for set_up in SetUp::ALL {
        let mut survey = used();
        survey.set_up = set_up;
        for heater in &mut survey.heaters {
            heater.name = "open flame".to_owned();
            (heater.fuel, heater.owned) = (HeaterFuel::UnfluedGas, true);
            heater.rating_w = Some(6000.0);
        }
        let lines = page(&survey);
        let told = || lines.iter().filter(|line| line.contains("open flame"));
        assert!(told().count() >= 2, "{lines:?}");
        assert!(!told().any(|line| line.contains('✔')), "{lines:?}");
        let why = "▲ A flame without a flue gives carbon monoxide to a closed vehicle: ";
        let why = lines.iter().find(|line| line.starts_with(why));
        let why = why.unwrap_or_else(|| panic!("{lines:?}"));
        // The heater, and the heater with the large machine.
        assert!(why.ends_with("are no way to keep it dry."), "{why}");
    }
}

#[test]
fn what_the_supply_does_not_give_is_said_to_be_the_reason() {
    let mut survey = used();
    survey.heaters[0].owned = true;
    survey.heaters[0].rating_w = Some(6000.0);
    survey.drying.hookup_a = Some(4.0);
    let text = page(&survey).join("\n");
    assert!(!text.contains("Nothing has to be bought"), "{text}");
    assert!(
        text.contains("other than with more current than the supply gives."),
        "{text}"
    );
}

/// The weather with most wind is given no share of the season: held there too or not.
#[test]
fn weather_that_is_written_down_without_a_share_is_not_denied() {
    use crate::assess::drying::Verdict;
    let study = Study::of(&farmyard());
    let mut comparison = study.comparison().clone().expect("a comparison");
    let mut options = comparison.options.iter();
    let mut option = options
        .find(|option| option.verdict == Ok(Verdict::Always))
        .cloned()
        .expect("one that holds it");
    let windy = comparison.windiest;
    comparison.cases[windy].share = 0.0;
    let told = season::for_how_long(&comparison, &option);
    assert!(
        told.starts_with("in all 3 kinds of weather written down, none below "),
        "{told}"
    );
    option.cases[windy].as_mut().expect("a state").holds = false;
    let told = season::for_how_long(&comparison, &option);
    assert!(
        told.starts_with("in all 2 kinds of weather that count, none below "),
        "{told}"
    );
    assert!(told.ends_with(", but not in “windy”"), "{told}");
    let words = option.verdict_words(&comparison);
    assert_eq!(words, "in all 2 weathers that count");
}

#[test]
fn no_heat_is_said_to_cool_it_below_the_outside() {
    let mut survey = farmyard();
    survey.targets.rh_percent = 20.0;
    let asked = "of water a day must come out";
    let cold = page(&survey).join("\n");
    assert!(
        cold.contains(asked) && cold.contains("Less draught and cold."),
        "{cold}"
    );
    for case in &mut survey.weather {
        case.outside_c = 30.0;
    }
    let text = page(&survey).join("\n");
    assert!(!text.contains(asked), "{text}");
    assert!(
        text.contains("Less draught.") && !text.contains("and cold."),
        "{text}"
    );
}

#[test]
fn still_air_drives_nothing_in() {
    let mut survey = farmyard();
    survey.weather.truncate(1);
    survey.weather[0].wind_m_s = 0.0;
    let text = page(&survey).join("\n");
    assert!(!text.contains("wind drives in"), "{text}");
    assert!(!text.contains("in the most wind"), "{text}");
}

#[test]
fn one_danger_more_stands_and_several_gaps_are() {
    let mut survey = farmyard();
    for number in 0..3 {
        let mut heater = survey.heaters[0].clone();
        heater.id = crate::survey::HeaterId(50 + number);
        heater.fuel = HeaterFuel::UnfluedGas;
        survey.heaters.push(heater);
    }
    let study = Study::of(&survey);
    let dangers = grave(&Material::of(&study)).len();
    let more = dangers - DANGERS;
    let text = page(&survey).join("\n");
    let stand = if more == 1 { "stands" } else { "stand" };
    let words = format!("{more} more {stand} in the list of findings.");
    assert!(text.contains(&words), "{text}");
}

#[test]
fn gaps_of_which_nobody_has_said_what_they_are_for_are_told_of() {
    let mut survey = farmyard();
    let count = survey.gaps.len();
    for gap in &mut survey.gaps {
        gap.purpose = Purpose::NotSaid;
        gap.part = GapPart::NotSaid;
    }
    let text = page(&survey).join("\n");
    assert!(!text.contains("No gap is written down yet"), "{text}");
    let told = format!(
        "None of the {count} gaps counts as a leak yet: say what each of them is there for."
    );
    assert!(text.contains(&told), "{text}");
    assert!(text.contains("The air inside is new every "), "{text}");
}

#[test]
fn people_whose_water_nobody_wrote_down_are_missed_before_anything_is_bought() {
    let survey = used();
    assert!(!page(&survey).join("\n").contains("Nobody's breath"));
    let mut survey = used();
    survey.sources.clear();
    let lines = page(&survey);
    let at = |words: &str| lines.iter().position(|line| line.contains(words));
    let told = at("Nobody's breath, cooking or washing is written down");
    let buy = at("to be bought").or(at("To keep it dry"));
    assert!(told.is_some() && told < buy, "{lines:?}");
    // Nobody lives in a vehicle that is laid up.
    survey.set_up = SetUp::LaidUp;
    assert!(!page(&survey).join("\n").contains("Nobody's breath"));
}

#[test]
fn a_flue_and_the_vent_of_a_toilet_are_no_air_for_a_flame() {
    let mut survey = farmyard();
    let parts = [GapPart::Flue, GapPart::ToiletVent, GapPart::BatteryVent];
    for (gap, part) in survey.gaps.iter_mut().zip(parts) {
        (gap.part, gap.purpose, gap.purpose_confirmed) = (part, Purpose::ApplianceAir, true);
    }
    let lines = page(&survey);
    let of = |words: &str| {
        let line = lines.iter().find(|line| line.contains(words));
        line.unwrap_or_else(|| panic!("{words}: {lines:?}")).clone()
    };
    let ids: Vec<String> = survey
        .gaps
        .iter()
        .take(3)
        .map(|gap| gap.id.to_string())
        .collect();
    for (words, id) in [
        ("Exhaust gas goes out here: gap ", &ids[0]),
        ("What smells or burns gets out here: gap ", &ids[1]),
        ("Gas of the battery gets out here: gap ", &ids[2]),
    ] {
        let line = of(words);
        assert!(line.contains(&format!("{words}{id} ")), "{line}");
        assert!(!line.contains("flame"), "{line}");
    }
}

#[test]
fn a_page_never_says_below_and_not_known_of_the_same_ventilation() {
    let mut survey = farmyard();
    survey.appliances_confirmed = false;
    survey
        .gaps
        .retain(|gap| gap.purpose != Purpose::SafetyVentilation);
    let text = page(&survey).join("\n");
    assert!(text.contains("elow the minimum"), "{text}");
    assert!(!text.contains("not known whether it suffices"), "{text}");
}

#[test]
fn the_heater_among_the_appliances_is_not_denied() {
    let mut survey = farmyard();
    survey.heaters.clear();
    let kinds = |survey: &Survey| {
        survey
            .appliances
            .iter()
            .map(|one| one.kind)
            .collect::<Vec<_>>()
    };
    let has = kinds(&survey).contains(&ApplianceKind::SpaceHeater);
    assert!(has, "{:?}", kinds(&survey));
    let text = page(&survey).join("\n");
    assert!(!text.contains("No heater is written down"), "{text}");
    assert!(
        text.contains("How strong the heater is, is not written down. To hold"),
        "{text}"
    );
    survey.appliances.clear();
    assert!(
        page(&survey)
            .join("\n")
            .contains("No heater is written down. To hold")
    );
}

#[test]
fn measurements_that_contradict_each_other_stand_before_what_is_bought() {
    let text = include_str!("../../../sample-surveys/vineyard-coachbuilt.ron");
    let mut survey = parse(text).expect("a sample");
    let calm = page(&survey);
    assert!(!calm.join("\n").contains("contradict"), "{calm:?}");
    let test = &mut survey.fan_tests[1];
    let readings = test
        .blowing_in
        .readings
        .iter_mut()
        .chain(&mut test.blowing_out.readings);
    for reading in readings {
        reading.flow_m3_per_h = reading.flow_m3_per_h.map(|flow| 12.0 * flow);
    }
    let lines = page(&survey);
    assert!(
        lines[0].starts_with("▲ ") && lines[0].contains("contradict"),
        "{lines:?}"
    );
    assert_eq!(
        lines
            .iter()
            .filter(|line| line.contains("contradict"))
            .count(),
        1
    );
}

#[test]
fn what_the_picture_does_not_know_has_the_sign_of_the_note_below_it() {
    let mut survey = farmyard();
    survey.tariffs.electricity_per_kwh = None;
    let study = Study::of(&survey);
    let material = Material::of(&study);
    let page = in_short(&material);
    let notes: Vec<&str> = page.lines().map(|line| line.text.as_str()).collect();
    let scene = scene(&material, Picture::Options, 176.0).expect("the options");
    let told = scene.description;
    let note = notes.iter().find(|note| note.contains(") Not known: "));
    let note = note.unwrap_or_else(|| panic!("{notes:?}"));
    let (sign, _) = note.split_once(' ').expect("a sign");
    assert!(told.contains(&format!("? {sign}")), "{sign}: {told}");
}
