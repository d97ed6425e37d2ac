//! Draws sections of the report: the same sentences, tables and cautions that page and paper show.

use super::answer::working_button;
use super::findings::finding_row;
use super::words::{explain_marks, link, muted, tell_name};
use crate::report::{Align, Block, Fact, Row, RowKind, Section, Table};
use crate::survey::{Item, Place};
use crate::window::request::Queue;
use crate::window::theme::palette;
use crate::window::units;
use eframe::egui;
use egui::{Color32, Grid, Label, Layout, RichText, ScrollArea, Sense, Ui, UiBuilder, vec2};

/// Puts a control in the place of a cell, or behind the last one, where the column is as many as
/// the row has cells. `false` leaves the cell to be drawn.
pub type Controls<'a> = &'a mut dyn FnMut(&mut Ui, &mut Queue, &Row, usize) -> bool;

/// Draws what stands in a section, without its heading.
pub fn section(ui: &mut Ui, queue: &mut Queue, section: &Section) {
    drawn(ui, queue, section, None);
}

/// The same with a page's controls in its tables.
pub fn section_with(ui: &mut Ui, queue: &mut Queue, section: &Section, controls: Controls<'_>) {
    drawn(ui, queue, section, Some(controls));
}

fn drawn(ui: &mut Ui, queue: &mut Queue, section: &Section, mut controls: Option<Controls<'_>>) {
    let shown = units::shown(ui.ctx());
    let section = &*section.shown(&shown);
    for (at, block) in section.blocks.iter().enumerate() {
        ui.push_id(("block", &section.title, at), |ui| {
            match (block, &mut controls) {
                (Block::Table { table }, Some(controls)) => {
                    table_with(ui, queue, table, Some(controls));
                }
                _ => draw(ui, queue, block),
            }
        });
    }
    if let Some(topic) = section.topic {
        working_button(ui, queue, topic, &section.title);
    }
}

/// Draws some blocks; what only paper can hold is left out.
pub fn block(ui: &mut Ui, queue: &mut Queue, salt: &str, block: &Block) {
    let shown = units::shown(ui.ctx());
    ui.push_id(salt, |ui| draw(ui, queue, &block.shown(&shown)));
}

/// Draws a section that is a part of a card: its heading and what stands in it.
pub fn part(ui: &mut Ui, queue: &mut Queue, part: &Section) {
    let title = units::text(ui.ctx(), &part.title);
    ui.label(RichText::new(title).strong());
    section(ui, queue, part);
}

/// The colour of words by the sign in front of them, which says the same.
#[must_use]
pub fn sign_colour(ui: &Ui, words: &str) -> Color32 {
    let colours = palette(ui);
    match words.chars().next() {
        Some('✔') => colours.ok,
        Some('▲') => colours.warning,
        Some('✖' | '⚠') => colours.danger,
        Some('ℹ') => colours.muted,
        _ => colours.text,
    }
}

fn draw(ui: &mut Ui, queue: &mut Queue, block: &Block) {
    match block {
        Block::Plain { sentences } => sentences.iter().for_each(|words| paragraph(ui, words)),
        Block::Paragraph { text } => paragraph(ui, text),
        Block::Heading { text } => {
            ui.add_space(6.0);
            ui.label(RichText::new(text).strong());
        }
        Block::Note { text } => {
            muted(ui, text);
        }
        Block::Points { points } => points.iter().for_each(|words| point(ui, words)),
        Block::Facts { rows } => facts(ui, queue, rows),
        Block::Caution { title, text } => caution(ui, title, text),
        Block::Finding { finding, .. } => finding_row(ui, queue, finding, true),
        Block::Table { table } => table_with(ui, queue, table, None),
        Block::Figure { .. } | Block::Photos { .. } | Block::Signature { .. } => {}
    }
}

fn paragraph(ui: &mut Ui, words: &str) {
    let text = RichText::new(words).color(sign_colour(ui, words));
    let response = ui.add(Label::new(text).wrap());
    explain_marks(response, words);
}

fn point(ui: &mut Ui, words: &str) {
    ui.horizontal_top(|ui| {
        ui.label("–");
        paragraph(ui, words);
    });
}

