//! Photos on their way into the survey: from a dialog, dropped, or pasted.

use super::App;
use super::state::{Picking, System};
use crate::survey::findings::numbered;
use crate::survey::{Edit, GapId, MergeKey, Photo, Severity, findings};
use crate::window::page::Page;
use crate::window::photos::Source;
use crate::window::picker::{Pick, Picked, Way};
use crate::window::questions::{Dialog, PathFor};
use crate::window::request::Request;
use crate::window::theme::palette;
use eframe::egui;
use egui::{Align2, Area, Context, Event, Frame, Id, Order, Stroke, ViewportCommand};
use std::path::{Path, PathBuf};

/// Photos taken in at once.
const MOST_AT_ONCE: usize = 100;

/// Endings of pictures that are read.
pub(super) const PICTURES: [&str; 7] = ["jpg", "jpeg", "JPG", "JPEG", "png", "PNG", "webp"];

impl App {
    /// Once a frame: what was dropped, pasted or chosen goes to the worker, and what has arrived
    /// becomes part of the survey.
    pub(super) fn photos_in(&mut self, ctx: &Context) {
        if self.asked.is_none() {
            self.take_dropped(ctx);
            self.take_pasted(ctx);
        }
        let regained = |event: &Event| matches!(event, Event::WindowFocused(true));
        if ctx.input(|input| input.events.iter().any(regained)) {
            self.photos.look_again();
        }
        let survey = self.document.as_ref().map(|document| {
            (
                document.history.revision(),
                document.history.survey().clone(),
            )
        });
        let revision = survey.as_ref().map(|(revision, _)| *revision);
        self.photos
            .tick(revision, survey.as_ref().map(|(_, survey)| &**survey));
        let (arrived, troubles) = self.photos.arrivals();
        for sentence in troubles {
            self.notices.tell(Severity::Warning, sentence);
        }
        let some = !arrived.is_empty();
        for photo in arrived {
            match photo.kept {
                Ok(name) => self.add_photo(photo.gap, photo.batch, name),
                Err(sentence) => self.notices.tell(Severity::Warning, sentence),
            }
        }
        if let Some(document) = self.document.as_mut().filter(|_| some)
            && !self.photos.attaching()
        {
            document.history.close_step();
        }
        self.note_photos();
        if self.closing_after_photos && !self.photos.carrying() {
            self.closing_after_photos = false;
            self.unsaved.let_go();
            self.may_close = true;
            ctx.send_viewport_cmd(ViewportCommand::Close);
        }
    }

    fn note_photos(&mut self) {
        let Some(document) = &self.document else {
            return;
        };
        if let Some(states) = self.photos.news(document.history.revision()) {
            let found = findings::photos(document.history.survey(), states);
            self.answers.note(found);
        }
    }

    /// The photos of one batch are one step for undo.
    fn add_photo(&mut self, gap: GapId, batch: u64, name: String) {
        let gap = self.survey().and_then(|survey| survey.gap(gap)).cloned();
        let Some(mut gap) = gap else {
            let words = "A photo was not added: its gap is no longer there.";
            self.notices.tell(Severity::Note, words);
            return;
        };
        if gap.photos.iter().any(|photo| photo.name == name) {
            let words = format!("Gap {} has that photo already.", gap.id);
            self.notices.tell(Severity::Note, words);
            return;
        }
        gap.photos.push(Photo::new(name));
        let merge = MergeKey(format!("photos {batch}"));
        self.edit(Edit::gap(gap), Some(merge));
    }

    /// Asks the system for photos for the selected gap.
    pub(super) fn ask_photos(&mut self, system: System<'_>) {
        let Some(gap) = self.gap_for_photos() else {
            return;
        };
        if !self.file_dialog {
            self.photos_picked(gap, Picked::NoDialog);
        } else if self.picking.is_none() {
            let pick = Pick {
                way: Way::Several,
                folder: None,
                sort: "photos",
                endings: PICTURES.to_vec(),
            };
            self.picking = Some(Picking {
                answer: (self.picker)(&pick, system.frame, system.ctx),
                photos_of: Some(gap),
            });
        }
    }

