//! Workings as they are printed: the headlines in their order, and the same headline of several
//! weather cases, which has one formula, case beside case.

use crate::assess::{Assessment, Topic, Working, working};
use crate::survey::{Survey, WeatherId};

/// The workings of one headline, each with the name of its weather case; the name is empty where
/// the headline hangs on no weather.
pub type OfCases = [(String, Working)];

/// A headline, and how it came about.
#[derive(Clone, Debug, PartialEq)]
pub struct Headline {
    /// What is worked out.
    pub title: String,
    /// Its working, or one for each weather case that has it.
    pub workings: Vec<(String, Working)>,
}

/// A headline that every weather case has.
type ByCase = (&'static str, fn(WeatherId) -> Topic);

const BY_CASE: [ByCase; 5] = [
    ("Air change", Topic::AirChange),
    ("Cross-check of the air change", Topic::CrossCheck),
    ("Water to remove", Topic::Removal),
    ("Heat to hold the set temperature", Topic::Heat),
    ("Heat for frost guard", Topic::FrostGuard),
];

/// All headlines that have a working, in the order in which they are printed.
#[must_use]
pub fn headlines(survey: &Survey, assessment: &Assessment) -> Vec<Headline> {
    let alone = |topic| {
        let working = working(survey, assessment, topic)?;
        Some(Headline {
            title: working.title.clone(),
            workings: vec![(String::new(), working)],
        })
    };
    let by_case = BY_CASE.into_iter().map(|(title, topic)| {
        let cases = assessment.cases.iter();
        let workings = cases.filter_map(|case| {
            let working = working(survey, assessment, topic(case.id))?;
            Some((case.name.clone(), working))
        });
        Headline {
            title: title.to_owned(),
            workings: workings.collect(),
        }
    });
    let first = [Topic::Volume, Topic::LeakageArea, Topic::Exponent];
    first
        .into_iter()
        .filter_map(alone)
        .chain(by_case.filter(|headline| !headline.workings.is_empty()))
        .chain(alone(Topic::SafetyVentilation))
        .collect()
}

/// What was put in, a row for each name in the order in which they come up, with the value of
/// each case; `None` where a case lacks it. A value that is the same in all cases is still there
/// for each: the reader checks a column from top to bottom.
#[must_use]
pub fn inputs(workings: &OfCases) -> Vec<(&str, Vec<Option<String>>)> {
    let mut names: Vec<&str> = Vec::new();
    for (name, _) in workings.iter().flat_map(|(_, working)| &working.inputs) {
        if !names.contains(&name.as_str()) {
            names.push(name);
        }
    }
    let values = |name: &str, working: &Working| {
        let inputs = working.inputs.iter();
        let mut values: Vec<&str> = inputs
            .filter(|(input, _)| input == name)
            .map(|(_, value)| value.as_str())
            .collect();
        // What is the same twice, such as at two equal temperatures, is said once.
        values.dedup();
        (!values.is_empty()).then(|| values.join("; "))
    };
    let rows = names.into_iter().map(|name| {
        let cases = workings.iter();
        (name, cases.map(|(_, one)| values(name, one)).collect())
    });
    rows.collect()
}

/// Every line once; one that not all cases share names the cases it is for.
#[must_use]
pub fn lines(workings: &OfCases, of: impl Fn(&Working) -> Vec<String>) -> Vec<String> {
    let mut all: Vec<(String, Vec<&str>)> = Vec::new();
    for (name, working) in workings {
        for line in of(working) {
            match all.iter_mut().find(|(text, _)| *text == line) {
                Some((_, cases)) => cases.push(name),
                None => all.push((line, vec![name])),
            }
        }
    }
    all.into_iter()
        .map(|(line, cases)| {
            if cases.len() == workings.len() {
                line
            } else {
                format!("{}: {line}", cases.join(", "))
            }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn working(inputs: &[(&str, &str)], notes: &[&str]) -> Working {
        Working {
            title: String::new(),
            formula: String::new(),
            inputs: inputs
                .iter()
                .map(|&(name, value)| (name.to_owned(), value.to_owned()))
                .collect(),
            result: String::new(),
            sources: Vec::new(),
            notes: notes.iter().map(|&note| note.to_owned()).collect(),
        }
    }

    #[test]
    fn a_note_of_some_cases_names_them() {
        let workings = [
            ("still".to_owned(), working(&[], &["a", "b"])),
            ("windy".to_owned(), working(&[], &["b"])),
        ];
        let lines = lines(&workings, |working| working.notes.clone());
        assert_eq!(lines, ["still: a", "b"]);
    }

    #[test]
    fn inputs_stand_in_rows_and_one_that_a_case_lacks_is_left_open() {
        let workings = [
            (
                "still".to_owned(),
                working(
                    &[("outside", "−5 °C"), ("face", "roof"), ("face", "rear")],
                    &[],
                ),
            ),
            (
                "windy".to_owned(),
                working(&[("wind", "6 m/s"), ("outside", "−5 °C")], &[]),
            ),
        ];
        let cold = || Some("−5 °C".to_owned());
        assert_eq!(
            inputs(&workings),
            [
                ("outside", vec![cold(), cold()]),
                ("face", vec![Some("roof; rear".to_owned()), None]),
                ("wind", vec![None, Some("6 m/s".to_owned())]),
            ]
        );
    }
}
