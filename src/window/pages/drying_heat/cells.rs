//! Measures that the cards of the page share.

/// Width of a card at least.
pub(super) const CARD_LEAST: f32 = 420.0;
/// Points of the screen for each millimetre of a drawing on this page.
pub(super) const POINTS_PER_MM: f32 = 4.0;
