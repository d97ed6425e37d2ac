//! A photo of a gap, and the marks drawn on it to show where the gap is.

/// A photo in the survey's photo folder.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Photo {
    /// Its file name in the photo folder.
    pub name: String,
    /// Words for what it shows; empty if none.
    pub caption: String,
    /// Marks on it, in the order drawn.
    pub marks: Vec<PhotoMark>,
    /// Whether it shows the gap after the work; otherwise as it was found.
    pub after_work: bool,
}

impl Photo {
    /// A photo without words and marks.
    #[must_use]
    pub fn new(name: impl Into<String>) -> Self {
        Self {
            name: name.into(),
            ..Self::default()
        }
    }
}

/// A mark on a photo. Places are shares of the picture as it stands upright: *across* from its
/// left edge in shares of its width, *down* from its upper edge in shares of its height.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PhotoMark {
    /// A circle round the gap.
    Circle {
        /// Middle, share of the width.
        across: f64,
        /// Middle, share of the height.
        down: f64,
        /// Radius, share of the width.
        radius: f64,
    },
    /// An arrow whose tip is at the gap.
    Arrow {
        /// Tail, share of the width.
        from_across: f64,
        /// Tail, share of the height.
        from_down: f64,
        /// Tip, share of the width.
        across: f64,
        /// Tip, share of the height.
        down: f64,
    },
}

impl PhotoMark {
    /// Its word.
    #[must_use]
    pub fn name(&self) -> &'static str {
        match self {
            Self::Circle { .. } => "circle",
            Self::Arrow { .. } => "arrow",
        }
    }

    /// Where it points: the middle of a circle, the tip of an arrow.
    #[must_use]
    pub fn place(&self) -> (f64, f64) {
        match *self {
            Self::Circle { across, down, .. } | Self::Arrow { across, down, .. } => (across, down),
        }
    }

    /// The mark with each of its places, across and down, and its radius changed.
    #[must_use]
    pub fn changed(
        self,
        place: impl Fn(f64, f64) -> (f64, f64),
        of_radius: impl Fn(f64) -> f64,
    ) -> Self {
        let (across, down) = self.place();
        let (across, down) = place(across, down);
        match self {
            Self::Circle { radius, .. } => Self::Circle {
                across,
                down,
                radius: of_radius(radius),
            },
            Self::Arrow {
                from_across,
                from_down,
                ..
            } => {
                let (from_across, from_down) = place(from_across, from_down);
                Self::Arrow {
                    from_across,
                    from_down,
                    across,
                    down,
                }
            }
        }
    }

    /// Whether it points into the picture and, for a circle, has a size that can be seen.
    #[must_use]
    pub fn is_in_picture(&self) -> bool {
        let (across, down) = self.place();
        let inside = |share: f64| (0.0..=1.0).contains(&share);
        let sized = match *self {
            Self::Circle { radius, .. } => radius > 0.0 && radius <= 1.0,
            Self::Arrow { .. } => true,
        };
        inside(across) && inside(down) && sized
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_mark_is_in_the_picture_when_it_points_there() {
        let circle = |across, radius| PhotoMark::Circle {
            across,
            down: 0.5,
            radius,
        };
        assert!(circle(0.0, 0.1).is_in_picture() && circle(1.0, 1.0).is_in_picture());
        assert!(!circle(1.1, 0.1).is_in_picture() && !circle(0.5, 0.0).is_in_picture());
        let arrow = |down| PhotoMark::Arrow {
            from_across: -0.2,
            from_down: 0.1,
            across: 0.5,
            down,
        };
        assert!(arrow(0.9).is_in_picture() && !arrow(-0.1).is_in_picture());
    }
}
