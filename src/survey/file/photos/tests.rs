//! Photos with real encoded pictures, made here.

use super::super::data::keep_data;
use super::*;
use image::{DynamicImage, ImageFormat, Rgb, RgbImage};
use std::fs;
use std::io::Cursor;

/// A picture whose left half is red and whose right half is blue.
fn half_red(width: u32, height: u32) -> RgbImage {
    RgbImage::from_fn(width, height, |across, _| {
        if across < width / 2 {
            Rgb([220, 20, 20])
        } else {
            Rgb([20, 20, 220])
        }
    })
}

fn encoded(image: RgbImage, format: ImageFormat) -> Vec<u8> {
    let mut bytes = Cursor::new(Vec::new());
    DynamicImage::from(image)
        .write_to(&mut bytes, format)
        .unwrap();
    bytes.into_inner()
}

fn jpeg(width: u32, height: u32) -> Vec<u8> {
    encoded(half_red(width, height), ImageFormat::Jpeg)
}

/// The JPEG with an EXIF segment that says how it is turned, laid out by hand after the Exif
/// standard (JEITA CP-3451, tag 0x0112 in the first directory) \[M\].
fn turned(jpeg: &[u8], orientation: u8) -> Vec<u8> {
    let mut tiff = b"II*\0\x08\0\0\0\x01\0\x12\x01\x03\0\x01\0\0\0".to_vec();
    tiff.extend([orientation, 0, 0, 0, 0, 0, 0, 0]);
    let length = u16::try_from(2 + 6 + tiff.len()).unwrap();
    let mut bytes = jpeg[..2].to_vec();
    bytes.extend([0xff, 0xe1]);
    bytes.extend(length.to_be_bytes());
    bytes.extend(b"Exif\0\0");
    bytes.extend(tiff);
    bytes.extend(&jpeg[2..]);
    bytes
}

fn is_red(pixels: &Pixels, across: u32, down: u32) -> bool {
    let at = usize::try_from((down * pixels.width + across) * 4).unwrap();
    pixels.rgba[at] > 150 && pixels.rgba[at + 2] < 100
}

#[test]
fn every_kind_is_read_by_what_it_is_and_scaled_to_fit() {
    for (format, kind) in [
        (ImageFormat::Jpeg, PictureKind::Jpeg),
        (ImageFormat::Png, PictureKind::Png),
        (ImageFormat::WebP, PictureKind::WebP),
    ] {
        let picture = Picture::read(&encoded(half_red(600, 300), format)).unwrap();
        assert_eq!(picture.kind(), kind);
        let small = picture.pixels(256);
        assert_eq!((small.width, small.height), (256, 128));
        assert!(is_red(&small, 20, 60) && !is_red(&small, 236, 60));
        let whole = picture.pixels(1000);
        assert_eq!((whole.width, whole.height), (600, 300));
    }
}

/// What each number means stands in the Exif standard, tag 0x0112: 6 is shown after a quarter
/// turn clockwise, 8 counterclockwise, 3 after half a turn, 2 mirrored \[M\].
#[test]
fn the_cameras_rotation_is_applied() {
    for (orientation, width, height, red_at) in [
        (1, 40, 20, (2, 10)),
        (2, 40, 20, (37, 10)),
        (3, 40, 20, (37, 10)),
        (6, 20, 40, (10, 2)),
        (8, 20, 40, (10, 37)),
    ] {
        let picture = Picture::read(&turned(&jpeg(40, 20), orientation)).unwrap();
        let shown = picture.pixels(100);
        assert_eq!(
            (shown.width, shown.height),
            (width, height),
            "{orientation}"
        );
        assert!(is_red(&shown, red_at.0, red_at.1), "{orientation}");
        // The print copy is upright by itself.
        let printed = Picture::read(&picture.jpeg(100).unwrap())
            .unwrap()
            .pixels(100);
        assert!(is_red(&printed, red_at.0, red_at.1), "{orientation}");
    }
}

