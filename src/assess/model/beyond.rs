//! Where to look for a balance first: as far beyond that of the vehicle as surveyed as the balances
//! worked out before lay beyond theirs.
//!
//! ```text
//! p_d ≈ r p°_d + k b_d + (p − r p° − k b)_(d−1)
//! ```
//! where
//! * p: pressure of a space in direction d of the wind, Pa,
//! * p°: the same in the vehicle as surveyed,
//! * b: `p − r p°` in the wind worked out before,
//! * r, k: dynamic pressure over that of the vehicle as surveyed, and over that of the wind before.
//!
//! Flows through inner openings go by the roots of r and k.
#![expect(
    clippy::indexing_slicing,
    reason = "states of the same spaces and openings, direction by direction; a missing number must never turn into a silent default"
)]

use crate::physics::ensemble::State;

/// How far the balances of one wind lie beyond those of the vehicle as surveyed.
#[derive(Clone, Debug)]
pub(super) struct Beyond {
    /// By direction: in the wind worked out before, as far as this one did not come yet.
    by_direction: Vec<State>,
    /// What the direction before lay beyond what the wind before made of it.
    further: State,
    /// Dynamic pressure of the wind, Pa; zero where nothing is known yet.
    dynamic_pressure: f64,
    /// The k above; zero where nothing is known.
    share: f64,
}

impl Beyond {
    /// Room for so many directions and states like this one.
    pub(super) fn new(directions: usize, like: &State) -> Self {
        let nothing = State {
            pressures: vec![0.0; like.pressures.len()],
            flows: vec![0.0; like.flows.len()],
        };
        Self {
            by_direction: vec![nothing.clone(); directions],
            further: nothing,
            dynamic_pressure: 0.0,
            share: 0.0,
        }
    }

    /// Knows nothing any more: what gaps let through is another.
    pub(super) fn forget(&mut self) {
        self.by_direction.iter_mut().for_each(clear);
        self.dynamic_pressure = 0.0;
    }

    /// Goes on to a wind of this dynamic pressure, Pa.
    pub(super) fn go_on_to(&mut self, dynamic_pressure: f64) {
        self.share = if self.dynamic_pressure > 0.0 {
            dynamic_pressure / self.dynamic_pressure
        } else {
            0.0
        };
        self.dynamic_pressure = dynamic_pressure;
        clear(&mut self.further);
    }

    /// Sets the state to look from in a direction, where the vehicle as surveyed has `start` and the
    /// dynamic pressure is so many times its own.
    pub(super) fn look_from(
        &self,
        direction: usize,
        (start, ratio): (&State, f64),
        state: &mut State,
    ) {
        let (before, further, share) = (&self.by_direction[direction], &self.further, self.share);
        for (at, now) in state.pressures.iter_mut().enumerate() {
            let beyond = share * before.pressures[at] + further.pressures[at];
            *now = ratio * start.pressures[at] + beyond;
        }
        for (at, now) in state.flows.iter_mut().enumerate() {
            let beyond = share.sqrt() * before.flows[at] + further.flows[at];
            *now = ratio.sqrt() * start.flows[at] + beyond;
        }
    }

    /// Keeps the state found there.
    pub(super) fn keep(&mut self, direction: usize, (start, ratio): (&State, f64), found: &State) {
        let before = &mut self.by_direction[direction];
        let (further, share) = (&mut self.further, self.share);
        for (at, found) in found.pressures.iter().enumerate() {
            let beyond = found - ratio * start.pressures[at];
            further.pressures[at] = beyond - share * before.pressures[at];
            before.pressures[at] = beyond;
        }
        for (at, found) in found.flows.iter().enumerate() {
            let beyond = found - ratio.sqrt() * start.flows[at];
            further.flows[at] = beyond - share.sqrt() * before.flows[at];
            before.flows[at] = beyond;
        }
    }
}

fn clear(state: &mut State) {
    state.pressures.fill(0.0);
    state.flows.fill(0.0);
}

#[cfg(test)]
mod tests {
    use super::*;

    fn state(pressure: f64, flow: f64) -> State {
        State {
            pressures: vec![pressure],
            flows: vec![flow],
        }
    }

    /// Pressures that lie beyond those surveyed by what goes with the dynamic pressure, and by one
    /// number more in the second wind, are looked for where they are from its second direction on.
    #[test]
    fn what_goes_with_the_wind_is_foreseen() {
        let mut beyond = Beyond::new(3, &state(0.0, 0.0));
        let surveyed = [1.0, -2.0, 4.0].map(|pressure| state(pressure, 0.5 * pressure));
        let found = |dynamic: f64, further: f64, at: usize| {
            let (own, surveyed) = ([0.3, 0.7, -0.2][at], &surveyed[at]);
            let pressure = 2.0 * surveyed.pressures[0] + own * dynamic + further;
            let flow = 2.0_f64.sqrt() * surveyed.flows[0] + own * dynamic.sqrt() + further;
            state(pressure, flow)
        };
        let mut now = state(0.0, 0.0);
        for (dynamic, further, foreseen_from) in [(10.0, 0.0, 3), (40.0, 5.0, 1)] {
            beyond.go_on_to(dynamic);
            for (at, surveyed) in surveyed.iter().enumerate() {
                let there = found(dynamic, further, at);
                beyond.look_from(at, (surveyed, 2.0), &mut now);
                let off = (now.pressures[0] - there.pressures[0]).abs()
                    + (now.flows[0] - there.flows[0]).abs();
                assert!(
                    (off < 1e-12) == (at >= foreseen_from),
                    "{dynamic} {at}: {off}"
                );
                beyond.keep(at, (surveyed, 2.0), &there);
            }
        }
        beyond.forget();
        beyond.go_on_to(40.0);
        beyond.look_from(0, (&surveyed[0], 2.0), &mut now);
        assert_eq!(now, state(2.0, 2.0_f64.sqrt() * 0.5));
    }
}
