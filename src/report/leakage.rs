//! Leakage areas and their totals by zone, facing and purpose.

use super::Material;
use super::blocks::{Align, Fact, Reasons, Section, Table};
use crate::assess::quantity::{Kind, Quantity};
use crate::assess::words::facing;
use crate::assess::{Answer, LeakageFigures, LeakageTotal, Topic};
use crate::physics::units::SECONDS_PER_HOUR;
use crate::survey::{Purpose, leave, number};

/// EqLA of the unintended gaps, with its interval.
#[must_use]
pub fn unintended(told: &Material<'_>) -> Quantity {
    eqla(&told.assessment.leakage.unintended)
        .within(told.uncertainty.map(|found| &found.eqla_unintended))
}

/// EqLA of a total.
#[must_use]
pub fn eqla(total: &Answer<LeakageTotal>) -> Quantity {
    Quantity::of_total(Kind::LeakageCm2, total, |total| total.figures.eqla)
}

/// Side of the square hole that lets in as much as the unintended gaps.
#[must_use]
pub fn square_side(told: &Material<'_>) -> Quantity {
    let leakage = &told.assessment.leakage;
    Kind::SideMm
        .of(leakage.square_side.clone())
        .at_least(lacks_some(&leakage.unintended))
}

/// Whether gaps without a size are missing from a total.
fn lacks_some(total: &Answer<LeakageTotal>) -> bool {
    total.as_ref().is_ok_and(LeakageTotal::lacks_some)
}

/// What part of all leakage an area is: percent, without its sign.
#[must_use]
pub(crate) fn share(told: &Material<'_>, eqla: f64) -> Option<String> {
    let all = told.assessment.leakage.all.as_ref().ok()?.figures.eqla;
    (all > 0.0).then(|| Kind::Share.number(eqla / all))
}

/// Totals, and how tight the whole is.
#[must_use]
pub fn section(told: &Material<'_>) -> Section {
    let mut section = Section::new("Leakage");
    let mut reasons = Reasons::default();
    let table = totals(told, &mut reasons);
    section.table(table, &reasons);
    section.notes(not_said(told));
    section.facts(tightness(told), &Reasons::default());
    section.note(
        "EqLA: equivalent leakage area, 10 Pa, discharge coefficient 0.611 (CAN/CGSB-149.10 [R]). \
         ELA: effective leakage area, 4 Pa, coefficient 1 (ASTM E779, Sherman and Grimsrud [R]). \
         Both at 20 °C, 1.2041 kg/m³. ≥: gaps that are not sized or left out would add to it.",
    );
    section
}

/// Which gaps count in the total of all gaps alone, because nobody has said what they are for.
fn not_said(told: &Material<'_>) -> Option<String> {
    let survey = told.survey;
    let gaps = survey.gaps.iter();
    let gaps = gaps.filter(|gap| leave::purpose(survey, gap) == Purpose::NotSaid);
    let ids: Vec<String> = gaps.map(|gap| gap.id.to_string()).collect();
    (!ids.is_empty()).then(|| {
        let (is, it, counts) = match ids.len() {
            1 => ("is", "it", "counts"),
            _ => ("are", "they", "count"),
        };
        format!(
            "What {} {is} for is not said: {it} {counts} in all gaps, neither among the unintended ones nor \
             as safety ventilation, and {is} not offered for sealing.",
            number::gaps(&ids)
        )
    })
}

