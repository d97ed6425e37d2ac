//! What the commands exit with.

use crate::headless::{OnDisk, hole, run, van};
use gapledger::headless::{Command, Outcome};
use gapledger::survey::*;

#[test]
fn exit_codes_tell_fine_from_errors() {
    let mut survey = van();
    survey.gaps = vec![hole(1, Facing::Rear, 100.0)];
    let fine = OnDisk::new(&survey);
    for run in [
        fine.check(),
        fine.assess(false, None),
        fine.assess(true, None),
    ] {
        assert_eq!((run.outcome.code(), run.errors.as_str()), (0, ""));
    }
    survey.vehicle.width_m = Some(-2.0);
    let wrong = OnDisk::new(&survey);
    let check = wrong.check();
    assert!(
        check.out.starts_with("ERROR    the vehicle, width_m\n"),
        "{}",
        check.out
    );
    assert!(check.out.trim_end().ends_with("."));
    // What can be given is still printed.
    let page = wrong.assess(false, None);
    let words: Vec<&str> = page.out.split_whitespace().collect();
    assert!(words.join(" ").contains("EqLA 99.8 cm²"), "{}", page.out);
    let csv = wrong.gaps(&wrong.path("out.csv"));
    for run in [check, page, wrong.assess(true, None), csv] {
        assert_eq!((run.outcome.code(), run.errors.as_str()), (1, ""));
    }
}

/// A van with a hob and no ventilator at all: somebody could be hurt, whatever else is wrong.
#[test]
fn a_danger_exits_3_from_every_command_and_outranks_errors() {
    let mut survey = van();
    survey.gaps = vec![hole(1, Facing::Rear, 100.0)];
    survey.appliances.push(Appliance {
        id: ApplianceId(1),
        kind: ApplianceKind::Hob,
        name: String::new(),
        room_sealed: false,
        input_mj_per_h: None,
    });
    for (confirmed, volume) in [(true, 14.0), (false, 14.0), (true, -3.0)] {
        survey.appliances_confirmed = confirmed;
        survey.vehicle.volume_m3 = Some(volume);
        let disk = OnDisk::new(&survey);
        let check = disk.check();
        assert!(check.out.contains("DANGER"), "{}", check.out);
        let csv = disk.gaps(&disk.path("out.csv"));
        for run in [
            check,
            disk.assess(false, None),
            disk.assess(true, None),
            csv,
        ] {
            assert_eq!(
                (run.outcome, run.outcome.code()),
                (Outcome::SurveyHasDangers, 3)
            );
        }
    }
}

#[test]
fn only_a_strict_check_counts_warnings() {
    let mut survey = van();
    survey.gaps = vec![hole(1, Facing::Rear, 100.0)];
    let disk = OnDisk::new(&survey);
    let check = |strict| {
        let file = disk.file();
        let units = gapledger::assess::shown::Units::Metric;
        run(Command::Check {
            file,
            strict,
            units,
        })
        .outcome
        .code()
    };
    assert_eq!((check(false), check(true)), (0, 1));
}

/// What the window asks of its own program, asked by somebody who has nothing to send.
#[test]
fn a_typesetter_without_an_order_says_so_and_exits_2() {
    let told = std::process::Command::new(env!("CARGO_BIN_EXE_gapledger"))
        .arg("set-pages")
        .stdin(std::process::Stdio::null())
        .output()
        .unwrap();
    let errors = String::from_utf8(told.stderr).unwrap();
    assert_eq!((told.status.code(), told.stdout.len()), (Some(2), 0));
    assert!(
        errors.starts_with("gapledger: no sheet was set, because what was asked did not come"),
        "{errors}"
    );
}
