//! What the user chose for the window: colours, size, units, page. Kept between runs.

use super::page::Page;
use super::theme;
use crate::assess::shown::Units;
use eframe::egui;
use egui::ThemePreference;

/// Colours, size, units, first steps and page.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Preferences {
    /// Light, dark, or as the system.
    pub theme: ThemePreference,
    /// Size of everything: 1 to 2.
    pub zoom: f32,
    /// Inputs and buttons at least 44 points high.
    pub touch: bool,
    /// Units that sizes are shown and read in.
    pub units: Units,
    /// The first steps were put away.
    pub guide_seen: bool,
    /// The page that was shown last.
    pub page: Option<Page>,
}

/// Sizes on offer.
pub const ZOOM_RANGE: std::ops::RangeInclusive<f32> = 1.0..=2.0;

const THEME_KEY: &str = "colours";
const ZOOM_KEY: &str = "zoom";
const TOUCH_KEY: &str = "touch";
const GUIDE_KEY: &str = "first steps";
/// What a switch that is on is stored as.
const ON: &str = "on";
const PAGE_KEY: &str = "page";
const UNITS_KEY: &str = "units";

impl Default for Preferences {
    fn default() -> Self {
        Self {
            theme: ThemePreference::System,
            zoom: 1.0,
            touch: false,
            units: Units::default(),
            guide_seen: false,
            page: None,
        }
    }
}

impl Preferences {
    /// As they were stored in an earlier run; what cannot be read is as at first.
    #[must_use]
    pub fn stored(storage: Option<&dyn eframe::Storage>) -> Self {
        let mut preferences = Self::default();
        let Some(storage) = storage else {
            return preferences;
        };
        preferences.theme = match storage.get_string(THEME_KEY).as_deref() {
            Some("light") => ThemePreference::Light,
            Some("dark") => ThemePreference::Dark,
            _ => ThemePreference::System,
        };
        if let Some(zoom) = storage
            .get_string(ZOOM_KEY)
            .and_then(|zoom| zoom.parse().ok())
        {
            preferences.set_zoom(zoom);
        }
        let on = |key| storage.get_string(key).as_deref() == Some(ON);
        preferences.touch = on(TOUCH_KEY);
        preferences.guide_seen = on(GUIDE_KEY);
        let units = storage.get_string(UNITS_KEY);
        preferences.units = Units::ALL
            .into_iter()
            .find(|known| units.as_deref() == Some(known.name()))
            .unwrap_or_default();
        let page = storage.get_string(PAGE_KEY);
        preferences.page = Page::ALL
            .into_iter()
            .find(|known| page.as_deref() == Some(known.name()));
        preferences
    }

    /// Keeps them for the next run.
    pub fn store(&self, storage: &mut dyn eframe::Storage) {
        let word = match self.theme {
            ThemePreference::Light => "light",
            ThemePreference::Dark => "dark",
            ThemePreference::System => "system",
        };
        storage.set_string(THEME_KEY, word.to_owned());
        storage.set_string(ZOOM_KEY, self.zoom.to_string());
        storage.set_string(UNITS_KEY, self.units.name().to_owned());
        for (key, on) in [(TOUCH_KEY, self.touch), (GUIDE_KEY, self.guide_seen)] {
            storage.set_string(key, if on { ON } else { "off" }.to_owned());
        }
        if let Some(page) = self.page {
            storage.set_string(PAGE_KEY, page.name().to_owned());
        }
    }

    /// Sets the size, within what is on offer, in steps of a tenth.
    pub fn set_zoom(&mut self, zoom: f32) {
        if zoom.is_finite() {
            let tenths = (zoom * 10.0).round() / 10.0;
            self.zoom = tenths.clamp(*ZOOM_RANGE.start(), *ZOOM_RANGE.end());
        }
    }

    /// Makes the window look so.
    pub fn apply(&self, ctx: &egui::Context) {
        theme::size(ctx, self.touch);
        ctx.set_theme(self.theme);
        ctx.set_zoom_factor(self.zoom);
    }
}

#[cfg(test)]
pub(super) mod tests {
    use super::*;
    use std::collections::BTreeMap;

    /// What is kept between runs.
    #[derive(Debug, Default)]
    pub(in crate::window) struct Stored(pub(in crate::window) BTreeMap<String, String>);

    impl eframe::Storage for Stored {
        fn get_string(&self, key: &str) -> Option<String> {
            self.0.get(key).cloned()
        }

        fn set_string(&mut self, key: &str, value: String) {
            self.0.insert(key.to_owned(), value);
        }

        fn remove_string(&mut self, key: &str) {
            self.0.remove(key);
        }

        fn flush(&mut self) {}
    }

    #[test]
    fn what_was_chosen_is_as_it_was_in_the_next_run() {
        let mut stored = Stored::default();
        assert_eq!(Preferences::stored(Some(&stored)), Preferences::default());
        for page in Page::ALL {
            let preferences = Preferences {
                theme: ThemePreference::Dark,
                zoom: 1.3,
                page: Some(page),
                touch: true,
                guide_seen: true,
                units: Units::UsCustomary,
            };
            preferences.store(&mut stored);
            assert_eq!(Preferences::stored(Some(&stored)), preferences);
        }
        stored
            .0
            .insert(PAGE_KEY.to_owned(), "a later page".to_owned());
        stored.0.insert(ZOOM_KEY.to_owned(), "large".to_owned());
        let preferences = Preferences::stored(Some(&stored));
        assert_eq!((preferences.page, preferences.zoom), (None, 1.0));
    }

    #[test]
    fn the_size_stays_within_what_is_on_offer() {
        let mut preferences = Preferences::default();
        for (asked, given) in [(1.1, 1.1), (0.2, 1.0), (7.0, 2.0), (1.5499, 1.5)] {
            preferences.set_zoom(asked);
            assert!((preferences.zoom - given).abs() < 1e-6, "{asked}");
        }
        preferences.set_zoom(f32::NAN);
        assert!((preferences.zoom - 1.5).abs() < 1e-6);
    }
}
