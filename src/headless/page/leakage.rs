//! Leakage areas and their totals by zone, facing and purpose.

use super::layout::Page;
use super::old_table::{Set, Table};
use super::words::{facing, figure};
use super::{Unknowns, total_figure};
use crate::assess::{Answer, Assessment, LeakageTotal};
use crate::survey::Survey;

const CM2: f64 = 1e4;
const M3_PER_H: f64 = 3600.0;

pub(super) fn print(page: &mut Page, survey: &Survey, assessment: &Assessment) {
    page.heading("Leakage");
    let leakage = &assessment.leakage;
    let mut unknowns = Unknowns::default();
    let mut table = Table::default()
        .column("", Set::Words, 34)
        .column("gaps", Set::Numbers, 5)
        .column("not sized", Set::Numbers, 6)
        .column("EqLA at 10 Pa cm²", Set::Numbers, 10)
        .column("share %", Set::Numbers, 5)
        .column("ELA at 4 Pa cm²", Set::Numbers, 9)
        .column("flow at 50 Pa m³/h", Set::Numbers, 9);
    let whole = leakage.all.as_ref().ok().map(|total| total.figures.eqla);
    let mut add = |table: &mut Table, name: &str, total: &Answer<LeakageTotal>| {
        row(table, &mut unknowns, whole, name, total);
    };
    add(&mut table, "all gaps", &leakage.all);
    add(
        &mut table,
        "  unintended, drains, user vents",
        &leakage.unintended,
    );
    add(
        &mut table,
        "  safety ventilation",
        &leakage.safety_ventilation,
    );
    table.group("by zone");
    for (id, total) in &leakage.by_zone {
        let name = survey
            .zone(*id)
            .map_or_else(|| format!("zone {id}"), |zone| zone.name.clone());
        add(&mut table, &format!("  {name}"), total);
    }
    table.group("by facing");
    for (side, total) in &leakage.by_facing {
        add(&mut table, &format!("  {}", facing(*side)), total);
    }
    table.group("by purpose");
    for (purpose, total) in &leakage.by_purpose {
        add(&mut table, &format!("  {}", purpose.name()), total);
    }
    table.print(page);
    page.blank();
    tightness(page, assessment, &mut unknowns);
    unknowns.print(page);
    page.blank();
    page.paragraph(
        "EqLA: equivalent leakage area, 10 Pa, discharge coefficient 0.611 (CAN/CGSB-149.10 [M]). \
         ELA: effective leakage area, 4 Pa, coefficient 1 (ASTM E779, Sherman and Grimsrud [M]). \
         Both at 20 °C, 1.2041 kg/m³. ≥: gaps that are not sized would add to it.",
    );
}

fn row(
    table: &mut Table,
    unknowns: &mut Unknowns,
    whole: Option<f64>,
    name: &str,
    total: &Answer<LeakageTotal>,
) {
    let dash = || "–".to_owned();
    let mut cells = vec![name.to_owned()];
    match total {
        Err(unknown) => {
            let mark = unknowns.mark(unknown);
            cells.extend([dash(), dash(), mark.clone(), dash(), mark.clone(), mark]);
        }
        Ok(total) if total.gaps == 0 && total.not_sized == 0 => {
            cells.extend(["none".to_owned(), dash(), dash(), dash(), dash(), dash()]);
        }
        Ok(total) => {
            let figures = &total.figures;
            let mut figure_of =
                |value: f64| unknowns.or(&total_figure(total, value, 3), String::clone);
            let eqla = figure_of(figures.eqla * CM2);
            let ela = figure_of(figures.ela * CM2);
            let flow = figure_of(figures.flow_50pa * M3_PER_H);
            let share = match whole {
                Some(whole) if whole > 0.0 && total.gaps > 0 => share(figures.eqla / whole),
                _ => dash(),
            };
            let not_sized = match total.not_sized {
                0 => dash(),
                count => count.to_string(),
            };
            cells.extend([total.gaps.to_string(), not_sized, eqla, share, ela, flow]);
        }
    }
    table.row(cells);
}

/// A share in whole per cent; a small one is not rounded down to nothing.
pub(super) fn share(share: f64) -> String {
    let percent = share * 100.0;
    if percent > 0.0 && percent < 0.5 {
        "<1".to_owned()
    } else {
        format!("{percent:.0}")
    }
}

fn tightness(page: &mut Page, assessment: &Assessment, unknowns: &mut Unknowns) {
    let leakage = &assessment.leakage;
    let mut table = Table::default()
        .column("", Set::Words, 58)
        .column("", Set::Numbers, 14)
        .column("", Set::Words, 10);
    // What lacks gaps is at least so much; an exponent of part of the gaps is just that.
    let lacks = leakage.all.as_ref().is_ok_and(|total| total.not_sized > 0);
    let at_least = if lacks { "≥ " } else { "" };
    for (label, answer, prefix, unit) in [
        (
            "flow exponent n of all gaps, fitted from 4 to 50 Pa",
            &leakage.exponent,
            "",
            "",
        ),
        (
            "air changes at 50 Pa, n50",
            &leakage.n50_per_h,
            at_least,
            "/h",
        ),
        (
            "flow at 50 Pa by envelope area",
            &leakage.q50_per_envelope_m3_per_h_m2,
            at_least,
            "m³/(h m²)",
        ),
        (
            "envelope area: walls, roof and floor",
            &leakage.envelope_m2,
            "",
            "m²",
        ),
    ] {
        let value = unknowns.or(answer, |value| format!("{prefix}{}", figure(*value, 3)));
        table.row([label.to_owned(), value, unit.to_owned()]);
    }
    table.print(page);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_small_share_is_not_nothing() {
        assert_eq!(share(0.001), "<1");
        assert_eq!(share(0.0), "0");
        assert_eq!(share(0.123), "12");
    }
}
