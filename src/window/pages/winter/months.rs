//! The monthly means of the typical winter, to be changed.

use super::super::fields::field_findings;
use super::view::WinterContext;
use crate::climate::{MonthDay, MonthlyWeather};
use crate::survey::{Edit, Field, Item, Stay};
use crate::window::units;
use crate::window::widgets::{self, NumberField};
use eframe::egui::{Grid, RichText, Ui};

/// A figure of a month.
type Figure = fn(&mut MonthlyWeather) -> &mut f64;

/// Width of a number in a field.
const FIELD: f32 = 66.0;

/// The figures of a month with their fields.
const FIGURES: [(Field, Figure); 5] = [
    (Field::MonthMean, |month| &mut month.mean_c),
    (Field::MonthRange, |month| &mut month.daily_range_k),
    (Field::MonthRh, |month| &mut month.rh_percent),
    (Field::MonthWind, |month| &mut month.wind_m_s),
    (Field::MonthSun, |month| &mut month.sunshine_h_per_day),
];

/// Draws the table, folded.
pub(super) fn show(ui: &mut Ui, context: &mut WinterContext<'_>) {
    let mut open = context.view.months_open;
    widgets::fold(ui, "Monthly means of the winter", &mut open, |ui| {
        unfolded(ui, context);
    });
    context.view.months_open = open;
}

fn unfolded(ui: &mut Ui, context: &mut WinterContext<'_>) {
    let stay = &context.survey.stay;
    let Some(means) = stay.means() else {
        widgets::muted(
            ui,
            "Choose a typical winter first: its figures then stand here.",
        );
        return;
    };
    if !stay.weather_file.is_empty() {
        widgets::muted(ui, "The weather file outranks these figures.");
    }
    let mut months = means.months;
    let mut changed = None;
    // A grid gives a field the room of its heading, which is less than that of a number.
    let room = FIELD + 2.0 * ui.spacing().button_padding.x;
    Grid::new("months of the winter")
        .striped(true)
        .min_col_width(room)
        .show(ui, |ui| {
            ui.label("");
            for (field, _) in FIGURES {
                let unit = units::shown(ui.ctx()).units().symbol(field.unit());
                let words = format!("{} ({unit})", field.label());
                ui.label(RichText::new(words).strong());
            }
            ui.end_row();
            for (at, (number, month)) in (1u8..).zip(&mut months).enumerate() {
                let name = MonthDay::month_name(number);
                ui.label(name);
                for (field, figure) in FIGURES {
                    let label = format!("{name}: {}", field.label());
                    let typed = NumberField::new(field, Some(*figure(month)))
                        .label(&label)
                        .id(number)
                        .required()
                        .compact()
                        .show(ui, context.queue);
                    if let Some(Some(value)) = typed {
                        changed = Some((at, figure, value));
                    }
                }
                ui.end_row();
            }
        });
    if let Some((at, figure, value)) = changed
        && let Some(month) = months.get_mut(at)
    {
        *figure(month) = value;
        context.queue.typed(Edit::Stay(Box::new(Stay {
            months: months.into(),
            ..stay.clone()
        })));
    }
    field_findings(
        ui,
        context.marks(Item::Stay),
        &FIGURES.map(|(field, _)| field),
    );
    if stay.months.is_empty() {
        widgets::muted(
            ui,
            "Invented figures of no real place. What is typed here is kept in the survey.",
        );
    } else if ui
        .button("Back to the figures of the typical winter")
        .clicked()
    {
        let stay = Stay {
            months: Vec::new(),
            ..stay.clone()
        };
        context.queue.edit(Edit::Stay(Box::new(stay)), None);
    }
}
