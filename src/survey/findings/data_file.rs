//! Findings about the files of loggers, and the weather file, in the data folder.

use super::finding::{Finder, Finding, Item, numbered};
use crate::survey::{Field, Survey};
use std::collections::BTreeMap;

/// Findings about loggers, and about a weather file kept with the survey, whose file is missing, was
/// changed or cannot be read, from what was found in the data folder: the sentence for each file that has
/// one, by its name.
#[must_use]
pub fn data_files(survey: &Survey, troubles: &BTreeMap<String, String>) -> Vec<Finding> {
    let mut findings = Vec::new();
    for series in &survey.series {
        let Some(trouble) = troubles.get(&series.file) else {
            continue;
        };
        let subject = numbered("logger", series.id, &series.name);
        let mut finder = Finder::new(&mut findings, Item::Series(series.id), subject);
        let (what, advice) = trouble
            .split_once(": ")
            .unwrap_or((trouble, "choose its file again"));
        finder.warn(Field::LoggerFile, what, advice);
    }
    // A weather file named by hand stands beside the survey: whoever runs the winter is told of it.
    let stay = &survey.stay;
    if !stay.weather_original.is_empty()
        && let Some(trouble) = troubles.get(&stay.weather_file)
    {
        let (what, advice) = trouble
            .split_once(": ")
            .unwrap_or((trouble, "choose the weather file again"));
        let what = what.replace(&stay.weather_file, &stay.weather_original);
        let mut finder = Finder::new(&mut findings, Item::Stay, "winter");
        finder.warn(Field::WeatherFile, what, advice);
    }
    findings
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::series::guess;
    use crate::survey::{Hung, LoggerSeries, SeriesId, VehicleKind};

    #[test]
    fn a_file_in_trouble_is_found_at_its_logger_alone() {
        let mut survey = Survey::new(VehicleKind::TouringCaravan);
        let mapping = guess(b"time,t C\n2026-11-05 14:30,5.0\n").unwrap().mapping;
        for (id, file) in [(1, "a.csv"), (2, "b.csv")] {
            let file = file.to_owned();
            let one = LoggerSeries::new(SeriesId(id), Hung::Inside, file, mapping.clone());
            survey.series.push(one);
        }
        let words = "the file \u{201c}b.csv\u{201d} is missing: put it back".to_owned();
        let found = data_files(&survey, &BTreeMap::from([("b.csv".to_owned(), words)]));
        assert_eq!(found.len(), 1);
        assert!(found[0].place.is_at(Field::LoggerFile));
        assert_eq!(found[0].place.item, Item::Series(SeriesId(2)));
        assert!(
            found[0].advice.contains("put it back"),
            "{}",
            found[0].advice
        );
    }

    #[test]
    fn a_kept_weather_file_in_trouble_is_found_at_the_stay_by_the_name_that_it_had() {
        let mut survey = Survey::new(VehicleKind::TouringCaravan);
        survey.stay.weather_file = "0123456789abcdef.epw".into();
        let words =
            "the file \u{201c}0123456789abcdef.epw\u{201d} is missing: put it back".to_owned();
        let troubles = BTreeMap::from([(survey.stay.weather_file.clone(), words)]);
        assert!(data_files(&survey, &troubles).is_empty());
        survey.stay.weather_original = "Hill.epw".into();
        let found = data_files(&survey, &troubles);
        assert_eq!(found.len(), 1);
        assert!(found[0].place.is_at(Field::WeatherFile));
        assert!(
            found[0]
                .sentence
                .contains("\u{201c}Hill.epw\u{201d} is missing"),
            "{}",
            found[0].sentence
        );
        assert!(
            found[0].advice.contains("put it back"),
            "{}",
            found[0].advice
        );
    }
}
