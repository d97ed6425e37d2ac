//! The one large form of site mode: the selected gap, in two columns, with the pad below.

use super::super::photos;
use super::super::view::GapsContext;
use super::pad::{self, PadField};
use crate::assess::GapLeakage;
use crate::assess::quantity::Kind;
use crate::survey::findings::body_reaches;
use crate::survey::number::whole;
use crate::survey::unit::{Dimension, named};
use crate::survey::{Certainty, Edit, Facing, Field, Form, Gap, GapPart, Item, Purpose};
use crate::window::commands::Command;
use crate::window::ledger::blank_like;
use crate::window::theme::{bold, palette};
use crate::window::units;
use crate::window::widgets::{self, Choice, NumberField, TextField};
use eframe::egui;
use egui::{RichText, ScrollArea, Ui, vec2};

/// Rows of the pad, and the row of buttons under it.
const ROWS_BELOW: f32 = 5.0;
/// Height of the small label over a field.
const LABEL: f32 = 17.0;

/// A field of the form.
#[derive(Clone, Copy)]
enum Cell {
    Form,
    Purpose,
    Size(Field, Option<f64>),
    Count,
    Certainty,
    Part,
    Facing,
    Along,
    Height,
    Name,
}

/// Draws the form, or says how a gap is added.
pub(super) fn show(ui: &mut Ui, context: &mut GapsContext<'_>) {
    let id = context.view.selected_in(context.survey);
    let gap = id.and_then(|id| context.survey.gap(id));
    let Some(gap) = gap else {
        ui.heading("No gap yet");
        ui.label("Touch the drawing where it is, or press Found at a place.");
        buttons(ui, context);
        return;
    };
    heading(ui, context, gap);
    let row = ui.spacing().interact_size.y + ui.spacing().item_spacing.y;
    let height = (ui.available_height() - ROWS_BELOW * row).max(2.0 * row);
    let cells = cells(&gap.form);
    ScrollArea::vertical()
        .id_salt(("site form", gap.id))
        .auto_shrink(false)
        .max_height(height)
        .show(ui, |ui| {
            for pair in cells.chunks(2) {
                two(ui, context, gap, pair);
            }
            photos::show(ui, context, gap, context.marks(Item::Gap(gap.id)));
            widgets::follow_focus(ui);
        });
    let numbers: Vec<PadField> = cells
        .iter()
        .filter_map(|cell| number_of(*cell))
        .map(|field| PadField {
            id: NumberField::id_of(field, Item::Gap(gap.id)),
            is_length: named(field.unit()).is_some_and(|unit| unit.dimension == Dimension::Length),
        })
        .collect();
    let edit_wanted = std::mem::take(&mut context.view.edit_wanted);
    let pad = &mut context.view.site.pad;
    if edit_wanted {
        pad.lead_to(numbers.first().map(|field| field.id));
        ui.ctx().request_repaint();
    }
    pad::show(ui, pad, &numbers);
    buttons(ui, context);
}

/// The number and name of the gap, and its leakage.
fn heading(ui: &mut Ui, context: &GapsContext<'_>, gap: &Gap) {
    let leakage = context.results.and_then(|results| {
        let answers = &results.assessment().gaps;
        let answer = answers.iter().find(|answer| answer.id == gap.id)?;
        Some(match &answer.leakage {
            GapLeakage::Known(figures) => format!("EqLA {}", Kind::LeakageCm2.text(figures.eqla)),
            GapLeakage::NotSized { reason } | GapLeakage::Impossible { reason } => reason.clone(),
            GapLeakage::Compartment => "counts only through the gaps behind it".to_owned(),
        })
    });
    // One line, whatever is told: the fields below stay where they are.
    ui.horizontal(|ui| {
        let title = format!("Gap {}: {}", gap.id, gap.shown_name());
        ui.label(RichText::new(title).heading().family(bold()));
        if let Some(words) = leakage {
            let words = units::text(ui.ctx(), &words);
            let text = RichText::new(&words).color(palette(ui).muted);
            ui.add(egui::Label::new(text).truncate())
                .on_hover_text(words);
        }
    });
}

