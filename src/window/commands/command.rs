//! What can be commanded, and what a line of the table of commands holds.

use crate::window::page::Page;
use eframe::egui::KeyboardShortcut;

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
    /// Write the guide to surveying.
    SaveGuide,
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
    /// Copy the selected gaps to the clipboard.
    CopyGaps,
    /// Add the gaps that are on the clipboard.
    PasteGaps,
    /// Select every gap that the ledger shows.
    SelectAllGaps,
    /// Move the selected gaps a row up.
    MoveUp,
    /// Move the selected gaps a row down.
    MoveDown,
    /// Go to the bar that takes gaps quickly.
    QuickEntry,
    /// Go to the search of the ledger.
    FindGap,
    /// Add photos to the selected gap.
    AddPhotos,
    /// Go to the usual places of the walk round.
    WalkRound,
    /// Turn site mode on or off.
    SiteMode,
    /// There is a gap at the usual place.
    Found,
    /// Somebody looked at the usual place, and there is no gap.
    LookedNothing,
    /// Nobody could get at the usual place.
    NotReached,
    /// Nothing is said of the usual place any more.
    NotLookedAt,
    /// Fill in what is usual for the vehicle's kind.
    UsualVehicle,
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
    /// Sizes in metric units.
    Metric,
    /// Sizes in US customary units.
    UsCustomary,
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

/// One line of the table.
#[derive(Clone, Copy, Debug)]
pub struct CommandLine {
    /// The command.
    pub command: Command,
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
    /// Its keys count only while the list of usual places has the focus.
    pub on_walk: bool,
}
