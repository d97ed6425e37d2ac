//! The commands without a window: what they print, write and exit with.

use crate::invented::any_survey;
use gapledger::assess::shown::Units;
use gapledger::assess::{Assessment, assess};
use gapledger::headless::{AimWord, Command, Outcome, SetUpWord, run_to};
use gapledger::survey::file::print;
use gapledger::survey::*;
use proptest::prelude::*;
use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};
use unicode_width::UnicodeWidthStr;

/// Turns the text behind it around.
const RIGHT_TO_LEFT_OVERRIDE: char = '\u{202e}';

/// What a command printed, what it complained, and how it ended.
pub(crate) struct Run {
    pub(crate) out: String,
    pub(crate) errors: String,
    pub(crate) outcome: Outcome,
}

pub(crate) fn run(command: Command) -> Run {
    let (mut out, mut errors) = (Vec::new(), Vec::new());
    let outcome = run_to(command, &mut out, &mut errors);
    Run {
        out: String::from_utf8(out).unwrap(),
        errors: String::from_utf8(errors).unwrap(),
        outcome,
    }
}

/// A folder with one survey in it.
pub(crate) struct OnDisk {
    folder: tempfile::TempDir,
    file: PathBuf,
}

impl OnDisk {
    pub(crate) fn new(survey: &Survey) -> Self {
        Self::holding(&print(survey))
    }

    fn holding(text: &str) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("van.ron");
        fs::write(&file, text).unwrap();
        Self { folder, file }
    }

    pub(crate) fn file(&self) -> PathBuf {
        self.file.clone()
    }

    pub(crate) fn assess(&self, json: bool, set_up: Option<SetUpWord>) -> Run {
        let file = self.file.clone();
        run(Command::Assess {
            file,
            full: !json,
            json,
            set_up,
            budget: None,
            aim: Some(AimWord::AchWindy),
            units: Units::Metric,
            // As few as an interval can be made of: the draws themselves are tested elsewhere.
            draws: 100,
        })
    }

    /// The results in JSON with the best set for a budget.
    pub(crate) fn json_within(&self, budget: f64) -> Value {
        let file = self.file.clone();
        let asked = run(Command::Assess {
            file,
            full: false,
            json: true,
            set_up: None,
            budget: Some(budget),
            aim: Some(AimWord::Heat),
            units: Units::Metric,
            draws: 100,
        });
        serde_json::from_str(&asked.out).unwrap()
    }

    pub(crate) fn json(&self) -> Value {
        serde_json::from_str(&self.assess(true, None).out).unwrap()
    }

    pub(crate) fn check(&self) -> Run {
        let file = self.file.clone();
        run(Command::Check {
            file,
            strict: false,
            units: Units::Metric,
        })
    }

    pub(crate) fn gaps(&self, output: &Path) -> Run {
        let (file, output) = (self.file.clone(), output.to_owned());
        run(Command::Gaps {
            file,
            output,
            byte_order_mark: false,
        })
    }

    pub(crate) fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    fn names(&self) -> Vec<String> {
        let mut names: Vec<String> = fs::read_dir(self.folder.path())
            .unwrap()
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .collect();
        names.sort_unstable();
        names
    }
}

pub(crate) fn hole(id: u32, facing: Facing, side_mm: f64) -> Gap {
    let form = Form::RectangularHole {
        width_mm: Some(side_mm),
        height_mm: Some(side_mm),
    };
    Gap::new(GapId(id), ZoneId(1), facing, form)
}

/// A van with all its sizes and no gap.
pub(crate) fn van() -> Survey {
    let mut survey = Survey::new(VehicleKind::PanelVan);
    let vehicle = &mut survey.vehicle;
    vehicle.length_m = Some(6.0);
    vehicle.width_m = Some(2.0);
    vehicle.height_m = Some(2.6);
    vehicle.floor_height_m = Some(0.6);
    vehicle.volume_m3 = Some(14.0);
    survey
}

fn near(value: &Value, expected: f64, tolerance: f64) {
    let value = value.as_f64().unwrap();
    assert!(
        (value - expected).abs() <= tolerance,
        "{value} is not {expected} within {tolerance}"
    );
}

