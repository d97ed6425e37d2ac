//! The ledger: only the rows in sight are drawn, and the keyboard moves through all of them.

use super::columns::Column;
use super::ledger_view::ledger_id;
use super::listing::{Filter, Listing, Sort};
use super::rows::Row;
use super::selection::listing;
use super::view::GapsContext;
use super::{cell, filter, keys, mark, moving};
use crate::physics::counts::whole;
use crate::survey::{Gap, GapId};
use crate::window::help;
use crate::window::theme::{Palette, TOUCH_TARGET, bold, palette};
use crate::window::units;
use crate::window::widgets;
use eframe::egui;
use egui::accesskit::Role;
use egui::{
    Align2, FontId, Id, Rect, Response, ScrollArea, Sense, Stroke, StrokeKind, TextStyle,
    TextWrapMode, Ui, WidgetInfo, WidgetText, pos2, vec2,
};

const ROW_HEIGHT: f32 = 22.0;
const PADDING: f32 = 5.0;

/// How rows and columns lie.
struct Lay {
    columns: Vec<(Column, f32)>,
    width: f32,
    row: f32,
}

impl Lay {
    fn new(ui: &Ui, shown: &[Column]) -> Self {
        let bar = ui.spacing().scroll.bar_width + 4.0;
        let available = ui.available_width() - bar;
        let looks = || shown.iter().map(|column| column.look());
        let least: f32 = looks().map(|look| look.width).sum();
        let growing: f32 = looks()
            .filter(|look| look.grows)
            .map(|look| look.width)
            .sum();
        let more = 1.0 + (available - least).max(0.0) / growing.max(1.0);
        let width = |column: Column| {
            let look = column.look();
            if look.grows {
                look.width * more
            } else {
                look.width
            }
        };
        let columns: Vec<(Column, f32)> = shown
            .iter()
            .map(|&column| (column, width(column)))
            .collect();
        Self {
            width: columns.iter().map(|(_, width)| width).sum(),
            columns,
            row: if widgets::is_touch(ui) {
                TOUCH_TARGET
            } else {
                ROW_HEIGHT
            },
        }
    }

    /// Each column's part of a row.
    fn cells(&self, row: Rect) -> impl Iterator<Item = (Column, Rect)> {
        self.columns
            .iter()
            .scan(row.left(), move |left, (column, width)| {
                let rect = Rect::from_min_size(pos2(*left, row.top()), vec2(*width, row.height()));
                *left += width;
                Some((*column, rect))
            })
    }
}

/// Draws what stands above the ledger: search and filter.
pub(super) fn above(ui: &mut Ui, context: &mut GapsContext<'_>) {
    let mut rows = listing(context);
    // Whoever adds a gap wants to see it, whatever was searched for before.
    let selected = context.view.selected_in(context.survey);
    if std::mem::take(&mut context.view.ledger.added)
        && selected.is_some_and(|id| rows.row(id).is_none())
    {
        context.view.ledger.wanted.filter = Filter::default();
        rows = listing(context);
    }
    filter::show(ui, context, &rows);
}

/// Draws the ledger.
pub(super) fn show(ui: &mut Ui, context: &mut GapsContext<'_>) {
    let rows = listing(context);
    let colours = palette(ui);
    let frame = egui::Frame::new()
        .fill(colours.card)
        .stroke(Stroke::new(1.0, colours.rule));
    frame.show(ui, |ui| {
        ui.spacing_mut().item_spacing = vec2(0.0, 0.0);
        let lay = Lay::new(ui, context.view.columns.shown());
        let mut area = ScrollArea::horizontal()
            .auto_shrink(false)
            .id_salt("ledger");
        if std::mem::take(&mut context.view.ledger.column_scroll_wanted)
            && let Some(offset) = offset_for_column(ui, context, &lay)
        {
            area = area.horizontal_scroll_offset(offset);
        }
        let output = area.show(ui, |ui| table(ui, context, &rows, &lay));
        let shown = (output.state.clamped_offset().x, output.inner_rect.width());
        ui.data_mut(|data| data.insert_temp(across_id(), shown));
    });
}

fn across_id() -> Id {
    Id::unique("the ledger across")
}

/// Under which it is kept how many rows were drawn last.
fn drawn_id() -> Id {
    Id::unique("rows of the ledger drawn")
}

const HELP: &str = "Up and Down go through the gaps, with Shift several are selected; Left and \
     Right go from cell to cell, Enter edits the cell, Esc takes it back; without a cell Enter goes \
     to the form.";

