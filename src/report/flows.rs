//! Air through each gap, each face and between the spaces, in one wind direction.

use super::blocks::{Align, Block, Section, Table};
use super::direction;
use crate::assess::quantity::Kind;
use crate::assess::{CaseAir, DirectionAnswer, GapAirFlow, face_totals};
use crate::physics::units::SECONDS_PER_HOUR;
use crate::survey::{Gap, Survey};

/// Headings of [`gap`].
pub const HEADS: [&str; 6] = [
    "No.",
    "Gap",
    "Facing",
    "in, kg/h",
    "out, kg/h",
    "of the inflow",
];

/// What a picture of the flows shows: how much comes in, and through which gap most of it.
#[must_use]
pub fn sentence(survey: &Survey, case: &str, shown: &DirectionAnswer) -> String {
    let from = direction::words(shown);
    let all = kg_per_h(shown.inflow_kg_s);
    let flows = shown
        .flows
        .iter()
        .map(|flow| flow.map_or(0.0, |flow| flow.in_kg_s));
    let most = survey
        .gaps
        .iter()
        .zip(flows)
        .max_by(|a, b| a.1.total_cmp(&b.1));
    let through = most.filter(|(_, flow)| *flow > 0.0).map(|(gap, flow)| {
        let share = Kind::Share.text(flow / shown.inflow_kg_s.max(flow));
        let name = gap.shown_name();
        format!(", the largest part, {share}, through gap {} {name}", gap.id)
    });
    format!(
        "In \u{201c}{case}\u{201d} with wind from {from}, {all} of air come in{}.",
        through.unwrap_or_default()
    )
}

/// One gap as a line of a table: number, name, facing, air in and out, share of all inflow.
#[must_use]
pub fn gap(gap: &Gap, flow: Option<GapAirFlow>, inflow_kg_s: f64) -> [String; 6] {
    let [air_in, out, share] = match flow {
        None => ["–", "–", "–"].map(str::to_owned),
        Some(flow) => [
            decimals(flow.in_kg_s * SECONDS_PER_HOUR, 2),
            decimals(flow.out_kg_s * SECONDS_PER_HOUR, 2),
            if inflow_kg_s > 0.0 {
                Kind::Share.with_unit(&decimals(100.0 * flow.in_kg_s / inflow_kg_s, 1))
            } else {
                "–".to_owned()
            },
        ],
    };
    let (name, facing) = (gap.shown_name().to_owned(), gap.facing.name().to_owned());
    [gap.id.to_string(), name, facing, air_in, out, share]
}

/// The same in a sentence.
#[must_use]
pub fn gap_words(gap: &Gap, flow: Option<GapAirFlow>) -> String {
    let words = match flow {
        Some(flow) => format!(
            "in {}, out {}",
            kg_per_h(flow.in_kg_s),
            kg_per_h(flow.out_kg_s)
        ),
        None => "in no balance".to_owned(),
    };
    format!("{} {}: {words}", gap.id, gap.shown_name())
}

/// With so many decimals, for a column whose points stand under each other; what is there and
/// too small to show is never shown as nothing.
fn decimals(value: f64, places: usize) -> String {
    let text = format!("{value:.places$}");
    if value <= 0.0 {
        "0".to_owned()
    } else if text.contains(|sign| ('1'..='9').contains(&sign)) {
        text
    } else {
        format!("< 0.{:0>places$}", 1)
    }
}

fn kg_per_h(kg_s: f64) -> String {
    Kind::KilogramsPerHour.text(kg_s * SECONDS_PER_HOUR)
}

