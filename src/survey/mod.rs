//! What was recorded in the vehicle: the survey, its edits, its findings and its file.
//!
//! A [`Survey`] is plain data. It changes only through [`Edit`]s, which [`History`] applies one
//! by one and can undo; everything that is worked out from it lives in [`crate::assess`].
//! A size that was not taken is `None`, never zero.

pub mod air_test;
pub mod build_ups;
mod covered;
pub mod date;
pub mod drying;
pub mod edit;
pub mod equipment;
pub mod fabric;
pub mod fan_test;
pub mod field;
pub mod file;
pub mod findings;
pub mod fitting;
pub mod gap;
mod gap_part;
mod given_up;
pub mod history;
pub mod ids;
mod in_use;
pub mod job;
mod kept_safe;
pub mod leave;
pub mod limits;
pub mod logger;
mod measurements;
mod moment;
pub mod number;
mod order;
mod ordered;
pub mod photo;
pub mod remedy;
pub mod shapes;
pub mod signs;
pub mod site;
mod sizes;
pub mod space;
pub mod starting;
pub mod stations;
pub mod stay;
mod step;
pub mod trial;
pub mod typed;
mod typical_winters;
pub mod unit;
mod usual;
pub mod vehicle;
pub mod walk;
mod walked;
pub mod word;

pub use air_test::{AirReading, AirTest, AirTestBy};
pub use drying::Drying;
pub use edit::{Edit, EditRefused, Record, RecordId};
pub use equipment::{
    Fan, FanDirection, Heater, HeaterFuel, Machine, MachineKind, MachinePoint, MoistureSource,
    SourceKind,
};
pub use fabric::{BuildUp, FabricElement, FabricPart, Layer, Outline};
pub use fan_test::{Covered, FanReading, FanReadings, FanTest, Tested};
pub use field::Field;
pub use findings::{Finding, Item, Place, Severity};
pub use fitting::{Fitting, FittingKind};
pub use gap::{
    AreaConvention, Behind, Cavity, Certainty, Closing, CostBasis, Facing, Form, Gap, GapPart,
    GrilleMaterial, LeadsTo, Position, Purpose, Remedy, RemedyKind, WorkState, Zone,
};
pub use history::{History, MergeKey};
pub use ids::{
    AirTestId, ApplianceId, FabricId, FanId, FanTestId, FittingId, GapId, HeaterId, InnerOpeningId,
    MachineId, PeriodId, SeriesId, SourceId, SpaceId, TrialId, WeatherId, ZoneId,
};
pub use job::Job;
pub use kept_safe::NotToBeClosed;
pub use logger::{
    Against, BelowFreezing, Hung, LeftOut, LoggerCheck, LoggerSeries, OffsetFrom,
    below_freezing_name,
};
pub use moment::Moment;
pub use photo::{Photo, PhotoMark};
pub use site::{InsideAir, SetUp, Site, Targets, Tariffs, WeatherCase};
pub use space::{InnerOpening, Space};
pub use starting::{StartingSizes, starting_sizes};
pub use stations::{Station, UsualPlace};
pub use stay::{BodyColour, MonthDay, Presence, Stay};
pub use step::step_in_words;
pub use trial::{OutsideFrom, Period, Ran, Trial, Vents};
pub use typical_winters::{MonthlyWeather, TypicalWinter, WinterMeans};
pub use usual::{Usual, UsualPart};
pub use vehicle::{Appliance, ApplianceKind, CodeOfPractice, Vehicle, VehicleKind};
pub use walk::{Outcome, Progress, Visit};

/// Who made the survey, of what, where and when.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Header {
    /// Short title, for example the registration or the owner's name for the vehicle.
    pub title: String,
    /// Where and how the vehicle stands, in the surveyor's words.
    pub scene: String,
    /// Who made the survey.
    pub surveyor: String,
    /// Date of the survey, `YYYY-MM-DD`, or empty.
    pub date: String,
    /// Reference of the job, the workshop's own numbering.
    pub reference: String,
    /// Free notes.
    pub note: String,
}

