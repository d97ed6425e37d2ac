//! Edits: the only way a survey changes.
//!
//! An edit replaces a whole record, or a whole part of the survey, by a new value. That keeps
//! the list of edits short and every one of them easy to check, log and undo.

mod record;
mod refused;

pub use record::{Record, RecordId};
pub use refused::EditRefused;

use super::air_test::AirTest;
use super::drying::Drying;
use super::equipment::{Fan, Heater, Machine, MoistureSource};
use super::fabric::FabricElement;
use super::fan_test::FanTest;
use super::fitting::Fitting;
use super::gap::{Behind, Gap, Zone};
use super::ids::{
    AirTestId, ApplianceId, FabricId, FanId, FanTestId, GapId, HeaterId, InnerOpeningId, MachineId,
    SeriesId, SourceId, SpaceId, TrialId, WeatherId, ZoneId,
};
use super::job::Job;
use super::kept_safe::kept_safe;
use super::logger::LoggerSeries;
use super::site::{SetUp, Site, Targets, Tariffs, WeatherCase};
use super::space::{InnerOpening, Space};
use super::stay::Stay;
use super::trial::Trial;
use super::typical_winters::TypicalWinter;
use super::usual::UsualPart;
use super::vehicle::{Appliance, Vehicle};
use super::walk::Visit;
use super::{Header, Survey};

/// One change of the survey.
#[derive(Clone, Debug, PartialEq)]
pub enum Edit {
    /// Title, scene, surveyor, date.
    Header(Header),
    /// Size and kind of the vehicle.
    Vehicle(Vehicle),
    /// Where it stands.
    Site(Site),
    /// The states wanted inside.
    Targets(Targets),
    /// Prices.
    Tariffs(Tariffs),
    /// Customer, numbers and dates of the papers.
    Job(Job),
    /// Contents, sun and supply.
    Drying(Drying),
    /// How it stands through a winter, and which winter.
    Stay(Box<Stay>),
    /// The set-up that results are shown for.
    SetUp(SetUp),
    /// Leakage that was not found, as a share of what was found, %.
    LeakageNotFound(Option<f64>),
    /// Whether measurements of the whole vehicle weigh in its results.
    Calibrated(bool),
    /// Whether the list of appliances is confirmed to be whole.
    AppliancesConfirmed(bool),
    /// What is drawn on the outside; `None` is what is usual for the kind.
    Fittings(Option<Vec<Fitting>>),
    /// What came of a usual place on the walk round.
    Visited(Visit),
    /// Nothing is said any more of the place of this station and word.
    NotVisited {
        /// Word of the station.
        station: String,
        /// Word of the place.
        place: String,
    },
    /// Fills in what is usual for the vehicle's kind, with the weather of such a winter, wherever
    /// nobody has entered anything, and marks it so.
    Usual(TypicalWinter),
    /// Somebody has looked: what was taken for usual is so.
    Known(UsualPart),
    /// Replaces the record with the same id, or adds it at the end of its list.
    Put(Record),
    /// Removes a record.
    Remove(RecordId),
    /// Moves gaps, in the order they have, in front of another; without one to the end.
    MoveGaps {
        /// The gaps that move.
        gaps: Vec<GapId>,
        /// The gap that follows them then.
        before: Option<GapId>,
    },
    /// Several changes that are one step for the user; all or none are made.
    Several(Vec<Edit>),
}

impl Edit {
    /// Replaces a gap, or adds it at the end of the ledger.
    #[must_use]
    pub fn gap(gap: Gap) -> Self {
        Self::Put(Record::Gap(Box::new(gap)))
    }
}

trait HasId {
    type Id: PartialEq + Copy;
    fn id(&self) -> Self::Id;
}

macro_rules! has_id {
    ($($record:ty => $id:ty),* $(,)?) => {$(
        impl HasId for $record {
            type Id = $id;
            fn id(&self) -> $id {
                self.id
            }
        }
    )*};
}

has_id! {
    Zone => ZoneId,
    Gap => GapId,
    WeatherCase => WeatherId,
    FabricElement => FabricId,
    Appliance => ApplianceId,
    Machine => MachineId,
    Heater => HeaterId,
    Fan => FanId,
    MoistureSource => SourceId,
    Space => SpaceId,
    InnerOpening => InnerOpeningId,
    FanTest => FanTestId,
    AirTest => AirTestId,
    LoggerSeries => SeriesId,
    Trial => TrialId,
}

