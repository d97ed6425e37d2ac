//! Undo and redo: what was undone is told, and the gaps it is about are selected.

use super::App;
use crate::survey::{Severity, step_in_words};
use std::sync::Arc;

impl App {
    /// Undoes the last step, or does again the one that was undone last.
    pub(super) fn step_back(&mut self, undo: bool) {
        // What a notice offers to undo is another step now.
        self.notices.gone_on();
        let Some(document) = &mut self.document else {
            return;
        };
        let history = &mut document.history;
        let before = Arc::clone(history.survey());
        let done = if undo { history.undo() } else { history.redo() };
        let after = Arc::clone(history.survey());
        let sentence = match (done, undo) {
            (false, true) => "There is nothing to undo.".to_owned(),
            (false, false) => "There is nothing to do again.".to_owned(),
            (true, true) => format!("Undone: {}.", step_in_words(&after, &before)),
            (true, false) => format!("Done again: {}.", step_in_words(&before, &after)),
        };
        self.notices.tell(Severity::Note, sentence);
        if done {
            self.view.gaps.after_undo(&before, &after);
        }
    }
}
