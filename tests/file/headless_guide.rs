//! The description of the JSON output lists every key that is printed, with its type, and none
//! that never is.

use crate::headless::{OnDisk, hole, run, van};
use crate::headless_page::thorough;
use crate::known;
use gapledger::assess::shown::Units;
use gapledger::headless::{Command, WinterArguments};
use gapledger::survey::file::parse;
use gapledger::survey::{
    AirReading, AirTest, AirTestId, Closing, Facing, FanReading, FanTest, FanTestId, Form,
    InnerOpening, InnerOpeningId, Purpose, Space, SpaceId, Survey, VehicleKind, WorkState,
};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

const KEYS: &str = include_str!("../../src/headless/json/keys.md");

/// Key → what it is, from the tables of the description.
fn documented() -> BTreeMap<&'static str, &'static str> {
    let mut keys = BTreeMap::new();
    for line in KEYS.lines() {
        let Some(row) = line.strip_prefix("| `") else {
            continue;
        };
        let (key, rest) = row.split_once("` | ").unwrap();
        let (is, _) = rest.split_once(" | ").unwrap();
        assert!(keys.insert(key, is).is_none(), "{key} is listed twice");
    }
    keys
}

struct Walk {
    documented: BTreeMap<&'static str, &'static str>,
    seen: BTreeSet<String>,
}

impl Walk {
    fn object(&mut self, prefix: &str, value: &Value) {
        let object = value.as_object().unwrap();
        for (key, value) in object {
            let base = key
                .strip_suffix("_not_known")
                .filter(|base| object.contains_key(*base));
            if let Some(base) = base {
                assert!(
                    object[base].is_null(),
                    "{prefix}{base} is known and not known"
                );
                assert!(
                    !value.as_str().unwrap().is_empty(),
                    "{prefix}{key} gives no reason"
                );
                continue;
            }
            let path = format!("{prefix}{key}");
            let has_reason = object.contains_key(&format!("{key}_not_known"));
            self.key(&path, value, has_reason);
        }
    }

    fn key(&mut self, path: &str, value: &Value, has_reason: bool) {
        let Some(&is) = self.documented.get(path) else {
            panic!("{path} is printed but not in keys.md");
        };
        self.seen.insert(path.to_owned());
        if value.is_null() {
            let allowed = if has_reason {
                "or not known"
            } else {
                "or null"
            };
            assert!(is.ends_with(allowed), "{path} is null, but listed as {is}");
            return;
        }
        let kind = is.trim_end_matches(", or not known");
        let kind = kind
            .trim_end_matches(" or not known")
            .trim_end_matches(" or null");
        let fits = match kind {
            "number" => value.is_number(),
            "integer" => value.is_u64(),
            "text" | "choice" => value.is_string(),
            "true or false" => value.is_boolean(),
            "object" => value.is_object(),
            "list" | "list of integers" | "list of texts" => value.is_array(),
            shapes if shapes.starts_with("list of → ") => value.is_array(),
            shape => shape.starts_with("→ ") && value.is_object(),
        };
        assert!(fits, "{path} is listed as {is}, but is {value}");
        match value {
            Value::Object(_) => {
                let prefix = kind.strip_prefix("→ ").unwrap_or(path);
                self.object(&format!("{prefix}."), value);
            }
            Value::Array(members) => {
                let shape = kind.strip_prefix("list of → ").map(str::to_owned);
                let prefix = shape.unwrap_or_else(|| format!("{path}[]"));
                for member in members.iter().filter(|member| member.is_object()) {
                    self.object(&format!("{prefix}."), member);
                }
            }
            _ => {}
        }
    }
}

/// Two spaces with a curtain between them, leakage not found, gaps ticked rightly and wrongly.
fn decided() -> Survey {
    let mut survey = van();
    survey.leakage_not_found_percent = Some(20.0);
    survey.site.prevailing_wind_deg = Some(225.0);
    survey.spaces = [(1, "living space"), (2, "cab")]
        .map(|(id, name)| Space {
            id: SpaceId(id),
            name: name.to_owned(),
            volume_m3: Some(5.0),
            warmer_by_k: 0.0,
        })
        .into();
    let form = Form::RoundHole {
        diameter_mm: Some(500.0),
    };
    let mut curtain = InnerOpening::new(InnerOpeningId(1), SpaceId(1), SpaceId(2), form);
    curtain.closing = Some(Closing::CLOSED);
    survey.inner_openings = vec![curtain];
    let mut cab = hole(98, Facing::Front, 60.0);
    cab.space = Some(SpaceId(2));
    cab.state = WorkState::Planned;
    cab.damp = "22 %".to_owned();
    let mut vent = hole(99, Facing::Roof, 40.0);
    vent.purpose = Purpose::GasDropOut;
    vent.state = WorkState::Planned;
    survey.gaps.extend([cab, vent]);
    survey
}

/// Surveys that together bring every key to light.
fn surveys() -> Vec<Survey> {
    let mut surveys = vec![
        Survey::new(VehicleKind::Other),
        thorough(),
        van(),
        known::newest(),
    ];
    // Too little safety ventilation: the shares are printed.
    let mut below = van();
    below.appliances = thorough().appliances;
    below.appliances_confirmed = true;
    below.gaps = vec![hole(1, Facing::Rear, 20.0)];
    surveys.push(below);
    surveys.push(decided());
    surveys.extend(
        [
            include_str!("../../sample-surveys/farmyard-caravan.ron"),
            include_str!("../../sample-surveys/street-panel-van.ron"),
            include_str!("../../sample-surveys/vineyard-coachbuilt.ron"),
        ]
        .map(|text| parse(text).unwrap()),
    );
    // A gap in the plan: the comparison is printed once more.
    let mut planned = parse(include_str!("../../sample-surveys/farmyard-caravan.ron")).unwrap();
    let gap = planned
        .gaps
        .iter_mut()
        .find(|gap| gap.purpose == Purpose::Unintended);
    gap.unwrap().state = WorkState::Planned;
    surveys.push(planned);
    surveys.push(measured());
    surveys
}

