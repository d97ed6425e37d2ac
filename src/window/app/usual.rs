//! Filling in what is usual for the vehicle's kind, and telling what it filled.

use super::App;
use crate::report::usual;
use crate::survey::{Edit, Severity};
use std::sync::Arc;

impl App {
    /// Fills it in with the weather of the winter chosen on the Vehicle page.
    pub(super) fn fill_usual(&mut self) {
        let Some(document) = &self.document else {
            return;
        };
        let before = Arc::clone(document.history.survey());
        let winter = self.view.vehicle.winter_in(&before);
        self.edit(Edit::Usual(winter), None);
        let Some(document) = &self.document else {
            return;
        };
        let after = document.history.survey();
        let sentence = usual::filled(&before, after);
        if Arc::ptr_eq(&before, after) {
            self.notices.tell(Severity::Note, sentence);
        } else {
            self.notices.tell_undoable(sentence);
        }
    }
}
