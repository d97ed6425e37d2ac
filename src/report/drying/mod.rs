//! Drying and heating: what each option would do, what to buy, and what the weather does to cold
//! surfaces, damp contents and sleepers. One part for each question, each built in one place.

mod figures;
mod names;
mod night;
mod sizes;
mod surfaces;
mod times;

pub(crate) use figures::{figures, running_costs, shares, to_buy};
#[cfg(feature = "window")]
pub(crate) use figures::{states, warmth_alone};
pub(crate) use night::night;
pub(crate) use sizes::{NOT_BY_HEAT, heaters, machines};
pub(crate) use surfaces::surfaces;
pub(crate) use times::{drying_out, warming_up};

use super::blocks::{Block, Section};
use super::measured::calibrated_sentence;
use super::{Material, findings};
use crate::assess::Answer;
use crate::assess::drying::{
    Comparison, NEAR, OptionAnswer, Proviso, Shortfall, Standing, Verdict,
};
use crate::assess::quantity::Kind;
use crate::assess::words::{capital, counted, figure, listed, sentence};
use crate::survey::SetUp;
use names::{PROVISOS, name};
pub(crate) use names::{by_no_flame, target};
use std::cmp::Ordering;

/// All of it, one part after the other.
pub(crate) fn section(material: &Material<'_>) -> Section {
    let mut section = Section::new("Drying and heating");
    let comparison = match material.comparison {
        Ok(comparison) => comparison,
        Err(unknown) => {
            return section.ending(format!("Nothing can be compared: {}.", unknown.reason));
        }
    };
    let survey = material.survey;
    section.notes(calibrated_sentence(material.study).map(|one| format!("{one}.")));
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

/// Whether the sentence about an option has something that neither the lines above it nor the table of
/// all options tell: a machine or a heater that does not manage, something not known, or a verdict that
/// the plan changes.
fn tells_more(comparison: &Comparison, at: usize, option: &OptionAnswer) -> bool {
    let fails = option.cases.iter().any(|case| match case {
        Ok(case) => {
            let limit = matches!(
                case.shortfall,
                Some(Shortfall::TooCold | Shortfall::HeaterTooSmall)
            );
            limit || case.below_set_point_k.is_some()
        }
        Err(_) => true,
    });
    let then = comparison.option_after_plan(at);
    let changes = match then {
        None => false,
        Some(Ok(then)) => then.verdict != option.verdict,
        Some(Err(_)) => true,
    };
    fails || changes || option.verdict.is_err()
}

/// Which options hold the target, and the verdict with its reason of those of which the table does not
/// tell all.
pub(crate) fn verdicts(comparison: &Comparison) -> Section {
    let mut section = Section::new(question(comparison));
    let sentences = summary(comparison);
    section.push(Block::Plain { sentences });
    for note in summary_notes(comparison) {
        section.note(note);
    }
    let told = told(comparison).into_iter().zip(&comparison.options);
    let more = told
        .enumerate()
        .filter(|(at, (_, option))| tells_more(comparison, *at, option));
    let points = more.map(|(_, (option, _))| {
        let now = format!("{}: {}", option.name, option.now);
        match option.after_plan {
            None => now,
            Some(Ok(then)) => format!("{now} After the plan: {then}"),
            Some(Err(unknown)) => format!("{now} After the plan: {unknown}."),
        }
    });
    section.points(points);
    section
}

/// Which options hold the target and for how long, in a few lines for those who read no further.
pub(crate) fn summary(comparison: &Comparison) -> Vec<String> {
    let always = always(comparison);
    let mut lines = vec![format!("{} {}", held_sign(comparison), held(comparison))];
    let long = some_of_it(comparison);
    if !long.is_empty() {
        let sign = long
            .iter()
            .map(|option| option.standing())
            .find(|standing| *standing == Standing::Well)
            .unwrap_or(Standing::Partly)
            .sign();
        let each: Vec<String> = {
            let each = long.into_iter();
            each.map(|option| with_its_share(comparison, option))
                .collect()
        };
        lines.push(format!(
            "{sign} For part of the season: {}.",
            each.join("; ")
        ));
    }
    for (proviso, words) in PROVISOS {
        let names = named(comparison, |option| {
            option.verdict == Ok(Verdict::Always) && option.provisos.first() == Some(&proviso)
        });
        if !names.is_empty() {
            lines.push(format!("▲ It would be held{always}, {words}: {names}."));
        }
    }
    let near = comparison.options.iter().filter(|option| is_near(option));
    lines.extend(not_quite(near));
    let none = named(comparison, |option| {
        option.verdict == Ok(Verdict::Never) && !is_near(option)
    });
    if !none.is_empty() {
        let at_no_time = if always.is_empty() {
            "Does not hold it"
        } else {
            "At no time"
        };
        lines.push(format!("ℹ {at_no_time}: {none}."));
    }
    lines.extend(after_plan(comparison));
    lines
}

/// For how much of the season at least an option comes near the target to be told of, share **\[A\]**.
const NEARLY: f64 = 0.5;

/// Options that do not hold the target but come near it, each with the share of the season over which
/// they do, in a sentence; nothing where none does.
pub(crate) fn not_quite<'a>(near: impl Iterator<Item = &'a OptionAnswer>) -> Option<String> {
    let near = near.map(|option| {
        let share = Kind::Share.text(option.nearly_held);
        format!("{}, {share} of the season", option.name)
    });
    let near: Vec<String> = near.collect();
    (!near.is_empty()).then(|| {
        format!(
            "▲ Not quite, but within {} of it: {}.",
            points(NEAR),
            near.join("; ")
        )
    })
}

