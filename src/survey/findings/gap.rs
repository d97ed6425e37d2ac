//! Findings about the gaps.

use super::vehicle::is_date_or_empty;
use super::{Finder, Finding, Item, Severity, gap_subject};
use crate::survey::Survey;
use crate::survey::gap::{Behind, Facing, Form, Gap, LeadsTo, Purpose, WorkState};

pub(super) fn find(survey: &Survey, findings: &mut Vec<Finding>) {
    if survey.gaps.is_empty() {
        Finder {
            findings,
            item: Item::Ledger,
            subject: String::new(),
        }
        .add(
            Severity::Warning,
            "",
            "no gap has been written down yet, so nothing can be said about leakage",
            "walk round the vehicle and add each gap you see, feel or hear",
        );
    }
    Finder {
        findings,
        item: Item::Ledger,
        subject: String::new(),
    }
    .check(
        "leakage_not_found_percent",
        survey.leakage_not_found_percent,
    );
    for gap in &survey.gaps {
        let subject = gap_subject(gap);
        let mut finder = Finder {
            findings,
            item: Item::Gap(gap.id),
            subject,
        };
        sizes(&mut finder, gap);
        narrow_gap_data(&mut finder, gap);
        place(&mut finder, survey, gap);
        behind(&mut finder, survey, gap);
        purpose(&mut finder, gap);
        work(&mut finder, gap);
        super::photo::marks(&mut finder, gap);
    }
}

/// The sizes of a form by the names of their ranges, those that may stay empty left out.
pub(crate) fn needed_sizes(form: &Form) -> Vec<(&'static str, Option<f64>)> {
    match *form {
        Form::NarrowGap {
            length_mm,
            width_mm,
            depth_mm,
            ..
        } => vec![
            ("gap_length_mm", length_mm),
            ("gap_width_mm", width_mm),
            ("gap_depth_mm", depth_mm),
        ],
        Form::RoundHole { diameter_mm } => vec![("diameter_mm", diameter_mm)],
        Form::RectangularHole {
            width_mm,
            height_mm,
        }
        | Form::Grille {
            width_mm,
            height_mm,
            ..
        } => {
            vec![("gap_width_mm", width_mm), ("gap_height_mm", height_mm)]
        }
        Form::RingGap { hole_mm, pipe_mm } => vec![("hole_mm", hole_mm), ("pipe_mm", pipe_mm)],
        Form::StatedArea { area_mm2, .. } => vec![("area_mm2", area_mm2)],
        Form::FlowTest {
            flow_m3_per_h,
            at_pa,
            ..
        } => {
            vec![("flow_m3_per_h", flow_m3_per_h), ("at_pa", at_pa)]
        }
    }
}

fn sizes(finder: &mut Finder<'_>, gap: &Gap) {
    sizes_in_range(finder, &gap.form, gap.count);
    if let Some((field, words)) = missing(&gap.form) {
        finder.add(
            Severity::Warning,
            field,
            format!("not sized: {words} not given, so it is in no total"),
            "measure it, or estimate it and mark the size as estimated or guessed",
        );
    }
}

/// The first size that is missing, and words for all that are.
pub(super) fn missing(form: &Form) -> Option<(&'static str, String)> {
    let needed = needed_sizes(form);
    let missing = || needed.iter().filter(|(_, value)| value.is_none());
    let words: Vec<&str> = missing()
        .filter_map(|(field, _)| crate::survey::limits::range_of(field))
        .map(|range| range.words)
        .collect();
    let (first, _) = missing().next()?;
    Some((first, words.join(" and ")))
}

/// Errors where a size of a form, or how many there are, cannot be.
pub(super) fn sizes_in_range(finder: &mut Finder<'_>, form: &Form, count: u32) {
    finder.check("count", f64::from(count));
    for (field, value) in needed_sizes(form) {
        finder.check(field, value);
    }
    match *form {
        Form::NarrowGap { bends, .. } => finder.check("bends", f64::from(bends)),
        Form::Grille { free_percent, .. } => finder.check("free_percent", free_percent),
        Form::StatedArea { exponent, .. } | Form::FlowTest { exponent, .. } => {
            finder.check("exponent", exponent);
        }
        Form::RingGap {
            hole_mm: Some(hole),
            pipe_mm: Some(pipe),
        } if pipe >= hole => finder.add(
            Severity::Error,
            "pipe_mm",
            format!("the pipe ({pipe} mm) fills or overfills its hole ({hole} mm)"),
            "measure both diameters again; if nothing is open, remove the gap",
        ),
        _ => {}
    }
}

