//! Which openings that protect people an edit would call something else.

use super::edit::{Edit, Record};
use super::{Gap, Survey};

impl Survey {
    /// The gaps that an edit takes from the openings that protect people, as they stand now.
    #[must_use]
    pub fn given_up_by(&self, edit: &Edit) -> Vec<&Gap> {
        match edit {
            Edit::Put(Record::Gap(gap)) if !gap.purpose.must_stay_open() => {
                let old = self.gap(gap.id);
                let protects = |old: &&Gap| old.purpose.must_stay_open();
                old.filter(protects).into_iter().collect()
            }
            Edit::Several(edits) => edits
                .iter()
                .flat_map(|edit| self.given_up_by(edit))
                .collect(),
            _ => Vec::new(),
        }
    }
}
