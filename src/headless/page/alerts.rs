//! Findings, one by one, for `check`.

use super::layout::Page;
use super::print;
use crate::assess::Mark;
use crate::assess::shown::Shown;
use crate::report::findings::{about, counts, worst_first};
use crate::report::shown;
use crate::survey::Finding;

/// All findings, one to a block.
pub(in crate::headless) fn blocks(findings: &[Finding], shown: &Shown) -> String {
    let mut page = Page::default();
    for finding in worst_first(findings) {
        let finding = &shown::finding(finding, shown);
        print::finding(&mut page, finding, Some(&place(finding)));
        page.blank();
    }
    let all = findings
        .iter()
        .map(|one| [&*one.sentence, &*one.advice].concat());
    if let Some(legend) = Mark::legend_of(&all.collect::<String>()) {
        page.paragraph(&format!("{legend}."));
        page.blank();
    }
    page.line(format!("{}.", counts(findings)));
    page.finish()
}

/// Where a finding is, with the name of the field as in the survey file.
fn place(finding: &Finding) -> String {
    let item = about(finding.place.item);
    match finding.place.field {
        None => item,
        Some(field) => format!("{item}, {}", field.key()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::{Field, GapId, Item, Place, Severity};

    fn finding(severity: Severity, sentence: &str) -> Finding {
        Finding {
            severity,
            place: Place::at(Item::Gap(GapId(7)), Field::GapWidth),
            sentence: sentence.to_owned(),
            advice: "measure it".to_owned(),
        }
    }

    #[test]
    fn blocks_start_with_danger_and_end_with_counts() {
        let findings = [
            finding(Severity::Error, "first recorded"),
            finding(Severity::Note, "last"),
            finding(Severity::Danger, "could hurt"),
        ];
        let expected = "\
DANGER   gap 7, gap_width_mm
         could hurt
       → measure it

ERROR    gap 7, gap_width_mm
         first recorded
       → measure it

NOTE     gap 7, gap_width_mm
         last
       → measure it

1 danger, 1 error, no warnings, 1 note.
";
        assert_eq!(blocks(&findings, &Shown::default()), expected);
    }

    #[test]
    fn marks_in_findings_are_explained_before_the_counts() {
        let findings = [finding(Severity::Danger, "below its table, as relayed [R]")];
        let text = blocks(&findings, &Shown::default());
        let end = "\
Marks behind a source: [R] read in a text that relays the source.

1 danger, no errors, no warnings, no notes.
";
        assert!(text.ends_with(end), "{text}");
    }
}
