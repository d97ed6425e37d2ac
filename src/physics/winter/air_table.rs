//! The air that flows through in each hour, by the inside temperature: worked out at a few
//! temperatures and read off between them.

use crate::physics::network::{Network, Workspace};
use std::rc::Rc;
use std::sync::OnceLock;

/// Ends of the stretches that are made ready at once, in the root of the kelvin between inside and
/// outside, on either side of no difference; up to 56 K. Beyond, each flow is worked out.
const ENDS: [f64; 4] = [0.0, 1.75, 3.75, 7.5];
/// Stretches of an hour: those with the inside colder, then those with it warmer.
const STRETCHES: usize = 2 * (ENDS.len() - 1);
/// Share by which the parabola through both ends and the middle of a piece may miss the flows that
/// are worked out at its quarters.
const TRUSTED: f64 = 0.0007;
/// The same for the curve through all five, where a gap begins to pass air the other way.
const TRUSTED_AT_TURNS: f64 = 0.001;
/// Share of all air that a gap passes beside its turn for the turn to be looked at.
const NOTICED: f64 = 0.002;
/// How often a stretch is halved; where that is not enough, each flow is worked out.
const HALVED: u32 = 5;

/// Imbalance with which a balance of the table is content, as a share of the through-flow: far below
/// what is trusted of the curve between balances.
const BALANCED: f64 = 1e-7;

/// What works a flow out, kg/s: the hour, the inside temperature, °C, and what is kept of the hour.
type Exact<E> = dyn Fn(usize, f64, &mut HourInWork) -> Result<f64, E> + Send + Sync;

/// What the balances of one hour have in common.
#[derive(Debug, Default)]
pub struct HourInWork {
    /// Where a search begins, and the flows found last.
    pub workspace: Workspace,
    /// The laws made ready for the hour's outside air, and the inside air of the last balance; `None`
    /// before the first.
    pub network: Option<Network>,
}

/// A part of a stretch.
#[derive(Clone, Copy, Debug)]
struct Piece {
    from: f64,
    width: f64,
    /// Of the polynomial of fourth degree through five flows, by rising power of the share of the
    /// width; `None` where no smooth curve follows the flow.
    polynomial: Option<[f64; 5]>,
}

/// Dry air by hour and inside temperature.
///
/// A stack draws with about the root of the temperature difference, so the flow is a smooth curve in
/// `s = ± √|T_i − T_o|` on either side of no difference, with kinks where a gap begins to pass air the
/// other way. A stretch of s that is asked for is halved until the parabola through ends and middle
/// of each piece all but meets the flows worked out at its quarters; what is
/// read off comes from the curve through all five, which must also hold where a gap turns. Tests hold the error under 0.5 % for every
/// sample vehicle.
///
/// A stretch is made ready as a whole, always in the same order: what is read off does not depend on
/// who asked first, nor on the number of threads.
pub struct AirTable<E> {
    /// By hour and stretch; an error in what is worked out stays.
    stretches: Vec<OnceLock<Result<Vec<Piece>, E>>>,
    outside_c: Vec<f64>,
    exact: Box<Exact<E>>,
}

/// A flow worked out.
struct Known {
    root: f64,
    flow: f64,
    /// Air through each gap, kg/s, positive into the vehicle.
    gaps: Vec<f64>,
    /// Pressure of each space, Pa.
    pressures: Vec<f64>,
}

/// A piece as yet without its quarters: its ends and its middle.
struct Half {
    known: [Rc<Known>; 3],
    halved: u32,
}

impl<E: Clone> AirTable<E> {
    /// Nothing worked out yet. `exact` gives the dry air of an hour at an inside temperature, kg/s,
    /// looking near the pressures that the workspace holds; all that is kept is of this hour.
    pub fn new(
        outside_c: Vec<f64>,
        exact: impl Fn(usize, f64, &mut HourInWork) -> Result<f64, E> + Send + Sync + 'static,
    ) -> Self {
        let mut stretches = Vec::new();
        stretches.resize_with(outside_c.len() * STRETCHES, OnceLock::new);
        Self {
            stretches,
            outside_c,
            exact: Box::new(exact),
        }
    }

