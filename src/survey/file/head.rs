//! The first part of a survey file: what a list of files says of each without reading all of it.

use super::text::parse;
use crate::survey::{Header, Survey, Vehicle};
use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

/// So much of a file is read: title and vehicle stand in front of all lists.
const READ_BYTES: u64 = 64 * 1024;

/// What the first part of a file says.
#[derive(Clone, Debug, PartialEq)]
pub struct FileHead {
    /// Title, date, surveyor.
    pub header: Header,
    /// The vehicle.
    pub vehicle: Vehicle,
}

/// Reads the first part of a file. Whether the rest can be read is not known then. `None` where
/// there is no file, or the first part is not that of a survey.
#[must_use]
pub fn read_head(path: &Path) -> Option<FileHead> {
    head(&first_bytes(path).ok()?)
}

fn first_bytes(path: &Path) -> io::Result<Vec<u8>> {
    let there = path.metadata()?;
    // To open a pipe would wait for ever, and so may a file of the system that calls itself empty.
    if !there.is_file() || there.len() == 0 {
        return Err(io::Error::from(io::ErrorKind::InvalidInput));
    }
    let mut bytes = Vec::new();
    File::open(path)?.take(READ_BYTES).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// The first part of a survey from the first bytes of its file.
fn head(bytes: &[u8]) -> Option<FileHead> {
    let whole = (bytes.len() as u64) < READ_BYTES;
    let text = match std::str::from_utf8(bytes) {
        Ok(text) => text,
        // A letter may be cut in two at the end of what was read.
        Err(error) if !whole => bytes
            .get(..error.valid_up_to())
            .and_then(|sound| std::str::from_utf8(sound).ok())?,
        Err(_) => return None,
    };
    let short;
    let text = if whole {
        text
    } else {
        short = format!("{})", text.get(..last_comma(text)?)?);
        &short
    };
    let Survey {
        header, vehicle, ..
    } = parse(text).ok()?;
    Some(FileHead { header, vehicle })
}

/// Where the last field of the survey ends that is there whole: the last comma between its fields.
fn last_comma(text: &str) -> Option<usize> {
    let mut depth = 0_i32;
    let mut found = None;
    let mut bytes = text.bytes().enumerate().peekable();
    while let Some((at, byte)) = bytes.next() {
        match byte {
            b'"' => {
                while let Some((_, inner)) = bytes.next() {
                    match inner {
                        b'\\' => {
                            bytes.next();
                        }
                        b'"' => break,
                        _ => {}
                    }
                }
            }
            b'/' if bytes.peek().is_some_and(|(_, next)| *next == b'/') => {
                let _ = bytes.find(|(_, inner)| *inner == b'\n');
            }
            b'(' | b'[' | b'{' => depth += 1,
            b')' | b']' | b'}' => depth -= 1,
            b',' if depth == 1 => found = Some(at),
            _ => {}
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::file::print;
    use crate::survey::{Facing, Form, Gap, GapId, VehicleKind};

    fn survey(gaps: u32) -> Survey {
        let mut survey = Survey::new(VehicleKind::PanelVan);
        survey.header.title = "Two \"brackets\" (and [a comma], // no comment".to_owned();
        survey.header.date = "2026-11-03".to_owned();
        survey.vehicle.length_m = Some(6.4);
        let zone = survey.zones[0].id;
        let gap = |id| {
            let form = Form::RoundHole { diameter_mm: None };
            Gap::new(GapId(id), zone, Facing::Roof, form)
        };
        survey.gaps = (1..=gaps).map(gap).collect();
        survey
    }

    #[test]
    fn title_and_vehicle_are_read_of_a_short_and_of_a_long_file() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("van.ron");
        for gaps in [0, 2, 4000] {
            let survey = survey(gaps);
            let text = print(&survey);
            assert_eq!(gaps > 1000, text.len() > 70_000);
            std::fs::write(&path, text).unwrap();
            let read = read_head(&path).unwrap();
            assert_eq!(read.header, survey.header);
            assert_eq!(read.vehicle, survey.vehicle);
        }
    }

    #[test]
    fn what_comes_after_the_first_part_is_not_read() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("van.ron");
        let text = format!("{}{}", print(&survey(4000)), "hostile (((".repeat(100_000));
        std::fs::write(&path, text).unwrap();
        assert!(read_head(&path).is_some());
    }

    #[test]
    fn what_is_no_survey_has_no_first_part() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("other.ron");
        assert_eq!(read_head(&path), None);
        assert_eq!(read_head(folder.path()), None);
        let deep = "(".repeat(200_000);
        let long = "a".repeat(200_000);
        let open = format!("(format:2,vehicle:(kind:panel_van),x:\"{long}");
        let no_text = vec![0xff; 200_000];
        for bytes in [
            b"" as &[u8],
            b"(",
            deep.as_bytes(),
            open.as_bytes(),
            &no_text,
        ] {
            std::fs::write(&path, bytes).unwrap();
            let read = read_head(&path);
            assert!(read.is_none() || bytes == open.as_bytes(), "{read:?}");
        }
    }
}