#[test]
fn what_is_no_picture_is_named_with_what_to_do() {
    let save_first = "save it as JPEG first";
    for (bytes, words) in [
        (&b""[..], "empty"),
        (b"plain words", "no picture"),
        (b"<?xml version=\"1.0\"?><svg xmlns=\"x\"/>", save_first),
        (b"  <svg width='9'></svg>", save_first),
        (b"\0\0\0\x18ftypheic\0\0\0\0", "HEIC"),
        (b"\0\0\0\x18ftypavif\0\0\0\0", "AVIF"),
        (b"\0\0\0\x18ftypisom\0\0\0\0", "film"),
        (b"GIF89a", "GIF"),
        (b"%PDF-1.7", "PDF"),
        (b"II*\0\0\0", "TIFF"),
        (b"\xff\xd8\xff", "cut short"),
    ] {
        let error = Picture::read(bytes).unwrap_err().to_string();
        assert!(error.contains(words), "{error}");
    }
}

#[test]
fn a_picture_cut_short_anywhere_is_refused() {
    for format in [ImageFormat::Jpeg, ImageFormat::Png, ImageFormat::WebP] {
        let whole = encoded(half_red(64, 64), format);
        assert!(Picture::read(&whole).is_ok());
        for keep in (0..whole.len() - 12).step_by(7) {
            assert!(Picture::read(&whole[..keep]).is_err(), "{format:?} {keep}");
        }
    }
}

/// A PNG that promises this many pixels and holds none: its checksum is right, so that it is
/// refused for its size. CRC-32 as in the PNG specification, annex D \[M\].
fn promising(width: u32, height: u32) -> Vec<u8> {
    promising_in((width, height), (8, 2))
}

/// The same with so many bits for each colour, and of a kind of colours: 2 without and 6 with how
/// opaque they are.
fn promising_in((width, height): (u32, u32), (bits, colours): (u8, u8)) -> Vec<u8> {
    let mut header = b"IHDR".to_vec();
    header.extend(width.to_be_bytes());
    header.extend(height.to_be_bytes());
    header.extend([bits, colours, 0, 0, 0]);
    let mut crc = u32::MAX;
    for byte in &header {
        crc ^= u32::from(*byte);
        for _ in 0..8 {
            crc = if crc & 1 == 1 {
                0xedb8_8320 ^ (crc >> 1)
            } else {
                crc >> 1
            };
        }
    }
    let mut bytes = b"\x89PNG\r\n\x1a\n\0\0\0\x0d".to_vec();
    bytes.extend(&header);
    bytes.extend((!crc).to_be_bytes());
    bytes.extend(b"\0\0\0\x04IDATabcd\0\0\0\0");
    bytes
}

#[test]
fn a_picture_that_would_fill_the_memory_is_refused_before_it_is_decoded() {
    for (width, height) in [(60_000, 60_000), (80_000_001, 1), (u32::MAX >> 1, 2)] {
        let bytes = promising(width, height);
        let error = Picture::read(&bytes).unwrap_err();
        assert!(
            matches!(
                error,
                PictureError::TooManyPixels { .. } | PictureError::TooLarge
            ),
            "{error:?}"
        );
        assert!(error.to_string().contains("smaller"));
    }
    // Within the limit of pixels the same file is only damaged.
    let error = Picture::read(&promising(100, 100)).unwrap_err();
    assert!(matches!(
        error,
        PictureError::Damaged | PictureError::CutShort
    ));
}

/// 30 million pixels of eight bytes are 240 MB, and their copy of four bytes 120 MB: more than the
/// 320 MB of 80 million pixels of four bytes.
#[test]
fn more_bits_for_each_colour_leave_fewer_pixels() {
    let size = (6000, 5000);
    for deep in [(16, 6), (16, 2)] {
        let large = Picture::read(&promising_in((7000, 6000), deep)).unwrap_err();
        assert!(
            matches!(large, PictureError::TooManyPixels { .. }),
            "{large:?}"
        );
    }
    let deep = Picture::read(&promising_in(size, (16, 6))).unwrap_err();
    assert!(
        matches!(deep, PictureError::TooManyPixels { .. }),
        "{deep:?}"
    );
    for usual in [(16, 2), (8, 6), (8, 2)] {
        let error = Picture::read(&promising_in(size, usual)).unwrap_err();
        assert!(
            !matches!(error, PictureError::TooManyPixels { .. }),
            "{usual:?}"
        );
    }
}