fn table(ui: &mut Ui, context: &mut GapsContext<'_>, rows: &Listing, lay: &Lay) {
    ui.set_min_width(lay.width);
    heading(ui, context, lay);
    let body = Rect::from_min_size(ui.cursor().min, vec2(lay.width, ui.available_height()));
    let focus = ui.interact(body, ledger_id(), Sense::focusable_noninteractive());
    focus.widget_info(|| WidgetInfo::labeled(Role::ListBox, true, "Gap ledger"));
    widgets::hold_focus(ui, &focus);
    // Keys belong to an open list, not to the rows under it.
    let here = focus.has_focus() && !egui::Popup::is_any_open(ui.ctx());
    help::offer(ui, &focus, "Gap ledger", HELP);
    if here {
        widgets::hold_arrows(ui, focus.id);
        let selected = context.view.selected_in(context.survey);
        keys::run(ui, context, rows, selected, rows_in_sight(ui, lay));
    }
    if rows.lines.is_empty() {
        ui.add_space(10.0);
        ui.horizontal(|ui| {
            ui.add_space(10.0);
            ui.label(if context.survey.gaps.is_empty() {
                "No gap yet. Walk round the vehicle and add each gap you see, feel or hear."
            } else {
                "No gap matches: show all, or search for something else."
            });
        });
        return;
    }
    body_rows(ui, context, rows, lay, here);
    let shown = context.view.columns.shown().to_vec();
    let ids: Vec<GapId> = rows.lines.iter().map(|line| line.id).collect();
    let back = cell::came_back(ui, context, here);
    if cell::after(ui, context, &shown, &ids) || back {
        focus.request_focus();
    }
}

/// The headings; a click sorts.
fn heading(ui: &mut Ui, context: &mut GapsContext<'_>, lay: &Lay) {
    let colours = palette(ui);
    let (rect, _) = ui.allocate_exact_size(vec2(lay.width, lay.row), Sense::hover());
    ui.painter().rect_filled(rect, 0.0, colours.strip);
    let sort = &mut context.view.ledger.wanted.sort;
    for (column, rect) in lay.cells(rect) {
        let look = column.look();
        // Headings take clicks but not the focus: the filter holds the order for the keyboard.
        let response = ui.interact(rect, Id::unique(("heading", column)), Sense::CLICK);
        let name = format!("Sort by {}", look.words);
        response.widget_info(|| WidgetInfo::labeled(Role::Button, true, &name));
        if response.hovered() {
            ui.painter().rect_filled(rect, 0.0, colours.button_hovered);
        }
        let way = sort.filter(|sort| sort.column == column);
        let way = way.map_or("", |sort| if sort.down { " ▼" } else { " ▲" });
        let (x, align) = if look.right {
            (rect.right() - PADDING, Align2::RIGHT_CENTER)
        } else {
            (rect.left() + PADDING, Align2::LEFT_CENTER)
        };
        let font = FontId::new(TextStyle::Small.resolve(ui.style()).size, bold());
        let shown = units::shown(ui.ctx());
        let words = format!("{}{way}", shown.head(look.heading).0);
        let place = pos2(x, rect.center().y);
        ui.painter()
            .with_clip_rect(rect.intersect(ui.clip_rect()))
            .text(place, align, words.trim_start(), font, colours.muted);
        if response.on_hover_text(name).clicked() {
            *sort = Sort::clicked(*sort, column);
        }
    }
}

