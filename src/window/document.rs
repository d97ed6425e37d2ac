//! The open survey: its history, its file, and whether it has changes that are not saved.

use crate::survey::file::{Backups, FileStamp, Loaded, Overwrite, SaveError, save};
use crate::survey::{History, Survey};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// An open survey.
pub struct Document {
    /// The survey with its steps.
    pub history: History,
    path: Option<PathBuf>,
    stamp: Option<FileStamp>,
    /// `None`: it differs from its file in any case.
    saved: Option<Arc<Survey>>,
    /// Revision for which `unsaved` was found, and what was found: comparing takes a while.
    compared: Option<(u64, bool)>,
}

impl Document {
    /// A new survey that has no file yet.
    #[must_use]
    pub fn new(survey: Survey) -> Self {
        let history = History::new(survey);
        let saved = Some(Arc::clone(history.survey()));
        Self {
            compared: Some((history.revision(), false)),
            history,
            path: None,
            stamp: None,
            saved,
        }
    }

    /// A survey that was loaded from a file.
    #[must_use]
    pub fn loaded(path: PathBuf, loaded: Loaded) -> Self {
        let mut document = Self::new(loaded.survey);
        document.path = Some(path);
        document.stamp = Some(loaded.stamp);
        document
    }

    /// A survey that was rescued: unsaved changes of a file that held what the stamp says.
    #[must_use]
    pub fn rescued(path: Option<PathBuf>, stamp: Option<FileStamp>, survey: Survey) -> Self {
        let mut document = Self::new(survey);
        document.path = path;
        document.stamp = stamp;
        document.saved = None;
        document.compared = Some((document.history.revision(), true));
        document
    }

    /// Its file.
    #[must_use]
    pub fn path(&self) -> Option<&Path> {
        self.path.as_deref()
    }

    /// What its file held when it was loaded or saved.
    #[must_use]
    pub fn stamp(&self) -> Option<&FileStamp> {
        self.stamp.as_ref()
    }

    /// Whether it differs from what was last saved or loaded.
    pub fn unsaved(&mut self) -> bool {
        let revision = self.history.revision();
        match self.compared {
            Some((compared, unsaved)) if compared == revision => unsaved,
            _ => {
                let differs = self.saved.as_deref() != Some(&**self.history.survey());
                self.compared = Some((revision, differs));
                differs
            }
        }
    }

    /// Its name: the file's, else the title, else *new survey*.
    #[must_use]
    pub fn name(&self) -> String {
        let title = &self.history.survey().header.title;
        match &self.path {
            Some(path) => path.file_stem().map_or_else(
                || path.display().to_string(),
                |stem| stem.to_string_lossy().into_owned(),
            ),
            None if title.trim().is_empty() => "new survey".to_owned(),
            None => title.trim().to_owned(),
        }
    }

    /// What is to be written to a path, which then becomes the survey's file. Its own file is
    /// overwritten only while nobody else has written it, another only when `anyway`.
    #[must_use]
    pub fn to_save(&self, path: &Path, anyway: bool) -> ToSave {
        let own = self.path.as_deref() == Some(path);
        ToSave {
            path: path.to_owned(),
            survey: Arc::clone(self.history.survey()),
            anyway,
            stamp: self.stamp.clone().filter(|_| own),
        }
    }

    /// Takes in that a state of this survey was written to its file. What was changed since is
    /// not saved.
    pub fn saved(&mut self, path: &Path, survey: Arc<Survey>, stamp: FileStamp) {
        self.path = Some(path.to_owned());
        self.stamp = Some(stamp);
        self.saved = Some(survey);
        self.compared = None;
    }
}

/// A state of a survey on its way to a file.
pub struct ToSave {
    /// The file.
    pub path: PathBuf,
    /// The survey as it was when it was asked for.
    pub survey: Arc<Survey>,
    anyway: bool,
    stamp: Option<FileStamp>,
}

impl ToSave {
    /// Writes it.
    ///
    /// # Errors
    /// [`SaveError`]; after [`SaveError::NotConfirmed`] the survey counts as saved.
    pub fn write(&self, backups: &mut Backups) -> Result<FileStamp, SaveError> {
        let overwrite = match &self.stamp {
            _ if self.anyway => Overwrite::Anyway,
            Some(stamp) => Overwrite::IfUnchanged(stamp),
            None => Overwrite::Never,
        };
        save(&self.path, &self.survey, overwrite, backups)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::{Edit, SetUp, VehicleKind};

    fn write(
        document: &mut Document,
        path: &Path,
        anyway: bool,
        backups: &mut Backups,
    ) -> Result<(), SaveError> {
        let asked = document.to_save(path, anyway);
        let stamp = asked.write(backups)?;
        document.saved(path, asked.survey, stamp);
        Ok(())
    }

    #[test]
    fn a_survey_is_unsaved_until_it_is_saved_or_undone() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("van.ron");
        let mut document = Document::new(Survey::new(VehicleKind::PanelVan));
        assert!(!document.unsaved());
        let edit = || Edit::SetUp(SetUp::InUse);
        document.history.apply(edit(), None).unwrap();
        assert!(document.unsaved());
        document.history.undo();
        assert!(!document.unsaved());
        document.history.redo();
        write(&mut document, &path, false, &mut Backups::default()).unwrap();
        assert!(!document.unsaved());
        assert_eq!(document.name(), "van");
    }

    #[test]
    fn a_file_that_somebody_else_wrote_is_kept_until_told_otherwise() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("van.ron");
        let mut backups = Backups::default();
        let mut document = Document::new(Survey::new(VehicleKind::PanelVan));
        write(&mut document, &path, false, &mut backups).unwrap();
        std::fs::write(&path, "somebody else's").unwrap();
        let refused = write(&mut document, &path, false, &mut backups).unwrap_err();
        assert!(matches!(refused, SaveError::ChangedOnDisk { .. }));
        assert_eq!(std::fs::read_to_string(&path).unwrap(), "somebody else's");
        write(&mut document, &path, true, &mut backups).unwrap();
        assert!(crate::survey::file::load(&path).is_ok());
    }
}
