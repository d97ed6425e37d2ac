//! What the ledger remembers between frames: the wishes about its rows, and which are selected.
//!
//! One gap is *the* selected one, whose form is shown. Others may be selected beside it, to be
//! changed together.

use super::columns::{Column, Editing};
use super::listing::{Listing, Wanted};
use crate::survey::GapId;
use crate::window::widgets::{NumberField, TextField};
use eframe::egui::Id;
use std::collections::BTreeSet;
use std::rc::Rc;

/// What is unfolded above the ledger.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Fold {
    /// Nothing.
    #[default]
    None,
    /// Which gaps are shown, and in which order.
    Filter,
    /// Which columns are shown.
    Columns,
}

/// The field of the form that the ledger led to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum LedAway {
    /// It takes the focus in a moment.
    Soon,
    /// It has it.
    In(Id),
}

/// Gaps that the pointer carries through the ledger.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Carried {
    /// This one, with those selected together with it.
    Gap(GapId),
    /// None any more, though the button is still down.
    Over,
}

/// What the ledger remembers between frames.
#[derive(Clone, Debug, Default)]
pub(super) struct LedgerView {
    pub(super) wanted: Wanted,
    pub(super) fold: Fold,
    /// The column that the keyboard is in; without one it moves by whole rows.
    pub(super) column: Option<Column>,
    /// The column scrolls into sight in the next frame.
    pub(super) column_scroll_wanted: bool,
    /// The cell that is being edited.
    pub(super) cell: Option<Cell>,
    /// The ledger led to a field of the form, and gets the focus back by Enter.
    pub(super) led_away: Option<LedAway>,
    /// The search takes the focus in the next frame.
    pub(super) search_wanted: bool,
    /// Everything selected, where it is more than the one gap.
    pub(super) also: BTreeSet<GapId>,
    /// The selected gap was just added: it is shown whatever the filter says.
    pub(super) added: bool,
    /// Where a range began.
    pub(super) anchor: Option<GapId>,
    /// Gaps carried to another place in the ledger.
    pub(super) carried: Option<Carried>,
    pub(super) listing: Option<Rc<Listing>>,
    pub(super) made: u64,
}

impl LedgerView {
    /// Forgets the gaps selected beside the one, which is now another.
    pub(super) fn select_one(&mut self, id: Option<GapId>) {
        self.also.clear();
        self.anchor = id;
    }
}

/// The cell being edited.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Cell {
    pub(super) gap: GapId,
    pub(super) column: Column,
    /// The option that Enter would take, where the cell offers several.
    pub(super) option: usize,
    /// It was begun in this frame: the key that began it is not its own.
    pub(super) begun: bool,
}

impl Cell {
    /// Whether it offers several options rather than being typed into.
    pub(super) fn offers(&self) -> bool {
        self.column.editing() == Editing::Choice
    }

    /// Id of the input, where there is one: it is made as the fields make theirs.
    pub(super) fn input(&self) -> Option<Id> {
        let of = ("cell", self.gap);
        match self.column.editing() {
            Editing::Words(field) => Some(TextField::id_of(field, of)),
            Editing::Number(field) => Some(NumberField::id_of(field, of)),
            _ => None,
        }
    }
}

/// Id of the ledger, which takes the focus for all its rows.
pub(super) fn ledger_id() -> Id {
    Id::unique("the ledger")
}
