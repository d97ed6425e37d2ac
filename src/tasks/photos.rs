//! The photos of a survey looked at as a whole.

use super::shared::{Watch, shared_out};
use crate::survey::Survey;
use crate::survey::file::{PhotoState, whole_photo_state};
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

/// The state of every photo that the survey names, each decoded whole where it never was. `None` where
/// `watch` gave it up.
pub fn photo_states(
    survey_path: &Path,
    survey: &Survey,
    threads: usize,
    watch: &impl Watch,
) -> Option<BTreeMap<String, PhotoState>> {
    let photos = survey.gaps.iter().flat_map(|gap| &gap.photos);
    let names: BTreeSet<&str> = photos.map(|photo| photo.name.as_str()).collect();
    let names: Vec<&str> = names.into_iter().collect();
    let threads = threads.min(names.len());
    let states = shared_out(names.len(), (threads, "photos"), watch, |at, _| {
        names
            .get(at)
            .map(|name| whole_photo_state(survey_path, name))
    })?;
    let names = names.into_iter().map(str::to_owned);
    Some(names.zip(states).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::file::{Pixels, photo_folder, png_of};
    use crate::survey::{Facing, Form, Gap, GapId, Photo, VehicleKind};
    use crate::tasks::to_the_end;
    use std::fs;

    #[test]
    fn a_photo_that_is_damaged_further_in_is_found() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("van.ron");
        let photos = photo_folder(&file);
        fs::create_dir_all(&photos).unwrap();
        let rgba = (0..120 * 90 * 4u32)
            .map(|at| (at * at / 7).to_le_bytes()[0])
            .collect();
        let whole = png_of(Pixels {
            width: 120,
            height: 90,
            rgba,
        })
        .unwrap();
        fs::write(photos.join("whole.png"), &whole).unwrap();
        fs::write(photos.join("cut.png"), &whole[..whole.len() / 2]).unwrap();
        let mut survey = Survey::new(VehicleKind::Other);
        let form = Form::RoundHole {
            diameter_mm: Some(20.0),
        };
        let mut gap = Gap::new(GapId(1), survey.zones[0].id, Facing::Rear, form);
        gap.photos = ["whole.png", "cut.png", "gone.png"]
            .map(Photo::new)
            .to_vec();
        survey.gaps.push(gap);
        let states = photo_states(&file, &survey, 2, &to_the_end).unwrap();
        let of = |name: &str| states[name];
        assert_eq!(of("whole.png"), PhotoState::Present);
        assert_eq!(of("cut.png"), PhotoState::Broken);
        assert_eq!(of("gone.png"), PhotoState::Missing);
    }
}
