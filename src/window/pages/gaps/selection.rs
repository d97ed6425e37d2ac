//! Which rows of the ledger are shown, and which are selected.

use super::listing::{Filter, Listing};
use super::view::{GapsContext, GapsView};
use crate::survey::{GapId, Survey};
use std::collections::BTreeSet;
use std::rc::Rc;

/// The rows to show, made anew only where survey, results or wishes have changed.
pub(super) fn listing(context: &mut GapsContext<'_>) -> Rc<Listing> {
    let (survey, results) = (context.survey, context.results);
    let revision = context.revision;
    let ledger = &mut context.view.ledger;
    let kept = ledger.listing.take();
    let listing = match kept {
        Some(kept) if kept.holds_for(revision, results, &ledger.wanted) => kept,
        kept => {
            ledger.made += 1;
            let before = kept.as_deref();
            let new = Listing::new(survey, revision, results, &ledger.wanted, before);
            Rc::new(new)
        }
    };
    ledger.listing = Some(Rc::clone(&listing));
    // What is out of sight is not changed together with what is in sight.
    if !ledger.also.is_empty() {
        let shown: BTreeSet<GapId> = listing.lines.iter().map(|line| line.id).collect();
        ledger.also.retain(|id| shown.contains(id));
        let kept: Vec<GapId> = ledger.also.iter().copied().collect();
        let primary = context.view.selected;
        if primary.is_none_or(|id| !kept.contains(&id)) && !kept.is_empty() {
            context.view.selected = kept.first().copied();
        }
    }
    listing
}

impl GapsView {
    /// Everything selected, in the order of the survey: the one gap and those beside it.
    #[must_use]
    pub fn chosen_in(&self, survey: &Survey) -> Vec<GapId> {
        let one = self.selected_in(survey);
        survey
            .gaps
            .iter()
            .map(|gap| gap.id)
            .filter(|id| Some(*id) == one || self.ledger.also.contains(id))
            .collect()
    }

    /// The gaps in the order that the ledger shows; in the survey's before it was first drawn.
    #[must_use]
    pub fn shown_in(&self, survey: &Survey) -> Vec<GapId> {
        match &self.ledger.listing {
            Some(listing) => listing.lines.iter().map(|line| line.id).collect(),
            None => survey.gaps.iter().map(|gap| gap.id).collect(),
        }
    }

    /// Selects several gaps; the first of them is the one whose form is shown.
    pub fn select_all(&mut self, ids: &[GapId]) {
        self.select(ids.first().copied());
        if ids.len() > 1 {
            self.ledger.also = ids.iter().copied().collect();
        }
    }

    /// Selects gaps that were pasted, which are then shown whatever was searched for.
    pub fn select_pasted(&mut self, ids: &[GapId]) {
        self.ledger.wanted.filter = Filter::default();
        self.select_all(ids);
        self.ledger.added = true;
    }

    /// Selects every row that the ledger shows.
    pub fn select_everything(&mut self, survey: &Survey) {
        let shown = self.shown_in(survey);
        let one = self.selected.filter(|id| shown.contains(id));
        self.select(one.or_else(|| shown.first().copied()));
        self.ledger.also = shown.into_iter().collect();
    }

    /// Whether the rows stand in another order than that of the survey.
    #[must_use]
    pub fn is_sorted(&self) -> bool {
        self.ledger.wanted.sort.is_some()
    }

    /// Scrolls the ledger to the selected row, which is at another place now.
    pub fn keep_in_sight(&mut self) {
        self.scroll_wanted = true;
    }

    /// Asks the search field to take the focus.
    pub fn search(&mut self) {
        self.ledger.search_wanted = true;
    }

    /// How often the rows were gathered, sorted and added up.
    #[must_use]
    pub fn times_listed(&self) -> u64 {
        self.ledger.made
    }

    /// The gaps selected together, where several are.
    pub(super) fn also(&self) -> impl Iterator<Item = GapId> {
        self.ledger.also.iter().copied()
    }

    /// Whether a row is drawn as selected.
    pub(super) fn is_chosen(&self, id: GapId, one: Option<GapId>) -> bool {
        one == Some(id) || self.ledger.also.contains(&id)
    }

    /// How many are selected where several are.
    pub(super) fn several(&self) -> bool {
        self.ledger.also.len() > 1
    }

    /// Selects a row, or everything from where the range began to it.
    pub(super) fn move_to(
        &mut self,
        listing: &Listing,
        one: Option<GapId>,
        id: GapId,
        extend: bool,
    ) {
        let anchor = self.ledger.anchor.or(one);
        let ends = anchor.and_then(|anchor| Some((listing.row(anchor)?, listing.row(id)?)));
        self.select(Some(id));
        let (true, Some((from, to))) = (extend, ends) else {
            return;
        };
        self.ledger.anchor = anchor;
        let range = from.min(to)..=from.max(to);
        let lines = listing.lines.get(range).unwrap_or_default();
        self.ledger.also = lines.iter().map(|line| line.id).collect();
    }

    /// Adds a row to what is selected, or takes it out.
    pub(super) fn toggle(&mut self, id: GapId, one: Option<GapId>) {
        let mut also = std::mem::take(&mut self.ledger.also);
        also.extend(one);
        let mut now = Some(id);
        if !also.insert(id) && also.len() > 1 {
            also.remove(&id);
            if one == Some(id) {
                now = also.first().copied();
            } else {
                now = one;
            }
        }
        self.select(now);
        self.ledger.also = also;
    }
}
