//! What was written down that changed along with a method.

use crate::assess::measured::trial::{Method, Pair};
use crate::assess::words::{capital, given};
use crate::survey::{Period, Trial, Vents};

/// How vents and people differed between the periods of a method and those without it, as they were
/// written down; `None` where they did not, or nobody wrote it down of both.
pub(super) fn besides(trial: &Trial, method: &Method) -> Option<String> {
    let pairs = method.pairs.iter();
    let each: Vec<String> = pairs.flat_map(|pair| differences(trial, *pair)).collect();
    (!each.is_empty()).then(|| format!("{}: {}.", capital(&method.words), each.join("; ")))
}

fn differences(trial: &Trial, pair: Pair) -> Vec<String> {
    let written = |id| trial.periods.iter().find(|period| period.id == id);
    let Some((with, without)) = written(pair.with).zip(written(pair.without)) else {
        return Vec::new();
    };
    let vents = vents(with).zip(vents(without));
    let vents = vents.filter(|(with, without)| with != without);
    let people = with.people.zip(without.people);
    let people = people.filter(|(with, without)| with.total_cmp(without).is_ne());
    let told = |with: String, without: String| {
        format!(
            "{with} in period {}, and {without} in period {} without it",
            pair.with, pair.without
        )
    };
    [
        vents.map(|(with, without)| told(format!("the vents were {with}"), without.to_owned())),
        people.map(|(with, without)| told(inside(with), inside(without))),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn vents(period: &Period) -> Option<&'static str> {
    (period.vents != Vents::NotSaid).then(|| period.vents.name())
}

/// People inside, on average over a period.
fn inside(people: f64) -> String {
    match given(people).as_str() {
        "0" => "nobody was inside".to_owned(),
        "1" => "one person was inside".to_owned(),
        people => format!("{people} people were inside"),
    }
}