/// Whether an option never holds the target, but comes near it for much of the season.
fn is_near(option: &OptionAnswer) -> bool {
    option.verdict == Ok(Verdict::Never) && option.nearly_held >= NEARLY
}

/// A difference of humidities: `5 points`.
fn points(difference: f64) -> String {
    format!("{} points", Kind::RelativeHumidity.number(difference))
}

/// ` in all 3 weathers`, where there is more than one weather case.
fn always(comparison: &Comparison) -> String {
    if comparison.cases.len() > 1 {
        format!(" {}", comparison.always())
    } else {
        String::new()
    }
}

/// The options that always hold the target, or the one that holds it longest, in a sentence.
pub(crate) fn held(comparison: &Comparison) -> String {
    sentence(&held_words(comparison))
}

/// Whether the target is always held, with nothing to be said against it.
fn all_of_it(option: &OptionAnswer) -> bool {
    option.verdict == Ok(Verdict::Always) && option.provisos.is_empty()
}

/// The options that hold the target for part of the season, the longest first.
fn some_of_it(comparison: &Comparison) -> Vec<&OptionAnswer> {
    let share = |option: &OptionAnswer| match option.verdict {
        Ok(Verdict::Partly(share)) => Some(share),
        _ => None,
    };
    let options = comparison.options.iter();
    let mut some: Vec<&OptionAnswer> = options.filter(|one| share(one).is_some()).collect();
    some.sort_by(|a, b| share(b).partial_cmp(&share(a)).unwrap_or(Ordering::Equal));
    some
}

fn with_its_share(comparison: &Comparison, option: &OptionAnswer) -> String {
    format!("{}, {}", option.name, option.verdict_words(comparison))
}

fn held_words(comparison: &Comparison) -> String {
    let (target, always) = (target(comparison), always(comparison));
    if comparison.options.first().is_some_and(all_of_it) {
        return match comparison.set_up {
            SetUp::LaidUp => format!("with nothing done {target} is held{always}"),
            SetUp::InUse => format!(
                "heat to {} alone holds {target}{always}: no machine is needed",
                Kind::Celsius.typed(comparison.inside_c)
            ),
        };
    }
    let names = named(comparison, all_of_it);
    if !names.is_empty() {
        return format!("holds {target}{always}: {names}");
    }
    let longest = some_of_it(comparison)
        .first()
        .map_or_else(String::new, |option| {
            format!(
                "; it is held longest by {}",
                with_its_share(comparison, option)
            )
        });
    format!("nothing compared here holds {target}{always}{longest}")
}

fn held_sign(comparison: &Comparison) -> &'static str {
    if comparison.options.iter().any(all_of_it) {
        Standing::Well.sign()
    } else {
        Standing::Partly.sign()
    }
}