fn caution(ui: &mut Ui, title: &str, text: &str) {
    let colour = palette(ui).danger;
    ui.label(RichText::new(format!("⚠ {title}")).color(colour).strong());
    paragraph(ui, text);
}

/// Between the names of facts and their values.
const BESIDE_NAMES: f32 = 14.0;

/// Names take what they need, up to half of the width; values go on in the next line where the rest is too
/// narrow, so that no fact makes the page wider.
fn facts(ui: &mut Ui, queue: &mut Queue, rows: &[Fact]) {
    let room = ui.available_width();
    let font = egui::TextStyle::Body.resolve(ui.style());
    let wide = |name: &str| {
        ui.fonts_mut(|fonts| {
            let words = name.to_owned();
            fonts
                .layout_no_wrap(words, font.clone(), egui::Color32::PLACEHOLDER)
                .size()
                .x
        })
    };
    let widest = rows.iter().map(|fact| wide(&fact.name)).fold(0.0, f32::max);
    let names = widest.min(0.5 * room) + 1.0;
    Grid::new("facts")
        .num_columns(2)
        .spacing([BESIDE_NAMES, 3.0])
        .show(ui, |ui| {
            for fact in rows {
                let muted = palette(ui).muted;
                ui.horizontal(|ui| {
                    ui.set_max_width(names);
                    ui.add(Label::new(RichText::new(&fact.name).color(muted)).wrap());
                });
                ui.horizontal_wrapped(|ui| {
                    ui.set_max_width((room - names - BESIDE_NAMES).max(0.0));
                    ui.label(&fact.value);
                    if let Some(topic) = fact.topic {
                        working_button(ui, queue, topic, &fact.name);
                    }
                });
                ui.end_row();
            }
        });
}

/// Tables with less room than this stand closer.
const NARROW: f32 = 920.0;

/// Draws a table of the report, which scrolls sideways where it does not fit; rows that have a
/// working lead to it.
pub fn table(ui: &mut Ui, queue: &mut Queue, table: &Table) {
    let shown = units::shown(ui.ctx());
    table_with(ui, queue, &table.shown(&shown), None);
}

fn table_with(ui: &mut Ui, queue: &mut Queue, table: &Table, mut controls: Option<Controls<'_>>) {
    let with_controls = controls.is_some();
    let words = words_width(ui, table);
    let columns = table.columns.len() + 2;
    let between = if ui.available_width() < NARROW {
        9.0
    } else {
        14.0
    };
    ScrollArea::horizontal()
        .auto_shrink([false, true])
        .show(ui, |ui| {
            let grid = Grid::new("table").num_columns(columns).striped(true);
            grid.spacing([between, 3.0]).show(ui, |ui| {
                if table.columns.iter().any(|column| !column.head.is_empty()) {
                    for (_, column) in shown(table, with_controls) {
                        let head = RichText::new(&column.head).small().color(palette(ui).muted);
                        cell(ui, column.align, words, head);
                    }
                    ui.end_row();
                }
                let mut group = "";
                for (number, row) in table.rows.iter().enumerate() {
                    if row.kind == RowKind::Group {
                        group = first(row);
                    }
                    match &mut controls {
                        None => draw_row(ui, queue, table, (row, group), words),
                        Some(controls) => {
                            controlled_row(ui, queue, (table, number, words), controls)
                        }
                    }
                    ui.end_row();
                }
            });
        });
}

fn first(row: &Row) -> &str {
    row.cells.first().map_or("", String::as_str)
}

/// Draws a row under the heading of its group.
fn draw_row(ui: &mut Ui, queue: &mut Queue, table: &Table, (row, group): (&Row, &str), words: f32) {
    if row.kind == RowKind::Group {
        over_the_row(ui, RichText::new(first(row)).color(palette(ui).accent));
        return;
    }
    let label = first(row);
    for (at, column) in shown(table, false) {
        let text = words_of(ui, row, at);
        match row.working_of(at) {
            None => cell(ui, column.align, words, text),
            Some(topic) => {
                let layout = Layout::right_to_left(egui::Align::Center);
                ui.with_layout(layout, |ui| {
                    let what = format!("{label}, {}", column.head);
                    working_button(ui, queue, topic, &what);
                    ui.add(Label::new(text.strong()).extend());
                });
            }
        }
    }
    if let Some(topic) = row.topic {
        let what = match group {
            "" => label.to_owned(),
            group => format!("{label}, {group}"),
        };
        working_button(ui, queue, topic, &what);
    }
    if let Some(item) = row.item {
        way_to(ui, queue, item);
    }
}

