//! How the lines of a plot are told apart: by dash and marker first, by colour besides.

use crate::assess::Assessment;
use crate::figure::scene::Dash;
use crate::figure::styles::{self, Marker, Style};
use crate::survey::WeatherId;
use crate::window::body;
use crate::window::theme::{Palette, palette};
use crate::window::widgets;
use eframe::egui;
use egui::{Align2, Color32, Rect, RichText, Sense, Shape, Stroke, TextStyle, Ui, vec2};
use egui_plot::{LineStyle, MarkerShape};

/// One line's look.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::window::pages) struct Look {
    pub(in crate::window::pages) colour: Color32,
    pub(in crate::window::pages) dash: LineStyle,
    /// Marker at each point.
    pub(in crate::window::pages) marker: MarkerShape,
    /// Width of the line, points.
    pub(in crate::window::pages) width: f32,
}

impl Look {
    /// A style in the colours of the theme.
    pub(in crate::window::pages) fn of(ui: &Ui, style: Style) -> Self {
        Self::of_palette(style, palette(ui))
    }

    /// A style in these colours.
    pub(in crate::window::pages) fn of_palette(style: Style, palette: &Palette) -> Self {
        Self {
            colour: body::colour(style.role, palette),
            dash: match style.dash {
                Dash::Solid => LineStyle::Solid,
                Dash::Dashed => LineStyle::Dashed { length: 9.0 },
                Dash::Dotted => LineStyle::Dotted { spacing: 6.0 },
            },
            marker: match style.marker {
                Marker::Circle => MarkerShape::Circle,
                Marker::Square => MarkerShape::Square,
                Marker::Triangle => MarkerShape::Up,
                Marker::Cross => MarkerShape::Cross,
            },
            #[expect(clippy::cast_possible_truncation, reason = "a width on a screen")]
            width: (style.width * POINTS_PER_MM) as f32,
        }
    }
}

/// Points of a plot for each mm of a drawing.
const POINTS_PER_MM: f64 = 3.0;

/// The looks of all weather cases, in the order of the survey.
pub(in crate::window::pages) fn case_looks(ui: &Ui, assessment: &Assessment) -> Vec<Look> {
    let extremes = assessment.calmest_and_windiest.unwrap_or((0, 0));
    let styles = styles::of_cases(assessment.cases.len(), extremes);
    styles
        .into_iter()
        .map(|style| Look::of(ui, style))
        .collect()
}

/// The look of one weather case.
pub(in crate::window::pages) fn case_look(
    ui: &Ui,
    assessment: &Assessment,
    id: WeatherId,
) -> Option<Look> {
    let place = assessment.cases.iter().position(|case| case.id == id)?;
    case_looks(ui, assessment).get(place).copied()
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
    let stroke = Stroke::new(look.width, look.colour);
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

/// Why a plot has nothing to show; without a reason there is no weather case.
pub(in crate::window::pages) fn not_known(ui: &mut Ui, why: Option<&crate::assess::NotKnown>) {
    match why {
        Some(why) => widgets::answer_line(ui, &Err(why.clone())),
        None => {
            ui.label("There is no weather case.");
        }
    }
}
