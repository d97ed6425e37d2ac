//! Random numbers that depend on nothing but a seed, the number of the draw and what is drawn.
//!
//! No generator carries a state from one draw to the next, so that any part of the draws can be
//! made anywhere, in any order, with the same numbers; and a gap keeps its numbers when another
//! is added to the ledger.

/// One well-mixed number: the output function of SplitMix64, Steele, Lea and Flood, *Fast
/// splittable pseudorandom number generators*, OOPSLA 2014 \[M\].
fn mix(counter: u64) -> u64 {
    let mut z = counter.wrapping_mul(0x9e37_79b9_7f4a_7c15);
    z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}

/// The start of one draw's numbers.
#[derive(Clone, Copy, Debug)]
pub(super) struct Draw(u64);

impl Draw {
    pub(super) fn new(seed: u64, number: u32) -> Self {
        Self(mix(mix(seed ^ 0x6a09_e667_f3bc_c909) ^ u64::from(number)))
    }

    /// An evenly spread number between 0 and 1, never either of them.
    #[inline]
    pub(super) fn even(self, key: u64) -> f64 {
        let bits = mix(self.0 ^ mix(key).rotate_left(17)) >> 11;
        #[expect(clippy::cast_precision_loss, reason = "53 bits fit exactly")]
        let whole = bits as f64;
        (whole + 0.5) * (1.0 / 9_007_199_254_740_992.0)
    }

    /// A normally spread number, mean 0, standard deviation 1.
    #[inline]
    pub(super) fn normal(self, key: u64) -> f64 {
        normal_quantile(self.even(key))
    }
}

/// The number of one draw that is told apart by a key: normally spread, mean 0, standard deviation 1.
pub(crate) fn normal(seed: u64, number: u32, key: u64) -> f64 {
    Draw::new(seed, number).normal(key)
}

/// Inverse of the normal distribution function, exact to about 1e-15: Wichura, algorithm AS 241
/// (PPND16), Applied Statistics 37(3), 1988, 477–484 \[M\].
pub(super) fn normal_quantile(p: f64) -> f64 {
    let q = p - 0.5;
    if q.abs() <= 0.425 {
        let r = 0.180_625 - q * q;
        return q * polynomial(&CENTRE_OVER, r) / polynomial(&CENTRE_UNDER, r);
    }
    let r = (-p.min(1.0 - p).ln()).sqrt();
    let tail = if r <= 5.0 {
        polynomial(&NEAR_OVER, r - 1.6) / polynomial(&NEAR_UNDER, r - 1.6)
    } else {
        polynomial(&FAR_OVER, r - 5.0) / polynomial(&FAR_UNDER, r - 5.0)
    };
    tail.copysign(q)
}

/// Value of a polynomial whose coefficients begin with the constant.
fn polynomial(coefficients: &[f64; 8], x: f64) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, c| sum * x + c)
}

