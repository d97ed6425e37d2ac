//! The look: ink on ledger paper by day, chalk on slate by night.
//!
//! Colours have roles, never places: a page asks for `palette(ui).warning` and gets the colour
//! that reads well in the theme shown. The tests in `contrast.rs` list every pair of a text
//! colour and a surface it may stand on, and every mark, and hold their contrast.

use crate::fonts;
use eframe::egui;
use egui::{Color32, CornerRadius, FontData, FontFamily, FontId, Stroke, TextStyle, Theme, vec2};
use std::sync::Arc;

/// Colours by role.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Palette {
    /// Behind everything.
    pub page: Color32,
    /// Cards and panels that lie on the page.
    pub card: Color32,
    /// Inside of an input.
    pub field: Color32,
    /// The result strip.
    pub strip: Color32,
    /// Fill of a button at rest.
    pub button: Color32,
    /// Fill of a button under the pointer.
    pub button_hovered: Color32,
    /// Background of the selected row and of selected text.
    pub selection: Color32,
    /// Every other row of a table.
    pub stripe: Color32,
    /// Thin lines between things.
    pub rule: Color32,
    /// Outline of an input.
    pub outline: Color32,
    /// Text.
    pub text: Color32,
    /// Labels, units and what matters less.
    pub muted: Color32,
    /// Links, focus, the page shown.
    pub accent: Color32,
    /// Text on the accent.
    pub on_accent: Color32,
    /// Errors, and dangers to people.
    pub danger: Color32,
    /// Warnings.
    pub warning: Color32,
    /// What is well.
    pub ok: Color32,
    /// The second of several lines; the first has the accent.
    pub second: Color32,
    /// The third of several lines.
    pub third: Color32,
}

const fn rgb(hex: u32) -> Color32 {
    let [_, r, g, b] = hex.to_be_bytes();
    Color32::from_rgb(r, g, b)
}

/// Ink on paper.
pub const LIGHT: Palette = Palette {
    page: rgb(0x00F4_F0E6),
    card: rgb(0x00FC_FAF5),
    field: rgb(0x00FF_FFFF),
    strip: rgb(0x00E8_E1CF),
    button: rgb(0x00E6_DFCE),
    button_hovered: rgb(0x00DA_D1BB),
    selection: rgb(0x00C9_E2DB),
    stripe: rgb(0x00F5_F1E7),
    rule: rgb(0x00D3_CAB6),
    outline: rgb(0x008F_8672),
    text: rgb(0x0024_211B),
    muted: rgb(0x0057_5145),
    accent: rgb(0x0013_5B55),
    on_accent: rgb(0x00FF_FFFF),
    danger: rgb(0x009B_1419),
    warning: rgb(0x0070_4500),
    ok: rgb(0x001B_5C2C),
    second: rgb(0x008A_3B12),
    third: rgb(0x003B_3F9E),
};

/// Chalk on slate.
pub const DARK: Palette = Palette {
    page: rgb(0x001B_1D1C),
    card: rgb(0x0024_2726),
    field: rgb(0x0014_1615),
    strip: rgb(0x002C_302E),
    button: rgb(0x0036_3B38),
    button_hovered: rgb(0x003F_4541),
    selection: rgb(0x0029_4A44),
    stripe: rgb(0x0029_2C2B),
    rule: rgb(0x0040_4542),
    outline: rgb(0x0076_7D78),
    text: rgb(0x00EC_E8DC),
    muted: rgb(0x00B9_B5A8),
    accent: rgb(0x0086_D0C1),
    on_accent: rgb(0x000E_211D),
    danger: rgb(0x00FF_A299),
    warning: rgb(0x00F2_C267),
    ok: rgb(0x0094_D59E),
    second: rgb(0x00F2_B27A),
    third: rgb(0x00B4_B8FF),
};

/// The palette of the theme that this ui is drawn in.
#[must_use]
pub fn palette(ui: &egui::Ui) -> &'static Palette {
    if ui.visuals().dark_mode {
        &DARK
    } else {
        &LIGHT
    }
}

/// The family for headings and figures.
#[must_use]
pub fn bold() -> FontFamily {
    FontFamily::Name("bold".into())
}

/// The text style of the strip's figures.
#[must_use]
pub fn figure_style() -> TextStyle {
    TextStyle::Name("figure".into())
}

/// Installs fonts and both themes. Zoom by keyboard is the command table's business.
pub fn install(ctx: &egui::Context) {
    ctx.set_fonts(font_definitions());
    ctx.set_style_of(Theme::Light, style(Theme::Light, &LIGHT));
    ctx.set_style_of(Theme::Dark, style(Theme::Dark, &DARK));
    ctx.options_mut(|options| {
        options.zoom_with_keyboard = false;
        options.quit_shortcuts.clear();
    });
    size(ctx, false);
}