/// The names of the options that are wanted.
fn named(comparison: &Comparison, wanted: impl Fn(&OptionAnswer) -> bool) -> String {
    let options = comparison.options.iter();
    let names: Vec<&str> = options
        .filter(|option| wanted(option))
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

/// What the summary's words mean: the season, how options are judged, and the plan.
pub(crate) fn summary_notes(comparison: &Comparison) -> Vec<String> {
    let in_use = (comparison.set_up == SetUp::InUse).then(|| {
        format!(
            "In use every option is judged with {} inside and what people give off. Options without a heater \
             of their own are heated to that by what there is; a heater is turned to it.",
            Kind::Celsius.typed(comparison.inside_c)
        )
    });
    let unattended = comparison.options.iter().any(|option| {
        let provisos = option.provisos.iter();
        provisos
            .clone()
            .any(|proviso| *proviso == Proviso::Unattended)
    });
    let unattended = unattended.then(|| {
        "Gas and fuel are shut off in a vehicle that nobody is in: common practice [C]. A flame is no way to \
         keep it dry there."
            .to_owned()
    });
    let plan = comparison.after_plan.as_ref().map(|plan| {
        let gaps: Vec<String> = plan.gaps.iter().map(ToString::to_string).collect();
        format!(
            "After the plan: the same once the planned gaps are sealed to what their remedies leave ({}).",
            gaps.join(", ")
        )
    });
    [season(comparison), in_use, unattended, plan]
        .into_iter()
        .flatten()
        .collect()
}

/// How much of the season each weather case is.
fn season(comparison: &Comparison) -> Option<String> {
    if comparison.cases.len() < 2 {
        return None;
    }
    if comparison.weights <= 0.0 {
        return Some(
            "No weather case has a weight that counts, so for how much of the season something holds is not known."
                .to_owned(),
        );
    }
    let each = comparison
        .cases
        .iter()
        .map(|case| format!("“{}” {}", case.name, Kind::Share.text(case.share)));
    let made = if (comparison.weights - 1.0).abs() > 1e-6 {
        format!(
            " (shares of all weights, which add up to {})",
            figure(comparison.weights, 3)
        )
    } else {
        String::new()
    };
    Some(format!("The season: {}{made}.", listed(each)))
}

/// What was noticed about targets, options and supply.
fn noticed(comparison: &Comparison) -> Section {
    let mut section = Section::new("Worth knowing");
    let blocks = findings::worst_first(&comparison.findings).map(findings::block);
    section.blocks.extend(blocks);
    section
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assess::compare;
    use crate::survey::file::parse;

    fn coastal() -> crate::survey::Survey {
        let text = include_str!("../../../sample-surveys/coastal-coachbuilt.ron");
        parse(text).expect("a sample")
    }

    /// A compressor that brings 85 to 63 % for more than half of the season stands apart from a tub
    /// that does nothing, and the tick is the rotor's, not that of a flame nobody watches.
    #[test]
    fn what_comes_near_the_target_is_not_told_beside_what_does_nothing() {
        let comparison = compare(&coastal()).expect("a comparison");
        let lines = summary(&comparison);
        let of = |start: &str| {
            let line = lines.iter().find(|line| line.contains(start));
            line.unwrap_or_else(|| panic!("{start}: {lines:?}"))
                .as_str()
        };
        let near = of("Not quite, but within 5 points of it");
        assert!(near.contains("compressor, 20 L/day"), "{near}");
        assert!(!near.contains("salt"), "{near}");
        let never = of("At no time");
        assert!(never.contains("salt tub"), "{never}");
        assert!(!never.contains("; compressor, 20 L/day"), "{never}");
        let part = of("For part of the season");
        assert!(part.starts_with("✔ "), "{part}");
        assert!(part.contains("desiccant rotor, 8 L/day, 90"), "{part}");
        let flame = of("by a flame that nobody watches");
        assert!(
            flame.starts_with("▲ ") && flame.contains("gas air heater"),
            "{flame}"
        );
        for line in lines.iter().filter(|line| line.starts_with('✔')) {
            assert!(!line.contains("gas"), "{line}");
        }
    }

    #[test]
    fn the_shares_of_the_season_stand_beside_the_verdicts_and_what_they_are_shares_of() {
        let mut survey = coastal();
        let notes = summary_notes(&compare(&survey).expect("a comparison"));
        let season = "The season: “still” 15\u{a0}%, “sea breeze” 55\u{a0}%, “windy” 20\u{a0}% and “gale” 10\u{a0}%.";
        assert!(notes.iter().any(|note| note == season), "{notes:?}");
        for case in &mut survey.weather {
            case.weight *= 4.0;
        }
        let notes = summary_notes(&compare(&survey).expect("a comparison"));
        let made = "(shares of all weights, which add up to 4.00)";
        assert!(notes.iter().any(|note| note.contains(made)), "{notes:?}");
        for case in &mut survey.weather {
            case.weight = 0.0;
        }
        let notes = summary_notes(&compare(&survey).expect("a comparison"));
        assert!(
            notes
                .iter()
                .any(|note| note.starts_with("No weather case has a weight"))
        );
    }

    #[test]
    fn an_option_has_a_sentence_of_its_own_where_the_table_does_not_tell_all() {
        let comparison = compare(&coastal()).expect("a comparison");
        let section = verdicts(&comparison);
        let points = section.blocks.iter().find_map(|block| match block {
            Block::Points { points } => Some(points.join("\n")),
            _ => None,
        });
        let points = points.expect("some");
        assert!(
            points.contains("too cold for the machine to start"),
            "{points}"
        );
        for option in &comparison.options {
            let alone = option.cases.iter().flatten().all(|case| {
                let nothing = matches!(case.shortfall, None | Some(Shortfall::NothingRemoves));
                nothing && case.below_set_point_k.is_none()
            });
            let told = points.contains(&option.sentence);
            assert!(!(alone && told), "{}: {points}", option.name);
        }
    }

    #[test]
    fn a_size_that_nobody_makes_is_told_by_what_sealing_would_have_to_reach() {
        let survey = coastal();
        let section = machines(&survey, &compare(&survey).expect("a comparison"));
        let text = format!("{section:?}");
        assert!(text.contains("no such machine"), "{text}");
        assert!(
            text.contains("No compressor dehumidifier above 70"),
            "{text}"
        );
        assert!(
            text.contains("Lessen the air first") || text.contains("No sealing comes to"),
            "{text}"
        );
        assert!(text.contains("“gale”") && !text.contains("560"), "{text}");
    }
}
