//! The results with the measurements and without, side by side, and what the measurements say that
//! nobody found.

use super::super::Material;
use super::super::blocks::{Align, Block, Reasons, Section, Table};
use super::super::leakage::unintended;
use super::super::results::{air_change, heat, season, water};
use super::{air, fan};
use crate::assess::calibration::{Calibration, MeasurementId, is_measured};
use crate::assess::quantity::{Kind, Quantity};
use crate::assess::uncertainty::{Calibrated, Interval};
use crate::assess::words::{capital, listed};
use crate::assess::{CaseAnswer, Study};
use crate::survey::Survey;

/// A measurement with its number and name.
fn name(survey: &Survey, of: MeasurementId) -> String {
    match of {
        MeasurementId::FanTest(id) => survey
            .fan_test(id)
            .map_or_else(|| format!("fan test {id}"), fan::title),
        MeasurementId::AirTest(id) => survey
            .air_test(id)
            .map_or_else(|| format!("air test {id}"), air::title),
    }
}

/// `fan tests 1 and 2 and air test 1`: by their numbers alone, where there is little room.
fn by_number(of: &[MeasurementId]) -> String {
    let (mut fans, mut airs) = (Vec::new(), Vec::new());
    for one in of {
        match one {
            MeasurementId::FanTest(id) => fans.push(id.to_string()),
            MeasurementId::AirTest(id) => airs.push(id.to_string()),
        }
    }
    let kinds = [("fan test", fans), ("air test", airs)];
    let kinds = kinds.into_iter().filter(|(_, ids)| !ids.is_empty());
    let kinds = kinds.map(|(kind, ids)| {
        let many = if ids.len() == 1 { "" } else { "s" };
        format!("{kind}{many} {}", listed(ids))
    });
    listed(kinds)
}

/// What stands against what the results are calibrated by, each in a clause: what contradicts the survey,
/// and what contradicts each other. `names` writes some measurements down.
fn against(calibration: &Calibration, names: &dyn Fn(&[MeasurementId]) -> String) -> Vec<String> {
    let survey = calibration.against_the_survey();
    let verb = match survey.len() {
        1 => "contradicts",
        _ => "contradict",
    };
    let clause = format!("{} {verb} the survey", names(&survey));
    let survey = (!survey.is_empty()).then_some(clause);
    let pairs = calibration.against_each_other.iter();
    let pairs =
        pairs.map(|(one, other)| format!("{} contradict each other", names(&[*one, *other])));
    survey.into_iter().chain(pairs).collect()
}

/// *calibrated by fan test 1*, with numbers alone where there is little room, and what stands against it;
/// `None` where no measurement weighs.
pub(crate) fn calibrated_by_number(study: &Study) -> Option<String> {
    let calibration = study.calibration();
    let by: Vec<MeasurementId> = calibration.by.iter().map(|one| one.of).collect();
    calibration.is_any().then(|| {
        let by = format!("calibrated by {}", by_number(&by));
        let against = against(calibration, &by_number);
        [vec![by], against].concat().join("; ")
    })
}

/// The same with names as a sentence, with what stands against it.
pub(crate) fn sentence(study: &Study) -> Option<String> {
    let by = by(study)?;
    Some(match contradicted(study) {
        None => by,
        Some(against) => format!("{by}. {against}"),
    })
}

/// By what all results are calibrated, with names as a sentence; `None` where no measurement weighs.
pub(crate) fn by(study: &Study) -> Option<String> {
    let calibration = study.calibration();
    let by: Vec<MeasurementId> = calibration.by.iter().map(|one| one.of).collect();
    let by = names(study, &by);
    calibration
        .is_any()
        .then(|| format!("All results are calibrated by {by}"))
}

/// What stands against that as a sentence; `None` where nothing does.
pub(crate) fn contradicted(study: &Study) -> Option<String> {
    let calibration = study.calibration();
    let against = against(calibration, &|of| names(study, of));
    (calibration.is_any() && !against.is_empty()).then(|| {
        format!(
            "{}: find out why before you rely on any of them",
            capital(&listed(against))
        )
    })
}

fn names(study: &Study, of: &[MeasurementId]) -> String {
    listed(of.iter().map(|one| name(study.survey(), *one)))
}

/// All of it; nothing in it where nothing was measured.
#[must_use]
pub fn section(told: &Material<'_>) -> Section {
    let mut section = Section::new("What measurements make of the results");
    let (study, survey) = (told.study, told.survey);
    let calibration = study.calibration();
    if !survey.calibrated {
        if is_measured(survey) {
            section.paragraph(
                "Measurements do not weigh in the results: all of them come from the gaps as surveyed.",
            );
        }
        return section;
    }
    contradiction(&mut section, survey, calibration);
    let left_out = calibration.not_by.iter().map(|(of, why)| {
        format!(
            "{} does not weigh in the results: {}.",
            capital(&name(survey, *of)),
            why.reason
        )
    });
    let left_out: Vec<String> = left_out.collect();
    if let Some(sentence) = sentence(study) {
        let sentence = format!("{sentence}.");
        section.paragraph(sentence);
        side_by_side(&mut section, told);
        if let Some(found) = calibrated(told) {
            section.paragraph(not_found(&found.not_found_eqla));
        }
        section.notes(how(told));
    }
    section.points(left_out);
    section
}

/// What came of the draws, where they were made.
fn calibrated<'a>(told: &Material<'a>) -> Option<&'a Calibrated> {
    told.uncertainty?.calibrated.as_ref()
}

