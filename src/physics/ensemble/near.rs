//! One space near a balance, so that what a change of single gaps comes to is found without adding up
//! all gaps for each.
//!
//! Where the pressure inside moves by a little, nearly every gap answers smoothly: all those together
//! are put into a polynomial of the pressure, once. The few whose law turns close by, because their
//! pressure difference changes sign or passes from one law to the other, are added up each time:
//!
//! ```text
//! in(p) ≈ Σ_few in_j(p) + P_in(t),   t = (p − p₀)/reach,   −1 ≤ t ≤ 1
//! ```
//! where P takes the values of the others at Chebyshev's nodes. For functions that are smooth within
//! [`FAR`] times the reach its error falls as (2 [`FAR`])^−n with n nodes **\[M\]**. It is looked at
//! where such an error is greatest, at both ends; where too much is off, all gaps are added up.

use super::evaluate::Total;
use super::search::search;
use super::{Arranged, Ensemble, LANES, Member, plain};
use crate::physics::network::path::Flow;
use crate::physics::network::{Body, NetworkError, Solved};

/// Values that the polynomial takes.
const NODES: usize = 9;
/// Where: the cosines of 10°, 30°, 50° … 170°.
const NODES_AT: [f64; NODES] = [
    0.984_807_753_012_208,
    0.866_025_403_784_438_6,
    0.642_787_609_686_539_4,
    0.342_020_143_325_668_7,
    0.0,
    -0.342_020_143_325_668_7,
    -0.642_787_609_686_539_4,
    -0.866_025_403_784_438_6,
    -0.984_807_753_012_208,
];
/// A gap is among the few where its law turns within so many times the reach.
const FAR: f64 = 6.0;
/// What the polynomial may be off at the ends, as a share of the through-flow.
const SLACK: f64 = 1e-10;
/// All changes but one in so many stay within the reach: the others are found by adding up all gaps.
const BEYOND: usize = 64;
/// How much farther than the straight line says a change may reach.
const ROOM: f64 = 1.25;

/// One space near the balance that a member holds.
#[derive(Clone, Debug)]
pub struct Near {
    /// Pressure of the balance, Pa.
    middle: f64,
    /// How far from it this holds, Pa; zero where all gaps have to be added up.
    reach: f64,
    smooth: Smooth,
    /// The gaps whose law turns close by, and the fans.
    few: Ensemble,
    member: Member,
    coefficients: Arranged,
}

/// A gap, and what is left of its flow.
pub type Change = (usize, f64);

impl Ensemble {
    /// What there is to know near the balance that `member` holds, made for changes of single gaps
    /// such as these; `None` where there are several spaces or no change moves the pressure.
    pub fn near(
        &self,
        member: &Member,
        wind: (&Arranged, f64),
        changes: &[Change],
    ) -> Option<Near> {
        let [_] = self.spaces.as_slice() else {
            return None;
        };
        let middle = member.state.pressures[0];
        let slope = self.evaluate(member, wind, 0, middle).slope;
        let mut shifts: Vec<f64> = changes
            .iter()
            .map(|change| {
                let lost = self.lost(member, wind, *change, middle);
                ((lost.inward - lost.outward) / (slope - lost.slope)).abs()
            })
            .filter(|shift| shift.is_finite())
            .collect();
        let last = shifts.len().checked_sub(shifts.len() / BEYOND + 1)?;
        let reach = ROOM * *shifts.select_nth_unstable_by(last, f64::total_cmp).1;
        (reach > 0.0).then(|| self.near_within(member, wind, (middle, reach)))
    }

