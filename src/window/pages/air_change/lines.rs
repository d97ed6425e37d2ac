//! How the lines of a plot are told apart: by dash and marker first, by colour besides.

use eframe::egui;
use egui::{Align2, Color32, Rect, RichText, Sense, Shape, Stroke, TextStyle, Ui, vec2};
use egui_plot::{LineStyle, MarkerShape};

/// One line's look.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::window::pages) struct Look {
    /// Colour.
    pub(in crate::window::pages) colour: Color32,
    /// Dash.
    pub(in crate::window::pages) dash: LineStyle,
    /// Marker at each point.
    pub(in crate::window::pages) marker: MarkerShape,
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
pub(in crate::window::pages) fn look(ui: &Ui, at: usize) -> Look {
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

/// The names of the lines, each behind a piece of its line: above the plot, so that they hide
/// nothing of it.
pub(in crate::window::pages) fn key<'n>(ui: &mut Ui, lines: impl Iterator<Item = (&'n str, Look)>) {
    ui.horizontal_wrapped(|ui| {
        for (name, look) in lines {
            let (rect, _) = ui.allocate_exact_size(vec2(38.0, 16.0), Sense::hover());
            piece(ui, rect, look);
            ui.label(RichText::new(name).color(look.colour));
            ui.add_space(6.0);
        }
    });
}

fn piece(ui: &Ui, rect: Rect, look: Look) {
    let ends = [rect.left_center(), rect.right_center()];
    let stroke = Stroke::new(1.8, look.colour);
    let shapes = match look.dash {
        LineStyle::Solid => vec![Shape::line_segment(ends, stroke)],
        LineStyle::Dashed { length } => Shape::dashed_line(&ends, stroke, length, length * 0.6),
        LineStyle::Dotted { spacing } => Shape::dotted_line(&ends, look.colour, spacing, 1.3),
    };
    ui.painter().extend(shapes);
    let sign = match look.marker {
        MarkerShape::Square => "■",
        MarkerShape::Up => "▲",
        MarkerShape::Cross => "✖",
        _ => "●",
    };
    let font = TextStyle::Small.resolve(ui.style());
    ui.painter().text(
        rect.center(),
        Align2::CENTER_CENTER,
        sign,
        font,
        look.colour,
    );
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
