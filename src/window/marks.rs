//! What the fields of one item have to show: its findings, and whether the user asked for one.

use crate::survey::{Field, Finding, Item, Place};

/// The findings about one item, and the place the user asked to be taken to.
#[derive(Clone, Copy, Debug)]
pub struct Marks<'a> {
    /// All findings of the survey.
    pub findings: &'a [Finding],
    /// The item.
    pub item: Item,
    /// The place asked for.
    pub wanted: Option<Place>,
}

impl<'a> Marks<'a> {
    /// The worst finding at a field of the item.
    #[must_use]
    pub fn at(&self, field: Field) -> Option<&'a Finding> {
        self.findings
            .iter()
            .filter(|finding| finding.place == Place::at(self.item, field))
            .min_by_key(|finding| finding.severity)
    }

    /// All findings about the item, errors first.
    pub fn all(&self) -> impl Iterator<Item = &'a Finding> + use<'a> {
        let item = self.item;
        self.findings
            .iter()
            .filter(move |finding| finding.place.item == item)
    }

    /// Whether the user asked to be taken to this field.
    #[must_use]
    pub fn wants(&self, field: Field) -> bool {
        self.wanted == Some(Place::at(self.item, field))
    }
}
