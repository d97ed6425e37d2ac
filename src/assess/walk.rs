//! What the walk round says of leakage that nobody found.

use super::answer::{Answer, NotKnown};
use crate::physics::counts::count;
use crate::survey::{Progress, Survey, UsualPlace};

/// The usual places that leak, and what those that nobody looked at may hold.
#[derive(Clone, Debug, PartialEq)]
pub struct WalkRound {
    /// How far the walk round has come at places that count among the leaks.
    pub leaks: Progress,
    /// Leakage not found, as a share of what was found, whole %; not known before anything was
    /// looked at, and while more places are left than were looked at.
    pub not_found_percent: Answer<f64>,
}

/// What the walk round says of leakage that nobody found.
///
/// ```text
/// s = 100 · m / n
/// ```
///
/// - `s`: leakage not found, % of what was found, rounded to a whole number
/// - `m`: usual places that nobody looked at: not reached, or nothing said of them
/// - `n`: usual places that somebody looked at, whether there was a gap or not
///
/// It takes it that a place nobody looked at leaks as much as one of those looked at, on the mean
/// of them all, sound ones with the others \[A\]. Openings that protect people, and those that
/// somebody opens and closes, are no leaks and do not count. What lies at no usual place is not in
/// it.
///
/// ```
/// use gapledger::assess::walk_round;
/// use gapledger::survey::{Edit, Outcome, Survey, VehicleKind, Visit};
/// let mut survey = Survey::new(VehicleKind::PanelVan);
/// let leaks: Vec<_> = survey.usual_places().filter(|(_, place)| place.leaks()).collect();
/// let (left, looked) = leaks.split_at(leaks.len() / 5);
/// for (station, place) in looked {
///     survey.apply(Edit::Visited(Visit::of(station, place, Outcome::Nothing)))?;
/// }
/// // By hand: the places left, over those looked at.
/// let by_hand = (100.0 * left.len() as f64 / looked.len() as f64).round();
/// assert_eq!(walk_round(&survey).not_found_percent?, by_hand);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[must_use]
pub fn walk_round(survey: &Survey) -> WalkRound {
    let leaks = survey.progress_of(UsualPlace::leaks);
    let left = leaks.places - leaks.looked();
    let not_found_percent = if !survey.has_walked() {
        Err(NotKnown::because("no usual place was looked at yet"))
    } else if left > leaks.looked() {
        Err(NotKnown::because(
            "fewer usual places were looked at than are left: a share of what was found would say \
             nothing",
        ))
    } else {
        Ok((100.0 * count(left) / count(leaks.looked())).round())
    };
    WalkRound {
        leaks,
        not_found_percent,
    }
}