/// Words that go over the whole row and make no column wider.
fn over_the_row(ui: &mut Ui, words: RichText) {
    let (rect, _) = ui.allocate_exact_size(vec2(0.0, ui.spacing().interact_size.y), Sense::hover());
    let mut over = ui.new_child(UiBuilder::new().max_rect(rect));
    over.add(Label::new(words).extend());
}

/// A link to what a row is about.
fn way_to(ui: &mut Ui, queue: &mut Queue, item: Item) {
    let way = match item {
        Item::Gap(id) => format!("go to gap {id}"),
        Item::InnerOpening(id) => format!("go to inner opening {id}"),
        _ => return,
    };
    let response = link(ui, RichText::new(&way).color(palette(ui).accent));
    tell_name(ui, response.id, &way);
    if response.clicked() {
        queue.go_to(Place::whole(item));
    }
}

/// A row whose cells give way to controls, and one cell more for those behind it.
fn controlled_row(
    ui: &mut Ui,
    queue: &mut Queue,
    (table, number, words): (&Table, usize, f32),
    controls: Controls<'_>,
) {
    let Some(row) = table.rows.get(number) else {
        return;
    };
    for (at, column) in shown(table, true) {
        ui.push_id((number, at), |ui| {
            if column.align == Align::Left {
                ui.set_max_width(words);
            }
            if !controls(ui, queue, row, at) {
                cell(ui, column.align, words, words_of(ui, row, at));
            }
        });
    }
    ui.push_id((number, "behind"), |ui| {
        controls(ui, queue, row, table.columns.len());
    });
}

fn words_of(ui: &Ui, row: &Row, at: usize) -> RichText {
    let text = row.cells.get(at).map_or("", String::as_str);
    let text = RichText::new(text).color(sign_colour(ui, text));
    if row.kind == RowKind::Total {
        text.strong()
    } else {
        text
    }
}

/// Columns with their places; boxes to tick are for paper, and for pages that put controls there.
fn shown(table: &Table, ticks: bool) -> impl Iterator<Item = (usize, &crate::report::Column)> {
    let columns = table.columns.iter().enumerate();
    columns.filter(move |(_, column)| ticks || column.align != Align::Tick)
}

/// Width for each column of words: what numbers leave, shared.
fn words_width(ui: &Ui, table: &Table) -> f32 {
    const NUMBER: f32 = 84.0;
    const LEAST: f32 = 98.0;
    // A link to the working and one to what a row is about stand behind the cells.
    let any = |is: fn(&Row) -> bool| if table.rows.iter().any(is) { 1.0 } else { 0.0 };
    let (mut of_words, mut of_numbers) = (0.0_f32, 0.0_f32);
    of_numbers += any(|row| row.topic.is_some()) + any(|row| row.item.is_some());
    for (_, column) in shown(table, false) {
        if column.align == Align::Left {
            of_words += 1.0;
        } else {
            of_numbers += 1.0;
        }
    }
    ((ui.available_width() - of_numbers * NUMBER) / of_words.max(1.0)).max(LEAST)
}

fn cell(ui: &mut Ui, align: Align, words: f32, text: RichText) {
    let height = ui.spacing().interact_size.y;
    if align == Align::Left {
        ui.horizontal(|ui| {
            ui.set_max_width(words);
            ui.set_min_height(height);
            ui.add(Label::new(text).wrap());
        });
    } else {
        let layout = Layout::right_to_left(egui::Align::Center);
        ui.with_layout(layout, |ui| {
            ui.set_min_size(vec2(0.0, height));
            ui.add(Label::new(text).extend());
        });
    }
}