    /// What came of the dialog for photos of a gap.
    pub(super) fn photos_picked(&mut self, gap: GapId, picked: Picked) {
        match picked {
            Picked::Paths(paths) => {
                self.attach(gap, paths.into_iter().map(Source::File).collect());
            }
            Picked::NoDialog => {
                let note = "The system offers no file dialog here: type the path, or drop the \
                            photo onto the window.";
                let dialog = Dialog::Path {
                    purpose: PathFor::Photo(gap),
                    text: String::new(),
                    note: note.to_owned(),
                };
                self.asked = Some(dialog.into());
            }
            Picked::Cancelled => {}
        }
    }

    fn take_dropped(&mut self, ctx: &Context) {
        let dropped = ctx.input(|input| input.raw.dropped_files.clone());
        if dropped.is_empty() {
            return;
        }
        let survey_file = |path: &Path| path.extension().is_some_and(|ending| ending == "ron");
        let mut paths = dropped.iter().map(|file| file.path());
        if let Some(path) = paths.find(|path| survey_file(path)) {
            self.queue.push(Request::OpenFile(path.to_owned()));
            return;
        }
        let first = dropped.first().map(|file| file.path().to_owned());
        if let Some(path) = first
            && (self.takes_dropped_weather(&path) || self.takes_dropped_logger(&path))
        {
            if dropped.len() > 1 {
                let name = path.file_name().unwrap_or_default().display();
                let words =
                    format!("Of the files dropped only {name} was taken: drop them one by one.");
                self.notices.tell(Severity::Note, words);
            }
            return;
        }
        // On that page a picture is the workshop's own.
        if self.view.page == Page::JobSheet && self.survey().is_some() {
            if let Some(file) = dropped.first() {
                self.take_logo(file.path());
            }
            return;
        }
        let paths = dropped.iter().map(|file| file.path());
        let sources = paths.map(|path| Source::File(path.to_owned())).collect();
        self.attach_to_selected(sources);
    }

    /// Takes a picture for the workshop's logo; whether it is one, the setting of the sheet tells.
    pub(super) fn take_logo(&mut self, path: &Path) {
        self.view.job_sheet.choices.logo = path.display().to_string();
    }

    fn take_pasted(&mut self, ctx: &Context) {
        let typing = ctx.text_edit_focused();
        let sources: Vec<Source> = ctx.input(|input| {
            let pasted = input.events.iter().flat_map(|event| match event {
                Event::PasteImage(image) => vec![Source::Pixels(image.clone())],
                Event::Paste(text) if !typing => {
                    paths_in(text).into_iter().map(Source::File).collect()
                }
                _ => Vec::new(),
            });
            pasted.collect()
        });
        if !sources.is_empty() && self.document.is_some() {
            self.attach_to_selected(sources);
        }
    }

    /// Takes photos in for the gap that is selected.
    fn attach_to_selected(&mut self, sources: Vec<Source>) {
        if let Some(gap) = self.gap_for_photos() {
            self.attach(gap, sources);
        }
    }

    pub(super) fn attach(&mut self, gap: GapId, mut sources: Vec<Source>) {
        if sources.len() > MOST_AT_ONCE {
            let words = format!(
                "{} files are more than are taken at once: only the first {MOST_AT_ONCE} were.",
                sources.len()
            );
            self.notices.tell(Severity::Warning, words);
            sources.truncate(MOST_AT_ONCE);
        }
        self.view.page = Page::Gaps;
        self.photos.attach(gap, sources);
    }

