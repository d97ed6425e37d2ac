//! What the air change depends on: wind, warmth, pressure coefficients, parking, doors inside.

use super::Material;
use super::blocks::{Align, Block, Reasons, Section, Table};
use super::direction::{off_the_front, side};
use crate::assess::quantity::Kind;
use crate::assess::spaces::{ClosingCase, ClosingEffect};
use crate::assess::words::{capital, compass, figure, given, pressure_set, underside};
use crate::assess::{Answer, CaseAnswer, NotKnown, Parking};
use crate::assess::{TemperatureCurve, WindChoice, WindChoices, WindCurve};
use crate::survey::Survey;

/// A section that says no more than why it is not known.
fn unknown(title: &str, why: &NotKnown) -> Section {
    let mut section = Section::new(title);
    section.paragraph(capital(&format!("{why}.")));
    section
}

/// A table with a column of air changes for each weather case.
fn by_case<'a>(front: &str, cases: impl Iterator<Item = &'a String>) -> Table {
    let table = Table::default().wide(front, Align::Left, 1);
    cases.fold(table, |table, name| {
        table.column(format!("{name}, /h"), Align::Decimal)
    })
}

/// All of it, part by part.
#[must_use]
pub fn section(told: &Material<'_>) -> Section {
    let (survey, study) = (told.survey, told.study);
    let mut section = Section::new("What the air change depends on");
    section
        .append(by_direction(told))
        .append(by_speed(study.wind_curve()))
        .append(by_warmth(study.temperature_curves()))
        .append(wind_choices(survey, study.wind_choices()))
        .append(parked(study.parking()))
        .append(doors_inside(survey, study.closing_effects()));
    section
}

/// Air changes in each wind direction.
#[must_use]
pub fn by_direction(told: &Material<'_>) -> Section {
    let mut section = Section::new("Air changes by wind direction");
    let cases: Vec<&CaseAnswer> = told.assessment.cases.iter().collect();
    let directions = cases.iter().find_map(|case| case.air.as_ref().ok());
    let Some(air) = directions else {
        return section;
    };
    let mut reasons = Reasons::default();
    let names = cases.iter().map(|case| &case.name);
    let mut table = by_case("Wind from, off the front", names);
    for (at, direction) in air.directions.iter().enumerate() {
        let mut cells = vec![off_the_front(direction.from_front_deg)];
        for case in &cases {
            let air = case.air.as_ref().map_err(Clone::clone);
            let ach = air.and_then(|air| match air.directions.get(at) {
                Some(direction) => direction.ach_per_h.clone(),
                None => Err(NotKnown::because("no wind direction was worked out")),
            });
            cells.push(reasons.or(&ach, |ach| figure(*ach, 3)));
        }
        table.row(cells);
    }
    section.table(table, &reasons);
    section
}

/// Air changes against the speed of the wind.
#[must_use]
pub fn by_speed(curve: &Answer<WindCurve>) -> Section {
    let title = "Air changes by wind speed";
    let curve = match curve {
        Ok(curve) => curve,
        Err(why) => return unknown(title, why),
    };
    let mut section = Section::new(title);
    let mut table = Table::default()
        .wide("Wind at a weather station, m/s", Align::Left, 1)
        .column("Lowest, /h", Align::Decimal)
        .column("Mean, /h", Align::Decimal)
        .column("Highest, /h", Align::Decimal);
    for point in &curve.points {
        let changes = [point.lowest_per_h, point.mean_per_h, point.highest_per_h];
        let cells = changes.map(|ach| figure(ach, 3));
        table.row([given(point.wind_m_s)].into_iter().chain(cells));
    }
    section.push(Block::Table { table });
    section.note(format!(
        "With outside {} and inside {}, over all wind directions.",
        Kind::Celsius.text(curve.outside_c),
        Kind::Celsius.text(curve.inside_c)
    ));
    section
}

