//! The page in short of a vehicle in which very much was written down.

use crate::assess::Study;
use crate::assess::in_short::{Pick, pick};
use crate::assess::shown::Shown;
use crate::headless::page;
use crate::survey::{HeaterFuel, HeaterId, Machine, MachineId, MachineKind, SetUp, Survey, file};

/// A sample with a dozen machines and three heaters more, none of which has a price.
fn crowded(set_up: SetUp) -> Survey {
    let text = include_str!("../../../sample-surveys/orchard-trial.ron");
    let mut survey = file::parse(text).expect("a sample");
    survey.set_up = set_up;
    let kinds = MachineKind::ALL.iter().cycle().take(12);
    for (number, kind) in (101..).zip(kinds) {
        let mut machine = Machine::new(MachineId(number), *kind);
        machine.name = format!("borrowed from the neighbour at number {number}");
        survey.machines.push(machine);
    }
    let fuels = [
        HeaterFuel::UnfluedGas,
        HeaterFuel::FluedGas,
        HeaterFuel::LiquidFuel,
    ];
    for (number, fuel) in (101..).zip(fuels) {
        let mut heater = survey.heaters[0].clone();
        (heater.id, heater.fuel, heater.price) = (HeaterId(number), fuel, None);
        heater.name = format!("old heater {number}");
        survey.heaters.push(heater);
    }
    survey
}

#[test]
fn the_page_has_sixty_lines_at_most_whatever_is_compared() {
    for set_up in SetUp::ALL {
        let study = Study::of(&crowded(set_up));
        let text = page::in_short(&study, Shown::default());
        assert!(text.lines().count() <= 60, "{text}");
        assert!(
            text.contains("more rows in the whole assessment."),
            "{text}"
        );
        let comparison = study.comparison().as_ref().expect("compared");
        let rows: Vec<&str> = text
            .lines()
            .skip_while(|line| !line.starts_with("What,"))
            .collect();
        let has = |name: &str| rows.iter().any(|row| row.contains(name));
        assert!(has("nothing"), "{text}");
        let Pick::Take(at) = pick(comparison) else {
            continue;
        };
        let taken = &comparison.options[at].name;
        assert!(
            has(taken.split(' ').next().expect("a word")),
            "{taken}: {text}"
        );
    }
}
