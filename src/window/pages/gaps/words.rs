//! A gap in words, as the ledger shows it.

use crate::assess::words::bends_words;
use crate::survey::{Form, Gap};
use crate::window::widgets::number_text;

fn size(value: Option<f64>) -> String {
    if value.is_some() {
        number_text::format(value)
    } else {
        "?".to_owned()
    }
}

/// Form and sizes in words; a size that was not taken is a question mark.
#[must_use]
pub(super) fn form(form: &Form) -> String {
    match *form {
        Form::NarrowGap {
            length_mm,
            width_mm,
            depth_mm,
            bends,
        } => {
            let bends = bends_words(bends);
            format!(
                "gap {} × {} × {} mm{bends}",
                size(length_mm),
                size(width_mm),
                size(depth_mm)
            )
        }
        Form::RoundHole { diameter_mm } => format!("hole ⌀ {} mm", size(diameter_mm)),
        Form::RectangularHole {
            width_mm,
            height_mm,
        } => format!("hole {} × {} mm", size(width_mm), size(height_mm)),
        Form::RingGap { hole_mm, pipe_mm } => {
            format!("ring ⌀ {} round ⌀ {} mm", size(hole_mm), size(pipe_mm))
        }
        Form::Grille {
            width_mm,
            height_mm,
            free_percent,
            ..
        } => {
            let free = free_percent.map_or_else(String::new, |free| format!(", {free} % free"));
            format!("grille {} × {} mm{free}", size(width_mm), size(height_mm))
        }
        Form::StatedArea { area_mm2, .. } => format!("stated {} mm²", size(area_mm2)),
        Form::FlowTest {
            flow_m3_per_h,
            at_pa,
            ..
        } => format!("test {} m³/h at {} Pa", size(flow_m3_per_h), size(at_pa)),
    }
}

/// The gap's name, or what it is where it has none.
#[must_use]
pub(super) fn name(gap: &Gap) -> &str {
    if gap.name.trim().is_empty() {
        gap.form.name()
    } else {
        gap.name.trim()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_not_measured_is_a_question_mark() {
        let gap = Form::NarrowGap {
            length_mm: Some(1200.0),
            width_mm: None,
            depth_mm: Some(20.5),
            bends: 1,
        };
        assert_eq!(form(&gap), "gap 1200 × ? × 20.5 mm, 1 bend");
        for blank in Form::blanks() {
            assert!(form(&blank).contains('?'), "{blank:?}");
        }
    }
}
