//! One table of commands drives menus, shortcuts and tooltips.

mod command;
mod table;

pub use command::{Command, CommandLine};
pub use table::MENUS;

use super::widgets::untouched;
use eframe::egui;
use egui::text_selection::LabelSelectionState;
use egui::{Event, InputState, KeyboardShortcut};

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

    /// Whether its keys mean gaps only where gaps are in sight and no text is at hand.
    fn is_of_the_ledger(self) -> bool {
        matches!(
            self,
            Self::CopyGaps | Self::PasteGaps | Self::SelectAllGaps | Self::MoveUp | Self::MoveDown
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

/// What the window shows while keys are pressed.
#[derive(Clone, Copy, Debug)]
pub struct Situation {
    /// A survey is open.
    pub survey_open: bool,
    /// A photo is shown large.
    pub photo_large: bool,
    /// The Gaps page is shown.
    pub on_gaps: bool,
    /// The list of the walk round has the focus.
    pub walking: bool,
}

/// The commands whose shortcut was pressed; their keys are used up. With a photo shown large, only
/// those that do not change what lies under it. While words are typed, a
/// text field's own keys stay its own; a field into which nothing was typed has nothing to undo.
#[must_use]
pub fn pressed(ctx: &egui::Context, now: Situation) -> Vec<Command> {
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
        if line.needs_survey && !now.survey_open {
            continue;
        }
        if line.on_walk && !now.walking {
            continue;
        }
        if line.command.is_of_the_ledger() && !now.on_gaps {
            continue;
        }
        let kept_for_text = match line.command {
            Command::CopyGaps => typing || words_selected(ctx),
            command if command.is_of_the_ledger() => typing,
            Command::Undo | Command::Redo => typing && !nothing_typed,
            Command::DeleteGap => typing,
            _ => false,
        };
        // A photo shown large lies over the pages and has keys of its own.
        let kept_for_photo = now.photo_large && !line.command.reaches_under_a_photo();
        if kept_for_text || kept_for_photo {
            continue;
        }
        let consumed = ctx.input_mut(|input| {
            // The toolkit makes an event of its own of the keys for copying.
            let copied = line.command == Command::CopyGaps && took_copy(input);
            copied
                || line
                    .shortcuts
                    .iter()
                    .any(|shortcut| input.consume_shortcut(shortcut))
        });
        if consumed {
            pressed.push(line.command);
        }
    }
    pressed
}

fn took_copy(input: &mut InputState) -> bool {
    let before = input.events.len();
    input.events.retain(|event| *event != Event::Copy);
    input.events.len() != before
}

/// Whether words of the page are marked, which are then what is copied.
fn words_selected(ctx: &egui::Context) -> bool {
    let marked = ctx.plugin_opt::<LabelSelectionState>();
    marked.is_some_and(|marked| marked.lock().has_selection())
}

#[cfg(test)]
mod tests;