#[test]
fn a_file_too_large_is_not_read() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("huge.jpg");
    let file = fs::File::create(&path).unwrap();
    file.set_len(LARGEST_PHOTO_BYTES + 1).unwrap();
    assert_eq!(read_photo_file(&path).unwrap_err(), PictureError::TooLarge);
    assert_eq!(
        photo_state_in(folder.path(), "huge.jpg"),
        PhotoState::Broken
    );
    let folder_error = read_photo_file(folder.path()).unwrap_err().to_string();
    assert!(folder_error.contains("it is not a file"));
}

#[test]
fn the_same_content_is_kept_once_under_a_name_with_the_right_ending() {
    let folder = tempfile::tempdir().unwrap();
    let here = folder.path();
    let png = encoded(half_red(30, 20), ImageFormat::Png);
    let first = keep_photo(here, &png).unwrap().name;
    let again = keep_photo(here, &png).unwrap().name;
    assert_eq!(first, again);
    assert!(first.ends_with(".png") && first.len() == 16 + 4);
    assert_eq!(fs::read(here.join(&first)).unwrap(), png);
    // BLAKE3 of the bytes: the name stands for nothing else.
    assert!(blake3::hash(&png).to_hex().starts_with(&first[..16]));
    let other = keep_photo(here, &jpeg(30, 20)).unwrap().name;
    assert_ne!(first, other);
    assert_eq!(
        fs::read_dir(here).unwrap().count(),
        3,
        "two photos and their print copies"
    );
}

#[test]
fn a_file_of_other_content_under_the_name_is_left_alone() {
    let folder = tempfile::tempdir().unwrap();
    let bytes = jpeg(30, 20);
    let name = keep_photo(folder.path(), &bytes).unwrap().name;
    fs::write(folder.path().join(&name), "edited by hand").unwrap();
    let second = keep_photo(folder.path(), &bytes).unwrap().name;
    assert_ne!(name, second);
    let first = fs::read(folder.path().join(&name)).unwrap();
    assert_eq!(first, b"edited by hand");
    assert_eq!(fs::read(folder.path().join(&second)).unwrap(), bytes);
}

#[test]
fn print_copies_are_small_upright_jpegs_and_made_again_when_old() {
    let folder = tempfile::tempdir().unwrap();
    let here = folder.path();
    let name = keep_photo(here, &turned(&jpeg(2400, 1600), 6))
        .unwrap()
        .name;
    let copy = ready_print_copy(here, &name).unwrap();
    assert_eq!(copy, print_copy_path(here, &name));
    let picture = Picture::read(&fs::read(&copy).unwrap()).unwrap();
    let size = picture.pixels(5000);
    assert_eq!((size.width, size.height), (800, 1200));
    // A photo newer than its copy: clocks of file systems tick slowly.
    let written = |path: &Path| fs::metadata(path).unwrap().modified().unwrap();
    while written(&here.join(&name)) <= written(&copy) {
        fs::write(here.join(&name), jpeg(300, 200)).unwrap();
    }
    assert!(ready_print_copy(here, &name).is_none());
    print_copy(here, &name).unwrap();
    let picture = Picture::read(&fs::read(&copy).unwrap()).unwrap();
    assert_eq!(picture.pixels(5000).width, 300);
    assert!(print_copy(here, "../elsewhere.jpg").is_err());
    assert!(print_copy(here, "missing.jpg").is_err());
}

#[test]
fn transparent_pictures_are_printed_on_white() {
    let clear = Pixels {
        width: 16,
        height: 16,
        rgba: vec![0; 16 * 16 * 4],
    };
    let picture = Picture::read(&png_of(clear).unwrap()).unwrap();
    let printed = Picture::read(&picture.jpeg(16).unwrap())
        .unwrap()
        .pixels(16);
    assert!(printed.rgba.iter().all(|&value| value > 250));
    let short = Pixels {
        width: 16,
        height: 16,
        rgba: vec![0; 7],
    };
    assert_eq!(png_of(short).unwrap_err(), PictureError::Damaged);
}

