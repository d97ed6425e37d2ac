//! What the Air change page remembers between frames.

use super::drawings::Drawings;
use crate::figure::RoseFrame;
use crate::survey::{Item, WeatherId};
use crate::window::context::PageContext;
use crate::window::widgets::Ways;

/// What the page gets to see.
pub(super) type AirChangeContext<'a> = PageContext<'a, AirChangeView>;

/// What the page remembers between frames.
#[derive(Clone, Debug, Default)]
pub struct AirChangeView {
    pub(super) case: Option<WeatherId>,
    pub(super) direction: usize,
    pub(super) ledger_order: bool,
    pub(super) by_compass: bool,
    pub(super) ways: Ways<Part>,
    /// The parts that are unfolded; they outlast the survey and the run.
    pub(super) open: Open,
    pub(super) drawings: Drawings,
}

impl AirChangeView {
    /// With what was unfolded in an earlier run.
    #[must_use]
    pub fn stored(storage: Option<&dyn eframe::Storage>) -> Self {
        Self {
            open: Open::stored(storage),
            ..Self::default()
        }
    }

    /// Keeps what is unfolded for the next run.
    pub fn store(&self, storage: &mut dyn eframe::Storage) {
        self.open.store(storage);
    }

    /// As it begins with another survey: what is unfolded stays.
    #[must_use]
    pub fn for_another_survey(&self) -> Self {
        Self {
            open: self.open,
            ..Self::default()
        }
    }

    /// Makes an item visible, for a finding's way to its place.
    pub fn reveal(&mut self, item: Item) {
        if let Item::Weather(id) = item {
            self.case = Some(id);
        }
    }

    /// What is up on the rose.
    pub(super) fn frame(&self) -> RoseFrame {
        if self.by_compass {
            RoseFrame::Compass
        } else {
            RoseFrame::Vehicle
        }
    }

    /// How many drawings and tables were made since the survey was opened.
    #[must_use]
    pub fn times_drawn(&self) -> u64 {
        self.drawings.times_made()
    }

    /// How many parts are unfolded.
    #[must_use]
    pub fn unfolded(&self) -> usize {
        self.open.0.iter().filter(|open| **open).count()
    }

    /// Number of the wind direction whose flows are shown, clockwise from the front.
    #[must_use]
    pub fn direction(&self) -> usize {
        self.direction
    }
}

/// The parts of the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Part {
    Picture,
    Cases,
    Flows,
    Sure,
    Curves,
    Dependence,
}

impl Part {
    pub(super) const ALL: [(Self, &'static str); 6] = [
        (Self::Picture, "picture"),
        (Self::Cases, "weather cases"),
        (Self::Flows, "air through each gap"),
        (Self::Sure, "how sure, what to measure next"),
        (Self::Curves, "against the wind"),
        (Self::Dependence, "warmth, parking, doors inside"),
    ];

    /// Its heading while it is folded away; the picture never is.
    pub(super) fn heading(self) -> Option<&'static str> {
        match self {
            Self::Picture => None,
            Self::Cases => Some("Weather cases side by side"),
            Self::Flows => Some("Air through each gap"),
            Self::Sure => Some("How sure, and what to measure next"),
            Self::Curves => Some("Air changes against the wind"),
            Self::Dependence => Some("Warmth, parking, doors inside"),
        }
    }
}

/// Which parts are unfolded.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Open([bool; Part::ALL.len()]);

const OPEN_KEY: &str = "air change unfolded";

impl Open {
    fn stored(storage: Option<&dyn eframe::Storage>) -> Self {
        let kept = storage.and_then(|storage| storage.get_string(OPEN_KEY));
        let kept = kept.unwrap_or_default();
        let names: Vec<&str> = kept.split('\n').collect();
        Self(Part::ALL.map(|(_, name)| names.contains(&name)))
    }

    fn store(self, storage: &mut dyn eframe::Storage) {
        let parts = Part::ALL.iter().zip(self.0);
        let open: Vec<&str> = parts
            .filter(|(_, open)| *open)
            .map(|((_, name), _)| *name)
            .collect();
        storage.set_string(OPEN_KEY, open.join("\n"));
    }

    pub(super) fn of(&mut self, part: Part) -> Option<&mut bool> {
        let at = Part::ALL.iter().position(|(one, _)| *one == part)?;
        self.0.get_mut(at)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::window::preferences::tests::Stored;

    #[test]
    fn what_was_unfolded_is_so_in_the_next_run() {
        let mut stored = Stored::default();
        let mut view = AirChangeView::stored(Some(&stored));
        assert_eq!(view.open, Open::default());
        for (part, _) in Part::ALL {
            *view.open.of(part).unwrap() = true;
            view.store(&mut stored);
            assert_eq!(AirChangeView::stored(Some(&stored)).open, view.open);
        }
        assert_eq!(view.for_another_survey().open, view.open);
    }
}
