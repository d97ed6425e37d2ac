//! What earlier runs of the program left behind.

use super::held_file::is_held;
use super::{DataFolder, disk, rescue};
use crate::survey::Survey;
use crate::survey::file::load;
use std::collections::BTreeMap;
use std::ffi::OsStr;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::time::SystemTime;

/// A rescue file of a program that does not run any more.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Offer {
    /// The rescue file.
    pub path: PathBuf,
    /// What is in it, or a sentence that says why it cannot be read.
    pub content: Result<Rescued, String>,
}

/// What a rescue file holds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rescued {
    /// The survey's title, else the kind of vehicle.
    pub name: String,
    /// The file it belongs to.
    pub file: Option<PathBuf>,
    /// When it was last changed.
    pub when: SystemTime,
    /// Gaps in it.
    pub gaps: usize,
    /// What it has over its file.
    pub difference: Difference,
}

/// What rescued work has over the file it belongs to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Difference {
    /// It has no file.
    NeverSaved,
    /// The file is gone.
    FileMissing,
    /// The file is there, but is no survey.
    FileUnreadable,
    /// How the two compare.
    Gaps {
        /// Gaps that only the rescued survey has.
        more: usize,
        /// Gaps that only the file has.
        fewer: usize,
        /// Gaps that both have, but not alike.
        changed: usize,
        /// Something other than gaps differs.
        elsewhere: bool,
        /// The file is not what it was when the rescued survey was opened or saved.
        file_changed: bool,
    },
}

/// Everything that was left behind, the newest first, and what cannot be read at the end.
#[must_use]
pub fn look(data: &DataFolder) -> Vec<Offer> {
    let folder = data.rescue();
    let mut offers: Vec<Offer> = left_behind(&folder)
        .into_iter()
        .map(|path| Offer {
            content: rescue::read(&path).map(|(belongs, survey)| rescued(belongs, &survey)),
            path,
        })
        .collect();
    offers.sort_by_key(|offer| {
        let when = offer.content.as_ref().map(|rescued| rescued.when).ok();
        (std::cmp::Reverse(when), offer.path.clone())
    });
    offers
}

fn rescued(belongs: rescue::Belongs, survey: &Survey) -> Rescued {
    let title = survey.header.title.trim();
    Rescued {
        name: match title {
            "" => survey.vehicle.kind.name().to_owned(),
            title => title.to_owned(),
        },
        when: belongs.when,
        gaps: survey.gaps.len(),
        difference: difference(&belongs, survey),
        file: belongs.file,
    }
}

fn difference(belongs: &rescue::Belongs, survey: &Survey) -> Difference {
    let Some(file) = &belongs.file else {
        return Difference::NeverSaved;
    };
    if !file.exists() {
        return Difference::FileMissing;
    }
    let Ok(loaded) = load(file) else {
        return Difference::FileUnreadable;
    };
    let saved: BTreeMap<_, _> = loaded.survey.gaps.iter().map(|gap| (gap.id, gap)).collect();
    let both = |gap: &&crate::survey::Gap| saved.contains_key(&gap.id);
    let in_both = survey.gaps.iter().filter(both).count();
    let changed = survey.gaps.iter().filter(|gap| {
        let other = saved.get(&gap.id);
        other.is_some_and(|other| *other != *gap)
    });
    let changed = changed.count();
    let mut but_gaps = loaded.survey.clone();
    but_gaps.gaps.clone_from(&survey.gaps);
    Difference::Gaps {
        more: survey.gaps.len() - in_both,
        fewer: saved.len().saturating_sub(in_both),
        changed,
        elsewhere: but_gaps != *survey,
        file_changed: belongs.stamp.as_ref() != Some(&loaded.stamp),
    }
}

/// The rescue files of programs that do not run any more. Files that say that a program runs are
/// cleared away when it does not, and so are rescue files that it had not finished.
fn left_behind(folder: &Path) -> Vec<PathBuf> {
    let mut files = Vec::new();
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        let path = entry.path();
        // A pipe of such a name is not ours, and to open it would wait for ever.
        if !path.is_file() || runs(&path) {
            continue;
        }
        let ending = path.extension();
        if ending == Some(OsStr::new("ron")) {
            files.push(path);
        } else if ending == Some(OsStr::new("lock")) || ending == Some(OsStr::new(disk::UNFINISHED))
        {
            // Another program may clear it away at the same time.
            let _ = fs::remove_file(&path);
        }
    }
    files
}

/// The file by which a program says that it runs.
#[must_use]
pub(super) fn session_lock(folder: &Path, session: &str) -> PathBuf {
    folder.join(format!("{session}.lock"))
}

/// The rescue file of the so-many-th survey of a run.
#[must_use]
pub(super) fn rescue_file(folder: &Path, session: &str, document: u64) -> PathBuf {
    folder.join(format!("{session}.{document}.ron"))
}

/// Whether the program that wrote a file in the folder of rescue files still runs.
fn runs(path: &Path) -> bool {
    let name = path.file_name().and_then(OsStr::to_str).unwrap_or_default();
    let session = name.split('.').next().unwrap_or_default();
    let folder = path.parent().unwrap_or(Path::new("."));
    let lock = session_lock(folder, session);
    is_held(&lock) || is_held(&lock.with_extension(disk::UNFINISHED))
}

