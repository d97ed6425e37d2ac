//! One table of commands drives menus, shortcuts and tooltips.

mod command;
mod table;

pub use command::{Command, CommandLine};
pub use table::MENUS;

use super::widgets::untouched;
use eframe::egui;
use egui::KeyboardShortcut;

impl Command {
    /// Whether it does its work while a photo is shown large.
    fn reaches_under_a_photo(self) -> bool {
        matches!(
            self,
            Self::Save
                | Self::SaveAs
                | Self::Quit
                | Self::Undo
                | Self::Redo
                | Self::Light
                | Self::Dark
                | Self::FollowSystem
                | Self::Larger
                | Self::Smaller
                | Self::FirstSize
        )
    }

    /// Its line in the table.
    #[must_use]
    pub fn line(self) -> Option<&'static CommandLine> {
        all().find(|line| line.command == self)
    }
}

/// Every command, in the order of the menus.
pub fn all() -> impl Iterator<Item = &'static CommandLine> {
    MENUS.iter().flat_map(|(_, lines)| *lines)
}

/// The commands whose shortcut was pressed; their keys are used up. With a photo shown large, only
/// those that do not change what lies under it. While words are typed, a
/// text field's own keys stay its own; those of the walk round count while its list has the focus; a field into which nothing was typed has nothing to undo.
#[must_use]
pub fn pressed(ctx: &egui::Context, survey_open: bool, photo_large: bool, walking: bool) -> Vec<Command> {
    let typing = ctx.text_edit_focused();
    let nothing_typed = untouched(ctx);
    let mut pressed = Vec::new();
    // Longer chords first: Ctrl+Shift+S also matches Ctrl+S.
    let mut lines: Vec<&CommandLine> = all().collect();
    lines.sort_by_key(|line| {
        let shift = |shortcut: &KeyboardShortcut| shortcut.modifiers.shift;
        !line.shortcuts.iter().any(shift)
    });
    for line in lines {
        if line.needs_survey && !survey_open || line.on_walk && !walking {
            continue;
        }
        let kept_for_text = match line.command {
            Command::Undo | Command::Redo => typing && !nothing_typed,
            Command::DeleteGap => typing,
            _ => false,
        };
        // A photo shown large lies over the pages and has keys of its own.
        let kept_for_photo = photo_large && !line.command.reaches_under_a_photo();
        if kept_for_text || kept_for_photo {
            continue;
        }
        let consumed = ctx.input_mut(|input| {
            line.shortcuts
                .iter()
                .any(|shortcut| input.consume_shortcut(shortcut))
        });
        if consumed {
            pressed.push(line.command);
        }
    }
    pressed
}

#[cfg(test)]
mod tests;
