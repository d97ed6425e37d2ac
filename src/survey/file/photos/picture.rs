//! Reading pictures that somebody else made, within limits.
//!
//! A file says itself how large its picture becomes in memory, and may lie or mean harm. Its size
//! on disk and its pixels are therefore looked at before anything is decoded, and the decoder gets
//! a limit of its own.

use super::room::Room;
use super::shrink::shrunk;
use crate::survey::file::trouble::in_plain_words;
use image::codecs::jpeg::JpegEncoder;
use image::metadata::Orientation;
use image::{DynamicImage, ImageDecoder, ImageError, ImageFormat, ImageReader, Limits, RgbImage};
use std::io::{BufRead, Cursor, Seek};

/// The largest photo that is read, in bytes: 40 MiB. Cameras stay under 30.
pub const LARGEST_PHOTO_BYTES: u64 = 40 * 1024 * 1024;

/// The most pixels of a photo: 80 million, 240 MB once decoded.
pub const MOST_PIXELS: u64 = 80_000_000;

/// The most memory that decoding one picture may take, in bytes: 80 million pixels with colours and
/// how opaque they are, of eight bits each. Of pictures with more bits for each colour that is fewer
/// pixels, since their eight-bit copy is made beside them.
const MOST_DECODED_BYTES: u64 = 320_000_000;

/// The most memory that what stands beside the pixels of a PNG may take, in bytes: it may be packed, a
/// colour profile to a thousandth. One that takes more is left out, as no profile is used here.
const MOST_BESIDE_PIXELS: u64 = LARGEST_PHOTO_BYTES + 8 * 1024 * 1024;

/// What all pictures that are being decoded take, whatever the number of threads.
static ROOM: Room = Room::new(MOST_DECODED_BYTES);

/// Quality of the pictures that are written as JPEG, of 100.
const JPEG_QUALITY: u8 = 82;

/// Why a picture is not shown or taken.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PictureError {
    /// No bytes at all.
    #[error("the file is empty: copy it once more from where it comes from")]
    Empty,
    /// More bytes than are read.
    #[error(
        "the file is larger than {} MB: save it smaller first, a side of 4000 pixels is plenty",
        LARGEST_PHOTO_BYTES / (1024 * 1024)
    )]
    TooLarge,
    /// More pixels than are decoded.
    #[error(
        "the picture is {width} × {height} pixels, which is more than this program takes in: save it smaller first, a side of 4000 pixels is plenty"
    )]
    TooManyPixels {
        /// Pixels across.
        width: u32,
        /// Pixels down.
        height: u32,
    },
    /// A picture, or a document, of a kind that is not read.
    #[error("files of the kind {kind} cannot be shown here: save it as JPEG first")]
    OtherKind {
        /// The kind.
        kind: &'static str,
    },
    /// Nothing that looks like a picture.
    #[error("it is no picture: choose a JPEG, PNG or WebP file")]
    NotAPicture,
    /// It begins well and ends too early.
    #[error("the picture is cut short: copy it once more from where it comes from")]
    CutShort,
    /// It cannot be decoded.
    #[error("the picture is damaged: copy it once more, or open it elsewhere and save it as JPEG")]
    Damaged,
    /// It may not be read.
    #[error("the file could not be read: {0}")]
    Unreadable(String),
}

/// The kinds of picture that are read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PictureKind {
    /// JPEG.
    Jpeg,
    /// PNG.
    Png,
    /// WebP.
    WebP,
}

impl PictureKind {
    /// The ending of its files.
    #[must_use]
    pub fn ending(self) -> &'static str {
        match self {
            Self::Jpeg => "jpg",
            Self::Png => "png",
            Self::WebP => "webp",
        }
    }

    fn format(self) -> ImageFormat {
        match self {
            Self::Jpeg => ImageFormat::Jpeg,
            Self::Png => ImageFormat::Png,
            Self::WebP => ImageFormat::WebP,
        }
    }
}

/// Pixels ready for the screen: four bytes each, red, green, blue and how opaque, row by row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pixels {
    /// Pixels across.
    pub width: u32,
    /// Pixels down.
    pub height: u32,
    /// Four bytes for each.
    pub rgba: Vec<u8>,
}

