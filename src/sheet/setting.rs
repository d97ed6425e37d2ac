//! A sheet set from beginning to end: its pages told, drawn and made a PDF, one after another, to
//! whoever listens, in this process or through a pipe.
//!
//! The typesetter needs some hundred megabytes and gives few of them back before its process ends.
//! So the window has its sheets set by another process, and keeps what comes through the pipe.

use super::framed::{read_bytes, read_number, read_text, write_bytes, wrong};
use super::manuscript::Manuscript;
use super::typeset::{PagePicture, Typeset};
use image::codecs::png::{CompressionType, FilterType, PngEncoder};
use image::{ExtendedColorType, ImageEncoder, ImageError};
use std::io::{self, ErrorKind, Read, Write};
use std::ops::ControlFlow;

/// Longest side of a picture, pixels: graphics cards refuse more than 8192.
const LONGEST: f64 = 4096.0;

/// How pages are drawn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Look {
    /// Width of each picture, pixels; with 0 no page is drawn.
    pub width: u32,
    /// The page that is drawn first: those after it follow, then those before it.
    pub first: usize,
}

/// What is told of a sheet being set, in this order.
#[derive(Clone, Debug, PartialEq)]
pub enum Said {
    /// The pages are set.
    Pages {
        /// Width and height of each, points of 1/72 inch.
        sizes: Vec<(f64, f64)>,
        /// A sentence about characters that had to be replaced, if any had.
        replaced: Option<String>,
    },
    /// A page is drawn.
    Picture {
        /// Which page.
        page: usize,
        /// It as a PNG file.
        png: Vec<u8>,
    },
    /// The PDF, and with it the end.
    Pdf(Vec<u8>),
    /// It could not be done, for this reason; nothing follows.
    Failed(String),
}

/// Sets a sheet and tells what comes of it, until the listener breaks off.
pub fn set_whole(
    manuscript: Manuscript,
    look: Look,
    say: &mut dyn FnMut(Said) -> ControlFlow<()>,
) -> ControlFlow<()> {
    let failed = |why: &dyn std::fmt::Display| Said::Failed(why.to_string());
    let pages = match manuscript.set() {
        Ok(pages) => pages,
        Err(error) => return say(failed(&error)),
    };
    say(Said::Pages {
        sizes: (0..pages.pages())
            .filter_map(|page| pages.page_size(page))
            .collect(),
        replaced: pages.replaced().map(str::to_owned),
    })?;
    if look.width > 0 {
        let first = look.first.min(pages.pages());
        for page in (first..pages.pages()).chain(0..first) {
            match drawn(&pages, page, look.width) {
                Ok(Some(png)) => say(Said::Picture { page, png })?,
                Ok(None) => {}
                Err(error) => return say(failed(&error)),
            }
        }
    }
    say(match pages.pdf() {
        Ok(pdf) => Said::Pdf(pdf),
        Err(error) => failed(&error),
    })
}

/// A page so many pixels wide, as PNG; `None` where there is no such page.
fn drawn(pages: &Typeset, page: usize, width: u32) -> Result<Option<Vec<u8>>, ImageError> {
    let Some((wide, high)) = pages.page_size(page) else {
        return Ok(None);
    };
    let scale = (f64::from(width) / wide).min(LONGEST / wide.max(high));
    pages.picture(page, scale).map(png).transpose()
}

fn png(picture: PagePicture) -> Result<Vec<u8>, ImageError> {
    let opaque: Vec<u8> = picture
        .rgba
        .chunks_exact(4)
        .flat_map(|pixel| pixel.iter().take(3).copied())
        .collect();
    let pixels = |number: usize| u32::try_from(number).unwrap_or(u32::MAX);
    let mut png = Vec::new();
    PngEncoder::new_with_quality(&mut png, CompressionType::Fast, FilterType::Adaptive)
        .write_image(
            &opaque,
            pixels(picture.width),
            pixels(picture.height),
            ExtendedColorType::Rgb8,
        )?;
    Ok(png)
}

/// Writes an order for [`serve`].
///
/// # Errors
/// Those of the writer.
pub fn write_order(to: &mut impl Write, manuscript: &Manuscript, look: Look) -> io::Result<()> {
    write_number(to, u64::from(look.width))?;
    write_number(to, number(look.first)?)?;
    manuscript.write(to)?;
    to.flush()
}

/// Reads an order, sets the sheet, and writes what is told for [`Said::read`].
///
/// # Errors
/// Those of reading and writing.
pub fn serve(order: &mut impl Read, to: &mut impl Write) -> io::Result<()> {
    let width = u32::try_from(read_number(order)?).map_err(|error| wrong(&error))?;
    let first = index(read_number(order)?)?;
    let manuscript = Manuscript::read(order)?;
    let mut written = Ok(());
    let _ended = set_whole(manuscript, Look { width, first }, &mut |said| {
        written = said.write(to);
        match &written {
            Ok(()) => ControlFlow::Continue(()),
            Err(_) => ControlFlow::Break(()),
        }
    });
    written
}