/// Inputs and buttons in the usual size.
const USUAL_TARGET: egui::Vec2 = vec2(36.0, 25.0);

/// Height of inputs and buttons in touch size: a finger's width and more (WCAG 2.1, 2.5.5 \[M, from
/// memory\]).
pub const TOUCH_TARGET: f32 = 44.0;

/// Sets the size of inputs and buttons: the usual one, or one for fingers.
pub fn size(ctx: &egui::Context, touch: bool) {
    ctx.all_styles_mut(|style| {
        let spacing = &mut style.spacing;
        if touch {
            spacing.interact_size = vec2(TOUCH_TARGET, TOUCH_TARGET);
            spacing.button_padding = vec2(14.0, 8.0);
            spacing.item_spacing = vec2(10.0, 8.0);
            spacing.icon_width = 24.0;
            spacing.icon_width_inner = 14.0;
        } else {
            let usual = egui::style::Spacing::default();
            spacing.interact_size = USUAL_TARGET;
            spacing.button_padding = vec2(9.0, 4.0);
            spacing.item_spacing = vec2(8.0, 5.0);
            spacing.icon_width = usual.icon_width;
            spacing.icon_width_inner = usual.icon_width_inner;
        }
    });
}

fn font_definitions() -> egui::FontDefinitions {
    let mut fonts = egui::FontDefinitions::empty();
    for (name, bytes) in [
        ("text", fonts::TEXT_REGULAR),
        ("bold", fonts::TEXT_BOLD),
        ("signs", fonts::SIGNS),
    ] {
        fonts
            .font_data
            .insert(name.to_owned(), Arc::new(FontData::from_static(bytes)));
    }
    for (family, first) in [
        (FontFamily::Proportional, "text"),
        (FontFamily::Monospace, "text"),
        (bold(), "bold"),
    ] {
        let names = vec![first.to_owned(), "signs".to_owned()];
        fonts.families.insert(family, names);
    }
    fonts
}

fn style(theme: Theme, palette: &Palette) -> egui::Style {
    let mut style = theme.default_style();
    style.text_styles = [
        (TextStyle::Small, FontId::proportional(11.5)),
        (TextStyle::Body, FontId::proportional(13.0)),
        (TextStyle::Button, FontId::proportional(13.0)),
        (TextStyle::Monospace, FontId::monospace(13.0)),
        (TextStyle::Heading, FontId::new(15.5, bold())),
        (figure_style(), FontId::new(16.5, bold())),
    ]
    .into();
    style.spacing.window_margin = egui::Margin::same(16);
    style.spacing.scroll = egui::style::ScrollStyle::solid();
    style.interaction.selectable_labels = false;
    style.animation_time = 0.0;
    style.visuals = visuals(theme, palette);
    style
}

fn visuals(theme: Theme, palette: &Palette) -> egui::Visuals {
    let mut visuals = match theme {
        Theme::Light => egui::Visuals::light(),
        Theme::Dark => egui::Visuals::dark(),
    };
    visuals.panel_fill = palette.page;
    visuals.window_fill = palette.card;
    visuals.window_stroke = Stroke::new(1.0, palette.outline);
    visuals.window_corner_radius = CornerRadius::same(4);
    visuals.menu_corner_radius = CornerRadius::same(4);
    visuals.faint_bg_color = palette.stripe;
    visuals.extreme_bg_color = palette.field;
    visuals.text_edit_bg_color = Some(palette.field);
    visuals.code_bg_color = palette.strip;
    visuals.hyperlink_color = palette.accent;
    visuals.warn_fg_color = palette.warning;
    visuals.error_fg_color = palette.danger;
    visuals.weak_text_color = Some(palette.muted);
    visuals.selection.bg_fill = palette.selection;
    visuals.selection.stroke = Stroke::new(2.0, palette.accent);
    // A caret that blinks has the whole window drawn twice a second; it is thick and coloured instead.
    visuals.text_cursor.blink = false;
    visuals.text_cursor.stroke = Stroke::new(2.0, palette.accent);
    let states = &mut visuals.widgets;
    for (state, fill, line) in [
        (&mut states.noninteractive, palette.card, palette.rule),
        (&mut states.inactive, palette.button, palette.outline),
        (&mut states.hovered, palette.button_hovered, palette.text),
        (&mut states.active, palette.button_hovered, palette.accent),
        (&mut states.open, palette.button_hovered, palette.accent),
    ] {
        state.bg_fill = fill;
        state.weak_bg_fill = fill;
        state.bg_stroke = Stroke::new(1.0, line);
        state.fg_stroke = Stroke::new(1.0, palette.text);
        state.corner_radius = CornerRadius::same(3);
        state.expansion = 0.0;
    }
    states.active.bg_stroke.width = 2.0;
    visuals
}
