//! The coldest surfaces, which say how damp the air inside may be.

use super::listed::listed;
use crate::survey::Survey;

/// Relative humidity at a surface against mould, ISO 13788 **\[M\]**, and at dew.
const MOULD: f64 = 0.8;
const DEW: f64 = 1.0;

/// A surface that is the first to be too damp.
#[derive(Clone, Debug, PartialEq)]
pub struct Tightest {
    /// What happens where: `dew on Windows`.
    pub words: String,
    /// Relative humidity that it may have itself, 0 to 1.
    pub limit: f64,
    /// Its temperature factor f_Rsi, 0 to 1.
    pub factor: f64,
}

/// The surface on which mould is to be feared first, and the one on which dew falls first: those with
/// the least temperature factor, of what is no glass or bare metal, and of all. Empty where no build-up
/// is known. The clear night sky, which makes roof and glass colder still, is not in it.
#[must_use]
pub fn tightest(survey: &Survey) -> Vec<Tightest> {
    let all = listed(survey);
    let coldest = |limit: f64, happens: &str, may: &dyn Fn(f64) -> bool| {
        let surfaces = all.iter().filter(|one| may(one.limit()));
        let found = surfaces.min_by(|one, other| one.factor.total_cmp(&other.factor))?;
        Some(Tightest {
            words: format!("{happens} on {}", found.name.trim()),
            limit,
            factor: found.factor,
        })
    };
    let grows = |limit: f64| (limit - MOULD).abs() < 1e-9;
    [
        coldest(MOULD, "mould", &grows),
        coldest(DEW, "dew", &|_| true),
    ]
    .into_iter()
    .flatten()
    .collect()
}
