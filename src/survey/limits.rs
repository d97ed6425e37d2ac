//! How long the lists of a survey may become: what is taken here can be saved, and read again.

use super::Survey;
use super::air_test::AirTest;
use super::edit::{EditRefused, Record};
use super::space::InnerOpening;

/// The most gaps a survey may hold.
pub const MOST_GAPS: usize = 5000;

/// The most records any other list of a survey may hold.
pub const MOST_RECORDS: usize = 1000;

impl Survey {
    /// Refuses a record that would make its list longer than any file holds. One that takes the
    /// place of another makes no list longer.
    pub(super) fn has_room_for(&self, record: &Record) -> Result<(), EditRefused> {
        let (there, most, what) = match record {
            Record::Gap(gap) if gap.photos.len() > MOST_RECORDS => {
                (gap.photos.len(), MOST_RECORDS, "photos of one gap")
            }
            Record::Gap(gap) => {
                let one_more = usize::from(self.gap(gap.id).is_none());
                (self.gaps.len() + one_more, MOST_GAPS, "gaps")
            }
            Record::Zone(new) => after(&self.zones, |old| old.id == new.id, "zones"),
            Record::Weather(new) => after(&self.weather, |old| old.id == new.id, "weather cases"),
            Record::Fabric(new) => {
                after(&self.fabric, |old| old.id == new.id, "parts of the fabric")
            }
            Record::Appliance(new) => after(&self.appliances, |old| old.id == new.id, "appliances"),
            Record::Machine(new) => {
                after(&self.machines, |old| old.id == new.id, "drying machines")
            }
            Record::Heater(new) => after(&self.heaters, |old| old.id == new.id, "heaters"),
            Record::Fan(new) => after(&self.fans, |old| old.id == new.id, "fans"),
            Record::Source(new) => {
                after(&self.sources, |old| old.id == new.id, "sources of moisture")
            }
            Record::Space(new) => after(&self.spaces, |old| old.id == new.id, "spaces"),
            Record::InnerOpening(new) => {
                let same = |old: &InnerOpening| old.id == new.id;
                after(&self.inner_openings, same, "openings between spaces")
            }
            Record::FanTest(new) => {
                let readings = [&new.blowing_out, &new.blowing_in].map(|one| one.readings.len());
                let longest = readings.into_iter().chain([new.covered.len()]).max();
                match longest.filter(|most| *most > MOST_RECORDS) {
                    Some(most) => (
                        most,
                        MOST_RECORDS,
                        "readings or covered openings of a fan test",
                    ),
                    None => after(&self.fan_tests, |old| old.id == new.id, "fan tests"),
                }
            }
            Record::AirTest(new) if new.readings.len() > MOST_RECORDS => {
                (new.readings.len(), MOST_RECORDS, "readings of an air test")
            }
            Record::AirTest(new) => {
                let same = |old: &AirTest| old.id == new.id;
                after(&self.air_tests, same, "tests of the air change")
            }
            Record::Series(new) => match new.left_out.len().max(new.mapping.columns.len()) {
                most if most > MOST_RECORDS => (
                    most,
                    MOST_RECORDS,
                    "columns or stretches left out of a logger",
                ),
                _ => after(&self.series, |old| old.id == new.id, "loggers"),
            },
            Record::Trial(new) if new.periods.len() > MOST_RECORDS => {
                (new.periods.len(), MOST_RECORDS, "periods of a trial")
            }
            Record::Trial(new) => after(&self.trials, |old| old.id == new.id, "trials"),
        };
        match there > most {
            true => Err(EditRefused::TooMany { what, most }),
            false => Ok(()),
        }
    }
}

/// How long a list is with the new record in it, and how long it may be.
fn after<T>(
    list: &[T],
    same: impl Fn(&T) -> bool,
    what: &'static str,
) -> (usize, usize, &'static str) {
    let one_more = usize::from(!list.iter().any(same));
    (list.len() + one_more, MOST_RECORDS, what)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::file::{parse, print};
    use crate::survey::{Edit, Facing, Form, Gap, GapId, History, VehicleKind, Zone, ZoneId};

    /// A survey whose ledger is full.
    fn full() -> Survey {
        let mut survey = Survey::new(VehicleKind::PanelVan);
        let most = u32::try_from(MOST_GAPS).unwrap();
        let gap = |id| {
            let form = Form::RoundHole { diameter_mm: None };
            Gap::new(GapId(id), survey.zones[0].id, Facing::Roof, form)
        };
        survey.gaps = (1..=most).map(gap).collect();
        survey
    }

    #[test]
    fn a_gap_that_no_file_would_hold_is_refused_and_the_survey_can_be_saved() {
        let mut history = History::new(full());
        let mut gap = history.survey().gaps[0].clone();
        gap.id = history.survey().free_gap_id();
        let refused = history.apply(Edit::gap(gap.clone()), None).unwrap_err();
        let words = refused.to_string();
        assert!(words.contains("at most 5000 gaps"), "{words}");
        let several = Edit::Several(vec![Edit::gap(gap.clone())]);
        assert!(history.apply(several, None).is_err());
        assert_eq!(history.survey().gaps.len(), MOST_GAPS);
        assert!(parse(&print(history.survey())).is_ok());
        // What is there already is changed as before.
        gap.id = GapId(7);
        gap.count = 2;
        history.apply(Edit::gap(gap), None).unwrap();
        assert_eq!(history.survey().gaps[6].count, 2);
    }

    #[test]
    fn the_other_lists_end_where_those_of_a_file_do() {
        let mut survey = Survey::new(VehicleKind::PanelVan);
        let zone = |id| Zone {
            id: ZoneId(id),
            name: "z".to_owned(),
        };
        survey.zones = (1..=1000).map(zone).collect();
        assert!(parse(&print(&survey)).is_ok());
        let refused = survey
            .apply(Edit::Put(Record::Zone(zone(1001))))
            .unwrap_err();
        assert!(refused.to_string().contains("at most 1000 zones"));
        assert_eq!(survey.zones.len(), 1000);
        survey.apply(Edit::Put(Record::Zone(zone(1000)))).unwrap();
        survey.zones.push(zone(1001));
        assert!(parse(&print(&survey)).is_err(), "the limit of the file");
    }
}
