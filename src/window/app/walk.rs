//! What is said of the usual places on the walk round, and site mode.

use super::App;
use crate::survey::{Edit, Item, Outcome, Place, Visit, stations};
use crate::window::commands::Command;
use crate::window::page::Page;
use crate::window::theme;
use eframe::egui;
use std::sync::Arc;

impl App {
    /// Runs a command of the walk round.
    pub(super) fn walk_command(&mut self, command: Command) {
        let Some(document) = &self.document else {
            return;
        };
        let survey = Arc::clone(document.history.survey());
        self.view.page = Page::Gaps;
        if command == Command::WalkRound {
            if !self.view.gaps.site.on {
                self.view.gaps.show_walk();
            }
            self.view.gaps.walk.come_back(&survey);
            return;
        }
        let Some((station, place)) = self.view.gaps.walk.place_in(&survey) else {
            return;
        };
        let outcome = match command {
            Command::Found => return self.found(),
            Command::LookedNothing => Some(Outcome::Nothing),
            Command::NotReached => Some(Outcome::NotReached),
            _ => None,
        };
        let edit = match outcome {
            Some(outcome) => Edit::Visited(Visit::of(station, place, outcome)),
            None => Edit::NotVisited {
                station: station.id.to_owned(),
                place: place.id.to_owned(),
            },
        };
        self.edit(edit, None);
        let now = self
            .survey()
            .and_then(|survey| survey.outcome(station.id, place.id));
        if outcome.is_some()
            && now == outcome
            && let Some(document) = &self.document
        {
            self.view.gaps.walk.go_on(document.history.survey());
        }
    }

    /// Adds a gap at the place, and leads to its first size.
    fn found(&mut self) {
        let Some(document) = &self.document else {
            return;
        };
        let survey = document.history.survey();
        let at = self.view.gaps.walk.place_in(survey);
        let made = at.and_then(|(station, place)| stations::found(survey, station, place));
        let Some((gap, edit)) = made else { return };
        if let Some(at) = at {
            self.view.gaps.stay_at(at);
        }
        self.edit(edit, None);
        let Some(gap) = self.survey().and_then(|survey| survey.gap(gap)) else {
            return;
        };
        let (id, first) = (gap.id, gap.form.sizes().first().map(|(field, _)| *field));
        self.view.gaps.select_found(id);
        if let Some(field) = first {
            self.view.go_to(Place::at(Item::Gap(id), field));
        }
    }

    /// Whether the window is in site mode: only the Gaps page has it.
    pub(super) fn in_site_mode(&self) -> bool {
        self.document.is_some() && self.view.page == Page::Gaps && self.view.gaps.site.on
    }

    /// Turns site mode on, or off.
    pub(super) fn turn_site_mode(&mut self) {
        let on = !self.in_site_mode();
        self.view.page = Page::Gaps;
        self.view.gaps.site.on = on;
        self.view.gaps.walk.show_place();
    }

    /// In site mode everything is as large as fingers, whatever was chosen for the window; another
    /// page leaves it.
    pub(super) fn follow_site_mode(&mut self, ctx: &egui::Context) {
        let on = self.in_site_mode();
        self.view.gaps.site.on = on;
        if on != self.site_sized {
            theme::size(ctx, on || self.preferences.touch);
            // The number pad keeps the focus where it is only while it is there.
            ctx.options_mut(|options| {
                options.input_options.surrender_focus_on = egui::SurrenderFocusOn::default();
            });
        }
        self.site_sized = on;
    }
}
