//! Findings about the gaps.

use super::finding::{Finder, Finding, Item, Severity, gap_subject};
use super::place::{BESIDE_M, is_off_body};
use crate::physics::flow_law::{CRACK_DEPTH_SPAN, CRACK_WIDTH_SPAN, crack_was_measured};
use crate::physics::units::MM;
use crate::survey::gap::{Behind, Facing, Form, Gap, LeadsTo, Purpose, WorkState};
use crate::survey::number::{figure, given};
use crate::survey::{Field, Survey, leave};

pub(super) fn find(survey: &Survey, findings: &mut Vec<Finding>) {
    if survey.gaps.is_empty() {
        Finder::new(findings, Item::Ledger, "").warn(
            None,
            "no gap has been written down yet, so nothing can be said about leakage",
            "walk round the vehicle and add each gap you see, feel or hear",
        );
    }
    Finder::new(findings, Item::Ledger, "")
        .check(Field::NotFound, survey.leakage_not_found_percent);
    for gap in &survey.gaps {
        let subject = gap_subject(gap);
        let mut finder = Finder::new(findings, Item::Gap(gap.id), subject);
        sizes(&mut finder, gap);
        larger_than_face(&mut finder, survey, gap);
        narrow_gap_data(&mut finder, gap);
        place(&mut finder, survey, gap);
        behind(&mut finder, survey, gap);
        purpose(&mut finder, survey, gap);
        super::leave::gap(&mut finder, survey, gap);
        work(&mut finder, gap);
        super::photo::marks(&mut finder, gap);
    }
}

fn sizes(finder: &mut Finder<'_>, gap: &Gap) {
    sizes_in_range(finder, &gap.form, gap.count);
    if let Some((field, words)) = gap.form.missing() {
        finder.warn(
            field,
            format!("not sized: {words}, so it is in no total"),
            "measure it, or estimate it and mark the size as estimated or guessed",
        );
    }
}

/// Errors where a size of a form, or how many there are, cannot be.
pub(super) fn sizes_in_range(finder: &mut Finder<'_>, form: &Form, count: u32) {
    finder.check(Field::GapCount, f64::from(count));
    for (field, size) in form.sizes() {
        finder.check(field, size);
    }
    if let Form::RingGap {
        hole_mm: Some(hole),
        pipe_mm: Some(pipe),
    } = *form
        && pipe >= hole
    {
        finder.error(
            Field::RingPipe,
            format!(
                "the pipe ({} mm) fills or overfills its hole ({} mm)",
                given(pipe),
                given(hole)
            ),
            "measure both diameters again; if nothing is open, remove the gap",
        );
    }
}

pub(super) fn below_ground(finder: &mut Finder<'_>) {
    finder.error(
        Field::Rise,
        "it would begin below the ground",
        "give the height of its middle, and the rise from its lower to its upper end",
    );
}

fn narrow_gap_data(finder: &mut Finder<'_>, gap: &Gap) {
    let Form::NarrowGap {
        width_mm: Some(width),
        depth_mm: Some(depth),
        ..
    } = gap.form
    else {
        return;
    };
    if !crack_was_measured(width * MM, depth * MM) {
        let span =
            |(from, to): (f64, f64)| format!("{} to {} mm", given(from / MM), given(to / MM));
        finder.remark(Field::GapWidth,
            format!(
                "{} mm wide and {} mm deep lies outside the measurements behind the narrow-gap law ({} wide, {} deep)",
                given(width),
                given(depth),
                span(CRACK_WIDTH_SPAN),
                span(CRACK_DEPTH_SPAN)
            ),
            "take its flow as a rougher estimate",
        );
    }
}

