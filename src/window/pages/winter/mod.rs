//! The Winter page: what a season brings with every option, first as a picture and in sentences, then
//! by day and hour, and the weather and place that it is run with.

mod hours;
mod months;
mod span;
mod stay;
mod view;
mod which;

pub use view::WinterView;

use super::sections;
use crate::assess::Study;
use crate::assess::winter::Throughout;
use crate::assess::words::capital;
use crate::figure::winter::{bands, before_and_after, calendar};
use crate::report::winter::WinterTold;
use crate::report::words::not_known;
use crate::report::{winter, winter_short};
use crate::survey::TypicalWinter;
use crate::window::answers::LongWork;
use crate::window::body;
use crate::window::theme::{bold, palette};
use crate::window::units;
use crate::window::widgets::{self, Choice, report};
use eframe::egui;
use egui::{RichText, Ui};
use view::{Part, Stage, WinterContext, compared};

/// Points of the screen for each millimetre of a drawing.
const POINTS_PER_MM: f32 = 4.4;
/// Least and greatest width of a drawing, mm.
const LEAST: f32 = 150.0;
const MOST: f32 = 300.0;
/// Height of the letters of the sentences, points.
const SENTENCE: f32 = 16.0;

/// Draws the page.
pub fn show(ui: &mut Ui, context: &mut WinterContext<'_>) {
    head(ui, context);
    sections::parts(
        ui,
        context,
        "winter",
        |view| &mut view.ways,
        &Part::ALL,
        |ui, context, part| match part {
            Part::Stay => stay::show(ui, context),
            _ => run_part(ui, context, part),
        },
    );
}

/// Which winter, how far it is, and the ways to the parts; they stay in sight.
fn head(ui: &mut Ui, context: &mut WinterContext<'_>) {
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new("Winter").color(palette(ui).muted));
        which::show(ui, context);
        ui.add_space(6.0);
        context.view.ways.links(ui, &Part::ALL);
    });
    let status = context.answers.status(LongWork::Winter);
    widgets::long_work(ui, context.queue, LongWork::Winter, status, "the winter");
    let (work, what) = (LongWork::WinterBands, "the spread of the winter's figures");
    widgets::long_work(ui, context.queue, work, context.answers.status(work), what);
    ui.add_space(2.0);
}

/// A part that needs the winter to have been run, or once, why it was not.
fn run_part(ui: &mut Ui, context: &mut WinterContext<'_>, part: Part) {
    let Some(dated) = context
        .answers
        .winter()
        .filter(|_| context.survey.stay.has_winter())
    else {
        if part == Part::Picture {
            widgets::card(ui, "A winter hour by hour", |ui| {
                ui.label(if context.survey.stay.has_winter() {
                    "The winter is being worked out."
                } else {
                    "Choose a winter above, or name a weather file below: every option is then run through it \
                     hour by hour, with sun, wind and frost."
                });
                if !context.survey.stay.has_winter() {
                    descriptions(ui, context);
                }
            });
        }
        return;
    };
    match dated.answer {
        Ok(run) => known_part(ui, context, part, (run, dated.revision)),
        Err(unknown) if part == Part::Picture => {
            widgets::card(ui, "A winter hour by hour", |ui| {
                ui.label(units::text(ui.ctx(), &not_known(unknown)));
            });
        }
        Err(_) => {}
    }
}

/// The five winters with a button each, and what they are like.
fn descriptions(ui: &mut Ui, context: &mut WinterContext<'_>) {
    ui.add_space(4.0);
    for winter in TypicalWinter::ALL {
        ui.horizontal_wrapped(|ui| {
            if ui.button(capital(winter.name())).clicked() {
                let edit = which::another(&context.survey.stay, Some(winter));
                context.queue.edit(edit, None);
            }
            widgets::muted(ui, winter.description());
        });
    }
}

