//! Every option in figures: what the inside comes to, what it takes, and what it asks of the supply.

use super::names::{Stage, in_season, name, target};
use super::surfaces::LEAST_TOLD_L;
use crate::assess::drying::{
    Comparison, Energy, OptionAnswer, OptionCase, Shares, Supply, ToBuy, WINTER_DAYS,
};
use crate::assess::quantity::{Kind, money_about, money_round};
use crate::assess::words::{figure, listed};
use crate::assess::{Answer, DryingTopic, Topic};
#[cfg(feature = "window")]
use crate::physics::MoistAir;
use crate::physics::coupled::Running;
use crate::physics::units::LITRES_PER_DAY;
use crate::report::blocks::{Align, Reasons, Section, Table};
use crate::survey::Survey;

const NONE: &str = "–";
/// What power and fuel of a day of one weather cost; a month is of all weather.
const COST_A_DAY: &str = "for it";

/// The options in figures.
pub(crate) fn figures(survey: &Survey, comparison: &Comparison) -> Section {
    let mut section = Section::new("Every option in figures");
    let mut reasons = Reasons::default();
    let currency = match survey.tariffs.currency.trim() {
        "" => "cost",
        currency => currency,
    };
    let table = in_weather(currency, comparison, &mut reasons);
    section.table(table, &reasons);
    section.note(format!(
        "Steady states: what the inside comes to when an option runs for good, from heat and water \
         together, at the mean air flow over 16 wind directions. Target {}. Removed: by the machine. W: \
         electricity and heat of the heater, mean. A day: what is drawn or burnt, and for it: what that costs. \
         Warmth : water: what the \
         fall of the humidity against doing nothing is owed to, %.",
        Kind::RelativeHumidity.typed(survey.targets.rh_percent)
    ));
    if comparison.options.iter().any(|option| option.generic) {
        section.note(
            "* Generic sizes, not makers: assumptions of this program [A]. Your own machines and \
             heaters, once written down, take the place of the generic ones.",
        );
    }
    for note in condensation(comparison) {
        section.note(note);
    }
    for note in ice(comparison) {
        section.note(note);
    }
    for case in 0..comparison.cases.len() {
        if let Some(words) = warmth_alone(comparison, case) {
            section.note(format!("{}: {words}", comparison.case_name(case)));
        }
    }
    let mut reasons = Reasons::default();
    let table = by_month(currency, comparison, &mut reasons);
    section.table(table, &reasons);
    section.note(format!(
        "{} {}",
        shares(comparison),
        running_costs(comparison, "A month and a winter")
    ));
    let mut reasons = Reasons::default();
    if let Some(table) = asked_of_supply(comparison, &mut reasons) {
        section.table(table, &reasons);
    }
    section
}

/// A column of what an option comes to in a weather case.
struct Column {
    head: &'static str,
    align: Align,
    cell: fn(&OptionCase, &mut Reasons) -> String,
}

const COLUMNS: [Column; 9] = [
    Column {
        head: "°C",
        align: Align::Decimal,
        cell: |case, _| Kind::Celsius.number(case.inside.t_c),
    },
    Column {
        head: "RH %",
        align: Align::Decimal,
        cell: |case, _| Kind::RelativeHumidity.number(case.rh),
    },
    Column {
        head: "held",
        align: Align::Right,
        cell: |case, _| if case.holds { "✔" } else { NONE }.to_owned(),
    },
    Column {
        head: "dew point °C",
        align: Align::Decimal,
        cell: |case, _| dew_point(case.dew_point_c),
    },
    Column {
        head: "removed L/day",
        align: Align::Decimal,
        cell: |case, _| match case.running {
            Running::TooCold => "too cold".to_owned(),
            _ => Kind::LitresPerDay.number(case.removal_kg_s * LITRES_PER_DAY),
        },
    },
    Column {
        head: "W",
        align: Align::Decimal,
        cell: |case, _| Kind::Watts.number(case.machine_w + case.heater_w),
    },
    Column {
        head: "a day",
        align: Align::Right,
        cell: |case, _| a_day(&case.energy),
    },
    Column {
        head: COST_A_DAY,
        align: Align::Decimal,
        cell: |case, reasons| reasons.or(&case.energy.cost_per_day, |cost| money_about(*cost)),
    },
    Column {
        head: "warmth : water",
        align: Align::Right,
        cell: |case, _| {
            case.fall.map_or_else(
                || NONE.to_owned(),
                |fall| {
                    let share = |share| Kind::WholePercent.number(share);
                    format!("{} : {}", share(fall.warmth_share), share(fall.water_share))
                },
            )
        },
    },
];

