//! Sheets set whole.
