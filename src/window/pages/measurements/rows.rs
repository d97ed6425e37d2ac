//! What lists of readings share: the button that adds rows, and where the focus goes then.

use crate::window::widgets;
use eframe::egui;
use egui::{Id, Ui};
use std::fmt::Debug;
use std::hash::Hash;

/// Rows that a new list has: as many readings as are asked for at least.
const AT_FIRST: usize = 5;
/// Under which the window keeps what takes the focus once it is drawn.
const WANTED: &str = "reading that takes the focus";

/// The button of a list that has so many rows: how many more are asked for. `first` is the id of the
/// first input of a row; that of the first new one takes the focus ([`is_wanted`]), so that readings
/// can be typed at once. The button stays itself when the list above it comes and grows.
pub(super) fn add(
    ui: &mut Ui,
    (of, name): (impl Hash + Debug, &str),
    rows: usize,
    first: impl FnOnce(usize) -> Id,
) -> usize {
    let add = widgets::steady(ui, ("add a reading", of), |ui| ui.button("Add a reading"));
    widgets::tell_name(ui, add.id, name);
    if !add.clicked() {
        return 0;
    }
    let to = first(rows);
    ui.data_mut(|data| data.insert_temp(Id::unique(WANTED), to));
    ui.ctx().request_repaint();
    if rows == 0 { AT_FIRST } else { 1 }
}

/// Whether the input with this id takes the focus in this frame. A list that is new is measured first:
/// until it is drawn nothing in it can.
pub(super) fn is_wanted(ui: &Ui, id: Id) -> bool {
    let key = Id::unique(WANTED);
    let wanted = ui.data(|data| data.get_temp::<Id>(key)) == Some(id);
    if wanted && ui.is_enabled() {
        ui.data_mut(|data| data.remove::<Id>(key));
        return true;
    }
    false
}