const CENTRE_OVER: [f64; 8] = [
    3.387_132_872_796_366_5,
    1.331_416_678_917_843_8e2,
    1.971_590_950_306_551_3e3,
    1.373_169_376_550_946e4,
    4.592_195_393_154_987e4,
    6.726_577_092_700_87e4,
    3.343_057_558_358_813e4,
    2.509_080_928_730_122_7e3,
];
const CENTRE_UNDER: [f64; 8] = [
    1.0,
    4.231_333_070_160_091e1,
    6.871_870_074_920_579e2,
    5.394_196_021_424_751e3,
    2.121_379_430_158_659_7e4,
    3.930_789_580_009_271e4,
    2.872_908_573_572_194_3e4,
    5.226_495_278_852_854e3,
];
const NEAR_OVER: [f64; 8] = [
    1.423_437_110_749_683_5,
    4.630_337_846_156_546,
    5.769_497_221_460_691,
    3.647_848_324_763_204_5,
    1.270_458_252_452_368_4,
    2.417_807_251_774_506e-1,
    2.272_384_498_926_918_4e-2,
    7.745_450_142_783_414e-4,
];
const NEAR_UNDER: [f64; 8] = [
    1.0,
    2.053_191_626_637_759,
    1.676_384_830_183_803_8,
    6.897_673_349_851e-1,
    1.481_039_764_274_800_8e-1,
    1.519_866_656_361_645_7e-2,
    5.475_938_084_995_345e-4,
    1.050_750_071_644_416_9e-9,
];
const FAR_OVER: [f64; 8] = [
    6.657_904_643_501_103,
    5.463_784_911_164_114,
    1.784_826_539_917_291_3,
    2.965_605_718_285_048_7e-1,
    2.653_218_952_657_612_4e-2,
    1.242_660_947_388_078_4e-3,
    2.711_555_568_743_487_6e-5,
    2.010_334_399_292_288_1e-7,
];
const FAR_UNDER: [f64; 8] = [
    1.0,
    5.998_322_065_558_88e-1,
    1.369_298_809_227_358e-1,
    1.487_536_129_085_061_5e-2,
    7.868_691_311_456_133e-4,
    1.846_318_317_510_054_8e-5,
    1.421_511_758_316_446e-7,
    2.044_263_103_389_939_8e-15,
];

#[cfg(test)]
mod tests {
    use super::*;

    /// Quantiles of the standard normal distribution as scipy.stats.norm.ppf gives them \[S\].
    #[test]
    fn quantiles_are_those_of_the_tables() {
        for (p, z) in [
            (0.5, 0.0),
            (0.975, 1.959_963_984_540_054),
            (0.025, -1.959_963_984_540_054),
            (0.95, 1.644_853_626_951_472_7),
            (0.841_344_746_068_542_9, 1.0),
            (1e-10, -6.361_340_902_404_056),
            (1e-300, -37.047_096_299_361_2),
        ] {
            let found = normal_quantile(p);
            assert!(
                (found - z).abs() < 2e-14 * f64::max(1.0, z.abs()),
                "{p}: {found} {z}"
            );
        }
    }

    /// SplitMix64 seeded with 1234567 begins 6457827717110365317, 3203168211198807973: the
    /// published test sequence of the generator \[M\].
    #[test]
    fn the_mixing_is_that_of_the_published_generator() {
        const STEP: u64 = 0x9e37_79b9_7f4a_7c15;
        let output = |state: u64| {
            // `mix` multiplies by the step; undo it to feed a state in.
            let mut inverse: u64 = 1;
            for _ in 0..6 {
                inverse = inverse.wrapping_mul(2_u64.wrapping_sub(STEP.wrapping_mul(inverse)));
            }
            mix(state.wrapping_mul(inverse))
        };
        let seed: u64 = 1_234_567;
        assert_eq!(output(seed.wrapping_add(STEP)), 6_457_827_717_110_365_317);
        assert_eq!(
            output(seed.wrapping_add(STEP.wrapping_mul(2))),
            3_203_168_211_198_807_973
        );
    }

    #[test]
    fn draws_are_evenly_spread_and_do_not_follow_one_another() {
        const N: u32 = 20_000;
        let (mut mean, mut square, mut by_key, mut by_draw) = (0.0, 0.0, 0.0, 0.0);
        for number in 0..N {
            let z = Draw::new(7, number).normal(3);
            mean += z;
            square += z * z;
            by_key += z * Draw::new(7, number).normal(4);
            by_draw += z * Draw::new(7, number + 1).normal(3);
        }
        let n = f64::from(N);
        // Four standard errors.
        let allowed = 4.0 / n.sqrt();
        for value in [
            mean / n,
            (square / n - 1.0) / 2.0_f64.sqrt(),
            by_key / n,
            by_draw / n,
        ] {
            assert!(value.abs() < allowed, "{value} {allowed}");
        }
    }
}
