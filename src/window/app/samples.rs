//! Opening a sample: a copy of it, which has no file.

use super::App;
use crate::survey::Severity;
use crate::survey::file::parse;
use crate::window::document::Document;
use crate::window::notices::sentence_of;
use crate::window::page::Page;
use crate::window::samples::Sample;

impl App {
    /// Opens a copy of a sample, where no survey is open.
    pub(super) fn open_sample(&mut self, sample: Sample) {
        if self.document.is_some() {
            return;
        }
        let survey = match parse(sample.text) {
            Ok(survey) => survey,
            Err(error) => {
                self.notices.tell(Severity::Error, sentence_of(&error));
                return;
            }
        };
        let page = self.preferences.page.unwrap_or(Page::Gaps);
        self.show_document(Document::new(survey), page);
        self.photos.unpack(sample.photos);
        self.photos.unpack(sample.data);
        self.notices.tell(
            Severity::Note,
            "This is a copy of a sample, and everything in it is invented. Nothing is kept of it \
             unless you save it under a name.",
        );
    }
}
