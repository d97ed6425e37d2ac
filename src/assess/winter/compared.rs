//! The options of drying and heating by a winter that was run, instead of by the weather cases.

use super::count::Season;
use super::throughout::Throughout;
use crate::assess::answer::Answer;
use crate::assess::drying::{
    Comparison, DAYS_PER_MONTH, NEAR, OptionAnswer, OptionKind, Proviso, RunningCost, Shares,
    Standing, Verdict,
};
use crate::physics::counts::count;

/// Hours in a day.
const DAY_H: f64 = 24.0;
/// Share of the hours that is as good as none **\[A\]**.
const NEXT_TO_NONE: f64 = 0.005;

/// The comparison with the shares of a winter in place of those of the weather cases.
///
/// ```text
/// held = n(φ ≤ φ_target)/n,   near = n(φ ≤ φ_target + 5 %)/n,   month = C/d · 365.25/12,   winter = C
/// ```
/// where n are the hours of the season that are known, C its power, fuel and upkeep, and d its days. What no season says, such as the surfaces in each weather case and what has to
/// be said beside a verdict, stays as it was; *not needed* is what makes drier where nothing suffices
/// too. A plan is left out: its winter is another.
#[must_use]
pub fn compared(comparison: &Comparison, run: &Throughout) -> Comparison {
    let mut compared = comparison.clone();
    compared.shares = Shares::Winter;
    compared.after_plan = None;
    for (option, season) in compared.options.iter_mut().zip(run.seasons()) {
        by_season(option, season, run, comparison.target_rh);
    }
    let suffices = compared
        .options
        .iter()
        .any(|option| option.kind == OptionKind::Nothing && option.standing() == Standing::Well);
    for option in &mut compared.options {
        let dries = !matches!(
            option.kind,
            OptionKind::Nothing | OptionKind::LockersOpen | OptionKind::BackgroundHeat
        );
        let said = option.provisos.contains(&Proviso::NotNeeded);
        if suffices && dries && !said {
            option.provisos.push(Proviso::NotNeeded);
        } else if !suffices {
            option.provisos.retain(|one| *one != Proviso::NotNeeded);
        }
    }
    compared
}

fn by_season(option: &mut OptionAnswer, season: &Answer<Season>, run: &Throughout, target: f64) {
    if option.verdict == Ok(Verdict::NothingToOpen) {
        return;
    }
    option.verdict = season
        .as_ref()
        .map(|season| verdict(run.share_held(season, target)))
        .map_err(Clone::clone);
    option.nearly_held = season
        .as_ref()
        .map_or(0.0, |season| run.share_held(season, target + NEAR));
    option.mean_rh = season
        .as_ref()
        .map(|season| season.humidity.mean)
        .map_err(Clone::clone);
    let days = count(run.weathered().hours - run.weathered().not_known) / DAY_H;
    let cost = |days_of: f64| -> Answer<f64> {
        let season = season.as_ref().map_err(Clone::clone)?;
        Ok(season.cost.clone()? / days * days_of)
    };
    option.costs = RunningCost {
        per_month: cost(DAYS_PER_MONTH),
        per_winter: cost(count(run.weathered().hours) / DAY_H),
        upkeep_per_month: option.costs.upkeep_per_month.clone(),
    };
}

fn verdict(held: f64) -> Verdict {
    if held > 1.0 - NEXT_TO_NONE {
        Verdict::Always
    } else if held < NEXT_TO_NONE {
        Verdict::Never
    } else {
        Verdict::Partly(held)
    }
}

impl Throughout {
    /// The share of the known hours of a season in which the air inside is at most so humid, 0 to 1.
    #[must_use]
    pub fn share_held(&self, season: &Season, target_rh: f64) -> f64 {
        let (mut held, mut all) = (0, 0);
        for (outdoors, inside) in self.winter().outdoors.iter().zip(&season.hours) {
            if !outdoors.not_known {
                all += 1;
                held += usize::from(inside.rh <= target_rh);
            }
        }
        count(held) / count(all)
    }
}