/// A decoded picture.
#[derive(Clone, Debug)]
pub struct Picture {
    kind: PictureKind,
    image: DynamicImage,
    orientation: Orientation,
}

impl Picture {
    /// Decodes a picture whole, to eight bits for each colour.
    ///
    /// # Errors
    /// [`PictureError`] says what is wrong with it and what to do.
    pub fn read(bytes: &[u8]) -> Result<Self, PictureError> {
        Self::from_opened(opened(bytes)?)
    }

    /// Decodes a picture and makes something of it, in turn with all others that do so: together
    /// they take no more memory than the largest picture may. What is made must hold no picture, and
    /// must ask for no other while it is being made.
    ///
    /// # Errors
    /// As [`Picture::read`].
    pub fn read_in_turn<T>(bytes: &[u8], make: impl FnOnce(&Self) -> T) -> Result<T, PictureError> {
        let opened = opened(bytes)?;
        let _room = ROOM.take(opened.memory);
        Ok(make(&Self::from_opened(opened)?))
    }

    fn from_opened(opened: Opened<'_>) -> Result<Self, PictureError> {
        let Opened {
            kind, mut decoder, ..
        } = opened;
        let (width, height) = decoder.dimensions();
        // A picture whose rotation cannot be read is still a picture.
        let orientation = decoder.orientation().unwrap_or(Orientation::NoTransforms);
        let image = DynamicImage::from_decoder(decoder).map_err(|error| match trouble(&error) {
            PictureError::TooLarge => PictureError::TooManyPixels { width, height },
            other => other,
        })?;
        Ok(Self {
            kind,
            image: in_eight_bits(image),
            orientation,
        })
    }

    /// Its kind.
    #[must_use]
    pub fn kind(&self) -> PictureKind {
        self.kind
    }

    /// The picture upright, no side longer than this; never larger than it is.
    #[must_use]
    pub fn pixels(&self, longest_side: u32) -> Pixels {
        let rgba = self.upright(longest_side).into_rgba8();
        Pixels {
            width: rgba.width(),
            height: rgba.height(),
            rgba: rgba.into_raw(),
        }
    }

    /// The picture upright as JPEG, no side longer than this, on white where it is not opaque.
    /// What the camera wrote beside the picture, such as the place, is not in it.
    ///
    /// # Errors
    /// [`PictureError::Damaged`], where it has no pixels to write.
    pub fn jpeg(&self, longest_side: u32) -> Result<Vec<u8>, PictureError> {
        let picture = on_white(self.upright(longest_side));
        let mut bytes = Vec::new();
        JpegEncoder::new_with_quality(&mut bytes, JPEG_QUALITY)
            .encode_image(&picture)
            .map_err(|_| PictureError::Damaged)?;
        Ok(bytes)
    }

    /// Made small before it is turned: turning takes as much memory again.
    fn upright(&self, longest_side: u32) -> DynamicImage {
        let (width, height) = (self.image.width(), self.image.height());
        let largest = width.max(height);
        let mut image = if largest <= longest_side {
            self.image.clone()
        } else {
            let side = |side: u32| {
                let small = u64::from(side) * u64::from(longest_side) / u64::from(largest);
                u32::try_from(small).unwrap_or(longest_side).max(1)
            };
            shrunk(&self.image, side(width), side(height))
        };
        image.apply_orientation(self.orientation);
        image
    }
}

/// A picture whose head was read.
struct Opened<'a> {
    kind: PictureKind,
    decoder: Box<dyn ImageDecoder + 'a>,
    /// Bytes that decoding it takes.
    memory: u64,
}

/// Reads the head of a picture, and holds against the limits what it says of itself.
fn opened(bytes: &[u8]) -> Result<Opened<'_>, PictureError> {
    if bytes.len() as u64 > LARGEST_PHOTO_BYTES {
        return Err(PictureError::TooLarge);
    }
    let kind = kind_of(bytes)?;
    if kind == PictureKind::Jpeg && !jpeg_ends(bytes) {
        return Err(PictureError::CutShort);
    }
    let mut reader = ImageReader::with_format(Cursor::new(bytes), kind.format());
    reader.limits(limits(kind));
    let decoder = reader.into_decoder().map_err(|error| trouble(&error))?;
    let (width, height) = decoder.dimensions();
    fits(width, height)?;
    let memory = memory(&decoder);
    if memory > MOST_DECODED_BYTES {
        return Err(PictureError::TooManyPixels { width, height });
    }
    Ok(Opened {
        kind,
        decoder: Box::new(decoder),
        memory,
    })
}

