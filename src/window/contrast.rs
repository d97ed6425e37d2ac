//! How well a colour stands out from what lies under it: a measure for tests.

use crate::window::theme::Palette;
use eframe::egui::Color32;

/// Least contrast of text: WCAG 2.1, 1.4.3 level AA \[M, from memory\].
const TEXT: f64 = 4.5;
/// Least contrast of lines and marks that carry meaning: WCAG 2.1, 1.4.11 \[M, from memory\].
const MARK: f64 = 3.0;

/// Relative luminance, 0 black to 1 white: WCAG 2.1 \[M, from memory\].
fn luminance(colour: Color32) -> f64 {
    let linear = |channel: u8| {
        let share = f64::from(channel) / 255.0;
        if share <= 0.040_45 {
            share / 12.92
        } else {
            ((share + 0.055) / 1.055).powf(2.4)
        }
    };
    0.2126 * linear(colour.r()) + 0.7152 * linear(colour.g()) + 0.0722 * linear(colour.b())
}

/// Contrast ratio of two opaque colours, 1 to 21: WCAG 2.1 \[M, from memory\].
fn contrast(one: Color32, other: Color32) -> f64 {
    let (one, other) = (luminance(one), luminance(other));
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

impl Palette {
    /// Every pair of text colour and surface that occurs, with words for both.
    fn pairs(&self) -> Vec<(&'static str, Color32, Color32)> {
        let mut pairs = Vec::new();
        for (surface, colour) in [
            ("page", self.page),
            ("card", self.card),
            ("strip", self.strip),
            ("stripe", self.stripe),
            ("field", self.field),
        ] {
            for text in [
                self.text,
                self.muted,
                self.accent,
                self.danger,
                self.warning,
                self.ok,
                self.second,
                self.third,
            ] {
                pairs.push((surface, text, colour));
            }
        }
        for (surface, colour) in [
            ("button", self.button),
            ("button_hovered", self.button_hovered),
            ("selection", self.selection),
        ] {
            pairs.push((surface, self.text, colour));
            pairs.push((surface, self.muted, colour));
        }
        for alert in [self.danger, self.warning, self.ok] {
            pairs.push(("selection", alert, self.selection));
        }
        pairs.push(("accent", self.on_accent, self.accent));
        pairs
    }

    /// Every pair of a line or mark that carries meaning and the surface under it, with words.
    fn marks(&self) -> Vec<(&'static str, Color32, Color32)> {
        let mut pairs = vec![
            ("outline of an input", self.outline, self.field),
            ("outline of an input on a card", self.outline, self.card),
            ("focus on the selected row", self.accent, self.selection),
            ("focus on a button", self.accent, self.button_hovered),
        ];
        for surface in [self.page, self.card, self.stripe, self.selection] {
            for (what, mark) in [
                ("mark of an unintended gap", self.warning),
                ("mark of what must stay open", self.ok),
                ("mark of a drain or vent", self.accent),
                ("outline of a mark", self.text),
                ("sign of a danger", self.danger),
            ] {
                pairs.push((what, mark, surface));
            }
        }
        pairs
    }
}

mod tests {
    use super::*;
    use crate::figure::scene::Role;
    use crate::window::body::colour;
    use crate::window::theme::{DARK, LIGHT};

    const THEMES: [(&str, Palette); 2] = [("light", LIGHT), ("dark", DARK)];

    #[test]
    fn black_on_white_has_the_contrast_of_the_definition() {
        assert!((contrast(Color32::BLACK, Color32::WHITE) - 21.0).abs() < 1e-9);
        // #767676 is the lightest grey that passes for text on white [M, from memory].
        let grey = |level| contrast(Color32::from_gray(level), Color32::WHITE);
        assert!(grey(0x76) >= TEXT && grey(0x77) < TEXT);
    }

    #[test]
    fn every_text_reads_on_every_surface_it_stands_on() {
        for (theme, palette) in THEMES {
            for (surface, text, under) in palette.pairs() {
                let ratio = contrast(text, under);
                assert!(ratio >= TEXT, "{theme}: {text:?} on {surface}: {ratio:.2}");
            }
        }
    }

    #[test]
    fn every_line_and_mark_is_seen_on_every_surface_it_stands_on() {
        for (theme, palette) in THEMES {
            for (what, mark, under) in palette.marks() {
                let ratio = contrast(mark, under);
                assert!(ratio >= MARK, "{theme}: {what}: {ratio:.2}");
            }
        }
    }

    /// Every colour but the thin rule, which only separates, is a text, a mark or a surface of
    /// some pair.
    #[test]
    fn no_colour_of_the_palette_is_left_unmeasured() {
        for (theme, palette) in THEMES {
            let pairs: Vec<_> = palette.pairs().into_iter().chain(palette.marks()).collect();
            let Palette {
                page,
                card,
                field,
                strip,
                button,
                button_hovered,
                selection,
                stripe,
                rule: _,
                outline,
                text,
                muted,
                accent,
                on_accent,
                danger,
                warning,
                ok,
                second,
                third,
            } = palette;
            for colour in [
                page,
                card,
                field,
                strip,
                button,
                button_hovered,
                selection,
                stripe,
                outline,
                text,
                muted,
                accent,
                on_accent,
                danger,
                warning,
                ok,
                second,
                third,
            ] {
                let measured = pairs.iter().any(|(_, a, b)| *a == colour || *b == colour);
                assert!(measured, "{theme}: {colour:?}");
            }
        }
    }

    /// The roles that drawings draw with, and whether letters are written in them. The match
    /// makes a new role a compile error here.
    fn drawn(role: Role) -> Option<bool> {
        match role {
            Role::Body | Role::Glass | Role::Ground => None,
            Role::Leak | Role::Protected | Role::Inward | Role::Outward => Some(false),
            Role::Ink
            | Role::Faint
            | Role::Own
            | Role::Selected
            | Role::First
            | Role::Second
            | Role::Third
            | Role::Well
            | Role::Partly => Some(true),
        }
    }

    #[test]
    fn drawings_read_on_the_page_on_cards_and_on_the_body() {
        let roles = [
            Role::Ink,
            Role::Faint,
            Role::Body,
            Role::Glass,
            Role::Ground,
            Role::Leak,
            Role::Protected,
            Role::Own,
            Role::Inward,
            Role::Outward,
            Role::Selected,
            Role::First,
            Role::Second,
            Role::Third,
            Role::Well,
            Role::Partly,
        ];
        for (theme, palette) in THEMES {
            let surfaces = [
                ("page", palette.page),
                ("card", palette.card),
                ("body", colour(Role::Body, &palette)),
                ("ground", colour(Role::Ground, &palette)),
                ("glass", colour(Role::Glass, &palette)),
            ];
            for (surface, under) in surfaces {
                for role in roles {
                    let Some(letters) = drawn(role) else { continue };
                    // Letters stand on page, card and body; marks may lie on glass and ground.
                    let letters = letters && !matches!(surface, "ground" | "glass");
                    let least = if letters { TEXT } else { MARK };
                    let ratio = contrast(colour(role, &palette), under);
                    assert!(ratio >= least, "{theme}: {role:?} on {surface}: {ratio:.2}");
                }
            }
        }
    }
}
