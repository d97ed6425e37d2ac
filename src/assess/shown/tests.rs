//! Numbers, headings and sentences in US customary units.

use super::{Shown, Units};
use crate::survey::gap::Form;
use crate::survey::unit::{customary, named};
use crate::survey::{Facing, Gap, GapId, Survey, VehicleKind, ZoneId};

fn us() -> Shown {
    Shown::new(Units::UsCustomary, &Survey::new(VehicleKind::Other))
}

/// NIST SP 811, appendix B.8 and B.9 \[S\], as printed there: what one unit is of the other.
#[test]
fn conversions_are_those_of_the_published_table() {
    for (one, metric, factor) in [
        ("in", "mm", 25.4),
        ("ft", "m", 0.3048),
        ("in²", "mm²", 645.16),
        ("in²", "cm²", 6.4516),
        ("ft²", "m²", 9.290_304e-2),
        ("ft³", "m³", 2.831_685e-2),
        ("pt", "L", 0.473_176_5),
        ("cfm", "m³/h", 4.719_474e-4 * 3600.0),
        ("oz/h", "g/h", 28.349_52),
        ("lb/h", "kg/h", 0.453_592_4),
        ("lb", "kg", 0.453_592_4),
        ("mph", "m/s", 0.447_04),
        ("BTU/h", "MJ/h", 0.293_071_1 * 3.6e-3),
        ("BTU/(h ft² °F)", "W/(m² K)", 5.678_263),
        ("BTU in/(h ft² °F)", "W/(m K)", 0.144_227_9),
        ("h ft² °F/BTU", "m² K/W", 0.176_110_2),
        ("BTU/(h °F)", "W/K", 0.527_528),
        ("BTU/°F", "kJ/K", 1.899_101),
        ("lb/ft³", "kg/m³", 16.018_46),
    ] {
        let metric = named(metric).unwrap();
        let shown = customary(metric).unwrap();
        assert_eq!(shown.symbol, one);
        let back = shown.to(metric, 1.0);
        assert!((back / factor - 1.0).abs() < 5e-7, "{one}: {back}");
        assert!((metric.to(shown, factor) - 1.0).abs() < 5e-7, "{one}");
    }
    // NIST SP 811, B.8: t/°C = (t/°F − 32)/1.8, and T/K = (T/°R)/1.8 for differences.
    for (c, f) in [(-40.0, -40.0), (0.0, 32.0), (20.0, 68.0), (100.0, 212.0)] {
        assert!((Units::UsCustomary.shown(c, "°C") - f).abs() < 1e-9);
    }
    assert!((Units::UsCustomary.shown(5.0, "K") - 9.0).abs() < 1e-9);
}

#[test]
fn sentences_have_their_sizes_in_customary_units() {
    for (metric, shown) in [
        (
            "leakage area EqLA 41.2\u{a0}cm², very likely 30 to 55\u{a0}cm²",
            "leakage area EqLA 6.39\u{a0}in², very likely 4.7 to 8.5\u{a0}in²",
        ),
        (
            "narrow gap 900 ×\u{a0}3\u{a0}mm, 20\u{a0}mm deep",
            "narrow gap 35.4 ×\u{a0}0.118\u{a0}in, 0.787\u{a0}in deep",
        ),
        (
            "at −5\u{a0}°C, 15\u{a0}K colder",
            "at 23\u{a0}°F, 27\u{a0}°F colder",
        ),
        ("18.5 °C", "65.3 °F"),
        ("≥\u{a0}3.4\u{a0}kg/h", "≥\u{a0}7.5\u{a0}lb/h"),
        ("U 0.5\u{a0}W/(m²\u{a0}K)", "U 0.0881\u{a0}BTU/(h ft² °F)"),
        ("3 × 12\u{a0}kg", "3 × 26\u{a0}lb"),
        ("round hole ? mm", "round hole ? in"),
        (
            "600 W, 2 kWh, 50 Pa, 3.1\u{a0}/h, 5 %, 12\u{a0}A",
            "600 W, 2 kWh, 50 Pa, 3.1\u{a0}/h, 5 %, 12\u{a0}A",
        ),
        (
            "gap 5, 3 gaps, 2031-02-03, A-5 m",
            "gap 5, 3 gaps, 2031-02-03, A-5 m",
        ),
        ("£\u{a0}3.20/kg", "£\u{a0}1.45/lb"),
        ("6\u{a0}m/s and 2\u{a0}m", "13\u{a0}mph and 6.56\u{a0}ft"),
    ] {
        assert_eq!(us().text(metric), shown);
        let metric_stays = Shown::default();
        assert_eq!(metric_stays.text(metric), metric);
    }
}

#[test]
fn a_heading_says_the_unit_of_the_numbers_under_it() {
    let us = us();
    for (head, shown, cell, number) in [
        (
            "EqLA at 10 Pa, cm²",
            "EqLA at 10 Pa, in²",
            "≥\u{a0}41.2",
            "≥\u{a0}6.39",
        ),
        ("°C", "°F", "−6.0", "21.2"),
        (
            "Asked for, mm²,\nif all is there",
            "Asked for, in²,\nif all is there",
            "4000",
            "6.20",
        ),
        ("dew point °C", "dew point °F", "none", "none"),
        ("in, kg/h", "in, lb/h", "not known (1)", "not known (1)"),
        (
            "removed L/day",
            "removed pt/day",
            "0.62 to 1.2",
            "1.3 to 2.5",
        ),
        ("Heat, W", "Heat, W", "1200", "1200"),
    ] {
        let (told, unit) = us.head(head);
        assert_eq!(
            (told.as_ref(), us.cell(cell, unit).as_ref()),
            (shown, number)
        );
    }
}

#[test]
fn what_a_person_wrote_stays_as_it_is() {
    let mut survey = Survey::new(VehicleKind::Other);
    let form = Form::RoundHole { diameter_mm: None };
    let mut gap = Gap::new(GapId(1), ZoneId(1), Facing::Roof, form);
    gap.name = "hole 30 mm".to_owned();
    survey.gaps.push(gap);
    let us = Shown::new(Units::UsCustomary, &survey);
    assert_eq!(
        us.text("gap 1 “hole 30 mm”: 25.4 mm wide"),
        "gap 1 “hole 30 mm”: 1.00 in wide"
    );
    assert_eq!(us.text("hole 3 mm"), "hole 0.118 in");
}

#[test]
fn ranges_of_fields_are_shown_in_the_units_of_the_field() {
    let range = crate::survey::Field::Length.range().unwrap();
    assert_eq!(Units::Metric.range(range), "1.5 to 15 m");
    assert_eq!(Units::UsCustomary.range(range), "4.92 to 49.2 ft");
    assert_eq!(Units::UsCustomary.symbol("mm"), "in");
    assert_eq!(Units::UsCustomary.symbol("W"), "W");
}
