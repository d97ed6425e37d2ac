//! Format 2: what is written. It is open for new fields until it is frozen, as format 1 is.
//!
//! A record that has not changed since format 1 is that of [`super::v1`]; one that changes moves
//! here, and its former self stays in `v1/replaced.rs` to be read. What a field that is left out
//! stands for is said here in plain numbers, so that a later change of what a *new* survey starts
//! with does not change old files.

mod air_test;
mod equipment;
mod fan_test;
mod fitting;
mod gap;
mod job;
mod stay;
mod tariffs;
mod trial;
mod usual;
mod vehicle;
mod walk;
mod weather;

use super::error::ParseError;
use super::limits::reading;
use super::misread;
use super::stored::{Number, Stored, list, record};
use super::v1::equipment::MoistureSource;
use super::v1::fabric::FabricElement;
use super::v1::gap::{Zone, usual_zones};
use super::v1::site::{Drying, Header, SetUp, Targets, WeatherCase};
use super::v1::space::{InnerOpening, Space};
use crate::survey::Survey as LiveSurvey;
use air_test::AirTest;
pub(super) use equipment::{Fan, Heater, Machine};
use fan_test::FanTest;
use fitting::Fittings;
pub(super) use gap::{Gap, GapPart, Photo, Purpose, Remedy, RemedyKind};
pub(super) use job::Job;
use ron::extensions::Extensions;
use ron::ser::PrettyConfig;
pub(super) use stay::Stay;
use std::collections::BTreeSet;
pub(super) use tariffs::Tariffs;
pub(super) use trial::Mapping as StoredMapping;
use trial::{LoggerSeries, Trial};
pub(super) use usual::Usual;
pub(super) use vehicle::{Appliance, CodeOfPractice, PressureSet, Site, Underside, Vehicle};
use walk::Visit;
use weather::usual_weather;

/// The line that a file begins with, so that it is known for a survey before it is read.
pub(crate) const FIRST_LINE: &str = "// Gapledger survey";

record! {
    /// A whole survey file.
    Survey {
        #[serde(default, skip_serializing_if = "Header::is_empty")]
        header: Header,
        vehicle: Vehicle,
        #[serde(default)]
        site: Site,
        #[serde(default)]
        targets: Targets,
        #[serde(default)]
        tariffs: Tariffs,
        #[serde(default, skip_serializing_if = "Job::is_empty")]
        job: Job,
        #[serde(default)]
        drying: Drying,
        #[serde(default, skip_serializing_if = "Stay::is_nothing")]
        stay: Stay,
        #[serde(default = "SetUp::laid_up")]
        set_up: SetUp,
        #[serde(default = "usual_zones", deserialize_with = "list")]
        zones: Vec<Zone>,
        #[serde(default, deserialize_with = "list")]
        gaps: Vec<Gap>,
        #[serde(default = "usual_weather", deserialize_with = "list")]
        weather: Vec<WeatherCase>,
        #[serde(default, deserialize_with = "list", skip_serializing_if = "Vec::is_empty")]
        fabric: Vec<FabricElement>,
        #[serde(default, deserialize_with = "list", skip_serializing_if = "Vec::is_empty")]
        appliances: Vec<Appliance>,
        #[serde(default)]
        appliances_confirmed: bool,
        #[serde(default, deserialize_with = "list", skip_serializing_if = "Vec::is_empty")]
        machines: Vec<Machine>,
        #[serde(default, deserialize_with = "list", skip_serializing_if = "Vec::is_empty")]
        heaters: Vec<Heater>,
        #[serde(default, deserialize_with = "list", skip_serializing_if = "Vec::is_empty")]
        fans: Vec<Fan>,
        #[serde(default, deserialize_with = "list", skip_serializing_if = "Vec::is_empty")]
        sources: Vec<MoistureSource>,
        #[serde(default, deserialize_with = "list", skip_serializing_if = "Vec::is_empty")]
        spaces: Vec<Space>,
        #[serde(default, deserialize_with = "list", skip_serializing_if = "Vec::is_empty")]
        inner_openings: Vec<InnerOpening>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        fittings: Option<Fittings>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        leakage_not_found_percent: Option<Number>,
        #[serde(default, deserialize_with = "list", skip_serializing_if = "Vec::is_empty")]
        walk: Vec<Visit>,
        #[serde(default, deserialize_with = "list", skip_serializing_if = "Vec::is_empty")]
        fan_tests: Vec<FanTest>,
        #[serde(default, deserialize_with = "list", skip_serializing_if = "Vec::is_empty")]
        air_tests: Vec<AirTest>,
        #[serde(default = "usually_calibrated", skip_serializing_if = "Clone::clone")]
        calibrated: bool,
        #[serde(default, deserialize_with = "list", skip_serializing_if = "Vec::is_empty")]
        series: Vec<LoggerSeries>,
        #[serde(default, deserialize_with = "list", skip_serializing_if = "Vec::is_empty")]
        trials: Vec<Trial>,
        #[serde(default, skip_serializing_if = "Usual::is_nothing")]
        usual: Usual,
    }
    always { format: u32 = 2 }
}

/// What a file that does not say it stands for: measurements weigh.
fn usually_calibrated() -> bool {
    true
}

/// Reads a file of format 2.
pub(super) fn read(text: &str) -> Result<Survey, ParseError> {
    reading()
        .from_str(text)
        .map_err(|error| misread::parse_error(text, &error))
}

/// Writes a file of format 2.
#[expect(
    clippy::expect_used,
    reason = "writing fails only for a field name that RON cannot spell or nesting without end; every name and depth here is fixed, and a test writes each of them"
)]
pub(super) fn write(survey: &LiveSurvey) -> String {
    // The parts of a gap stand on one line each: a ledger is read down the page.
    let layout = PrettyConfig::new()
        .new_line("\n")
        .indentor("  ")
        .depth_limit(3)
        .extensions(Extensions::IMPLICIT_SOME);
    let survey = ron::Options::default()
        .to_string_pretty(&Survey::stored(survey), layout)
        .expect("every survey can be written");
    format!("{FIRST_LINE}\n{survey}\n")
}

impl Survey {
    /// The survey that the file stands for.
    ///
    /// # Errors
    /// [`ParseError::NoSuchZone`] where a gap is in a zone that is not listed.
    pub(super) fn into_live(self) -> Result<LiveSurvey, ParseError> {
        self.every_zone_exists()?;
        Ok(self.live())
    }

    /// A gap in a zone that is not listed could not be shown in the ledger.
    fn every_zone_exists(&self) -> Result<(), ParseError> {
        let zones: BTreeSet<u32> = self.zones.iter().map(|zone| zone.id.0).collect();
        match self.gaps.iter().find(|gap| !zones.contains(&gap.zone.0)) {
            Some(gap) => Err(ParseError::NoSuchZone {
                gap: gap.id.0,
                zone: gap.zone.0,
            }),
            None => Ok(()),
        }
    }
}