/// The crack law was fitted to gaps of about 0.4 to 4 mm, 10 to 70 mm deep (Baker, Sharples and
/// Ward 1987 \[M, from memory\]).
fn narrow_gap_data(finder: &mut Finder<'_>, gap: &Gap) {
    let Form::NarrowGap {
        width_mm: Some(width),
        depth_mm: Some(depth),
        ..
    } = gap.form
    else {
        return;
    };
    if !(0.4..=4.0).contains(&width) || !(10.0..=70.0).contains(&depth) {
        finder.add(
            Severity::Note,
            "gap_width_mm",
            format!(
                "{width} mm wide and {depth} mm deep lies outside the measurements behind the narrow-gap law (0.4 to 4 mm wide, 10 to 70 mm deep)"
            ),
            "take its flow as a rougher estimate",
        );
    }
}

fn place(finder: &mut Finder<'_>, survey: &Survey, gap: &Gap) {
    let position = &gap.position;
    finder.check("along_m", position.along_m);
    finder.check("across_m", position.across_m);
    finder.check("height_m", position.height_m);
    finder.check("rise_m", position.rise_m);
    finder.check(
        "cavity_pressure_coefficient",
        gap.cavity_pressure_coefficient,
    );
    if gap.cavity_pressure_coefficient.is_some() && !matches!(gap.facing, Facing::Cavity(_)) {
        finder.add(
            Severity::Warning,
            "cavity_pressure_coefficient",
            "it has a cavity pressure coefficient but opens to no cavity; the coefficient is not used",
            "choose the cavity it opens to, or clear the coefficient",
        );
    }
    if let Some(space) = gap.space
        && !survey.spaces.iter().any(|known| known.id == space)
    {
        finder.add(
            Severity::Error,
            "space",
            format!("it opens into space {space}, which does not exist"),
            "choose one of the spaces listed, or none",
        );
    }
    match position.height_m {
        None => finder.add(
            Severity::Note,
            "height_m",
            "height not given; the usual height of its facing is taken",
            "measure the height of its middle above ground: it decides how warm air drives it",
        ),
        Some(height) => outside_body(finder, survey, height, position.rise_m),
    }
}

fn outside_body(finder: &mut Finder<'_>, survey: &Survey, height: f64, rise: Option<f64>) {
    let half_rise = rise.map_or(0.0, |rise| rise / 2.0);
    if let Some(roof) = survey.vehicle.height_m
        && height + half_rise > roof + 0.3
    {
        finder.add(
            Severity::Warning,
            "height_m",
            format!("its top, {:.2} m, is above the roof, {roof} m", height + half_rise),
            "measure the height of its middle from the ground, and the rise from its lower to its upper end",
        );
    }
    if height - half_rise < 0.0 {
        finder.add(
            Severity::Error,
            "rise_m",
            "it would begin below the ground",
            "give the height of its middle, and the rise from its lower to its upper end",
        );
    }
}

fn behind(finder: &mut Finder<'_>, survey: &Survey, gap: &Gap) {
    match gap.behind {
        None => {}
        Some(Behind::Opening { free_area_mm2 }) => {
            finder.check("free_area_mm2", free_area_mm2);
            if free_area_mm2.is_none() {
                finder.add(
                    Severity::Warning,
                    "free_area_mm2",
                    "not sized: the free area of the opening in front is not given, so it is in no total",
                    "measure the opening in front",
                );
            }
        }
        Some(Behind::Gap(outer)) => match survey.gap(outer) {
            None => finder.add(
                Severity::Error,
                "behind",
                format!("it lies behind gap {outer}, which does not exist"),
                "choose the outer gap again",
            ),
            Some(outer) if outer.id == gap.id => finder.add(
                Severity::Error,
                "behind",
                "it cannot lie behind itself",
                "choose another gap, or none",
            ),
            Some(outer) if outer.leads_to == LeadsTo::LivingSpace => finder.add(
                Severity::Error,
                "behind",
                format!(
                    "it lies behind gap {}, which leads into the living space, so its air would be counted twice",
                    outer.id
                ),
                "let the outer gap lead to a compartment, or this one lie behind nothing",
            ),
            Some(outer) if outer.behind.is_some() => finder.add(
                Severity::Error,
                "behind",
                format!("gap {} in front of it lies behind another opening itself", outer.id),
                "only two openings in a row can be worked out: combine two of them",
            ),
            Some(_) => {}
        },
    }
    if gap.leads_to == LeadsTo::Compartment && gap.behind.is_some() {
        finder.add(
            Severity::Error,
            "leads_to",
            "an outer opening of a compartment cannot itself lie behind another opening",
            "let it lie behind nothing",
        );
    }
}

