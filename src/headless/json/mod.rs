//! What `assess --json` prints, and `winter --json`.
//!
//! One object; `format` stands first and is 2. A key is never taken away, renamed or given
//! another meaning or unit within a format; keys may be added. Units stand in the keys: `_mm2`,
//! `_kg_s`, `_per_h`, `_w`, `_c`, `_deg`, `_percent`; shares from 0 to 1 end in `_share`.
//!
//! One rule for what is not known: the key is there with `null`, and beside it stands the same
//! key with `_not_known` behind it, holding the reason as a sentence. Nothing unknown is zero.
//! Text is the surveyor's own, except for choices, which are the words of the survey file.
//!
//! Every key is listed in `keys.md` beside this file, which is part of the documentation of
//! [`crate::headless`]; a test compares the two in both directions.

mod air_tests;
mod cases;
mod dependence;
mod drying;
mod findings;
mod gaps;
mod in_short;
mod leakage;
mod measured;
mod object;
mod records;
mod sealing;
mod survey;
mod trials;
mod tried;
mod uncertainty;
mod walk;
mod winter;

use crate::assess::{
    Answer, Assessment, Comparison, DryingTopic, Study, Topic, Working, drying_working, working,
};
use crate::headless::asked::Asked;
use crate::report::winter::WinterTold;
use crate::survey::Survey;
use findings::{finding, finding_counts};
use object::{Object, plain};

/// Number of the layout of the output.
const FORMAT: u32 = 2;

/// Everything, as indented JSON with a line feed at the end.
///
/// # Errors
/// What the serializer says; with finite numbers and text keys there is nothing to say.
pub(super) fn print(study: &Study, asked: Asked) -> serde_json::Result<String> {
    let mut text = serde_json::to_string_pretty(&whole(study, asked))?;
    text.push('\n');
    Ok(text)
}

/// A winter, as indented JSON with a line feed at the end.
///
/// # Errors
/// As [`print`].
pub(super) fn print_winter(told: &WinterTold<'_>) -> serde_json::Result<String> {
    let mut text = serde_json::to_string_pretty(&winter::winter(told))?;
    text.push('\n');
    Ok(text)
}

fn whole(study: &Study, asked: Asked) -> Object {
    let (survey, assessment, comparison) = (study.survey(), study.assessment(), study.comparison());
    use crate::survey::word::Word;
    let case_id = |index: usize| assessment.cases.get(index).map(|case| case.id.0);
    let (calmest, windiest) = assessment
        .calmest_and_windiest
        .map_or((None, None), |(calm, windy)| {
            (case_id(calm), case_id(windy))
        });
    let head = Object::new()
        .with("format", FORMAT)
        .with("program", "gapledger")
        .with("program_version", env!("CARGO_PKG_VERSION"))
        .with("set_up", assessment.set_up.word())
        .with("finding_counts", finding_counts(&assessment.findings))
        .list("findings", &assessment.findings, finding)
        .with("in_short", in_short::in_short(study))
        .with("survey", survey::header(survey))
        .with("vehicle", survey::vehicle(survey, assessment))
        .with("site", survey::site(survey))
        .with("targets", survey::targets(survey))
        .with("tariffs", survey::tariffs(survey))
        .with("job", survey::job(survey))
        .with("drying", survey::drying(survey))
        .with("stay", survey::stay(survey))
        .with(
            "leakage_not_found_percent",
            survey.leakage_not_found_percent,
        )
        .with("calibrated", survey.calibrated);
    records::with_records(head, survey)
        .with("walk", walk::walk(survey))
        .with("leakage", leakage::leakage(survey, assessment))
        .with("gaps", gaps::gaps(survey, assessment))
        .list("cases", &assessment.cases, |case| {
            cases::case(survey, assessment, case)
        })
        .recorded("calmest_case", calmest)
        .recorded("windiest_case", windiest)
        .with("season_ach_mean_per_h", &assessment.season_ach_per_h)
        .with("fabric", survey::fabric(survey, assessment))
        .with("safety_ventilation", survey::safety(&assessment.safety))
        .with("air_change", dependence::dependence(study))
        .with("uncertainty", uncertainty::uncertainty(study.uncertainty()))
        .with(
            "measured",
            measured::results(
                study.measured(),
                tried::checks(study.tried()),
                tried::trials(study.tried()),
            ),
        )
        .with("calibration", measured::calibration(study))
        .with("sealing", sealing::sealing(study, asked))
        .with("papers", sealing::papers(study))
        .found("drying_heating", comparison, drying::comparison)
        .with("workings", workings(survey, assessment, comparison))
}

