//! What site mode remembers between frames.

use super::pad::Pad;

/// What site mode remembers between frames.
#[derive(Clone, Debug, Default)]
pub(in crate::window) struct SiteView {
    /// The window is in site mode.
    pub(in crate::window) on: bool,
    pub(super) pad: Pad,
}
