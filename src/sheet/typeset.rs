//! From blocks to pages, and from pages to a PDF or pictures.

use super::blocks::Sheet;
use super::error::SheetError;
use super::fitting::Fitting;
use super::manuscript::Manuscript;
use super::world::SheetWorld;
use std::thread;
use typst::diag::SourceDiagnostic;
use typst::foundations::{Bytes, Datetime, Smart};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards, Timestamp};
use typst_render::RenderOptions;

/// Name of the file that the template reads sizes from.
const FITTING: &str = "fitting.json";

/// How often the pages are set anew for sizes that changed. Each round settles the first decision
/// that was open, and mostly all of them; those that are open after it stay as they are.
const ROUNDS: usize = 24;

/// Room for the typesetter's calls within each other: tables within blocks within pages.
const STACK: usize = 32 << 20;

/// Pages that were set.
pub struct Typeset {
    document: PagedDocument,
    replaced: Option<String>,
}

/// A page as a picture.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PagePicture {
    /// Width, pixels.
    pub width: usize,
    /// Height, pixels.
    pub height: usize,
    /// Red, green, blue, opacity of each pixel; pages are opaque.
    pub rgba: Vec<u8>,
}

/// Sets a sheet. It takes a while: not on the thread that draws.
///
/// # Errors
/// [`SheetError`]; no text that a person may write leads to one, but for so many of them that they
/// are more than paper takes.
pub fn typeset(sheet: &Sheet) -> Result<Typeset, SheetError> {
    Manuscript::of(sheet)?.set()
}

impl Manuscript {
    /// Sets it.
    ///
    /// # Errors
    /// [`SheetError`].
    pub fn set(self) -> Result<Typeset, SheetError> {
        let (files, replaced) = self.into_parts();
        let mut world = SheetWorld::new(files).map_err(SheetError::Typesetting)?;
        let document = on_a_deep_stack(|| {
            let set = settled(&mut world);
            // Any change of the data makes all intermediate results stale: to look through them takes
            // longer than to start afresh, and they hold memory.
            typst::comemo::evict(0);
            set
        })??;
        Ok(Typeset { document, replaced })
    }
}

/// The pages, with everything on them of the size that belongs to its place.
fn settled(world: &mut SheetWorld) -> Result<PagedDocument, SheetError> {
    let mut fitting = Fitting::default();
    let mut rounds = 0;
    loop {
        let wished = serde_json::to_vec(&fitting)
            .map_err(|error| SheetError::Typesetting(error.to_string()))?;
        world
            .put(FITTING, Bytes::new(wished))
            .map_err(SheetError::Typesetting)?;
        let document = set(world)?;
        let wanted = Fitting::of(&document);
        rounds += 1;
        if wanted == fitting || rounds == ROUNDS {
            return Ok(document);
        }
        fitting = wanted;
        // What the round before made and this one did not use is of no use for the next: the memory
        // of one round is enough.
        typst::comemo::evict(1);
    }
}

/// The pages as they come out. Where the typesetter does not come to an end with them, their numbers
/// could be wrong: then there are none.
fn set(world: &SheetWorld) -> Result<PagedDocument, SheetError> {
    let set = typst::compile::<PagedDocument>(world);
    let document = set
        .output
        .map_err(|errors| SheetError::Typesetting(words(&errors)))?;
    let unsettled = |warning: &&SourceDiagnostic| warning.message.contains("converge");
    match set.warnings.iter().find(unsettled) {
        Some(warning) => Err(SheetError::Typesetting(warning.message.to_string())),
        None => Ok(document),
    }
}

impl Typeset {
    /// How many pages there are.
    #[must_use]
    pub fn pages(&self) -> usize {
        self.document.pages().len()
    }

    /// Width and height of a page, points of 1/72 inch; `None` where there is no such page.
    #[must_use]
    pub fn page_size(&self, page: usize) -> Option<(f64, f64)> {
        let size = self.document.pages().get(page)?.frame.size();
        Some((size.x.to_pt(), size.y.to_pt()))
    }

    /// A sentence about characters that had to be replaced, if any had.
    #[must_use]
    pub fn replaced(&self) -> Option<&str> {
        self.replaced.as_deref()
    }

    /// A page as a picture with so many pixels to a point; `None` where there is no such page.
    #[must_use]
    pub fn picture(&self, page: usize, pixels_per_point: f64) -> Option<PagePicture> {
        let page = self.document.pages().get(page)?;
        let options = RenderOptions {
            pixel_per_pt: pixels_per_point.into(),
            render_bleed: false,
        };
        let pixels = typst_render::render(page, &options);
        // What was made of photos and drawings on the way is of no use for another page.
        typst::comemo::evict(0);
        Some(PagePicture {
            width: usize::try_from(pixels.width()).ok()?,
            height: usize::try_from(pixels.height()).ok()?,
            rgba: pixels.take(),
        })
    }

    /// The pages as a PDF for the archive (PDF/A-2a): fonts embedded, structure tagged, nothing
    /// of the day or the machine in it, so that the same sheet gives the same bytes.
    ///
    /// # Errors
    /// [`SheetError::Pdf`].
    pub fn pdf(&self) -> Result<Vec<u8>, SheetError> {
        let failed = |error: &dyn std::fmt::Display| SheetError::Pdf(error.to_string());
        let standards =
            PdfStandards::new(&[PdfStandard::A_2a]).map_err(|error| failed(&error.message()))?;
        let options = PdfOptions {
            ident: Smart::Auto,
            creator: Smart::Custom(Some(format!("Gapledger {}", env!("CARGO_PKG_VERSION")))),
            timestamp: undated(),
            page_ranges: None,
            standards,
            tagged: true,
            pretty: false,
        };
        on_a_deep_stack(|| {
            typst_pdf::pdf(&self.document, &options)
                .map_err(|errors| SheetError::Pdf(words(&errors)))
        })?
    }
}

/// The date of a sheet whose survey has none: archives ask for one, and the day of printing would
/// make equal sheets differ.
fn undated() -> Option<Timestamp> {
    Datetime::from_ymd_hms(2000, 1, 1, 0, 0, 0).map(Timestamp::new_utc)
}

/// Runs work on a thread with room for deep calls.
fn on_a_deep_stack<T: Send>(work: impl FnOnce() -> T + Send) -> Result<T, SheetError> {
    let failed = |words: &str| SheetError::Worker(words.to_owned());
    thread::scope(|scope| {
        let worker = thread::Builder::new()
            .name("typesetter".to_owned())
            .stack_size(STACK)
            .spawn_scoped(scope, work)
            .map_err(|error| failed(&error.to_string()))?;
        worker.join().map_err(|_| failed("it stopped half-way"))
    })
}

fn words(errors: &[SourceDiagnostic]) -> String {
    let each: Vec<&str> = errors.iter().map(|error| error.message.as_str()).collect();
    each.join("; ")
}
