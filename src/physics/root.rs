//! Where a falling function of one number crosses zero: bracketed, so that it always ends.

/// One look at the function.
pub(crate) struct Probe {
    pub(crate) value: f64,
    /// Near enough to zero to stop.
    pub(crate) close: bool,
}

/// Why there is no crossing.
#[derive(Debug)]
pub(crate) enum NoRoot<E> {
    /// The function is negative over the whole span.
    BelowSpan,
    /// The function is positive over the whole span.
    AboveSpan,
    /// The function itself failed.
    Function(E),
}

impl<E> From<E> for NoRoot<E> {
    fn from(error: E) -> Self {
        Self::Function(error)
    }
}

/// An end of the bracket.
#[derive(Clone, Copy)]
struct End {
    x: f64,
    value: f64,
}

/// Where to look first, how steeply the function falls there, roughly, and how far apart two
/// numbers must be to matter.
#[derive(Clone, Copy)]
pub(crate) struct Guess {
    pub(crate) start: f64,
    pub(crate) slope: f64,
    pub(crate) finest: f64,
}

/// Where the function crosses zero. The two ends are the same where it comes close to zero, and
/// as near as can matter, the first with the positive value, where it jumps across.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Crossing {
    pub(crate) above: f64,
    pub(crate) below: f64,
}

impl Crossing {
    fn at(x: f64) -> Self {
        Self { above: x, below: x }
    }
}

/// Steps after which the answer is as good as doubles allow; bisection alone takes 62.
const MOST_STEPS: usize = 200;

/// The zero of a function that falls, between `span.0` and `span.1`.
///
/// Steps from the guess until the sign changes, then closes in by Chandrupatla's method
/// (Advances in Engineering Software 28, 1997 **\[M\]**): inverse quadratic interpolation where
/// it can be trusted, bisection elsewhere. Ends when the function says it is close, or when the
/// bracket is as fine as can matter or as doubles can tell.
pub(crate) fn falling_root<E>(
    mut function: impl FnMut(f64) -> Result<Probe, E>,
    span: (f64, f64),
    guess: Guess,
) -> Result<Crossing, NoRoot<E>> {
    let x = guess.start.clamp(span.0, span.1);
    let probe = function(x)?;
    if probe.close {
        return Ok(Crossing::at(x));
    }
    let first = End {
        x,
        value: probe.value,
    };
    let rising_side = first.value > 0.0;
    let (limit, none) = if rising_side {
        (span.1, NoRoot::AboveSpan)
    } else {
        (span.0, NoRoot::BelowSpan)
    };
    // A shade beyond the straight line's zero, so that the bracket closes at the first step.
    let mut step = 1.001 * first.value / guess.slope;
    if !(step.is_finite() && (step > 0.0) == rising_side && step != 0.0) {
        step = limit - first.x;
    }
    let mut near = first;
    loop {
        if near.x.total_cmp(&limit).is_eq() {
            return Err(none);
        }
        let x = (near.x + step).clamp(span.0, span.1);
        let x = if x.total_cmp(&near.x).is_eq() {
            limit
        } else {
            x
        };
        let probe = function(x)?;
        let far = End {
            x,
            value: probe.value,
        };
        if probe.close {
            return Ok(Crossing::at(x));
        }
        if (far.value > 0.0) != rising_side {
            return close_in(function, near, far, guess.finest);
        }
        near = far;
        step *= 2.0;
    }
}

