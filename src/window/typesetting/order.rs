//! What is asked of the setting of sheets.

use super::put_away::{PutAway, Shelf};
use super::setter::Setter;
use crate::assess::shown::Units;
use crate::sheet::blocks::Picture;
use crate::sheet::setting::Look;
use crate::sheet::{Kind, Paper, Part, WorkshopTexts};
use crate::survey::date::DateWay;
use crate::window::answers::{Effort, Revised};
use std::collections::{BTreeMap, BTreeSet};
use std::io;
use std::path::PathBuf;
use std::sync::Arc;

/// What is chosen on the page; pictures by their paths.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SheetChoices {
    /// Which sheet.
    pub kind: Kind,
    /// On what paper.
    pub paper: Paper,
    /// Parts that are printed.
    pub parts: BTreeSet<Part>,
    /// What the workshop says on its papers.
    pub workshop: WorkshopTexts,
    /// Path of its logo; empty for none.
    pub logo: String,
    /// Units that sizes are printed in: those of the window.
    pub units: Units,
    /// How dates are written.
    pub dates: DateWay,
}

impl Default for SheetChoices {
    fn default() -> Self {
        Self {
            kind: Kind::default(),
            paper: Paper::default(),
            parts: Part::usual(),
            workshop: WorkshopTexts::default(),
            logo: String::new(),
            units: Units::default(),
            dates: DateWay::default(),
        }
    }
}

/// What a sheet is of: equal keys are equal sheets.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SheetKey {
    /// Revision of the survey.
    pub revision: u64,
    /// What was chosen.
    pub choices: SheetChoices,
}

/// The photos of a survey, which stay the same while only choices change.
pub(super) struct PrintCopies {
    pub(super) revision: u64,
    pub(super) path: Option<PathBuf>,
    copies: BTreeMap<String, Copy>,
}

/// A photo made ready, and put away.
struct Copy {
    width: u32,
    height: u32,
    bytes: PutAway,
}

impl PrintCopies {
    /// Puts photos away until they are wanted again.
    pub(super) fn put_away(
        revision: u64,
        path: Option<PathBuf>,
        pictures: &BTreeMap<String, Picture>,
    ) -> Self {
        let shelf = Shelf::new();
        let put = |picture: &Picture| Copy {
            width: picture.width,
            height: picture.height,
            bytes: shelf.put(picture.bytes.to_vec()),
        };
        let copies = pictures
            .iter()
            .map(|(name, picture)| (name.clone(), put(picture)));
        Self {
            revision,
            path,
            copies: copies.collect(),
        }
    }

    /// The photos again.
    ///
    /// # Errors
    /// Those of the disk.
    pub(super) fn pictures(&self) -> io::Result<BTreeMap<String, Picture>> {
        let again = |(name, copy): (&String, &Copy)| {
            let picture = Picture {
                width: copy.width,
                height: copy.height,
                bytes: Arc::new(copy.bytes.bytes()?),
            };
            Ok((name.clone(), picture))
        };
        self.copies.iter().map(again).collect()
    }
}

/// A sheet to set.
pub(super) struct Order {
    pub(super) key: SheetKey,
    pub(super) of: Arc<Revised>,
    /// The survey's file, beside which the photos are.
    pub(super) path: Option<PathBuf>,
    /// Photos made ready before, where there are any.
    pub(super) photos: Option<Arc<PrintCopies>>,
    pub(super) effort: Effort,
    /// Where it is set.
    pub(super) setter: Setter,
    /// How its pages are drawn.
    pub(super) look: Look,
}
