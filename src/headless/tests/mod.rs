//! What the commands print and exit with.

mod doors;
mod in_short;
mod room;
mod walk;

use super::asked::sum_of_money;
use super::*;

/// An output that fails in a given way.
struct Fails(io::ErrorKind);

impl Write for Fails {
    fn write(&mut self, _: &[u8]) -> io::Result<usize> {
        Err(self.0.into())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

#[test]
fn a_reader_who_leaves_changes_nothing() {
    let mut errors = Vec::new();
    let mut gone = Fails(io::ErrorKind::BrokenPipe);
    for outcome in [Outcome::Fine, Outcome::SurveyHasDangers] {
        assert_eq!(print(b"text", outcome, &mut gone, &mut errors), outcome);
    }
    assert!(errors.is_empty());
}

#[test]
fn a_full_disk_behind_the_output_is_said() {
    let mut errors = Vec::new();
    let mut full = Fails(io::ErrorKind::StorageFull);
    let outcome = print(b"text", Outcome::Fine, &mut full, &mut errors);
    assert_eq!(outcome, Outcome::Failed);
    assert!(String::from_utf8_lossy(&errors).contains("could not be printed"));
}

#[test]
fn a_budget_is_a_number_from_nothing_up() {
    assert_eq!(sum_of_money("150"), Ok(150.0));
    assert_eq!(sum_of_money("99,5"), Ok(99.5));
    for text in ["nan", "inf", "-5", "much", ""] {
        assert!(sum_of_money(text).is_err(), "{text}");
    }
}

fn finding(severity: Severity) -> Finding {
    Finding {
        severity,
        place: crate::survey::Place::whole(crate::survey::Item::Vehicle),
        sentence: String::new(),
        advice: String::new(),
    }
}

#[test]
fn dangers_outrank_errors_and_only_a_strict_check_counts_warnings() {
    use Severity::{Danger, Error, Note, Warning};
    for (severities, code, strict) in [
        (vec![], 0, 0),
        (vec![Note], 0, 0),
        (vec![Warning, Note], 0, 1),
        (vec![Error, Warning], 1, 1),
        (vec![Danger], 3, 3),
        (vec![Error, Danger, Warning], 3, 3),
    ] {
        let found: Vec<Finding> = severities.iter().copied().map(finding).collect();
        assert_eq!(Outcome::of(&found).code(), code, "{severities:?}");
        assert_eq!(
            Outcome::strictly_of(&found).code(),
            strict,
            "{severities:?}"
        );
    }
}
