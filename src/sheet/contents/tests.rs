//! What stands on the sheets.
