//! Checks of the physics against outside sources.