/// Puts a record into its list; says whether that changes anything.
fn put<T: HasId + PartialEq>(list: &mut Vec<T>, record: T) -> bool {
    match list.iter_mut().find(|old| old.id() == record.id()) {
        Some(old) => {
            let changed = *old != record;
            *old = record;
            changed
        }
        None => {
            list.push(record);
            true
        }
    }
}

fn remove<T: HasId>(list: &mut Vec<T>, id: T::Id, named: RecordId) -> Result<(), EditRefused> {
    let at = list.iter().position(|record| record.id() == id);
    let at = at.ok_or(EditRefused::NothingToRemove(named))?;
    list.remove(at);
    Ok(())
}

macro_rules! free_id {
    ($($(#[$doc:meta])* $name:ident: $list:ident -> $id:ident),* $(,)?) => {
        impl Survey {
            $($(#[$doc])*
            #[must_use]
            pub fn $name(&self) -> $id {
                let highest = self.$list.iter().map(|record| record.id.0).max();
                $id(highest.map_or(1, |highest| highest.saturating_add(1)))
            })*
        }
    };
}

free_id! {
    /// An id no zone has yet.
    free_zone_id: zones -> ZoneId,
    /// An id no gap has yet.
    free_gap_id: gaps -> GapId,
    /// An id no weather case has yet.
    free_weather_id: weather -> WeatherId,
    /// An id no fabric element has yet.
    free_fabric_id: fabric -> FabricId,
    /// An id no appliance has yet.
    free_appliance_id: appliances -> ApplianceId,
    /// An id no machine has yet.
    free_machine_id: machines -> MachineId,
    /// An id no heater has yet.
    free_heater_id: heaters -> HeaterId,
    /// An id no fan has yet.
    free_fan_id: fans -> FanId,
    /// An id no moisture source has yet.
    free_source_id: sources -> SourceId,
    /// An id no space has yet.
    free_space_id: spaces -> SpaceId,
    /// An id no inner opening has yet.
    free_inner_opening_id: inner_openings -> InnerOpeningId,
    /// An id no fan test has yet.
    free_fan_test_id: fan_tests -> FanTestId,
    /// An id no test of the air change has yet.
    free_air_test_id: air_tests -> AirTestId,
    /// An id no logger's readings have yet.
    free_series_id: series -> SeriesId,
    /// An id no trial has yet.
    free_trial_id: trials -> TrialId,
}

impl Survey {
    /// Makes one change, or refuses it and leaves the survey as it was.
    ///
    /// # Errors
    /// [`EditRefused`] says in a plain sentence what stands in the way.
    pub fn apply(&mut self, edit: Edit) -> Result<(), EditRefused> {
        match edit {
            Edit::Header(header) => self.header = header,
            Edit::Vehicle(vehicle) => {
                let before = std::mem::replace(&mut self.vehicle, vehicle).kind;
                self.usual_follows(before);
            }
            Edit::Site(site) => {
                let before = std::mem::replace(&mut self.site, site).altitude_m;
                self.usual.altitude &= before.total_cmp(&self.site.altitude_m).is_eq();
            }
            Edit::Targets(targets) => {
                let before = std::mem::replace(&mut self.targets, targets).design_outside_c;
                self.usual.design_outside &=
                    before.total_cmp(&self.targets.design_outside_c).is_eq();
            }
            Edit::Tariffs(tariffs) => self.tariffs = tariffs,
            Edit::Job(job) => self.job = job,
            Edit::Drying(drying) => self.drying = drying,
            Edit::Stay(stay) => self.stay = *stay,
            Edit::SetUp(set_up) => self.set_up = set_up,
            Edit::LeakageNotFound(percent) => self.leakage_not_found_percent = percent,
            Edit::Calibrated(calibrated) => self.calibrated = calibrated,
            Edit::Visited(visit) => self
                .take_visit(visit)
                .map_err(|gap| EditRefused::GapFoundThere { gap })?,
            Edit::NotVisited { station, place } => {
                self.walk.retain(|visit| !visit.is_of(&station, &place));
            }
            Edit::AppliancesConfirmed(confirmed) => {
                self.appliances_confirmed = confirmed;
                if confirmed {
                    self.usual.appliances.clear();
                }
            }
            Edit::Fittings(fittings) => self.fittings = fittings,
            Edit::Usual(winter) => self.fill_usual(winter),
            Edit::Known(part) => self.usual.forget(part),
            Edit::Put(record) => self.put(record)?,
            Edit::Remove(id) => self.remove(id)?,
            Edit::MoveGaps { gaps, before } => self.move_gaps(&gaps, before)?,
            Edit::Several(edits) => {
                let mut changed = self.clone();
                for edit in edits {
                    changed.apply(edit)?;
                }
                *self = changed;
            }
        }
        Ok(())
    }

    fn put(&mut self, record: Record) -> Result<(), EditRefused> {
        self.has_room_for(&record)?;
        let part = record.usual_part();
        let changed = match record {
            Record::Zone(zone) => put(&mut self.zones, zone),
            Record::Gap(gap) => {
                if self.zone(gap.zone).is_none() {
                    return Err(EditRefused::NoSuchZone {
                        gap: gap.id,
                        zone: gap.zone,
                    });
                }
                let gap = kept_safe(self, *gap)?;
                if self.gap(gap.id).is_none() {
                    self.forget_in_walk(gap.id);
                }
                put(&mut self.gaps, gap)
            }
            Record::Weather(case) => put(&mut self.weather, case),
            Record::Fabric(element) => put(&mut self.fabric, *element),
            Record::Appliance(appliance) => {
                // One more: the list was not whole.
                let known = |one: &Appliance| one.id == appliance.id;
                self.appliances_confirmed &= self.appliances.iter().any(known);
                put(&mut self.appliances, appliance)
            }
            Record::Machine(machine) => put(&mut self.machines, *machine),
            Record::Heater(heater) => put(&mut self.heaters, heater),
            Record::Fan(fan) => put(&mut self.fans, fan),
            Record::Source(source) => put(&mut self.sources, source),
            Record::Space(space) => put(&mut self.spaces, space),
            Record::InnerOpening(opening) => put(&mut self.inner_openings, *opening),
            Record::FanTest(test) => {
                if let Some(what) = self.would_forget(&test) {
                    return Err(EditRefused::CoverForgotten { what });
                }
                put(&mut self.fan_tests, *test)
            }
            Record::AirTest(test) => put(&mut self.air_tests, *test),
            Record::Series(series) => put(&mut self.series, *series),
            Record::Trial(trial) => put(&mut self.trials, *trial),
        };
        // What is changed by hand is no longer the usual one.
        if let (true, Some(part)) = (changed, part) {
            self.usual.forget(part);
        }
        Ok(())
    }

    fn remove(&mut self, named: RecordId) -> Result<(), EditRefused> {
        if let Some(part) = named.usual_part() {
            self.usual.forget(part);
        }
        match named {
            RecordId::Zone(id) => {
                let gaps = self.gaps.iter().filter(|gap| gap.zone == id).count();
                if gaps > 0 {
                    let name = self
                        .zone(id)
                        .map(|zone| zone.name.clone())
                        .unwrap_or_default();
                    return Err(EditRefused::ZoneHoldsGaps { name, gaps });
                }
                remove(&mut self.zones, id, named)
            }
            RecordId::Gap(id) => {
                let inner = self
                    .gaps
                    .iter()
                    .find(|gap| gap.behind == Some(Behind::Gap(id)));
                if let Some(inner) = inner {
                    return Err(EditRefused::GapInFront {
                        gap: id,
                        behind: inner.id,
                    });
                }
                remove(&mut self.gaps, id, named)?;
                self.forget_in_walk(id);
                Ok(())
            }
            RecordId::Weather(id) => remove(&mut self.weather, id, named),
            RecordId::Fabric(id) => remove(&mut self.fabric, id, named),
            RecordId::Appliance(id) => remove(&mut self.appliances, id, named),
            RecordId::Machine(id) => remove(&mut self.machines, id, named),
            RecordId::Heater(id) => remove(&mut self.heaters, id, named),
            RecordId::Fan(id) => remove(&mut self.fans, id, named),
            RecordId::Source(id) => remove(&mut self.sources, id, named),
            RecordId::Space(id) => {
                if let Some(what) = self.uses_of(id) {
                    return Err(EditRefused::SpaceInUse { space: id, what });
                }
                remove(&mut self.spaces, id, named)
            }
            RecordId::InnerOpening(id) => remove(&mut self.inner_openings, id, named),
            RecordId::FanTest(id) => {
                if let Some(what) = self.covers_still(id) {
                    return Err(EditRefused::StillCovered { what });
                }
                remove(&mut self.fan_tests, id, named)
            }
            RecordId::AirTest(id) => remove(&mut self.air_tests, id, named),
            RecordId::Series(id) => {
                if let Some(trial) = self.trial_with(id) {
                    return Err(EditRefused::SeriesInUse { trial });
                }
                remove(&mut self.series, id, named)
            }
            RecordId::Trial(id) => remove(&mut self.trials, id, named),
        }
    }
}

#[cfg(test)]
mod tests;
