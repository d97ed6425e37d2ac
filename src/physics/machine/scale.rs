//! Removal and power against the driving quantity, through the maker's figures.

use crate::physics::counts;

/// One figure: driving quantity, removal in kg/s, power in W.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Mark {
    drive: f64,
    removal: f64,
    power: f64,
}

/// The line through the maker's figures.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Scale {
    /// In rising order of the driving quantity; never empty, removals never fall.
    marks: Vec<Mark>,
}

impl Scale {
    /// A line through figures (driving quantity above zero, removal, power) in any order.
    pub(super) fn through(mut figures: Vec<(f64, f64, f64)>) -> Self {
        figures.sort_by(|a, b| a.0.total_cmp(&b.0));
        // Pool neighbours until the removals do not fall: each pool carries its mean and size.
        let mut pools: Vec<(f64, usize)> = Vec::with_capacity(figures.len());
        for &(_, removal, _) in &figures {
            let mut pool = (removal, 1_usize);
            while let Some(&(mean, count)) = pools.last() {
                if mean <= pool.0 {
                    break;
                }
                pools.pop();
                let (one, other) = (counts::count(count), counts::count(pool.1));
                pool = (
                    (mean * one + pool.0 * other) / (one + other),
                    count + pool.1,
                );
            }
            pools.push(pool);
        }
        let pooled = pools
            .into_iter()
            .flat_map(|(mean, count)| std::iter::repeat_n(mean, count));
        let marks = figures
            .iter()
            .zip(pooled)
            .map(|(&(drive, _, power), removal)| Mark {
                drive,
                removal,
                power,
            })
            .collect();
        Self { marks }
    }

    /// Best removal of all figures, kg/s.
    pub(super) fn best_removal(&self) -> f64 {
        self.marks.last().map_or(0.0, |mark| mark.removal)
    }

    /// Removal at a driving quantity, kg/s.
    pub(super) fn removal(&self, drive: f64) -> f64 {
        let mut before = (0.0, 0.0);
        for mark in &self.marks {
            if drive <= mark.drive {
                return between(before, (mark.drive, mark.removal), drive);
            }
            before = (mark.drive, mark.removal);
        }
        // Beyond the last figure in proportion.
        before.1 * drive / before.0
    }

    /// Power at a driving quantity, W; held outside the figures.
    pub(super) fn power(&self, drive: f64) -> f64 {
        let mut before: Option<(f64, f64)> = None;
        for mark in &self.marks {
            let here = (mark.drive, mark.power);
            if drive <= mark.drive {
                return before.map_or(mark.power, |before| between(before, here, drive));
            }
            before = Some(here);
        }
        before.map_or(0.0, |(_, power)| power)
    }
}

/// On the straight line between two marks; the second's where they coincide.
fn between(one: (f64, f64), other: (f64, f64), x: f64) -> f64 {
    if other.0 > one.0 {
        one.1 + (other.1 - one.1) * (x - one.0) / (other.0 - one.0)
    } else {
        other.1
    }
}
