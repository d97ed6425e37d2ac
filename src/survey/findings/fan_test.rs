//! Findings about fan tests: above all, what is still covered.

use super::finding::{Finder, Finding, Item, numbered};
use crate::survey::fan_test::{FanReadings, FanTest};
use crate::survey::{Field, Survey};

/// Wind at the ground above which readings become unsteady, m/s: ISO 9972 \[M\].
const MOST_WIND_M_S: f64 = 3.0;

pub(super) fn find(survey: &Survey, findings: &mut Vec<Finding>) {
    for test in &survey.fan_tests {
        let subject = numbered("fan test", test.id, &test.name);
        let mut finder = Finder::new(findings, Item::FanTest(test.id), subject);
        covered(&mut finder, survey, test);
        ranges(&mut finder, test);
        finder.check_date(Field::FanTestDate, "day of the test", &test.date);
        needed(&mut finder, test);
    }
}

/// What is still covered, each a danger of its own.
fn covered(finder: &mut Finder<'_>, survey: &Survey, test: &FanTest) {
    for one in test.still_covered() {
        finder.danger(
            Field::Uncovered,
            format!(
                "{} was covered for it and is not marked as uncovered again",
                survey.covered_in_words(one)
            ),
            "take the cover off before anyone burns gas, runs a heater or sleeps in it, look that the \
             opening is free, then tick uncovered again",
        );
    }
    let gone = test.covered.iter().filter_map(|one| one.gap);
    for gap in gone.filter(|gap| survey.gap(*gap).is_none()) {
        finder.warn(
            Field::CoveredGap,
            format!("gap {gap} was covered for it and is no longer in the ledger"),
            "choose the gap that it is now, or write which opening it was",
        );
    }
}

fn ranges(finder: &mut Finder<'_>, test: &FanTest) {
    finder.check(Field::TestInside, test.inside_c);
    finder.check(Field::TestOutside, test.outside_c);
    finder.check(Field::Barometer, test.barometer_hpa);
    finder.check(Field::TestWind, test.wind_m_s);
    for readings in [&test.blowing_out, &test.blowing_in] {
        finder.check(Field::ZeroBefore, readings.zero_before_pa);
        finder.check(Field::ZeroAfter, readings.zero_after_pa);
        for reading in &readings.readings {
            finder.check(Field::ReadPressure, reading.pressure_pa);
            finder.check(Field::ReadFlow, reading.flow_m3_per_h);
        }
    }
}

fn needed(finder: &mut Finder<'_>, test: &FanTest) {
    let consequence = "what it leaks cannot be worked out";
    finder.need(Field::TestInside, test.inside_c, consequence);
    finder.need(Field::TestOutside, test.outside_c, consequence);
    let half = |readings: &FanReadings| {
        let mut all = readings.readings.iter();
        all.any(|one| one.pressure_pa.is_some() != one.flow_m3_per_h.is_some())
    };
    if half(&test.blowing_out) || half(&test.blowing_in) {
        finder.warn(
            Field::ReadFlow,
            "a reading has only one of pressure and flow; it is left out",
            "enter the other, or delete the reading",
        );
    }
    if let Some(wind) = test.wind_m_s.filter(|wind| *wind > MOST_WIND_M_S) {
        finder.warn(
            Field::TestWind,
            format!(
                "the wind was {} m/s, too much for steady readings",
                crate::survey::number::given(wind)
            ),
            "test again with less than 3 m/s at the vehicle",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Severity, find};
    use crate::survey::{
        Covered, Edit, FanTest, FanTestId, Field, Record, RecordId, SetUp, Survey, VehicleKind,
    };

    fn with(test: FanTest) -> Survey {
        let mut survey = Survey::new(VehicleKind::TouringCaravan);
        let put = Edit::Put(Record::FanTest(Box::new(test)));
        survey.apply(put).unwrap();
        survey
    }

    fn covering(uncovered: bool) -> FanTest {
        let mut test = FanTest::new(FanTestId(1), SetUp::LaidUp);
        test.covered = vec![Covered {
            gap: None,
            what: "drop-out in the gas locker".to_owned(),
            uncovered,
        }];
        test
    }

    #[test]
    fn what_is_still_covered_is_a_danger_until_it_is_ticked() {
        let dangers = |survey: &Survey| {
            let found = find(survey).into_iter();
            let found = found.filter(|one| one.severity == Severity::Danger);
            let ours = found.filter(|one| one.place.is_at(Field::Uncovered));
            ours.map(|one| one.sentence).collect::<Vec<_>>()
        };
        let found = dangers(&with(covering(false)));
        assert_eq!(found.len(), 1);
        assert!(
            found[0].contains("drop-out in the gas locker"),
            "{}",
            found[0]
        );
        assert!(dangers(&with(covering(true))).is_empty());
    }

    #[test]
    fn a_test_is_not_removed_while_something_is_covered_for_it() {
        let remove = || Edit::Remove(RecordId::FanTest(FanTestId(1)));
        let mut survey = with(covering(false));
        let refused = survey.apply(remove()).unwrap_err().to_string();
        assert!(refused.contains("still covered"), "{refused}");
        assert_eq!(survey.fan_tests.len(), 1);
        let mut survey = with(covering(true));
        survey.apply(remove()).unwrap();
        assert!(survey.fan_tests.is_empty());
    }

    #[test]
    fn no_edit_takes_what_is_covered_from_the_list() {
        let two = || {
            let mut test = covering(false);
            test.covered.push(Covered {
                gap: None,
                what: "floor vent".to_owned(),
                uncovered: true,
            });
            test
        };
        let put = |change: fn(&mut FanTest)| {
            let mut survey = with(two());
            let mut changed = two();
            change(&mut changed);
            let done = survey.apply(Edit::Put(Record::FanTest(Box::new(changed))));
            done.map_err(|refused| refused.to_string())
        };
        let refused = [
            put(|test| test.covered.clear()),
            put(|test| drop(test.covered.remove(0))),
            put(|test| {
                test.covered[0].what = "another".to_owned();
                test.covered[0].uncovered = true;
            }),
            put(|test| test.covered[0] = test.covered[1].clone()),
        ];
        for one in refused {
            let sentence = one.unwrap_err();
            let says = "drop-out in the gas locker\u{201d} cannot be taken from the list";
            assert!(sentence.contains(says), "{sentence}");
        }
        // What is uncovered may go, and what is covered be named anew, or ticked.
        put(|test| drop(test.covered.remove(1))).unwrap();
        put(|test| test.covered[0].what = "drop-out, nearside".to_owned()).unwrap();
        put(|test| test.covered[0].uncovered = true).unwrap();
        put(|test| test.covered.insert(0, Covered::default())).unwrap();
    }

    #[test]
    fn a_test_without_temperatures_says_what_it_lacks() {
        let found = find(&with(covering(true)));
        for field in [Field::TestInside, Field::TestOutside] {
            assert!(found.iter().any(|one| one.place.is_at(field)), "{field:?}");
        }
        let mut whole = covering(true);
        (whole.inside_c, whole.outside_c) = (Some(18.0), Some(7.0));
        whole.wind_m_s = Some(2.0);
        let found = find(&with(whole));
        let of_it = |field| found.iter().any(|one| one.place.is_at(field));
        assert!(!of_it(Field::TestInside) && !of_it(Field::TestOutside));
        assert!(!of_it(Field::TestWind));
    }
}
