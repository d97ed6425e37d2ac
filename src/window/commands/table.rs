//! The table itself: a line for each command, in the order of the menus.

use super::command::{Command, CommandLine, Menu};
use crate::window::page::Page;
use eframe::egui;
use egui::{Key, KeyboardShortcut, Modifiers};

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
        "Start a new survey",
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
        "Write the job sheet chosen on its page",
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
        "Close this survey; new, recent and rescued surveys",
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
        "Undo the last step",
    ),
    line(
        Menu::Edit,
        Command::Redo,
        "Redo",
        &[ctrl_shift(Key::Z), ctrl(Key::Y)],
        "Do the step again that was undone last",
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
        "Everything noticed in the survey",
    )
    .group(),
    line(
        Menu::View,
        Command::Light,
        "Light colours",
        &[],
        "Dark letters on a light ground",
    )
    .always()
    .group(),
    line(
        Menu::View,
        Command::Dark,
        "Dark colours",
        &[],
        "Light letters on a dark ground",
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
        "Usual size",
        &[ctrl(Key::Num0)],
        "Everything at its original size",
    )
    .always(),
    line(
        Menu::View,
        Command::TouchSize,
        "Touch size",
        &[ctrl(Key::T)],
        "Inputs and buttons large enough for a gloved finger; choose it again for the usual size",
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
        "Every message since the window opened",
    )
    .always(),
];