/// What can be done with the gap, and after it.
fn buttons(ui: &mut Ui, context: &mut GapsContext<'_>) {
    let some = !context.survey.gaps.is_empty();
    ui.horizontal(|ui| {
        let all: [(&str, &str, bool, &[Command]); 4] = [
            (
                "New gap",
                "Adds a gap with the zone and facing of this one",
                true,
                &[Command::AddGap],
            ),
            (
                "Photo",
                "Adds photos to this gap",
                some,
                &[Command::AddPhotos],
            ),
            (
                "Photo first",
                "Adds a gap of which nothing is said yet, and its photo; the rest may wait",
                true,
                &[Command::AddGap, Command::AddPhotos],
            ),
            (
                "Next place",
                "On to the next usual place that nobody has looked at",
                true,
                &[Command::WalkRound],
            ),
        ];
        for (name, words, enabled, commands) in all {
            let button = ui.add_enabled(enabled, egui::Button::new(name));
            if button.on_hover_text(words).clicked() {
                for command in commands {
                    context.queue.command(*command);
                }
            }
        }
    });
}

/// The fields, the first eight of them those that a gap is written down with.
fn cells(form: &Form) -> Vec<Cell> {
    let mut cells = vec![Cell::Form, Cell::Purpose];
    cells.extend(
        form.sizes()
            .into_iter()
            .map(|(field, size)| Cell::Size(field, size)),
    );
    cells.extend([
        Cell::Count,
        Cell::Certainty,
        Cell::Part,
        Cell::Facing,
        Cell::Along,
        Cell::Height,
        Cell::Name,
    ]);
    cells
}

fn field_of(cell: Cell) -> Field {
    match cell {
        Cell::Form => Field::Form,
        Cell::Purpose => Field::Purpose,
        Cell::Size(field, _) => field,
        Cell::Count => Field::GapCount,
        Cell::Certainty => Field::Certainty,
        Cell::Part => Field::GapPart,
        Cell::Facing => Field::Facing,
        Cell::Along => Field::Along,
        Cell::Height => Field::MiddleHeight,
        Cell::Name => Field::GapName,
    }
}

/// The field of a cell that the pad types into.
fn number_of(cell: Cell) -> Option<Field> {
    let number = matches!(
        cell,
        Cell::Size(..) | Cell::Count | Cell::Along | Cell::Height
    );
    number.then(|| field_of(cell))
}

/// Two fields beside each other.
fn two(ui: &mut Ui, context: &mut GapsContext<'_>, gap: &Gap, cells: &[Cell]) {
    let space = ui.spacing().item_spacing.x;
    let width = (ui.available_width() - space) / 2.0;
    let height = LABEL + ui.spacing().interact_size.y;
    ui.horizontal_top(|ui| {
        for cell in cells {
            ui.allocate_ui(vec2(width, height), |ui| {
                ui.vertical(|ui| {
                    ui.set_width(width);
                    ui.spacing_mut().item_spacing.y = 1.0;
                    over(ui, field_of(*cell));
                    one(ui, context, gap, *cell, width);
                });
            });
        }
    });
}

/// The small label over a field.
fn over(ui: &mut Ui, field: Field) {
    let shown = units::shown(ui.ctx());
    let unit = shown.units().symbol(field.unit());
    let words = if unit.is_empty() {
        field.label().to_owned()
    } else {
        format!("{} ({unit})", field.label())
    };
    ui.label(RichText::new(words).small().color(palette(ui).muted));
}

