//! How much a gap costs by mouse: clicks are counted, digits are not.

use super::{Window, click_button, opened, small_survey, survey, type_text};
use eframe::egui;
use egui::accesskit::Role;
use egui::{Event, Modifiers, PointerButton, Pos2};
use egui_kittest::kittest::Queryable;
use gapledger::survey::{Facing, Form, GapId, Position};

/// The mouse, with its clicks counted; what is out of sight cannot be clicked.
struct Mouse<'w, 'h> {
    window: &'w mut Window<'h>,
    clicks: usize,
}

impl Mouse<'_, '_> {
    fn at(&mut self, pos: Pos2) -> &mut Self {
        self.window.event(Event::PointerMoved(pos));
        self.window.step();
        for pressed in [true, false] {
            self.window.event(Event::PointerButton {
                pos,
                button: PointerButton::Primary,
                pressed,
                modifiers: Modifiers::NONE,
            });
            self.window.step();
        }
        self.window.run();
        self.clicks += 1;
        self
    }

    fn on(&mut self, role: Role, name: &str) -> &mut Self {
        let rect = self.window.get_by_role_and_label(role, name).rect();
        let screen = self.window.ctx.content_rect();
        assert!(screen.contains_rect(rect), "{name} is at {rect:?}");
        self.at(rect.center())
    }

    fn types(&mut self, text: &str) -> &mut Self {
        for letter in text.chars() {
            type_text(self.window, &letter.to_string());
        }
        self
    }
}

#[test]
fn a_gap_takes_three_clicks_by_mouse_besides_its_digits() {
    let (_folder, path) = small_survey();
    let mut window = opened(&path);
    click_button(&mut window, "Both");
    let free = Position {
        along_m: Some(1.4),
        across_m: Some(2.3),
        height_m: Some(1.1),
        rise_m: None,
    };
    let body = window.state().view().gaps.body();
    let free = body.on_screen(Facing::Offside, &free).unwrap();
    let mut mouse = Mouse {
        window: &mut window,
        clicks: 0,
    };
    // Where it is, how long, how wide: facing and place follow from the first click, and each
    // field takes what is typed in place of what stood in it.
    mouse.at(free);
    mouse.on(Role::TextInput, "Length").types("1200");
    mouse.on(Role::TextInput, "Clear width").types("0.8");
    assert_eq!(mouse.clicks, 3);
    let gap = survey(&window).gap(GapId(3)).unwrap();
    assert_eq!(gap.facing, Facing::Offside);
    let along = gap.position.along_m.unwrap();
    assert!((along - 1.4).abs() < 0.03, "{along}");
    let Form::NarrowGap {
        length_mm,
        width_mm,
        ..
    } = gap.form
    else {
        panic!("{:?}", gap.form)
    };
    assert_eq!((length_mm, width_mm), (Some(1200.0), Some(0.8)));
}
