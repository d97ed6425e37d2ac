//! Findings: what the program noticed in a survey, where, and what to do about it.
//!
//! [`find`] looks at what was recorded alone. What follows only from computed areas and flows,
//! such as safety ventilation below its table, is found in [`crate::assess`].

mod air_test;
mod data_file;
mod equipment;
mod fan_test;
mod finding;
mod gap;
mod job;
mod leave;
mod photo;
mod place;
mod space;
mod stay;
mod trial;
mod usual;
mod vehicle;

pub use data_file::data_files;
pub use equipment::{NO_PEOPLE, lacks_people};
pub use finding::{Finding, Item, Place, Severity};
pub(crate) use finding::{called, named_or, numbered};
pub use gap::is_damp;
pub use photo::photos;
pub use place::{body_reaches, is_off_body};
pub use usual::usual;
pub use vehicle::is_left_out;

use super::Survey;

/// Everything noticed in what was recorded, errors first, otherwise in the order of the survey.
#[must_use]
pub fn find(survey: &Survey) -> Vec<Finding> {
    let mut findings = Vec::new();
    // What is covered may kill at once: it comes before all else of its severity.
    fan_test::find(survey, &mut findings);
    vehicle::find(survey, &mut findings);
    gap::find(survey, &mut findings);
    leave::whole(survey, &mut findings);
    space::find(survey, &mut findings);
    equipment::find(survey, &mut findings);
    job::find(survey, &mut findings);
    stay::find(survey, &mut findings);
    air_test::find(survey, &mut findings);
    trial::find(survey, &mut findings);
    usual::find(survey, &mut findings);
    findings.sort_by_key(|finding| finding.severity);
    findings
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::{Facing, Field, Form, Gap, GapId, VehicleKind, ZoneId};

    #[test]
    fn a_number_that_no_vehicle_has_is_told_in_few_digits() {
        let mut survey = Survey::new(VehicleKind::Other);
        survey.vehicle.length_m = Some(1e300);
        survey.vehicle.height_m = Some(-2e300);
        let found = find(&survey);
        let at = |field| {
            let place = Place::at(Item::Vehicle, field);
            found.iter().find(|one| one.place == place)
        };
        let length = at(Field::Length).expect("it is too long");
        assert_eq!(
            length.sentence,
            "vehicle: length is 1.00e300 m, which is not possible"
        );
        assert!(found.iter().all(|one| one.sentence.len() < 200));
    }

    #[test]
    fn a_gap_at_the_edge_of_what_was_measured_is_not_noted() {
        let noted = |width_mm, depth_mm| {
            let mut survey = Survey::new(VehicleKind::Other);
            let form = Form::NarrowGap {
                length_mm: Some(1000.0),
                width_mm: Some(width_mm),
                depth_mm: Some(depth_mm),
                bends: 0,
            };
            survey
                .gaps
                .push(Gap::new(GapId(1), ZoneId(1), Facing::Front, form));
            let found = find(&survey);
            found
                .iter()
                .any(|one| one.place.is_at(Field::GapWidth) && one.severity == Severity::Note)
        };
        for (width, depth) in [(0.4, 10.0), (4.0, 70.0), (0.1 + 0.3, 70.0)] {
            assert!(!noted(width, depth), "{width} × {depth}");
        }
        assert!(noted(4.1, 30.0) && noted(2.0, 9.0));
    }
}
