//! Numbers, sizes and directions as people read them.

use crate::physics::wind::{Shelter, Terrain};
use crate::physics::{PressureSet, Underside};
use crate::survey::gap::{Behind, Form, GrilleMaterial, LeadsTo};
pub use crate::survey::number::{figure, given};
use crate::survey::{Facing, Gap, SetUp, WorkState};

/// The same with `?` where nothing was given.
#[must_use]
pub fn given_or_query(value: Option<f64>) -> String {
    value.map_or_else(|| "?".to_owned(), given)
}

/// `1 gap`, `2 gaps`.
#[must_use]
pub fn counted(count: usize, one: &str, many: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { many })
}

/// Things in a row: `one`, `one and two`, `one, two and three`.
#[must_use]
pub fn listed(things: impl IntoIterator<Item = String>) -> String {
    let mut all: Vec<String> = things.into_iter().collect();
    match (all.pop(), all.is_empty()) {
        (None, _) => String::new(),
        (Some(only), true) => only,
        (Some(last), false) => format!("{} and {last}", all.join(", ")),
    }
}

/// The first letter large.
#[must_use]
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().map(char::to_uppercase);
    first.into_iter().flatten().chain(letters).collect()
}

/// Words as a sentence of their own: a capital in front, a full stop behind unless there is one.
#[must_use]
pub fn sentence(words: &str) -> String {
    let stop = if words.is_empty() || words.ends_with(['.', '…']) {
        ""
    } else {
        "."
    };
    format!("{}{stop}", capital(words))
}

/// The facing without the explanation in brackets, for narrow columns.
#[must_use]
pub fn facing(facing: Facing) -> &'static str {
    let name = facing.name();
    name.split(" (").next().unwrap_or(name)
}

/// Degrees clockwise with one decimal only where it is needed.
#[must_use]
pub fn degrees(value: f64) -> String {
    format!("{}°", given((value * 10.0).round() / 10.0))
}

/// A compass direction: degrees and the nearest of the sixteen points.
#[must_use]
pub fn compass(value: f64) -> String {
    format!("{}° {}", given(value.round()), compass_point(value))
}

/// The sixteen points of the compass, clockwise from north.
const COMPASS_POINTS: [&str; 16] = [
    "N", "NNE", "NE", "ENE", "E", "ESE", "SE", "SSE", "S", "SSW", "SW", "WSW", "W", "WNW", "NW",
    "NNW",
];

/// Degrees from one point of the compass to the next.
const POINT_DEG: f64 = 22.5;

/// The point of the compass nearest to a direction in degrees clockwise from north.
#[must_use]
pub fn compass_point(degrees: f64) -> &'static str {
    let sector = (degrees.rem_euclid(360.0) / POINT_DEG).round();
    (0_u8..)
        .zip(COMPASS_POINTS)
        .find(|(at, _)| (f64::from(*at) - sector).abs() < 0.5)
        .map_or("N", |(_, point)| point)
}

/// Degrees clockwise from north of a point of the compass in English, short or written out, in
/// small or capital letters: `NW`, `nnw`, `north-west`; `None` for anything else.
#[must_use]
pub fn point_degrees(words: &str) -> Option<f64> {
    let letters: String = words
        .to_lowercase()
        .chars()
        .filter(|letter| !letter.is_whitespace() && !matches!(letter, '-' | '.'))
        .collect();
    let short = [("north", "N"), ("south", "S"), ("east", "E"), ("west", "W")]
        .into_iter()
        .fold(letters, |short, (word, letter)| short.replace(word, letter))
        .to_uppercase();
    (0_u8..)
        .zip(COMPASS_POINTS)
        .find(|(_, point)| *point == short)
        .map(|(at, _)| f64::from(at) * POINT_DEG)
}

/// Form and sizes of a gap, with count and what it lies behind.
#[must_use]
pub fn form(gap: &Gap) -> String {
    let mut words = String::new();
    if gap.count != 1 {
        words.push_str(&format!("{} × ", gap.count));
    }
    words.push_str(&sizes(&gap.form));
    match gap.behind {
        None => {}
        Some(Behind::Gap(outer)) => words.push_str(&format!(", behind gap {outer}")),
        Some(Behind::Opening { free_area_mm2 }) => words.push_str(&format!(
            ", behind an opening of {} mm²",
            given_or_query(free_area_mm2)
        )),
    }
    // A number stays with its unit where the line breaks.
    for unit in [" mm", " m³/h", " Pa", " deep"] {
        words = words.replace(unit, &unit.replace(' ', "\u{a0}"));
    }
    words.replace("× ", "×\u{a0}")
}