    fn gap_for_photos(&mut self) -> Option<GapId> {
        let survey = self.survey();
        let selected = survey.and_then(|survey| self.view.gaps.selected_in(survey));
        if selected.is_none() {
            let words = "A photo belongs to a gap: add or select a gap first.";
            self.notices.tell(Severity::Note, words);
        }
        selected
    }

    /// While files are held over the window: what dropping them will do.
    pub(super) fn drop_hint(&self, ctx: &Context) {
        let held = ctx.input(|input| input.raw.hovered_files.len());
        if held == 0 || self.asked.is_some() {
            return;
        }
        let gap = self.survey().and_then(|survey| {
            let id = self.view.gaps.selected_in(survey)?;
            survey.gap(id)
        });
        let words = match (gap, self.survey()) {
            (_, Some(_)) if self.view.page == Page::JobSheet => {
                "Drop a picture to make it the workshop\u{2019}s logo".to_owned()
            }
            (_, Some(_)) if self.view.page == Page::Winter => {
                "Drop a weather file to run the winter with it".to_owned()
            }
            (_, Some(_)) if self.view.page == Page::Measurements => {
                "Drop the file of a logger to read it".to_owned()
            }
            (Some(gap), _) => format!(
                "Drop to add photos to {}",
                numbered("gap", gap.id, &gap.name)
            ),
            (None, Some(_)) => "Add or select a gap first, then drop its photos".to_owned(),
            (None, None) => "Drop a survey file to open it".to_owned(),
        };
        Area::new(Id::unique("drop hint"))
            .order(Order::Foreground)
            .anchor(Align2::CENTER_CENTER, egui::Vec2::ZERO)
            .interactable(false)
            .show(ctx, |ui| {
                let palette = palette(ui);
                Frame::new()
                    .fill(palette.card)
                    .stroke(Stroke::new(3.0, palette.accent))
                    .corner_radius(6.0)
                    .inner_margin(28)
                    .show(ui, |ui| ui.heading(words));
            });
    }
}

/// The file paths that a text consists of, one a line, as file managers put them on the
/// clipboard; nothing where any line is something else.
pub(super) fn paths_in(text: &str) -> Vec<PathBuf> {
    let lines = text.lines().map(str::trim).filter(|line| !line.is_empty());
    let paths: Option<Vec<PathBuf>> = lines.map(path_of).collect();
    paths.unwrap_or_default()
}

fn path_of(line: &str) -> Option<PathBuf> {
    let path = match line.strip_prefix("file://") {
        Some(address) => PathBuf::from(percent_decoded(address)?),
        None => PathBuf::from(line.trim_matches('"')),
    };
    path.is_absolute().then_some(path)
}

fn percent_decoded(address: &str) -> Option<String> {
    let mut bytes = Vec::new();
    let mut rest = address.bytes();
    while let Some(byte) = rest.next() {
        if byte == b'%' {
            let digits = [rest.next()?, rest.next()?];
            let digits = std::str::from_utf8(&digits).ok()?;
            bytes.push(u8::from_str_radix(digits, 16).ok()?);
        } else {
            bytes.push(byte);
        }
    }
    String::from_utf8(bytes).ok()
}

#[cfg(test)]
#[cfg(unix)]
mod tests {
    use super::*;

    /// Escapes as in RFC 3986, 2.1 \[M\].
    #[test]
    fn pasted_paths_are_told_from_other_text() {
        let paths = paths_in("file:///home/x/door%20seal.jpg\n/tmp/ü.png\n");
        let expected: [PathBuf; 2] = ["/home/x/door seal.jpg".into(), "/tmp/ü.png".into()];
        assert_eq!(paths, expected);
        assert_eq!(paths_in("file:///a%C3%BC.jpg"), [PathBuf::from("/aü.jpg")]);
        for other in [
            "door seal",
            "/a.jpg\nand words",
            "file:///bad%G0.jpg",
            "",
            "%41",
        ] {
            assert!(paths_in(other).is_empty(), "{other}");
        }
    }
}
