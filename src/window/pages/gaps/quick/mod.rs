//! Quick entry: one line that takes a gap by keyboard alone and is ready for the next.

mod draft;
mod fields;
pub(super) mod view;

use super::view::GapsContext;
use crate::survey::{Certainty, Edit, Facing, Field, GapPart, Purpose, ZoneId};
use crate::window::theme::palette;
use crate::window::widgets::{self, Choice};
use draft::Start;
use eframe::egui;
use egui::{Key, Ui, vec2};
use fields::{Entry, labelled};
use view::Wanted;

/// Draws the bar.
pub(super) fn show(ui: &mut Ui, context: &mut GapsContext<'_>) {
    let palette = palette(ui);
    let frame = egui::Frame::new()
        .fill(palette.card)
        .stroke(egui::Stroke::new(1.0, palette.rule))
        .corner_radius(4.0)
        .inner_margin(egui::Margin::symmetric(8, 4));
    frame.show(ui, |ui| {
        ui.set_width(ui.available_width());
        bar(ui, context);
    });
    ui.add_space(4.0);
}

fn bar(ui: &mut Ui, context: &mut GapsContext<'_>) {
    let quick = &mut context.view.quick;
    let wanted = quick.wanted.take();
    let mut entry = Entry::new(quick.draft.clone());
    let mut pressed = false;
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(6.0, 4.0);
        choices(ui, context, &mut entry, wanted == Some(Wanted::Shape));
        fields::sizes(ui, &mut entry, wanted == Some(Wanted::FirstSize));
        fields::place(ui, &mut entry, context.survey);
        fields::name(ui, &mut entry);
        what_for(ui, context, &mut entry);
        found_by(ui, &mut entry);
        pressed = labelled(ui, "", 52.0, |ui| {
            let height = ui.spacing().interact_size.y;
            let button = ui.add(egui::Button::new("Add").min_size(vec2(48.0, height)));
            widgets::tell_name(ui, button.id, "Add the new gap");
            let words = "Adds the gap; Enter anywhere in this line does the same";
            button.on_hover_text(words).clicked()
        });
    });
    widgets::muted(ui, words(context, &entry));
    let in_field = entry.has_focus && ui.input(|input| input.key_pressed(Key::Enter));
    let entered = in_field || entry.entered;
    let quick = &mut context.view.quick;
    if entry.aborted {
        quick.draft.clone_from(&quick.settled);
    } else {
        quick.draft = entry.draft;
        if entry.settled {
            quick.settled.clone_from(&quick.draft);
        }
    }
    if (entered || pressed) && !entry.refused {
        add(context);
    }
}

/// Asks for the gap and gets ready for the next.
fn add(context: &mut GapsContext<'_>) {
    let quick = &mut context.view.quick;
    let Some(gap) = quick.draft.gap(context.survey) else {
        return;
    };
    let id = gap.id;
    context.queue.edit(Edit::gap(gap), None);
    quick.draft = quick.draft.next();
    quick.settled.clone_from(&quick.draft);
    quick.wanted = Some(Wanted::FirstSize);
    quick.added = Some(id);
    context.view.after_adding(Some(id), false);
}

const START_HELP: &str = "A starting shape with usual sizes, guesses all of them, or a bare form: \
     type its first letters.";

fn choices(ui: &mut Ui, context: &GapsContext<'_>, entry: &mut Entry, shape_wanted: bool) {
    let survey = context.survey;
    let zones: Vec<ZoneId> = survey.zones.iter().map(|zone| zone.id).collect();
    if let Some(current) = entry.draft.zone_in(survey) {
        let look = ("zone", 104.0, Field::Zone.help());
        let zone = choice(ui, entry, look, (&current, &zones), false, |id| {
            survey.zone_name(*id).to_owned()
        });
        entry.draft.zone = zone.or(entry.draft.zone);
    }
    let facing = entry.draft.facing;
    let look = ("facing", 138.0, Field::Facing.help());
    let chosen = choice(ui, entry, look, (&facing, &Facing::ALL), false, |facing| {
        facing.name().to_owned()
    });
    if let Some(facing) = chosen {
        entry.draft.choose(facing);
    }
    let (start, all) = (entry.draft.start, Start::all());
    let look = ("shape", 160.0, START_HELP);
    let chosen = choice(ui, entry, look, (&start, &all), shape_wanted, |start| {
        start.words()
    });
    if let Some(start) = chosen {
        entry.draft.begin(start);
    }
}

/// What part it is, and what it is there for.
fn what_for(ui: &mut Ui, context: &GapsContext<'_>, entry: &mut Entry) {
    let part = entry.draft.part();
    let look = ("part", 138.0, Field::GapPart.help());
    let chosen = choice(ui, entry, look, (&part, &GapPart::ALL[..]), false, |part| {
        part.name().to_owned()
    });
    entry.draft.part = chosen.or(entry.draft.part);
    let purpose = entry.draft.purpose(context.survey);
    let look = ("purpose", 130.0, Field::Purpose.help());
    let all = (&purpose, &Purpose::ALL[..]);
    let chosen = choice(ui, entry, look, all, false, |purpose| {
        purpose.name().to_owned()
    });
    entry.draft.purpose = chosen.or(entry.draft.purpose);
}

fn found_by(ui: &mut Ui, entry: &mut Entry) {
    let sure = entry.draft.certainty;
    let look = ("size found by", 92.0, Field::Certainty.help());
    let chosen = choice(ui, entry, look, (&sure, &Certainty::ALL), false, |sure| {
        sure.name().to_owned()
    });
    entry.draft.certainty = chosen.unwrap_or(sure);
}

/// A choice under its label, width and help; what is chosen settles the draft.
fn choice<T: PartialEq + Clone>(
    ui: &mut Ui,
    entry: &mut Entry,
    (label, width, help): (&str, f32, &'static str),
    (current, all): (&T, &[T]),
    focus: bool,
    words: impl Fn(&T) -> String,
) -> Option<T> {
    let chosen = labelled(ui, label, width + 8.0, |ui| {
        Choice::new(&format!("New gap: {label}"), current, all)
            .help(help)
            .compact()
            .on_enter(&mut entry.entered)
            .width(width)
            .focus(focus)
            .show(ui, words)
    });
    entry.settled |= chosen.is_some();
    chosen
}

/// What stands under the line: what was added, and what the sizes are worth.
fn words(context: &GapsContext<'_>, entry: &Entry) -> String {
    let survey = context.survey;
    if survey.zones.is_empty() {
        return "A gap needs a zone: add a zone first.".to_owned();
    }
    let added = context.view.quick.added;
    let added = added.and_then(|id| survey.gap(id)).map(|gap| {
        let name = gap.name_in_a_line();
        format!("Added gap {} {name}. ", gap.id)
    });
    let advice = if entry.refused {
        "A field does not hold a number yet."
    } else if entry.draft.is_guess() {
        "These starting sizes are guesses of this program, no source: measure and type over them. \
         As they stand the gap counts as guessed."
    } else {
        "Enter adds the gap; what is left empty counts as not measured. Sums such as 2*600+2*400 \
         are added up. A letter finds the shape that begins with it, Space opens a list."
    };
    format!("{}{advice}", added.unwrap_or_default())
}
