//! Format 1, frozen: what it reads and writes never changes again. A later format is a module
//! of its own beside this one, and this one then converts to it.
//!
//! Every struct here refuses fields it does not know. A field that may be left out says what is
//! then taken; those values belong to the format and stand here as plain numbers, so that a
//! later change of what a *new* survey starts with does not change old files.

mod equipment;
mod fabric;
mod gap;
mod ids;
mod live;
mod site;
mod space;
mod stored;

use super::error::ParseError;
use super::limits::reading;
use super::misread;
use crate::survey::Survey as LiveSurvey;
use equipment::{Fan, Heater, Machine, MoistureSource};
use fabric::FabricElement;
use gap::{Gap, Zone};
use ron::extensions::Extensions;
use ron::ser::PrettyConfig;
use serde::{Deserialize, Serialize};
use site::{Appliance, Drying, Header, SetUp, Site, Targets, Tariffs, Vehicle, WeatherCase};
use space::{InnerOpening, Space};
use std::collections::BTreeSet;
use stored::{Number, Stored, list};

/// A whole survey file.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Survey {
    /// Always 1 here.
    format: u32,
    #[serde(default, skip_serializing_if = "Header::is_empty")]
    header: Header,
    vehicle: Vehicle,
    #[serde(default)]
    site: Site,
    #[serde(default)]
    targets: Targets,
    #[serde(default)]
    tariffs: Tariffs,
    #[serde(default)]
    drying: Drying,
    #[serde(default = "SetUp::laid_up")]
    set_up: SetUp,
    #[serde(default = "gap::usual_zones", deserialize_with = "list")]
    zones: Vec<Zone>,
    #[serde(default, deserialize_with = "list")]
    gaps: Vec<Gap>,
    #[serde(default = "site::usual_weather", deserialize_with = "list")]
    weather: Vec<WeatherCase>,
    #[serde(
        default,
        deserialize_with = "list",
        skip_serializing_if = "Vec::is_empty"
    )]
    fabric: Vec<FabricElement>,
    #[serde(
        default,
        deserialize_with = "list",
        skip_serializing_if = "Vec::is_empty"
    )]
    appliances: Vec<Appliance>,
    #[serde(
        default,
        deserialize_with = "list",
        skip_serializing_if = "Vec::is_empty"
    )]
    machines: Vec<Machine>,
    #[serde(
        default,
        deserialize_with = "list",
        skip_serializing_if = "Vec::is_empty"
    )]
    heaters: Vec<Heater>,
    #[serde(
        default,
        deserialize_with = "list",
        skip_serializing_if = "Vec::is_empty"
    )]
    fans: Vec<Fan>,
    #[serde(
        default,
        deserialize_with = "list",
        skip_serializing_if = "Vec::is_empty"
    )]
    sources: Vec<MoistureSource>,
    #[serde(
        default,
        deserialize_with = "list",
        skip_serializing_if = "Vec::is_empty"
    )]
    spaces: Vec<Space>,
    #[serde(
        default,
        deserialize_with = "list",
        skip_serializing_if = "Vec::is_empty"
    )]
    inner_openings: Vec<InnerOpening>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    leakage_not_found_percent: Option<Number>,
}

/// Reads a file of format 1.
pub(super) fn read(text: &str) -> Result<LiveSurvey, ParseError> {
    let survey: Survey = reading()
        .from_str(text)
        .map_err(|error| misread::parse_error(text, &error))?;
    every_zone_exists(&survey)?;
    Ok(survey.into_live())
}

/// A gap in a zone that is not listed could not be shown in the ledger.
fn every_zone_exists(survey: &Survey) -> Result<(), ParseError> {
    let zones: BTreeSet<u32> = survey.zones.iter().map(|zone| zone.id.0).collect();
    match survey.gaps.iter().find(|gap| !zones.contains(&gap.zone.0)) {
        Some(gap) => Err(ParseError::NoSuchZone {
            gap: gap.id.0,
            zone: gap.zone.0,
        }),
        None => Ok(()),
    }
}

/// Writes a file of format 1.
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
    let mut text = ron::Options::default()
        .to_string_pretty(&Survey::from_live(survey), layout)
        .expect("every survey can be written");
    text.push('\n');
    text
}

impl Survey {
    fn into_live(self) -> LiveSurvey {
        LiveSurvey {
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
            machines: self.machines.live(),
            heaters: self.heaters.live(),
            fans: self.fans.live(),
            sources: self.sources.live(),
            spaces: self.spaces.live(),
            inner_openings: self.inner_openings.live(),
            leakage_not_found_percent: self.leakage_not_found_percent.live(),
        }
    }

    fn from_live(live: &LiveSurvey) -> Self {
        Self {
            format: 1,
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
