//! How much of the season the plots by the hour show, and their lines kept between frames.

/// Hours of a day.
pub(super) const DAY: usize = 24;

/// How much of the season is shown at once.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Span {
    #[default]
    Whole,
    Month,
    Week,
}

impl Span {
    pub(super) const ALL: [Self; 3] = [Self::Whole, Self::Month, Self::Week];

    pub(super) fn name(self) -> &'static str {
        match self {
            Self::Whole => "the whole winter",
            Self::Month => "30 days",
            Self::Week => "7 days",
        }
    }

    pub(super) fn hours(self, all: usize) -> usize {
        match self {
            Self::Whole => all,
            Self::Month => 30 * DAY,
            Self::Week => 7 * DAY,
        }
    }
}

/// What lines are made for: revision, options, first hour, hours, and how many pairs of points.
pub(super) type LinesKey = (u64, [usize; 2], usize, usize, usize);

/// Points of a line: hours of the season, and its figure.
pub(super) type Points = Vec<[f64; 2]>;

/// The lines, outside first, then each option.
#[derive(Clone, Debug, Default)]
pub(super) struct Lines {
    pub(super) humidity: [Points; 3],
    pub(super) temperature: [Points; 3],
    pub(super) machine: [Points; 2],
    pub(super) condensed: [Points; 2],
}
