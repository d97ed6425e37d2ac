//! Format 1, frozen: what it reads never changes again. Nothing is written in it any more; what
//! was read becomes a survey of format 2.
//!
//! Every struct here refuses fields it does not know. A field that may be left out says what is
//! then taken; those values belong to the format and stand here as plain numbers, so that a
//! later change of what a *new* survey starts with does not change old files.

pub(super) mod equipment;
pub(super) mod fabric;
pub(super) mod gap;
pub(super) mod ids;
mod later;
mod replaced;
pub(super) mod site;
pub(super) mod space;

use super::error::ParseError;
use super::limits::reading;
use super::misread;
use super::stored::{Number, list};
use super::v2;
use equipment::MoistureSource;
use fabric::FabricElement;
use gap::Zone;
use later::{Later, replaced};
use replaced::{Appliance, Fan, Gap, Heater, Machine, Site, Tariffs, Vehicle};
use site::{Drying, Header, SetUp, Targets, WeatherCase};
use space::{InnerOpening, Space};

replaced! {
    /// A whole survey file.
    Survey {
        format: u32,
        #[serde(default)]
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
        #[serde(default, deserialize_with = "list")]
        fabric: Vec<FabricElement>,
        #[serde(default, deserialize_with = "list")]
        appliances: Vec<Appliance>,
        #[serde(default, deserialize_with = "list")]
        machines: Vec<Machine>,
        #[serde(default, deserialize_with = "list")]
        heaters: Vec<Heater>,
        #[serde(default, deserialize_with = "list")]
        fans: Vec<Fan>,
        #[serde(default, deserialize_with = "list")]
        sources: Vec<MoistureSource>,
        #[serde(default, deserialize_with = "list")]
        spaces: Vec<Space>,
        #[serde(default, deserialize_with = "list")]
        inner_openings: Vec<InnerOpening>,
        #[serde(default)]
        leakage_not_found_percent: Option<Number>,
    }
    new {
        appliances_confirmed: false,
        fittings: None,
        job: v2::Job::default(),
        stay: v2::Stay::default(),
        usual: v2::Usual::default(),
        walk: Vec::new(),
        fan_tests: Vec::new(),
        air_tests: Vec::new(),
        calibrated: true,
        series: Vec::new(),
        trials: Vec::new(),
    }
}

/// Reads a file of format 1, as one of format 2.
pub(super) fn read(text: &str) -> Result<v2::Survey, ParseError> {
    let survey: Survey = reading()
        .from_str(text)
        .map_err(|error| misread::parse_error(text, &error))?;
    Ok(v2::Survey {
        format: 2,
        ..survey.later()
    })
}
