//! All that the typesetter may read: the template, the bundled fonts, the data and the pictures
//! of one sheet. No disk, no clock, no packages.

use crate::fonts;
use std::collections::HashMap;
use std::path::PathBuf;
use std::sync::LazyLock;
use typst::diag::{FileError, FileResult};
use typst::foundations::{Bytes, Datetime, Duration};
use typst::layout::Abs;
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook, FontInstance, FontVariant, FontVariations};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World};

/// The template, the same for all sheets.
const TEMPLATE: &str = include_str!("template/sheet.typ");

/// What no sheet changes. Each comes into being where it is asked for: whoever only looks glyphs up
/// needs no more than the fonts.
static LIBRARY: LazyLock<LazyHash<Library>> = LazyLock::new(|| LazyHash::new(Library::default()));

static BOOK: LazyLock<LazyHash<FontBook>> =
    LazyLock::new(|| LazyHash::new(FontBook::from_fonts(FONTS.iter())));

static FONTS: LazyLock<Vec<Font>> = LazyLock::new(|| {
    [fonts::TEXT_REGULAR, fonts::TEXT_BOLD, fonts::SIGNS]
        .into_iter()
        .flat_map(|bytes| Font::iter(Bytes::new(bytes)))
        .collect()
});

static FACES: LazyLock<Vec<FontInstance>> = LazyLock::new(|| {
    let face = |font: &Font| {
        let (variant, size) = (FontVariant::default(), Abs::pt(10.0));
        font.clone()
            .instantiate(variant, size, &FontVariations::default())
    };
    FONTS.iter().map(face).collect()
});

/// The bundled fonts with their glyphs.
pub(super) fn faces() -> &'static [FontInstance] {
    &FACES
}

/// The files of one sheet.
pub(super) struct SheetWorld {
    main: Source,
    files: HashMap<FileId, Bytes>,
}

impl SheetWorld {
    /// A world of these files by their names.
    ///
    /// # Errors
    /// A sentence, where a name cannot be that of a file.
    pub(super) fn new(files: impl IntoIterator<Item = (String, Bytes)>) -> Result<Self, String> {
        let main = Source::new(id("sheet.typ")?, TEMPLATE.to_owned());
        let files: Result<HashMap<FileId, Bytes>, String> = files
            .into_iter()
            .map(|(name, bytes)| Ok((id(&name)?, bytes)))
            .collect();
        Ok(Self {
            main,
            files: files?,
        })
    }

    /// Puts a file in, in place of one of the same name.
    ///
    /// # Errors
    /// As [`SheetWorld::new`].
    pub(super) fn put(&mut self, name: &str, bytes: Bytes) -> Result<(), String> {
        self.files.insert(id(name)?, bytes);
        Ok(())
    }
}

fn id(name: &str) -> Result<FileId, String> {
    let path = VirtualPath::new(name).map_err(|error| format!("{name}: {error}"))?;
    Ok(RootedPath::new(VirtualRoot::Project, path).intern())
}

impl World for SheetWorld {
    fn library(&self) -> &LazyHash<Library> {
        &LIBRARY
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &BOOK
    }

    fn main(&self) -> FileId {
        self.main.id()
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        // The template is the only source: data can never become one.
        if id == self.main.id() {
            Ok(self.main.clone())
        } else {
            Err(FileError::NotSource)
        }
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        let found = self.files.get(&id).cloned();
        found.ok_or_else(|| FileError::NotFound(PathBuf::from(id.get().vpath().get_with_slash())))
    }

    fn font(&self, index: usize) -> Option<Font> {
        FONTS.get(index).cloned()
    }

    fn today(&self, _offset: Option<Duration>) -> Option<Datetime> {
        None
    }
}
