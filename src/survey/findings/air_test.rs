//! Findings about tests of the air change.

use super::finding::{Finder, Finding, Item, numbered};
use crate::survey::air_test::{AirReading, AirTest};
use crate::survey::{Field, Survey};

pub(super) fn find(survey: &Survey, findings: &mut Vec<Finding>) {
    for test in &survey.air_tests {
        let subject = numbered("air test", test.id, &test.name);
        let mut finder = Finder::new(findings, Item::AirTest(test.id), subject);
        ranges(&mut finder, test);
        finder.check_date(Field::AirTestDate, "day of the test", &test.date);
        needed(&mut finder, test);
    }
}

fn ranges(finder: &mut Finder<'_>, test: &AirTest) {
    for (field, value) in [
        (Field::AirTestInside, test.inside_c),
        (Field::AirTestOutside, test.outside_c),
        (Field::AirTestWind, test.wind_m_s),
        (Field::Background, test.background),
        (Field::CollectedFor, test.hours),
        (Field::Collected, test.collected_l),
        (Field::GivenOff, test.given_off_l),
        (Field::MeanInsideRh, test.inside_rh_percent),
        (Field::MeanOutsideRh, test.outside_rh_percent),
        (Field::StartRh, test.start_rh_percent),
        (Field::EndRh, test.end_rh_percent),
    ] {
        finder.check(field, value);
    }
    for reading in &test.readings {
        finder.check(Field::AirReadingAt, reading.minutes);
        finder.check(Field::AirReading, reading.value);
    }
}

fn needed(finder: &mut Finder<'_>, test: &AirTest) {
    let consequence = "the air change cannot be worked out";
    let asked: &[(Field, Option<f64>)] = if test.by.is_decay() {
        if test.background.is_none() {
            background(finder, test, consequence);
        }
        &[]
    } else {
        &[
            (Field::CollectedFor, test.hours),
            (Field::Collected, test.collected_l),
            (Field::GivenOff, test.given_off_l),
            (Field::MeanInsideRh, test.inside_rh_percent),
            (Field::MeanOutsideRh, test.outside_rh_percent),
            (Field::StartRh, test.start_rh_percent),
            (Field::EndRh, test.end_rh_percent),
            (Field::AirTestInside, test.inside_c),
            (Field::AirTestOutside, test.outside_c),
        ]
    };
    for (field, value) in asked {
        finder.need(*field, *value, consequence);
    }
    let consequence = "it cannot be held against the survey";
    if test.by.is_decay() {
        finder.need(Field::AirTestInside, test.inside_c, consequence);
        finder.need(Field::AirTestOutside, test.outside_c, consequence);
    }
    finder.need(Field::AirTestWind, test.wind_m_s, consequence);
    let half = |one: &AirReading| one.minutes.is_some() != one.value.is_some();
    if test.by.is_decay() && test.readings.iter().any(half) {
        finder.warn(
            Field::AirReading,
            "a reading has only one of time and value; it is left out",
            "enter the other, or delete the reading",
        );
    }
}

/// What the outside air has of it is read in the unit of the readings.
fn background(finder: &mut Finder<'_>, test: &AirTest, consequence: &str) {
    let unit = match test.by.unit() {
        "" => "the unit of the readings",
        unit => unit,
    };
    finder.warn(
        Field::Background,
        format!("{} is not given; {consequence}", Field::Background.words()),
        format!("read it outside with the same instrument and enter it in {unit}"),
    );
}

#[cfg(test)]
mod tests {
    use super::super::find;
    use crate::survey::{
        AirReading, AirTest, AirTestBy, AirTestId, Edit, Field, Record, SetUp, Survey, VehicleKind,
    };

    fn told(test: AirTest) -> Vec<Field> {
        let mut survey = Survey::new(VehicleKind::TouringCaravan);
        survey
            .apply(Edit::Put(Record::AirTest(Box::new(test))))
            .unwrap();
        let found = find(&survey).into_iter();
        let ours = found.filter(|one| matches!(one.place.item, super::Item::AirTest(_)));
        ours.filter_map(|one| one.place.field).collect()
    }

    #[test]
    fn each_way_asks_for_its_own_numbers_and_is_silent_once_they_are_there() {
        let mut decay = AirTest::new(AirTestId(1), SetUp::LaidUp);
        let asked = told(decay.clone());
        assert!(asked.contains(&Field::Background) && !asked.contains(&Field::Collected));
        decay.background = Some(420.0);
        (decay.inside_c, decay.outside_c) = (Some(15.0), Some(5.0));
        decay.wind_m_s = Some(2.0);
        assert_eq!(told(decay.clone()), []);
        decay.readings = vec![AirReading {
            minutes: Some(0.0),
            value: None,
        }];
        assert_eq!(told(decay.clone()), [Field::AirReading]);
        decay.by = AirTestBy::WaterCollected;
        let asked = told(decay);
        assert!(asked.contains(&Field::Collected) && !asked.contains(&Field::Background));
    }
    #[test]
    fn advice_names_the_unit_of_the_readings_or_says_that_it_is_theirs() {
        for (by, unit) in [
            (AirTestBy::PeopleLeft, "in ppm"),
            (AirTestBy::Moisture, "in g/kg"),
            (AirTestBy::Gas, "in the unit of the readings"),
        ] {
            let mut survey = Survey::new(VehicleKind::TouringCaravan);
            let mut test = AirTest::new(AirTestId(1), SetUp::LaidUp);
            test.by = by;
            survey
                .apply(Edit::Put(Record::AirTest(Box::new(test))))
                .unwrap();
            let found = find(&survey);
            let asked = found.iter().find(|one| one.place.is_at(Field::Background));
            let advice = &asked.unwrap().advice;
            assert!(advice.ends_with(unit), "{by:?}: {advice}");
        }
    }

    #[test]
    fn no_advice_of_any_finding_ends_before_its_unit() {
        let mut survey = Survey::starting(VehicleKind::PanelVan);
        for edit in [
            Record::AirTest(Box::new(AirTest::new(AirTestId(1), SetUp::LaidUp))),
            Record::FanTest(Box::new(crate::survey::FanTest::new(
                crate::survey::FanTestId(1),
                SetUp::LaidUp,
            ))),
        ] {
            survey.apply(Edit::Put(edit)).unwrap();
        }
        for one in find(&survey) {
            let open = one.advice.ends_with(' ') || one.advice.ends_with(" in");
            assert!(!open, "{}", one.advice);
        }
    }
}
