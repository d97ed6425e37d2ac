//! A sheet made ready for the typesetter: names and bytes, nothing else, so that it can be handed to
//! another process.

use super::blocks::{Picture, Sheet, SheetText};
use super::error::SheetError;
use super::framed::{read_bytes, read_text, write_bytes};
use super::glyphs::Printable;
use super::shorten::{SHEET, shorten};
use super::units;
use serde_json::Value;
use std::io::{self, Read, Write};
use typst::foundations::Bytes;

/// Name of the file that the template reads the sheet from.
const DATA: &str = "data.json";

/// A sheet made ready: every text printable and of a length that paper takes.
#[derive(Clone, Debug, PartialEq)]
pub struct Manuscript {
    files: Vec<(String, Bytes)>,
    replaced: Option<String>,
}

impl Manuscript {
    /// Makes a sheet ready.
    ///
    /// # Errors
    /// [`SheetError::Refused`] and [`SheetError::TooLong`].
    pub fn of(sheet: &Sheet) -> Result<Self, SheetError> {
        if let Some(why) = &sheet.refused {
            return Err(SheetError::Refused(why.clone()));
        }
        let mut text = sheet.text.clone();
        let letters = shorten(&mut text);
        if letters > SHEET {
            return Err(SheetError::TooLong { letters });
        }
        let mut printable = Printable::default();
        let mut files: Vec<(String, Bytes)> = sheet
            .files
            .iter()
            .map(|(name, picture)| (name.clone(), bytes(picture, &mut printable)))
            .collect();
        let data = data(&text, &mut printable)?;
        files.push((DATA.to_owned(), Bytes::new(data)));
        let replaced = printable.sentence();
        Ok(Self { files, replaced })
    }

    /// Its files by their names, and the sentence about characters that were replaced.
    pub(super) fn into_parts(self) -> (Vec<(String, Bytes)>, Option<String>) {
        (self.files, self.replaced)
    }

    /// Writes it for [`Manuscript::read`].
    ///
    /// # Errors
    /// Those of the writer.
    pub fn write(&self, to: &mut impl Write) -> io::Result<()> {
        write_bytes(to, self.replaced.as_deref().unwrap_or_default().as_bytes())?;
        for (name, bytes) in &self.files {
            write_bytes(to, name.as_bytes())?;
            write_bytes(to, bytes)?;
        }
        // No file is without a name.
        write_bytes(to, &[])
    }

    /// Reads what [`Manuscript::write`] wrote.
    ///
    /// # Errors
    /// Those of the reader; where it is something else or cut off.
    pub fn read(from: &mut impl Read) -> io::Result<Self> {
        let replaced = Some(read_text(from)?).filter(|sentence| !sentence.is_empty());
        let mut files = Vec::new();
        loop {
            let name = read_text(from)?;
            if name.is_empty() {
                return Ok(Self { files, replaced });
            }
            files.push((name, Bytes::new(read_bytes(from)?)));
        }
    }
}

/// The bytes of a picture; the words in a drawing made printable.
fn bytes(picture: &Picture, printable: &mut Printable) -> Bytes {
    match std::str::from_utf8(&picture.bytes) {
        Ok(drawing) => Bytes::from_string(printable.characters(drawing)),
        Err(_) => Bytes::new(SharedBytes(picture.bytes.clone())),
    }
}

/// Bytes that are not copied.
struct SharedBytes(std::sync::Arc<Vec<u8>>);

impl AsRef<[u8]> for SharedBytes {
    fn as_ref(&self) -> &[u8] {
        &self.0
    }
}

/// The text as the template reads it, every string of it printable.
fn data(text: &SheetText, printable: &mut Printable) -> Result<Vec<u8>, SheetError> {
    let failed = |error: serde_json::Error| SheetError::Typesetting(error.to_string());
    let mut value = serde_json::to_value(text).map_err(failed)?;
    make_printable(&mut value, printable);
    if let Some(fields) = value.as_object_mut() {
        let sentence = printable.sentence().map_or(Value::Null, Value::String);
        fields.insert("replaced".to_owned(), sentence);
    }
    serde_json::to_vec(&value).map_err(failed)
}

fn make_printable(value: &mut Value, printable: &mut Printable) {
    match value {
        Value::String(text) => *text = printable.text(&units::kept_together(text)),
        Value::Array(values) => {
            for value in values {
                make_printable(value, printable);
            }
        }
        Value::Object(fields) => {
            for (_, value) in fields {
                make_printable(value, printable);
            }
        }
        Value::Null | Value::Bool(_) | Value::Number(_) => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheet::contents::tests::sheet;
    use crate::sheet::{Choices, Kind};
    use crate::survey::file;

    fn manuscript() -> Manuscript {
        let text = include_str!("../../sample-surveys/farmyard-caravan.ron");
        let survey = file::parse(text).expect("a sample");
        Manuscript::of(&sheet(&survey, &Choices::new(Kind::WorkOrder))).expect("a sheet")
    }

    #[test]
    fn a_manuscript_comes_out_of_a_pipe_as_it_went_in() {
        let manuscript = manuscript();
        assert!(manuscript.files.len() > 1, "it has drawings");
        let mut written = Vec::new();
        manuscript.write(&mut written).unwrap();
        let read = Manuscript::read(&mut written.as_slice()).unwrap();
        assert_eq!(read, manuscript);
    }

    #[test]
    fn a_manuscript_that_is_cut_off_is_refused_wherever_it_is_cut() {
        let mut written = Vec::new();
        manuscript().write(&mut written).unwrap();
        let step = written.len() / 97;
        for end in (0..written.len()).step_by(step) {
            let cut = written.get(..end).unwrap();
            let kind = Manuscript::read(&mut &*cut).map_err(|error| error.kind());
            assert_eq!(kind, Err(io::ErrorKind::UnexpectedEof), "{end}");
        }
    }
}