/// One whole survey: everything that was recorded about one vehicle.
#[derive(Clone, Debug, PartialEq)]
pub struct Survey {
    /// Title, scene, surveyor, date.
    pub header: Header,
    /// Size and kind of the vehicle.
    pub vehicle: Vehicle,
    /// Where it stands.
    pub site: Site,
    /// The states the owner wants inside.
    pub targets: Targets,
    /// What energy and work cost.
    pub tariffs: Tariffs,
    /// Whom the work is for, and the papers about it.
    pub job: Job,
    /// Contents, sun and supply, for drying and heating.
    pub drying: Drying,
    /// How it stands through a winter, and which winter.
    pub stay: Stay,
    /// The set-up that results are shown for: laid up or in use.
    pub set_up: SetUp,
    /// Place groups for gaps, in the order shown.
    pub zones: Vec<Zone>,
    /// The ledger, in the order shown.
    pub gaps: Vec<Gap>,
    /// Weather cases, in the order shown.
    pub weather: Vec<WeatherCase>,
    /// Walls, roof, floor, windows, doors with their build-ups.
    pub fabric: Vec<FabricElement>,
    /// Appliances that burn something or need air.
    pub appliances: Vec<Appliance>,
    /// The surveyor confirms that the list of appliances is whole: until then, what must stay open
    /// is not known.
    pub appliances_confirmed: bool,
    /// Drying machines.
    pub machines: Vec<Machine>,
    /// Heaters.
    pub heaters: Vec<Heater>,
    /// Fans to or from outside.
    pub fans: Vec<Fan>,
    /// Sources of moisture inside.
    pub sources: Vec<MoistureSource>,
    /// The spaces inside; none, or one, is a single space. Gaps and fans that name none belong to
    /// the first.
    pub spaces: Vec<Space>,
    /// Openings between them.
    pub inner_openings: Vec<InnerOpening>,
    /// What is drawn on the outside, and where; `None`: what is usual for the vehicle's kind, where
    /// it usually is. No result depends on it.
    pub fittings: Option<Vec<Fitting>>,
    /// Leakage that was not found, as a share of what was found, %; `None` leaves it out.
    pub leakage_not_found_percent: Option<f64>,
    /// What came of the usual places on the walk round, in the order looked at.
    pub walk: Vec<Visit>,
    /// Fan tests, in the order they were written down.
    pub fan_tests: Vec<FanTest>,
    /// Tests of the air change, in the order they were written down.
    pub air_tests: Vec<AirTest>,
    /// Whether measurements of the whole vehicle weigh in its results.
    pub calibrated: bool,
    /// Readings of loggers, in the order they were taken in.
    pub series: Vec<LoggerSeries>,
    /// Trials of ways of keeping dry.
    pub trials: Vec<Trial>,
    /// What of it is usual for such a vehicle, and not measured.
    pub usual: Usual,
}

impl Survey {
    /// The gap with this id.
    #[must_use]
    pub fn gap(&self, id: GapId) -> Option<&Gap> {
        self.gaps.iter().find(|gap| gap.id == id)
    }

    /// The zone with this id.
    #[must_use]
    pub fn zone(&self, id: ZoneId) -> Option<&Zone> {
        self.zones.iter().find(|zone| zone.id == id)
    }

    /// The name of a zone; empty where it is gone.
    #[must_use]
    pub fn zone_name(&self, id: ZoneId) -> &str {
        self.zone(id).map_or("", |zone| zone.name.as_str())
    }

    /// The space with this id.
    #[must_use]
    pub fn space(&self, id: SpaceId) -> Option<&Space> {
        self.spaces.iter().find(|space| space.id == id)
    }

    /// The space that a gap or fan belongs to: the one it names, otherwise the first; `None`
    /// where no spaces are listed.
    #[must_use]
    pub fn space_or_first(&self, named: Option<SpaceId>) -> Option<SpaceId> {
        named.or_else(|| self.spaces.first().map(|space| space.id))
    }

    /// Name of a space inside, or its number where it has none.
    #[must_use]
    pub fn space_name(&self, id: SpaceId) -> String {
        let found = self.spaces.iter().find(|space| space.id == id);
        match found.map(|space| space.name.trim()) {
            Some(name) if !name.is_empty() => name.to_owned(),
            _ => format!("space {id}"),
        }
    }

    /// The weather case with this id.
    #[must_use]
    pub fn weather_case(&self, id: WeatherId) -> Option<&WeatherCase> {
        self.weather.iter().find(|case| case.id == id)
    }
}
