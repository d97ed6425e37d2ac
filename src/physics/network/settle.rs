//! Passing on what rounding leaves over.
//!
//! Where an opening is so wide that the pressures' digits cannot show what drives air through it,
//! the flow found has an error that no further step mends. The balance of the spaces settles it:
//! every space passes its surplus on to a neighbour, from the far ends inwards to outside, along
//! the tree of the widest ways, where the change makes the least difference of pressure.

use super::edge::Edge;
use super::several_spaces::SeveralSpaces;

/// The tree of the widest ways to outside; made anew for each balance.
#[derive(Clone, Debug, Default)]
pub(super) struct WidestWays {
    reached: Vec<bool>,
    /// Spaces with the edge by which each is reached, from outside inwards.
    found: Vec<(usize, usize)>,
}

impl SeveralSpaces {
    /// Leaves no more in any space than the rounding of a sum.
    pub(super) fn settle(&mut self) {
        self.find_widest_ways();
        self.find_surpluses();
        for at in (0..self.widest.found.len()).rev() {
            let (space, way) = self.widest.found[at];
            let surplus = self.balance[space];
            let edge = &mut self.edges[way];
            let (sign, neighbour) = if edge.to == space {
                (-1.0, edge.from)
            } else {
                (1.0, Some(edge.to))
            };
            edge.set(edge.flow + sign * surplus);
            self.balance[space] = 0.0;
            if let Some(neighbour) = neighbour {
                self.balance[neighbour] += surplus;
            }
        }
    }

    /// Takes the widest way that leads on from what is reached, again and again (Prim's tree).
    /// A group without a way outside hangs on its first space.
    fn find_widest_ways(&mut self) {
        let count = self.sources.len();
        self.widest.found.clear();
        self.widest.reached.clear();
        let roots = (0..count).map(|at| self.group[at] == at && !self.opens[at]);
        self.widest.reached.extend(roots);
        loop {
            let reached = &self.widest.reached;
            let leads_on = |(at, edge): (usize, &Edge)| {
                let known = edge.from.is_none_or(|from| reached[from]);
                match edge.from {
                    _ if !edge.is_open() || known == reached[edge.to] => None,
                    Some(from) if !known => Some((from, at, edge.slope)),
                    _ => Some((edge.to, at, edge.slope)),
                }
            };
            let ways = self.edges.iter().enumerate().filter_map(leads_on);
            let Some((space, way, _)) = ways.max_by(|one, other| one.2.total_cmp(&other.2)) else {
                return;
            };
            self.widest.reached[space] = true;
            self.widest.found.push((space, way));
        }
    }
}