fn body_rows(ui: &mut Ui, context: &mut GapsContext<'_>, rows: &Listing, lay: &Lay, focused: bool) {
    let survey = context.survey;
    let selected = context.view.selected_in(survey);
    let mut area = ScrollArea::vertical().auto_shrink(false).id_salt("rows");
    let before = ui.data(|data| data.get_temp::<(f32, f32)>(ledger_id()));
    // A gap just added may be in the list only a frame later, and the list itself be new: how much
    // it shows, and how far it can be scrolled, is known once it was drawn. What is scrolled further
    // springs back.
    let drawn = ui.data(|data| data.get_temp::<usize>(drawn_id()));
    let before_it = before.filter(|_| drawn == Some(rows.lines.len()));
    let mut scrolled = false;
    if context.view.scroll_wanted
        && let Some(at) = selected.and_then(|id| rows.row(id))
    {
        match before_it {
            Some(shown) => {
                context.view.scroll_wanted = false;
                if let Some(offset) = into_sight(shown, top_of(at, lay.row), lay.row) {
                    scrolled = true;
                    area = area.vertical_scroll_offset(offset);
                }
            }
            None => ui.ctx().request_repaint(),
        }
    }
    let output = area.show_rows(ui, lay.row, rows.lines.len(), |ui, range| {
        for at in range {
            let line = rows.lines.get(at);
            let Some(row) = line.and_then(|line| Row::new(survey, context.results, *line)) else {
                ui.allocate_space(vec2(lay.width, lay.row));
                continue;
            };
            one_row(ui, context, rows, lay, (at, &row), focused);
        }
        moving::carry(ui, context, rows, lay.row);
    });
    let shown = (output.state.clamped_offset().y, output.inner_rect.height());
    ui.data_mut(|data| {
        data.insert_temp(ledger_id(), shown);
        data.insert_temp(drawn_id(), rows.lines.len());
    });
    // A message or a card more may have left less room: what was in sight stays in sight.
    let less_room = before.is_some_and(|(_, height)| shown.1 < height);
    let meant = |at| scrolled || before.is_some_and(|before| in_sight(before, at, lay.row));
    if less_room
        && shown.1 >= lay.row
        && let Some(at) = selected.and_then(|id| rows.row(id))
        && meant(at)
        && !in_sight(shown, at, lay.row)
    {
        context.view.scroll_wanted = true;
        ui.ctx().request_repaint();
    }
}

/// Whether a row is wholly within what is shown.
fn in_sight(shown: (f32, f32), at: usize, row: f32) -> bool {
    into_sight(shown, top_of(at, row), row).is_none()
}

/// Where a row begins.
fn top_of(at: usize, row: f32) -> f32 {
    #[expect(
        clippy::cast_precision_loss,
        reason = "a ledger has no millions of rows"
    )]
    let at = at as f32;
    at * row
}