/// Air changes against how much warmer it is inside.
#[must_use]
pub fn by_warmth(curves: &Answer<Vec<TemperatureCurve>>) -> Section {
    let title = "Air changes by warmth inside";
    let curves = match curves {
        Ok(curves) => curves,
        Err(why) => return unknown(title, why),
    };
    let mut section = Section::new(title);
    let Some(first) = curves.first() else {
        return section;
    };
    let names = curves.iter().map(|curve| &curve.name);
    let mut table = by_case("Inside warmer by, K", names);
    for (at, (kelvin, _)) in first.points.iter().enumerate() {
        let mut cells = vec![given(*kelvin)];
        let points = curves.iter().map(|curve| curve.points.get(at));
        cells
            .extend(points.map(|point| point.map_or_else(String::new, |(_, ach)| figure(*ach, 3))));
        table.row(cells);
    }
    section.push(Block::Table { table });
    section.note(
        "In the wind and the outside air of each weather case, mean over all wind directions. \
         Warmth alone moves more air the taller the body and the further apart its gaps.",
    );
    section
}

/// Mean air change of each weather case by every set of pressure coefficients, and by every way the
/// space under the floor may stand to the wind.
#[must_use]
pub fn wind_choices(survey: &Survey, choices: &WindChoices) -> Section {
    let mut section = Section::new("Choice of pressure coefficients");
    let set = |choice: &WindChoice| pressure_set(choice.set).to_owned();
    side_by_side(&mut section, survey, ("Walls and roof", &choices.sets), set);
    section.note(
        "None of the sets was measured on a parked vehicle: how far they lie apart says how much \
         depends on the choice.",
    );
    let under = |choice: &WindChoice| {
        let place = if choice.by_place {
            ", by the place of each gap"
        } else {
            ""
        };
        format!("{}{place}", capital(underside(choice.underside)))
    };
    side_by_side(
        &mut section,
        survey,
        ("Under the floor", &choices.undersides),
        under,
    );
    section.note(
        "Under an open floor the wind's suction was computed by this project [N] and not validated \
         against any measurement there; closed on one side it is assumed to be none [A].",
    );
    section
}

/// A table of choices; each that the survey does not make is set against the one it makes.
fn side_by_side(
    section: &mut Section,
    survey: &Survey,
    (title, choices): (&str, &[WindChoice]),
    words: impl Fn(&WindChoice) -> String,
) {
    let mut reasons = Reasons::default();
    let names = survey.weather.iter().map(|case| &case.name);
    let mut table = by_case(title, names);
    let chosen = choices.iter().find(|choice| choice.chosen);
    for choice in choices {
        let mark = if choice.chosen { ", chosen" } else { "" };
        let mut cells = vec![format!("{}{mark}", words(choice))];
        for (at, ach) in choice.mean_ach_per_h.iter().enumerate() {
            let was = chosen.and_then(|chosen| chosen.mean_ach_per_h.get(at));
            cells.push(reasons.or(ach, |ach| {
                let number = Kind::AirChanges.number(*ach);
                match was {
                    Some(Ok(was)) if !choice.chosen => format!("{number} ({})", change(*ach, *was)),
                    _ => number,
                }
            }));
        }
        table.row(cells);
    }
    section.table(table, &reasons);
}

/// By how many percent a figure is more or less: `+12 %`.
fn change(now: f64, was: f64) -> String {
    if was <= 0.0 {
        return "–".to_owned();
    }
    let percent = (now / was - 1.0) * 100.0;
    let sign = if percent < 0.0 { "−" } else { "+" };
    format!("{sign}{:.0}\u{a0}%", percent.abs())
}