fn place(finder: &mut Finder<'_>, survey: &Survey, gap: &Gap) {
    let position = &gap.position;
    finder.check(Field::Along, position.along_m);
    finder.check(Field::Across, position.across_m);
    finder.check(Field::MiddleHeight, position.height_m);
    finder.check(Field::Rise, position.rise_m);
    finder.check(Field::CavityPressure, gap.cavity_pressure_coefficient);
    if gap.cavity_pressure_coefficient.is_some() && !matches!(gap.facing, Facing::Cavity(_)) {
        finder.warn(Field::CavityPressure,
            "it has a cavity pressure coefficient but opens to no cavity; the coefficient is not used",
            "choose the cavity it opens to, or clear the coefficient",
        );
    }
    if let Some(space) = gap.space
        && !survey.spaces.iter().any(|known| known.id == space)
    {
        finder.error(
            Field::Space,
            format!("it opens into space {space}, which does not exist"),
            "choose one of the spaces listed, or none",
        );
    }
    match position.height_m {
        None => finder.remark(
            Field::MiddleHeight,
            "height not given; the usual height of its facing is taken",
            "measure the height of its middle above ground: it decides how warm air drives it",
        ),
        Some(height) => outside_body(finder, survey, height, position.rise_m),
    }
    beside_body(finder, survey, gap);
    super::place::other_half(finder, survey, gap);
}

/// Length and height of a face, m: of the body as a box.
fn face(survey: &Survey, facing: Facing) -> Option<(f64, f64)> {
    let vehicle = &survey.vehicle;
    let upright = || Some(vehicle.height_m? - vehicle.floor_height_m?);
    let (along, across) = match facing {
        Facing::Front | Facing::Rear => (vehicle.width_m?, upright()?),
        Facing::Nearside | Facing::Offside => (vehicle.length_m?, upright()?),
        Facing::Roof | Facing::Underfloor => (vehicle.length_m?, vehicle.width_m?),
        Facing::Cavity(_) => return None,
    };
    (along > 0.0 && across > 0.0).then_some((along, across))
}

/// What no face has room for: a hole larger than it, or a gap longer than the way round it.
fn larger_than_face(finder: &mut Finder<'_>, survey: &Survey, gap: &Gap) {
    let Some((one, other)) = face(survey, gap.facing) else {
        return;
    };
    let (longer, shorter) = (f64::max(one, other), f64::min(one, other));
    let room = format!("{} \u{d7} {} m", figure(longer, 3), figure(shorter, 3));
    let count = f64::from(gap.count);
    let beyond = |sides: (f64, f64)| {
        let (long, short) = (f64::max(sides.0, sides.1), f64::min(sides.0, sides.1));
        long > longer || short > shorter || count * long * short > longer * shorter
    };
    let (field, sentence) = match gap.form {
        Form::RoundHole {
            diameter_mm: Some(diameter),
        } if beyond((diameter * MM, diameter * MM)) => (
            Field::Diameter,
            format!(
                "a hole of {} mm is larger than its face, {room}",
                given(diameter)
            ),
        ),
        Form::RectangularHole {
            width_mm: Some(width),
            height_mm: Some(height),
        }
        | Form::Grille {
            width_mm: Some(width),
            height_mm: Some(height),
            ..
        } if beyond((width * MM, height * MM)) => (
            Field::HoleWidth,
            format!(
                "an opening of {} \u{d7} {} mm is larger than its face, {room}",
                given(width),
                given(height)
            ),
        ),
        Form::StatedArea {
            area_mm2: Some(area),
            ..
        } if count * area * MM * MM > longer * shorter => (
            Field::StatedArea,
            format!(
                "an area of {} mm\u{b2} is larger than its face, {room}",
                given(area)
            ),
        ),
        Form::NarrowGap {
            length_mm: Some(length),
            ..
        } if length * MM > 2.0 * (longer + shorter) => (
            Field::GapLength,
            format!(
                "a length of {} mm is longer than the way round its face, {room}",
                given(length)
            ),
        ),
        _ => return,
    };
    finder.error(
        field,
        sentence,
        "check its sizes, the face it is in, and the outside sizes of the vehicle",
    );
}

/// A place beside the body, by its length and width.
fn beside_body(finder: &mut Finder<'_>, survey: &Survey, gap: &Gap) {
    let (position, vehicle) = (&gap.position, &survey.vehicle);
    let places = [
        (
            Field::Along,
            position.along_m,
            vehicle.length_m,
            "from the front",
            "long",
        ),
        (
            Field::Across,
            position.across_m,
            vehicle.width_m,
            "from the nearside",
            "wide",
        ),
    ];
    for (field, place, size, from, is) in places {
        if let (Some(place), Some(size)) = (place, size)
            && is_off_body(place, size)
        {
            finder.warn(
                field,
                format!(
                    "its place, {} m {from}, is outside the body, {} m {is}",
                    given(place),
                    given(size)
                ),
                "measure it again from the front and the nearside of the body",
            );
        }
    }
}

