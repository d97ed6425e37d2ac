//! How far the walk round has come, and what it takes in.

use super::Survey;
use super::ids::GapId;
use super::stations::{Station, UsualPlace, stations};
use super::walk::{Outcome, Progress, Visit};

impl Visit {
    /// Of a place among the usual ones.
    #[must_use]
    pub fn of(station: &Station, place: &UsualPlace, outcome: Outcome) -> Self {
        Self {
            station: station.id.to_owned(),
            place: place.id.to_owned(),
            outcome,
            gaps: Vec::new(),
        }
    }
}

impl Survey {
    /// The visit of a place.
    #[must_use]
    pub fn visit(&self, station: &str, place: &str) -> Option<&Visit> {
        self.walk.iter().find(|visit| visit.is_of(station, place))
    }

    /// What came of a place. A place where a gap was found that is no longer in the ledger is open
    /// again.
    #[must_use]
    pub fn outcome(&self, station: &str, place: &str) -> Option<Outcome> {
        let visit = self.visit(station, place)?;
        let gone = visit.outcome == Outcome::Found && self.found_at(visit).next().is_none();
        (!gone).then_some(visit.outcome)
    }

    /// The gaps found at a place that are in the ledger.
    pub fn found_at<'a>(&'a self, visit: &'a Visit) -> impl Iterator<Item = GapId> + 'a {
        let gaps = visit.gaps.iter().copied();
        gaps.filter(|gap| self.gap(*gap).is_some())
    }

    /// How far the walk round has come at a station.
    #[must_use]
    pub fn progress_at(&self, station: &Station) -> Progress {
        let mut progress = Progress::default();
        for place in station.places(self.vehicle.kind) {
            progress.count(self.outcome(station.id, place.id));
        }
        progress
    }

    /// How far the walk round has come in all.
    #[must_use]
    pub fn progress(&self) -> Progress {
        self.progress_of(|_| true)
    }

    /// How far it has come at some of the places.
    #[must_use]
    pub fn progress_of(&self, counts: impl Fn(&UsualPlace) -> bool) -> Progress {
        let mut progress = Progress::default();
        for (station, place) in self.usual_places().filter(|(_, place)| counts(place)) {
            progress.count(self.outcome(station.id, place.id));
        }
        progress
    }

    /// Every usual place of such a vehicle, in walking order.
    pub fn usual_places(&self) -> impl Iterator<Item = (&'static Station, &'static UsualPlace)> {
        let kind = self.vehicle.kind;
        let all = stations(kind);
        all.flat_map(move |station| station.places(kind).map(move |place| (station, place)))
    }

    /// Whether anything was said of a usual place.
    #[must_use]
    pub fn has_walked(&self) -> bool {
        let mut places = self.usual_places();
        places.any(|(station, place)| self.outcome(station.id, place.id).is_some())
    }

    /// Takes a visit in, in the place of an earlier one.
    ///
    /// # Errors
    /// The gap that was found there and is in the ledger, where the visit says that there is none.
    pub(super) fn take_visit(&mut self, visit: Visit) -> Result<(), GapId> {
        let before = self.visit(&visit.station, &visit.place);
        let found = before.and_then(|before| self.found_at(before).next());
        if let (Outcome::Nothing | Outcome::NotReached, Some(gap)) = (visit.outcome, found) {
            return Err(gap);
        }
        let same = |old: &&mut Visit| old.is_of(&visit.station, &visit.place);
        match self.walk.iter_mut().find(same) {
            Some(old) => *old = visit,
            None => self.walk.push(visit),
        }
        Ok(())
    }

    /// Takes the number of a gap out of every visit: a gap that is gone, or one whose number is
    /// about to be another's. A visit that found nothing else goes with it.
    pub(super) fn forget_in_walk(&mut self, gap: GapId) {
        for visit in &mut self.walk {
            visit.gaps.retain(|found| *found != gap);
        }
        self.walk
            .retain(|visit| visit.outcome != Outcome::Found || !visit.gaps.is_empty());
    }
}
