//! The survey file.
