//! Where the walk round stands: plain data kept between frames.

use crate::survey::{Station, Survey, UsualPlace};
use eframe::egui::Id;

/// A station and one of its places.
pub(in crate::window) type At = (&'static Station, &'static UsualPlace);

/// Where the walk round stands.
#[derive(Clone, Debug, Default)]
pub(in crate::window) struct WalkView {
    /// Words of station and place.
    at: Option<(&'static str, &'static str)>,
    /// The list takes the focus in the next frame.
    pub(in crate::window::pages::gaps) focus_wanted: bool,
    /// The list scrolls to the place in the next frame.
    pub(in crate::window::pages::gaps) scroll_wanted: bool,
}

/// Id of the list, which takes the focus for all its rows.
pub(in crate::window) fn list_id() -> Id {
    Id::unique("places of the walk round")
}

impl WalkView {
    /// The place that is looked at: the one chosen, else the first of which nothing is said.
    #[must_use]
    pub(in crate::window) fn place_in(&self, survey: &Survey) -> Option<At> {
        let chosen = self.index(survey);
        let first = || survey.usual_places().position(|at| is_open(survey, at));
        survey
            .usual_places()
            .nth(chosen.or_else(first).unwrap_or_default())
    }

    /// Looks at a place.
    pub(in crate::window::pages::gaps) fn choose(&mut self, (station, place): At) {
        self.at = Some((station.id, place.id));
        self.scroll_wanted = true;
    }

    /// Brings the place into sight.
    pub(in crate::window) fn show_place(&mut self) {
        self.scroll_wanted = true;
    }

    /// Gives the list the focus. Where a gap was found at the place, the next one is looked at.
    pub(in crate::window) fn come_back(&mut self, survey: &Survey) {
        self.focus_wanted = true;
        if self.place_in(survey).is_some_and(|at| !is_open(survey, at)) {
            self.go_on(survey);
        }
    }

    /// Goes on to the next place of which nothing is said, going round; where there is none, to the
    /// next.
    pub(in crate::window) fn go_on(&mut self, survey: &Survey) {
        let all: Vec<At> = survey.usual_places().collect();
        let here = self.index(survey).unwrap_or_default();
        let round = (1..=all.len()).filter_map(|by| all.get((here + by) % all.len().max(1)));
        let mut round = round.copied();
        let open = round.clone().find(|at| is_open(survey, *at));
        if let Some(next) = open.or_else(|| round.next()) {
            self.choose(next);
        }
    }

    /// Goes so many places up or down, no further than to the ends.
    pub(in crate::window::pages::gaps) fn step(&mut self, survey: &Survey, down: bool, by: usize) {
        let last = survey.usual_places().count().saturating_sub(1);
        let here = self.index(survey).unwrap_or_default();
        let to = if down {
            here.saturating_add(by).min(last)
        } else {
            here.saturating_sub(by)
        };
        if let Some(at) = survey.usual_places().nth(to) {
            self.choose(at);
        }
    }

    /// Goes to the first place of the next station, or of the one before.
    pub(in crate::window::pages::gaps) fn step_station(&mut self, survey: &Survey, next: bool) {
        let Some((here, _)) = self.place_in(survey) else {
            return;
        };
        let mut firsts: Vec<At> = Vec::new();
        for at in survey.usual_places() {
            if firsts
                .last()
                .is_none_or(|(station, _)| station.id != at.0.id)
            {
                firsts.push(at);
            }
        }
        let index = firsts.iter().position(|(station, _)| station.id == here.id);
        let to = index.and_then(|index| match next {
            true => index.checked_add(1),
            false => index.checked_sub(1),
        });
        if let Some(at) = to.and_then(|to| firsts.get(to)) {
            self.choose(*at);
        }
    }

    fn index(&self, survey: &Survey) -> Option<usize> {
        let (station, place) = self.at?;
        survey
            .usual_places()
            .position(|at| (at.0.id, at.1.id) == (station, place))
    }
}

fn is_open(survey: &Survey, (station, place): At) -> bool {
    survey.outcome(station.id, place.id).is_none()
}
