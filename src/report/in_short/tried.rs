//! What was tried, beside what is worked out.

use super::page::{Leads, Part};
use crate::assess::drying::{Comparison, OptionAnswer};
use crate::assess::in_short::{Pick, pick};
use crate::assess::measured::trial::Method;
use crate::assess::quantity::Kind;
use crate::report::Material;
use crate::report::drying::target;
use crate::report::measured::trial::{brief, title};
use crate::survey::Trial;

/// A line for each trial: every method with what it did, and whether what is advised fell short there.
pub(super) fn lines(part: &mut Part, material: &Material<'_>, comparison: &Comparison) {
    let Some(tried) = material.study.tried() else {
        return;
    };
    let taken = match pick(comparison) {
        Pick::Take(at) => comparison.options.get(at),
        Pick::NothingNeeded | Pick::NoneSuffices(_) => None,
    };
    for trial in &material.survey.trials {
        let Ok(outcome) = tried.trial(trial.id) else {
            continue;
        };
        if outcome.methods.is_empty() {
            continue;
        }
        let short = taken.and_then(|taken| fell_short(taken, &outcome.methods, comparison));
        let each: Vec<String> = outcome.methods.iter().map(brief).collect();
        part.line(
            format!(
                "{}Tried{}: {}.{}",
                if short.is_some() { "▲ " } else { "" },
                which(material, trial),
                each.join("; "),
                short.unwrap_or_default()
            ),
            Leads::Measurements,
        );
    }
}

/// Which trial it was, where there are several.
fn which(material: &Material<'_>, trial: &Trial) -> String {
    match material.survey.trials.len() {
        1 => String::new(),
        _ => format!(" in {}", title(trial)),
    }
}

/// What is said where the option that is advised did not come to the target in a trial.
fn fell_short(taken: &OptionAnswer, methods: &[Method], comparison: &Comparison) -> Option<String> {
    let name = taken.name.trim().to_lowercase();
    let mut methods = methods.iter();
    let method = methods.find(|method| method.words.trim().to_lowercase() == name)?;
    let effect = method.effect.as_ref().ok()?;
    let told = Kind::RelativeHumidity.text(effect.rh_with);
    let target = target(comparison);
    (effect.rh_with > comparison.target_rh && told != target)
        .then(|| format!(" “{}” did not come to {target} there.", taken.name))
}
