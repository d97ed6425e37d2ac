//! Workings of volume, leakage areas and safety ventilation.

use super::{Sheet, not_known, with_unit};
use crate::assess::answer::{Assessment, GapLeakage, SafetyVerdict, Working};
use crate::assess::words::{figure, given};
use crate::physics::units::{
    CM2_PER_M2 as CM2, LITRES_PER_M3, MM_PER_M, MM2_PER_M2 as MM2, SECONDS_PER_HOUR,
};
use crate::survey::gap::{Behind, Form, WorkState};
use crate::survey::{CodeOfPractice, Field, Gap, GapId, Survey};

pub(super) fn volume(survey: &Survey, assessment: &Assessment) -> Working {
    let vehicle = &survey.vehicle;
    let mut sheet = if vehicle.volume_m3.is_some() {
        Sheet::new("Inside volume", "V as stated in the survey")
    } else {
        Sheet::new(
            "Inside volume",
            "V = inside length × inside width × inside height",
        )
    };
    for (name, value) in [
        ("inside length", vehicle.inside_length_m),
        ("inside width", vehicle.inside_width_m),
        ("inside height", vehicle.inside_height_m),
    ] {
        if let Some(value) = value {
            sheet.typed(name, value, "m");
        }
    }
    match &assessment.volume_m3 {
        Ok(volume) => sheet.result(with_unit(*volume, 3, "m³")),
        Err(reason) => sheet.result(not_known(reason)),
    };
    sheet
        .assumed("gross internal volume; fitted furniture is not deducted")
        .finish()
}

/// Formula and sources of the law that a form obeys.
fn law(sheet: &mut Sheet, form: &Form) {
    match form {
        Form::NarrowGap { .. } => {
            sheet.relayed("Baker, Sharples and Ward, Air flow through cracks, Building and Environment 22(4), 1987: Δp = a Q + b Q², a = 12 μ z/(L d³), b = ρ C/(2 d² L²), C = 1.5");
            sheet.memory("each bend adds 1 to C");
            sheet.relayed("never more than a sharp-edged opening of the same size, discharge coefficient 0.61 (BS 5925 form)",
            );
        }
        Form::StatedArea { .. } | Form::FlowTest { .. } => {
            sheet.relayed("power law Q = C Δpⁿ (ASTM E779); n 0.65 where none is stated");
        }
        Form::Grille { .. } => {
            sheet.relayed(
                "sharp-edged opening on the free area, discharge coefficient 0.61 (BS 5925 form)",
            );
            sheet.read("free share where it is not known: metal 75 %, wood 25 % (NFPA 54 as quoted in a gas guide)");
        }
        Form::RoundHole { .. } | Form::RectangularHole { .. } | Form::RingGap { .. } => {
            sheet.relayed(
                "sharp-edged opening Q = Cd A √(2 Δp/ρ), discharge coefficient 0.61 (BS 5925 form)",
            );
        }
    }
}

fn formula(form: &Form) -> &'static str {
    match form {
        Form::NarrowGap { .. } => {
            "Q = 2 Δp/(a + √(a² + 4 b Δp)), at most 0.61 L d √(2 Δp/ρ);  EqLA = Q(10 Pa)/(0.611 √(2·10/ρ))"
        }
        Form::StatedArea { .. } | Form::FlowTest { .. } => {
            "Q = C Δpⁿ;  EqLA = Q(10 Pa)/(0.611 √(2·10/ρ))"
        }
        _ => "Q = 0.61 A √(2 Δp/ρ);  EqLA = Q(10 Pa)/(0.611 √(2·10/ρ))",
    }
}

/// Its letter in the formula, or its name among the sizes of its form.
fn size_name(size: Field) -> &'static str {
    match size {
        Field::GapLength => "length L",
        Field::GapWidth => "width d",
        Field::GapDepth => "depth z",
        Field::HoleWidth => "width",
        Field::HoleHeight => "height",
        Field::RingHole => "hole diameter",
        Field::RingPipe => "pipe diameter",
        Field::FreeShare => "free share stated",
        Field::StatedArea => "area",
        Field::FlowExponent => "flow exponent",
        Field::TestFlow => "flow",
        Field::TestPressure => "at",
        other => other.words(),
    }
}

fn sizes(sheet: &mut Sheet, form: &Form) {
    for (field, value) in form.sizes() {
        if let Some(value) = value {
            sheet.typed(size_name(field), value, field.unit());
        }
    }
}

