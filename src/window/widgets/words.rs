//! Words that stand alone: muted ones, links, and names for assistive technology.

use crate::assess::Mark;
use crate::window::theme::{TOUCH_TARGET, bold, palette};
use crate::window::units;
use eframe::egui;
use egui::accesskit::Role;
use egui::{Button, Color32, Id, Response, RichText, Stroke, Ui, WidgetText, vec2};

/// Gives an input without visible label its name.
pub fn tell_name(ui: &Ui, id: Id, name: &str) {
    ui.ctx()
        .accesskit_node_builder(id, |node| node.set_label(name));
}

/// Whether inputs and buttons are as large as fingers.
#[must_use]
pub fn is_touch(ui: &Ui) -> bool {
    ui.spacing().interact_size.x >= TOUCH_TARGET
}

/// Rows of inputs that a window is high, at least, where nothing needs to be folded away.
const ROWS: f32 = 24.0;

/// Whether the window has so few rows of inputs that what is not the page itself gives way to it.
#[must_use]
pub fn is_low(ui: &Ui) -> bool {
    ui.ctx().content_rect().height() < ROWS * ui.spacing().interact_size.y
}

/// Words that lead somewhere; in touch size they are as high as a finger is wide.
pub fn link(ui: &mut Ui, words: impl Into<WidgetText>) -> Response {
    if !is_touch(ui) {
        let response = ui.link(words);
        if response.has_focus() {
            // An underline alone is what a link under the pointer has, and what is shown already.
            let stroke = ui.visuals().selection.stroke;
            let rect = response.rect.expand(2.0);
            let outside = egui::StrokeKind::Outside;
            ui.painter().rect_stroke(rect, 2.0, stroke, outside);
        }
        return response;
    }
    let colour = palette(ui).accent;
    let target = TOUCH_TARGET;
    let words = words.into().color(colour);
    let button = Button::new(words)
        .frame(false)
        .min_size(vec2(target, target));
    let response = ui.add(button);
    ui.ctx()
        .accesskit_node_builder(response.id, |node| node.set_role(Role::Link));
    response
}

/// A button that says more to assistive technology than what is on it; whether it was pressed.
pub fn named_button(ui: &mut Ui, words: &str, name: &str) -> bool {
    let response = ui.button(words);
    tell_name(ui, response.id, name);
    response.clicked()
}

/// The cross behind one of several things: small beside its row, as large as a finger in touch size.
pub fn cross_button(ui: &Ui) -> Button<'static> {
    match is_touch(ui) {
        true => Button::new("✖").min_size(vec2(TOUCH_TARGET, TOUCH_TARGET)),
        false => Button::new("✖").small(),
    }
}

/// A [`cross_button`] whose name says what it takes away; whether it was pressed.
pub fn cross(ui: &mut Ui, name: &str) -> bool {
    let response = ui.add(cross_button(ui)).on_hover_text(name);
    tell_name(ui, response.id, name);
    response.clicked()
}

/// A [`link`] that says more to assistive technology than its words; whether it was followed.
pub fn named_link(ui: &mut Ui, words: impl Into<WidgetText>, name: &str) -> bool {
    let response = link(ui, words);
    tell_name(ui, response.id, name);
    response.clicked()
}

/// The name of one of several pages or sections; the one shown is underlined in this colour.
pub fn tab(ui: &mut Ui, name: &str, shown: bool, colour: Color32) -> Response {
    let palette = palette(ui);
    let mut words = RichText::new(name).color(palette.text);
    if shown {
        words = words.family(bold()).color(colour);
    }
    let button = Button::new(words).frame_when_inactive(false);
    let response = ui.add(button.selected(false));
    ui.ctx().accesskit_node_builder(response.id, |node| {
        node.set_role(Role::Tab);
        node.set_selected(shown);
    });
    if shown {
        let rect = response.rect.shrink2(vec2(7.0, 0.0));
        let line = Stroke::new(2.5, colour);
        ui.painter()
            .hline(rect.x_range(), rect.bottom() - 1.0, line);
    }
    response
}

/// Says on hover what the marks in these words mean, where there are any.
pub fn explain_marks(response: Response, words: &str) -> Response {
    if !response.hovered() {
        return response;
    }
    match Mark::legend_of(words) {
        Some(legend) => response.on_hover_text(legend),
        None => response,
    }
}

/// Small muted words.
pub fn muted(ui: &mut Ui, words: impl Into<String>) -> Response {
    let words = units::text(ui.ctx(), &words.into());
    let text = RichText::new(&words).small().color(palette(ui).muted);
    let response = ui.add(egui::Label::new(text).wrap());
    explain_marks(response, &words)
}

#[cfg(test)]
mod tests {
    use super::*;
    use egui_kittest::Harness;
    use egui_kittest::kittest::Queryable;

    #[test]
    fn pointing_at_a_mark_tells_what_it_means_and_other_words_tell_nothing() {
        let mut window = Harness::new_ui(|ui| {
            muted(ui, "a price without mark");
            muted(ui, "a price of this program [A]");
        });
        let tells = |window: &mut Harness<'_>, words: &str| {
            let place = window.get_by_label(words).rect().center();
            window.hover_at(place);
            window.run_steps(8);
            let legend = "Marks behind a source: [A] an assumption of this project";
            window.query_by_label(legend).is_some()
        };
        assert!(!tells(&mut window, "a price without mark"));
        assert!(tells(&mut window, "a price of this program [A]"));
    }
}
