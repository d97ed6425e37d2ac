//! Gaps on the clipboard: text of this program's own, which any of its windows takes back.
//!
//! The text is a line that says what it is, and after it a survey file with nothing in it but the
//! gaps and the zones and spaces that they name. So it is read as strictly as a file is.

use crate::survey::file::{LARGEST_FILE_BYTES, ParseError, parse, print};
use crate::survey::{Gap, GapId, Space, Survey, VehicleKind, Zone};

/// The first line, with the version of what follows. Frozen: a change needs another number.
const MARK: &str = "// Gapledger gaps 1";
/// How the first line of every version begins.
const ANY_MARK: &str = "// Gapledger gaps ";

/// Gaps that were copied, with the zones and spaces that they name.
#[derive(Clone, Debug, PartialEq)]
pub struct Copied {
    /// The gaps, in their order.
    pub gaps: Vec<Gap>,
    /// Zones, of which some may not be needed.
    pub zones: Vec<Zone>,
    /// Spaces.
    pub spaces: Vec<Space>,
}

/// These gaps as text for the clipboard. Photos are files beside the survey and stay there, and
/// nothing about the vehicle, its owner or the surveyor goes along.
#[must_use]
pub fn text(survey: &Survey, ids: &[GapId]) -> String {
    let mut part = Survey::new(VehicleKind::Other);
    let chosen = survey.gaps.iter().filter(|gap| ids.contains(&gap.id));
    part.gaps = chosen.cloned().collect();
    for gap in &mut part.gaps {
        gap.photos.clear();
    }
    let named = |zone: &&Zone| part.gaps.iter().any(|gap| gap.zone == zone.id);
    part.zones = survey.zones.iter().filter(named).cloned().collect();
    let named = |space: &&Space| part.gaps.iter().any(|gap| gap.space == Some(space.id));
    part.spaces = survey.spaces.iter().filter(named).cloned().collect();
    format!("{MARK}\n{}", print(&part))
}

/// Reads such a text.
///
/// # Errors
/// A sentence that says why there are no gaps in it. Nothing of the text is repeated.
pub fn read(text: &str) -> Result<Copied, String> {
    let (first, rest) = text.split_once('\n').unwrap_or((text, ""));
    let first = first.trim_end();
    if first != MARK {
        let words = match first.starts_with(ANY_MARK) {
            true => {
                "The gaps on the clipboard are of a newer Gapledger, which this one cannot read."
            }
            false => "What is on the clipboard are no gaps: copy gaps in a ledger first.",
        };
        return Err(words.to_owned());
    }
    if text.len() as u64 > LARGEST_FILE_BYTES {
        return Err("What is on the clipboard is larger than any survey.".to_owned());
    }
    let part = parse(rest).map_err(|error| damage(&error))?;
    if part.gaps.is_empty() {
        return Err("There is no gap on the clipboard.".to_owned());
    }
    Ok(Copied {
        gaps: part.gaps,
        zones: part.zones,
        spaces: part.spaces,
    })
}

fn damage(error: &ParseError) -> String {
    let place = match error {
        ParseError::Wrong { line, column, .. } | ParseError::NotUtf8 { line, column } => {
            format!(", at line {}, column {column}", line + 1)
        }
        _ => String::new(),
    };
    format!("The gaps on the clipboard are cut short or damaged{place}: nothing was pasted.")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::{Edit, Facing, Form, Photo};

    fn survey() -> Survey {
        let mut survey = Survey::new(VehicleKind::PanelVan);
        survey.header.surveyor = "somebody".to_owned();
        for id in 1..=3 {
            let form = Form::RoundHole {
                diameter_mm: Some(f64::from(id)),
            };
            let zone = survey.zones[usize::try_from(id).unwrap()].id;
            let mut gap = Gap::new(GapId(id), zone, Facing::Rear, form);
            gap.name = format!("hole \u{201c}{id}\u{201d}\n// Gapledger gaps 2");
            survey.apply(Edit::gap(gap)).unwrap();
        }
        survey.gaps[1].photos.push(Photo::new("one.jpg"));
        survey
    }

    #[test]
    fn what_was_copied_is_read_back_and_nothing_else_went_along() {
        let survey = survey();
        let text = text(&survey, &[GapId(1), GapId(2)]);
        let copied = read(&text).unwrap();
        let mut wanted = survey.gaps[..2].to_vec();
        wanted[1].photos.clear();
        assert_eq!(copied.gaps, wanted);
        assert_eq!(copied.zones, survey.zones[1..3]);
        assert!(!text.contains("somebody") && !text.contains("one.jpg"));
        // Another system's line ends.
        assert_eq!(read(&text.replace('\n', "\r\n")).unwrap(), copied);
    }

    #[test]
    fn what_is_not_ours_damaged_or_hostile_is_refused_in_a_sentence() {
        let whole = text(&survey(), &[GapId(1), GapId(2)]);
        let body = whole.split_once('\n').unwrap().1;
        let newer = format!("// Gapledger gaps 2\n{body}");
        let larger = format!("{MARK}\n{}", "x".repeat(17 * 1024 * 1024));
        let deep = format!("{MARK}\n{}", "(".repeat(100_000));
        let others = [
            ("", "no gaps"),
            ("a letter to somebody", "no gaps"),
            (body, "no gaps"),
            (&newer, "newer"),
            (&larger, "larger"),
            (&deep, "damaged"),
            ("// Gapledger gaps 1", "damaged"),
            ("// Gapledger gaps 1\n(format:9999)", "damaged"),
            (
                "// Gapledger gaps 1\n(format:2,vehicle:(kind:panel_van))",
                "no gap",
            ),
        ];
        for (text, words) in others {
            let told = read(text).unwrap_err();
            assert!(told.contains(words) && told.len() < 160, "{told}");
        }
        let last = whole.trim_end().len();
        for cut in (0..last).filter(|&cut| whole.is_char_boundary(cut)) {
            assert!(read(&whole[..cut]).is_err(), "cut at {cut}");
        }
    }
}
