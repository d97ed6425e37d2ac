//! The table itself: a line for each command, in the order of the menus.

use super::command::{Command, CommandLine};
use crate::window::page::Page;
use eframe::egui;
use egui::{Key, KeyboardShortcut, Modifiers};

const fn ctrl(key: Key) -> KeyboardShortcut {
    KeyboardShortcut::new(Modifiers::COMMAND, key)
}

const fn ctrl_shift(key: Key) -> KeyboardShortcut {
    KeyboardShortcut::new(Modifiers::COMMAND.plus(Modifiers::SHIFT), key)
}

const fn alt(key: Key) -> KeyboardShortcut {
    KeyboardShortcut::new(Modifiers::ALT, key)
}

const fn plain(key: Key) -> KeyboardShortcut {
    KeyboardShortcut::new(Modifiers::NONE, key)
}

const fn line(
    command: Command,
    name: &'static str,
    shortcuts: &'static [KeyboardShortcut],
    tooltip: &'static str,
) -> CommandLine {
    CommandLine {
        command,
        starts_group: false,
        name,
        tooltip,
        shortcuts,
        needs_survey: true,
        on_walk: false,
    }
}

impl CommandLine {
    const fn always(mut self) -> Self {
        self.needs_survey = false;
        self
    }

    const fn on_walk(mut self) -> Self {
        self.on_walk = true;
        self
    }

    const fn group(mut self) -> Self {
        self.starts_group = true;
        self
    }
}

/// Every menu, from left to right, with its commands.
pub const MENUS: [(&str, &[CommandLine]); 5] = [
    ("Survey", SURVEY),
    ("Edit", EDIT),
    ("Walk", WALK),
    ("View", VIEW),
    ("Help", HELP),
];

const SURVEY: &[CommandLine] = &[
    line(
        Command::New,
        "New survey…",
        &[ctrl_shift(Key::N)],
        "Start a new survey",
    )
    .always(),
    line(
        Command::Open,
        "Open…",
        &[ctrl(Key::O)],
        "Open a survey file",
    )
    .always(),
    line(Command::Save, "Save", &[ctrl(Key::S)], "Save the survey").group(),
    line(
        Command::SaveAs,
        "Save as…",
        &[ctrl_shift(Key::S)],
        "Save the survey under another name",
    ),
    line(
        Command::SaveSheet,
        "Save job sheet as PDF…",
        &[ctrl(Key::P)],
        "Write the job sheet chosen on its page",
    )
    .group(),
    line(
        Command::SaveLedger,
        "Save ledger as CSV…",
        &[],
        "Write the ledger of gaps for a spreadsheet",
    ),
    line(
        Command::SavePlan,
        "Save plan as CSV…",
        &[],
        "Write the sealing plan for a spreadsheet",
    ),
    line(
        Command::StartPage,
        "Start page",
        &[ctrl(Key::W)],
        "Close this survey; new, recent and rescued surveys",
    )
    .group(),
    line(Command::Quit, "Quit", &[ctrl(Key::Q)], "Leave Gapledger").always(),
];

const EDIT: &[CommandLine] = &[
    line(Command::Undo, "Undo", &[ctrl(Key::Z)], "Undo the last step"),
    line(
        Command::Redo,
        "Redo",
        &[ctrl_shift(Key::Z), ctrl(Key::Y)],
        "Do the step again that was undone last",
    ),
    line(
        Command::AddGap,
        "Add gap",
        &[ctrl(Key::N), plain(Key::Insert)],
        "Add a gap with the zone and facing of the last one",
    )
    .group(),
    line(
        Command::QuickEntry,
        "Quick entry",
        &[ctrl(Key::E)],
        "Go to the bar that takes a gap in one line and is ready for the next",
    ),
    line(
        Command::DuplicateGap,
        "Duplicate gap",
        &[ctrl(Key::D)],
        "Add a copy of each selected gap",
    ),
    line(
        Command::MirrorGap,
        "Mirror gap to the other side",
        &[ctrl(Key::M)],
        "Add a copy of each selected gap on the other side of the vehicle",
    ),
    line(
        Command::DeleteGap,
        "Delete gap",
        &[ctrl(Key::Delete)],
        "Delete each selected gap; it can be undone",
    ),
    line(
        Command::CopyGaps,
        "Copy gaps",
        &[ctrl(Key::C)],
        "Copy each selected gap to the clipboard, for this window or another",
    )
    .group(),
    line(
        Command::PasteGaps,
        "Paste gaps",
        &[ctrl(Key::V)],
        "Add the gaps that are on the clipboard",
    ),
    line(
        Command::SelectAllGaps,
        "Select all gaps",
        &[ctrl(Key::A)],
        "Select every gap that the ledger shows",
    ),
    line(
        Command::MoveUp,
        "Move gaps up",
        &[alt(Key::ArrowUp)],
        "Move each selected gap a row up in the ledger; dragging its number does so too",
    ),
    line(
        Command::MoveDown,
        "Move gaps down",
        &[alt(Key::ArrowDown)],
        "Move each selected gap a row down in the ledger",
    ),
    line(
        Command::FindGap,
        "Find gap",
        &[ctrl(Key::F)],
        "Search the ledger by words or by the number of a gap",
    ),
    line(
        Command::AddPhotos,
        "Add photos…",
        &[ctrl_shift(Key::P)],
        "Add photos to the selected gap",
    ),
    line(
        Command::UsualVehicle,
        "Fill in what is usual",
        &[ctrl_shift(Key::U)],
        "Fabric, appliances and weather that such a vehicle usually has, wherever nothing is entered",
    )
    .group(),
];

