//! All outside air of one space at one pressure.

use super::block::{Block, LANES, Lanes, Sums};
use super::{Arranged, Ensemble, Member, plain};
use crate::physics::network::FanWay;
use fearless_simd::prelude::*;
use fearless_simd::{dispatch, f64x4};
use std::ops::Range;

/// What comes in and goes out of one space at one pressure, kg/s and kg/(s Pa).
pub(super) struct Total {
    pub(super) inflow: f64,
    pub(super) outflow: f64,
    pub(super) slope_in: f64,
    pub(super) slope: f64,
}

/// The gaps of one space at its pressure.
struct AtPressure<'a> {
    blocks: &'a [Block],
    /// Pressure outside at each slot, Pa: `scale` times the coefficient, and the rest.
    coefficients: &'a [Lanes],
    base: &'a [Lanes],
    scale: f64,
    inside: f64,
}

impl AtPressure<'_> {
    #[inline(always)]
    fn difference<S: Simd>(&self, simd: S, at: usize) -> f64x4<S> {
        let wind = self.scale * f64x4::simd_from(simd, self.coefficients[at]);
        wind + f64x4::simd_from(simd, self.base[at]) - self.inside
    }

    /// Sums over blocks of level and of tall gaps, lane by lane. What is summed over lanes is so
    /// outside, where the sums lie in memory: asked for one by one in here, they would be taken out of
    /// their registers after every block.
    #[inline(always)]
    fn sums<S: Simd>(&self, simd: S, level: Range<usize>, tall: Range<usize>) -> plain::Sums {
        let mut sums = Sums::zero(simd);
        for at in level {
            self.blocks[at].level(simd, self.difference(simd, at), &mut sums);
        }
        for at in tall {
            self.blocks[at].tall(simd, self.difference(simd, at), &mut sums);
        }
        plain::Sums {
            inflow: sums.inflow.into(),
            outflow: sums.outflow.into(),
            slope_in: sums.slope_in.into(),
            slope: sums.slope.into(),
        }
    }

    fn plain_difference(&self, at: usize) -> Lanes {
        let (wind, base) = (&self.coefficients[at], &self.base[at]);
        std::array::from_fn(|lane| self.scale * wind[lane] + base[lane] - self.inside)
    }

    fn plain_sums(&self, level: Range<usize>, tall: Range<usize>) -> plain::Sums {
        let mut sums = plain::Sums::default();
        for at in level {
            plain::level(&self.blocks[at], &self.plain_difference(at), &mut sums);
        }
        for at in tall {
            plain::tall(&self.blocks[at], &self.plain_difference(at), &mut sums);
        }
        sums
    }
}

fn lanes_sum(lanes: &Lanes) -> f64 {
    (lanes[0] + lanes[1]) + (lanes[2] + lanes[3])
}

impl Ensemble {
    fn at_pressure<'a>(
        &self,
        (open, member): (&'a Member, &'a Member),
        (coefficients, scale): (&'a Arranged, f64),
        inside: f64,
    ) -> AtPressure<'a> {
        AtPressure {
            blocks: &open.blocks,
            coefficients: &coefficients.lanes,
            base: &member.base,
            scale,
            inside,
        }
    }

    /// All outside air of one space at the pressure it has, Pa.
    pub(super) fn evaluate(
        &self,
        member: &Member,
        (coefficients, scale): (&Arranged, f64),
        space: usize,
        inside: f64,
    ) -> Total {
        let own = &self.spaces[space];
        let at = self.at_pressure((member, member), (coefficients, scale), inside);
        let (level, tall) = (own.level.clone(), own.tall.clone());
        let sums = self.sums(&at, level, tall);
        let mut total = Total {
            inflow: lanes_sum(&sums.inflow),
            outflow: lanes_sum(&sums.outflow),
            slope_in: lanes_sum(&sums.slope_in),
            slope: lanes_sum(&sums.slope),
        };
        for fan in self.body.fans.iter().filter(|fan| fan.space == space) {
            let found = fan.at(inside);
            total.slope += found.slope;
            match fan.way {
                FanWay::Supply => {
                    total.inflow += found.flow;
                    total.slope_in += found.slope;
                }
                FanWay::Extract => total.outflow += found.flow,
            }
        }
        for (slot, path) in (own.power_slot..).zip(&member.powers[own.powers.clone()]) {
            let (block, lane) = (slot / LANES, slot % LANES);
            let outside = scale * coefficients.lanes[block][lane] + member.base[block][lane];
            let flow = own.airs.flow(path, outside - inside);
            total.inflow += flow.inward;
            total.outflow += flow.outward;
            total.slope_in += flow.slope_in;
            total.slope += flow.slope;
        }
        total
    }

    /// What the four gaps of a block of a space, those of `open`, let in and out at the pressures of
    /// `member`, kg/s.
    pub(super) fn flows_of_block(
        &self,
        (member, open): (&Member, &Member),
        wind: (&Arranged, f64),
        (space, block): (usize, usize),
    ) -> (Lanes, Lanes) {
        let inside = member.state.pressures[space];
        let at = self.at_pressure((open, member), wind, inside);
        let (one, none) = (block..block + 1, block..block);
        let is_level = self.spaces[space].level.contains(&block);
        let (level, tall) = if is_level { (one, none) } else { (none, one) };
        let sums = self.sums(&at, level, tall);
        (sums.inflow, sums.outflow)
    }

    fn sums(&self, at: &AtPressure<'_>, level: Range<usize>, tall: Range<usize>) -> plain::Sums {
        match self.level {
            Some(registers) => dispatch!(registers, simd => at.sums(simd, level, tall)),
            None => at.plain_sums(level, tall),
        }
    }
}
