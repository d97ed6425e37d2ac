//! What the Job sheet page remembers; the workshop's words are kept between runs.

use crate::sheet::WorkshopTexts;
use crate::sheet::csv::ByteOrderMark;
use crate::window::context::PageContext;
use crate::window::typesetting::SheetChoices;
use std::ops::Range;

/// What the page gets to see.
pub(super) type JobSheetContext<'a> = PageContext<'a, JobSheetView>;

/// What the page remembers.
#[derive(Clone, Debug, Default)]
pub struct JobSheetView {
    /// What is printed.
    pub choices: SheetChoices,
    /// How tables begin.
    pub mark: ByteOrderMark,
    /// Pages in sight and their width in pixels, as last drawn.
    pub(in crate::window) in_sight: Option<(Range<usize>, u32)>,
    /// The pages stand below the choices rather than beside them.
    pub(in crate::window) below: bool,
    /// The pages are scrolled to in the next frame.
    pub(in crate::window) pages_wanted: bool,
}

/// Where the workshop's words are kept between runs.
const WORKSHOP_KEY: &str = "workshop";
const LOGO_KEY: &str = "workshop logo";

/// Where one of the workshop's texts is kept; the name as it always was.
fn key(name: &str) -> String {
    match name {
        "name" => WORKSHOP_KEY.to_owned(),
        name => format!("{WORKSHOP_KEY} {name}"),
    }
}

impl JobSheetView {
    /// As it begins with another survey: what was chosen stays.
    #[must_use]
    pub fn for_another_survey(&self) -> Self {
        Self {
            in_sight: None,
            ..self.clone()
        }
    }

    /// With the workshop as it was stored in an earlier run.
    #[must_use]
    pub fn stored(storage: Option<&dyn eframe::Storage>) -> Self {
        let mut view = Self::default();
        if let Some(storage) = storage {
            let stored = |key: &str| storage.get_string(key).unwrap_or_default();
            for text in WorkshopTexts::ALL {
                *(text.of)(&mut view.choices.workshop) = stored(&key(text.key));
            }
            view.choices.logo = stored(LOGO_KEY);
        }
        view
    }

    /// Keeps the workshop for the next run.
    pub fn store(&self, storage: &mut dyn eframe::Storage) {
        let mut texts = self.choices.workshop.clone();
        for text in WorkshopTexts::ALL {
            storage.set_string(&key(text.key), (text.of)(&mut texts).clone());
        }
        storage.set_string(LOGO_KEY, self.choices.logo.clone());
    }
}
