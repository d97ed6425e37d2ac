//! Findings about what is usual for such a vehicle, and not measured.

use super::finding::{Finder, Finding, Item};
use crate::survey::{Field, Survey, TypicalWinter};

/// What of the survey is usual and not measured, a line for each group, in the order of the job.
#[must_use]
pub fn usual(survey: &Survey) -> Vec<Finding> {
    let mut findings = Vec::new();
    find(survey, &mut findings);
    findings
}

pub(super) fn find(survey: &Survey, findings: &mut Vec<Finding>) {
    let (usual, kind) = (&survey.usual, survey.vehicle.kind.one());
    let winter = usual.winter.map_or("unknown", TypicalWinter::name);
    let winter = format!("\u{201c}{winter}\u{201d}");
    if let (Some(first), many) = (usual.fabric.first(), usual.fabric.len()) {
        let of = part_of(many, survey.fabric.len());
        Finder::new(findings, Item::Fabric(*first), "fabric").remark(
            None,
            format!("{of} usual for {kind}, not measured"),
            "measure windows, doors and walls, find out what they are made of, and write it down",
        );
    }
    if let (Some(first), many) = (usual.appliances.first(), usual.appliances.len()) {
        let of = part_of(many, survey.appliances.len());
        Finder::new(findings, Item::Appliance(*first), "appliances").remark(
            None,
            format!("{of} usual for {kind}; nobody has looked for them yet"),
            "look for each, correct the list, read the plates, then confirm that all are listed",
        );
    }
    if let (Some(first), many) = (usual.weather.first(), usual.weather.len()) {
        let of = part_of(many, survey.weather.len());
        Finder::new(findings, Item::Weather(*first), "weather").remark(
            None,
            format!("{of} assumed: the typical winter {winter}, of no real place"),
            "replace it by the weather where the vehicle stands, or choose another winter",
        );
    }
    if usual.design_outside {
        Finder::new(findings, Item::Targets, "targets").remark(
            Field::DesignOutside,
            format!(
                "the coldest outside temperature is assumed: that of the typical winter {winter}"
            ),
            "take the coldest night from local weather records: heaters are sized by it",
        );
    }
    if usual.altitude {
        Finder::new(findings, Item::Site, "site").remark(
            Field::Altitude,
            format!("the height above sea level is assumed: that of the typical winter {winter}"),
            "read it from a map",
        );
    }
}

/// How many of a list.
fn part_of(many: usize, all: usize) -> String {
    if many >= all {
        "all of it is".to_owned()
    } else {
        format!("{many} of {all} are")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::{Edit, Record, RecordId, VehicleKind};

    #[test]
    fn what_is_usual_is_told_until_it_is_changed_by_hand() {
        let mut survey = Survey::starting(VehicleKind::PanelVan);
        assert!(usual(&survey).is_empty());
        survey.apply(Edit::Usual(TypicalWinter::Alpine)).unwrap();
        let told: Vec<String> = usual(&survey).into_iter().map(|one| one.sentence).collect();
        assert_eq!(told.len(), 5);
        assert_eq!(
            told[0],
            "fabric: all of it is usual for a panel-van camper, not measured"
        );
        assert!(told[2].contains("alpine"), "{told:?}");
        let mut wall = survey.fabric[0].clone();
        wall.area_m2 = Some(21.5);
        survey
            .apply(Edit::Put(Record::Fabric(Box::new(wall))))
            .unwrap();
        let all = survey.fabric.len();
        let told = usual(&survey);
        assert!(
            told[0]
                .sentence
                .contains(&format!("{} of {all} are", all - 1))
        );
        for element in survey.fabric.clone() {
            let id = RecordId::Fabric(element.id);
            survey.apply(Edit::Remove(id)).unwrap();
        }
        assert!(!usual(&survey)[0].sentence.starts_with("fabric"));
    }
}
