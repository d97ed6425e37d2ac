//! The records of the survey's lists, and what names them.

use crate::survey::air_test::AirTest;
use crate::survey::equipment::{Fan, Heater, Machine, MoistureSource};
use crate::survey::fabric::FabricElement;
use crate::survey::fan_test::FanTest;
use crate::survey::gap::{Gap, Zone};
use crate::survey::ids::{
    AirTestId, ApplianceId, FabricId, FanId, FanTestId, GapId, HeaterId, InnerOpeningId, MachineId,
    SeriesId, SourceId, SpaceId, TrialId, WeatherId, ZoneId,
};
use crate::survey::logger::LoggerSeries;
use crate::survey::site::WeatherCase;
use crate::survey::space::{InnerOpening, Space};
use crate::survey::trial::Trial;
use crate::survey::usual::UsualPart;
use crate::survey::vehicle::Appliance;

/// A record of one of the survey's lists.
#[derive(Clone, Debug, PartialEq)]
pub enum Record {
    /// A zone.
    Zone(Zone),
    /// A gap.
    Gap(Box<Gap>),
    /// A weather case.
    Weather(WeatherCase),
    /// A fabric element.
    Fabric(Box<FabricElement>),
    /// An appliance.
    Appliance(Appliance),
    /// A drying machine.
    Machine(Box<Machine>),
    /// A heater.
    Heater(Heater),
    /// A fan.
    Fan(Fan),
    /// A moisture source.
    Source(MoistureSource),
    /// A space inside.
    Space(Space),
    /// An opening between two spaces.
    InnerOpening(Box<InnerOpening>),
    /// A fan test.
    FanTest(Box<FanTest>),
    /// A test of the air change.
    AirTest(Box<AirTest>),
    /// A logger's readings.
    Series(Box<LoggerSeries>),
    /// A trial.
    Trial(Box<Trial>),
}

/// Names a record of one of the survey's lists.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum RecordId {
    /// A zone.
    Zone(ZoneId),
    /// A gap.
    Gap(GapId),
    /// A weather case.
    Weather(WeatherId),
    /// A fabric element.
    Fabric(FabricId),
    /// An appliance.
    Appliance(ApplianceId),
    /// A drying machine.
    Machine(MachineId),
    /// A heater.
    Heater(HeaterId),
    /// A fan.
    Fan(FanId),
    /// A moisture source.
    Source(SourceId),
    /// A space inside.
    Space(SpaceId),
    /// An opening between two spaces.
    InnerOpening(InnerOpeningId),
    /// A fan test.
    FanTest(FanTestId),
    /// A test of the air change.
    AirTest(AirTestId),
    /// A logger's readings.
    Series(SeriesId),
    /// A trial.
    Trial(TrialId),
}

impl Record {
    /// The part that may be marked as usual.
    pub(super) fn usual_part(&self) -> Option<UsualPart> {
        match self {
            Self::Weather(case) => Some(UsualPart::Weather(case.id)),
            Self::Fabric(element) => Some(UsualPart::Fabric(element.id)),
            Self::Appliance(appliance) => Some(UsualPart::Appliance(appliance.id)),
            _ => None,
        }
    }
}

impl RecordId {
    /// The part that may be marked as usual.
    #[must_use]
    pub fn usual_part(self) -> Option<UsualPart> {
        match self {
            Self::Weather(id) => Some(UsualPart::Weather(id)),
            Self::Fabric(id) => Some(UsualPart::Fabric(id)),
            Self::Appliance(id) => Some(UsualPart::Appliance(id)),
            _ => None,
        }
    }
}