/// A sharp-edged hole of A = 100 × 100 mm, Cd 0.61 (BS 5925 form [R]): EqLA = 0.61 A/0.611
/// (CAN/CGSB-149.10, 10 Pa, Cd 0.611 [R]), ELA = 0.61 A (ASTM E779, 4 Pa, Cd 1 [R]).
#[test]
fn json_gives_the_areas_of_a_sharp_hole() {
    let mut survey = van();
    survey.gaps = vec![hole(1, Facing::Rear, 100.0)];
    let json = OnDisk::new(&survey).json();
    let eqla = 0.61 / 0.611 * 1e4;
    for object in [
        &json["gaps"][0],
        &json["leakage"]["unintended"],
        &json["leakage"]["all"],
    ] {
        near(&object["eqla_10pa_mm2"], eqla, 1e-8);
        near(&object["ela_4pa_mm2"], 6100.0, 1e-8);
    }
    near(&json["leakage"]["square_side_mm"], eqla.sqrt(), 1e-9);
    // An opening has the flow exponent ½ exactly.
    near(&json["leakage"]["exponent"], 0.5, 1e-12);
}

/// Two openings of 100 cm², 2 m apart, 20 °C inside and 0 °C outside, dry air: 0.008958 kg/s,
/// neutral level 0.9647 m above the lower one (API RP 500 form [S]). Both open to cavities of
/// one pressure coefficient, so that the wind that is never quite absent drives nothing. The
/// driest air that a survey may hold, 1 %, is lighter by a ten-thousandth inside: 0.06 % more.
#[test]
fn json_gives_the_flow_of_two_openings() {
    let mut survey = van();
    survey.gaps = [(1, 0.5), (2, 2.5)]
        .map(|(id, height)| {
            let mut gap = hole(id, Facing::Cavity(Cavity::Locker), 100.0);
            gap.cavity_pressure_coefficient = Some(0.0);
            gap.position.height_m = Some(height);
            gap
        })
        .to_vec();
    survey.weather.truncate(1);
    let case = &mut survey.weather[0];
    (case.outside_c, case.outside_rh_percent, case.wind_m_s) = (0.0, 1.0, 0.0);
    case.inside = InsideAir::HeldAt {
        temperature_c: 20.0,
    };
    case.inside_rh_percent = Some(1.0);
    let json = OnDisk::new(&survey).json();
    let air = &json["cases"][0]["air"];
    assert!(air.is_object(), "{}", json["cases"][0]);
    let directions = air["directions"].as_array().unwrap();
    assert_eq!(directions.len(), 16);
    for direction in directions {
        near(&direction["mass_flow_in_kg_s"], 0.008_958, 8e-6);
        near(&direction["neutral_level_m"], 0.5 + 0.9647, 1e-4);
        near(&direction["flows"][0]["mass_flow_in_kg_s"], 0.008_958, 8e-6);
        near(
            &direction["flows"][1]["mass_flow_out_kg_s"],
            0.008_958,
            8e-6,
        );
        near(&direction["flows"][0]["mass_flow_out_kg_s"], 0.0, 0.0);
    }
}

fn same(value: &Value, expected: f64) {
    near(value, expected, expected.abs() * 1e-12);
}

/// Everything in the output that has a counterpart in the assessment, held against it.
fn same_numbers(json: &Value, answers: &Assessment) {
    for (case, answer) in json["cases"].as_array().unwrap().iter().zip(&answers.cases) {
        let (air, found) = (&case["air"], answer.air.as_ref().unwrap());
        same(
            &air["ach_mean_per_h"],
            *found.mean_ach_per_h.as_ref().unwrap(),
        );
        same(&air["wind_used_m_s"], found.wind_used);
        let lowest = &found.directions[found.lowest];
        same(
            &air["ach_lowest_per_h"],
            *lowest.ach_per_h.as_ref().unwrap(),
        );
        same(&air["ach_lowest_from_front_deg"], lowest.from_front_deg);
        let highest = &found.directions[found.highest];
        same(
            &air["ach_highest_per_h"],
            *highest.ach_per_h.as_ref().unwrap(),
        );
        let check = found.cross_check.as_ref().unwrap();
        same(&air["cross_check"]["ach_per_h"], check.ach_per_h);
        for (at, direction) in found.directions.iter().enumerate() {
            let printed = &air["directions"][at];
            same(&printed["inside_pressure_pa"], direction.inside_pressure);
            same(&printed["mass_flow_out_kg_s"], direction.outflow_kg_s);
            for (gap, flow) in direction.flows.iter().enumerate() {
                let printed = &printed["flows"][gap];
                match flow {
                    Some(flow) => {
                        same(&printed["mass_flow_in_kg_s"], flow.in_kg_s);
                        same(&printed["mass_flow_out_kg_s"], flow.out_kg_s);
                    }
                    None => assert!(printed["mass_flow_in_kg_s"].is_null()),
                }
            }
        }
        let drying = answer.drying.as_ref().unwrap();
        let removal = &case["drying"]["at_set_temperature"];
        // 1 kg/s is 3.6e6 g/h and, at 1 kg to the litre, 86 400 L/day.
        let kg_s = drying.at_set_temperature.removal_kg_s;
        same(&removal["removal_g_per_h"], kg_s * 3.6e6);
        same(&removal["removal_l_per_day"], kg_s * 86_400.0);
        let guard = &answer.heat.as_ref().unwrap().frost_guard;
        let (air_w, fabric_w) = (guard.air_w, *guard.fabric_w.as_ref().unwrap());
        same(&case["heat"]["frost_guard"]["air_w"], air_w);
        same(&case["heat"]["frost_guard"]["heat_w"], air_w + fabric_w);
    }
    same(
        &json["leakage"]["n50_per_h"],
        *answers.leakage.n50_per_h.as_ref().unwrap(),
    );
    same(
        &json["season_ach_mean_per_h"],
        *answers.season_ach_per_h.as_ref().unwrap(),
    );
    same(
        &json["fabric"]["ua_w_per_k"],
        answers.fabric.as_ref().unwrap().ua_w_per_k,
    );
}