/// Fan tests and tests of the air change, one of each that weighs in the results and one that lacks its
/// readings.
fn measured() -> Survey {
    let mut survey = parse(include_str!("../../sample-surveys/farmyard-caravan.ron")).unwrap();
    let lacking = FanTest::new(FanTestId(1), survey.set_up);
    let mut whole = FanTest::new(FanTestId(2), survey.set_up);
    (whole.inside_c, whole.outside_c) = (Some(12.0), Some(8.0));
    whole.blowing_out.zero_before_pa = Some(0.0);
    let points = [10.0_f64, 20.0, 30.0, 40.0, 50.0, 60.0];
    whole.blowing_out.readings = points
        .map(|pressure| FanReading {
            pressure_pa: Some(pressure),
            flow_m3_per_h: Some(60.0 * pressure.powf(0.6)),
        })
        .into();
    let mut other = whole.clone();
    other.id = FanTestId(3);
    for reading in &mut other.blowing_out.readings {
        reading.flow_m3_per_h = reading.flow_m3_per_h.map(|flow| 2.5 * flow);
    }
    survey.fan_tests = vec![lacking, whole, other];
    let mut air = AirTest::new(AirTestId(1), survey.set_up);
    (air.inside_c, air.outside_c) = (Some(12.0), Some(8.0));
    (air.wind_m_s, air.background) = (Some(2.0), Some(420.0));
    let readings = [(0.0, 2600.0), (30.0, 1850.0), (60.0, 1210.0), (90.0, 870.0)];
    air.readings = readings
        .map(|(minutes, value)| AirReading {
            minutes: Some(minutes),
            value: Some(value),
        })
        .into();
    let lacking = AirTest::new(AirTestId(2), survey.set_up);
    survey.air_tests = vec![air, lacking];
    survey
}

/// Surveys with a short winter that bring every key of a winter to light.
fn winters() -> [(Survey, Option<u32>); 2] {
    let mut plain = parse(include_str!("../../sample-surveys/farmyard-caravan.ron")).unwrap();
    plain.stay.season_first = "12-01".to_owned();
    plain.stay.season_last = "12-14".to_owned();
    for gap in &mut plain.gaps {
        if gap.state == WorkState::Planned {
            gap.state = WorkState::Open;
        }
    }
    let mut planned = plain.clone();
    let gap = planned
        .gaps
        .iter_mut()
        .find(|gap| gap.purpose == Purpose::Unintended);
    gap.unwrap().state = WorkState::Planned;
    [(plain, None), (planned, Some(2))]
}

fn winter(survey: &Survey, draws: Option<u32>) -> Value {
    winter_of(&OnDisk::new(survey), draws)
}

fn winter_of(on_disk: &OnDisk, draws: Option<u32>) -> Value {
    let found = run(Command::Winter(WinterArguments {
        draws,
        json: true,
        ..WinterArguments::of(on_disk.file())
    }));
    serde_json::from_str(&found.out).unwrap()
}

#[test]
fn every_key_is_documented_and_every_documented_key_is_printed() {
    let mut walk = Walk {
        documented: documented(),
        seen: BTreeSet::new(),
    };
    assert!(walk.documented.len() > 150);
    for survey in surveys() {
        walk.object("", &OnDisk::new(&survey).json_within(80.0));
    }
    // The files of its loggers stand beside this one.
    let found = run(Command::Assess {
        file: Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-surveys/orchard-trial.ron"),
        full: false,
        json: true,
        set_up: None,
        budget: None,
        aim: None,
        units: Units::Metric,
        draws: 0,
    });
    let tried: Value = serde_json::from_str(&found.out).unwrap();
    // Of the trade [C]: a tub does nothing that shows, a compressor of 280 W gathers about three litres
    // in four days and brings some 85 to about 60 %.
    let methods = &tried["measured"]["trials"][0]["methods"];
    assert_eq!(methods[0]["effect"]["shown"], false, "{methods}");
    let fall = methods[1]["effect"]["humidity_percent"]["value"].as_f64();
    assert!((-40.0..-15.0).contains(&fall.unwrap()), "{methods}");
    walk.object("", &tried);
    for (survey, draws) in winters() {
        walk.object("winter.", &winter(&survey, draws));
    }
    walk.object("winter.", &winter_of(&crate::winter::measured(), None));
    let never: Vec<&&str> = walk
        .documented
        .keys()
        .filter(|key| !walk.seen.contains(**key))
        .collect();
    assert!(
        never.is_empty(),
        "listed in keys.md but never printed: {never:?}"
    );
}

/// An empty survey: everything that depends on a size or a gap is null with its reason.
#[test]
fn an_empty_survey_has_nothing_but_unknowns() {
    let json = OnDisk::new(&Survey::new(VehicleKind::Other)).json();
    for (object, key) in [
        (&json["vehicle"], "gross_volume_m3"),
        (&json["vehicle"], "length_m"),
        (&json["leakage"], "n50_per_h"),
        (&json["leakage"], "exponent"),
        (&json["cases"][0], "air"),
        (&json["cases"][0], "drying"),
        (&json["cases"][0], "heat"),
        (&json, "season_ach_mean_per_h"),
        (&json["safety_ventilation"], "verdict"),
    ] {
        assert!(object[key].is_null(), "{key} is {}", object[key]);
        assert!(
            object[format!("{key}_not_known")].is_string(),
            "{key} has no reason"
        );
    }
}
