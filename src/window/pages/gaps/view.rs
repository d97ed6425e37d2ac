//! What the Gaps page remembers between frames.

use super::body::view::BodyView;
use super::columns::Columns;
use super::division::Division;
use super::ledger_view::LedgerView;
use super::menu::GapMenu;
use super::quick::view::QuickEntry;
use super::site::view::SiteView;
use super::walk::view::{At, WalkView};
use crate::survey::{GapId, Item, Survey};
use crate::window::context::PageContext;
use crate::window::lightbox::Lightbox;

/// What the page gets to see.
pub(super) type GapsContext<'a> = PageContext<'a, GapsView>;

/// So many earlier selections are remembered.
const EARLIER_MOST: usize = 50;

/// What the page remembers between frames.
#[derive(Clone, Debug, Default)]
pub struct GapsView {
    pub(super) selected: Option<GapId>,
    /// What was selected before, the newest last: undo comes back to it.
    earlier: Vec<Vec<GapId>>,
    /// The ledger: its rows, and what is selected beside the one gap.
    pub(super) ledger: LedgerView,
    /// The form's first field takes the focus in the next frame.
    pub(super) edit_wanted: bool,
    /// The ledger scrolls to the selected row in the next frame.
    pub(super) scroll_wanted: bool,
    /// The unfolded body.
    pub(super) body: BodyView,
    /// The bar for quick entry.
    pub(in crate::window) quick: QuickEntry,
    /// A gap that was asked for, to select once it is in the survey, and whether its form then
    /// takes the focus.
    pub(super) adding: Option<(GapId, bool)>,
    /// What can be done with the selected gaps.
    pub(super) menu: GapMenu,
    /// Name of a zone about to be added.
    pub(super) new_zone: String,
    /// The photo shown large.
    pub(in crate::window) lightbox: Option<Lightbox>,
    /// Where the walk round stands.
    pub(in crate::window) walk: WalkView,
    /// Site mode.
    pub(in crate::window) site: SiteView,
    /// The columns of the ledger; they outlast the survey.
    pub columns: Columns,
    /// How the page is divided; it outlasts the survey.
    pub division: Division,
}

impl GapsView {
    /// With the look of the page as it was stored in an earlier run.
    #[must_use]
    pub fn stored(storage: Option<&dyn eframe::Storage>) -> Self {
        Self {
            columns: Columns::stored(storage),
            division: Division::stored(storage),
            ..Self::default()
        }
    }

    /// Keeps the look of the page for the next run.
    pub fn store(&self, storage: &mut dyn eframe::Storage) {
        self.columns.store(storage);
        self.division.store(storage);
    }

    /// As it begins with another survey: only the look of the page stays.
    #[must_use]
    pub fn for_another_survey(&self) -> Self {
        Self {
            columns: self.columns.clone(),
            division: self.division,
            ..Self::default()
        }
    }

    /// Makes an item visible, for a finding's way to its place.
    pub fn reveal(&mut self, item: Item) {
        if let Item::Gap(id) = item {
            self.select(Some(id));
        }
    }

    /// The selected gap, or the first where none is selected or it is gone.
    #[must_use]
    pub fn selected_in(&self, survey: &Survey) -> Option<GapId> {
        self.selected
            .filter(|&id| survey.gap(id).is_some())
            .or_else(|| survey.gaps.first().map(|gap| gap.id))
    }

    /// Selects a gap.
    pub fn select(&mut self, id: Option<GapId>) {
        if self.selected != id || self.several() {
            let also = self.ledger.also.iter().copied();
            let others = also.filter(|other| Some(*other) != self.selected);
            self.earlier
                .push(self.selected.into_iter().chain(others).collect());
            if self.earlier.len() > EARLIER_MOST {
                self.earlier.remove(0);
            }
        }
        self.selected = id;
        self.ledger.select_one(id);
        self.scroll_wanted = true;
    }

    /// Leads to quick entry, out of the walk round where that is shown.
    pub(in crate::window) fn quick_entry(&mut self) {
        self.division.quick_entry();
        self.quick.jump();
    }

    /// After undo or redo: what came back is selected; where the selected gap is gone, what was
    /// selected before it.
    pub fn after_undo(&mut self, before: &Survey, after: &Survey) {
        let came = after.gaps.iter().map(|gap| gap.id);
        let came: Vec<GapId> = came.filter(|id| before.gap(*id).is_none()).collect();
        if !came.is_empty() {
            self.select_all(&came);
            return;
        }
        if self.selected.is_none_or(|id| after.gap(id).is_some()) {
            return;
        }
        while let Some(mut earlier) = self.earlier.pop() {
            earlier.retain(|id| after.gap(*id).is_some());
            if !earlier.is_empty() {
                self.select_all(&earlier);
                return;
            }
        }
    }

    /// Selects a gap that was just added, whether the filter would show it or not.
    pub fn select_added(&mut self, id: GapId) {
        self.select_and_edit(Some(id));
        self.ledger.added = true;
    }

    /// Selects a gap found on the walk round; the focus goes to its first size.
    pub fn select_found(&mut self, id: GapId) {
        self.select(Some(id));
        self.ledger.added = true;
    }

    /// Shows the walk round, beside the drawing.
    pub fn show_walk(&mut self) {
        self.division.walk();
    }

    /// Whether the usual places are in sight.
    pub(super) fn walks(&self) -> bool {
        self.site.on || self.division.is_walk()
    }

    /// The place of the walk round that is looked at.
    #[must_use]
    pub fn walk_place(&self, survey: &Survey) -> Option<At> {
        self.walk.place_in(survey)
    }

    /// Whether site mode is on.
    #[must_use]
    pub fn in_site_mode(&self) -> bool {
        self.site.on
    }

    /// Keeps looking at this place of the walk round.
    pub(in crate::window) fn stay_at(&mut self, at: At) {
        self.walk.choose(at);
    }

    /// Selects a gap and puts the focus into its form.
    pub fn select_and_edit(&mut self, id: Option<GapId>) {
        self.select(id);
        self.edit_wanted = true;
    }

    /// The unfolded body of this page.
    #[must_use]
    pub fn body(&self) -> &BodyView {
        &self.body
    }

    /// Selects a gap that was just asked for, once it is there.
    pub(super) fn after_adding(&mut self, id: Option<GapId>, edit: bool) {
        self.adding = id.map(|id| (id, edit));
    }

    pub(super) fn select_what_was_added(&mut self, survey: &Survey) {
        match self.adding {
            Some((id, true)) if survey.gap(id).is_some() => self.select_and_edit(Some(id)),
            Some((id, false)) if survey.gap(id).is_some() => self.select(Some(id)),
            _ => return,
        }
        self.ledger.added = true;
        self.adding = None;
    }
}