    /// Dry air in an hour with the inside at a temperature, kg/s.
    ///
    /// # Errors
    /// Those of the exact flow.
    pub fn flow(&self, hour: usize, inside_c: f64) -> Result<f64, E> {
        let outside_c = self.outside_c.get(hour).copied().unwrap_or(f64::NAN);
        let warmer = inside_c - outside_c;
        let root = warmer.abs().sqrt();
        let exactly = || (self.exact)(hour, inside_c, &mut HourInWork::default());
        let Some(at) = ENDS[1..].iter().position(|end| root < *end) else {
            return exactly();
        };
        let (slot, sign) = if warmer < 0.0 {
            (at, -1.0)
        } else {
            (at + STRETCHES / 2, 1.0)
        };
        let Some(stretch) = self.stretches.get(hour * STRETCHES + slot) else {
            return exactly();
        };
        let pieces = stretch.get_or_init(|| self.stretch(hour, at, sign));
        let pieces = pieces.as_ref().map_err(Clone::clone)?;
        let later = pieces.partition_point(|piece| piece.from <= root);
        let piece = pieces.get(later.saturating_sub(1));
        match piece.and_then(|piece| piece.read(root)) {
            Some(flow) => Ok(flow),
            None => exactly(),
        }
    }

    /// A stretch in pieces, in rising order.
    fn stretch(&self, hour: usize, at: usize, sign: f64) -> Result<Vec<Piece>, E> {
        let outside_c = self.outside_c.get(hour).copied().unwrap_or(f64::NAN);
        let mut in_work = HourInWork {
            workspace: Workspace::content_with(BALANCED),
            network: None,
        };
        let mut exact = |root: f64, near: &[&Rc<Known>]| -> Result<Rc<Known>, E> {
            let inside_c = outside_c + sign * root * root;
            in_work.workspace.start_from(&between(near, root));
            let flow = (self.exact)(hour, inside_c, &mut in_work)?;
            let workspace = &in_work.workspace;
            let gaps = workspace.outer_flows().iter();
            Ok(Rc::new(Known {
                root,
                flow,
                gaps: gaps.map(|gap| gap.forward - gap.back).collect(),
                pressures: workspace.pressures().to_vec(),
            }))
        };
        let end = |at: usize| ENDS.get(at).copied().unwrap_or(f64::NAN);
        let (first, last) = (end(at), end(at + 1));
        let first = exact(first, &[])?;
        let last = exact(last, &[&first])?;
        let middle = exact(f64::midpoint(first.root, last.root), &[&first, &last])?;
        let known = [first, middle, last];
        let mut waiting = vec![Half { known, halved: 0 }];
        let mut pieces = Vec::new();
        while let Some(Half { known, halved }) = waiting.pop() {
            let [first, middle, last] = known;
            let (from, width) = (first.root, last.root - first.root);
            let three = [&first, &middle, &last];
            let low = exact(from + 0.25 * width, &three)?;
            let high = exact(from + 0.75 * width, &three)?;
            let five = [&first, &low, &middle, &high, &last];
            let mut piece = Piece {
                from,
                width,
                polynomial: Some(through(five.map(|known| known.flow))),
            };
            let mut holds = near_parabola(five);
            for pair in five.windows(2) {
                let [one, other] = pair else { continue };
                for root in turns(one, other).into_iter().flatten() {
                    if holds {
                        let flow = exact(root, &[one, other])?.flow;
                        let read = piece.read(root).unwrap_or(f64::NAN);
                        holds = (read - flow).abs() <= TRUSTED_AT_TURNS * flow.abs();
                    }
                }
            }
            if holds || halved == HALVED {
                piece.polynomial = piece.polynomial.filter(|_| holds);
                pieces.push(piece);
            } else {
                let halved = halved + 1;
                let known = [Rc::clone(&middle), high, last];
                waiting.push(Half { known, halved });
                let known = [first, low, middle];
                waiting.push(Half { known, halved });
            }
        }
        Ok(pieces)
    }

    /// How many pieces were made ready.
    #[must_use]
    pub fn pieces(&self) -> usize {
        let known = self.stretches.iter().filter_map(OnceLock::get);
        known
            .filter_map(|pieces| pieces.as_ref().ok())
            .map(Vec::len)
            .sum()
    }
}

impl Piece {
    /// The flow at a place in it, kg/s.
    fn read(&self, root: f64) -> Option<f64> {
        let [a, b, c, d, e] = self.polynomial?;
        let x = (root - self.from) / self.width;
        Some((a + x * (b + x * (c + x * (d + x * e)))).max(0.0))
    }
}