    fn near_within(
        &self,
        member: &Member,
        (coefficients, scale): (&Arranged, f64),
        (middle, reach): (f64, f64),
    ) -> Near {
        let wind = (coefficients, scale);
        let turns = |at: &usize| self.turns_within(member, wind, (*at, middle), FAR * reach);
        let gaps: Vec<usize> = (0..self.gaps.len()).filter(turns).collect();
        let few = self.of_some(&gaps);
        let place = |at: &usize| {
            let slot = self.gaps[*at].slot;
            (slot / LANES, slot % LANES)
        };
        let mut few_member = few.member();
        let factors: Vec<f64> = gaps.iter().map(|at| member.factors[*at]).collect();
        few.vary(&mut few_member, &factors, &[], member.discharge);
        let base = few.arrange(
            gaps.iter()
                .map(place)
                .map(|(at, lane)| member.base[at][lane]),
        );
        few_member.base = base.lanes;
        let few_coefficients = gaps.iter().map(place);
        let few_coefficients =
            few.arrange(few_coefficients.map(|(at, lane)| scale * coefficients.lanes[at][lane]));
        let mut near = Near {
            middle,
            reach,
            smooth: Smooth::default(),
            few,
            member: few_member,
            coefficients: few_coefficients,
        };
        let others = |t: f64| {
            let pressure = middle + reach * t;
            let all = self.evaluate(member, wind, 0, pressure);
            let few = near.few_at(pressure);
            [all.inflow - few.inflow, all.outflow - few.outflow]
        };
        let smooth = Smooth::through(NODES_AT.map(others));
        let off = |end: f64| {
            let (found, exact) = (smooth.at(end).0, others(end));
            (found[0] - exact[0]).abs() + (found[1] - exact[1]).abs()
        };
        let most = SLACK * self.evaluate(member, wind, 0, middle).inflow;
        let holds = off(-1.0) <= most && off(1.0) <= most;
        near.smooth = smooth;
        near.reach = if holds { reach } else { 0.0 };
        near
    }

    /// The balance with one gap changed and all else as `member` has it. Tolerance and correction are
    /// those of [`Ensemble::solve`], which takes over where there is nothing `near` to go by or the
    /// steps do not get there soon.
    ///
    /// # Errors
    /// As [`Ensemble::solve`].
    pub fn solve_changed(
        &self,
        near: Option<&Near>,
        (member, coefficients, scale): (&Member, &Arranged, f64),
        (gap, left): Change,
        tolerance: f64,
    ) -> Result<Solved, NetworkError> {
        let beside = (member, coefficients, scale);
        let found = near.and_then(|near| self.solve_near(near, beside, (gap, left), tolerance));
        if let Some(solved) = found {
            return Ok(solved);
        }
        let mut factors = member.factors.clone();
        factors[gap] *= left;
        let mut changed = member.clone();
        self.vary(
            &mut changed,
            &factors,
            &member.opening_factors,
            member.discharge,
        );
        self.solve(&mut changed, coefficients, scale, tolerance)
    }

    fn solve_near(
        &self,
        near: &Near,
        (member, coefficients, scale): (&Member, &Arranged, f64),
        change: Change,
        tolerance: f64,
    ) -> Option<Solved> {
        let wind = (coefficients, scale);
        let found = search(near.middle, tolerance, |pressure| {
            let all = near
                .total(pressure)
                .unwrap_or_else(|| self.evaluate(member, wind, 0, pressure));
            let lost = self.lost(member, wind, change, pressure);
            Total {
                inflow: all.inflow - lost.inward,
                outflow: all.outflow - lost.outward,
                slope_in: all.slope_in - lost.slope_in,
                slope: all.slope - lost.slope,
            }
        });
        found.map(|balance| balance.solved)
    }

    /// What no longer flows through a gap at a pressure inside.
    fn lost(
        &self,
        member: &Member,
        wind: (&Arranged, f64),
        (gap, left): Change,
        pressure: f64,
    ) -> Flow {
        let (parts, own) = (&self.gaps[gap], &self.spaces[0]);
        let (block, lane) = (parts.slot / LANES, parts.slot % LANES);
        let dp = self.outside(member, wind, gap) - pressure;
        let flow = if parts.is_power {
            let place = parts.slot - own.power_slot;
            own.airs.flow(&member.powers[own.powers.start + place], dp)
        } else if own.level.contains(&block) {
            plain::one_level(&member.blocks[block], lane, dp)
        } else {
            plain::one_tall(&member.blocks[block], lane, dp)
        };
        let lost = 1.0 - left;
        Flow {
            inward: lost * flow.inward,
            outward: lost * flow.outward,
            slope_in: lost * flow.slope_in,
            slope: lost * flow.slope,
        }
    }

    /// Pressure outside at mid-height of a gap, Pa.
    fn outside(&self, member: &Member, (coefficients, scale): (&Arranged, f64), gap: usize) -> f64 {
        let slot = self.gaps[gap].slot;
        let (block, lane) = (slot / LANES, slot % LANES);
        scale * coefficients.lanes[block][lane] + member.base[block][lane]
    }