fn arrangement(sheet: &mut Sheet, survey: &Survey, gap: &Gap) {
    sheet.input("count", gap.count.to_string());
    if let Some(closing) = gap.closing {
        let open = crate::assess::law::share_open(gap, survey.set_up);
        sheet.percent("share open in this set-up", open);
        if open < 1.0 {
            sheet.note(format!(
                "closed when {}: {} % passes all the same",
                survey.set_up.name(),
                given(closing.leaves_percent)
            ));
        }
    }
    if gap.state == WorkState::Sealed {
        let left = gap.remedy.as_ref().and_then(|own| own.leak_left_percent);
        match left {
            Some(left) => sheet.typed("sealed, its remedy leaves", left, "%"),
            None => sheet.input("sealed, its remedy leaves", "a share that is not given"),
        };
    }
    match gap.behind {
        None => {}
        Some(Behind::Gap(outer)) => {
            sheet.input("lies behind", format!("gap {outer}"));
            sheet.note("the same air passes both openings, so their pressures add; several gaps behind one opening share its area in proportion to their own");
        }
        Some(Behind::Opening {
            free_area_mm2: Some(area),
        }) => {
            sheet.typed("lies behind an opening of", area, "mm²");
        }
        Some(Behind::Opening {
            free_area_mm2: None,
        }) => {
            sheet.input("lies behind an opening", "not sized");
        }
    }
}

pub(super) fn gap(survey: &Survey, assessment: &Assessment, id: GapId) -> Option<Working> {
    let gap = survey.gap(id)?;
    let answer = assessment.gaps.iter().find(|answer| answer.id == id)?;
    let title = if gap.name.is_empty() {
        format!("Leakage of gap {id}")
    } else {
        format!("Leakage of gap {id}, {}", gap.name)
    };
    let mut sheet = Sheet::new(title, formula(&gap.form));
    sheet.input("form", gap.form.name());
    sizes(&mut sheet, &gap.form);
    arrangement(&mut sheet, survey, gap);
    let calibrated = assessment.calibrated.iter().find(|(of, _)| *of == id);
    if let Some((_, factor)) = calibrated {
        sheet.input("factor by the measurements", figure(*factor, 3));
    }
    sheet.input("reference air", "20 °C, 1.2041 kg/m³");
    match &answer.leakage {
        GapLeakage::Known(figures) => sheet.result(format!(
            "EqLA {} (10 Pa, Cd 0.611); ELA {} (4 Pa, Cd 1); flow at 10 Pa {}",
            with_unit(figures.eqla * MM2, 3, "mm²"),
            with_unit(figures.ela * MM2, 3, "mm²"),
            with_unit(figures.flow_10pa * LITRES_PER_M3, 3, "L/s"),
        )),
        GapLeakage::NotSized { reason } => sheet.result(format!("not sized: {reason}")),
        GapLeakage::Impossible { reason } => sheet.result(format!("left out: {reason}")),
        GapLeakage::Compartment => {
            sheet.result("counts only as the opening in front of the gaps behind it")
        }
    };
    law(&mut sheet, &gap.form);
    sheet.relayed("EqLA: CAN/CGSB-149.10; ELA: ASTM E779");
    Some(sheet.finish())
}

pub(super) fn area(survey: &Survey, assessment: &Assessment) -> Working {
    let mut sheet = Sheet::new(
        "Leakage area of the unintended gaps",
        "EqLA = Σ Q(10 Pa)/(0.611 √(2·10/ρ));  side of the square hole = √EqLA",
    );
    sheet.input("set-up", survey.set_up.name());
    match (
        &assessment.leakage.unintended,
        &assessment.leakage.square_side,
    ) {
        (Ok(total), Ok(side)) => {
            sheet.input("gaps added up", total.gaps.to_string());
            sheet.number(
                "flow at 10 Pa",
                total.figures.flow_10pa * LITRES_PER_M3,
                3,
                "L/s",
            );
            sheet.input("reference air", "20 °C, 1.2041 kg/m³");
            sheet.result(format!(
                "{}, as much as one square hole of {}",
                with_unit(total.figures.eqla * CM2, 3, "cm²"),
                with_unit(side * MM_PER_M, 3, "mm side")
            ));
            if !assessment.calibrated.is_empty() {
                sheet.note("the flow of every gap with its factor by the measurements");
            }
            if let Some(lacking) = total.lacking() {
                sheet.note(format!("not in it: {lacking}; the true area is larger"));
            }
        }
        (Err(reason), _) | (_, Err(reason)) => sheet.unknown(reason),
    }
    sheet
        .note("every purpose but safety ventilation, gas drop-out and appliance air")
        .relayed("CAN/CGSB-149.10: equivalent leakage area at 10 Pa, Cd 0.611")
        .finish()
}

