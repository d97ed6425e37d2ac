//! Turns of phrase that several sections share.

use super::blocks::Section;
use crate::assess::NotKnown;
use crate::assess::quantity::Kind;
use crate::assess::words::{facing, given};
use crate::physics::units::MINUTES_PER_HOUR;
use crate::survey::{Facing, Gap, SetUp, Survey};

/// A number with all its digits up to `most` behind the point, and no fewer than `least`, so that
/// what is printed multiplies to what is printed beside it.
pub(crate) fn digits(value: f64, least: usize, most: usize) -> String {
    let mut text = format!("{value:.most$}");
    let point = text.find('.').unwrap_or(text.len());
    while text.len() > point + 1 + least && text.ends_with('0') {
        text.pop();
    }
    text.trim_end_matches('.').to_owned()
}

/// Why something is not told, as a sentence.
pub(crate) fn not_known(unknown: &NotKnown) -> String {
    format!("Not known: {}.", unknown.reason.trim_end_matches('.'))
}

/// The time after which the air is new: `11 minutes`, from two hours on in hours.
pub(crate) fn renewed(ach_per_h: f64) -> String {
    if ach_per_h <= 0.0 {
        return "day or less often".to_owned();
    }
    let minutes = MINUTES_PER_HOUR / ach_per_h;
    if minutes < 2.0 * MINUTES_PER_HOUR {
        Kind::Minutes.text(minutes)
    } else {
        Kind::Hours.text(minutes / MINUTES_PER_HOUR)
    }
}

/// Minutes, with what they were reckoned to.
pub(crate) fn minutes(minutes: f64) -> String {
    digits(minutes, 0, 2)
}

/// Whole minutes, from an hour on as hours and minutes.
pub(crate) fn duration(all: f64) -> String {
    // As printed, so that 59.9 is an hour.
    let all = all.round();
    let hours = (all / 60.0).floor();
    let rest = all - 60.0 * hours;
    if hours < 1.0 {
        return format!("{all:.0}\u{a0}min");
    }
    format!("{hours:.0}\u{a0}h {rest:02.0}\u{a0}min")
}

/// The words for a gap: its name, or what it is.
pub(crate) fn name(gap: &Gap) -> String {
    gap.shown_name().to_owned()
}

/// Letters from which on a note does not fit a column of a table.
const LONG_NOTE: usize = 600;
/// Letters of a long note that stand in the table.
const BEGINNING: usize = 160;

/// A note as it stands in a table: of a long one the beginning.
pub(crate) fn note_in_table(note: &str) -> String {
    let note = note.trim();
    if note.chars().count() < LONG_NOTE {
        return note.to_owned();
    }
    let beginning: String = note.chars().take(BEGINNING).collect();
    let whole_words = beginning.rsplit_once(' ').map_or("", |(words, _)| words);
    let shown = if whole_words.is_empty() {
        &beginning
    } else {
        whole_words
    };
    format!("{shown} … (all of it is below the table)")
}

/// The long notes of some gaps, whole, to stand below their table.
pub(crate) fn long_notes<'a>(section: &mut Section, gaps: impl Iterator<Item = &'a Gap>) {
    let long: Vec<&Gap> = gaps
        .filter(|gap| gap.note.trim().chars().count() >= LONG_NOTE)
        .collect();
    if long.is_empty() {
        return;
    }
    section.heading("Long notes");
    for gap in long {
        section.paragraph(format!(
            "Gap {}, {}: {}",
            gap.id,
            name(gap),
            gap.note.trim()
        ));
    }
}

/// Where a gap is, as far as it was written down: what its face already says is left out.
pub(crate) fn place(gap: &Gap) -> String {
    let position = &gap.position;
    let (side, end, flat) = match gap.facing {
        Facing::Nearside | Facing::Offside => (true, false, false),
        Facing::Front | Facing::Rear => (false, true, false),
        Facing::Roof | Facing::Underfloor => (false, false, true),
        Facing::Cavity(_) => (false, false, false),
    };
    let mut words = vec![facing(gap.facing).to_owned()];
    let mut add = |said: bool, value: Option<f64>, after: &str| {
        if let Some(value) = value.filter(|_| !said) {
            words.push(format!("{}\u{a0}m {after}", given(value)));
        }
    };
    add(end, position.along_m, "from the front");
    add(side, position.across_m, "from the nearside");
    add(flat, position.height_m, "up");
    words.join(", ")
}

/// What doing nothing is called in a sentence: nothing at all, or in use the heat that is wanted and no more.
#[must_use]
pub fn nothing_done(survey: &Survey) -> String {
    match survey.set_up {
        SetUp::LaidUp => "with nothing done".to_owned(),
        SetUp::InUse => format!(
            "heated to {} and nothing else done,",
            Kind::Celsius.typed(survey.targets.comfort_c)
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_note_stands_whole_below_its_table_and_a_short_one_in_it() {
        let short = "Never block. ".repeat(20);
        assert_eq!(note_in_table(&short), short.trim());
        let long = "Never block. ".repeat(90);
        let shown = note_in_table(&long);
        assert!(shown.starts_with("Never block. Never") && shown.chars().count() < 220);
        assert!(shown.contains("block. … (all of it is below") || shown.contains("Never … ("));
        let mut survey = crate::survey::Survey::new(crate::survey::VehicleKind::Other);
        for (id, note) in [(1, &short), (2, &long)] {
            let form = crate::survey::Form::RoundHole { diameter_mm: None };
            let id = crate::survey::GapId(id);
            let mut gap = Gap::new(id, survey.zones[0].id, Facing::Rear, form);
            gap.note.clone_from(note);
            survey.gaps.push(gap);
        }
        let mut section = Section::new("");
        long_notes(&mut section, survey.gaps.iter());
        let text = serde_json::to_string(&section.blocks).expect("JSON");
        assert_eq!(section.blocks.len(), 2);
        assert!(
            text.contains(long.trim()) && text.contains("Gap 2, "),
            "{text}"
        );
    }

    #[test]
    fn times_and_amounts_read_well() {
        assert_eq!(duration(12.2), "12\u{a0}min");
        assert_eq!(duration(258.2), "4\u{a0}h 18\u{a0}min");
        assert_eq!(duration(59.6), "1\u{a0}h 00\u{a0}min");
        assert_eq!(digits(0.1 + 0.2, 0, 3), "0.3");
        assert_eq!(digits(78.0, 2, 4), "78.00");
        assert_eq!(digits(120.0, 0, 2), "120");
        assert_eq!(digits(1.2345, 2, 4), "1.2345");
        assert_eq!(duration(125.0), "2\u{a0}h 05\u{a0}min");
    }
}
