//! Every sign that the program writes has a glyph in the bundled fonts.

use super::window;
use eframe::egui;
use egui::{FontFamily, FontId};
use gapledger::window::app::Start;
use gapledger::window::theme;
use std::collections::BTreeSet;
use std::path::Path;

/// Every sign beyond ASCII in a source file, written out or escaped.
fn signs(text: &str, into: &mut BTreeSet<char>) {
    into.extend(text.chars().filter(|sign| !sign.is_ascii()));
    for escaped in text.split("\\u{").skip(1) {
        let code = escaped.split('}').next().unwrap();
        into.extend(u32::from_str_radix(code, 16).ok().and_then(char::from_u32));
    }
}

fn all_signs(folder: &Path, into: &mut BTreeSet<char>) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            all_signs(&path, into);
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            signs(&std::fs::read_to_string(&path).unwrap(), into);
        }
    }
}

/// Marks of direction and joining, which never draw anything.
fn is_invisible(sign: char) -> bool {
    matches!(sign, '\u{61c}' | '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}'
        | '\u{2060}'..='\u{2069}' | '\u{feff}')
}

#[test]
fn every_sign_in_the_sources_has_a_glyph() {
    let mut found: BTreeSet<char> = "→⁻²³₁⌀⚠✔".chars().collect();
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    for layer in ["assess", "figure", "survey", "window"] {
        all_signs(&root.join(layer), &mut found);
    }
    found.retain(|sign| !sign.is_whitespace() && !sign.is_control() && !is_invisible(*sign));
    assert!(found.contains(&'✖') && found.contains(&'×') && found.contains(&'\u{201c}'));
    let harness = window(Start::test(None));
    for family in [FontFamily::Proportional, theme::bold()] {
        let font = FontId::new(13.0, family);
        for sign in &found {
            let there = harness.ctx.fonts_mut(|fonts| fonts.has_glyph(&font, *sign));
            assert!(there, "{sign} (U+{:04X}) in {font:?}", *sign as u32);
        }
        // Signs that no bundled font holds are found missing.
        assert!(
            !harness
                .ctx
                .fonts_mut(|fonts| fonts.has_glyph(&font, '\u{4e00}'))
        );
    }
}
