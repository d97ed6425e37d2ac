//! One table of commands drives menus, shortcuts and tooltips.

use super::page::Page;
use eframe::egui;
use egui::{Key, KeyboardShortcut, Modifiers};

/// What a user can command from anywhere in the window.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Command {
    /// Begin a new survey.
    New,
    /// Open a survey.
    Open,
    /// Save under the present name.
    Save,
    /// Save under another name.
    SaveAs,
    /// Write the job sheet.
    SaveSheet,
    /// Write the ledger for a spreadsheet.
    SaveLedger,
    /// Write the sealing plan for a spreadsheet.
    SavePlan,
    /// Put the survey away and show the start page.
    StartPage,
    /// Leave the program.
    Quit,
    /// Undo one step.
    Undo,
    /// Redo one step.
    Redo,
    /// Add a gap to the ledger.
    AddGap,
    /// Add a copy of the selected gap.
    DuplicateGap,
    /// Add a copy of the selected gap on the other side.
    MirrorGap,
    /// Delete the selected gap.
    DeleteGap,
    /// Go to the bar that takes gaps quickly.
    QuickEntry,
    /// Go to the search of the ledger.
    FindGap,
    /// Add photos to the selected gap.
    AddPhotos,
    /// Show a page.
    Show(Page),
    /// Show all findings.
    Findings,
    /// Light colours.
    Light,
    /// Dark colours.
    Dark,
    /// Colours as the system has them.
    FollowSystem,
    /// Everything larger.
    Larger,
    /// Everything smaller.
    Smaller,
    /// Everything at its first size.
    FirstSize,
    /// Show or hide the help on the field that has the focus.
    FieldHelp,
    /// Inputs and buttons large enough for a gloved finger, or not.
    TouchSize,
    /// Show what the window told in this run.
    Messages,
    /// Show every key.
    Keys,
    /// Show the first steps.
    FirstSteps,
}

/// The menu a command stands in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Menu {
    /// Files.
    Survey,
    /// Steps and gaps.
    Edit,
    /// Pages and looks.
    View,
    /// Help.
    Help,
}

impl Menu {
    /// Every menu, from left to right.
    pub const ALL: [Self; 4] = [Self::Survey, Self::Edit, Self::View, Self::Help];

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Survey => "Survey",
            Self::Edit => "Edit",
            Self::View => "View",
            Self::Help => "Help",
        }
    }
}

/// One line of the table.
#[derive(Clone, Copy, Debug)]
pub struct CommandLine {
    /// The command.
    pub command: Command,
    /// The menu it stands in.
    pub menu: Menu,
    /// A rule is drawn above it.
    pub starts_group: bool,
    /// Its name in the menu.
    pub name: &'static str,
    /// What it does, in a few words.
    pub tooltip: &'static str,
    /// Keys that run it; the first is shown.
    pub shortcuts: &'static [KeyboardShortcut],
    /// It needs an open survey.
    pub needs_survey: bool,
}

const fn ctrl(key: Key) -> KeyboardShortcut {
    KeyboardShortcut::new(Modifiers::COMMAND, key)
}

const fn ctrl_shift(key: Key) -> KeyboardShortcut {
    KeyboardShortcut::new(Modifiers::COMMAND.plus(Modifiers::SHIFT), key)
}

const fn plain(key: Key) -> KeyboardShortcut {
    KeyboardShortcut::new(Modifiers::NONE, key)
}

const fn line(
    menu: Menu,
    command: Command,
    name: &'static str,
    shortcuts: &'static [KeyboardShortcut],
    tooltip: &'static str,
) -> CommandLine {
    CommandLine {
        command,
        menu,
        starts_group: false,
        name,
        tooltip,
        shortcuts,
        needs_survey: true,
    }
}

impl CommandLine {
    const fn always(mut self) -> Self {
        self.needs_survey = false;
        self
    }

    const fn group(mut self) -> Self {
        self.starts_group = true;
        self
    }
}