fn known_part(
    ui: &mut Ui,
    context: &mut WinterContext<'_>,
    part: Part,
    (run, revision): (&Throughout, u64),
) {
    let Some(study) = context.answers.winter_study() else {
        return;
    };
    let survey = study.survey();
    let currency = survey.tariffs.currency.trim();
    let doubted = study.winter_bands();
    let stage = (
        study.winter_after_plan().is_some(),
        doubted.is_some(),
        study.winter_laid().is_some(),
    );
    match part {
        Part::Picture => widgets::card(ui, "What each option does in this winter", |ui| {
            if revision != context.revision {
                widgets::muted(ui, "This is being worked out anew.");
            }
            let measured = || winter::laid(study.winter_laid().unwrap_or_default());
            if let Some(section) = &*context.view.laid.get((revision, stage), measured) {
                report::part(ui, context.queue, section);
                ui.add_space(6.0);
            }
            let make = || winter_short::sentences(run, survey);
            for sentence in context.view.sentences.get(revision, make).iter() {
                let words = units::text(ui.ctx(), sentence);
                ui.label(RichText::new(words).family(bold()).size(SENTENCE));
            }
            ui.add_space(6.0);
            let width = width_mm(ui);
            let doubted = doubted.and_then(|made| made.as_ref().ok());
            let make = || bands(run, doubted, currency, width);
            let scene = context.view.bands.get((revision, stage, width), make);
            draw(ui, &scene);
        }),
        Part::Plan => widgets::card(ui, "Before and after the plan", |ui| {
            plan(ui, context, (run, study), (revision, stage));
        }),
        Part::Calendar => widgets::card(ui, "Day by day", |ui| {
            let [first, _] = compared(context, run);
            choose_compared(ui, context, run, &[(0, "Option in the calendar")]);
            let width = width_mm(ui);
            let scene = context
                .view
                .calendar
                .get((revision, first, width), || calendar(run, first, width));
            draw(ui, &scene);
        }),
        Part::Hours => widgets::card(ui, "Hour by hour, two options beside each other", |ui| {
            let which = [(0, "First option"), (1, "Second option")];
            choose_compared(ui, context, run, &which);
            hours::show(ui, context, run, revision);
        }),
        Part::Figures => widgets::card(ui, "", |ui| {
            let mut open =
                context.view.figures_open || context.view.ways.wanted() == Some(Part::Figures);
            widgets::fold(
                ui,
                "Figures, frost, mould and assumptions",
                &mut open,
                |ui| {
                    // What was measured stands above the options.
                    let told = || WinterTold {
                        laid: &[],
                        ..winter_short::told(run, study)
                    };
                    let make = || winter::sections(&told());
                    let key = (revision, stage);
                    for section in context.view.sections.get(key, make).iter() {
                        report::part(ui, context.queue, section);
                        ui.add_space(6.0);
                    }
                },
            );
            context.view.figures_open = open;
        }),
        Part::Stay => {}
    }
}

/// Two options as the vehicle stands, and with the planned gaps sealed.
fn plan(
    ui: &mut Ui,
    context: &mut WinterContext<'_>,
    (run, study): (&Throughout, &Study),
    (revision, stage): (u64, Stage),
) {
    let planned = match study.winter_after_plan() {
        Some(Ok(planned)) => planned,
        Some(Err(unknown)) => {
            ui.label(units::text(ui.ctx(), &not_known(&unknown)));
            return;
        }
        None if study.planned().is_some() => {
            widgets::muted(ui, "This is being worked out.");
            return;
        }
        None => {
            widgets::muted(
                ui,
                "No gap is planned yet. Gaps marked as planned on the page Sealing plan are sealed here.",
            );
            return;
        }
    };
    let which = [
        (0, "First option of the plan"),
        (1, "Second option of the plan"),
    ];
    choose_compared(ui, context, run, &which);
    let pair = compared(context, run);
    let width = width_mm(ui);
    let currency = study.survey().tariffs.currency.trim();
    let key = (revision, stage, pair, width);
    let scene = context.view.both.get(key, || {
        before_and_after((run, planned), &pair, currency, width)
    });
    draw(ui, &scene);
}

/// Width of a drawing in the room left, mm.
fn width_mm(ui: &Ui) -> f64 {
    f64::from(
        (ui.available_width() / POINTS_PER_MM)
            .clamp(LEAST, MOST)
            .floor(),
    )
}

/// Draws a scene as large as it is wide.
fn draw(ui: &mut Ui, scene: &crate::figure::Scene) {
    let scale = ui.available_width() / body::narrow(scene.width);
    body::show(
        ui,
        scene,
        body::narrow(scene.height) * scale.min(POINTS_PER_MM),
    );
}

fn choose_compared(
    ui: &mut Ui,
    context: &mut WinterContext<'_>,
    run: &Throughout,
    which: &[(usize, &str)],
) {
    let mut pair = compared(context, run);
    let places: Vec<usize> = (0..run.options().len()).collect();
    ui.horizontal_wrapped(|ui| {
        for (slot, label) in which {
            let Some(place) = pair.get_mut(*slot) else {
                continue;
            };
            ui.label(RichText::new(*label).color(palette(ui).muted));
            let chosen = Choice::new(label, place, &places)
                .compact()
                .width(260.0)
                .show(ui, |at| {
                    let option = run.options().get(*at);
                    option.map_or_else(String::new, |option| capital(&option.name))
                });
            if let Some(chosen) = chosen {
                *place = chosen;
            }
            ui.add_space(6.0);
        }
    });
    context.view.compared = Some(pair);
}
