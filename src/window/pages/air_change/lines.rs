//! How the lines of a plot are told apart: by dash and marker first, by colour besides.

use eframe::egui;
use egui::{Color32, Ui};
use egui_plot::{LineStyle, MarkerShape};

/// One line's look.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Look {
    /// Colour.
    pub(super) colour: Color32,
    /// Dash.
    pub(super) dash: LineStyle,
    /// Marker at each point.
    pub(super) marker: MarkerShape,
}

const fn rgb(hex: u32) -> Color32 {
    let [_, r, g, b] = hex.to_be_bytes();
    Color32::from_rgb(r, g, b)
}

const ON_PAPER: [Color32; 4] = [
    rgb(0x0013_5B55),
    rgb(0x008A_3B12),
    rgb(0x003B_3F9E),
    rgb(0x0024_211B),
];
const ON_SLATE: [Color32; 4] = [
    rgb(0x0086_D0C1),
    rgb(0x00F2_B27A),
    rgb(0x00B4_B8FF),
    rgb(0x00EC_E8DC),
];
const DASHES: [LineStyle; 4] = [
    LineStyle::Solid,
    LineStyle::Dashed { length: 9.0 },
    LineStyle::Dotted { spacing: 6.0 },
    LineStyle::Dashed { length: 3.5 },
];
const MARKERS: [MarkerShape; 4] = [
    MarkerShape::Circle,
    MarkerShape::Square,
    MarkerShape::Up,
    MarkerShape::Cross,
];

/// The look of the line with this number; after four they begin anew with other markers.
pub(super) fn look(ui: &Ui, at: usize) -> Look {
    let colours = if ui.visuals().dark_mode {
        ON_SLATE
    } else {
        ON_PAPER
    };
    let of = |index: usize| index % 4;
    Look {
        colour: colours.get(of(at)).copied().unwrap_or(Color32::GRAY),
        dash: DASHES.get(of(at)).copied().unwrap_or(LineStyle::Solid),
        marker: MARKERS
            .get(of(at + at / 4))
            .copied()
            .unwrap_or(MarkerShape::Circle),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::window::theme::{DARK, LIGHT};

    /// Contrast ratio of WCAG 2.1 \[M, from memory\].
    fn contrast(a: Color32, b: Color32) -> f64 {
        let linear = |channel: u8| {
            let c = f64::from(channel) / 255.0;
            if c <= 0.040_45 {
                c / 12.92
            } else {
                ((c + 0.055) / 1.055).powf(2.4)
            }
        };
        let luminance =
            |c: Color32| 0.2126 * linear(c.r()) + 0.7152 * linear(c.g()) + 0.0722 * linear(c.b());
        let (a, b) = (luminance(a), luminance(b));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    /// Names of lines are written in their colours: text contrast, 1.4.3 \[M\].
    #[test]
    fn every_line_reads_on_its_card() {
        for (colours, palette) in [(ON_PAPER, LIGHT), (ON_SLATE, DARK)] {
            for colour in colours {
                for surface in [palette.card, palette.field] {
                    assert!(contrast(colour, surface) >= 4.5, "{colour:?}");
                }
            }
        }
    }
}