fn totals(told: &Material<'_>, reasons: &mut Reasons) -> Table {
    let (survey, leakage) = (told.survey, &told.assessment.leakage);
    let mut table = Table::default()
        .wide("", Align::Left, 1)
        .column("Gaps", Align::Right)
        .column("Not sized or left out", Align::Right)
        .column("EqLA at 10 Pa, cm²", Align::Decimal)
        .column("Share, %", Align::Decimal)
        .column("ELA at 4 Pa, cm²", Align::Decimal)
        .column("Flow at 50 Pa, m³/h", Align::Decimal);
    let mut add = |table: &mut Table, name: &str, total: &Answer<LeakageTotal>| {
        table.row(row(told, reasons, name, total));
    };
    add(&mut table, "All gaps", &leakage.all);
    let unintended = "Unintended, drains, user ventilation";
    add(&mut table, unintended, &leakage.unintended);
    if let Some(row) = table.rows.last_mut() {
        row.worked_out(Topic::LeakageArea);
    }
    let safety = "Safety ventilation";
    add(&mut table, safety, &leakage.safety_ventilation);
    table.group("By zone");
    for (id, total) in &leakage.by_zone {
        let zone = survey.zone(*id);
        let name = zone.map_or_else(|| format!("zone {id}"), |zone| zone.name.clone());
        add(&mut table, &name, total);
    }
    table.group("By facing");
    for (side, total) in &leakage.by_facing {
        add(&mut table, facing(*side), total);
    }
    table.group("By purpose");
    for (purpose, total) in &leakage.by_purpose {
        add(&mut table, purpose.name(), total);
    }
    table
}

fn row(
    told: &Material<'_>,
    reasons: &mut Reasons,
    name: &str,
    total: &Answer<LeakageTotal>,
) -> [String; 7] {
    let dash = || "–".to_owned();
    let count = |count: usize| match count {
        0 => dash(),
        some => some.to_string(),
    };
    let (gaps, not_sized) = match total {
        Ok(total) if total.gaps == 0 && !total.lacks_some() => {
            let none = "none".to_owned();
            return [
                name.to_owned(),
                none,
                dash(),
                dash(),
                dash(),
                dash(),
                dash(),
            ];
        }
        Ok(total) => (
            total.gaps.to_string(),
            count(total.not_sized + total.left_out),
        ),
        Err(_) => (dash(), dash()),
    };
    let mut number = |kind: Kind, of: fn(&LeakageFigures) -> f64| {
        reasons.number(&Quantity::of_total(kind, total, |total| of(&total.figures)))
    };
    let eqla = number(Kind::LeakageCm2, |figures| figures.eqla);
    let ela = number(Kind::LeakageCm2, |figures| figures.ela);
    let flow = number(Kind::CubicMetresPerHour, |figures| {
        figures.flow_50pa * SECONDS_PER_HOUR
    });
    let sized = total.as_ref().ok().filter(|total| total.gaps > 0);
    let share = sized.and_then(|total| share(told, total.figures.eqla));
    let share = share.unwrap_or_else(dash);
    [name.to_owned(), gaps, not_sized, eqla, share, ela, flow]
}

fn tightness(told: &Material<'_>) -> Vec<Fact> {
    let leakage = &told.assessment.leakage;
    // What lacks gaps is at least so much; an exponent of part of the gaps is just that.
    let lacks_some = lacks_some(&leakage.all);
    let found = told.uncertainty;
    let n50 = Kind::AirChangesAt50Pa
        .of(leakage.n50_per_h.clone())
        .at_least(lacks_some)
        .within(found.and_then(|found| found.n50_per_h.as_ref().ok()));
    let q50 = Kind::CubicMetresPerHourAndSquareMetre
        .of(leakage.q50_per_envelope_m3_per_h_m2.clone())
        .at_least(lacks_some);
    let exponent = Kind::Plain.of(leakage.exponent.clone());
    let envelope = Kind::SquareMetres.of(leakage.envelope_m2.clone());
    let fact = |name: &str, quantity: &Quantity| {
        Fact::new(name, quantity.sentence()).worked_out(Topic::Exponent)
    };
    vec![
        fact(
            "Flow exponent n of all gaps, fitted from 4 to 50 Pa",
            &exponent,
        ),
        fact("Air changes at 50 Pa, n50", &n50),
        fact("Flow at 50 Pa by envelope area", &q50),
        Fact::new("Envelope area: walls, roof and floor", envelope.sentence()),
    ]
}
