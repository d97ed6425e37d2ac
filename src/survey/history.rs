//! Undo and redo: snapshots of the survey behind shared pointers.
//!
//! Dragging a mark or typing into one field is a single step: edits that carry the same
//! [`MergeKey`] one after the other share the snapshot taken before the first of them.

use super::Survey;
use super::edit::{Edit, EditRefused};
use super::step::step_in_words;
use std::collections::VecDeque;
use std::sync::Arc;

/// How many steps can be undone.
pub const STEPS_KEPT: usize = 100;

/// Names what is being typed into or dragged; equal keys in a row make one step.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct MergeKey(pub String);

/// A survey with its past and the steps that were undone.
#[derive(Clone, Debug)]
pub struct History {
    now: Arc<Survey>,
    past: VecDeque<Arc<Survey>>,
    undone: Vec<Arc<Survey>>,
    open_step: Option<MergeKey>,
    revision: u64,
}

impl History {
    /// Starts from a survey, with nothing to undo.
    #[must_use]
    pub fn new(survey: Survey) -> Self {
        Self {
            now: Arc::new(survey),
            past: VecDeque::new(),
            undone: Vec::new(),
            open_step: None,
            revision: 0,
        }
    }

    /// The survey as it is now.
    #[must_use]
    pub fn survey(&self) -> &Arc<Survey> {
        &self.now
    }

    /// Grows by one with every change, undo and redo; equal revisions are equal surveys.
    #[must_use]
    pub fn revision(&self) -> u64 {
        self.revision
    }

    /// Makes one change. An edit that changes nothing is not a step.
    ///
    /// # Errors
    /// [`EditRefused`]; the survey and its history are then unchanged.
    pub fn apply(&mut self, edit: Edit, merge: Option<MergeKey>) -> Result<(), EditRefused> {
        let mut changed = Survey::clone(&self.now);
        changed.apply(edit)?;
        if changed == *self.now {
            return Ok(());
        }
        let same_step = merge.is_some() && merge == self.open_step;
        if !same_step {
            self.past.push_back(Arc::clone(&self.now));
            if self.past.len() > STEPS_KEPT {
                self.past.pop_front();
            }
        }
        self.open_step = merge;
        self.undone.clear();
        self.now = Arc::new(changed);
        self.revision += 1;
        Ok(())
    }

    /// Ends the step being typed or dragged: the next edit is a new one.
    pub fn close_step(&mut self) {
        self.open_step = None;
    }

    /// Takes back the step that is being typed or dragged, as if it had never begun.
    pub fn abort_step(&mut self) {
        if self.open_step.take().is_some()
            && let Some(before) = self.past.pop_back()
        {
            self.now = before;
            self.revision += 1;
        }
    }

    /// Whether there is a step to undo.
    #[must_use]
    #[cfg(test)]
    pub fn can_undo(&self) -> bool {
        !self.past.is_empty()
    }

    /// What undo would take back, in words.
    #[must_use]
    pub fn last_step(&self) -> Option<String> {
        Some(step_in_words(self.past.back()?, &self.now))
    }

    /// Undoes one step; false when there is none.
    pub fn undo(&mut self) -> bool {
        self.open_step = None;
        let Some(before) = self.past.pop_back() else {
            return false;
        };
        self.undone.push(std::mem::replace(&mut self.now, before));
        self.revision += 1;
        true
    }

    /// Redoes one step; false when there is none.
    pub fn redo(&mut self) -> bool {
        self.open_step = None;
        let Some(after) = self.undone.pop() else {
            return false;
        };
        self.past.push_back(std::mem::replace(&mut self.now, after));
        self.revision += 1;
        true
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::{SetUp, VehicleKind};

    fn titled(history: &History, title: &str) -> Edit {
        let mut header = history.survey().header.clone();
        header.title = title.to_owned();
        Edit::Header(header)
    }

    #[test]
    fn undo_and_redo_walk_the_same_states() {
        let mut history = History::new(Survey::new(VehicleKind::Other));
        let first = Arc::clone(history.survey());
        history.apply(titled(&history, "one"), None).unwrap();
        history.apply(titled(&history, "two"), None).unwrap();
        let last = Arc::clone(history.survey());
        assert!(history.undo() && history.undo() && !history.undo());
        assert_eq!(*history.survey(), first);
        assert!(history.redo() && history.redo() && !history.redo());
        assert_eq!(*history.survey(), last);
    }

    #[test]
    fn typing_is_one_step_and_esc_takes_it_back() {
        let key = || Some(MergeKey("title".into()));
        let mut history = History::new(Survey::new(VehicleKind::Other));
        let first = Arc::clone(history.survey());
        for title in ["f", "fa", "farm"] {
            history.apply(titled(&history, title), key()).unwrap();
        }
        assert!(history.undo());
        assert_eq!(*history.survey(), first);
        history.redo();
        history.apply(titled(&history, "x"), key()).unwrap();
        history.abort_step();
        assert_eq!(history.survey().header.title, "farm");
    }

    #[test]
    fn an_edit_that_changes_nothing_is_not_a_step() {
        let mut history = History::new(Survey::new(VehicleKind::Other));
        let set_up = history.survey().set_up;
        history.apply(Edit::SetUp(set_up), None).unwrap();
        assert!(!history.can_undo() && history.last_step().is_none());
        assert_eq!(history.revision(), 0);
        history.apply(Edit::SetUp(SetUp::InUse), None).unwrap();
        assert!(history.can_undo());
        assert_eq!(history.last_step().as_deref(), Some("set-up"));
    }

    #[test]
    fn only_a_hundred_steps_are_kept() {
        let mut history = History::new(Survey::new(VehicleKind::Other));
        for step in 0..(STEPS_KEPT + 20) {
            history
                .apply(titled(&history, &step.to_string()), None)
                .unwrap();
        }
        let mut undone = 0;
        while history.undo() {
            undone += 1;
        }
        assert_eq!(undone, STEPS_KEPT);
    }
}
