//! Dense factors of a symmetric positive definite matrix.

/// Solves `A x = b` in place: `matrix` becomes its lower factor, `vector` the answer. False where
/// the matrix is not positive definite.
///
/// ```text
/// A = L Lᵀ,  L y = b,  Lᵀ x = y
/// ```
pub(super) fn solve(matrix: &mut [f64], vector: &mut [f64]) -> bool {
    let n = vector.len();
    for row in 0..n {
        for column in 0..=row {
            let mut value = matrix[row * n + column];
            for k in 0..column {
                value -= matrix[row * n + k] * matrix[column * n + k];
            }
            if column < row {
                matrix[row * n + column] = value / matrix[column * n + column];
            } else if value > 0.0 {
                matrix[row * n + row] = value.sqrt();
            } else {
                return false;
            }
        }
    }
    for row in 0..n {
        let before: f64 = (0..row).map(|k| matrix[row * n + k] * vector[k]).sum();
        vector[row] = (vector[row] - before) / matrix[row * n + row];
    }
    for row in (0..n).rev() {
        let after: f64 = (row + 1..n).map(|k| matrix[k * n + row] * vector[k]).sum();
        vector[row] = (vector[row] - after) / matrix[row * n + row];
    }
    true
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A textbook system: [[4, 12, −16], [12, 37, −43], [−16, −43, 98]] has the factor
    /// [[2], [6, 1], [−8, 5, 3]]; times (1, 2, 3) it is (−20, −43, 192).
    #[test]
    fn a_textbook_system() {
        let mut matrix = [4.0, 12.0, -16.0, 12.0, 37.0, -43.0, -16.0, -43.0, 98.0];
        let mut vector = [-20.0, -43.0, 192.0];
        assert!(solve(&mut matrix, &mut vector));
        for (found, exact) in vector.iter().zip([1.0, 2.0, 3.0]) {
            assert!((found - exact).abs() < 1e-11, "{vector:?}");
        }
        assert!((matrix[8] - 3.0).abs() < 1e-12 && (matrix[7] - 5.0).abs() < 1e-12);
        assert!(!solve(&mut [1.0, 2.0, 2.0, 1.0], &mut [1.0, 1.0]));
    }
}