fn purpose(finder: &mut Finder<'_>, gap: &Gap) {
    if let Some(closing) = gap.closing {
        finder.check("leaves_percent", closing.leaves_percent);
        if gap.purpose.must_stay_open() {
            finder.add(
                Severity::Danger,
                "purpose",
                format!("{} that can be closed protects nobody", gap.purpose.name()),
                "make sure it cannot be closed; follow the local code and have a licensed fitter check it",
            );
        }
    }
    if gap.purpose.must_stay_open() {
        protected_state(finder, gap);
    }
    if gap.purpose == Purpose::UserVentilation && gap.closing.is_none() {
        finder.add(
            Severity::Note,
            "closing",
            "user ventilation without word on how it stands; it is taken as always open",
            "say whether it stands open when laid up and when in use",
        );
    }
}

/// An opening that protects people is neither sealed nor planned to be.
fn protected_state(finder: &mut Finder<'_>, gap: &Gap) {
    let purpose = gap.purpose.name();
    match gap.state {
        WorkState::Sealed => finder.add(
            Severity::Danger,
            "state",
            format!("{purpose} is marked sealed: it must stay open"),
            "open it again at once; have a licensed fitter check gas and ventilation",
        ),
        WorkState::Planned => finder.add(
            Severity::Danger,
            "state",
            format!("{purpose} is marked planned but must stay open: do not close it"),
            "take the mark off it",
        ),
        _ => {}
    }
}

/// Wood moisture from which a reading counts as damp, % (common practice, no source).
const DAMP_FROM_PERCENT: f64 = 15.0;

/// Whether a damp reading, in percent or words, speaks of damp. Words that do not plainly say
/// that it is dry are taken as damp: better one look too many.
///
/// ```
/// use gapledger::survey::findings::is_damp;
/// assert!(is_damp("22 %") && is_damp("soft to the thumb"));
/// assert!(!is_damp("") && !is_damp("dry") && !is_damp("11,5 %"));
/// ```
#[must_use]
pub fn is_damp(reading: &str) -> bool {
    let words = reading.trim().to_lowercase();
    let number: String = words
        .chars()
        .take_while(|c| c.is_ascii_digit() || matches!(c, '.' | ','))
        .map(|c| if c == ',' { '.' } else { c })
        .collect();
    match number.parse::<f64>() {
        Ok(percent) => percent >= DAMP_FROM_PERCENT,
        Err(_) => !matches!(words.as_str(), "" | "dry" | "no" | "none" | "-"),
    }
}

fn work(finder: &mut Finder<'_>, gap: &Gap) {
    if let Some(remedy) = &gap.remedy {
        finder.check("leak_left_percent", remedy.leak_left_percent);
        finder.check("material_cost", remedy.material_cost);
        finder.check("minutes", remedy.minutes);
    }
    let left = gap
        .remedy
        .as_ref()
        .and_then(|remedy| remedy.leak_left_percent);
    if gap.state == WorkState::Sealed && left.is_none() {
        finder.add(
            Severity::Warning,
            "leak_left_percent",
            "it is marked sealed without saying what share of the leak remains, so it is in no total",
            "enter the share that remains; 10 % is a cautious guess for a strip or sealant",
        );
    }
    if !is_date_or_empty(&gap.state_date) {
        finder.add(
            Severity::Warning,
            "state_date",
            format!("the date \u{201c}{}\u{201d} is not a date", gap.state_date),
            "write it as year-month-day, for example 2026-01-31",
        );
    }
    if is_damp(&gap.damp) {
        let severity = if gap.state == WorkState::Open {
            Severity::Note
        } else {
            Severity::Warning
        };
        finder.add(
            severity,
            "damp",
            format!("there is a damp reading beside it ({})", gap.damp),
            "find and mend the water leak before sealing: sealing would keep the water in",
        );
    }
}
