//! The ledger of gaps.

use super::Material;
use super::blocks::{Align, Reasons, Row, Section, Table};
use super::leakage::{eqla, share};
use super::measured::{by_test, is_by_test};
use super::words::{long_notes, name, note_in_table, place};
use crate::assess::Topic;
use crate::assess::quantity::{Kind, Quantity};
use crate::assess::words::{form, given, remarks};
use crate::figure::body::role;
use crate::figure::ranked::Amount;
use crate::survey::{Gap, Item, Remedy, leave};

/// The order of the ledger.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Order {
    /// As it was written down, zone by zone with a sum each.
    ByZone,
    /// By leakage; gaps without a figure come last.
    LeakiestFirst,
}

pub(crate) fn section(material: &Material<'_>, order: Order) -> Section {
    let gaps = &material.survey.gaps;
    let mut section = Section::new(match order {
        Order::ByZone => "Ledger of gaps",
        Order::LeakiestFirst => "Ledger of gaps, the leakiest first",
    });
    if gaps.is_empty() {
        return section.ending("No gap has been written down yet.");
    }
    let mut ledger = Ledger {
        material,
        order,
        reasons: Reasons::default(),
        table: Table::default()
            .column("No.", Align::Right)
            .wide("What and where", Align::Left, 4)
            .wide("Form and sizes", Align::Left, 4)
            .column("How sure", Align::Left)
            .column("EqLA, cm²", Align::Decimal)
            .column("Share, %", Align::Decimal)
            .wide("Remedy, state, notes", Align::Left, 4),
    };
    match order {
        Order::ByZone => ledger.by_zone(),
        Order::LeakiestFirst => ledger.leakiest_first(),
    }
    ledger.total("All gaps", &eqla(&material.assessment.leakage.all));
    section.table(ledger.table, &ledger.reasons);
    section.notes(by_test(gaps.iter()));
    section.note(
        "EqLA: equivalent leakage area at 10 Pa, as the gap stands in this set-up; a gap without a \
         figure is in no total. Share: of all gaps together. Numbers are those on the drawing; \
         heights are above the ground. A question mark stands for a size that was not taken.",
    );
    long_notes(&mut section, gaps.iter());
    section
}

/// Gaps drawn as bars, at most.
const DRAWN: usize = 12;

/// The leakiest gaps as amounts to draw, the leakiest first; nothing where fewer than three are known.
pub(crate) fn leakiest(material: &Material<'_>) -> Vec<Amount> {
    let gaps = sorted(material).into_iter();
    let known = gaps.filter(|(area, _)| *area > 0.0).take(DRAWN);
    let amounts: Vec<Amount> = known
        .map(|(area, gap)| Amount {
            name: format!("{} {}", gap.id, name(gap)),
            value: area,
            words: match share(material, area) {
                Some(share) => format!("{} · {share} %", Kind::LeakageCm2.text(area)),
                None => Kind::LeakageCm2.text(area),
            },
            role: role(leave::purpose(material.survey, gap)),
        })
        .collect();
    if amounts.len() < LEAST_DRAWN {
        return Vec::new();
    }
    amounts
}

/// Fewer amounts than this are compared as quickly in a table.
pub(crate) const LEAST_DRAWN: usize = 3;

/// Gaps by their leakage, the leakiest first, those without a figure last.
fn sorted<'a>(material: &Material<'a>) -> Vec<(f64, &'a Gap)> {
    let gaps = material.survey.gaps.iter();
    let mut gaps: Vec<(f64, &Gap)> = gaps
        .map(|gap| {
            let area = of_gap(material, gap).value();
            (area.unwrap_or(f64::NEG_INFINITY), gap)
        })
        .collect();
    // Among equals the ledger's order stays.
    gaps.sort_by(|(a, _), (b, _)| b.total_cmp(a));
    gaps
}