fn outside_body(finder: &mut Finder<'_>, survey: &Survey, height: f64, rise: Option<f64>) {
    let half_rise = rise.map_or(0.0, |rise| rise / 2.0);
    if let Some(roof) = survey.vehicle.height_m
        && height + half_rise > roof + BESIDE_M
    {
        finder.warn(Field::MiddleHeight,
            format!("its top, {} m, is above the roof, {} m", figure(height + half_rise, 3), given(roof)),
            "measure the height of its middle from the ground, and the rise from its lower to its upper end",
        );
    }
    if height - half_rise < 0.0 {
        below_ground(finder);
    }
}

fn behind(finder: &mut Finder<'_>, survey: &Survey, gap: &Gap) {
    match gap.behind {
        None => {}
        Some(Behind::Opening { free_area_mm2 }) => {
            finder.check(Field::AreaInFront, free_area_mm2);
            if free_area_mm2.is_none() {
                finder.warn(Field::AreaInFront,
                    "not sized: the free area of the opening in front is not given, so it is in no total",
                    "measure the opening in front",
                );
            }
        }
        Some(Behind::Gap(outer)) => match survey.gap(outer) {
            None => finder.error(Field::Behind,
                format!("it lies behind gap {outer}, which does not exist"),
                "choose the outer gap again",
            ),
            Some(outer) if outer.id == gap.id => finder.error(Field::Behind,
                "it cannot lie behind itself",
                "choose another gap, or none",
            ),
            Some(outer) if outer.leads_to == LeadsTo::LivingSpace => finder.error(Field::Behind,
                format!(
                    "it lies behind gap {}, which leads into the living space, so its air would be counted twice",
                    outer.id
                ),
                "set the outer gap to lead into a compartment, or this one to lie behind nothing",
            ),
            Some(outer) if outer.behind.is_some() => finder.error(Field::Behind,
                format!("gap {} in front of it lies behind another opening itself", outer.id),
                "only two openings in a row can be worked out: combine two of them",
            ),
            Some(_) => {}
        },
    }
    if gap.leads_to == LeadsTo::Compartment && gap.behind.is_some() {
        finder.error(
            Field::LeadsTo,
            "an outer opening of a compartment cannot itself lie behind another opening",
            "set it to lie behind nothing",
        );
    }
}

fn purpose(finder: &mut Finder<'_>, survey: &Survey, gap: &Gap) {
    if let Some(closing) = gap.closing {
        finder.check(Field::ClosedLeaves, closing.leaves_percent);
        if leave::never(survey, gap) {
            finder.danger(Field::Purpose,
                format!("{} that can be closed protects nobody", gap.purpose.name()),
                "make sure it cannot be closed; follow the local code and have a licensed fitter check it",
            );
        }
    }
    if gap.purpose == Purpose::UserVentilation && gap.closing.is_none() {
        finder.remark(
            Field::Closing,
            "whether this user ventilation stands open is not given; it is taken as always open",
            "say whether it stands open when laid up and when in use",
        );
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
        finder.check(Field::LeakLeft, remedy.leak_left_percent);
        finder.check(Field::MaterialCost, remedy.material_cost);
        finder.check(Field::Minutes, remedy.minutes);
    }
    let left = gap
        .remedy
        .as_ref()
        .and_then(|remedy| remedy.leak_left_percent);
    if gap.state == WorkState::Sealed && left.is_none() {
        finder.warn(Field::LeakLeft,
            "it is marked sealed without saying what share of the leak remains, so it is in no total",
            "enter the share that remains; 10 % is a cautious guess for a strip or sealant",
        );
    }
    finder.check_date(Field::StateDate, "date", &gap.state_date);
    if is_damp(&gap.damp) {
        let severity = if gap.state == WorkState::Open {
            Severity::Note
        } else {
            Severity::Warning
        };
        finder.add(
            severity,
            Field::Damp,
            format!("there is a damp reading beside it ({})", gap.damp),
            "find and mend the water leak before sealing: sealing would keep the water in",
        );
    }
}