    /// Whether the law of a gap turns at an inside pressure so near to `inside`.
    fn turns_within(
        &self,
        member: &Member,
        wind: (&Arranged, f64),
        (gap, inside): (usize, f64),
        distance: f64,
    ) -> bool {
        let (parts, own) = (&self.gaps[gap], &self.spaces[0]);
        let (block, lane) = (parts.slot / LANES, parts.slot % LANES);
        let dp = self.outside(member, wind, gap) - inside;
        let half = if parts.is_power {
            let placed = &self.body.gaps[gap].1;
            0.5 * own.airs.span_between(placed.z_low, placed.z_high)
        } else if own.level.contains(&block) {
            0.0
        } else {
            parts.half_span
        };
        let laws = &member.blocks[block];
        let turns = [
            0.0,
            laws.inward.crossing[lane],
            -laws.outward.crossing[lane],
        ];
        let ends = [dp - half, dp + half];
        ends.iter()
            .any(|end| turns.iter().any(|turn| (end - turn).abs() < distance))
    }

    /// The same airs and fans with some of the gaps.
    fn of_some(&self, gaps: &[usize]) -> Self {
        let body = &self.body;
        let some = Self::new(Body {
            outside: body.outside,
            datum: body.datum,
            spaces: body.spaces.clone(),
            gaps: gaps.iter().map(|at| body.gaps[*at]).collect(),
            openings: Vec::new(),
            fans: body.fans.clone(),
        });
        Self {
            level: self.level,
            ..some
        }
    }
}

impl Near {
    /// How far from the balance the pressure may lie without all gaps being added up, Pa; zero where
    /// they always are.
    pub fn reach(&self) -> f64 {
        self.reach
    }

    /// All gaps and fans at a pressure; `None` beyond the reach.
    fn total(&self, pressure: f64) -> Option<Total> {
        let t = (pressure - self.middle) / self.reach;
        // Without a reach it is no number, or beyond.
        (t.abs() <= 1.0).then(|| {
            let few = self.few_at(pressure);
            let ([inflow, outflow], [rise_in, rise_out]) = self.smooth.at(t);
            Total {
                inflow: few.inflow + inflow,
                outflow: few.outflow + outflow,
                slope_in: few.slope_in - rise_in / self.reach,
                slope: few.slope + (rise_out - rise_in) / self.reach,
            }
        })
    }

    fn few_at(&self, pressure: f64) -> Total {
        let wind = (&self.coefficients, 1.0);
        self.few.evaluate(&self.member, wind, 0, pressure)
    }
}

/// Inflow and outflow as polynomials of the place within the reach, −1…1.
#[derive(Clone, Debug, Default)]
struct Smooth {
    inflow: Polynomial,
    outflow: Polynomial,
}

impl Smooth {
    /// Through the values at the nodes.
    fn through(values: [[f64; 2]; NODES]) -> Self {
        Self {
            inflow: Polynomial::through(values.map(|[inflow, _]| inflow)),
            outflow: Polynomial::through(values.map(|[_, outflow]| outflow)),
        }
    }

    /// Values and derivatives of both.
    fn at(&self, t: f64) -> ([f64; 2], [f64; 2]) {
        let ((inflow, rise_in), (outflow, rise_out)) = (self.inflow.at(t), self.outflow.at(t));
        ([inflow, outflow], [rise_in, rise_out])
    }
}

/// Divided differences over the nodes, in their order.
#[derive(Clone, Debug, Default)]
struct Polynomial([f64; NODES]);

impl Polynomial {
    fn through(mut values: [f64; NODES]) -> Self {
        for order in 1..NODES {
            for at in (order..NODES).rev() {
                let apart = NODES_AT[at] - NODES_AT[at - order];
                values[at] = (values[at] - values[at - 1]) / apart;
            }
        }
        Self(values)
    }

    /// Value and derivative.
    fn at(&self, t: f64) -> (f64, f64) {
        let (mut value, mut rise) = (0.0, 0.0);
        for (node, factor) in NODES_AT.iter().zip(&self.0).rev() {
            rise = rise * (t - node) + value;
            value = value * (t - node) + factor;
        }
        (value, rise)
    }
}
