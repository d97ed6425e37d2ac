//! A body described whatever its size and wind: from it come the network that is solved once and
//! the ensemble that is solved many times over.
use super::path::PlacedFlow;
use super::{Fan, InnerOpening, Network, OuterGap, Space};
use crate::physics::flow_law::Gas;

/// Spaces with their airs, and the gaps and inner openings that join them to outside and to one
/// another.
#[derive(Clone, Debug)]
pub struct Body {
    /// The outside air.
    pub outside: Gas,
    /// Height above the ground at which pressures are stated, m.
    pub datum: f64,
    /// Spaces; at least one.
    pub spaces: Vec<Space>,
    /// Index of the space, and flow, of each gap to outside.
    pub gaps: Vec<(usize, PlacedFlow)>,
    /// Indices of the first and the second space, and flow, of each inner opening.
    pub openings: Vec<([usize; 2], PlacedFlow)>,
    /// Fans between spaces and outside.
    pub fans: Vec<Fan>,
}

impl Network {
    /// The same outside air with other air in the spaces, for gaps and inner openings in their order.
    /// What stands for air from outside stays.
    pub fn refill<'a>(
        &mut self,
        spaces: impl Iterator<Item = Space>,
        gaps: impl Iterator<Item = &'a PlacedFlow>,
        openings: impl Iterator<Item = &'a PlacedFlow>,
    ) {
        self.spaces.clear();
        self.spaces.extend(spaces);
        for (gap, placed) in self.outer.iter_mut().zip(gaps) {
            gap.path.outward = placed.flow.at(&self.spaces[gap.space].gas);
        }
        for (opening, placed) in self.inner.iter_mut().zip(openings) {
            let between = [opening.from, opening.to].map(|at| &self.spaces[at].gas);
            opening.path = placed.path(between, 1.0, 1.0);
        }
    }
}

impl Body {
    /// The network, every law made ready for the airs it lies between.
    pub fn network(&self) -> Network {
        self.varied(1.0, |_| 1.0, |_| 1.0)
    }

    /// The same with every sharp edge passing `discharge` times as much, and gaps and openings
    /// as many times as much as the function says of their index.
    pub(in crate::physics) fn varied(
        &self,
        discharge: f64,
        gap: impl Fn(usize) -> f64,
        opening: impl Fn(usize) -> f64,
    ) -> Network {
        let gaps = self.gaps.iter().enumerate();
        let openings = self.openings.iter().enumerate();
        Network {
            outside: self.outside,
            datum: self.datum,
            spaces: self.spaces.clone(),
            outer: gaps
                .map(|(at, (space, placed))| OuterGap {
                    space: *space,
                    path: placed.path(
                        [&self.outside, &self.spaces[*space].gas],
                        discharge,
                        gap(at),
                    ),
                })
                .collect(),
            inner: openings
                .map(|(at, ([from, to], placed))| InnerOpening {
                    from: *from,
                    to: *to,
                    path: placed.path(
                        [from, to].map(|at| &self.spaces[*at].gas),
                        discharge,
                        opening(at),
                    ),
                })
                .collect(),
            fans: self.fans.clone(),
        }
    }
}