/// What one gap lets through, or why that is not known.
pub(crate) fn of_gap(material: &Material<'_>, gap: &Gap) -> Quantity {
    let found = material.assessment.leakage_of(gap.id);
    Kind::LeakageCm2.of(found.map(|figures| figures.eqla))
}

struct Ledger<'a> {
    material: &'a Material<'a>,
    order: Order,
    reasons: Reasons,
    table: Table,
}

impl Ledger<'_> {
    fn by_zone(&mut self) {
        let survey = self.material.survey;
        for (id, total) in &self.material.assessment.leakage.by_zone {
            let of_zone: Vec<&Gap> = survey.gaps.iter().filter(|gap| gap.zone == *id).collect();
            let Some(first) = of_zone.first() else {
                continue;
            };
            let zone = self.zone(first);
            self.table.group(zone.clone());
            for gap in of_zone {
                self.row(gap);
            }
            self.total(&format!("{zone}, together"), &eqla(total));
        }
    }

    fn leakiest_first(&mut self) {
        for (_, gap) in sorted(self.material) {
            self.row(gap);
        }
    }

    fn zone(&self, gap: &Gap) -> String {
        let zone = self.material.survey.zone(gap.zone);
        zone.map_or_else(|| format!("zone {}", gap.zone), |zone| zone.name.clone())
    }

    fn row(&mut self, gap: &Gap) -> &mut Row {
        let area = of_gap(self.material, gap);
        let part = area
            .value()
            .ok()
            .and_then(|area| share(self.material, area));
        let place = match self.order {
            Order::ByZone => place(gap),
            Order::LeakiestFirst => format!("{}, {}", self.zone(gap), place(gap)),
        };
        let by_test = if is_by_test(gap) { ",\nby test" } else { "" };
        let cells = [
            gap.id.to_string(),
            format!("{}\n{place}", name(gap)),
            form(gap),
            format!("{}{by_test}", gap.certainty.name()),
            self.reasons.number(&area),
            part.unwrap_or_default(),
            self.notes(gap),
        ];
        let row = self.table.row(cells);
        row.about(Item::Gap(gap.id)).worked_out(Topic::Gap(gap.id))
    }

    fn notes(&self, gap: &Gap) -> String {
        let mut lines = remarks(gap, self.material.assessment.set_up);
        let survey = self.material.survey;
        if leave::never(survey, gap) {
            lines.push("must stay open".to_owned());
        }
        if leave::purpose(survey, gap) != gap.purpose {
            lines.push("called unintended, not confirmed".to_owned());
        }
        lines.extend(purpose_before(gap));
        if !gap.state_date.trim().is_empty() {
            lines.push(gap.state_date.trim().to_owned());
        }
        let mut all = vec![lines.join(", ")];
        if let Some(own) = &gap.remedy {
            all.push(remedy(own));
        }
        if !gap.damp.trim().is_empty() {
            all.push(format!("damp reading: {}", gap.damp.trim()));
        }
        all.push(note_in_table(&gap.note));
        all.retain(|line| !line.is_empty());
        all.join("\n")
    }

    fn total(&mut self, name: &str, total: &Quantity) {
        let none = String::new;
        let total = self.reasons.number(total);
        self.table
            .total([none(), name.to_owned(), none(), none(), total]);
    }
}

/// What a gap was there for before somebody changed that by hand.
pub(crate) fn purpose_before(gap: &Gap) -> Option<String> {
    let was = gap.purpose_was?;
    Some(format!("purpose changed by hand, it was {}", was.name()))
}

/// A remedy in words: `strip: compressible strip, leaves 15 %`.
pub(crate) fn remedy(remedy: &Remedy) -> String {
    let words = match remedy.words.trim() {
        "" => String::new(),
        words => format!(": {words}"),
    };
    let left = remedy.leak_left_percent.map_or_else(String::new, |left| {
        format!(", leaves {}\u{a0}%", given(left))
    });
    format!("{}{words}{left}", remedy.kind.name())
}
