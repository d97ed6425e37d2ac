//! What sealing each gap by itself saves, and what the money buys.

use super::{cost, heed, in_currency, numbered, of_prices, suggested};
use crate::assess::quantity::Kind;
use crate::assess::sealing::{Aim, Figures, MOST_WINTERS, Order, Payback, Ranked};
use crate::assess::words::facing;
use crate::assess::{Answer, Topic};
use crate::report::words::{minutes, name};
use crate::report::{Align, Reasons, Section, Table};
use crate::survey::{GapId, Item, Survey};

/// A column of figures: its heading, and its cell for a gap.
struct Column {
    head: String,
    cell: fn(&Ranked) -> Answer<String>,
}

fn columns(survey: &Survey) -> Vec<Column> {
    let currency = survey.tariffs.currency.trim();
    let column = |head: String, cell| Column { head, cell };
    vec![
        column("Saves\n/h".to_owned(), |one| saves(one, Aim::AchWindy)),
        column("Saves\nL/day".to_owned(), |one| saves(one, Aim::Water)),
        column("Saves\nW".to_owned(), |one| saves(one, Aim::Heat)),
        column(format!("Saves\n{currency}/winter"), |one| {
            saves(one, Aim::WinterCost)
        }),
        column(in_currency("Cost", currency), |one| {
            one.sealable.cost().map(|all| cost(&all))
        }),
        column("Minutes".to_owned(), |one| {
            one.sealable.cost().map(|cost| minutes(cost.minutes))
        }),
        column("Pays back,\nwinters".to_owned(), |one| {
            one.payback.clone().map(|payback| match payback {
                Payback::Winters(winters) => Kind::Winters.number(winters),
                Payback::NeverByHeatAlone => "never".to_owned(),
            })
        }),
    ]
}

fn saves(one: &Ranked, aim: Aim) -> Answer<String> {
    aim.kind().of(one.saves.of(aim)).number()
}

/// Every gap that may be sealed, the greatest saving first. The first column is for a tick.
pub(crate) fn ranking(survey: &Survey, aim: Aim, ranked: &[Ranked]) -> Section {
    let mut section = Section::new("What sealing each gap saves");
    if ranked.is_empty() {
        return section.ending("There is no gap that may be sealed.");
    }
    section.topic = Some(Topic::Ranking);
    section.paragraph(format!(
        "Ranked by {}: the air was worked out again with each gap sealed, and no other. Sealing one gap \
         shifts air to others, so that savings do not add up; a plan says what its gaps save together.",
        aim.name()
    ));
    let (known, unknown): (Vec<Column>, Vec<Column>) = columns(survey)
        .into_iter()
        .partition(|column| ranked.iter().any(|one| (column.cell)(one).is_ok()));
    let mut table = Table::default()
        .column("Plan", Align::Tick)
        .column("Gap", Align::Right)
        .wide("What and where", Align::Left, 3)
        .wide("How", Align::Left, 2);
    for column in &known {
        table = table.column(&column.head, Align::Decimal);
    }
    let mut reasons = Reasons::default();
    for one in ranked {
        let id = one.sealable.gap();
        let kind = one.sealable.remedy().kind;
        let mut cells = vec![
            String::new(),
            id.to_string(),
            named(survey, id),
            format!("{}{}", kind.name(), suggested(&one.sealable)),
        ];
        let figures = known.iter().map(|column| (column.cell)(one));
        cells.extend(figures.map(|figure| reasons.or(&figure, String::clone)));
        table.row(cells).about(Item::Gap(id));
    }
    section.table(table, &reasons);
    section.note(
        "Saves: air changes with most wind; water and heat in the season, at the set temperature, mean over \
         the weather cases by their weights.",
    );
    if ranked
        .iter()
        .any(|one| one.payback == Ok(Payback::NeverByHeatAlone))
    {
        section.note(format!(
            "never: by heat alone it does not pay for itself within {}.",
            Kind::Winters.typed(MOST_WINTERS)
        ));
    }
    let sealables = || ranked.iter().map(|one| &one.sealable);
    heed(&mut section, sealables());
    for column in unknown {
        if let Some(Err(why)) = ranked.first().map(column.cell) {
            let head = column.head.replace('\n', " ");
            section.note(format!("{head}: not known: {}.", why.reason));
        }
    }
    of_prices(&mut section, sealables());
    section
}

/// A gap's name, and the face it is in.
fn named(survey: &Survey, id: GapId) -> String {
    survey.gap(id).map_or_else(String::new, |gap| {
        format!("{}\n{}", name(gap), facing(gap.facing))
    })
}

/// What the money buys, step by step.
pub(crate) fn order(survey: &Survey, aim: Aim, order: &Order) -> Section {
    let mut section = Section::new("What the money buys");
    if order.steps.is_empty() {
        return section.ending("No gap with a known cost would save anything.");
    }
    section.paragraph(format!(
        "At each step the gap that saves most for its cost ({}), given what is sealed by then. For a \
         given sum the best set may be another.",
        aim.name()
    ));
    let mut reasons = Reasons::default();
    let mut table = Table::default()
        .column("", Align::Right)
        .wide("Then seal", Align::Left, 1)
        .column(
            in_currency("Spent", &survey.tariffs.currency),
            Align::Decimal,
        )
        .column("Air changes, /h\nleast wind", Align::Decimal)
        .column("Air changes, /h\nmost wind", Align::Decimal)
        .column("Water,\nL/day", Align::Decimal)
        .column("Heat,\nW", Align::Decimal);
    table.row(step("0", "as it stands", 0.0, &order.before, &mut reasons));
    for (number, one) in (1..).zip(&order.steps) {
        let id = one.sealable.gap();
        let (number, words) = (number.to_string(), numbered(survey, id));
        let cells = step(&number, &words, one.spent, &one.after, &mut reasons);
        table.row(cells).about(Item::Gap(id));
    }
    section.table(table, &reasons);
    section
}

fn step(
    number: &str,
    words: &str,
    spent: f64,
    figures: &Figures,
    reasons: &mut Reasons,
) -> [String; 7] {
    let mut said = |kind: Kind, value: &Answer<f64>| reasons.number(&kind.of(value.clone()));
    [
        number.to_owned(),
        words.to_owned(),
        Kind::Money.number(spent),
        said(Kind::AirChanges, &figures.ach_calm_per_h),
        said(Kind::AirChanges, &figures.ach_windy_per_h),
        said(Kind::LitresPerDay, &figures.removal_l_per_day),
        said(Kind::Watts, &Ok(figures.air_heat_w)),
    ]
}