fn dew_point(dew_point_c: Option<f64>) -> String {
    dew_point_c.map_or_else(|| "none".to_owned(), |dew| Kind::Celsius.number(dew))
}

/// What is drawn or burnt in a day.
fn a_day(energy: &Energy) -> String {
    if energy.kwh_per_day > 0.0 {
        Kind::KilowattHours.text(energy.kwh_per_day)
    } else if energy.gas_kg_per_day > 0.0 {
        format!("gas {}\u{a0}kg", figure(energy.gas_kg_per_day, 2))
    } else if energy.liquid_fuel_l_per_day > 0.0 {
        format!("fuel {}", Kind::Litres.text(energy.liquid_fuel_l_per_day))
    } else {
        NONE.to_owned()
    }
}

/// A row for each option, weather by weather, as surveyed and after the plan.
fn in_weather(currency: &str, comparison: &Comparison, reasons: &mut Reasons) -> Table {
    let mut table = Table::default().wide("Option", Align::Left, 1);
    for column in &COLUMNS {
        let head = match column.head {
            COST_A_DAY => format!("{currency}\n{COST_A_DAY}"),
            head => head.to_owned(),
        };
        table = table.column(head, column.align);
    }
    for stage in Stage::all(comparison) {
        let all = stage.comparison;
        for (case, weather) in all.cases.iter().enumerate() {
            table.group(stage.named(&in_season(all, case)));
            for (at, option) in all.options.iter().enumerate() {
                let mut cells = vec![name(at, option)];
                match all.state(at, case) {
                    Ok(state) => {
                        cells.extend(COLUMNS.iter().map(|column| (column.cell)(state, reasons)));
                    }
                    Err(unknown) => cells.push(reasons.mark(&unknown)),
                }
                table
                    .row(cells)
                    .worked_out(Topic::Drying(if stage.after_plan {
                        DryingTopic::AfterPlan(at, weather.id)
                    } else {
                        DryingTopic::Option(at, weather.id)
                    }));
            }
        }
    }
    table
}

/// Water that condenses, on cold surfaces and because the air cannot hold it.
fn condensation(comparison: &Comparison) -> Vec<String> {
    let mut notes = Vec::new();
    for stage in Stage::all(comparison) {
        let all = stage.comparison;
        for case in 0..all.cases.len() {
            let wet = |(at, option): (usize, &OptionAnswer)| {
                let wet = all.state(at, case).ok()?.condensation_kg_s * LITRES_PER_DAY;
                let litres = Kind::LitresPerDay.text(wet);
                (wet >= LEAST_TOLD_L).then(|| format!("{} {litres}", option.name))
            };
            let wet: Vec<String> = all.options.iter().enumerate().filter_map(wet).collect();
            if !wet.is_empty() {
                let when = stage.named(all.case_name(case));
                notes.push(format!("Condenses inside, {when}: {}.", wet.join("; ")));
            }
        }
    }
    notes
}

/// What ice on the coil leaves of a compressor's strength.
fn ice(comparison: &Comparison) -> Vec<String> {
    let told = |option: &OptionAnswer| {
        let cases = comparison.cases.iter().zip(&option.cases);
        let each = cases.filter_map(|(case, state)| {
            let leaves = state.as_ref().ok()?.ice_leaves?;
            (leaves < 1.0)
                .then(|| format!("{} in “{}”", Kind::WholePercent.text(leaves), case.name))
        });
        let each = listed(each);
        (!each.is_empty()).then(|| {
            format!(
                "Ice on the coil of “{}”, 15\u{a0}K colder than the room [A], leaves it {each} of the strength it \
                 has above 18\u{a0}°C.",
                option.name
            )
        })
    };
    comparison.options.iter().filter_map(told).collect()
}