/// Closes a bracket in on the zero.
fn close_in<E>(
    mut function: impl FnMut(f64) -> Result<Probe, E>,
    one: End,
    other: End,
    finest: f64,
) -> Result<Crossing, NoRoot<E>> {
    let (mut a, mut b) = (other, one);
    let mut share = interpolated(&a, &b, None);
    for _ in 0..MOST_STEPS {
        // Never closer to either end than a double can tell.
        let least = finest.max(2.0 * f64::EPSILON * a.x.abs().max(b.x.abs())) / (b.x - a.x).abs();
        if least >= 1.0 {
            break;
        }
        share = if least < 0.5 {
            share.clamp(least, 1.0 - least)
        } else {
            0.5
        };
        let x = a.x + share * (b.x - a.x);
        if x.total_cmp(&a.x).is_eq() || x.total_cmp(&b.x).is_eq() {
            break;
        }
        let probe = function(x)?;
        if probe.close {
            return Ok(Crossing::at(x));
        }
        let new = End {
            x,
            value: probe.value,
        };
        let dropped = if (new.value > 0.0) == (a.value > 0.0) {
            a
        } else {
            let dropped = b;
            b = a;
            dropped
        };
        a = new;
        share = interpolated(&a, &b, Some(&dropped));
    }
    let (above, below) = if a.value > 0.0 { (a, b) } else { (b, a) };
    Ok(Crossing {
        above: above.x,
        below: below.x,
    })
}

/// Share of the way from a to b for the next look.
fn interpolated(a: &End, b: &End, dropped: Option<&End>) -> f64 {
    let Some(c) = dropped else {
        return a.value / (a.value - b.value);
    };
    let xi = (a.x - b.x) / (c.x - b.x);
    let phi = (a.value - b.value) / (c.value - b.value);
    if !(phi * phi < xi && (1.0 - phi) * (1.0 - phi) < 1.0 - xi) {
        return 0.5;
    }
    let alpha = (c.x - a.x) / (b.x - a.x);
    let share = a.value / (b.value - a.value) * c.value / (b.value - c.value)
        + alpha * a.value / (c.value - a.value) * b.value / (c.value - b.value);
    if share.is_finite() { share } else { 0.5 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::convert::Infallible;

    fn root(f: impl Fn(f64) -> f64, start: f64, slope: f64) -> (Option<f64>, usize) {
        let mut looks = 0;
        let found = falling_root::<Infallible>(
            |x| {
                looks += 1;
                let value = f(x);
                Ok(Probe {
                    value,
                    close: value == 0.0,
                })
            },
            (-60.0, 60.0),
            Guess {
                start,
                slope,
                finest: 0.0,
            },
        );
        (found.ok().map(|found| found.above), looks)
    }

    #[test]
    fn finds_the_zero_of_smooth_kinked_and_steep_functions() {
        // Closed forms.
        let cases: [(&dyn Fn(f64) -> f64, f64); 5] = [
            (&|x| 3.0 - x, 3.0),
            (&|x| 8.0 - x * x * x, 2.0),
            (&|x: f64| 1.0 - x.exp(), 0.0),
            (
                &|x: f64| {
                    if x < 7.0 {
                        1e-6 * (7.0 - x)
                    } else {
                        1e6 * (7.0 - x)
                    }
                },
                7.0,
            ),
            (&|x: f64| (11.0 - x).cbrt(), 11.0),
        ];
        for (at, (f, zero)) in cases.into_iter().enumerate() {
            for start in [-60.0, -5.0, 4.0, 59.0] {
                let (found, looks) = root(f, start, 1.0);
                let found = found.expect("inside the span");
                assert!(
                    (found - zero).abs() < 1e-12,
                    "case {at} from {start}: {found}"
                );
                assert!(looks < 120, "case {at} from {start}: {looks} looks");
            }
        }
    }

    #[test]
    fn a_nearly_straight_line_takes_few_looks() {
        // The heat balance is one: its slope changes by a few per cent over the bracket.
        let (found, looks) = root(|x| 280.0 - (70.0 + 0.2 * x) * x, 0.0, 70.0);
        assert!(found.is_some() && looks <= 9, "{looks}");
    }

    #[test]
    fn tells_on_which_side_there_is_no_zero() {
        assert!(root(|_| 1.0, 0.0, 1.0).0.is_none());
        assert!(root(|_| -1.0, 0.0, 1.0).0.is_none());
        let above = falling_root::<Infallible>(
            |x| {
                Ok(Probe {
                    value: 100.0 - x,
                    close: false,
                })
            },
            (-60.0, 60.0),
            Guess {
                start: 0.0,
                slope: 1.0,
                finest: 0.0,
            },
        );
        assert!(matches!(above, Err(NoRoot::AboveSpan)));
    }
}
