//! Format 2: what is written. It is open for new fields until it is frozen, as format 1 is.
//!
//! A record that has not changed since format 1 is that of [`super::v1`]; one that changes moves
//! here, and its former self stays in `v1/replaced.rs` to be read. What a field that is left out
//! stands for is said here in plain numbers, so that a later change of what a *new* survey starts
//! with does not change old files.

mod equipment;
mod gap;
mod vehicle;
mod weather;

use super::error::ParseError;
use super::limits::reading;
use super::misread;
use super::stored::{Number, Stored, list};
use super::v1::equipment::{Heater, MoistureSource};
use super::v1::fabric::FabricElement;
use super::v1::gap::{Zone, usual_zones};
use super::v1::site::{Drying, Header, SetUp, Targets, Tariffs, WeatherCase};
use super::v1::space::{InnerOpening, Space};
use crate::survey::Survey as LiveSurvey;
pub(super) use equipment::{Fan, Machine};
pub(super) use gap::{Gap, GapPart, Purpose, Remedy, RemedyKind};
use ron::extensions::Extensions;
use ron::ser::PrettyConfig;
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;
pub(super) use vehicle::{Appliance, CodeOfPractice, PressureSet, Site, Underside, Vehicle};
use weather::usual_weather;

/// The line that a file begins with, so that it is known for a survey before it is read.
const FIRST_LINE: &str = "// Gapledger survey";

/// A whole survey file.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Survey {
    /// Always 2 here.
    pub(super) format: u32,
    #[serde(default, skip_serializing_if = "Header::is_empty")]
    pub(super) header: Header,
    pub(super) vehicle: Vehicle,
    #[serde(default)]
    pub(super) site: Site,
    #[serde(default)]
    pub(super) targets: Targets,
    #[serde(default)]
    pub(super) tariffs: Tariffs,
    #[serde(default)]
    pub(super) drying: Drying,
    #[serde(default = "SetUp::laid_up")]
    pub(super) set_up: SetUp,
    #[serde(default = "usual_zones", deserialize_with = "list")]
    pub(super) zones: Vec<Zone>,
    #[serde(default, deserialize_with = "list")]
    pub(super) gaps: Vec<Gap>,
    #[serde(default = "usual_weather", deserialize_with = "list")]
    pub(super) weather: Vec<WeatherCase>,
    #[serde(
        default,
        deserialize_with = "list",
        skip_serializing_if = "Vec::is_empty"
    )]
    pub(super) fabric: Vec<FabricElement>,
    #[serde(
        default,
        deserialize_with = "list",
        skip_serializing_if = "Vec::is_empty"
    )]
    pub(super) appliances: Vec<Appliance>,
    #[serde(default)]
    pub(super) appliances_confirmed: bool,
    #[serde(
        default,
        deserialize_with = "list",
        skip_serializing_if = "Vec::is_empty"
    )]
    pub(super) machines: Vec<Machine>,
    #[serde(
        default,
        deserialize_with = "list",
        skip_serializing_if = "Vec::is_empty"
    )]
    pub(super) heaters: Vec<Heater>,
    #[serde(
        default,
        deserialize_with = "list",
        skip_serializing_if = "Vec::is_empty"
    )]
    pub(super) fans: Vec<Fan>,
    #[serde(
        default,
        deserialize_with = "list",
        skip_serializing_if = "Vec::is_empty"
    )]
    pub(super) sources: Vec<MoistureSource>,
    #[serde(
        default,
        deserialize_with = "list",
        skip_serializing_if = "Vec::is_empty"
    )]
    pub(super) spaces: Vec<Space>,
    #[serde(
        default,
        deserialize_with = "list",
        skip_serializing_if = "Vec::is_empty"
    )]
    pub(super) inner_openings: Vec<InnerOpening>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) leakage_not_found_percent: Option<Number>,
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
        .to_string_pretty(&Survey::from_live(survey), layout)
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
        Ok(LiveSurvey {
            header: self.header.live(),
            vehicle: self.vehicle.live(),
            site: self.site.live(),
            targets: self.targets.live(),
            tariffs: self.tariffs.live(),
            drying: self.drying.live(),
            set_up: self.set_up.live(),
            zones: self.zones.live(),
            gaps: self.gaps.live(),
            weather: self.weather.live(),
            fabric: self.fabric.live(),
            appliances: self.appliances.live(),
            appliances_confirmed: self.appliances_confirmed,
            machines: self.machines.live(),
            heaters: self.heaters.live(),
            fans: self.fans.live(),
            sources: self.sources.live(),
            spaces: self.spaces.live(),
            inner_openings: self.inner_openings.live(),
            leakage_not_found_percent: self.leakage_not_found_percent.live(),
        })
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

    fn from_live(live: &LiveSurvey) -> Self {
        Self {
            format: 2,
            header: Stored::stored(&live.header),
            vehicle: Stored::stored(&live.vehicle),
            site: Stored::stored(&live.site),
            targets: Stored::stored(&live.targets),
            tariffs: Stored::stored(&live.tariffs),
            drying: Stored::stored(&live.drying),
            set_up: Stored::stored(&live.set_up),
            zones: Stored::stored(&live.zones),
            gaps: Stored::stored(&live.gaps),
            weather: Stored::stored(&live.weather),
            fabric: Stored::stored(&live.fabric),
            appliances: Stored::stored(&live.appliances),
            appliances_confirmed: live.appliances_confirmed,
            machines: Stored::stored(&live.machines),
            heaters: Stored::stored(&live.heaters),
            fans: Stored::stored(&live.fans),
            sources: Stored::stored(&live.sources),
            spaces: Stored::stored(&live.spaces),
            inner_openings: Stored::stored(&live.inner_openings),
            leakage_not_found_percent: Stored::stored(&live.leakage_not_found_percent),
        }
    }
}
