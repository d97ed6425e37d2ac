//! Findings about the photos of the gaps.

use super::finding::{Finder, Finding, Item};
use crate::survey::file::PhotoState;
use crate::survey::gap::Gap;
use crate::survey::{Field, Survey};
use std::collections::BTreeMap;

/// Name under which findings about photos are filed.
const FIELD: Field = Field::Photos;

/// Marks that cannot be seen.
pub(super) fn marks(finder: &mut Finder<'_>, gap: &Gap) {
    for photo in &gap.photos {
        let outside = photo.marks.iter().filter(|mark| !mark.is_in_picture());
        if outside.count() > 0 {
            finder.remark(
                FIELD,
                format!(
                    "a mark on photo \u{201c}{}\u{201d} lies outside the picture",
                    photo.name
                ),
                "open the photo, remove that mark and draw it again",
            );
        }
    }
}

/// Findings about photos that are missing or cannot be shown, from what was found in the photo
/// folder. A photo of which nothing is known gives none.
#[must_use]
pub fn photos(survey: &Survey, states: &BTreeMap<String, PhotoState>) -> Vec<Finding> {
    let mut findings = Vec::new();
    for gap in &survey.gaps {
        let mut finder = Finder::new(
            &mut findings,
            Item::Gap(gap.id),
            super::finding::gap_subject(gap),
        );
        for photo in &gap.photos {
            let name = &photo.name;
            let (trouble, advice) = match states.get(name) {
                None | Some(PhotoState::Present) => continue,
                Some(PhotoState::Missing) => (
                    "is missing",
                    "put the file into the photo folder beside the survey, or remove the photo \
                     from the gap",
                ),
                Some(PhotoState::Unreadable) => (
                    "cannot be opened: access is denied",
                    "allow the program to read the file, or remove the photo from the gap",
                ),
                Some(PhotoState::Broken) => (
                    "is not a complete picture",
                    "replace the file by a good copy, JPEG, PNG or WebP, or remove the photo from \
                     the gap",
                ),
                Some(PhotoState::TooLarge) => (
                    "is too large to be shown",
                    "save it smaller, a side of 4000 pixels is plenty, or remove the photo from the gap",
                ),
            };
            finder.warn(
                FIELD,
                format!("photo \u{201c}{name}\u{201d} {trouble}"),
                advice,
            );
        }
    }
    findings
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::{Facing, Form, GapId, Photo, PhotoMark, VehicleKind, findings};

    fn survey() -> Survey {
        let mut survey = Survey::new(VehicleKind::Other);
        let form = Form::RoundHole {
            diameter_mm: Some(20.0),
        };
        let mut gap = Gap::new(GapId(1), survey.zones[0].id, Facing::Rear, form);
        gap.photos = vec![Photo::new("one.jpg"), Photo::new("two.jpg")];
        survey.gaps.push(gap);
        survey
    }

    #[test]
    fn a_photo_that_cannot_be_shown_is_found_and_a_good_one_is_not() {
        let survey = survey();
        assert!(photos(&survey, &BTreeMap::new()).is_empty());
        for (state, words) in [
            (PhotoState::Missing, "is missing"),
            (PhotoState::Unreadable, "cannot be opened: access is denied"),
            (PhotoState::Broken, "is not a complete picture"),
            (PhotoState::TooLarge, "is too large to be shown"),
        ] {
            let states = BTreeMap::from([
                ("one.jpg".to_owned(), PhotoState::Present),
                ("two.jpg".to_owned(), state),
            ]);
            let found = photos(&survey, &states);
            assert_eq!(found.len(), 1);
            assert!(found[0].sentence.contains("two.jpg") && found[0].sentence.contains(words));
            assert_eq!(found[0].place.item, Item::Gap(GapId(1)));
        }
    }

    #[test]
    fn a_mark_outside_its_picture_is_noticed() {
        let mut survey = survey();
        let outside = |survey: &Survey| {
            let found = findings::find(survey);
            found
                .iter()
                .any(|finding| finding.sentence.contains("outside the picture"))
        };
        let mut mark = |across| {
            survey.gaps[0].photos[0].marks = vec![PhotoMark::Circle {
                across,
                down: 0.5,
                radius: 0.1,
            }];
            outside(&survey)
        };
        assert!(mark(1.5));
        assert!(!mark(0.5));
    }
}
