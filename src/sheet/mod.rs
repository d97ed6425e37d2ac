//! The job sheet: what is handed over on paper, and tables for spreadsheets.
//!
//! [`contents()`] turns a survey and its answers into blocks of text, tables and figures. It knows
//! no typesetter, so that what stands on a sheet can be read and tested without one. With the
//! feature `sheet`, [`typeset()`] sets those blocks into pages, which become a PDF or pictures.
//!
//! ```text
//! survey, answers, photos ──contents──▶ Sheet (blocks, pictures) ──typeset──▶ pages ──▶ PDF
//! ```
//!
//! What a person wrote is data throughout: it goes through a JSON file that the template reads,
//! and is never taken as the typesetter's language.

pub mod blocks;
pub mod choices;
mod clusters;
pub mod contents;
pub mod csv;
mod guarded;
pub mod locale;
pub mod output;
pub mod svg;

#[cfg(feature = "sheet")]
mod error;
#[cfg(feature = "sheet")]
mod fitting;
#[cfg(feature = "sheet")]
mod framed;
#[cfg(feature = "sheet")]
mod glyphs;
#[cfg(feature = "sheet")]
pub mod manuscript;
#[cfg(feature = "sheet")]
pub mod photos;
#[cfg(feature = "sheet")]
pub mod profile;
#[cfg(feature = "sheet")]
pub mod setting;
#[cfg(feature = "sheet")]
mod shorten;
#[cfg(feature = "sheet")]
pub mod typeset;
#[cfg(feature = "sheet")]
mod units;
#[cfg(feature = "sheet")]
mod unprintable;
#[cfg(feature = "sheet")]
mod world;

pub use choices::{Choices, Kind, Paper, Part, Workshop, WorkshopText, WorkshopTexts};
pub use contents::{Material, contents, guide};
#[cfg(feature = "sheet")]
pub use error::SheetError;
#[cfg(feature = "sheet")]
pub use manuscript::Manuscript;
#[cfg(feature = "sheet")]
pub use typeset::{Typeset, typeset};
#[cfg(feature = "sheet")]
pub use unprintable::unprintable;
