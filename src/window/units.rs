//! The units that the window shows: told once in a frame, known to every widget.

use crate::assess::shown::Shown;
use eframe::egui;
use egui::{Context, Id};
use std::sync::Arc;

fn key() -> Id {
    Id::unique("units shown")
}

/// Says how sizes are shown from now on.
pub fn tell(ctx: &Context, shown: Arc<Shown>) {
    ctx.data_mut(|data| data.insert_temp(key(), shown));
}

/// How sizes are shown.
#[must_use]
pub fn shown(ctx: &Context) -> Arc<Shown> {
    ctx.data(|data| data.get_temp::<Arc<Shown>>(key()))
        .unwrap_or_default()
}

/// A text with its sizes in the units shown.
#[must_use]
pub fn text(ctx: &Context, text: &str) -> String {
    shown(ctx).text(text).into_owned()
}
