//! Keys take effect in the order they were pressed, also when several fall into one frame.
//!
//! The toolkit moves the focus at the beginning of a frame and hands the letters of that frame to
//! whatever has it then. Of `30`, Tab in one frame the next field would get the 30.

use eframe::egui;
use egui::{Context, Event, Key, Plugin, RawInput, Ui};

/// Holds back what was typed after a key that leaves a field, and that key after typing.
#[derive(Default)]
pub(super) struct KeyOrder {
    later: Vec<Event>,
}

impl Plugin for KeyOrder {
    fn debug_name(&self) -> &'static str {
        "key order"
    }

    fn on_end_pass(&mut self, ui: &mut Ui) {
        if !self.later.is_empty() {
            ui.ctx().request_repaint();
        }
    }

    fn input_hook(&mut self, _ctx: &Context, input: &mut RawInput) {
        let mut events = std::mem::take(&mut self.later);
        events.append(&mut input.events);
        self.later = events.split_off(of_one_frame(&events));
        input.events = events;
    }
}

/// How many of these events, from the first, belong into one frame.
fn of_one_frame(events: &[Event]) -> usize {
    let (mut typed, mut left) = (false, false);
    for (at, event) in events.iter().enumerate() {
        match event {
            Event::Key {
                key: Key::Tab | Key::Enter | Key::Escape,
                pressed: true,
                ..
            } => {
                if typed || left {
                    return at;
                }
                left = true;
            }
            Event::Text(_) | Event::Paste(_) | Event::Key { pressed: true, .. } => {
                if left {
                    return at;
                }
                typed = true;
            }
            _ => {}
        }
    }
    events.len()
}

#[cfg(test)]
mod tests {
    use super::*;
    use egui::Modifiers;

    fn key(key: Key) -> Event {
        Event::Key {
            key,
            physical_key: None,
            pressed: true,
            repeat: false,
            modifiers: Modifiers::NONE,
        }
    }

    fn text(text: &str) -> Event {
        Event::Text(text.to_owned())
    }

    #[test]
    fn what_is_typed_around_a_key_that_leaves_falls_into_three_frames() {
        let mut order = KeyOrder::default();
        let mut input = RawInput {
            events: vec![text("3"), text("0"), key(Key::Tab), text("5")],
            ..RawInput::default()
        };
        let ctx = Context::default();
        let mut frames = Vec::new();
        for _ in 0..4 {
            order.input_hook(&ctx, &mut input);
            frames.push(std::mem::take(&mut input.events));
        }
        let expected = [
            vec![text("3"), text("0")],
            vec![key(Key::Tab)],
            vec![text("5")],
            vec![],
        ];
        assert_eq!(frames, expected);
    }

    #[test]
    fn later_keys_do_not_overtake_those_held_back() {
        let mut order = KeyOrder::default();
        let ctx = Context::default();
        let mut input = RawInput {
            events: vec![key(Key::Tab), key(Key::Tab)],
            ..RawInput::default()
        };
        order.input_hook(&ctx, &mut input);
        assert_eq!(input.events, vec![key(Key::Tab)]);
        input.events = vec![text("7")];
        order.input_hook(&ctx, &mut input);
        assert_eq!(input.events, vec![key(Key::Tab)]);
        input.events = Vec::new();
        order.input_hook(&ctx, &mut input);
        assert_eq!(input.events, vec![text("7")]);
    }
}