#[test]
fn json_holds_the_numbers_of_the_assessment() {
    let survey = crate::headless_page::thorough();
    let run = OnDisk::new(&survey).assess(true, None);
    assert!(run.out.starts_with("{\n  \"format\": 2,\n"));
    same_numbers(&serde_json::from_str(&run.out).unwrap(), &assess(&survey));
}

/// The flow through a closed gap that leaves 10 % is a tenth of the open one's, and so is its
/// area: areas are flows at a fixed pressure.
#[test]
fn the_set_up_asked_for_is_the_one_worked_out() {
    let mut survey = van();
    let mut gap = hole(1, Facing::Roof, 100.0);
    gap.closing = Some(Closing {
        open_in_use: true,
        ..Closing::CLOSED
    });
    survey.gaps = vec![gap];
    let disk = OnDisk::new(&survey);
    for (asked, word, area) in [
        (None, "laid_up", 0.061 / 0.611 * 1e4),
        (Some(SetUpWord::LaidUp), "laid_up", 0.061 / 0.611 * 1e4),
        (Some(SetUpWord::InUse), "in_use", 0.61 / 0.611 * 1e4),
    ] {
        let json: Value = serde_json::from_str(&disk.assess(true, asked).out).unwrap();
        assert_eq!(json["set_up"], word);
        near(&json["gaps"][0]["eqla_10pa_mm2"], area, 1e-8);
        let page = disk.assess(false, asked).out;
        let words = word.replace('_', " ");
        let first = page.lines().next().unwrap();
        assert!(first.ends_with(&format!("set-up: {words}")), "{first}");
    }
}

#[test]
fn a_file_that_cannot_be_read_is_one_sentence_and_exit_2() {
    let text = print(&van());
    let missing = OnDisk::new(&van());
    fs::remove_file(&missing.file).unwrap();
    for (disk, words) in [
        (missing, "there is no file"),
        (
            OnDisk::holding(&text.replace("format: 2", "format: 7")),
            "get a newer Gapledger",
        ),
        (OnDisk::holding(&text.replace("14", "NaN")), "line"),
        (OnDisk::holding(""), "empty"),
    ] {
        let csv = disk.path("out.csv");
        for run in [
            disk.check(),
            disk.assess(false, None),
            disk.assess(true, None),
            disk.gaps(&csv),
        ] {
            assert_eq!((run.outcome.code(), run.out.as_str()), (2, ""));
            assert!(run.errors.contains(words), "{}", run.errors);
            assert!(run.errors.starts_with("gapledger: "));
            assert_eq!(run.errors.matches('\n').count(), 1, "{}", run.errors);
        }
        assert!(!csv.exists());
    }
    let folder = tempfile::tempdir().unwrap();
    let run = run(Command::Check {
        file: folder.path().to_owned(),
        strict: false,
        units: Units::Metric,
    });
    assert_eq!(run.outcome, Outcome::Failed);
    assert!(run.errors.contains("is a folder"));
}

#[test]
fn check_prints_every_finding_and_its_advice() {
    let survey = crate::headless_page::thorough();
    let findings = assess(&survey).findings;
    let check = OnDisk::new(&survey).check().out;
    let words = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    let printed = words(&check);
    assert!(findings.len() >= 5);
    for finding in &findings {
        assert!(
            printed.contains(&words(&finding.sentence)),
            "{}",
            finding.sentence
        );
        assert!(
            printed.contains(&words(&finding.advice)),
            "{}",
            finding.advice
        );
    }
}