/// What begins a thing told.
const PAGES: u64 = 1;
const PICTURE: u64 = 2;
const PDF: u64 = 3;
const FAILED: u64 = 4;

impl Said {
    /// Whether nothing follows it.
    #[must_use]
    pub fn is_last(&self) -> bool {
        matches!(self, Self::Pdf(_) | Self::Failed(_))
    }

    fn write(&self, to: &mut impl Write) -> io::Result<()> {
        match self {
            Self::Pages { sizes, replaced } => {
                write_number(to, PAGES)?;
                write_number(to, number(sizes.len())?)?;
                for (width, height) in sizes {
                    write_number(to, width.to_bits())?;
                    write_number(to, height.to_bits())?;
                }
                write_bytes(to, replaced.as_deref().unwrap_or_default().as_bytes())?;
            }
            Self::Picture { page, png } => {
                write_number(to, PICTURE)?;
                write_number(to, number(*page)?)?;
                write_bytes(to, png)?;
            }
            Self::Pdf(pdf) => {
                write_number(to, PDF)?;
                write_bytes(to, pdf)?;
            }
            Self::Failed(words) => {
                write_number(to, FAILED)?;
                write_bytes(to, words.as_bytes())?;
            }
        }
        to.flush()
    }

    /// Reads the next thing told.
    ///
    /// # Errors
    /// Those of the reader; where it is something else or cut off.
    pub fn read(from: &mut impl Read) -> io::Result<Self> {
        match read_number(from)? {
            PAGES => {
                let count = read_number(from)?;
                let mut sizes = Vec::new();
                for _ in 0..count {
                    let width = f64::from_bits(read_number(from)?);
                    sizes.push((width, f64::from_bits(read_number(from)?)));
                }
                let replaced = Some(read_text(from)?).filter(|sentence| !sentence.is_empty());
                Ok(Self::Pages { sizes, replaced })
            }
            PICTURE => Ok(Self::Picture {
                page: index(read_number(from)?)?,
                png: read_bytes(from)?,
            }),
            PDF => read_bytes(from).map(Self::Pdf),
            FAILED => read_text(from).map(Self::Failed),
            _ => Err(ErrorKind::InvalidData.into()),
        }
    }
}

fn write_number(to: &mut impl Write, number: u64) -> io::Result<()> {
    to.write_all(&number.to_le_bytes())
}

fn number(index: usize) -> io::Result<u64> {
    u64::try_from(index).map_err(|error| wrong(&error))
}

fn index(number: u64) -> io::Result<usize> {
    usize::try_from(number).map_err(|error| wrong(&error))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assess::shown::Shown;
    use crate::sheet::{Paper, guide, typeset};
    use crate::survey::VehicleKind;
    use crate::survey::date::DateWay;

    fn sheet() -> crate::sheet::blocks::Sheet {
        let shown = Shown::of(crate::assess::shown::Units::Metric, DateWay::YearMonthDay);
        guide(VehicleKind::PanelVan, Paper::A4, &shown)
    }

    #[test]
    fn through_a_pipe_comes_what_is_said_in_this_process() {
        let manuscript = Manuscript::of(&sheet()).unwrap();
        let look = Look {
            width: 120,
            first: 0,
        };
        let mut here = Vec::new();
        let _ended = set_whole(manuscript.clone(), look, &mut |said| {
            here.push(said);
            ControlFlow::Continue(())
        });
        let (mut order, mut told) = (Vec::new(), Vec::new());
        write_order(&mut order, &manuscript, look).unwrap();
        serve(&mut order.as_slice(), &mut told).unwrap();
        let mut told = told.as_slice();
        let mut there = Vec::new();
        while !there.last().is_some_and(Said::is_last) {
            there.push(Said::read(&mut told).unwrap());
        }
        assert!(told.is_empty());
        assert_eq!(there, here);
        let pages = typeset(&sheet()).unwrap();
        let Some(Said::Pages { sizes, replaced }) = here.first() else {
            panic!("{here:?}");
        };
        assert_eq!(*sizes, [pages.page_size(0).unwrap()]);
        assert_eq!(*replaced, None);
        assert_eq!(here.last(), Some(&Said::Pdf(pages.pdf().unwrap())));
        let Some(Said::Picture { page: 0, png }) = here.get(1) else {
            panic!("{here:?}");
        };
        let picture = image::load_from_memory(png).unwrap();
        assert_eq!((picture.width(), here.len()), (120, 3));
    }

    #[test]
    fn a_listener_that_breaks_off_hears_no_more() {
        let mut heard = 0;
        let manuscript = Manuscript::of(&sheet()).unwrap();
        let look = Look {
            width: 60,
            first: 0,
        };
        let ended = set_whole(manuscript, look, &mut |_| {
            heard += 1;
            ControlFlow::Break(())
        });
        assert_eq!((heard, ended), (1, ControlFlow::Break(())));
    }

    #[test]
    fn what_no_order_begins_with_is_refused() {
        let mut told = Vec::new();
        let refused = serve(&mut &[255; 64][..], &mut told).map_err(|error| error.kind());
        assert_eq!(refused, Err(ErrorKind::InvalidData));
        assert!(told.is_empty());
    }
}