/// The best and the worst way to park for a wind that mostly comes from one side.
#[must_use]
pub fn parked(parking: &Answer<Parking>) -> Section {
    let title = "Parked for the prevailing wind";
    let parking = match parking {
        Ok(parking) => parking,
        Err(why) => return unknown(title, why),
    };
    let mut section = Section::new(title);
    section.paragraph(format!("{}.", capital(&parking.sentence)));
    let mut rows = vec![("Best", parking.best), ("Worst", parking.worst)];
    rows.extend(parking.now.map(|now| ("As it stands", now)));
    let mut table = Table::default()
        .column("", Align::Left)
        .column("Front towards", Align::Left)
        .column("Air changes, /h", Align::Decimal)
        .wide("Wind meets", Align::Left, 1);
    for (words, (heading, ach)) in rows {
        let from_front = (parking.wind_from_deg - heading).rem_euclid(360.0);
        table.row([
            words.to_owned(),
            compass(heading),
            Kind::AirChanges.number(ach),
            side(from_front),
        ]);
    }
    section.push(Block::Table { table });
    section.note(format!("In “{}”, the case with most wind.", parking.case));
    section
}

/// What surprises whoever closes a door inside.
pub const MAY_RAISE: &str =
    "Closing an inner opening may also raise the outside air that comes in: then it says so.";

/// What closing each inner opening does.
#[must_use]
pub fn doors_inside(survey: &Survey, effects: &[ClosingEffect]) -> Section {
    let mut section = Section::new("Doors and curtains inside");
    for effect in effects {
        section
            .heading(opening_name(effect))
            .points(closing(survey, effect));
    }
    if effects.is_empty() {
        section.paragraph("No door or curtain inside that can be closed is recorded.");
    } else {
        section.note(MAY_RAISE);
    }
    section
}

/// The name of an inner opening.
#[must_use]
pub fn opening_name(effect: &ClosingEffect) -> String {
    match effect.name.trim() {
        "" => format!("inner opening {}", effect.id),
        name => name.to_owned(),
    }
}

/// What closing one inner opening does in each weather case.
#[must_use]
pub fn closing(survey: &Survey, effect: &ClosingEffect) -> Vec<String> {
    let cases = effect.cases.iter().zip(&survey.weather);
    cases
        .map(|(case, recorded)| format!("{}: {}", recorded.name, closing_words(case)))
        .collect()
}

fn closing_words(case: &ClosingCase) -> String {
    let (open, closed) = match &case.inflow_kg_s {
        Ok(pair) => *pair,
        Err(why) => return why.to_string(),
    };
    let ach = match &case.ach_per_h {
        Ok((open, closed)) => {
            let [open, closed] = [open, closed].map(|ach| Kind::AirChanges.text(*ach));
            format!(", {open} open, {closed} closed")
        }
        Err(_) => String::new(),
    };
    if open <= 0.0 {
        return format!("no air comes in{ach}");
    }
    let share = (closed / open - 1.0) * 100.0;
    if share.abs() < 0.5 {
        format!("closing it makes hardly any difference{ach}")
    } else if share < 0.0 {
        format!(
            "closing it saves {}\u{a0}% of the outside air that comes in{ach}",
            figure(-share, 2)
        )
    } else {
        format!(
            "closing it raises the outside air that comes in by {}\u{a0}%{ach}",
            figure(share, 2)
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::WeatherId;

    #[test]
    fn closing_that_raises_the_air_says_so() {
        let case = |open: f64, closed: f64| ClosingCase {
            id: WeatherId(1),
            inflow_kg_s: Ok((open, closed)),
            ach_per_h: Ok((open * 100.0, closed * 100.0)),
        };
        let words = |open, closed| closing_words(&case(open, closed));
        assert!(words(0.01, 0.008).starts_with("closing it saves 20\u{a0}% of"));
        assert!(
            words(0.01, 0.011)
                .starts_with("closing it raises the outside air that comes in by 10\u{a0}%")
        );
        assert!(words(0.01, 0.010_01).starts_with("closing it makes hardly any difference"));
        assert!(words(0.0, 0.0).starts_with("no air comes in"));
    }
}
