//! A whole sheet as plain data, from which the template sets the pages.
//!
//! Every number is text here already, formatted once, so that the sheet cannot say anything else
//! than the other surfaces.

use crate::assess::shown::Shown;
use crate::report::Section;
use serde::Serialize;
use std::sync::Arc;

/// A whole sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sheet {
    /// What stands on it.
    pub text: SheetText,
    /// Pictures and drawings by the names that the text calls them.
    pub files: Vec<(String, Picture)>,
    /// Why it is not to be printed, where it is not.
    pub refused: Option<String>,
}

/// A picture as the bytes of its file: JPEG, PNG or SVG.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Picture {
    /// The bytes; shared, since pictures go from hand to hand.
    pub bytes: Arc<Vec<u8>>,
    /// Width, in any unit.
    pub width: u32,
    /// Height, in the same unit.
    pub height: u32,
}

/// The text of a sheet.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct SheetText {
    /// Title of the document.
    pub title: String,
    /// What sort of sheet it is.
    pub kind: String,
    /// Who made the survey.
    pub author: String,
    /// The survey's date as year, month, day, where it is one.
    pub date: Option<(u16, u8, u8)>,
    /// Lines under the title: name and value.
    pub facts: Vec<(String, String)>,
    /// What stands at the foot of every page.
    pub foot: String,
    /// `a4` or `us-letter`.
    pub paper: &'static str,
    /// Name of the workshop.
    pub workshop: String,
    /// Its address.
    pub address: String,
    /// Name of the logo's file.
    pub logo: Option<String>,
    /// Width and height of the logo on paper, mm.
    pub logo_mm: (String, String),
    /// Name of the file with the vehicle's outline, and what it shows; beside the lines under the title.
    pub cover: Option<(String, String)>,
    /// Whether it is set smaller, so that it takes one page.
    pub dense: bool,
    /// The sections.
    pub sections: Vec<Section>,
}

impl SheetText {
    /// The same in the units chosen.
    #[must_use]
    pub fn shown(self, shown: &Shown) -> Self {
        if shown.changes_nothing() {
            return self;
        }
        let sections = self.sections.iter();
        let facts = self.facts.iter();
        Self {
            sections: sections
                .map(|section| section.shown(shown).into_owned())
                .collect(),
            facts: facts
                .map(|(name, value)| (name.clone(), shown.text(value).into_owned()))
                .collect(),
            foot: shown.text(&self.foot).into_owned(),
            ..self
        }
    }
}
