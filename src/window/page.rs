//! What a page gets to see and what it may ask for.
//!
//! A page draws from a [`PageContext`] and never changes the survey: whatever the user does
//! becomes a [`Request`] in the [`Queue`], and the queue runs at the start of the next frame.

use super::commands::Command;
use super::decisions::{Decisions, LongWork};
use super::desk::{SheetDesk, SheetFile};
use super::dialogs::Answered;
use super::jobs::Results;
use super::pages;
use super::photos::Photos;
use crate::assess::Topic;
use crate::survey::{Edit, Finding, Item, MergeKey, Place, Survey, VehicleKind};
use std::path::PathBuf;

/// The pages, in the order of the job.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Page {
    /// Size, place, weather, fabric, equipment.
    #[default]
    Vehicle,
    /// The ledger.
    Gaps,
    /// Weather cases and air changes.
    AirChange,
    /// Water to remove and heat.
    DryingHeat,
    /// What to seal first, for the money.
    SealingPlan,
    /// What is printed and handed over.
    JobSheet,
}

impl Page {
    /// Every page, in the order of the job.
    pub const ALL: [Self; 6] = [
        Self::Vehicle,
        Self::Gaps,
        Self::AirChange,
        Self::DryingHeat,
        Self::SealingPlan,
        Self::JobSheet,
    ];

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Vehicle => "Vehicle",
            Self::Gaps => "Gaps",
            Self::AirChange => "Air change",
            Self::DryingHeat => "Drying & heat",
            Self::SealingPlan => "Sealing plan",
            Self::JobSheet => "Job sheet",
        }
    }
}

/// Everything a page draws from.
pub struct PageContext<'a> {
    /// The survey as it is now.
    pub survey: &'a Survey,
    /// The survey's revision: equal revisions are equal surveys.
    pub revision: u64,
    /// The newest results; possibly of an older revision while new ones are worked out.
    pub results: Option<&'a Results>,
    /// What takes longer: how sure the results are, and what to seal.
    pub decisions: &'a Decisions,
    /// Where job sheets are set.
    pub desk: &'a SheetDesk,
    /// Where everything the user does goes.
    pub queue: &'a mut Queue,
    /// What the pages remember between frames.
    pub view: &'a mut ViewState,
    /// The photos of the survey, as pictures.
    pub photos: &'a mut Photos,
}

impl<'a> PageContext<'a> {
    /// The findings about one item, for its fields to show.
    #[must_use]
    pub fn marks(&self, item: Item) -> Marks<'a> {
        Marks {
            findings: self
                .results
                .map_or(&[], |results| results.assessment.findings.as_slice()),
            item,
            wanted: self.view.wanted,
        }
    }
}

/// The findings about one item, and the place the user asked to be taken to.
#[derive(Clone, Copy, Debug)]
pub struct Marks<'a> {
    findings: &'a [Finding],
    item: Item,
    wanted: Option<Place>,
}

impl<'a> Marks<'a> {
    /// The worst finding at a field of the item.
    #[must_use]
    pub fn at(&self, field: &str) -> Option<&'a Finding> {
        self.findings
            .iter()
            .filter(|finding| finding.place.item == self.item && finding.place.field_key() == field)
            .min_by_key(|finding| finding.severity)
    }

    /// All findings about the item, errors first.
    pub fn all(&self) -> impl Iterator<Item = &'a Finding> + use<'a> {
        let item = self.item;
        self.findings
            .iter()
            .filter(move |finding| finding.place.item == item)
    }

    /// Whether the user asked to be taken to this field.
    #[must_use]
    pub fn wants(&self, field: &str) -> bool {
        self.wanted
            .is_some_and(|place| place.item == self.item && place.field_key() == field)
    }
}

/// What the pages remember between frames: plain data, one part for each page.
#[derive(Clone, Debug, Default)]
pub struct ViewState {
    /// The page shown.
    pub page: Page,
    /// The result whose working is open.
    pub working: Option<Topic>,
    /// Whether the help on the field at hand is shown.
    pub help: bool,
    /// A place to show and focus in this frame.
    pub wanted: Option<Place>,
    /// The Vehicle page.
    pub vehicle: pages::vehicle::VehicleView,
    /// The columns of the ledger; they outlast the survey.
    pub columns: pages::gaps::Columns,
    /// How the Gaps page is divided; it outlasts the survey.
    pub division: pages::gaps::Division,
    /// The Gaps page.
    pub gaps: pages::gaps::GapsView,
    /// The Air change page.
    pub air_change: pages::air_change::AirChangeView,
    /// The Drying & heat page.
    pub drying_heat: pages::drying_heat::DryingHeatView,
    /// The Sealing plan page.
    pub sealing_plan: pages::sealing_plan::SealingPlanView,
    /// The Job sheet page.
    pub job_sheet: pages::job_sheet::JobSheetView,
}

impl ViewState {
    /// Opens the page that a place is on, lets that page reveal the item, and asks the field to
    /// take the focus in the next frame.
    pub fn go_to(&mut self, place: Place) {
        self.wanted = Some(place);
        self.page = match place.item {
            Item::Zone(_) | Item::Gap(_) | Item::Ledger => Page::Gaps,
            Item::SafetyVentilation => Page::DryingHeat,
            _ => Page::Vehicle,
        };
        match self.page {
            Page::Vehicle => self.vehicle.reveal(place.item),
            Page::Gaps => self.gaps.reveal(place.item),
            Page::AirChange => self.air_change.reveal(place.item),
            Page::DryingHeat => self.drying_heat.reveal(place.item),
            Page::SealingPlan => self.sealing_plan.reveal(place.item),
            // Nothing in a survey is entered there.
            Page::JobSheet => {}
        }
    }
}