/// Told before anything is averaged.
fn contradiction(section: &mut Section, survey: &Survey, calibration: &Calibration) {
    use crate::assess::measured::Verdict;
    for one in &calibration.by {
        let could_be = match one.verdict {
            Verdict::Agrees => continue,
            Verdict::MoreThanFound => {
                "It shows more than the survey can explain: the survey missed some of the leakage, something \
                 stood open, or the measurement was not of the state named"
            }
            Verdict::LessThanFound => {
                "It shows less than the survey says: a size is too large, something was closed or covered \
                 that is not written down, or the measurement was not of the state named"
            }
        };
        section.push(Block::Caution {
            title: capital(&format!("{} and survey contradict each other", name(survey, one.of))),
            text: format!(
                "{could_be}. The results below lie between the two and may fit neither: look for the reason \
                 first, or turn the weighing off."
            ),
        });
    }
    for (one, other) in &calibration.against_each_other {
        let both = listed([name(survey, *one), name(survey, *other)]);
        section.push(Block::Caution {
            title: capital(&format!("{both} contradict each other")),
            text: "They lie further apart than their readings, and what is not known of the gaps, explain. One of \
                   them was misread, or something was opened, closed or sealed between them that is not \
                   written down. The results below lie between the two and may fit neither: find out which \
                   is right, and take the other out."
                .to_owned(),
        });
    }
}

/// Every headline as surveyed and as measured.
fn side_by_side(section: &mut Section, told: &Material<'_>) {
    let study = told.study.as_surveyed();
    let before = Material {
        study,
        assessment: study.assessment(),
        uncertainty: calibrated(told).map(|found| &*found.before),
        ..*told
    };
    let mut table = Table::default()
        .wide("Result", Align::Left, 1)
        .column("As surveyed", Align::Right)
        .column("Calibrated", Align::Right);
    let mut reasons = Reasons::default();
    let mut row = |name: String, was: &Quantity, now: &Quantity| {
        let cells = [name, cell(was, &mut reasons), cell(now, &mut reasons)];
        table.row(cells);
    };
    row(
        "EqLA, unintended".to_owned(),
        &unintended(&before),
        &unintended(told),
    );
    row(
        "Air changes, mean of the season".to_owned(),
        &season(&before),
        &season(told),
    );
    type Of = fn(&Material<'_>, &CaseAnswer) -> Quantity;
    let each: [(&str, Of); 3] = [
        ("Air changes", air_change),
        ("Water to remove", water),
        ("Heat", heat),
    ];
    for (what, of) in each {
        for (was, now) in ends(&before).into_iter().zip(ends(told)) {
            let name = format!("{what}, {}", now.name);
            row(name, &of(&before, was), &of(told, now));
        }
    }
    section.table(table, &reasons);
}

/// The cases with least and with most wind, one where they are the same.
fn ends<'a>(told: &Material<'a>) -> Vec<&'a CaseAnswer> {
    let Some((calm, windy)) = told.assessment.calmest_and_windiest else {
        return Vec::new();
    };
    let mut places = vec![calm, windy];
    places.dedup();
    let cases = &told.assessment.cases;
    places.into_iter().filter_map(|at| cases.get(at)).collect()
}

/// A result with its interval behind it.
fn cell(quantity: &Quantity, reasons: &mut Reasons) -> String {
    let number = match quantity.text() {
        Ok(text) => text,
        Err(why) => return reasons.mark(&why),
    };
    match quantity.range() {
        Some(range) => format!("{number} ({})", quantity.kind().with_unit(&range)),
        None => number,
    }
}

/// What the measurements say of leakage that nobody found. Areas are written without signs.
fn not_found(found: &Interval) -> String {
    let kind = Kind::LeakageCm2;
    let Interval {
        low, high, mean, ..
    } = *found;
    if low >= 0.0 {
        format!(
            "Leakage that nobody found: very likely {} EqLA, {} in the mean.",
            kind.with_unit(&kind.span(low, high)),
            kind.text(mean)
        )
    } else if high <= 0.0 {
        format!(
            "Nothing seems to be missing: the unintended gaps very likely leak {} less (EqLA) than their sizes \
             say, {} in the mean.",
            kind.with_unit(&kind.span(-high, -low)),
            kind.text(-mean)
        )
    } else {
        let which = if mean < 0.0 { "less" } else { "more" };
        format!(
            "Leakage that nobody found cannot be told from the doubt about sizes: the unintended gaps leak very \
             likely between {} less and {} more (EqLA) than what was found, {} {which} in the mean.",
            kind.text(-low),
            kind.text(high),
            kind.text(mean.abs())
        )
    }
}

/// How it was done, and how many draws it stands on.
fn how(told: &Material<'_>) -> Vec<String> {
    let brackets = match calibrated(told) {
        Some(_) => "; in brackets what it very likely is",
        None => "",
    };
    let mut notes = vec![format!(
        "Each result is worked out with the flow of every gap that sizes and measurements together make most \
         likely{brackets}. Both columns allow for leakage that nobody found: a factor common to all unintended \
         gaps, \u{3c3}\u{a0}0.4 [A]. Wind and pressure coefficients stay as they are. Safety ventilation and the \
         air of sleepers are never judged by more air than the gaps seen let in."
    )];
    if let (Some(found), Some(all)) = (calibrated(told), told.uncertainty) {
        notes.push(format!(
            "Weighed by the measurements, {} draws say as much as {:.0} of like weight{}.",
            all.draws,
            found.effective_draws,
            if found.rounds > 1 {
                ", made again round what the measurements point to"
            } else {
                ""
            }
        ));
    }
    notes
}