/// Puts a rescue file away, into a folder of its own; nothing is deleted. Gives its new place.
///
/// # Errors
/// What the system says.
pub fn put_away(data: &DataFolder, path: &Path) -> io::Result<PathBuf> {
    let folder = data.put_away();
    fs::create_dir_all(&folder)?;
    let name = path.file_name().unwrap_or_default();
    let place = folder.join(name);
    fs::rename(path, &place)?;
    Ok(place)
}

#[cfg(test)]
mod tests {
    use super::super::held_file::HeldFile;
    use super::*;
    use crate::survey::file::{FileStamp, print};
    use crate::survey::{Edit, Facing, Form, Gap, GapId, Record, VehicleKind};
    use std::time::{Duration, UNIX_EPOCH};

    fn survey(gaps: &[(u32, f64)]) -> Survey {
        let mut survey = Survey::new(VehicleKind::PanelVan);
        for &(id, diameter_mm) in gaps {
            let form = Form::RoundHole {
                diameter_mm: Some(diameter_mm),
            };
            let gap = Gap::new(GapId(id), survey.zones[0].id, Facing::Rear, form);
            survey.apply(Edit::Put(Record::Gap(Box::new(gap)))).unwrap();
        }
        survey
    }

    fn write(folder: &Path, name: &str, file: Option<&Path>, survey: &Survey, unix_s: u64) {
        let belongs = rescue::Belongs {
            file: file.map(Path::to_owned),
            stamp: file.map(|file| FileStamp::of(&fs::read(file).unwrap_or_default())),
            when: UNIX_EPOCH + Duration::from_secs(unix_s),
        };
        fs::create_dir_all(folder).unwrap();
        let text = rescue::text(&belongs, survey).unwrap();
        fs::write(folder.join(name), text).unwrap();
    }

    #[test]
    fn what_dead_programs_left_is_offered_and_what_running_ones_write_is_not() {
        let scratch = tempfile::tempdir().unwrap();
        let data = DataFolder::at(scratch.path());
        let folder = data.rescue();
        let file = scratch.path().join("van.ron");
        fs::write(&file, print(&survey(&[(1, 10.0), (2, 10.0), (3, 10.0)]))).unwrap();
        let newer = survey(&[(1, 10.0), (2, 12.0), (4, 5.0), (5, 5.0)]);
        write(&folder, "1-a.1.ron", Some(&file), &newer, 2000);
        write(&folder, "2-b.1.ron", None, &survey(&[]), 3000);
        write(&folder, "3-c.1.ron", None, &survey(&[]), 4000);
        fs::write(folder.join("4-d.1.ron"), "half a fi").unwrap();
        for litter in ["1-a.lock", "1-a.1.tmp"] {
            fs::write(folder.join(litter), "").unwrap();
        }
        let _running = HeldFile::take(session_lock(&folder, "3-c")).unwrap();
        let offers = look(&data);
        let names: Vec<_> = offers
            .iter()
            .map(|offer| offer.path.file_name().unwrap().to_str().unwrap())
            .collect();
        assert_eq!(names, ["2-b.1.ron", "1-a.1.ron", "4-d.1.ron"]);
        let first = offers[0].content.as_ref().unwrap();
        assert_eq!(first.name, "panel-van camper");
        assert_eq!(first.difference, Difference::NeverSaved);
        let second = offers[1].content.as_ref().unwrap();
        assert_eq!((second.gaps, second.file.as_ref()), (4, Some(&file)));
        let compared = Difference::Gaps {
            more: 2,
            fewer: 1,
            changed: 1,
            elsewhere: false,
            file_changed: false,
        };
        assert_eq!(second.difference, compared);
        assert!(offers[2].content.is_err());
        assert_eq!(
            fs::read_to_string(folder.join("4-d.1.ron")).unwrap(),
            "half a fi"
        );
        assert!(!folder.join("1-a.lock").exists() && !folder.join("1-a.1.tmp").exists());
        assert!(folder.join("3-c.lock").exists());
    }

    #[test]
    fn the_file_on_the_disk_may_be_gone_broken_or_newer() {
        let scratch = tempfile::tempdir().unwrap();
        let data = DataFolder::at(scratch.path());
        let file = scratch.path().join("van.ron");
        fs::write(&file, print(&survey(&[(1, 10.0)]))).unwrap();
        write(
            &data.rescue(),
            "1-a.1.ron",
            Some(&file),
            &survey(&[(1, 10.0)]),
            1,
        );
        let now = || look(&data)[0].content.clone().unwrap().difference;
        let same = |file_changed, fewer| Difference::Gaps {
            more: 0,
            fewer,
            changed: 0,
            elsewhere: false,
            file_changed,
        };
        assert_eq!(now(), same(false, 0));
        fs::write(&file, print(&survey(&[(1, 10.0), (2, 3.0)]))).unwrap();
        assert_eq!(now(), same(true, 1));
        fs::write(&file, "no survey").unwrap();
        assert_eq!(now(), Difference::FileUnreadable);
        fs::remove_file(&file).unwrap();
        assert_eq!(now(), Difference::FileMissing);
    }

    #[test]
    fn what_is_put_away_is_not_offered_and_not_deleted() {
        let scratch = tempfile::tempdir().unwrap();
        let data = DataFolder::at(scratch.path());
        write(&data.rescue(), "1-a.1.ron", None, &survey(&[(1, 10.0)]), 1);
        let place = put_away(&data, &data.rescue().join("1-a.1.ron")).unwrap();
        assert!(look(&data).is_empty());
        assert_eq!(rescue::read(&place).unwrap().1.gaps.len(), 1);
    }
}
