//! What a user may ask for, and the queue that holds it until the next frame.
//!
//! Nothing here knows a page's code: pages and widgets put requests in, the shell runs them.

use super::answers::LongWork;
use super::commands::Command;
use super::loggers::Chosen;
use super::page::Page;
use super::questions::Answered;
use super::samples::Sample;
use super::typesetting::SheetFile;
use crate::assess::Topic;
use crate::survey::{Edit, GapId, MergeKey, Place, SeriesId, VehicleKind};
use std::path::PathBuf;

/// Something the user asked for.
#[derive(Clone, Debug, PartialEq)]
#[expect(
    clippy::large_enum_variant,
    reason = "a frame has a few of them, and none is kept"
)]
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
    /// Open a copy of a sample.
    OpenSample(Sample),
    /// Open what was rescued in this file.
    OpenRescued(PathBuf),
    /// Ask whether what was rescued in this file may be put away.
    PutAway(PathBuf),
    /// Take a file out of the list of those that were open last.
    ForgetRecent(PathBuf),
    /// A dialog was answered.
    Answer(Answered),
    /// Tell of what was done with the change before this, with the way to undo it.
    TellUndoable(String),
    /// Take a message off the window, by its number.
    Dismiss(u64),
    /// Show a page.
    Show(Page),
    /// Select a gap.
    SelectGap(GapId),
    /// Put the first steps away for good.
    EndGuide,
    /// Give up the job sheet being set.
    CancelSheet,
    /// Set the job sheet that was given up.
    SetSheetAgain,
    /// Ask which picture is the workshop's logo.
    ChooseLogo,
    /// Ask which weather file the winter is run with.
    ChooseWeather,
    /// Ask which logger's file is taken in, in place of that of a logger where one is named.
    ChooseLogger(Option<SeriesId>),
    /// Look again at the file of a logger.
    LoggerAgain(SeriesId),
    /// Look at a logger's file again; anew where something was said of it as a whole.
    LookAtLogger {
        /// The file, with how it is to be read.
        chosen: Box<Chosen>,
        /// What was not said is guessed anew.
        anew: bool,
    },
    /// Give up reading a logger's file.
    StopLogger,
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
        // A field left in the very frame of its last change has closed or taken back its step
        // already: the change still belongs in front of that.
        let at = match self.requests.last() {
            Some(Request::CloseStep | Request::AbortStep) => self.requests.len() - 1,
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
