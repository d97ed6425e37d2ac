//! The guide on one page of paper, in the words of the window's help.

use crate::assess::shown::Shown;
use crate::report::guide::{TITLE, sections};
use crate::sheet::blocks::{Sheet, SheetText};
use crate::sheet::choices::Paper;
use crate::survey::VehicleKind;

/// The guide for such a vehicle. Nobody's survey and no workshop stands on it.
#[must_use]
pub fn guide(kind: VehicleKind, paper: Paper, shown: &Shown) -> Sheet {
    let text = SheetText {
        title: TITLE.to_owned(),
        kind: "Guide".to_owned(),
        author: String::new(),
        date: None,
        facts: vec![("Vehicle".to_owned(), kind.name().to_owned())],
        foot: TITLE.to_owned(),
        paper: paper.typeset_name(),
        workshop: String::new(),
        address: String::new(),
        logo: None,
        logo_mm: Default::default(),
        cover: None,
        dense: true,
        sections: sections(kind),
    };
    Sheet {
        text: text.shown(shown),
        files: Vec::new(),
        refused: None,
    }
}