/// Something the user asked for.
#[derive(Clone, Debug, PartialEq)]
pub enum Request {
    /// Change the survey; edits with equal keys in a row are one step.
    Edit {
        /// The change.
        edit: Edit,
        /// What is being typed into.
        merge: Option<MergeKey>,
    },
    /// What was being typed is done: the next edit is a new step.
    CloseStep,
    /// Take back what is being typed, as if it had never begun.
    AbortStep,
    /// Stop longer work.
    Stop(LongWork),
    /// Ask for longer work once more.
    Again(LongWork),
    /// Show how a result came about.
    OpenWorking(Topic),
    /// Put the working away.
    CloseWorking,
    /// Show a place and give it the focus.
    GoTo(Place),
    /// Run a command of the table.
    Command(Command),
    /// Begin a new survey of such a vehicle.
    NewSurvey(VehicleKind),
    /// Open the file at this path.
    OpenFile(PathBuf),
    /// Open what was rescued in this file.
    OpenRescued(PathBuf),
    /// Ask whether what was rescued in this file may be put away.
    PutAway(PathBuf),
    /// Take a file out of the list of those that were open last.
    ForgetRecent(PathBuf),
    /// A dialog was answered.
    Answer(Answered),
    /// Put a message away, by its number.
    Dismiss(u64),
    /// Show a page.
    Show(Page),
    /// Put the first steps away for good.
    EndGuide,
    /// Give up the job sheet being set.
    CancelSheet,
    /// Set the job sheet that was given up.
    SetSheetAgain,
    /// Ask where to write such a file, then write it.
    WriteFile(SheetFile),
    /// Open the file written last.
    OpenWritten,
}

/// What the user asked for in this frame; it runs at the start of the next one.
#[derive(Debug, Default)]
pub struct Queue {
    requests: Vec<Request>,
    typing: Option<MergeKey>,
}

impl Queue {
    /// Asks for a change of the survey. Edits with equal keys in a row are one step for undo.
    pub fn edit(&mut self, edit: Edit, merge: Option<MergeKey>) {
        self.push(Request::Edit { edit, merge });
    }

    /// Asks for the change that follows from a field which has just reported a new value: all
    /// typing into that field is one step. Ticks and choices are a step each.
    pub fn typed(&mut self, edit: Edit) {
        let merge = self.typing.take();
        let request = Request::Edit { edit, merge };
        // A field left in the very frame of its last change has closed its step already: the
        // change still belongs in front of that.
        let at = match self.requests.last() {
            Some(Request::CloseStep) => self.requests.len() - 1,
            _ => self.requests.len(),
        };
        self.requests.insert(at, request);
    }

    /// Names the field that is about to report a new value; fields call this.
    pub fn typing_in(&mut self, key: MergeKey) {
        self.typing = Some(key);
    }

    /// Ends the step being typed.
    pub fn close_step(&mut self) {
        self.push(Request::CloseStep);
    }

    /// Takes back the step being typed.
    pub fn abort_step(&mut self) {
        self.push(Request::AbortStep);
    }

    /// Asks to show how a result came about.
    pub fn open_working(&mut self, topic: Topic) {
        self.push(Request::OpenWorking(topic));
    }

    /// Asks to put the working away.
    pub fn close_working(&mut self) {
        self.push(Request::CloseWorking);
    }

    /// Asks to be taken to a place.
    pub fn go_to(&mut self, place: Place) {
        self.push(Request::GoTo(place));
    }

    /// Asks for a command.
    pub fn command(&mut self, command: Command) {
        self.push(Request::Command(command));
    }

    /// Asks for anything.
    pub fn push(&mut self, request: Request) {
        self.requests.push(request);
    }

    /// Whether nothing was asked for.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.requests.is_empty()
    }

    /// Takes everything that was asked for, in order.
    #[must_use]
    pub fn take(&mut self) -> Vec<Request> {
        self.typing = None;
        std::mem::take(&mut self.requests)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::SetUp;

    #[test]
    fn a_change_in_the_frame_of_leaving_belongs_to_the_step_that_closes() {
        let mut queue = Queue::default();
        queue.typing_in(MergeKey("width".into()));
        queue.close_step();
        queue.typed(Edit::SetUp(SetUp::InUse));
        let requests = queue.take();
        assert!(matches!(
            &requests[0],
            Request::Edit { merge: Some(MergeKey(key)), .. } if key == "width"
        ));
        assert_eq!(requests[1], Request::CloseStep);
        assert!(queue.is_empty());
    }

    #[test]
    fn a_choice_after_typing_is_a_step_of_its_own() {
        let mut queue = Queue::default();
        queue.typing_in(MergeKey("width".into()));
        queue.typed(Edit::SetUp(SetUp::InUse));
        queue.typed(Edit::SetUp(SetUp::LaidUp));
        assert!(matches!(queue.take()[1], Request::Edit { merge: None, .. }));
    }
}