/// Every command, in the order of the menus.
pub const COMMANDS: &[CommandLine] = &[
    line(
        Menu::Survey,
        Command::New,
        "New survey…",
        &[ctrl_shift(Key::N)],
        "Begin a new survey",
    )
    .always(),
    line(
        Menu::Survey,
        Command::Open,
        "Open…",
        &[ctrl(Key::O)],
        "Open a survey file",
    )
    .always(),
    line(
        Menu::Survey,
        Command::Save,
        "Save",
        &[ctrl(Key::S)],
        "Save the survey",
    )
    .group(),
    line(
        Menu::Survey,
        Command::SaveAs,
        "Save as…",
        &[ctrl_shift(Key::S)],
        "Save the survey under another name",
    ),
    line(
        Menu::Survey,
        Command::SaveSheet,
        "Save job sheet as PDF…",
        &[ctrl(Key::P)],
        "Write the job sheet that was chosen on its page",
    )
    .group(),
    line(
        Menu::Survey,
        Command::SaveLedger,
        "Save ledger as CSV…",
        &[],
        "Write the ledger of gaps for a spreadsheet",
    ),
    line(
        Menu::Survey,
        Command::SavePlan,
        "Save plan as CSV…",
        &[],
        "Write the sealing plan for a spreadsheet",
    ),
    line(
        Menu::Survey,
        Command::StartPage,
        "Start page",
        &[ctrl(Key::W)],
        "Put this survey away; new, recent and rescued surveys",
    )
    .group(),
    line(
        Menu::Survey,
        Command::Quit,
        "Quit",
        &[ctrl(Key::Q)],
        "Leave Gapledger",
    )
    .always(),
    line(
        Menu::Edit,
        Command::Undo,
        "Undo",
        &[ctrl(Key::Z)],
        "Take the last step back",
    ),
    line(
        Menu::Edit,
        Command::Redo,
        "Redo",
        &[ctrl_shift(Key::Z), ctrl(Key::Y)],
        "Take the step again",
    ),
    line(
        Menu::Edit,
        Command::AddGap,
        "Add gap",
        &[ctrl(Key::N), plain(Key::Insert)],
        "Add a gap with the zone and facing of the last one",
    )
    .group(),
    line(
        Menu::Edit,
        Command::QuickEntry,
        "Quick entry",
        &[ctrl(Key::E)],
        "Go to the bar that takes a gap in one line and is ready for the next",
    ),
    line(
        Menu::Edit,
        Command::DuplicateGap,
        "Duplicate gap",
        &[ctrl(Key::D)],
        "Add a copy of each selected gap",
    ),
    line(
        Menu::Edit,
        Command::MirrorGap,
        "Mirror gap to the other side",
        &[ctrl(Key::M)],
        "Add a copy of each selected gap on the other side of the vehicle",
    ),
    line(
        Menu::Edit,
        Command::DeleteGap,
        "Delete gap",
        &[ctrl(Key::Delete)],
        "Delete each selected gap; it can be undone",
    ),
    line(
        Menu::Edit,
        Command::FindGap,
        "Find gap",
        &[ctrl(Key::F)],
        "Search the ledger by words or by the number of a gap",
    ),
    line(
        Menu::Edit,
        Command::AddPhotos,
        "Add photos…",
        &[ctrl_shift(Key::P)],
        "Add photos to the selected gap",
    ),
    line(
        Menu::View,
        Command::Show(Page::Vehicle),
        "Vehicle",
        &[ctrl(Key::Num1)],
        "Size, place, weather, fabric, equipment",
    ),
    line(
        Menu::View,
        Command::Show(Page::Gaps),
        "Gaps",
        &[ctrl(Key::Num2)],
        "The ledger of gaps",
    ),
    line(
        Menu::View,
        Command::Show(Page::AirChange),
        "Air change",
        &[ctrl(Key::Num3)],
        "Air changes in each weather case",
    ),
    line(
        Menu::View,
        Command::Show(Page::DryingHeat),
        "Drying & heat",
        &[ctrl(Key::Num4)],
        "Water to remove and heat in each weather case",
    ),
    line(
        Menu::View,
        Command::Show(Page::SealingPlan),
        "Sealing plan",
        &[ctrl(Key::Num5)],
        "What to seal first, for the money, and what stays open",
    ),
    line(
        Menu::View,
        Command::Show(Page::JobSheet),
        "Job sheet",
        &[ctrl(Key::Num6)],
        "What is printed and handed over",
    ),
    line(
        Menu::View,
        Command::Findings,
        "Findings",
        &[plain(Key::F8)],
        "Everything that was noticed in the survey",
    )
    .group(),
    line(
        Menu::View,
        Command::Light,
        "Light colours",
        &[],
        "Ink on paper",
    )
    .always()
    .group(),
    line(
        Menu::View,
        Command::Dark,
        "Dark colours",
        &[],
        "Chalk on slate",
    )
    .always(),
    line(
        Menu::View,
        Command::FollowSystem,
        "Colours as the system",
        &[],
        "Light or dark as the system is set",
    )
    .always(),
    line(
        Menu::View,
        Command::Larger,
        "Larger",
        &[ctrl(Key::Plus), ctrl(Key::Equals)],
        "Everything larger",
    )
    .always()
    .group(),
    line(
        Menu::View,
        Command::Smaller,
        "Smaller",
        &[ctrl(Key::Minus)],
        "Everything smaller",
    )
    .always(),
    line(
        Menu::View,
        Command::FirstSize,
        "First size",
        &[ctrl(Key::Num0)],
        "Everything at its first size",
    )
    .always(),
    line(
        Menu::View,
        Command::TouchSize,
        "Touch size",
        &[ctrl(Key::T)],
        "Inputs and buttons large enough for a finger in a glove; again for the usual size",
    )
    .always(),
    line(
        Menu::Help,
        Command::FieldHelp,
        "Help on the field",
        &[plain(Key::F1)],
        "A line that says what to enter in the field at hand and how to measure it",
    )
    .always(),
    line(
        Menu::Help,
        Command::Keys,
        "Keys…",
        &[ctrl(Key::F1)],
        "Every key of the window",
    )
    .always(),
    line(
        Menu::Help,
        Command::FirstSteps,
        "First steps",
        &[],
        "What to do first, in a line under the menus",
    ),
    line(
        Menu::Help,
        Command::Messages,
        "Messages…",
        &[ctrl_shift(Key::M)],
        "What the window told since it opened",
    )
    .always(),
];

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
        COMMANDS.iter().find(|line| line.command == self)
    }
}

/// The commands whose shortcut was pressed; their keys are used up. With a photo shown large, only
/// those that do not change what lies under it. While words are typed, a
/// text field's own keys stay its own.
#[must_use]
pub fn pressed(ctx: &egui::Context, survey_open: bool, photo_large: bool) -> Vec<Command> {
    let typing = ctx.text_edit_focused();
    let mut pressed = Vec::new();
    // Longer chords first: Ctrl+Shift+S also matches Ctrl+S.
    let mut lines: Vec<&CommandLine> = COMMANDS.iter().collect();
    lines.sort_by_key(|line| {
        let shift = |shortcut: &KeyboardShortcut| shortcut.modifiers.shift;
        !line.shortcuts.iter().any(shift)
    });
    for line in lines {
        if line.needs_survey && !survey_open {
            continue;
        }
        let kept_for_text = typing
            && matches!(
                line.command,
                Command::Undo | Command::Redo | Command::DeleteGap
            );
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
