//! The numbers by which records name each other.

use super::super::stored::numbers;

numbers!(
    ApplianceId,
    FabricId,
    FanId,
    GapId,
    HeaterId,
    InnerOpeningId,
    MachineId,
    SourceId,
    SpaceId,
    WeatherId,
    ZoneId
);
