//! The ledger: only the rows in sight are drawn, and the keyboard moves through all of them.

use super::rows::{self, COLUMNS, Row};
use crate::survey::{Gap, GapId, Severity};
use crate::window::commands::Command;
use crate::window::page::PageContext;
use crate::window::theme::{Palette, bold, palette};
use crate::window::widgets;
use eframe::egui;
use egui::accesskit::Role;
use egui::{
    Align2, EventFilter, FontId, Id, Key, Rect, Response, ScrollArea, Sense, Stroke, TextStyle,
    TextWrapMode, Ui, WidgetInfo, WidgetText, pos2, vec2,
};

const ROW_HEIGHT: f32 = 22.0;
const PADDING: f32 = 5.0;

/// Id of the ledger, which takes the focus for all its rows.
fn ledger_id() -> Id {
    Id::unique("the ledger")
}

/// Draws the ledger.
pub(super) fn show(ui: &mut Ui, context: &mut PageContext<'_>) {
    let colours = palette(ui);
    let frame = egui::Frame::new()
        .fill(colours.card)
        .stroke(Stroke::new(1.0, colours.rule));
    frame.show(ui, |ui| {
        ui.spacing_mut().item_spacing = vec2(0.0, 0.0);
        let bar = ui.spacing().scroll.bar_width + 4.0;
        let widths = widths(ui.available_width() - bar);
        ScrollArea::horizontal()
            .auto_shrink(false)
            .show(ui, |ui| table(ui, context, &widths));
    });
}

fn widths(available: f32) -> Vec<f32> {
    let least: f32 = COLUMNS.iter().map(|column| column.width).sum();
    let grown: f32 = COLUMNS
        .iter()
        .filter(|column| column.grows)
        .map(|column| column.width)
        .sum();
    let more = (available - least).max(0.0) / grown;
    COLUMNS
        .iter()
        .map(|column| {
            if column.grows {
                column.width * (1.0 + more)
            } else {
                column.width
            }
        })
        .collect()
}

fn table(ui: &mut Ui, context: &mut PageContext<'_>, widths: &[f32]) {
    let total: f32 = widths.iter().sum();
    ui.set_min_width(total);
    heading(ui, widths);
    let selected = context.view.gaps.selected_in(context.survey);
    let body = Rect::from_min_size(ui.cursor().min, vec2(total, ui.available_height()));
    let focus = ui.interact(body, ledger_id(), Sense::focusable_noninteractive());
    focus.widget_info(|| WidgetInfo::labeled(Role::ListBox, true, "Gap ledger"));
    let here = hold_focus(ui, &focus);
    if here {
        keys(ui, context, selected);
    }
    if context.survey.gaps.is_empty() {
        ui.add_space(10.0);
        ui.horizontal(|ui| {
            ui.add_space(10.0);
            ui.label("No gap yet. Walk round the vehicle and add each gap you see, feel or hear.");
        });
        return;
    }
    body_rows(ui, context, widths, selected, here);
}

/// The ledger takes the focus whenever nothing else has it and nothing lies over it.
fn hold_focus(ui: &Ui, focus: &Response) -> bool {
    let free = ui.memory(|memory| memory.focused().is_none() && memory.top_modal_layer().is_none());
    if free && !egui::Popup::is_any_open(ui.ctx()) {
        focus.request_focus();
    }
    let here = focus.has_focus();
    if here {
        let filter = EventFilter {
            vertical_arrows: true,
            horizontal_arrows: true,
            ..EventFilter::default()
        };
        ui.memory_mut(|memory| memory.set_focus_lock_filter(focus.id, filter));
    }
    here
}

fn keys(ui: &Ui, context: &mut PageContext<'_>, selected: Option<GapId>) {
    let gaps = &context.survey.gaps;
    let at = selected.and_then(|id| gaps.iter().position(|gap| gap.id == id));
    let Some(at) = at else { return };
    let last = gaps.len() - 1;
    let pressed = |key| ui.input(|input| input.key_pressed(key) && input.modifiers.is_none());
    let moves = [
        (Key::ArrowUp, at.saturating_sub(1)),
        (Key::ArrowDown, (at + 1).min(last)),
        (Key::PageUp, at.saturating_sub(10)),
        (Key::PageDown, (at + 10).min(last)),
        (Key::Home, 0),
        (Key::End, last),
    ];
    for (key, to) in moves {
        if pressed(key)
            && to != at
            && let Some(gap) = gaps.get(to)
        {
            context.view.gaps.select(Some(gap.id));
        }
    }
    if pressed(Key::Enter) {
        context.view.gaps.edit_wanted = true;
        ui.ctx().request_repaint();
    }
    if pressed(Key::Delete) {
        context.queue.command(Command::DeleteGap);
    }
}

fn heading(ui: &mut Ui, widths: &[f32]) {
    let colours = palette(ui);
    let total: f32 = widths.iter().sum();
    let (rect, _) = ui.allocate_exact_size(vec2(total, ROW_HEIGHT), Sense::hover());
    ui.painter().rect_filled(rect, 0.0, colours.strip);
    let font = FontId::new(TextStyle::Small.resolve(ui.style()).size, bold());
    let mut left = rect.left();
    for (column, width) in COLUMNS.iter().zip(widths) {
        let (x, align) = if column.right {
            (left + width - PADDING, Align2::RIGHT_CENTER)
        } else {
            (left + PADDING, Align2::LEFT_CENTER)
        };
        let place = pos2(x, rect.center().y);
        let text = column.heading;
        ui.painter()
            .text(place, align, text, font.clone(), colours.muted);
        left += width;
    }
}

