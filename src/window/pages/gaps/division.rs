//! Which parts of the Gaps page are shown, and how they share its width: kept between runs.

use eframe::egui::Ui;

/// Which of ledger and unfolded body are shown; the selected gap's form always is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Parts {
    /// The ledger alone.
    Ledger,
    /// The unfolded body alone.
    Body,
    /// Both, one beside the other.
    #[default]
    Both,
    /// The body beside the usual places of the walk round.
    Walk,
}

impl Parts {
    const ALL: [(Self, &'static str, &'static str); 4] = [
        (Self::Ledger, "Ledger", "The ledger over all of the width"),
        (Self::Body, "Body", "The unfolded body, large"),
        (Self::Both, "Both", "The unfolded body beside the ledger"),
        (
            Self::Walk,
            "Walk round",
            "The unfolded body beside the usual places, station by station",
        ),
    ];

    fn name(self) -> &'static str {
        Self::ALL
            .into_iter()
            .find(|(one, ..)| *one == self)
            .map_or("", |(_, name, _)| name)
    }
}

/// Which parts are shown and how they share the width. Outlasts the survey and the run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Division {
    pub(super) parts: Parts,
    /// Share of the body beside the ledger.
    pub(super) both: f32,
    /// Share of the body where the form alone stands beside it.
    pub(super) alone: f32,
    /// Share of the height that the ledger, or the walk round, has above the form.
    pub(super) above: f32,
    /// Share of drawing and places beside the form of site mode.
    pub(super) site: f32,
}

impl Default for Division {
    fn default() -> Self {
        Self {
            parts: Parts::default(),
            both: 0.44,
            alone: 0.62,
            above: 0.42,
            site: 0.48,
        }
    }
}

impl Division {
    /// Whether the walk round is shown.
    pub(super) fn is_walk(self) -> bool {
        self.parts == Parts::Walk
    }

    /// Shows what quick entry stands above: it has no room beside the walk round.
    pub(super) fn quick_entry(&mut self) {
        if self.is_walk() {
            self.parts = Parts::Both;
        }
    }

    /// Shows the walk round.
    pub(super) fn walk(&mut self) {
        self.parts = Parts::Walk;
    }
}

const PARTS_KEY: &str = "gaps parts";
const BOTH_KEY: &str = "body beside ledger";
const ALONE_KEY: &str = "body beside form";
const ABOVE_KEY: &str = "ledger above form";
const SITE_KEY: &str = "site mode";

impl Division {
    /// As it was stored in an earlier run; what cannot be read is as at first.
    #[must_use]
    pub fn stored(storage: Option<&dyn eframe::Storage>) -> Self {
        let mut division = Self::default();
        let Some(storage) = storage else {
            return division;
        };
        let parts = storage.get_string(PARTS_KEY);
        let known = Parts::ALL
            .into_iter()
            .find(|(_, name, _)| parts.as_deref() == Some(*name));
        division.parts = known.map_or(division.parts, |(one, ..)| one);
        for (key, share) in [
            (BOTH_KEY, &mut division.both),
            (ALONE_KEY, &mut division.alone),
            (ABOVE_KEY, &mut division.above),
            (SITE_KEY, &mut division.site),
        ] {
            let kept = storage.get_string(key).and_then(|kept| kept.parse().ok());
            *share = kept.filter(|kept| SHARES.contains(kept)).unwrap_or(*share);
        }
        division
    }

    /// Keeps it for the next run.
    pub fn store(&self, storage: &mut dyn eframe::Storage) {
        storage.set_string(PARTS_KEY, self.parts.name().to_owned());
        storage.set_string(BOTH_KEY, self.both.to_string());
        storage.set_string(ALONE_KEY, self.alone.to_string());
        storage.set_string(ABOVE_KEY, self.above.to_string());
        storage.set_string(SITE_KEY, self.site.to_string());
    }
}

/// Shares of the body that make sense.
pub(super) const SHARES: std::ops::RangeInclusive<f32> = 0.1..=0.9;
/// Draws the choice.
pub(super) fn choose(ui: &mut Ui, division: &mut Division) {
    ui.separator();
    for (one, name, words) in Parts::ALL {
        let label = ui.selectable_label(division.parts == one, name);
        if label.on_hover_text(words).clicked() {
            division.parts = one;
        }
    }
    ui.separator();
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::window::preferences::tests::Stored;

    #[test]
    fn the_division_of_the_page_is_as_it_was_in_the_next_run() {
        let mut stored = Stored::default();
        assert_eq!(Division::stored(Some(&stored)), Division::default());
        for (parts, ..) in Parts::ALL {
            let division = Division {
                parts,
                both: 0.35,
                alone: 0.7,
                above: 0.3,
                site: 0.6,
            };
            division.store(&mut stored);
            assert_eq!(Division::stored(Some(&stored)), division);
        }
        for nonsense in ["NaN", "-4", "wide", "1"] {
            stored.0.insert(BOTH_KEY.to_owned(), nonsense.to_owned());
            let read = Division::stored(Some(&stored));
            assert!(
                (read.both - Division::default().both).abs() < 1e-6,
                "{nonsense}"
            );
        }
    }
}