/// Bytes that decoding takes: the pixels, and their copy where they have more than eight bits for
/// each colour.
fn memory(decoder: &impl ImageDecoder) -> u64 {
    let colour = decoder.color_type();
    let (width, height) = decoder.dimensions();
    let pixels = u64::from(width) * u64::from(height);
    let channels = u64::from(colour.channel_count());
    let copy = if u64::from(colour.bytes_per_pixel()) > channels {
        pixels.saturating_mul(channels)
    } else {
        0
    };
    decoder.total_bytes().saturating_add(copy)
}

/// The same with eight bits for each colour: no screen and no paper here shows more.
fn in_eight_bits(image: DynamicImage) -> DynamicImage {
    use image::ColorType::{L8, L16, La8, La16, Rgb8, Rgba8};
    match image.color() {
        L8 | La8 | Rgb8 | Rgba8 => image,
        L16 => image.into_luma8().into(),
        La16 => image.into_luma_alpha8().into(),
        colour if colour.has_alpha() => image.into_rgba8().into(),
        _ => image.into_rgb8().into(),
    }
}

/// Looks at the head of a picture only: is it one, and is it within the limits?
///
/// # Errors
/// [`PictureError`] says what is wrong with it.
pub(super) fn look(mut source: impl BufRead + Seek) -> Result<PictureKind, PictureError> {
    let unreadable = |error: std::io::Error| PictureError::Unreadable(in_plain_words(&error));
    let mut head = vec![0; HEAD_BYTES];
    let mut filled = 0;
    loop {
        let rest = head.get_mut(filled..).unwrap_or_default();
        match source.read(rest).map_err(unreadable)? {
            0 => break,
            more => filled += more,
        }
    }
    head.truncate(filled);
    let kind = kind_of(&head)?;
    source.rewind().map_err(unreadable)?;
    let mut reader = ImageReader::with_format(source, kind.format());
    reader.limits(limits(kind));
    let (width, height) = reader.into_dimensions().map_err(|error| trouble(&error))?;
    fits(width, height)?;
    Ok(kind)
}

/// Pixels that came by the clipboard, as a PNG file.
///
/// # Errors
/// [`PictureError`], where there are none, too many, or fewer than promised.
pub fn png_of(pixels: Pixels) -> Result<Vec<u8>, PictureError> {
    fits(pixels.width, pixels.height)?;
    let image = image::RgbaImage::from_raw(pixels.width, pixels.height, pixels.rgba);
    let image = DynamicImage::from(image.ok_or(PictureError::Damaged)?);
    let mut bytes = Cursor::new(Vec::new());
    image
        .write_to(&mut bytes, ImageFormat::Png)
        .map_err(|_| PictureError::Damaged)?;
    Ok(bytes.into_inner())
}

/// As many bytes as tell the kind of a file.
const HEAD_BYTES: usize = 512;

/// The kind by the first bytes; the ending of the name counts for nothing.
fn kind_of(bytes: &[u8]) -> Result<PictureKind, PictureError> {
    let starts = |with: &[u8]| bytes.starts_with(with);
    let at =
        |from: usize, with: &[u8]| bytes.get(from..).is_some_and(|rest| rest.starts_with(with));
    if bytes.is_empty() {
        return Err(PictureError::Empty);
    }
    if starts(b"\xff\xd8\xff") {
        return Ok(PictureKind::Jpeg);
    }
    if starts(b"\x89PNG\r\n\x1a\n") {
        return Ok(PictureKind::Png);
    }
    if starts(b"RIFF") && at(8, b"WEBP") {
        return Ok(PictureKind::WebP);
    }
    let kind = if at(4, b"ftyp") {
        if at(8, b"avif") {
            "AVIF"
        } else if [b"heic", b"heix", b"hevc", b"mif1", b"msf1"]
            .iter()
            .any(|brand| at(8, *brand))
        {
            "HEIC"
        } else {
            "film"
        }
    } else if starts(b"GIF8") {
        "GIF"
    } else if starts(b"BM") {
        "BMP"
    } else if starts(b"II*\0") || starts(b"MM\0*") {
        "TIFF or raw"
    } else if starts(b"%PDF") {
        "PDF"
    } else if is_svg(bytes) {
        "SVG"
    } else {
        return Err(PictureError::NotAPicture);
    };
    Err(PictureError::OtherKind { kind })
}