const WALK: &[CommandLine] = &[
    line(
        Command::WalkRound,
        "Walk round",
        &[plain(Key::F7)],
        "Go to the usual places, station by station, and on to the next one",
    ),
    line(
        Command::SiteMode,
        "Site mode",
        &[plain(Key::F9)],
        "Only the drawing, the station and one large form, for fingers; the same key leaves it",
    ),
    line(
        Command::Found,
        "Found",
        &[plain(Key::Enter)],
        "There is a gap at the place chosen: adds it there with its usual form",
    )
    .on_walk()
    .group(),
    line(
        Command::LookedNothing,
        "Looked, nothing",
        &[plain(Key::N)],
        "You looked at the place chosen, and there is no gap",
    )
    .on_walk(),
    line(
        Command::NotReached,
        "Not reached",
        &[plain(Key::R)],
        "You could not get at the place chosen: the report says so",
    )
    .on_walk(),
    line(
        Command::NotLookedAt,
        "Not yet",
        &[plain(Key::Backspace)],
        "Nothing is said of the place chosen any more",
    )
    .on_walk(),
];

const VIEW: &[CommandLine] = &[
    line(
        Command::Show(Page::InShort),
        "In short",
        &[ctrl(Key::Num7)],
        "What is wrong, what to buy, what to seal, what never to close",
    ),
    line(
        Command::Show(Page::Vehicle),
        "Vehicle",
        &[ctrl(Key::Num1)],
        "Size, place, weather, fabric, equipment",
    ),
    line(
        Command::Show(Page::Gaps),
        "Gaps",
        &[ctrl(Key::Num2)],
        "The ledger of gaps",
    ),
    line(
        Command::Show(Page::AirChange),
        "Air change",
        &[ctrl(Key::Num3)],
        "Air changes in each weather case",
    ),
    line(
        Command::Show(Page::DryingHeat),
        "Drying & heat",
        &[ctrl(Key::Num4)],
        "Water to remove and heat in each weather case",
    ),
    line(
        Command::Show(Page::Winter),
        "Winter",
        &[ctrl(Key::Num8)],
        "A season hour by hour: humidity, frost, mould and money",
    ),
    line(
        Command::Show(Page::SealingPlan),
        "Sealing plan",
        &[ctrl(Key::Num5)],
        "What to seal first, for the money, and what stays open",
    ),
    line(
        Command::Show(Page::Measurements),
        "Measurements",
        &[ctrl(Key::Num9)],
        "Fan tests, and what they say of the survey",
    ),
    line(
        Command::Show(Page::JobSheet),
        "Job sheet",
        &[ctrl(Key::Num6)],
        "What is printed and handed over",
    ),
    line(
        Command::Findings,
        "Findings",
        &[plain(Key::F8)],
        "Everything noticed in the survey",
    )
    .group(),
    line(
        Command::Light,
        "Light colours",
        &[],
        "Dark letters on a light ground",
    )
    .always()
    .group(),
    line(
        Command::Dark,
        "Dark colours",
        &[],
        "Light letters on a dark ground",
    )
    .always(),
    line(
        Command::FollowSystem,
        "Colours as the system",
        &[],
        "Light or dark as the system is set",
    )
    .always(),
    line(
        Command::Metric,
        "Metric units",
        &[],
        "Show and read sizes in metric units",
    )
    .always()
    .group(),
    line(
        Command::UsCustomary,
        "US customary units",
        &[],
        "Show and read sizes in inches, feet and degrees Fahrenheit; the survey file stays metric",
    )
    .always(),
    line(
        Command::Larger,
        "Larger",
        &[ctrl(Key::Plus), ctrl(Key::Equals)],
        "Everything larger",
    )
    .always()
    .group(),
    line(
        Command::Smaller,
        "Smaller",
        &[ctrl(Key::Minus)],
        "Everything smaller",
    )
    .always(),
    line(
        Command::FirstSize,
        "Usual size",
        &[ctrl(Key::Num0)],
        "Everything at its original size",
    )
    .always(),
    line(
        Command::TouchSize,
        "Touch size",
        &[ctrl(Key::T)],
        "Inputs and buttons large enough for a gloved finger; choose it again for the usual size",
    )
    .always(),
];

const HELP: &[CommandLine] = &[
    line(
        Command::FieldHelp,
        "Help on the field",
        &[plain(Key::F1)],
        "A line that says what to enter in the field at hand and how to measure it",
    )
    .always(),
    line(
        Command::Keys,
        "Keys…",
        &[ctrl(Key::F1)],
        "Every key of the window",
    )
    .always(),
    line(
        Command::FirstSteps,
        "First steps",
        &[],
        "What to do first, in a line under the menus",
    ),
    line(
        Command::SaveGuide,
        "Guide as PDF…",
        &[],
        "How to survey such a vehicle in an hour, on one page to print",
    ),
    line(
        Command::Messages,
        "Messages…",
        &[ctrl_shift(Key::M)],
        "Every message since the window opened",
    )
    .always(),
];