fn one(ui: &mut Ui, context: &mut GapsContext<'_>, gap: &Gap, cell: Cell, width: f32) {
    let mut changed = gap.clone();
    let of = &mut changed;
    let done = match cell {
        Cell::Form => {
            let current = blank_like(&gap.form);
            let chosen = choice(
                ui,
                gap,
                Field::Form,
                (&current, &Form::blanks()),
                width,
                |form| form.name(),
            );
            put(&mut of.form, chosen)
        }
        Cell::Purpose => {
            let all = (&gap.purpose, &Purpose::ALL[..]);
            let name = |purpose: &Purpose| purpose.name();
            let chosen = choice(ui, gap, Field::Purpose, all, width, name);
            put(&mut of.purpose, chosen)
        }
        Cell::Certainty => {
            let all = (&gap.certainty, &Certainty::ALL[..]);
            let name = |sure: &Certainty| sure.name();
            let chosen = choice(ui, gap, Field::Certainty, all, width, name);
            put(&mut of.certainty, chosen)
        }
        Cell::Part => {
            let all = (&gap.part, &GapPart::ALL[..]);
            let chosen = choice(ui, gap, Field::GapPart, all, width, |part| part.name());
            put(&mut of.part, chosen)
        }
        Cell::Facing => {
            let all = (&gap.facing, &Facing::ALL[..]);
            let chosen = choice(ui, gap, Field::Facing, all, width, |facing| facing.name());
            put(&mut of.facing, chosen)
        }
        Cell::Size(field, size) => {
            let typed = number(ui, context, gap, field, size);
            let some = typed.is_some();
            if let Some(size) = typed {
                of.form.set_size(field, size);
                estimated(of, gap);
            }
            some
        }
        Cell::Count => {
            let count = Some(f64::from(gap.count));
            let typed = number(ui, context, gap, Field::GapCount, count).flatten();
            put(&mut of.count, typed.map(whole))
        }
        Cell::Along => {
            let along = gap.position.along_m;
            let typed = number(ui, context, gap, Field::Along, along);
            put(&mut of.position.along_m, typed)
        }
        Cell::Height => {
            let height = gap.position.height_m;
            let typed = number(ui, context, gap, Field::MiddleHeight, height);
            put(&mut of.position.height_m, typed)
        }
        Cell::Name => {
            let typed = TextField::new(Field::GapName, &gap.name)
                .id(Item::Gap(gap.id))
                .width(width - 12.0)
                .compact()
                .show(ui, context.queue);
            put(&mut of.name, typed)
        }
    };
    if done {
        context.queue.typed(Edit::gap(changed));
    }
}

/// A size typed over a guess is no guess any more.
fn estimated(changed: &mut Gap, before: &Gap) {
    if before.certainty == Certainty::Guessed && changed.form != before.form {
        changed.certainty = Certainty::Estimated;
    }
}

fn put<T>(part: &mut T, value: Option<T>) -> bool {
    let some = value.is_some();
    if let Some(value) = value {
        *part = value;
    }
    some
}

fn choice<T: PartialEq + Clone>(
    ui: &mut Ui,
    gap: &Gap,
    field: Field,
    (current, all): (&T, &[T]),
    width: f32,
    name: impl Fn(&T) -> &'static str,
) -> Option<T> {
    Choice::of(field, current, all)
        .id(Item::Gap(gap.id))
        .width(width - 12.0)
        .compact()
        .show(ui, |one| name(one).to_owned())
}

/// A number field; `Some` is a new value.
fn number(
    ui: &mut Ui,
    context: &mut GapsContext<'_>,
    gap: &Gap,
    field: Field,
    value: Option<f64>,
) -> Option<Option<f64>> {
    let marks = context.marks(Item::Gap(gap.id));
    let mut input = NumberField::new(field, value)
        .id(Item::Gap(gap.id))
        .marks(marks)
        .on_body(body_reaches(context.survey, field))
        .compact();
    if matches!(field, Field::Bends | Field::GapCount) {
        input = input.whole().required();
    }
    let width = ui.available_width() - 12.0;
    input.width(width).show(ui, context.queue)
}
