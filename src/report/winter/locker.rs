//! What closed lockers do to mould, in a sentence.

use crate::assess::quantity::Kind;
use crate::assess::winter::{MouldAt, Season};

/// Index of mould from which it counts as begun: seen under a microscope.
pub const BEGUN: f64 = 1.0;

/// What a closed locker, or cushions on the coldest wall, do to mould there, and what opening does;
/// nothing where there is no wall.
#[must_use]
pub fn lockers(idle: &Season) -> Option<String> {
    let locker = idle.mould.iter().find(|at| at.spot.in_locker)?;
    let same = |at: &&MouldAt| {
        let (own, closed) = (&at.spot, &locker.spot);
        !own.in_locker && own.element == closed.element && own.spot == closed.spot
    };
    let open = idle.mould.iter().find(same)?;
    let index = |at: &MouldAt| Kind::MouldIndex.number(at.highest_on_boards());
    if locker.highest_on_boards() < BEGUN {
        let words =
            "In a closed locker or behind cushions on the coldest wall mould does not begin.";
        return Some(words.to_owned());
    }
    Some(format!(
        "In a closed locker or behind cushions on the coldest wall mould begins: its index reaches {}, and \
         {} with the locker open and the cushions off the wall.",
        index(locker),
        index(open),
    ))
}