fn body_rows(
    ui: &mut Ui,
    context: &mut PageContext<'_>,
    widths: &[f32],
    selected: Option<GapId>,
    focused: bool,
) {
    let survey = context.survey;
    let wanted = std::mem::take(&mut context.view.gaps.scroll_wanted);
    let mut area = ScrollArea::vertical().auto_shrink(false).id_salt("rows");
    if wanted
        && let Some(at) = survey.gaps.iter().position(|gap| Some(gap.id) == selected)
        && let Some(offset) = offset_for(ui, at)
    {
        area = area.vertical_scroll_offset(offset);
    }
    let output = area.show_rows(ui, ROW_HEIGHT, survey.gaps.len(), |ui, range| {
        for at in range {
            let Some(gap) = survey.gaps.get(at) else {
                continue;
            };
            let row = rows::row(survey, context.results, at, gap);
            let here = Some(gap.id) == selected;
            let response = draw_row(ui, widths, at, gap, &row, here, focused);
            if response.clicked() {
                context.view.gaps.select(Some(gap.id));
                ui.memory_mut(|memory| memory.request_focus(ledger_id()));
            }
            if response.double_clicked() {
                context.view.gaps.edit_wanted = true;
            }
        }
    });
    let shown = (output.state.clamped_offset().y, output.inner_rect.height());
    ui.data_mut(|data| data.insert_temp(ledger_id(), shown));
}

/// The scroll offset that brings a row into sight, where it is out of it.
fn offset_for(ui: &Ui, at: usize) -> Option<f32> {
    let (offset, height) = ui.data(|data| data.get_temp::<(f32, f32)>(ledger_id()))?;
    #[expect(
        clippy::cast_precision_loss,
        reason = "a ledger has no millions of rows"
    )]
    let top = at as f32 * ROW_HEIGHT;
    if top < offset {
        Some(top)
    } else if top + ROW_HEIGHT > offset + height {
        Some(top + ROW_HEIGHT - height)
    } else {
        None
    }
}

fn draw_row(
    ui: &mut Ui,
    widths: &[f32],
    at: usize,
    gap: &Gap,
    row: &Row<'_>,
    selected: bool,
    focused: bool,
) -> Response {
    let colours = palette(ui);
    let total: f32 = widths.iter().sum();
    let (_, rect) = ui.allocate_space(vec2(total, ROW_HEIGHT));
    // Rows take clicks but not the focus: the ledger as a whole is one stop for Tab.
    let response = ui.interact(rect, Id::unique(("ledger row", gap.id)), Sense::CLICK);
    let fill = match (selected, response.hovered(), at % 2) {
        (true, ..) => colours.selection,
        (_, true, _) => colours.button,
        (_, _, 1) => colours.stripe,
        _ => colours.card,
    };
    ui.painter().rect_filled(rect, 0.0, fill);
    if selected && focused {
        let line = Stroke::new(2.0, colours.accent);
        let inside = egui::StrokeKind::Inside;
        ui.painter().rect_stroke(rect, 0.0, line, inside);
    }
    let mut left = rect.left();
    for ((cell, column), width) in row.cells.iter().zip(&COLUMNS).zip(widths) {
        let space = Rect::from_min_size(pos2(left, rect.top()), vec2(*width, ROW_HEIGHT));
        draw_cell(
            ui,
            colours,
            space.shrink2(vec2(PADDING, 0.0)),
            cell,
            column.right,
        );
        left += width;
    }
    if let Some(finding) = row.finding {
        let font = TextStyle::Body.resolve(ui.style());
        let place = pos2(left + PADDING, rect.center().y);
        let colour = widgets::severity_colour(ui, finding.severity);
        let sign = widgets::sign(finding.severity);
        ui.painter()
            .text(place, Align2::LEFT_CENTER, sign, font, colour);
    }
    describe(response, gap, row, selected)
}

fn draw_cell(ui: &Ui, colours: &Palette, space: Rect, words: &str, right: bool) {
    let truncate = Some(TextWrapMode::Truncate);
    let galley = WidgetText::from(words).into_galley(ui, truncate, space.width(), TextStyle::Body);
    let x = if right {
        space.right() - galley.size().x
    } else {
        space.left()
    };
    let place = pos2(x, space.center().y - galley.size().y / 2.0);
    ui.painter().galley(place, galley, colours.text);
}

/// The whole row in words, for the hover text and for assistive technology.
fn describe(response: Response, gap: &Gap, row: &Row<'_>, selected: bool) -> Response {
    let [number, name, zone, facing, form, count, area, share, ..] = &row.cells;
    let words = format!(
        "{number} {name}: {zone}, {facing}, {form}, {count} of it, EqLA {area} cm², {share}"
    );
    response.widget_info(|| WidgetInfo::selected(Role::ListBoxOption, true, selected, &words));
    let mut hover = words.clone();
    if let Some(finding) = row.finding {
        hover = format!(
            "{hover}\n{}: {}",
            severity(finding.severity),
            finding.sentence
        );
    }
    if !gap.note.is_empty() {
        hover = format!("{hover}\n{}", gap.note);
    }
    response.on_hover_text(hover)
}

fn severity(severity: Severity) -> &'static str {
    severity.name()
}
