//! Before and after the work.

use super::Material;
use super::blocks::{Align, Block, Reasons, Section, Table};
use super::cases::{ach, litres as removal, watts as heat};
use super::ledger::remedy;
use super::measured::by_test;
use super::plan::change;
use super::words::{CM2, interval, money, name, place};
use crate::assess::sealing::{Plan, Sealable, plan};
use crate::assess::uncertainty::{Interval, Uncertainty};
use crate::assess::words::{self, counted, total_figure};
use crate::assess::{Answer, Assessment, CaseAnswer, NotKnown, assess};
use crate::survey::{Gap, GapId, Survey, WeatherId, WorkState};

/// The gaps that are sealed and may be.
pub(crate) fn sealed(survey: &Survey) -> Vec<GapId> {
    done(survey).map(|gap| gap.id).collect()
}

fn done(survey: &Survey) -> impl Iterator<Item = &Gap> {
    let gaps = survey.gaps.iter();
    gaps.filter(|gap| gap.state == WorkState::Sealed && !gap.purpose.must_stay_open())
}

/// Openings that protect people and were sealed nevertheless.
fn wrongly_sealed(survey: &Survey) -> Vec<String> {
    let gaps = survey.gaps.iter();
    gaps.filter(|gap| gap.state == WorkState::Sealed && gap.purpose.must_stay_open())
        .map(|gap| format!("gap {} “{}”", gap.id, name(gap)))
        .collect()
}

/// The survey as it was before anything was sealed.
#[must_use]
pub fn before_the_work(survey: &Survey) -> Survey {
    opened(survey, |_| true)
}

/// The survey as it is now. What must be opened again at once counts as open.
#[must_use]
pub fn after_the_work(survey: &Survey) -> Survey {
    opened(survey, |gap| gap.purpose.must_stay_open())
}

fn opened(survey: &Survey, which: impl Fn(&Gap) -> bool) -> Survey {
    let mut survey = survey.clone();
    for gap in &mut survey.gaps {
        if gap.state == WorkState::Sealed && which(gap) {
            gap.state = WorkState::Open;
        }
    }
    survey
}

/// What the work came to: the survey before it, with all that is sealed now as its plan.
fn work(survey: &Survey) -> Answer<Plan> {
    let before = before_the_work(survey);
    let sealables: Result<Vec<Sealable>, NotKnown> = sealed(survey)
        .into_iter()
        .map(|id| {
            Sealable::of(&before, id).map_err(|why| NotKnown::because(format!("gap {id}: {why}")))
        })
        .collect();
    plan(&before, &sealables?)
}

pub(crate) fn section(material: &Material<'_>) -> Section {
    let survey = material.survey;
    let mut section = Section::new("What was done");
    let wrong = wrongly_sealed(survey);
    if survey.gaps.is_empty() {
        section.paragraph("No gaps are written down yet.");
        return section;
    }
    if done(survey).next().is_none() {
        section.paragraph(if wrong.is_empty() {
            "No gap is marked as sealed yet: there is nothing to compare."
        } else {
            "No gap that may be sealed is marked as sealed yet: there is nothing to compare."
        });
        return section;
    }
    let sides = Sides {
        before: assess(&before_the_work(survey)),
        after: assess(&after_the_work(survey)),
        uncertainty_before: material.uncertainty_before,
        uncertainty_after: material.uncertainty,
    };
    section.push(Block::Plain {
        sentences: sides.in_plain_words(survey),
    });
    section.heading("Before and after");
    let mut reasons = Reasons::default();
    let table = sides.table(survey, &mut reasons);
    section.table(table, &reasons);
    section.note(small_print(&sides, &wrong));
    section.heading("Gaps that were sealed");
    section.table(gaps(survey), &Reasons::default());
    if let Some(words) = by_test(done(survey)) {
        section.note(words);
    }
    remaining(&mut section, survey);
    section
}

fn gaps(survey: &Survey) -> Table {
    let mut table = Table::default()
        .column("Gap", Align::Right)
        .wide("What and where", Align::Left, 3)
        .wide("As found", Align::Left, 3)
        .wide("How it was sealed", Align::Left, 3)
        .column("Date", Align::Left);
    for gap in done(survey) {
        let how = gap.remedy.as_ref().map_or_else(String::new, remedy);
        table.row([
            gap.id.to_string(),
            format!("{}\n{}", name(gap), place(gap)),
            words::form(gap),
            how,
            gap.state_date.trim().to_owned(),
        ]);
    }
    table
}