/// Form and sizes alone; a size that was not taken is a question mark.
#[must_use]
pub fn sizes(form: &Form) -> String {
    let q = given_or_query;
    match *form {
        Form::NarrowGap {
            length_mm,
            width_mm,
            depth_mm,
            bends,
        } => {
            let bends = bends_words(bends);
            format!(
                "narrow gap {} × {} mm, {} mm deep{bends}",
                q(length_mm),
                q(width_mm),
                q(depth_mm)
            )
        }
        Form::RoundHole { diameter_mm } => format!("round hole {} mm", q(diameter_mm)),
        Form::RectangularHole {
            width_mm,
            height_mm,
        } => {
            format!("rectangular hole {} × {} mm", q(width_mm), q(height_mm))
        }
        Form::RingGap { hole_mm, pipe_mm } => {
            format!("ring: hole {} mm, pipe {} mm", q(hole_mm), q(pipe_mm))
        }
        Form::Grille {
            width_mm,
            height_mm,
            material,
            free_percent,
        } => {
            let material = match material {
                GrilleMaterial::Metal => "metal grille",
                GrilleMaterial::Wood => "wooden grille",
            };
            let free =
                free_percent.map_or_else(String::new, |free| format!(", {} % free", given(free)));
            format!("{material} {} × {} mm{free}", q(width_mm), q(height_mm))
        }
        Form::StatedArea {
            area_mm2,
            convention,
            exponent,
        } => {
            format!(
                "stated {} {} mm²{}",
                convention.name(),
                q(area_mm2),
                exponent_words(exponent)
            )
        }
        Form::FlowTest {
            flow_m3_per_h,
            at_pa,
            exponent,
        } => format!(
            "flow test {} m³/h at {} Pa{}",
            q(flow_m3_per_h),
            q(at_pa),
            exponent_words(exponent)
        ),
    }
}

/// The bends of a gap behind its sizes: nothing where it has none.
fn bends_words(bends: u32) -> String {
    match bends {
        0 => String::new(),
        1 => ", 1 bend".to_owned(),
        more => format!(", {more} bends"),
    }
}

fn exponent_words(exponent: Option<f64>) -> String {
    exponent.map_or_else(String::new, |exponent| format!(", n {}", given(exponent)))
}

/// What a reader of the ledger must know about a gap besides its size.
#[must_use]
pub fn remarks(gap: &Gap, set_up: SetUp) -> Vec<String> {
    let mut remarks = Vec::new();
    if gap.purpose != crate::survey::Purpose::Unintended {
        remarks.push(gap.purpose.name().to_owned());
    }
    if gap.leads_to == LeadsTo::Compartment {
        remarks.push("outer opening of a compartment".to_owned());
    }
    if let Some(closing) = gap.closing {
        remarks.push(if closing.is_open(set_up) {
            "open".to_owned()
        } else {
            format!("closed, leaves {} %", given(closing.leaves_percent))
        });
    }
    if gap.state != WorkState::Open {
        remarks.push(gap.state.name().to_owned());
    }
    remarks
}

/// The terrain in words.
#[must_use]
pub fn terrain(terrain: Terrain) -> &'static str {
    match terrain {
        Terrain::OpenFlat => "open flat country",
        Terrain::ScatteredWindbreaks => "country with scattered windbreaks",
        Terrain::Urban => "suburb or small town",
        Terrain::City => "city",
    }
}

/// The immediate surroundings in words.
#[must_use]
pub fn shelter(shelter: Shelter) -> &'static str {
    match shelter {
        Shelter::Exposed => "exposed",
        Shelter::PartSheltered => "partly sheltered by what is near",
        Shelter::Sheltered => "sheltered by what is near",
    }
}

/// A set of wind pressures, and where it is from.
#[must_use]
pub fn pressure_set(set: PressureSet) -> &'static str {
    match set {
        PressureSet::LowRise => "low-rise building, AIVC, Liddament 1986 [S]",
        PressureSet::WallAverage => "wall average, Swami and Chandra 1988 [S]",
        PressureSet::VehicleBody => "vehicle body, computed by this project [N]",
    }
}

/// How the space under the floor stands to the wind, in words.
#[must_use]
pub fn underside(underside: Underside) -> &'static str {
    match underside {
        Underside::Open => "open all round",
        Underside::ClosedOneSide => "closed on one side",
        Underside::SkirtedLeaking => "skirted, with gaps",
        Underside::SkirtedTight => "skirted tightly",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sentences_begin_with_a_capital_and_end() {
        assert_eq!(sentence("does not hold 55 %"), "Does not hold 55 %.");
        assert_eq!(sentence("it is full."), "It is full.");
        assert_eq!(sentence(""), "");
        assert_eq!(capital("äußere Tür"), "Äußere Tür");
    }

    #[test]
    fn compass_points_are_the_nearest() {
        for (degrees, words) in [
            (0.0, "0° N"),
            (11.0, "11° N"),
            (12.0, "12° NNE"),
            (90.0, "90° E"),
            (292.5, "293° WNW"),
            (350.0, "350° N"),
        ] {
            assert_eq!(compass(degrees), words);
        }
    }

    /// Each of the sixteen points is 22.5° on from the last, clockwise from north (compass rose,
    /// common practice, no source \[C\]).
    #[test]
    fn points_of_the_compass_are_read_however_they_are_written() {
        for (words, degrees) in [
            ("N", 0.0),
            ("nne", 22.5),
            ("NE", 45.0),
            ("e", 90.0),
            ("SSW", 202.5),
            ("north-west", 315.0),
            ("North North West", 337.5),
            ("W.N.W.", 292.5),
        ] {
            assert_eq!(point_degrees(words), Some(degrees), "{words}");
            assert_eq!(point_degrees(compass_point(degrees)), Some(degrees));
        }
        for words in ["", "NEN", "NS", "O", "12", "nwest wind"] {
            assert_eq!(point_degrees(words), None, "{words}");
        }
    }

    #[test]
    fn a_size_left_out_is_a_query_and_never_zero() {
        let words = sizes(&Form::NarrowGap {
            length_mm: Some(1200.0),
            width_mm: None,
            depth_mm: Some(30.5),
            bends: 1,
        });
        assert_eq!(words, "narrow gap 1200 × ? mm, 30.5 mm deep, 1 bend");
    }
}
