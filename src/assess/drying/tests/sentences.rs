//! The sentences: what an option does, and where and why it does not suffice.

use super::*;

fn sentence(comparison: &Comparison, kind: OptionKind) -> String {
    option(comparison, kind).sentence.replace('\u{a0}', " ")
}

fn figure(value: f64) -> String {
    crate::assess::number::significant(value, 2)
}

#[test]
fn what_the_air_brings_is_told_as_what_holding_the_target_would_take() {
    let comparison = compared(&body());
    let cases = || option(&comparison, TUB).cases.iter().flatten();
    let ends = |of: fn(&OptionCase) -> f64| {
        let least = cases().map(of).fold(f64::INFINITY, f64::min);
        let most = cases().map(of).fold(0.0, f64::max);
        let (least, most) = (figure(least * DAY), figure(most * DAY));
        if least == most {
            least
        } else {
            format!("{least} to {most}")
        }
    };
    let expected = format!(
        "never holds 55 %: it removes {} L a day, and 55 % at 6.0 °C would take {} L",
        ends(|case| case.removal_kg_s),
        ends(|case| case.load_kg_s)
    );
    let sentence = sentence(&comparison, TUB);
    assert!(sentence.starts_with(&expected), "{sentence}");
}

#[test]
fn heat_that_does_not_suffice_is_told_by_what_it_does() {
    let mut survey = body();
    survey.heaters = vec![own_heater(
        1,
        HeaterFuel::Electricity,
        Some(3000.0),
        Some(9.0),
    )];
    let comparison = compared(&survey);
    let sentence = sentence(&comparison, OptionKind::BackgroundHeat);
    assert!(
        sentence.starts_with("never holds 55 %: it warms to 9.0 °C and removes no water; 55 % at that would take removing "),
        "{sentence}"
    );
    // 0.85 p_ws(6 °C)/p_ws(9 °C) with 935.3 and 1148.2 Pa (ASHRAE 2017 tables [S]): 69 %.
    assert!(
        sentence.ends_with("RH 69 % at 9.0 °C in “still”, 69 % at 9.0 °C in “breezy” and 69 % at 9.0 °C in “windy”, down from 85 %"),
        "{sentence}"
    );
}

#[test]
fn every_weather_case_is_called_by_its_own_name() {
    let mut survey = body();
    for case in &mut survey.weather {
        case.name = format!("case number {}", case.id.0);
    }
    survey.weather[1].name = " ".to_owned();
    let comparison = compared(&survey);
    for option in &comparison.options {
        let sentence = &option.sentence;
        if option.verdict == Ok(Verdict::NothingToOpen) {
            continue;
        }
        for name in ["“case number 1”", "“weather case 2”", "“case number 3”"] {
            assert!(sentence.contains(name), "{sentence}");
        }
        let lower = sentence.to_lowercase();
        assert!(
            !lower.contains("still ") && !lower.contains("windy"),
            "{sentence}"
        );
    }
}

#[test]
fn one_weather_case_alone_is_no_season() {
    let mut survey = body();
    survey.weather.truncate(1);
    let comparison = compared(&survey);
    for option in &comparison.options {
        let sentence = &option.sentence;
        assert!(
            !sentence.contains("season") && !sentence.contains('“'),
            "{sentence}"
        );
        assert!(!option.verdict_words(&comparison).contains("season"));
    }
    assert!(sentence(&comparison, ROTOR).starts_with("holds 55 %: it removes "));
    assert!(sentence(&comparison, TUB).starts_with("does not hold 55 %: it removes "));
}

#[test]
fn a_machine_that_does_it_says_how_much_it_removes_and_how_often_it_runs() {
    let comparison = compared(&body());
    let cases: Vec<&OptionCase> = option(&comparison, ROTOR).cases.iter().flatten().collect();
    assert!(cases.iter().all(|case| case.holds));
    let litres = |case: &OptionCase| case.removal_kg_s * DAY;
    let (least, most) = (litres(cases[0]), litres(cases[2]));
    let expected = format!(
        "holds 55 % in all 3 weathers: it removes {} to {} L a day, running {:.0} to {:.0} % of the time; RH 55 % at",
        figure(least),
        figure(most),
        cases[0].duty * 100.0,
        cases[2].duty * 100.0
    );
    let sentence = sentence(&comparison, ROTOR);
    assert!(sentence.starts_with(&expected), "{sentence}");
}