/// How warm it would have to be inside to reach the target without anything else.
pub(crate) fn warmth_alone(comparison: &Comparison, case: usize) -> Option<String> {
    let warm = comparison.cases.get(case)?.warmth_alone_c.as_ref().ok()?;
    Some(format!(
        "with nothing giving off water, warmth alone comes to {} at {} inside.",
        target(comparison),
        Kind::Celsius.text(*warm)
    ))
}

/// What each option draws over a month of all weather, and what it asks of the supply.
fn by_month(currency: &str, comparison: &Comparison, reasons: &mut Reasons) -> Table {
    let mut table = Table::default()
        .wide("Option", Align::Left, 1)
        .column("target held", Align::Left)
        .column("kWh a month", Align::Decimal)
        .column(format!("{currency}\nto buy"), Align::Decimal)
        .column(format!("{currency}\na month"), Align::Decimal)
        .column(format!("{currency}\na winter"), Align::Decimal);
    for stage in Stage::all(comparison) {
        stage.head(&mut table, comparison);
        for (at, option) in stage.comparison.options.iter().enumerate() {
            table.row([
                name(at, option),
                option.verdict_words(stage.comparison),
                reasons.or(&option.kwh_per_month, |kwh| {
                    Kind::KilowattHours.number(*kwh)
                }),
                to_buy(&option.to_buy, reasons),
                reasons.or(&option.costs.per_month, |cost| money_about(*cost)),
                reasons.or(&option.costs.per_winter, |cost| money_about(*cost)),
            ]);
        }
    }
    table
}

/// What the options that draw current ask of the supply, and how fast their fans turn the air over.
fn asked_of_supply(comparison: &Comparison, reasons: &mut Reasons) -> Option<Table> {
    let mut table = Table::default()
        .wide("Option", Align::Left, 1)
        .column("A at 230\u{a0}V", Align::Decimal)
        .column("supply", Align::Left)
        .column("battery days", Align::Decimal)
        .column("fan: room’s air /h", Align::Decimal);
    let mut any = false;
    for stage in Stage::all(comparison) {
        stage.head(&mut table, comparison);
        for (at, option) in stage.comparison.options.iter().enumerate() {
            if option.supply.is_none() && option.room_volumes_per_h.is_none() {
                continue;
            }
            any = true;
            let mut cells = vec![name(at, option)];
            cells.extend(of_supply(option.supply.as_ref(), reasons));
            let fan = option.room_volumes_per_h.as_ref();
            cells.push(fan.map_or_else(
                || NONE.to_owned(),
                |volumes| reasons.or(volumes, |volumes| Kind::AirChanges.number(*volumes)),
            ));
            table.row(cells);
        }
    }
    any.then_some(table)
}

/// What has to be bought, in money.
pub(crate) fn to_buy(to_buy: &ToBuy, reasons: &mut Reasons) -> String {
    match to_buy {
        ToBuy::Nothing => NONE.to_owned(),
        ToBuy::Owned => "owned".to_owned(),
        ToBuy::Costs(price) => reasons.or(price, |price| money_round(*price)),
    }
}

/// What the shares of the season are shares of, in a sentence.
pub(crate) fn shares(comparison: &Comparison) -> &'static str {
    match comparison.shares {
        Shares::WeatherCases => "The season is the weather cases together, each by its share.",
        Shares::Winter => "The season is the winter hour by hour, not the weather cases.",
    }
}

/// What the costs of a month and of a winter hold, in a sentence about them.
pub(crate) fn running_costs(comparison: &Comparison, these: &str) -> String {
    let days = match comparison.shares {
        Shares::WeatherCases => format!("; a winter is {WINTER_DAYS} days from November [A]"),
        Shares::Winter => String::new(),
    };
    format!("{these}: power, fuel and upkeep{days}.")
}

