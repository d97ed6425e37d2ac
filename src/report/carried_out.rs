//! An order that was carried out, told again: what of it is done, and what only its date could tell.

use super::blocks::{Block, Section};
use crate::assess::Answer;
use crate::assess::sealing::{Chosen, Work};
use crate::assess::words::capital;
use crate::survey::number::gaps;
use crate::survey::{Gap, Survey, WorkState, date};
use std::collections::BTreeMap;

/// What is said of a gap that was sealed on no day that anybody gave.
const NO_DAY: &str = "no day given";

/// What of an order is done already, for who prints it anew; empty where nothing is. `now` is the survey
/// as it is.
pub(crate) fn section(now: &Survey, work: &Answer<Work>) -> Section {
    // What may be missing from the order is told before anything of it is done too.
    let mut section = Section::new(match now.as_ordered() {
        Some(_) => "Done already",
        None => "Before this goes to the workshop",
    });
    let told_again = work
        .as_ref()
        .is_ok_and(|work| work.chosen == Chosen::Planned);
    if !told_again {
        return section;
    }
    let doubt = left_out(now).or_else(|| which_order(now, "among these steps"));
    section.blocks.extend(doubt);
    if now.as_ordered().is_some() {
        section.paragraph(format!(
            "Sealed since the order was placed, and shown below as ordered: {}.",
            which_when(now)
        ));
    }
    section
}

/// What is to be said before a quotation of such work goes out.
pub(crate) fn before_it_goes_out(now: &Survey, work: &Work) -> Vec<Block> {
    if work.chosen != Chosen::Planned {
        return Vec::new();
    }
    let done = now.as_ordered().map(|_| Block::Caution {
        title: "Done already".to_owned(),
        text: format!(
            "Sealed already, and shown below as it was ordered: {}. To offer other work, mark its gaps as planned.",
            which_when(now)
        ),
    });
    let doubt = left_out(now).or_else(|| which_order(now, "in this quotation"));
    done.into_iter().chain(doubt).collect()
}

/// What was sealed as part of the order, and when.
fn which_when(now: &Survey) -> String {
    let days = by_day(now).into_iter().map(|(day, of_it)| match day {
        "" => format!("{}, {NO_DAY}", gaps(&of_it)),
        day => format!("{} on {day}", gaps(&of_it)),
    });
    let days: Vec<String> = days.collect();
    days.join("; ")
}

/// What was sealed as part of the order, by the days on which it was.
fn by_day(survey: &Survey) -> BTreeMap<&str, Vec<String>> {
    let mut days: BTreeMap<&str, Vec<String>> = BTreeMap::new();
    for gap in in_order(survey) {
        let of_day = days.entry(gap.state_date.trim()).or_default();
        of_day.push(gap.id.to_string());
    }
    days
}

fn in_order(survey: &Survey) -> impl Iterator<Item = &Gap> {
    let gaps = survey.gaps.iter();
    gaps.filter(|gap| survey.sealed_in_order(gap))
}

/// What is sealed and on no order, because none has a date while other gaps are planned.
fn left_out(now: &Survey) -> Option<Block> {
    let planned = now.gaps.iter().any(|gap| gap.state == WorkState::Planned);
    if date::parse(&now.job.order_date).is_some() || !planned {
        return None;
    }
    let sealed: Vec<String> = in_order(now).map(|gap| gap.id.to_string()).collect();
    (!sealed.is_empty()).then(|| {
        caution(format!(
            "Some gaps are planned and others sealed, and no date of the order is given: only the planned ones \
             are here. If {} belong{} to the same order, enter its date.",
            gaps(&sealed),
            if sealed.len() == 1 { "s" } else { "" }
        ))
    })
}

/// What only the date of the order could tell: whether all that is sealed belongs to it. `place` is
/// where the rest would stand too.
pub(crate) fn which_order(survey: &Survey, place: &str) -> Option<Block> {
    if date::parse(&survey.job.order_date).is_some() {
        return None;
    }
    let days = by_day(survey);
    let surveyed = date::parse(&survey.header.date);
    let before = in_order(survey).filter(|gap| {
        let sealed = date::parse(&gap.state_date);
        matches!((sealed, surveyed), (Some(sealed), Some(surveyed)) if sealed < surveyed)
    });
    let before: Vec<String> = before.map(|gap| gap.id.to_string()).collect();
    let why = if days.len() > 1 {
        let days = days.into_keys().map(|day| match day {
            "" => NO_DAY,
            day => day,
        });
        let days: Vec<&str> = days.collect();
        format!("gaps were sealed on several days ({})", days.join(", "))
    } else if before.is_empty() {
        return None;
    } else {
        let were = if before.len() == 1 { "was" } else { "were" };
        let named = gaps(&before);
        format!("{named} {were} sealed before the vehicle was surveyed")
    };
    Some(caution(format!(
        "No date of the order is given, and {why}: work of an earlier order may be {place}. Enter the date of \
         the order."
    )))
}

fn caution(text: String) -> Block {
    Block::Caution {
        title: "Which order?".to_owned(),
        text: capital(&text),
    }
}