/// Every result that has a working, in the order of the page.
fn topics(survey: &Survey) -> Vec<(&'static str, Option<u32>, Topic)> {
    let mut topics = vec![
        ("volume", None, Topic::Volume),
        ("leakage_area", None, Topic::LeakageArea),
        ("exponent", None, Topic::Exponent),
    ];
    for case in &survey.weather {
        let id = case.id;
        topics.extend([
            ("air_change", Some(id.0), Topic::AirChange(id)),
            ("cross_check", Some(id.0), Topic::CrossCheck(id)),
            ("removal", Some(id.0), Topic::Removal(id)),
            ("heat", Some(id.0), Topic::Heat(id)),
            ("frost_guard", Some(id.0), Topic::FrostGuard(id)),
        ]);
    }
    topics.push(("safety_ventilation", None, Topic::SafetyVentilation));
    let gaps = survey.gaps.iter().map(|gap| gap.id);
    topics.extend(gaps.map(|id| ("gap", Some(id.0), Topic::Gap(id))));
    let elements = survey.fabric.iter().map(|element| element.id);
    topics.extend(elements.map(|id| ("fabric_element", Some(id.0), Topic::FabricElement(id))));
    topics
}

/// Every result of the comparison that has a working, in the order of the page.
fn drying_topics(comparison: &Comparison) -> Vec<(&'static str, Option<u32>, DryingTopic)> {
    let mut topics = Vec::new();
    for option in 0..comparison.options.len() {
        for case in &comparison.cases {
            let (id, word) = (case.id, Some(case.id.0));
            topics.push(("drying_option", word, DryingTopic::Option(option, id)));
            topics.push(("dry_out", word, DryingTopic::DryOut(option, id)));
            let after_plan = DryingTopic::AfterPlan(option, id);
            topics.push(("drying_option_after_plan", word, after_plan));
        }
    }
    let sizing = &comparison.sizing;
    topics.extend(
        (0..sizing.capacities.len()).map(|at| ("capacity", None, DryingTopic::Capacity(at))),
    );
    topics.extend((0..sizing.heaters.len()).map(|at| ("heater", None, DryingTopic::Heater(at))));
    topics.extend(
        comparison
            .warm_up
            .iter()
            .enumerate()
            .map(|(at, found)| ("warm_up", Some(found.id.0), DryingTopic::WarmUp(at))),
    );
    topics.push(("night_air", None, DryingTopic::NightAir));
    topics
}

fn workings(
    survey: &Survey,
    assessment: &Assessment,
    comparison: &Answer<Comparison>,
) -> Vec<Object> {
    let topics = topics(survey).into_iter().filter_map(|(word, id, topic)| {
        let working = working(survey, assessment, topic)?;
        Some(working_object(word, id, &working))
    });
    let compared = comparison.as_ref().ok().into_iter();
    let compared = compared.flat_map(|comparison| {
        let topics = drying_topics(comparison).into_iter();
        topics.filter_map(|(word, id, topic)| {
            let working = drying_working(survey, comparison, topic)?;
            Some(working_object(word, id, &working))
        })
    });
    topics.chain(compared).collect()
}

fn working_object(topic: &str, id: Option<u32>, working: &Working) -> Object {
    Object::new()
        .with("topic", topic)
        .with("id", id)
        .with("title", plain(&working.title))
        .with("formula", &working.formula)
        .list("inputs", &working.inputs, |(name, value)| {
            Object::new().with("name", name).with("value", plain(value))
        })
        .with("result", plain(&working.result))
        .list("sources", &working.sources, |source| {
            Object::new()
                .with("mark", source.mark.letter().to_string())
                .with("mark_means", source.mark.words())
                .with("text", &source.text)
        })
        .list("notes", &working.notes, |note| plain(note))
}