pub(super) fn exponent(assessment: &Assessment) -> Working {
    let mut sheet = Sheet::new(
        "Flow exponent, n50 and q50 of all gaps",
        "n = ln(Q50/Q4)/ln(50/4);  n50 = Q50/V;  q50 = Q50/envelope",
    );
    let leakage = &assessment.leakage;
    if let Ok(total) = &leakage.all {
        sheet.number(
            "flow at 4 Pa",
            total.figures.flow_4pa * SECONDS_PER_HOUR,
            3,
            "m³/h",
        );
        sheet.number(
            "flow at 50 Pa",
            total.figures.flow_50pa * SECONDS_PER_HOUR,
            3,
            "m³/h",
        );
    }
    if let Ok(volume) = assessment.volume_m3 {
        sheet.number("volume V", volume, 3, "m³");
    }
    if let Ok(envelope) = leakage.envelope_m2 {
        sheet.number("envelope", envelope, 3, "m²");
    }
    let shown = |name: &str, value: &crate::assess::Answer<f64>, unit: &str| match value {
        Ok(value) => format!("{name} {}", with_unit(*value, 3, unit)),
        Err(reason) => format!("{name} {}", not_known(reason)),
    };
    sheet.result(format!(
        "{}; {}; {}",
        shown("n", &leakage.exponent, ""),
        shown("n50", &leakage.n50_per_h, "/h"),
        shown("q50", &leakage.q50_per_envelope_m3_per_h_m2, "m³/(h m²)")
    ));
    sheet
        .note("rule of thumb: n50/20 comes near the mean air change (Kronvall and Persily [M])")
        .relayed("ISO 9972, ASTM E779")
        .finish()
}

pub(super) fn safety(survey: &Survey, assessment: &Assessment) -> Working {
    let mut sheet = Sheet::new(
        "Safety ventilation",
        match assessment.safety.code {
            CodeOfPractice::En721 => "A_roof/R + A_elsewhere/O ≥ 1, and A_low ≥ L, by free area",
            CodeOfPractice::AsNzs5601 => {
                "A_roof/R + A_elsewhere/O ≥ 1, and A_low ≥ L, by free area; \
                 R = O = L = max(4000, 610 U + 650 P) mm²"
            }
        },
    );
    let safety = &assessment.safety;
    if let Ok(area) = safety.plan_area_m2 {
        sheet.number("plan area", area, 3, "m²");
    }
    let open = survey
        .appliances
        .iter()
        .filter(|appliance| !appliance.room_sealed)
        .count();
    sheet.input("appliances that are not room-sealed", open.to_string());
    if let Ok(required) = safety.required {
        if let Some(input) = required.heat_input {
            sheet.number("U, their heat input", input.mj_per_h, 4, "MJ/h");
            sheet.input("P, berths", input.berths.to_string());
        }
        sheet.number("R, high in the roof", required.high_in_roof * MM2, 4, "mm²");
        sheet.number(
            "O, or high elsewhere",
            required.high_elsewhere * MM2,
            4,
            "mm²",
        );
        sheet.number("L, and low", required.low * MM2, 4, "mm²");
    }
    for (name, value) in [
        ("surveyed in the roof", &safety.high_in_roof),
        ("surveyed high elsewhere", &safety.high_elsewhere),
        ("surveyed low", &safety.low),
    ] {
        match value {
            Ok(area) => sheet.number(name, area * MM2, 4, "mm²"),
            Err(reason) => sheet.input(name, not_known(reason)),
        };
    }
    match &safety.verdict {
        SafetyVerdict::Meets => sheet.result("the surveyed free areas meet the minimum"),
        SafetyVerdict::Below { .. } => sheet.result(safety.verdict.sentence()),
        SafetyVerdict::NotKnown(reason) => sheet.result(not_known(reason)),
    };
    sheet
        .note("local codes and a licensed fitter decide; this is a survey, not a certificate")
        .relayed(match safety.code {
            CodeOfPractice::En721 => "EN 721 minimum free areas, as three guides to conversion approval relay them, edition unstated; the current edition is EN 721:2019",
            CodeOfPractice::AsNzs5601 => "AS/NZS 5601.2 minimum free areas, edition unstated",
        })
        .assumed("high elsewhere means the upper half of the body; a ventilator that can be closed counts as closed")
        .finish()
}