fn is_svg(bytes: &[u8]) -> bool {
    let head = bytes.get(..HEAD_BYTES).unwrap_or(bytes);
    let head = String::from_utf8_lossy(head).to_lowercase();
    head.contains("<svg") || (head.contains("<?xml") && head.contains("svg"))
}

fn fits(width: u32, height: u32) -> Result<(), PictureError> {
    if width == 0 || height == 0 {
        return Err(PictureError::Damaged);
    }
    if u64::from(width) * u64::from(height) > MOST_PIXELS {
        return Err(PictureError::TooManyPixels { width, height });
    }
    Ok(())
}

fn limits(kind: PictureKind) -> Limits {
    let mut limits = Limits::default();
    limits.max_alloc = Some(match kind {
        // Its decoder counts all but the pixels, and those are counted here.
        PictureKind::Png => MOST_BESIDE_PIXELS,
        PictureKind::Jpeg | PictureKind::WebP => MOST_DECODED_BYTES,
    });
    limits
}

fn trouble(error: &ImageError) -> PictureError {
    match error {
        ImageError::Limits(_) => PictureError::TooLarge,
        ImageError::IoError(error) if error.kind() == std::io::ErrorKind::UnexpectedEof => {
            PictureError::CutShort
        }
        _ => PictureError::Damaged,
    }
}

/// Whether a JPEG has its end mark after the picture's data. The decoder fills what is missing
/// with grey and says nothing.
fn jpeg_ends(bytes: &[u8]) -> bool {
    let mut at = 2;
    loop {
        let Some(&[0xff, mark]) = bytes.get(at..at + 2) else {
            return false;
        };
        if mark == 0xff {
            at += 1;
            continue;
        }
        let Some(&[high, low]) = bytes.get(at + 2..at + 4) else {
            return false;
        };
        at += 2 + usize::from(u16::from_be_bytes([high, low]));
        if mark == 0xda {
            break;
        }
    }
    // In the data itself FF is always followed by 00 or a restart mark.
    let data = bytes.get(at..).unwrap_or_default();
    data.windows(2).any(|pair| pair == [0xff, 0xd9])
}

fn on_white(image: DynamicImage) -> RgbImage {
    if !image.color().has_alpha() {
        return image.into_rgb8();
    }
    let rgba = image.into_rgba8();
    let mut rgb = RgbImage::new(rgba.width(), rgba.height());
    for (to, from) in rgb.pixels_mut().zip(rgba.pixels()) {
        let [red, green, blue, opaque] = from.0.map(u32::from);
        to.0 = [red, green, blue].map(|colour| {
            let mixed = (colour * opaque + 255 * (255 - opaque) + 127) / 255;
            u8::try_from(mixed).unwrap_or(u8::MAX)
        });
    }
    rgb
}

#[cfg(test)]
mod tests {
    use super::*;
    use image::ImageEncoder;
    use image::codecs::png::PngEncoder;

    /// Packed it is small, unpacked more than a whole file may be: the picture is read without it.
    #[test]
    fn a_colour_profile_that_unpacks_to_very_much_is_left_out() {
        let with = |profile: u64| {
            let mut bytes = Vec::new();
            let mut encoder = PngEncoder::new(&mut bytes);
            let profile = vec![0; usize::try_from(profile).unwrap()];
            encoder.set_icc_profile(profile).unwrap();
            let colour = image::ExtendedColorType::L8;
            encoder.write_image(&[7; 6], 3, 2, colour).unwrap();
            assert!(bytes.len() < 1_000_000);
            let kept = opened(&bytes).unwrap().decoder.icc_profile().unwrap();
            assert_eq!(Picture::read(&bytes).unwrap().pixels(9).width, 3);
            kept.is_some()
        };
        assert!(with(3000) && !with(MOST_BESIDE_PIXELS + 1));
    }
}