/// The whole of the direction.
#[must_use]
pub fn balance(air: &CaseAir, direction: &DirectionAnswer) -> Section {
    let mut section = Section::new("Balance of air");
    let ach = match &direction.ach_per_h {
        Ok(ach) => Kind::AirChanges.text(*ach),
        Err(why) => format!("air changes {why}"),
    };
    section.paragraph(format!(
        "{ach}; in {}, out {}; inside pressure {}",
        kg_per_h(direction.inflow_kg_s),
        kg_per_h(direction.outflow_kg_s),
        Kind::Pascals.text(direction.inside_pressure),
    ));
    if direction.one_sided {
        section.note(
            "Gusts through the openings of one face exchange more air than the steady balance: \
             their inflow is the one that counts here.",
        );
    }
    section.note(format!(
        "1 kg of outside air is {}, of inside air {}. A tall gap may let air in low and out high \
         at once.",
        Kind::CubicMetres.text(1.0 / air.outside.density()),
        Kind::CubicMetres.text(1.0 / air.inside.density())
    ));
    section
}

/// Air in and out by face, and between the spaces inside.
#[must_use]
pub fn faces(survey: &Survey, direction: &DirectionAnswer) -> Section {
    let mut section = Section::new("Air by face");
    let mut table = Table::default()
        .wide("Through all gaps of", Align::Left, 1)
        .column("in, kg/h", Align::Decimal)
        .column("out, kg/h", Align::Decimal);
    for total in face_totals(survey, direction) {
        let [air_in, out] = [total.in_kg_s, total.out_kg_s].map(flow);
        table.row([total.facing.name().to_owned(), air_in, out]);
    }
    section.push(Block::Table { table });
    if direction.inner_flows.is_empty() && direction.space_pressures.len() < 2 {
        return section;
    }
    for (opening, flows) in survey.inner_openings.iter().zip(&direction.inner_flows) {
        let [from, to] = [opening.from, opening.to].map(|space| survey.space_name(space));
        let name = match opening.name.trim() {
            "" => format!("inner opening {}", opening.id),
            name => name.to_owned(),
        };
        section.paragraph(format!(
            "{name}: {from} → {to} {} kg/h, back {} kg/h",
            flow(flows.forward_kg_s),
            flow(flows.back_kg_s)
        ));
    }
    let pressures: Vec<String> = survey
        .spaces
        .iter()
        .zip(&direction.space_pressures)
        .map(|(space, pressure)| {
            let name = survey.space_name(space.id);
            format!("{name} {}", Kind::Pascals.text(*pressure))
        })
        .collect();
    if !pressures.is_empty() {
        section.note(format!("Pressure at mid-height: {}.", pressures.join(", ")));
    }
    section
}

fn flow(kg_s: f64) -> String {
    let per_h = kg_s * SECONDS_PER_HOUR;
    if per_h <= 0.0 {
        "0".to_owned()
    } else if per_h < 0.01 {
        "< 0.01".to_owned()
    } else {
        Kind::KilogramsPerHour.number(per_h)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::{Facing, Form, GapId, ZoneId};

    #[test]
    fn what_is_too_small_to_show_is_not_shown_as_nothing() {
        assert_eq!(decimals(0.0, 2), "0");
        assert_eq!(decimals(0.004, 2), "< 0.01");
        assert_eq!(decimals(0.04, 1), "< 0.1");
        assert_eq!(decimals(0.006, 2), "0.01");
        assert_eq!(decimals(12.345, 1), "12.3");
    }

    #[test]
    fn a_gap_in_no_balance_shows_a_dash_and_never_zero() {
        let form = Form::RoundHole {
            diameter_mm: Some(20.0),
        };
        let hole = Gap::new(GapId(7), ZoneId(1), Facing::Front, form);
        let cells = gap(&hole, None, 0.01);
        assert_eq!(cells[0], "7");
        assert_eq!(&cells[3..], ["–", "–", "–"]);
        let flow = GapAirFlow {
            in_kg_s: 0.005,
            out_kg_s: 0.0,
        };
        let cells = gap(&hole, Some(flow), 0.01);
        assert_eq!(&cells[3..], ["18.00", "0", "50.0\u{a0}%"]);
    }
}
