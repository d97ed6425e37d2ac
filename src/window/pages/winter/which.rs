//! Which weather the winter is run with: a typical winter, or the weather file in use.

use super::super::super::widgets::{self, Choice};
use super::view::WinterContext;
use crate::survey::{Edit, Stay, TypicalWinter};
use eframe::egui::Ui;

/// What the choice stands at.
#[derive(Clone, Copy, PartialEq)]
enum Which {
    /// Nobody has chosen one.
    Open,
    Typical(TypicalWinter),
    /// The weather file, which outranks a typical winter.
    File,
}

impl Which {
    fn of(stay: &Stay) -> Self {
        if stay.weather_file.is_empty() {
            stay.winter.map_or(Self::Open, Self::Typical)
        } else {
            Self::File
        }
    }

    fn words(self) -> &'static str {
        match self {
            Self::Open => "choose one",
            Self::Typical(winter) => winter.name(),
            Self::File => "the weather file",
        }
    }
}

/// The choice, and beside it what the weather file is called.
pub(super) fn show(ui: &mut Ui, context: &mut WinterContext<'_>) {
    let stay = &context.survey.stay;
    let current = Which::of(stay);
    // The file is chosen below, with its path.
    let first = if current == Which::File {
        Which::File
    } else {
        Which::Open
    };
    let mut options = vec![first];
    options.extend(TypicalWinter::ALL.map(Which::Typical));
    let chosen = Choice::new("Which winter", &current, &options)
        .compact()
        .width(170.0)
        .show(ui, |which| which.words().to_owned());
    match chosen {
        Some(Which::Open) => context.queue.edit(another(stay, None), None),
        Some(Which::Typical(winter)) => context.queue.edit(another(stay, Some(winter)), None),
        Some(Which::File) | None => {}
    }
    if current == Which::File {
        widgets::muted(ui, format!("weather of {}", stay.weather_name()));
    }
}

/// Another typical winter: the user's own months were changed from the old one's, and go with it; so
/// does a weather file, which would outrank what was chosen.
pub(super) fn another(stay: &Stay, winter: Option<TypicalWinter>) -> Edit {
    Edit::Stay(Box::new(Stay {
        winter,
        months: Vec::new(),
        weather_file: String::new(),
        weather_original: String::new(),
        ..stay.clone()
    }))
}
