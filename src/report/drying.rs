//! Drying and heating: what each option would do.

use super::Material;
use super::blocks::{Align, Block, Reasons, Section, Table};
use super::words::{L_PER_DAY, money};
use crate::assess::drying::{Comparison, HeaterFor, OptionCase, SizedFor};
use crate::assess::words::{self, capital, figure, given};
use crate::assess::{Answer, NotKnown};

pub(crate) fn section(material: &Material<'_>) -> Section {
    let mut section = Section::new("Drying and heating");
    let comparison = match material.comparison {
        Ok(comparison) => comparison,
        Err(unknown) => {
            section.paragraph(format!("Nothing can be compared: {}.", unknown.reason));
            return section;
        }
    };
    if let Some(words) = which_cases(comparison) {
        section.paragraph(words);
    }
    let points = comparison
        .options
        .iter()
        .map(|option| format!("{}: {}", option.starred_name(), option.sentence));
    section.push(Block::Points {
        points: points.collect(),
    });
    let mut reasons = Reasons::default();
    let table = options(material, comparison, &mut reasons);
    section.table(table, &reasons);
    section.note(format!(
        "Target {}\u{a0}%. L/day: water that the machine removes. W: electricity and heat of the heater, \
         mean. * Generic sizes, not makers: assumptions.",
        given(material.survey.targets.rh_percent)
    ));
    for finding in &comparison.findings {
        section.push(Block::Points {
            points: vec![format!(
                "{}; {}.",
                capital(&finding.sentence),
                finding.advice
            )],
        });
    }
    section.heading("What to look for when buying");
    sizes(&mut section, material, comparison);
    section
}

/// Which cases the sentences mean by still and windy, where these are not called so.
fn which_cases(comparison: &Comparison) -> Option<String> {
    let name = |at: usize| Some(comparison.cases.get(at)?.name.trim());
    let (calm, windy) = (name(comparison.calmest)?, name(comparison.windiest)?);
    if comparison.calmest == comparison.windiest || (calm, windy) == ("still", "windy") {
        return None;
    }
    Some(format!(
        "Here still means the weather case with least wind, “{calm}”, and windy the one with most, \
         “{windy}”."
    ))
}

fn state(comparison: &Comparison, option: usize, case: usize) -> Answer<&OptionCase> {
    let found = comparison
        .options
        .get(option)
        .and_then(|option| option.cases.get(case));
    match found {
        Some(Ok(state)) => Ok(state),
        Some(Err(unknown)) => Err(unknown.clone()),
        None => Err(NotKnown::because("there is no such weather case")),
    }
}

fn options(material: &Material<'_>, comparison: &Comparison, reasons: &mut Reasons) -> Table {
    let mut cases = vec![comparison.calmest, comparison.windiest];
    cases.dedup();
    let mut table = Table::default().wide("Option", Align::Left, 1);
    for case in &cases {
        let name = comparison
            .cases
            .get(*case)
            .map_or("", |case| case.name.as_str());
        // The template writes the name, which they have in common, once above them.
        for head in ["°C", "RH %", "L/day", "W"] {
            table = table.column(format!("{name}\n{head}"), Align::Decimal);
        }
    }
    table = table.column("kWh\na month", Align::Decimal).column(
        format!("{}\na month", material.survey.tariffs.currency.trim()),
        Align::Decimal,
    );
    for (at, option) in comparison.options.iter().enumerate() {
        let mut cells = vec![option.starred_name()];
        for case in &cases {
            match state(comparison, at, *case) {
                Ok(state) => cells.extend([
                    tenths(state.inside.t_c),
                    format!("{:.0}", state.rh * 100.0),
                    words::litres(state.removal_kg_s * L_PER_DAY),
                    words::watts(state.machine_w + state.heater_w),
                ]),
                Err(unknown) => {
                    cells.push(reasons.or(&Err::<f64, _>(unknown), f64::to_string));
                    cells.extend([const { String::new() }; 3]);
                }
            }
        }
        cells.push(reasons.or(&option.kwh_per_month, |kwh| figure(*kwh, 2)));
        cells.push(reasons.or(&option.cost_per_month, |cost| money(*cost)));
        table.row(cells);
    }
    table
}

fn tenths(value: f64) -> String {
    // No minus before a zero.
    format!("{:.1}", (value * 10.0).round() / 10.0 + 0.0).replace('-', "−")
}

fn sizes(section: &mut Section, material: &Material<'_>, comparison: &Comparison) {
    let mut reasons = Reasons::default();
    let mut table = Table::default()
        .wide("Machine", Align::Left, 1)
        .column("Rated at", Align::Left)
        .column("For", Align::Left)
        .column("To remove, L/day", Align::Decimal)
        .column("Rating to look for, L/day", Align::Decimal);
    for capacity in &comparison.sizing.capacities {
        table.row([
            capacity.kind.name().to_owned(),
            format!(
                "{}\u{a0}°C {:.0}\u{a0}%",
                given(capacity.rated_c),
                capacity.rated_rh * 100.0
            ),
            match capacity.sized_for {
                SizedFor::Still => "least wind",
                SizedFor::Windy => "most wind",
                SizedFor::Design => "design weather",
            }
            .to_owned(),
            reasons.or(&capacity.needed_kg_s, litres),
            reasons.or(&capacity.rated_kg_s, litres),
        ]);
    }
    section.table(table, &reasons);
    let mut reasons = Reasons::default();
    let mut table = Table::default()
        .wide("Heater", Align::Left, 1)
        .column("Air, W", Align::Decimal)
        .column("Fabric, W", Align::Decimal)
        .column("Rating to look for, W", Align::Decimal)
        .column("kWh a month", Align::Decimal);
    for size in &comparison.sizing.heaters {
        let what = match size.heater_for {
            HeaterFor::FrostGuard => "Frost guard",
            HeaterFor::SetTemperature => "Set temperature for drying",
            HeaterFor::Comfort => "Comfort",
        };
        table.row([
            format!("{what}, {}\u{a0}°C inside", given(size.inside_c)),
            reasons.or(&size.air_w, |watts| words::watts(*watts)),
            words::watts(size.fabric_w),
            reasons.or(&size.rating_w, |watts| words::watts(*watts)),
            reasons.or(&size.kwh_per_month, |kwh| figure(*kwh, 2)),
        ]);
    }
    section.table(table, &reasons);
    section.note(format!(
        "Capacities and ratings hold a margin of a quarter; heaters at {}\u{a0}°C outside in the windiest \
         case's wind. The heat of a month is in the weather cases by their shares.",
        given(material.survey.targets.design_outside_c)
    ));
}

fn litres(kg_s: &f64) -> String {
    words::litres(kg_s * L_PER_DAY)
}