/// Current, what gives it, and days on the batteries.
fn of_supply(supply: Option<&Answer<Supply>>, reasons: &mut Reasons) -> [String; 3] {
    let none = || NONE.to_owned();
    match supply {
        None => [none(), none(), none()],
        Some(Err(unknown)) => [reasons.mark(unknown), none(), none()],
        Some(Ok(supply)) => {
            let gives = match (supply.within_own, supply.within_10_a, supply.within_16_a) {
                (Some(false), _, _) => "more than yours",
                (_, true, _) => "10\u{a0}A will do",
                (_, false, true) => "needs 16\u{a0}A",
                (_, false, false) => "over 16\u{a0}A",
            };
            [
                Kind::Amperes.number(supply.current_a),
                gives.to_owned(),
                supply
                    .battery_days
                    .map_or_else(none, |days| Kind::Days.number(days)),
            ]
        }
    }
}

/// The states of air in one weather case: outside, and what each option brings.
#[cfg(feature = "window")]
pub(crate) fn states(comparison: &Comparison, case: usize) -> Table {
    let mut table = Table::default()
        .wide("state", Align::Left, 1)
        .column("°C", Align::Decimal)
        .column("RH %", Align::Decimal)
        .column("water, g/kg", Align::Decimal)
        .column("dew point °C", Align::Decimal);
    let mut row = |name: String, air: &MoistAir| {
        table.row([
            name,
            Kind::Celsius.number(air.t_c),
            Kind::RelativeHumidity.number(air.relative_humidity().min(1.0)),
            Kind::GramsPerKilogram.number(air.humidity_ratio),
            dew_point(air.dew_point_c()),
        ]);
    };
    if let Some(Ok(outside)) = comparison.cases.get(case).map(|case| &case.outside) {
        row("outside".to_owned(), outside);
    }
    for (at, option) in comparison.options.iter().enumerate() {
        if let Ok(state) = comparison.state(at, case) {
            row(name(at, option), &state.inside);
        }
    }
    table
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assess::compare;
    use crate::report::RowKind;
    use crate::survey::file;

    fn caravan() -> Survey {
        let text = include_str!("../../../sample-surveys/farmyard-caravan.ron");
        file::parse(text).expect("a sample")
    }

    #[test]
    fn each_option_has_a_row_in_every_weather_told_of_with_its_working() {
        let comparison = compare(&caravan()).expect("a comparison");
        let table = in_weather("EUR", &comparison, &mut Reasons::default());
        let rows = || table.rows.iter().filter(|row| row.kind == RowKind::Plain);
        let windiest = comparison.windiest;
        let all = comparison.cases.len() * comparison.options.len();
        assert!(comparison.cases.len() == 3 && rows().count() == all);
        for (row, at) in rows().zip(0..comparison.options.len()) {
            let id = comparison.cases[0].id;
            let topic = Topic::Drying(DryingTopic::Option(at, id));
            assert_eq!(row.topic, Some(topic));
        }
        let windy = rows()
            .nth(windiest * comparison.options.len())
            .expect("a row");
        let state = comparison.state(0, windiest).expect("known");
        assert_eq!(windy.cells[1], Kind::Celsius.number(state.inside.t_c));
        assert_eq!(windy.cells[2], Kind::RelativeHumidity.number(state.rh));
    }

    #[test]
    fn what_is_burnt_is_told_with_its_fuel() {
        let energy = |gas_kg_per_day, liquid_fuel_l_per_day| Energy {
            electric_w: 0.0,
            kwh_per_day: 0.0,
            gas_kg_per_day,
            liquid_fuel_l_per_day,
            cost_per_day: Ok(0.0),
            cost_per_month: Ok(0.0),
        };
        assert_eq!(a_day(&energy(0.314, 0.0)), "gas 0.31\u{a0}kg");
        assert_eq!(a_day(&energy(0.0, 1.26)), "fuel 1.3\u{a0}L");
        assert_eq!(a_day(&energy(0.0, 0.0)), NONE);
    }
}