/// The pressure of each space at a root, by the polynomial through what is known near it: a place to
/// begin a search at; none where nothing is known yet.
fn between(near: &[&Rc<Known>], root: f64) -> Vec<f64> {
    let mut sum = Vec::new();
    for (at, own) in near.iter().enumerate() {
        let others = near.iter().enumerate().filter(|(other, _)| *other != at);
        let weight: f64 = others
            .map(|(_, other)| (root - other.root) / (own.root - other.root))
            .product();
        sum.resize(own.pressures.len(), 0.0);
        for (sum, pressure) in sum.iter_mut().zip(&own.pressures) {
            *sum += weight * pressure;
        }
    }
    sum
}

/// Whether the parabola through ends and middle meets the flows at the quarters.
fn near_parabola(five: [&Rc<Known>; 5]) -> bool {
    let [first, low, middle, high, last] = five.map(|known| known.flow);
    let near = |found: f64, flow: f64| (found - flow).abs() <= TRUSTED * flow.abs();
    near(0.375 * first + 0.75 * middle - 0.125 * last, low)
        && near(-0.125 * first + 0.75 * middle + 0.375 * last, high)
}

/// Where, between two places, the gap with the most air that turns in between passes none: its flow
/// goes with the root of the pressure where others decide that, and evenly where it takes up what the
/// others leave over. `None` where no gap worth it turns.
fn turns(one: &Known, other: &Known) -> Option<[f64; 2]> {
    let gaps = one.gaps.iter().zip(&other.gaps);
    let turning = gaps.filter(|(before, after)| *before * *after < 0.0);
    let most = |(before, after): (&f64, &f64)| before.abs().max(after.abs());
    let (before, after) = turning.max_by(|own, next| most(*own).total_cmp(&most(*next)))?;
    let (before, after) = (before.abs(), after.abs());
    let noticed = before.max(after) > NOTICED * one.flow;
    let at = |share: f64| one.root + (other.root - one.root) * share;
    noticed.then(|| {
        let squares = before * before + after * after;
        [at(before / (before + after)), at(before * before / squares)]
    })
}

/// The polynomial through values at 0, ¼, ½, ¾ and 1, by rising power.
fn through([a, b, c, d, e]: [f64; 5]) -> [f64; 5] {
    [
        a,
        (-25.0 * a + 48.0 * b - 36.0 * c + 16.0 * d - 3.0 * e) / 3.0,
        (70.0 * a - 208.0 * b + 228.0 * c - 112.0 * d + 22.0 * e) / 3.0,
        (-80.0 * a + 288.0 * b - 384.0 * c + 224.0 * d - 48.0 * e) / 3.0,
        (32.0 * a - 128.0 * b + 192.0 * c - 128.0 * d + 32.0 * e) / 3.0,
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::convert::Infallible;
    use std::sync::atomic::{AtomicUsize, Ordering};

    #[test]
    fn the_polynomial_goes_through_all_five() {
        let values = [3.0, -1.0, 4.0, 1.0, -5.0];
        let [a, b, c, d, e] = through(values);
        for (x, value) in [0.0, 0.25, 0.5, 0.75, 1.0].into_iter().zip(values) {
            let found: f64 = a + x * (b + x * (c + x * (d + x * e)));
            assert!((found - value).abs() < 1e-12, "{x}");
        }
    }

    #[test]
    fn a_kink_is_followed_and_a_smooth_flow_costs_five_looks_a_stretch() {
        static LOOKS: AtomicUsize = AtomicUsize::new(0);
        // A stack against the wind: the flow turns where both are alike, 2 K above the outside.
        let kinked = |kelvin: f64| 0.01 + 0.1 * (0.002 * kelvin - 0.004).abs().powf(0.6);
        let table = AirTable::new(vec![5.0], move |_, inside_c, _| {
            Ok::<f64, Infallible>(kinked(inside_c - 5.0))
        });
        for at in 0..2000 {
            let kelvin = f64::from(at) * 0.01 - 3.0;
            let found = table.flow(0, 5.0 + kelvin).expect("a flow");
            let off = (found / kinked(kelvin) - 1.0).abs();
            assert!(off < 0.005, "{kelvin}: {off}");
        }
        let smooth = AirTable::new(vec![5.0], move |_, inside_c, _| {
            LOOKS.fetch_add(1, Ordering::Relaxed);
            Ok::<f64, Infallible>(0.01 + 0.01 * (inside_c - 5.0).abs().sqrt())
        });
        for at in 1..200 {
            assert!(smooth.flow(0, 5.0 + f64::from(at) * 0.01).is_ok());
        }
        assert_eq!(LOOKS.load(Ordering::Relaxed), 5);
        assert_eq!(smooth.pieces(), 1);
    }
}