#[test]
fn photos_are_carried_beside_the_survey_and_nothing_there_is_overwritten() {
    let folder = tempfile::tempdir().unwrap();
    let holding = folder.path().join("holding");
    let beside = folder.path().join("van.photos");
    let name = keep_photo(&holding, &jpeg(30, 20)).unwrap().name;
    fs::create_dir(&beside).unwrap();
    fs::write(beside.join("seal.jpg"), "theirs").unwrap();
    fs::write(holding.join("seal.jpg"), "ours").unwrap();
    let names = [name.as_str(), "seal.jpg", "nowhere.jpg", "../up.jpg"];
    let failed = carry_photos(
        names,
        &[folder.path().join("none"), holding.clone()],
        &beside,
    );
    assert!(failed.is_empty(), "{failed:?}");
    assert_eq!(fs::read(beside.join(&name)).unwrap(), jpeg(30, 20));
    assert!(ready_print_copy(&beside, &name).is_some());
    assert_eq!(fs::read(beside.join("seal.jpg")).unwrap(), b"theirs");
    // A folder that cannot be made is told, for each photo.
    let blocked = folder.path().join("blocked.photos");
    fs::write(&blocked, "a file").unwrap();
    let failed = carry_photos([name.as_str()], &[holding], &blocked);
    assert_eq!(failed.len(), 1);
    assert_eq!(failed[0].0, name);
}

#[test]
fn only_what_the_program_wrote_is_set_aside() {
    let folder = tempfile::tempdir().unwrap();
    let beside = folder.path().join("van.photos");
    let holding = folder.path().join("holding");
    let name = keep_photo(&beside, &jpeg(30, 20)).unwrap().name;
    fs::write(beside.join("seal.jpg"), jpeg(31, 20)).unwrap();
    let edited = keep_photo(&beside, &jpeg(32, 20)).unwrap().name;
    fs::write(beside.join(&edited), jpeg(33, 20)).unwrap();
    set_aside(
        [name.as_str(), "seal.jpg", &edited, "gone.jpg"],
        &beside,
        &holding,
    );
    assert!(!beside.join(&name).exists() && holding.join(&name).exists());
    assert!(!print_copy_path(&beside, &name).exists());
    assert!(beside.join("seal.jpg").exists() && beside.join(&edited).exists());
    assert!(carry_photos([name.as_str()], &[holding], &beside).is_empty());
    assert!(beside.join(&name).exists(), "undo and save bring it back");
}

#[test]
fn the_holding_folder_is_cleared_of_what_is_old() {
    let folder = tempfile::tempdir().unwrap();
    let old = keep_photo(folder.path(), &jpeg(30, 20)).unwrap().name;
    fs::write(folder.path().join("notes.jpg"), "not ours").unwrap();
    clear_holding(folder.path(), |_| false);
    assert!(folder.path().join(&old).exists());
    clear_holding(folder.path(), |_| true);
    assert!(!folder.path().join(&old).exists());
    assert!(folder.path().join("notes.jpg").exists());
}

#[test]
fn loggers_files_that_were_held_too_long_are_cleared_with_the_photos() {
    let folder = tempfile::tempdir().unwrap();
    let old = keep_data(folder.path(), b"time,t\n", "log.csv").unwrap();
    fs::write(folder.path().join("notes.csv"), "not ours").unwrap();
    clear_holding(folder.path(), |_| false);
    assert!(folder.path().join(&old).exists());
    clear_holding(folder.path(), |_| true);
    assert!(!folder.path().join(&old).exists());
    assert!(folder.path().join("notes.csv").exists());
}

/// 0x8080 of 0xffff is 128 of 255 to the nearest, by hand.
#[test]
fn sixteen_bits_for_each_colour_become_eight() {
    let image = image::ImageBuffer::from_pixel(3, 2, image::Rgba([0_u16, 0x8080, 0xffff, 0xffff]));
    let mut bytes = Cursor::new(Vec::new());
    DynamicImage::from(image)
        .write_to(&mut bytes, ImageFormat::Png)
        .unwrap();
    let pixels = Picture::read(&bytes.into_inner()).unwrap().pixels(10);
    assert_eq!((pixels.width, pixels.height), (3, 2));
    assert_eq!(pixels.rgba[..4], [0, 128, 255, 255]);
}