fn small_print(sides: &Sides<'_>, wrong: &[String]) -> String {
    let mut words =
        "Worked out from the gaps as surveyed and from what their remedies leave; nothing here \
                     was measured after the work. Measure again to be sure."
            .to_owned();
    if sides.uncertainty_after.is_some() || sides.uncertainty_before.is_some() {
        words.push_str(
            " 95 %: the middle 95 % of 10 000 draws of what is uncertain. Both columns share most of \
             that uncertainty, so their difference is surer than either.",
        );
    }
    if !wrong.is_empty() {
        words.push_str(&format!(
            " Counted as open before and after, because it must be opened again at once: {}.",
            wrong.join(", ")
        ));
    }
    words
}

/// Both sides of the work.
struct Sides<'a> {
    before: Assessment,
    after: Assessment,
    uncertainty_before: Option<&'a Uncertainty>,
    uncertainty_after: Option<&'a Uncertainty>,
}

/// How a weather case is called, and which it is.
type Which = (&'static str, fn((usize, usize)) -> usize);

const LEAST: Which = ("least wind", |(calmest, _)| calmest);
const MOST: Which = ("most wind", |(_, windiest)| windiest);

/// A figure of a weather case: its words and unit, what it is, its interval, and how it is
/// written.
type Line = (
    &'static str,
    &'static str,
    fn(&CaseAnswer) -> Answer<f64>,
    fn(&Uncertainty, WeatherId) -> Option<Interval>,
    fn(f64) -> String,
);

const LINES: [Line; 3] = [
    (
        "Air changes",
        "/h",
        ach,
        |uncertainty, id| case_of(uncertainty, id)?.ach_per_h.as_ref().ok().copied(),
        words::air_changes,
    ),
    (
        "Water to remove",
        "L/day",
        removal,
        |uncertainty, id| {
            case_of(uncertainty, id)?
                .removal_l_per_day
                .as_ref()
                .ok()
                .copied()
        },
        words::litres,
    ),
    (
        "Heat",
        "W",
        heat,
        |uncertainty, id| case_of(uncertainty, id)?.heat_w.as_ref().ok().copied(),
        words::watts,
    ),
];

fn case_of(
    uncertainty: &Uncertainty,
    id: WeatherId,
) -> Option<&crate::assess::uncertainty::CaseUncertainty> {
    uncertainty.cases.iter().find(|case| case.id == id)
}

/// The calmest or the windiest case.
fn case(assessment: &Assessment, which: Which) -> Answer<&CaseAnswer> {
    let both = assessment.calmest_and_windiest;
    both.and_then(|both| assessment.cases.get((which.1)(both)))
        .ok_or_else(|| NotKnown::because("there is no weather case"))
}

impl Sides<'_> {
    /// The leakage area on both sides, m².
    fn area(&self) -> [Answer<f64>; 2] {
        [&self.before, &self.after].map(|side| {
            let total = side.leakage.unintended.as_ref().map_err(Clone::clone)?;
            total_figure(total, total.figures.eqla * CM2, 3)?;
            Ok(total.figures.eqla)
        })
    }

    /// Whether some of the unintended gaps have no size, so that the areas are lower bounds.
    fn lack_sizes(&self) -> bool {
        let totals = [&self.before, &self.after].map(|side| side.leakage.unintended.as_ref());
        totals
            .into_iter()
            .flatten()
            .any(|total| total.not_sized > 0)
    }

    fn in_plain_words(&self, survey: &Survey) -> Vec<String> {
        let sealed = done(survey).count();
        let all = survey.gaps.len();
        let are = if sealed == 1 { "is" } else { "are" };
        let mut sentences = vec![format!(
            "Of {}, {sealed} {are} sealed.",
            counted(all, "gap", "gaps")
        )];
        let side = |side: &Assessment| side.leakage.square_side.clone().map(words::side_mm);
        if let (Ok(before), Ok(after)) = (side(&self.before), side(&self.after)) {
            let lacks = self.lack_sizes();
            let at_least = if lacks { "at least " } else { "" };
            sentences.push(format!(
                "Gaps that nobody wanted let in as much air as {at_least}a square hole with sides of \
                 {before}\u{a0}mm before, and of {after}\u{a0}mm now."
            ));
        }
        for which in [LEAST, MOST] {
            let of = |side: &Assessment| case(side, which).and_then(ach);
            if let (Ok(before), Ok(after)) = (of(&self.before), of(&self.after)) {
                sentences.push(format!(
                    "With {} the air inside is replaced {} times an hour; before, it was {}.",
                    which.0,
                    words::air_changes(after),
                    words::air_changes(before)
                ));
            }
        }
        sentences
    }

    fn table(&self, survey: &Survey, reasons: &mut Reasons) -> Table {
        let with_intervals = self.uncertainty_before.is_some() || self.uncertainty_after.is_some();
        let mut table = Table::default().wide("", Align::Left, 1);
        for head in ["Before", "After"] {
            table = table.column(head, Align::Decimal);
            if with_intervals {
                table = table.column("95 %", Align::Left);
            }
        }
        table = table.column("Change, %", Align::Decimal);
        let mut row = |name: String, sides: [(Answer<String>, Option<String>); 2], change| {
            let mut cells = vec![name];
            for (value, interval) in sides {
                cells.push(reasons.or(&value, String::clone));
                if with_intervals {
                    cells.push(interval.unwrap_or_default());
                }
            }
            cells.push(change);
            table.row(cells);
        };
        self.area_row(&mut row);
        for (what, unit, of, interval_of, said) in LINES {
            for which in [LEAST, MOST] {
                let side = |assessment: &Assessment, uncertainty: Option<&Uncertainty>| {
                    let case = case(assessment, which);
                    let id = case.as_ref().ok().map(|case| case.id);
                    let found = uncertainty
                        .zip(id)
                        .and_then(|(all, id)| interval_of(all, id));
                    (case.and_then(of), found.map(|found| interval(&found, 1.0)))
                };
                let (before, uncertainty_before) = side(&self.before, self.uncertainty_before);
                let (after, uncertainty_after) = side(&self.after, self.uncertainty_after);
                let change = change(&before, &after);
                row(
                    format!("{what} with {}, {unit}", which.0),
                    [
                        (before.map(said), uncertainty_before),
                        (after.map(said), uncertainty_after),
                    ],
                    change,
                );
            }
        }
        if let Ok(plan) = work(survey)
            && plan.before.winter_cost.is_ok()
        {
            let (before, after) = (plan.before.winter_cost, plan.after.winter_cost);
            let change = change(&before, &after);
            row(
                format!(
                    "Heat with the air, a winter by electricity, {}",
                    survey.tariffs.currency.trim()
                ),
                [(before.map(money), None), (after.map(money), None)],
                change,
            );
        }
        table
    }

    fn area_row(
        &self,
        row: &mut impl FnMut(String, [(Answer<String>, Option<String>); 2], String),
    ) {
        let [before, after] = self.area();
        let words = |side: &Assessment| {
            let total = side.leakage.unintended.as_ref().map_err(Clone::clone)?;
            total_figure(total, total.figures.eqla * CM2, 3)
        };
        let uncertainty =
            |found: Option<&Uncertainty>| found.map(|found| interval(&found.eqla_unintended, CM2));
        row(
            "Leakage area of unintended gaps (EqLA), cm²".to_owned(),
            [
                (words(&self.before), uncertainty(self.uncertainty_before)),
                (words(&self.after), uncertainty(self.uncertainty_after)),
            ],
            change(&before, &after),
        );
    }
}

/// What is still open.
fn remaining(section: &mut Section, survey: &Survey) {
    let open = survey
        .gaps
        .iter()
        .filter(|gap| gap.state != WorkState::Sealed && !gap.purpose.must_stay_open());
    let points: Vec<String> = open
        .map(|gap| format!("{} · {}: {}", gap.id, name(gap), gap.state.name()))
        .collect();
    if !points.is_empty() {
        section.heading("Gaps that are not sealed");
        section.push(Block::Points { points });
    }
}