fn one_row(
    ui: &mut Ui,
    context: &mut GapsContext<'_>,
    rows: &Listing,
    lay: &Lay,
    (at, row): (usize, &Row<'_>),
    focused: bool,
) {
    let id = row.gap.id;
    let one = context.view.selected_in(context.survey);
    let look = RowLook {
        odd: at % 2 == 1,
        selected: context.view.is_chosen(id, one),
        here: focused && one == Some(id),
        column: context.view.ledger.column,
    };
    let (rect, response) = draw_row(ui, lay, row, look);
    if one == Some(id) {
        context.view.menu.row = Some(rect.intersect(ui.clip_rect()));
    }
    let mut cells = lay.cells(rect);
    let number = cells.find(|(column, _)| *column == Column::Number);
    let grip = number.and_then(|(_, number)| moving::grip(ui, context, id, number));
    let response = match grip {
        Some(grip) => response.union(grip),
        None => response,
    };
    if let Some(open) = context.view.ledger.cell
        && open.gap == id
        && let Some((_, rect)) = lay.cells(rect).find(|(column, _)| *column == open.column)
    {
        cell::show(ui, context, row.gap, open, rect);
    }
    let under = response.interact_pointer_pos().and_then(|pointer| {
        let mut cells = lay.cells(rect);
        cells.find(|(_, rect)| rect.x_range().contains(pointer.x))
    });
    if response.double_clicked() {
        match under {
            Some((column, _)) => cell::begin(ui, context, id, column),
            None => context.view.edit_wanted = true,
        }
    } else if response.secondary_clicked() {
        if !context.view.is_chosen(id, one) {
            context.view.select(Some(id));
        }
        ui.memory_mut(|memory| memory.request_focus(ledger_id()));
        let at = response.interact_pointer_pos().unwrap_or(rect.center());
        context.view.menu.open(ui, at);
    } else if response.clicked() {
        let modifiers = ui.input(|input| input.modifiers);
        context.view.ledger.cell = None;
        if modifiers.command {
            context.view.toggle(id, one);
        } else {
            let gaps = &mut context.view;
            gaps.move_to(rows, one, id, modifiers.shift);
        }
        ui.memory_mut(|memory| memory.request_focus(ledger_id()));
    }
}

#[derive(Clone, Copy)]
struct RowLook {
    odd: bool,
    selected: bool,
    here: bool,
    column: Option<Column>,
}

fn draw_row(ui: &mut Ui, lay: &Lay, row: &Row<'_>, look: RowLook) -> (Rect, Response) {
    let colours = palette(ui);
    let (_, rect) = ui.allocate_space(vec2(lay.width, lay.row));
    // Rows take clicks but not the focus: the ledger as a whole is one stop for Tab.
    let response = ui.interact(rect, Id::unique(("ledger row", row.gap.id)), Sense::CLICK);
    let fill = match (look.selected, response.hovered(), look.odd) {
        (true, ..) => colours.selection,
        (_, true, _) => colours.button,
        (.., true) => colours.stripe,
        _ => colours.card,
    };
    // The ledger lies on a card already.
    if fill != colours.card {
        ui.painter().rect_filled(rect, 0.0, fill);
    }
    for (column, rect) in lay.cells(rect) {
        draw_cell(ui, colours, rect, row, column);
        if look.here && look.column == Some(column) {
            let line = Stroke::new(2.0, colours.accent);
            ui.painter()
                .rect_stroke(rect, 0.0, line, StrokeKind::Inside);
        }
    }
    if look.here && look.column.is_none() {
        let line = Stroke::new(2.0, colours.accent);
        ui.painter()
            .rect_stroke(rect, 0.0, line, StrokeKind::Inside);
    } else if look.selected {
        let edge = Rect::from_min_size(rect.min, vec2(3.0, rect.height()));
        ui.painter().rect_filled(edge, 0.0, colours.accent);
    }
    (rect, describe(response, row, look.selected))
}

fn draw_cell(ui: &Ui, colours: &Palette, rect: Rect, row: &Row<'_>, column: Column) {
    match column {
        Column::Mark => mark::purpose(ui, rect.center(), row.gap),
        Column::Noticed => {
            if let Some(finding) = row.finding {
                let colour = widgets::severity_colour(ui, finding.severity);
                let font = TextStyle::Body.resolve(ui.style());
                let sign = widgets::sign(finding.severity);
                let centre = rect.center();
                ui.painter()
                    .text(centre, Align2::CENTER_CENTER, sign, font, colour);
            }
        }
        _ => {
            let space = rect.shrink2(vec2(PADDING, 0.0));
            let (shown, look) = (units::shown(ui.ctx()), column.look());
            let (_, unit) = shown.head(look.heading);
            let words = row.cell(column);
            write_cell(ui, colours, space, &shown.cell(&words, unit), look.right);
        }
    }
}

fn write_cell(ui: &Ui, colours: &Palette, space: Rect, words: &str, right: bool) {
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
fn describe(response: Response, row: &Row<'_>, selected: bool) -> Response {
    let shown = units::shown(&response.ctx);
    response.widget_info(|| {
        let words = row.words();
        WidgetInfo::selected(Role::ListBoxOption, true, selected, shown.text(&words))
    });
    response.on_hover_ui(|ui| {
        let words = hover(row.gap, row);
        ui.label(shown.text(&words));
    })
}

fn hover(gap: &Gap, row: &Row<'_>) -> String {
    let mut words = row.words();
    if let Some(finding) = row.finding {
        let severity = finding.severity.name();
        words = format!("{words}\n{severity}: {}", finding.sentence);
    }
    if !gap.note.is_empty() {
        words = format!("{words}\n{}", gap.note);
    }
    words
}

/// The scroll offset that brings the keyboard's column into sight.
fn offset_for_column(ui: &Ui, context: &GapsContext<'_>, lay: &Lay) -> Option<f32> {
    let shown = ui.data(|data| data.get_temp::<(f32, f32)>(across_id()))?;
    let Some(wanted) = context.view.ledger.column else {
        return into_sight(shown, 0.0, 0.0);
    };
    let row = Rect::from_min_size(pos2(0.0, 0.0), vec2(lay.width, lay.row));
    let (_, rect) = lay.cells(row).find(|(column, _)| *column == wanted)?;
    into_sight(shown, rect.left(), rect.width())
}

fn into_sight((offset, shown): (f32, f32), start: f32, size: f32) -> Option<f32> {
    if start < offset {
        Some(start)
    } else if start + size > offset + shown {
        Some(start + size - shown)
    } else {
        None
    }
}

/// How many rows are in sight, one of them kept when turning the page.
fn rows_in_sight(ui: &Ui, lay: &Lay) -> usize {
    let shown = ui.data(|data| data.get_temp::<(f32, f32)>(ledger_id()));
    let height = shown.map_or(0.0, |(_, height)| height);
    let rows = whole(f64::from(height / lay.row));
    rows.saturating_sub(1).max(1)
}
