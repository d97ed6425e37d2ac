//! Solving for the pressures of spaces joined by conductances.
//!
//! The matrix of the problem is symmetric: each off-diagonal element is minus the conductance
//! between two spaces, each diagonal the sum of all conductances of a space, that to outside
//! included. Cholesky's factors of it lose their digits where a wide doorway stands beside a
//! pinhole: the conductance to outside vanishes in the sum. Taking out one space after another
//! and replacing it by conductances between its neighbours (the star-mesh transformation) is the
//! same elimination with nothing but sums of positive numbers, exact to the last digits however
//! far apart they lie.

/// Conductances between spaces and to outside.
#[derive(Clone, Debug, Default)]
pub(in crate::physics) struct Conductances {
    count: usize,
    /// Between each two, row by row; only used above the diagonal.
    between: Vec<f64>,
    /// To outside.
    ground: Vec<f64>,
    /// Sum of each space's at the moment it is taken out.
    sums: Vec<f64>,
}

impl Conductances {
    pub(in crate::physics) fn clear(&mut self, count: usize) {
        self.count = count;
        self.between.clear();
        self.between.resize(count * count, 0.0);
        for list in [&mut self.ground, &mut self.sums] {
            list.clear();
            list.resize(count, 0.0);
        }
    }

    pub(in crate::physics) fn add_to_outside(&mut self, space: usize, conductance: f64) {
        self.ground[space] += conductance;
    }

    pub(in crate::physics) fn add_between(&mut self, one: usize, other: usize, conductance: f64) {
        self.between[one.min(other) * self.count + one.max(other)] += conductance;
    }

    /// Replaces the inflow of each space, kg/s, by the pressure it makes, Pa:
    ///
    /// ```text
    /// taking out k      g_ij += g_ik g_kj/d_k,  g_i0 += g_ik g_k0/d_k,  b_i += g_ik b_k/d_k
    /// putting back k    p_k = (b_k + Σ g_kj p_j)/d_k,  d_k = g_k0 + Σ g_kj
    /// ```
    /// A space that nothing joins to anything keeps the pressure zero.
    pub(in crate::physics) fn solve(&mut self, vector: &mut [f64]) {
        let n = self.count;
        for k in 0..n {
            let later = k + 1..n;
            let sum = self.ground[k] + later.clone().map(|j| self.between[k * n + j]).sum::<f64>();
            self.sums[k] = sum;
            if sum <= 0.0 {
                continue;
            }
            for i in later {
                let share = self.between[k * n + i] / sum;
                self.ground[i] += share * self.ground[k];
                vector[i] += share * vector[k];
                for j in i + 1..n {
                    self.between[i * n + j] += share * self.between[k * n + j];
                }
            }
        }
        for k in (0..n).rev() {
            let drawn: f64 = (k + 1..n)
                .map(|j| self.between[k * n + j] * vector[j])
                .sum();
            vector[k] = if self.sums[k] > 0.0 {
                (vector[k] + drawn) / self.sums[k]
            } else {
                0.0
            };
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Three spaces in line, conductances 2 to outside, 3, 5 and 7 to outside again, 1 kg/s into
    /// the middle one. By hand: 6/5 of it leaves one way, 35/12 the other, of 1.2 + 35/12 in all.
    #[test]
    fn a_line_of_three_by_hand() {
        let mut line = Conductances::default();
        line.clear(3);
        line.add_to_outside(0, 2.0);
        line.add_between(1, 0, 3.0);
        line.add_between(1, 2, 5.0);
        line.add_to_outside(2, 7.0);
        let mut pressures = [0.0, 1.0, 0.0];
        line.solve(&mut pressures);
        let middle = 1.0 / (6.0 / 5.0 + 35.0 / 12.0);
        for (found, exact) in
            pressures
                .iter()
                .zip([middle * 3.0 / 5.0, middle, middle * 5.0 / 12.0])
        {
            assert!((found - exact).abs() < 1e-15, "{pressures:?}");
        }
    }

    /// A doorway 10²⁰ times as wide as the pinhole that leads outside: both spaces have the
    /// pressure that drives the flow through the pinhole. A factorised matrix would have lost it.
    #[test]
    fn conductances_far_apart_lose_no_digits() {
        let mut two = Conductances::default();
        two.clear(2);
        two.add_between(0, 1, 1e10);
        two.add_to_outside(1, 1e-10);
        let mut pressures = [1e-9, 2e-9];
        two.solve(&mut pressures);
        assert!((pressures[0] - 30.0).abs() < 1e-13 && (pressures[1] - 30.0).abs() < 1e-13);
    }

    #[test]
    fn a_space_by_itself_stays_at_zero() {
        let mut lone = Conductances::default();
        lone.clear(2);
        lone.add_to_outside(1, 2.0);
        let mut pressures = [0.0, 4.0];
        lone.solve(&mut pressures);
        assert!(pressures[0].abs() < 1e-300 && (pressures[1] - 2.0).abs() < 1e-15);
    }
}