#[test]
fn the_ledger_is_written_whole_and_leaves_nothing_beside_it() {
    let mut survey = van();
    let mut gap = hole(3, Facing::Rear, 100.0);
    gap.name = "=cmd|' /C calc'!A0".to_owned();
    gap.note = "+1\n\"two\", three".to_owned();
    gap.damp = "@18 %".to_owned();
    survey.gaps = vec![gap];
    let disk = OnDisk::new(&survey);
    let output = disk.path("out.csv");
    fs::write(&output, "an older ledger, longer than nothing").unwrap();
    assert_eq!(disk.gaps(&output).outcome, Outcome::Fine);
    assert_eq!(disk.names(), ["out.csv", "van.ron"]);
    let mut reader = csv::Reader::from_path(&output).unwrap();
    let headers = reader.headers().unwrap().clone();
    let records: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    assert_eq!(records.len(), 1);
    let cell = |name: &str| &records[0][headers.iter().position(|h| h == name).unwrap()];
    assert_eq!(cell("gap"), "3");
    assert_eq!(cell("name"), "'=cmd|' /C calc'!A0");
    assert_eq!(cell("note"), "'+1\n\"two\", three");
    assert_eq!(cell("damp"), "'@18 %");
    assert_eq!(cell("width_mm"), "100");
    assert_eq!(cell("height_above_ground_m"), "");
    let eqla: f64 = cell("eqla_10pa_mm2").parse().unwrap();
    // The sharp hole of json_gives_the_areas_of_a_sharp_hole.
    assert!((eqla - 0.61 / 0.611 * 1e4).abs() < 1e-8);
}

#[test]
fn a_survey_is_never_overwritten_by_a_ledger() {
    let disk = OnDisk::new(&van());
    let before = fs::read(&disk.file).unwrap();
    fs::write(disk.path("other.RON"), "precious").unwrap();
    fs::create_dir(disk.path("folder.csv")).unwrap();
    let mut outputs = vec![
        "van.ron",
        "other.RON",
        "new.ron",
        "van.ron.bak",
        "folder.csv",
    ];
    #[cfg(unix)]
    {
        std::os::unix::fs::symlink(&disk.file, disk.path("link.csv")).unwrap();
        outputs.push("link.csv");
    }
    outputs.push("no/such/folder.csv");
    let names = disk.names();
    for output in outputs {
        let run = disk.gaps(&disk.path(output));
        assert_eq!(run.outcome, Outcome::Failed, "{output}");
        assert_eq!(run.errors.matches('\n').count(), 1, "{}", run.errors);
        assert_eq!(disk.names(), names, "{output}");
    }
    assert_eq!(fs::read(&disk.file).unwrap(), before);
    assert_eq!(
        fs::read_to_string(disk.path("other.RON")).unwrap(),
        "precious"
    );
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// Whatever a file may hold: nothing panics, the page keeps its margins and steers no
    /// terminal, the JSON is JSON, and the CSV has a line for each gap and no live formula.
    #[test]
    fn any_survey_can_be_printed(survey in any_survey()) {
        let disk = OnDisk::new(&survey);
        let page = disk.assess(false, None);
        prop_assert!(page.outcome != Outcome::Failed, "{}", page.errors);
        for text in [&page.out, &disk.check().out] {
            prop_assert!(!text.chars().any(|c| c.is_control() && c != '\n'));
            prop_assert!(!text.contains(RIGHT_TO_LEFT_OVERRIDE), "it turns the text");
        }
        for line in page.out.lines() {
            prop_assert!(line.width() <= 100, "too long: {line}");
        }
        let json = disk.json();
        prop_assert_eq!(json["gaps"].as_array().unwrap().len(), survey.gaps.len());
        let output = disk.path("out.csv");
        prop_assert!(disk.gaps(&output).outcome != Outcome::Failed);
        let mut reader = csv::Reader::from_path(&output).unwrap();
        let mut lines = 0;
        for record in reader.records() {
            lines += 1;
            for cell in record.unwrap().iter() {
                let live = cell.starts_with(['=', '+', '-', '@', '\t', '\r']);
                prop_assert!(!live || cell.parse::<f64>().is_ok(), "{cell:?}");
            }
        }
        prop_assert_eq!(lines, survey.gaps.len());
    }
}
