//! Drying and heating: what each option would do, what to buy, and what the weather does to cold
//! surfaces, damp contents and sleepers. One part for each question, each built in one place.

mod figures;
mod names;
mod night;
mod sizes;
mod surfaces;
mod times;

pub(crate) use figures::figures;
#[cfg(feature = "window")]
pub(crate) use figures::{states, warmth_alone};
pub(crate) use night::night;
pub(crate) use sizes::{heaters, machines};
pub(crate) use surfaces::surfaces;
pub(crate) use times::{drying_out, warming_up};

use super::blocks::{Block, Section};
use super::{Material, findings};
use crate::assess::Answer;
use crate::assess::drying::{Comparison, OptionAnswer, Verdict};
use crate::assess::quantity::Kind;
use crate::assess::words::{capital, counted, sentence};
use names::{name, target};

/// All of it, one part after the other.
pub(crate) fn section(material: &Material<'_>) -> Section {
    let mut section = Section::new("Drying and heating");
    let comparison = match material.comparison {
        Ok(comparison) => comparison,
        Err(unknown) => {
            section.paragraph(format!("Nothing can be compared: {}.", unknown.reason));
            return section;
        }
    };
    let survey = material.survey;
    for part in [
        verdicts(comparison),
        figures(survey, comparison),
        noticed(comparison),
        machines(survey, comparison),
        heaters(survey, comparison),
        surfaces(comparison, 0, comparison.calmest),
        drying_out(comparison),
        warming_up(comparison),
        night(comparison),
    ] {
        section.append(part);
    }
    section
}

/// What is said of one option.
#[derive(Clone, Debug)]
pub(crate) struct Told {
    /// Its number and name, with a star where it is generic.
    pub(crate) name: String,
    /// The verdict with its reason in a sentence.
    pub(crate) now: String,
    /// The same with the planned gaps sealed; `None` while none is planned.
    pub(crate) after_plan: Option<Answer<String>>,
}

/// What is said of each option.
pub(crate) fn told(comparison: &Comparison) -> Vec<Told> {
    let words = |option: &OptionAnswer| sentence(&option.sentence);
    let options = comparison.options.iter().enumerate();
    options
        .map(|(at, option)| Told {
            name: name(at, option),
            now: words(option),
            after_plan: comparison.option_after_plan(at).map(|then| then.map(words)),
        })
        .collect()
}

/// What the comparison answers.
pub(crate) fn question(comparison: &Comparison) -> String {
    let set_up = comparison.set_up.name();
    format!("What would hold {} RH, {set_up}?", target(comparison))
}

/// Which options hold the target, and each option's verdict with its reason.
pub(crate) fn verdicts(comparison: &Comparison) -> Section {
    let mut section = Section::new(question(comparison));
    let sentences = summary(comparison);
    section.push(Block::Plain { sentences });
    for note in summary_notes(comparison) {
        section.note(note);
    }
    let points = told(comparison).into_iter().map(|option| {
        let now = format!("{}: {}", option.name, option.now);
        match option.after_plan {
            None => now,
            Some(Ok(then)) => format!("{now} After the plan: {then}"),
            Some(Err(unknown)) => format!("{now} After the plan: {unknown}."),
        }
    });
    section.push(Block::Points {
        points: points.collect(),
    });
    section
}

/// Which options hold the target, in a few lines for those who read no further.
pub(crate) fn summary(comparison: &Comparison) -> Vec<String> {
    let mut lines = vec![format!("{} {}", held_sign(comparison), held(comparison))];
    let some = named(comparison, &[Verdict::OnlyStill, Verdict::OnlyWindy]);
    if !some.is_empty() {
        lines.push(format!("▲ Only in one of the two: {some}."));
    }
    let none = named(comparison, &[Verdict::No]);
    if !none.is_empty() {
        lines.push(format!("ℹ Does not hold it: {none}."));
    }
    lines.extend(after_plan(comparison));
    lines
}

/// The options that hold the target in all weather told of, in a sentence.
pub(crate) fn held(comparison: &Comparison) -> String {
    sentence(&held_words(comparison))
}

fn held_words(comparison: &Comparison) -> String {
    let target = target(comparison);
    let (calm, windy) = (
        comparison.case_name(comparison.calmest),
        comparison.case_name(comparison.windiest),
    );
    let both = if comparison.calmest == comparison.windiest {
        String::new()
    } else if (calm, windy) == ("still", "windy") {
        " still and windy".to_owned()
    } else {
        format!(" in “{calm}” and in “{windy}”")
    };
    match named(comparison, &[Verdict::StillAndWindy]).as_str() {
        "" => format!("nothing compared here holds {target}{both}"),
        names => format!("holds {target}{both}: {names}"),
    }
}

fn held_sign(comparison: &Comparison) -> &'static str {
    if named(comparison, &[Verdict::StillAndWindy]).is_empty() {
        "▲"
    } else {
        "✔"
    }
}

/// The options with one of these verdicts.
fn named(comparison: &Comparison, wanted: &[Verdict]) -> String {
    let options = comparison.options.iter();
    let names: Vec<&str> = options
        .filter(|option| {
            let verdict = option.verdict.as_ref();
            verdict.is_ok_and(|verdict| wanted.contains(verdict))
        })
        .map(|option| option.name.as_str())
        .collect();
    names.join("; ")
}

/// What would hold it once the planned gaps are sealed.
fn after_plan(comparison: &Comparison) -> Option<String> {
    let plan = comparison.after_plan.as_ref()?;
    let gaps = counted(plan.gaps.len(), "gap", "gaps");
    let when = format!("after the plan ({gaps} sealed)");
    Some(match &plan.comparison {
        Err(unknown) => format!("ℹ {}: {unknown}.", capital(&when)),
        Ok(then) => {
            let (sign, words) = (held_sign(then), held_words(then));
            format!("{sign} {}: {words}.", capital(&when))
        }
    })
}

/// What the summary's words mean: the weather, and the plan.
pub(crate) fn summary_notes(comparison: &Comparison) -> Vec<String> {
    let plan = comparison.after_plan.as_ref().map(|plan| {
        let gaps: Vec<String> = plan.gaps.iter().map(ToString::to_string).collect();
        format!(
            "After the plan: the same once the planned gaps are sealed to what their remedies leave ({}).",
            gaps.join(", ")
        )
    });
    which_cases(comparison).into_iter().chain(plan).collect()
}

/// Which cases the sentences mean by still and windy, where these are not called so.
fn which_cases(comparison: &Comparison) -> Option<String> {
    let case = |at: usize| Some((comparison.case_name(at), comparison.cases.get(at)?.wind_m_s));
    let (calm, windy) = (case(comparison.calmest)?, case(comparison.windiest)?);
    if comparison.calmest == comparison.windiest || (calm.0, windy.0) == ("still", "windy") {
        return None;
    }
    Some(format!(
        "Here still means the weather case with least wind, “{}” ({}), and windy the one with most, \
         “{}” ({}).",
        calm.0,
        Kind::MetresPerSecond.typed(calm.1),
        windy.0,
        Kind::MetresPerSecond.typed(windy.1)
    ))
}

/// What was noticed about targets, options and supply.
fn noticed(comparison: &Comparison) -> Section {
    let mut section = Section::new("Worth knowing");
    let blocks = findings::worst_first(&comparison.findings).map(findings::block);
    section.blocks.extend(blocks);
    section
}
