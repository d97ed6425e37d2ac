//! The bundled fonts, a leaf that every surface may draw with.
//!
//! B612, drawn for instrument panels, carries text and figures: all its digits are equally
//! wide, so columns of numbers line up. DejaVu Sans stands behind it for the signs that B612
//! lacks: arrows, superscripts and subscripts, ⌀, ⚠, ✔. Their licences lie beside the files.

/// B612 Regular, OpenType (SIL Open Font License 1.1).
pub const TEXT_REGULAR: &[u8] = include_bytes!("B612-Regular.otf");

/// B612 Bold, OpenType (SIL Open Font License 1.1).
pub const TEXT_BOLD: &[u8] = include_bytes!("B612-Bold.otf");

/// DejaVu Sans, TrueType (Bitstream Vera licence with public-domain changes).
pub const SIGNS: &[u8] = include_bytes!("DejaVuSans.ttf");
