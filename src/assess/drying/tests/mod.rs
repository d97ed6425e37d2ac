//! The comparison.
