//! Numbers that name records for as long as the survey lives.
//!
//! A list may be sorted, filtered and edited; the id of a record stays. Ids are unique within
//! their own list only, hence one type for each list.

macro_rules! id {
    ($(#[$doc:meta])* $name:ident) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(pub u32);

        impl std::fmt::Display for $name {
            fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                self.0.fmt(formatter)
            }
        }
    };
}

id!(/// Number of a gap; it is also the number printed beside its mark.
    GapId);
id!(/// Number of a zone.
    ZoneId);
id!(/// Number of a weather case.
    WeatherId);
id!(/// Number of a fabric element.
    FabricId);
id!(/// Number of an appliance.
    ApplianceId);
id!(/// Number of a drying machine.
    MachineId);
id!(/// Number of a fitting.
    FittingId);
id!(/// Number of a heater.
    HeaterId);
id!(/// Number of a fan.
    FanId);
id!(/// Number of a moisture source.
    SourceId);
id!(/// Number of a space inside the vehicle.
    SpaceId);
id!(/// Number of an opening between two spaces.
    InnerOpeningId);
id!(/// Number of a fan test.
    FanTestId);
id!(/// Number of a test of the air change.
    AirTestId);
id!(/// Number of a logger's readings.
    SeriesId);
id!(/// Number of a trial.
    TrialId);
id!(/// Number of a period within its trial.
    PeriodId);
